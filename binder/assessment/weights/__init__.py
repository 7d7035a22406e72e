"""What the rig weighs in every state of the trip.

In come vehicles, scale tickets and the plan with its walked levels; out go loads beside ratings, heavier
wheel ends, doubts about tickets, what labels leave, federal groups. What tires and couplings make of
these loads is not here.
"""
