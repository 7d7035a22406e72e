"""The road.

In: places, times, distances, slopes, and the sizes of the rig.
Out: when stops are reached and the sun sets, the room under and beside the rig, the power a grade asks for.
Not here: whether the rig may go there (``assessment``).
"""
