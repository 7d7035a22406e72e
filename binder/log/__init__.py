"""The rig's log: readings, fills, faults and what was done, as entered; nothing is altered later.

In: what is typed in the terminal, or files of a page, a monitor or a mail. Out: entries in force.
Not here: what the entries mean for a figure or a card (``assessment``).
"""
