"""Entries that cannot be, and entries that hardly can.

In comes a profile as it was read; out go problems, which stop everything, and findings about likely slips,
which are only told. A single entry that is wrong in itself is refused in ``models``, not here.
"""
