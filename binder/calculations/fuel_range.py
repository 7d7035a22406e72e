"""Fuel: how far a level reaches, with and without the reserve."""

from typing import NamedTuple

from binder.quantities import FuelUse, Length, Volume, checks_dimensions


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

    Returns:
        Distance to the reserve, negative once the level is under it, and to empty [length].

    Raises:
        ValueError: fuel or reserve is below zero, or the use is not more than zero.

    Sources:
        arithmetic; practice (a quarter of the tank as reserve).

    Example:
        >>> from binder.quantities import registry
        >>> q = registry.Quantity
        >>> found = fuel_range(q(94, "gallon"), q(25, "gallon"), 1 / q(8, "mile / gallon"))
        >>> f"{found.to_reserve:.0f}, {found.to_empty:.0f}"
        '552 mile, 752 mile'
    """
    if usable.magnitude < 0 or reserve.magnitude < 0 or fuel_use.magnitude <= 0:
        raise ValueError("fuel and reserve cannot be below zero, and the use must be more than zero")
    return FuelRange(((usable - reserve) / fuel_use).to("mile"), (usable / fuel_use).to("mile"))
