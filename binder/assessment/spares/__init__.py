"""Spares and tools: what this rig should carry against what it does, and what each bay holds.

In come the equipment, the entries of spares and tools, and the list of practice; out go what is wanted and
carried, loads of bays, cargo for the loads, and findings. What it does to axles is found in ``weights``.
"""
