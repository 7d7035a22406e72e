"""Values of figures by their type, None where the figure or its value is not known."""

from datetime import datetime

from binder.assessment.figures import Figure
from binder.quantities import Quantity


def quantity_of(figure: Figure | None) -> Quantity | None:
    """Give a figure's quantity."""
    return figure.quantity if figure else None


def moment_of(figure: Figure | None) -> datetime | None:
    """Give a figure's moment."""
    value = figure.value if figure else None
    return value if isinstance(value, datetime) else None


def words_of(figure: Figure | None) -> str | None:
    """Give a figure's words."""
    value = figure.value if figure else None
    return value if isinstance(value, str) else None
