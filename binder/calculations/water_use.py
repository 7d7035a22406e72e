"""Water for people: the owner's own use, beside what relief bodies count on."""

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType
from typing import NamedTuple

from binder.calculations.bands import Band
from binder.quantities import registry
from binder.reference.sources import rows_of_table

EMERGENCY_STORE = "emergency store (FEMA)"


class WaterNeed(NamedTuple):
    """What one person needs a day, and whence the figure is."""

    a_person: Band
    source: str


@cache
def water_needs() -> Mapping[str, WaterNeed]:
    """Published water needs of one person, by use.

    Returns:
        Least and most a day for each use [volume rate].

    Sources:
        S-FEMA; S-SPHERE; S-EPAWS.

    Example:
        >>> need = water_needs()["total basic"].a_person
        >>> f"{need.least:.1f} to {need.most:.1f}"
        '7.5 liter / day to 15.0 liter / day'
    """
    return MappingProxyType({row["use"]: _need(row) for row in rows_of_table("water_use")})


def _need(row: dict[str, str]) -> WaterNeed:
    ends = [registry.Quantity(float(row[f"liters_per_person_day_{end}"]), "liter/day") for end in _ENDS]
    return WaterNeed(Band(*ends), row["source_id"])


_ENDS = ("low", "high")


def water_for(people: int, need: WaterNeed) -> Band:
    """Water a number of people need.

    Args:
        people: aboard [count].
        need: of one person.

    Returns:
        Least and most [volume rate].

    Raises:
        ValueError: fewer than no people.

    Sources:
        S-FEMA; S-SPHERE.

    Example:
        >>> f"{water_for(2, water_needs()[EMERGENCY_STORE]).least.to('gallon/day'):.1f}"
        '2.0 gallon / day'
    """
    if people < 0:
        raise ValueError(f"{people} people cannot be aboard")
    return Band(need.a_person.least * people, need.a_person.most * people)
