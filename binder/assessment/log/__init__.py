"""What the rig's log says of the rig: pressures lost, newest readings, open faults.

In come the entries that count, out go figures and findings; tread goes to the register of tires. No entry is
refused: what is odd is left out and told. Entries are read and kept in ``binder/log``, not here.
"""
