"""The days of a trip.

In comes the plan; out go distances, times, daylight, the last fuel, lows of the nights, the wind to park at,
and findings. What stands at the roadside is judged in ``road``, what the tanks hold in ``supplies``.
"""
