"""What a terminal sees besides the answers of the commands: how far a build is, and how a command ended.

In: steps, outcomes and faults. Out: lines and exit codes. Nothing is computed here.
"""
