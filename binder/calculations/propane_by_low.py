"""Propane a day by the night's low, from the owner's own figures at a few lows.

Straight between two of them: what a furnace makes good falls in proportion to the cold outside. Colder than
the coldest there is no figure.
"""

from collections.abc import Sequence
from typing import NamedTuple

from binder.calculations.table_rows import value_between
from binder.quantities import Quantity, Temperature, VolumeRate, checks_dimensions, registry


class PropaneAtLow(NamedTuple):
    """What is used a day where the night's low is this; ``low`` None: whatever the low."""

    low: Temperature | None
    use: VolumeRate


@checks_dimensions
def propane_use_at(rows: Sequence[PropaneAtLow], low: Temperature | None) -> VolumeRate | None:
    """Propane a day at a night's low.

    Args:
        rows: the owner's figures, in any order.
        low: of the night; not known: None [temperature].

    Returns:
        The rate; warmer than the warmest row its rate, colder than the coldest None. Where the low is not
        known, the one figure that holds whatever the low, or None.

    Sources:
        log; arithmetic.

    Example:
        >>> q = registry.Quantity
        >>> mild = PropaneAtLow(q(50, "degF"), q(0.9, "gal/day"))
        >>> rows = [mild, PropaneAtLow(q(20, "degF"), q(3.5, "gal/day"))]
        >>> f"{propane_use_at(rows, q(35, 'degF')):.1f}", propane_use_at(rows, q(10, "degF"))
        ('2.2 gallon / day', None)
    """
    always = next((row.use for row in rows if row.low is None), None)
    points = sorted(
        (float(row.low.to("degree_Fahrenheit").m), float(row.use.to("gallon / day").m))
        for row in rows
        if row.low is not None
    )
    if low is None or not points:
        return always
    degrees = float(low.to("degree_Fahrenheit").m)
    warmest, rate = points[-1]
    found = rate if degrees >= warmest else value_between(points, degrees)
    result: Quantity | None = None if found is None else registry.Quantity(found, "gallon / day")
    return result
