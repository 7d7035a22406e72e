"""Tires.

In: what is stamped, printed in a load table or measured, and the load on one tire.
Out: cold pressures, limits, mismatches, ages, and doubts about a typed table.
Not here: the load itself (``weights``), and which of several tires of an axle decides (``assessment``).
"""
