"""From values to words.

In come kinds, subjects and raw quantities of the ledger; out go finished sentences, keys and numbers in the
rig's units, for cards, pages, terminal, ``explain`` and ``numbers.json`` alike. Nothing is decided here but
units, digits and the direction a number is rounded to.
"""
