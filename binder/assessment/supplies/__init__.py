"""Supplies along the trip, sitting it out, and the water question.

In: the profile, with the levels, uses and stops of its plan. Out: figures of levels, ranges and days, and
findings of what ends, spills or is not stated. Not done here: what a level weighs (weights).
"""
