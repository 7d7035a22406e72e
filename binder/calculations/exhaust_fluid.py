"""Diesel exhaust fluid: use as a band, what a tank or a jug is worth, shelf life, freezing."""

from datetime import date
from functools import cache
from math import ceil
from typing import NamedTuple

from binder.calculations.bands import Band
from binder.calculations.calendar_dates import date_after
from binder.calculations.table_rows import is_same
from binder.quantities import (
    FuelUse,
    Length,
    Quantity,
    Share,
    Temperature,
    Time,
    Volume,
    checks_dimensions,
    registry,
)
from binder.reference.sources import rows_of_table

# Of the volume of fuel, where the log has no better rate: S-FOSTER.
USUAL_DOSING = Band(registry.Quantity(2.0, "percent"), registry.Quantity(3.0, "percent"))
FREEZES_AT = registry.Quantity(-11.0, "degree_Celsius")  # S-DEFTRADE.
GROWS_ON_FREEZING = registry.Quantity(7.0, "percent")  # S-FOSTER.


class ShelfLife(NamedTuple):
    """How long fluid keeps at a constant storage temperature, and the table's row it was read from."""

    time: Time
    row_temperature: Temperature


@checks_dimensions
def exhaust_fluid_used(distance: Length, fuel_use: FuelUse, dosing: Share) -> Volume:
    """Exhaust fluid a distance takes.

    Args:
        distance: driven [length].
        fuel_use: fuel a distance [fuel use].
        dosing: exhaust fluid as a share of the volume of fuel [dimensionless].

    Returns:
        The volume [volume].

    Sources:
        S-PROFORM.

    Example:
        >>> q = registry.Quantity
        >>> used = exhaust_fluid_used(q(50_000, "mile"), 1 / q(8, "mile / gallon"), q(2, "percent"))
        >>> f"{used.to('gallon'):.0f}"
        '125 gallon'
    """
    used: Quantity = (distance * fuel_use * dosing).to("gallon")
    return used


@checks_dimensions
def distance_on_exhaust_fluid(held: Volume, fuel_use: FuelUse, dosing: Share) -> Length:
    """Distance a volume of exhaust fluid is worth: a tank's range, or what a carried jug adds.

    Args:
        held: in the tank or the jug [volume].
        fuel_use: fuel a distance [fuel use].
        dosing: exhaust fluid as a share of the volume of fuel [dimensionless].

    Returns:
        The distance [length].

    Raises:
        ValueError: fuel use or dosing is not more than zero.

    Sources:
        S-PROFORM.

    Example:
        >>> q = registry.Quantity
        >>> f"{distance_on_exhaust_fluid(q(2.5, 'gallon'), 1 / q(8, 'mile/gallon'), q(2.5, 'percent')):.0f}"
        '800 mile'
    """
    if fuel_use.magnitude <= 0 or dosing.magnitude <= 0:
        raise ValueError("fuel use and dosing must be more than zero")
    distance: Quantity = (held / (fuel_use * dosing)).to("mile")
    return distance


@checks_dimensions
def exhaust_fluid_use_band(distance: Length, fuel_use: FuelUse, dosing: Band = USUAL_DOSING) -> Band:
    """Exhaust fluid a distance takes at both ends of the dosing.

    Args:
        distance: driven [length].
        fuel_use: fuel a distance [fuel use].
        dosing: least and most share of the volume of fuel [dimensionless].

    Returns:
        Least and most volume [volume].

    Sources:
        S-FOSTER.

    Example:
        >>> q = registry.Quantity
        >>> band = exhaust_fluid_use_band(q(800, "mile"), 1 / q(8, "mile / gallon"))
        >>> f"{band.least:.0f}, {band.most:.0f}"
        '2 gallon, 3 gallon'
    """
    ends = [exhaust_fluid_used(distance, fuel_use, share) for share in (dosing.least, dosing.most)]
    return Band(*ends)


@checks_dimensions
def exhaust_fluid_distance_band(held: Volume, fuel_use: FuelUse, dosing: Band = USUAL_DOSING) -> Band:
    """Distance a volume of exhaust fluid is worth at both ends of the dosing.

    Args:
        held: in the tank or the jug [volume].
        fuel_use: fuel a distance [fuel use].
        dosing: least and most share of the volume of fuel [dimensionless].

    Returns:
        Least and most distance [length].

    Raises:
        ValueError: fuel use or dosing is not more than zero.

    Sources:
        S-FOSTER.

    Example:
        >>> q = registry.Quantity
        >>> band = exhaust_fluid_distance_band(q(15, "gallon"), 1 / q(8, "mile / gallon"))
        >>> f"{band.least:.0f}, {band.most:.0f}"
        '4000 mile, 6000 mile'
    """
    ends = [distance_on_exhaust_fluid(held, fuel_use, share) for share in (dosing.most, dosing.least)]
    return Band(*ends)


