"""What joins the vehicles.

In come couplings and the loads in every state; out go limits of the chain, down loads and shares, what keeps
a towed vehicle safe, the length of the whole. How wide and high it is, and where it passes, is not here.
"""
