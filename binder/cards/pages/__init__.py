"""Pages of the binder that are looked up.

In comes the assessment, worded by the rig's words; out go pages of finished blocks. What is carried on the
ring is not made here, and nothing is laid out.
"""
