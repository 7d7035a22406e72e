"""From a rig's folder to a printing in a folder: one rig, many, and what is in hand.

In: folders and options. Out: files, written by ``publishing``, and reports. Nothing is said to a terminal.
"""
