"""This rig on this trip: models wired into calculations once."""
