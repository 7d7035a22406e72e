"""Values of figures by their type, None where the figure or its value is not known."""

from datetime import datetime

from binder.assessment.figures import Figure
from binder.quantities import Quantity


def quantity_of(figure: Figure | None) -> Quantity | None:
    """Give a figure's quantity.

    Args:
        figure: the figure, None where there is none.

    Returns:
        The quantity; None where it is not known or the value is something else.

    Sources:
        Design.

    Example:
        >>> quantity_of(None)
    """
    return figure.quantity if figure else None


def moment_of(figure: Figure | None) -> datetime | None:
    """Give a figure's moment.

    Args:
        figure: the figure, None where there is none.

    Returns:
        The moment in its own zone; None where it is not known or the value is something else.

    Sources:
        Design.

    Example:
        >>> moment_of(None)
    """
    value = figure.value if figure else None
    return value if isinstance(value, datetime) else None


def words_of(figure: Figure | None) -> str | None:
    """Give a figure's words.

    Args:
        figure: the figure, None where there is none.

    Returns:
        The words; None where they are not known or the value is something else.

    Sources:
        Design.

    Example:
        >>> words_of(Figure("a.b", "Boise", "assumed", "as planned", "trip plan"))
        'Boise'
    """
    value = figure.value if figure else None
    return value if isinstance(value, str) else None
