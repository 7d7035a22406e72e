"""Supplies.

In: what tanks and batteries hold, what is used of it, and the legs and stays of a trip.
Out: levels at every moment, how far and how long they last, what the cold leaves of them.
Not here: what a rig uses when its owner does not say, and what to do about it (``assessment``).
"""
