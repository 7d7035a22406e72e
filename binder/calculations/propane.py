"""Propane: what a cold container can still give."""

from functools import cache

from binder.calculations.bands import Band
from binder.calculations.table_rows import is_same, value_not_above, values_around
from binder.quantities import (
    Mass,
    Power,
    Pressure,
    Temperature,
    checks_dimensions,
    registry,
)
from binder.reference.sources import rows_of_table

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

    Returns:
        The gross heat rate [power]; None under 10 lb, over 100 lb or under 0 °F. Over 70 °F it is the
        rate at 70 °F, which it exceeds.

    Sources:
        S-FLAME.

    Example:
        >>> q = registry.Quantity
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

    Returns:
        Least and most [pressure]; None outside -30 to 110 °F.

    Sources:
        S-FLAME.

    Example:
        >>> band = propane_vapor_pressure(registry.Quantity(25, "degF"))
        >>> f"{band.least:.0f}, {band.most:.0f}"
        '42 psi, 53 psi'
    """
    around = values_around(_vapor_pressures(), float(temperature.to("degree_Fahrenheit").m))
    if not around:
        return None
    return Band(_psi(around[0]), _psi(around[-1]))


def _psi(value: float) -> Pressure:
    return registry.Quantity(value, "psi")
