"""Propane: how much a tank may hold, hours of burning, and what a cold container can still give."""

from collections.abc import Iterable
from functools import cache
from typing import Literal, NamedTuple, TypeAlias

from binder.calculations.bands import Band
from binder.calculations.table_rows import is_same, value_not_above, values_around
from binder.quantities import (
    Mass,
    Power,
    Pressure,
    Quantity,
    Share,
    Temperature,
    Time,
    Volume,
    VolumeRate,
    checks_dimensions,
    registry,
)
from binder.reference.sources import rows_of_table

HeatBasis: TypeAlias = Literal["gross", "net"]

FILL_LIMIT = registry.Quantity(80.0, "percent")  # 29 CFR 1910.110.
CYLINDER_FILLING_DENSITY = registry.Quantity(42.0, "percent")  # Of the water's weight: S-ENGFIX.


class HeatingValue(NamedTuple):
    """Heat in a volume of propane: ``gross`` counts the water's condensing (HHV), ``net`` does not (LHV)."""

    heat_per_volume: Quantity
    basis: HeatBasis


class Burner(NamedTuple):
    """What an appliance burns: its rating, on which basis, and the share of the time it is on.

    American appliances are rated gross.
    """

    rating: Power
    running: Share
    basis: HeatBasis = "gross"


def _gross(value: float) -> HeatingValue:
    return HeatingValue(registry.Quantity(value, "btu / gallon"), "gross")


# The least gives the fewest hours: S-EIA-SEC (a secondary copy) and S-FLAME.
LEAST_HEATING_VALUE, MOST_HEATING_VALUE = _gross(91_333.0), _gross(91_690.0)


@checks_dimensions
def propane_when_full(water_capacity: Volume, fill_limit: Share = FILL_LIMIT) -> Volume:
    """Propane a tank holds when its stop valve shuts.

    Args:
        water_capacity: of the whole tank [volume].
        fill_limit: share that may be liquid [dimensionless].

    Returns:
        The volume [volume].

    Sources:
        29 CFR 1910.110.

    Example:
        >>> f"{propane_when_full(registry.Quantity(30, 'gallon')):.0f}"
        '24 gallon'
    """
    volume: Quantity = water_capacity * fill_limit.to("").m
    return volume


class LiquidState(NamedTuple):
    """Propane as the filling rule sees it: density at 60 °F over water, and the volume it has now.

    ``volume_correction`` is the volume at 60 °F over the volume at the liquid's temperature.
    """

    specific_gravity: Share
    volume_correction: Share


@checks_dimensions
def propane_by_filling_density(water_capacity: Volume, filling_density: Share, liquid: LiquidState) -> Volume:
    """Liquid a container may hold by the weight rule, at the liquid's own temperature.

    Args:
        water_capacity: of the whole container [volume].
        filling_density: weight of propane over the weight of water that fills it [dimensionless].
        liquid: its specific gravity and the correction of its volume.

    Returns:
        The volume [volume].

    Sources:
        S-OSHA1910.

    Example:
        >>> q = registry.Quantity
        >>> liquid = LiquidState(q(0.51, ""), q(1.031, ""))
        >>> f"{propane_by_filling_density(q(100, 'gallon'), q(42, 'percent'), liquid):.1f}"
        '79.9 gallon'
    """
    over = liquid.specific_gravity.to("").m * liquid.volume_correction.to("").m
    volume: Quantity = water_capacity * (filling_density.to("").m / over)
    return volume


@checks_dimensions
def propane_in_cylinder(water_capacity: Mass, filling_density: Share = CYLINDER_FILLING_DENSITY) -> Mass:
    """Propane a cylinder may hold, from the water capacity stamped on its collar.

    Args:
        water_capacity: stamped WC [mass].
        filling_density: weight of propane over the weight of water that fills it [dimensionless].

    Returns:
        The weight [mass].

    Sources:
        S-ENGFIX; S-OSHA1910.

    Example:
        >>> f"{propane_in_cylinder(registry.Quantity(47.6, 'pound')):.1f}"
        '20.0 pound'
    """
    weight: Quantity = water_capacity * filling_density.to("").m
    return weight


def propane_use(burners: Iterable[Burner], heating_value: HeatingValue = LEAST_HEATING_VALUE) -> VolumeRate:
    """Propane a set of appliances burns.

    Args:
        burners: ratings and how much of the time each is on.
        heating_value: on the same basis as the ratings.

    Returns:
        The rate over the whole time, pauses included [volume rate].

    Raises:
        ValueError: ratings and heating value are on different bases, or one is not more than zero.

    Sources:
        S-EIA-SEC; S-FLAME.

    Example:
        >>> furnace = Burner(registry.Quantity(30_000, "btu/hour"), registry.Quantity(50, "percent"))
        >>> f"{propane_use([furnace]).to('gallon/day'):.2f}"
        '3.94 gallon / day'
    """
    if heating_value.heat_per_volume.magnitude <= 0:
        raise ValueError("a heating value must be more than zero")
    rate = registry.Quantity(0.0, "gallon / hour")
    for burner in burners:
        if burner.basis != heating_value.basis:
            raise ValueError(
                f"a burner rated {burner.basis} cannot be used with a {heating_value.basis} heating value"
            )
        rate += (burner.rating * burner.running / heating_value.heat_per_volume).to("gallon / hour")
    return rate


@checks_dimensions
def propane_lasts(held: Volume, use: VolumeRate) -> Time | None:
    """How long propane lasts at a rate.

    Args:
        held: liquid that can be used [volume].
        use: rate over the whole time [volume rate].

    Returns:
        The time [time]; None where nothing is used.

    Raises:
        ValueError: the rate is below zero.

    Sources:
        arithmetic.

    Example:
        >>> q = registry.Quantity
        >>> f"{propane_lasts(q(24, 'gallon'), q(3.5, 'gallon/day')).to('day'):.1f}"
        '6.9 day'
    """
    if use.magnitude < 0:
        raise ValueError("propane use cannot be below zero")
    if use.magnitude == 0:
        return None
    time: Quantity = (held / use).to("hour")
    return time


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
