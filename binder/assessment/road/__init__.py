"""What is met on the road: posted clearances and other limits, tunnels, long grades, elevations.

In come the days of the plan and the rig's height, sizes, weight and retarder; out go what is left under each
sign, what each grade asks, and findings. When and how far the rig drives is found in ``route``, not here.
"""
