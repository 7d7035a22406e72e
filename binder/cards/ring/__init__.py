"""The cards of the ring: an assessment comes in, finished cards go out.

Their fixed words stand in ``templates/procedures``; what a figure says is worded here. Nothing is calculated
here, and which cards a rig has, in which order, is said in ``order.py``.
"""
