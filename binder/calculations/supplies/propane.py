"""Propane: a day's use by the night's low, from the owner's own figures, and what a cold container can give.

Between two lows it is straight: what a furnace makes good falls in proportion to the cold outside. Colder
than the coldest there is no figure.
"""

from collections.abc import Sequence
from functools import cache
from typing import NamedTuple

from binder.calculations.bounds import Band, is_same, value_between, value_not_above, values_around
from binder.quantities import (
    Mass,
    Power,
    Pressure,
    Quantity,
    Temperature,
    Volume,
    VolumeRate,
    checks_dimensions,
    registry,
)
from binder.reference.constants import PROPANE_DENSITY
from binder.reference.sources import rows_of_table

MOST_PROPANE = registry.Quantity(80.0, "percent")
"""Of a container's volume, how much is filled (29 CFR 1910.110)."""


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
    Returns: The rate; warmer than the warmest row its rate, colder than the coldest None. Where the low is
        not known, the one figure that holds whatever the low, or None.
    Sources: log; arithmetic.

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


_COLUMNS = (0, 20, 40, 60, 70)  # Degrees Fahrenheit, the columns of the table.


@cache
def _vaporization_rows() -> tuple[dict[str, str], ...]:
    return tuple(rows_of_table("propane_vaporization_100lb_cylinder"))


@checks_dimensions
def vapor_a_cylinder_gives(held: Mass, temperature: Temperature) -> Power | None:
    """Heat a 100-lb cylinder can give off as vapor, standing, at the next lower row and column.

    Why: the liquid boils by warmth through the wetted wall, so less gas comes from a cold or a low
    cylinder, however much is left in it. Another container has another wall; no table of it is known.

    Args:
        held: propane in the cylinder [mass].
        temperature: of the air around it [temperature].
    Returns: The gross heat rate [power]; None under 10 lb, over 100 lb or under 0 °F. Over 70 °F it is the
        rate at 70 °F, which it exceeds.
    Sources: S-FLAME.

    >>> f"{vapor_a_cylinder_gives(q(45, 'pound'), q(25, 'degF')).to('btu/hour'):.0f}"
    '79000 btu / hour'
    """
    pounds, degrees = float(held.to("pound").m), float(temperature.to("degree_Fahrenheit").m)
    columns = [(float(column), float(column)) for column in _COLUMNS]
    column = value_not_above(columns, degrees)
    rows = sorted(_vaporization_rows(), key=lambda row: float(row["held_lb"]))
    full = float(rows[-1]["held_lb"])
    if column is None or (pounds > full and not is_same(pounds, full)):
        return None
    points = [(float(row["held_lb"]), float(row[f"BTU_h_at_{column:.0f}F"])) for row in rows]
    rate = value_not_above(points, pounds)
    return None if rate is None else registry.Quantity(rate, "btu / hour")


@cache
def _vapor_pressures() -> tuple[tuple[float, float], ...]:
    return tuple(
        (float(row["temp_F"]), float(row["psig"])) for row in rows_of_table("propane_vapor_pressure")
    )


@checks_dimensions
def propane_vapor_pressure(temperature: Temperature) -> Band | None:
    """Gauge pressure over liquid propane, between the table's rows around a temperature.

    Args:
        temperature: of the liquid [temperature].
    Returns: Least and most [pressure]; None outside -30 to 110 °F.
    Sources: S-FLAME.

    >>> band = propane_vapor_pressure(q(25, "degF"))
    >>> f"{band.least:.0f}, {band.most:.0f}"
    '42 psi, 53 psi'
    """
    around = values_around(_vapor_pressures(), float(temperature.to("degree_Fahrenheit").m))
    if not around:
        return None
    return Band(_psi(around[0]), _psi(around[-1]))


def _psi(value: float) -> Pressure:
    return registry.Quantity(value, "psi")


@checks_dimensions
def propane_held(capacity: Volume | None, usable: Volume | None) -> Mass | None:
    """Propane a container holds when it is filled, as cylinders are named.

    Args:
        capacity: of the whole container; not known: None [volume].
        usable: its 80 % fill; not known: None [volume].
    Returns: What it holds [mass]; None where neither is known.
    Sources: 29 CFR 1910.110; S-COMAR.

    >>> f"{propane_held(q(5.9, 'gal'), None):.1f}"
    '20.0 pound'
    """
    filled = capacity * MOST_PROPANE if usable is None and capacity is not None else usable
    return None if filled is None else (filled * PROPANE_DENSITY.quantity).to("pound")
