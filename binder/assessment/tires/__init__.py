"""Cold inflation and the tire register.

In come tires, wheels, labels and the loads of every state; out go pressures, lines, fill tables, ages and
findings. What an axle weighs is found in ``weights``, not here.
"""
