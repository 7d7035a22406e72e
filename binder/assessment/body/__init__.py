"""The rig as a body, and what it carries for safety.

In come sizes, axles, couplings and equipment; out go height, widths, tail swing, gaps to keep, places of the
warning devices, and findings. Weights are not found here, nor which spares to carry.
"""
