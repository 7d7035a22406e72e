"""Fluids of the rig against the cold.

In: the fluids of the profile, and the lows of the trip's nights. Out: figures of what each protects to and
lacks, findings of what is not noted, and what a cold night harms. Not done here: the nights (route).
"""
