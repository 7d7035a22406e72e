"""Plain numbers out of quantities, quickly, for the loops that need thousands of them."""

from collections.abc import Iterable
from functools import cache

from binder.quantities.dimensions import Quantity, registry


@cache
def _factor(unit_items: Iterable[tuple[str, float]], wanted: str) -> float:
    # The items of a unit are quicker to look up than the unit.
    unit = registry.Unit(registry.UnitsContainer(dict(unit_items)))
    if registry.Quantity(0.0, unit).m_as(wanted) != 0.0:
        raise ValueError(f"{unit} to {wanted} is no mere factor")
    return float(registry.Quantity(1.0, unit).m_as(wanted))


def number_in(quantity: Quantity, unit: str) -> float:
    """Number of units in a quantity: ``m_as``, with the factor between two units worked out once.

    Args:
        quantity: of any dimension but temperature, whose scales differ by more than a factor [any].
        unit: the unit wanted, as pint names it [name].

    Returns:
        The number.

    Raises:
        ValueError: the two scales differ by more than a factor.

    Sources:
        arithmetic.

    Example:
        >>> number_in(registry.Quantity(2.0, "foot"), "inch")
        24.0
    """
    return float(quantity.m) * _factor(tuple(quantity.unit_items()), unit)
