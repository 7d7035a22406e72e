"""Fuel and exhaust fluid: what a distance takes, how far a level reaches, how long the fluid keeps."""

from functools import cache
from typing import NamedTuple

from binder.calculations.bounds import Band, is_same
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


class FuelRange(NamedTuple):
    """How far the tank reaches to the reserve and to its last usable drop; ``to_reserve`` may be negative."""

    to_reserve: Length
    to_empty: Length


@checks_dimensions
def fuel_range(usable: Volume, reserve: Volume, fuel_use: FuelUse) -> FuelRange:
    """How far the fuel aboard reaches.

    Args:
        usable: fuel the engine can draw [volume].
        reserve: part of it the owner keeps [volume].
        fuel_use: fuel a distance [fuel use].
    Returns: Distance to the reserve, negative once the level is under it, and to empty [length].
    Raises: ValueError: fuel or reserve is below zero, or the use is not more than zero.
    Sources: arithmetic; practice (a quarter of the tank as reserve).

    >>> found = fuel_range(q(94, "gallon"), q(25, "gallon"), 1 / q(8, "mile / gallon"))
    >>> f"{found.to_reserve:.0f}, {found.to_empty:.0f}"
    '552 mile, 752 mile'
    """
    if usable.magnitude < 0 or reserve.magnitude < 0 or fuel_use.magnitude <= 0:
        raise ValueError("fuel and reserve cannot be below zero, and the use must be more than zero")
    return FuelRange(((usable - reserve) / fuel_use).to("mile"), (usable / fuel_use).to("mile"))


# Of the volume of fuel, where the log has no better rate: S-FOSTER.
USUAL_DOSING = Band(registry.Quantity(2.0, "percent"), registry.Quantity(3.0, "percent"))


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
    Returns: The volume [volume].
    Sources: S-PROFORM.

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
    Returns: The distance [length].
    Raises: ValueError: fuel use or dosing is not more than zero.
    Sources: S-PROFORM.

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
    Returns: Least and most volume [volume].
    Sources: S-FOSTER.

    >>> band = exhaust_fluid_use_band(q(800, "mile"), 1 / q(8, "mile / gallon"))
    >>> f"{band.least:.0f}, {band.most:.0f}"
    '2 gallon, 3 gallon'
    """
    ends = [exhaust_fluid_used(distance, fuel_use, share) for share in (dosing.least, dosing.most)]
    return Band(*ends)


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
    Returns: Time and row; None above the table: nothing is stated there, use it at once or buy anew.
    Sources: S-FORD (a secondary copy; the standard is S-ISO22241-3).

    >>> f"{shelf_life(q(80, 'degF')).time:.0f}"
    '12 month'
    >>> shelf_life(q(104, "degF")) is None
    True
    """
    stored = float(storage_temperature.to("degree_Fahrenheit").m)
    for limit, months, holds_at_limit in _shelf_life_rows():
        is_on_edge = is_same(stored, limit)
        if (is_on_edge and holds_at_limit) or (stored < limit and not is_on_edge):
            row = registry.Quantity(limit, "degree_Fahrenheit")
            return ShelfLife(registry.Quantity(months, "month"), row)
    return None
