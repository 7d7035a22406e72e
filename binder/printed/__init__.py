"""What is printed and in hand, and what of it is no longer so.

In: an assessment with its pages, and ``printed.yaml``. Out: the parts that differ, what moved on them and
which entries of the owner's files moved it. No part is laid out here, and no file is written.
"""

FILE = "printed.yaml"
"""Where it is kept, in the rig's folder."""
