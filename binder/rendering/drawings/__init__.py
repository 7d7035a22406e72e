"""Drawings as SVG.

In: a view from ``cards``: what is to be seen, in finished words and numbers.
Out: a drawing at true size, its labels placed so that none meets another.
Not here: which drawing stands on which card, and whether it fits there (``placing``).
"""
