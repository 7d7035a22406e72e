"""What a number lies between: two ends, rows of a table, steps of a gauge; and whether it reaches a limit.

Values between two rows are taken straight between them only where the curve is all but straight; where
safety asks, the row on the safe side stands. Outside the table there is no value.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import isclose

from binder.quantities import Pressure, Quantity, checks_dimensions, registry, round_down, round_up


@dataclass(frozen=True)
class Band:
    """The least and the most a value may be."""

    least: Quantity
    most: Quantity

    def __post_init__(self) -> None:
        if self.least > self.most:
            raise ValueError(f"a band from {self.least} to {self.most} is upside down")


Points = Sequence[tuple[float, float]]
"""Rows of place and value, places rising."""

# Two figures meant to be equal differ in the last bits after a unit conversion.
_RELATIVE_TOLERANCE, _ABSOLUTE_TOLERANCE = 1e-9, 1e-7


def is_same(value: float, limit: float) -> bool:
    """Tell whether two numbers are the same but for the last bits of a unit conversion.

    Args:
        value: one of them [any].
        limit: the other [same as value].
    Returns: True where they are.
    Sources: arithmetic.

    >>> is_same(0.1 + 0.2, 0.3), is_same(0.3, 0.301)
    (True, False)
    """
    return isclose(value, limit, rel_tol=_RELATIVE_TOLERANCE, abs_tol=_ABSOLUTE_TOLERANCE)


def values_around(points: Points, place: float) -> tuple[float, ...]:
    """Values of the rows a place lies between, or of the row it stands on.

    Args:
        points: rows of place and value, places rising.
        place: where the table is read [same as the places].
    Returns: One value on a row, two between rows, none outside the table.
    Sources: arithmetic.

    >>> table = [(10.0, -3.0), (20.0, -8.0)]
    >>> values_around(table, 20), values_around(table, 12), values_around(table, 21)
    ((-8.0,), (-3.0, -8.0), ())
    """
    for at, value in points:
        if is_same(at, place):
            return (value,)
    below = [value for at, value in points if at < place]
    above = [value for at, value in points if at > place]
    return (below[-1], above[0]) if below and above else ()


def value_not_above(points: Points, place: float) -> float | None:
    """Value of the last row whose place is not above the one asked for.

    Args:
        points: rows of place and value, places rising.
        place: where the table is read [same as the places].
    Returns: The row's value; beyond the last row that row's; None below the first.
    Sources: arithmetic.

    >>> table = [(0.0, 24.5), (20.0, 42.0)]
    >>> value_not_above(table, 19), value_not_above(table, 30), value_not_above(table, -1)
    (24.5, 42.0, None)
    """
    return next((value for at, value in reversed(points) if at < place or is_same(at, place)), None)


def value_between(points: Points, place: float) -> float | None:
    """Value straight between the two rows around a place.

    Args:
        points: rows of place and value, places rising.
        place: where the table is read [same as the places].
    Returns: The value; None outside the table.
    Sources: arithmetic.

    >>> table = [(0.0, 40.0), (32.0, 75.0)]
    >>> value_between(table, 16), value_between(table, 33)
    (57.5, None)
    """
    around = values_around(points, place)
    if len(around) < 2:  # noqa: PLR2004 - on a row, or outside.
        return around[0] if around else None
    below = max(at for at, _ in points if at < place)
    above = min(at for at, _ in points if at > place)
    low, high = around
    return low + (high - low) * (place - below) / (above - below)


def is_at_least(value: Quantity, limit: Quantity) -> bool:
    """Tell whether a value reaches a limit; equal is enough, whatever the units.

    Args:
        value: the value [any].
        limit: what it is held against [same as value].
    Returns: True where it is equal or more, to a billionth.
    Sources: arithmetic.

    >>> is_at_least(q(1880, "pound"), q(1880 * 0.45359237, "kg"))
    True
    """
    if value.units == limit.units:
        here, there = float(value.m), float(limit.m)
    else:
        here, there = float(value.to_root_units().m), float(limit.to_root_units().m)
    return here >= there - abs(there) * _RELATIVE_TOLERANCE


@checks_dimensions
def rounded_up(pressure: Pressure, step: Pressure) -> Pressure:
    """Lowest pressure a card shows that is not below the given one.

    Args:
        pressure: to be shown [pressure].
        step: of the printed unit, such as 1 psi or 5 kPa [pressure].
    Returns: A whole number of steps, in the step's unit [pressure].
    Sources: arithmetic.

    >>> f"{rounded_up(q(80, 'psi'), q(5, 'kPa')):.0f}"
    '555 kilopascal'
    """
    return registry.Quantity(round_up(pressure.to(step.units).m, step.m), step.units)


@checks_dimensions
def rounded_down(pressure: Pressure, step: Pressure) -> Pressure:
    """Highest pressure a card shows that is not above the given one.

    Args:
        pressure: to be shown [pressure].
        step: of the printed unit, such as 1 psi or 5 kPa [pressure].
    Returns: A whole number of steps, in the step's unit [pressure].
    Sources: arithmetic.

    >>> f"{rounded_down(q(552, 'kPa'), q(1, 'psi')):.0f}"
    '80 psi'
    """
    return registry.Quantity(round_down(pressure.to(step.units).m, step.m), step.units)
