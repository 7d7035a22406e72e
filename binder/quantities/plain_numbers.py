"""Plain numbers of quantities, for loops that ask thousands of times, and their rounding."""

import math
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

    Returns: The number.
    Raises: ValueError: the two scales differ by more than a factor.
    Sources: arithmetic.

    >>> number_in(q(2.0, "foot"), "inch")
    24.0
    """
    return float(quantity.m) * _factor(tuple(quantity.unit_items()), unit)


def round_up(value: float, step: float = 1.0) -> float:
    """Round up to a multiple of a step.

    Args:
        value: the number to round [any].
        step: the step, more than zero [same as value].

    Returns: The smallest multiple of the step that is not below the value.
    Sources: Arithmetic; a billionth of a step is forgiven so that 95.0000000001 stays 95.

    >>> round_up(95.2), round_up(96.1, 5.0)
    (96.0, 100.0)
    """
    return math.ceil(value / step - 1e-9) * step


def round_down(value: float, step: float = 1.0) -> float:
    """Round down to a multiple of a step.

    Args:
        value: the number to round [any].
        step: the step, more than zero [same as value].

    Returns: The largest multiple of the step that is not above the value.
    Sources: Arithmetic; a billionth of a step is forgiven so that 94.9999999999 is 95.

    >>> round_down(95.8), round_down(99.0, 5.0)
    (95.0, 95.0)
    """
    return math.floor(value / step + 1e-9) * step