@checks_dimensions
def fills_needed(volume: Volume, tank: Volume) -> int:
    """How many fills of a tank a volume takes.

    Args:
        volume: needed [volume].
        tank: capacity of the tank [volume].

    Returns:
        The count, part fills up.

    Raises:
        ValueError: the tank holds nothing.

    Sources:
        S-PROFORM.

    Example:
        >>> fills_needed(registry.Quantity(125, "gallon"), registry.Quantity(10, "gallon"))
        13
    """
    if tank.magnitude <= 0:
        raise ValueError("a tank must hold more than nothing")
    fills = float((volume / tank).to("").m)
    return round(fills) if is_same(fills, round(fills)) else ceil(fills)


@cache
def _shelf_life_rows() -> tuple[tuple[float, float, bool], ...]:
    rows = rows_of_table("exhaust_fluid_shelf_life")
    return tuple(
        (float(row["storage_temp_F"]), float(row["shelf_life_months"]), row["comparison"] == "<=")
        for row in rows
    )


@checks_dimensions
def shelf_life(storage_temperature: Temperature) -> ShelfLife | None:
    """How long exhaust fluid keeps at a constant storage temperature.

    Why: some rows of the table hold below their temperature, others at it too; a temperature on the edge
    of a row that holds only below it takes the next, shorter row.

    Args:
        storage_temperature: the warmest it is stored at [temperature].

    Returns:
        Time and row; None above the table: nothing is stated there, use it at once or buy anew.

    Sources:
        S-FORD (a secondary copy; the standard is S-ISO22241-3).

    Example:
        >>> f"{shelf_life(registry.Quantity(80, 'degF')).time:.0f}"
        '12 month'
        >>> shelf_life(registry.Quantity(104, "degF")) is None
        True
    """
    stored = float(storage_temperature.to("degree_Fahrenheit").m)
    for limit, months, holds_at_limit in _shelf_life_rows():
        is_on_edge = is_same(stored, limit)
        if (is_on_edge and holds_at_limit) or (stored < limit and not is_on_edge):
            row = registry.Quantity(limit, "degree_Fahrenheit")
            return ShelfLife(registry.Quantity(months, "month"), row)
    return None


@checks_dimensions
def shelf_life_ends(made: date, storage_temperature: Temperature) -> date | None:
    """Day on which exhaust fluid has stood as long as it keeps.

    Args:
        made: on the container, or when it was bought [date].
        storage_temperature: the warmest it is stored at [temperature].

    Returns:
        The date; None above the table.

    Sources:
        S-FORD (a secondary copy; the standard is S-ISO22241-3).

    Example:
        >>> shelf_life_ends(date(2026, 1, 15), registry.Quantity(90, "degF"))
        datetime.date(2026, 7, 15)
    """
    life = shelf_life(storage_temperature)
    return None if life is None else date_after(made, life.time)


@checks_dimensions
def is_exhaust_fluid_frozen(low: Temperature) -> bool:
    """Tell whether exhaust fluid freezes.

    Args:
        low: the lowest it gets [temperature].

    Returns:
        True at -11 °C (12 °F) and under.

    Sources:
        S-DEFTRADE.

    Example:
        >>> is_exhaust_fluid_frozen(registry.Quantity(12, "degF"))
        True
        >>> is_exhaust_fluid_frozen(registry.Quantity(15, "degF"))
        False
    """
    here, there = float(low.to("kelvin").m), float(FREEZES_AT.to("kelvin").m)
    return here < there or is_same(here, there)


@checks_dimensions
def most_before_freezing(capacity: Volume) -> Volume:
    """Most exhaust fluid a tank may hold where it freezes, so that the ice has room.

    Args:
        capacity: of the tank [volume].

    Returns:
        The volume, 7 % of the tank left as air [volume].

    Sources:
        S-FOSTER.

    Example:
        >>> f"{most_before_freezing(registry.Quantity(15, 'gallon')):.2f}"
        '13.95 gallon'
    """
    most: Quantity = capacity * (1 - GROWS_ON_FREEZING.to("").m)
    return most
