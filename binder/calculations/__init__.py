"""Pure functions by topic: quantities in, quantities out, and nothing of a rig, a card or a file.

Each folder says what comes in, what goes out, and what is not done there.
"""
