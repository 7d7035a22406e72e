"""A quantity already entered in the ledger, for assessments that build on another."""

from binder.assessment.figures import Ledger
from binder.quantities import Quantity


def known_quantity(ledger: Ledger, key: str) -> Quantity | None:
    """Give the quantity entered under a key."""
    figure = ledger.figures.get(key)
    return figure.quantity if figure else None
