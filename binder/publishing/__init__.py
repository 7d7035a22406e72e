"""A printing put in place, whole or not at all, in a folder held for one process.

In: finished files. Out: a folder with them. What they say is not known here.
"""
