"""Weights.

In: weights with their places, weighed axles and wheel ends, labels.
Out: what stands on each axle and end, what a label leaves, what federal law compares it with.
Not here: what a part of the rig weighs, and what may be towed (``coupling``).
"""
