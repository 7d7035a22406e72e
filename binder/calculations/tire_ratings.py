"""What the markings on a tire's sidewall stand for, and which of them rules."""

from typing import Literal, NamedTuple, TypeAlias

from binder.calculations.inflation_estimates import Family
from binder.calculations.load_tables import LoadRow, LoadTable
from binder.quantities import Mass, Quantity, Speed, checks_dimensions
from binder.reference.constants import PASSENGER_DERATE, SPECIAL_TRAILER_SPEED

VehicleClass: TypeAlias = Literal["passenger car", "trailer, truck or multipurpose vehicle"]


class SpeedLimit(NamedTuple):
    """Highest speed of a tire; ``is_assumed`` where the family's default stands in for the sidewall."""

    speed: Speed
    is_assumed: bool


def speed_limit(stated: Speed | None, family: Family | None) -> SpeedLimit | None:
    """Highest speed of a tire.

    Args:
        stated: on the sidewall or by the maker; None where not found [speed].
        family: of the tire; None where unknown.

    Returns:
        The stated speed, else 65 mph for special trailer tires; None where neither is known.

    Sources:
        S17; S04.

    Example:
        >>> speed_limit(None, "special trailer").is_assumed
        True
    """
    if stated is not None:
        return SpeedLimit(stated, is_assumed=False)
    if family == "special trailer":
        return SpeedLimit(SPECIAL_TRAILER_SPEED.quantity, is_assumed=True)
    return None


def is_derated(family: Family | None, vehicle: VehicleClass, *, is_placard: bool) -> bool:
    """Tell whether a tire's ratings are to be divided by 1.10.

    Args:
        family: of the tire; None where unknown.
        vehicle: it is fitted to.
        is_placard: the figure comes from a placard, which includes the derate already.

    Returns:
        True for a passenger tire on a trailer, truck or multipurpose vehicle, from tire data.

    Sources:
        49 CFR 571.120; S32; S69.

    Example:
        >>> is_derated("passenger P", "passenger car", is_placard=False)
        False
    """
    return family in ("passenger P", "passenger") and vehicle != "passenger car" and not is_placard


@checks_dimensions
def derated_load(load: Mass) -> Mass:
    """Load a passenger tire carries off a passenger car.

    Args:
        load: rated [mass].

    Returns:
        The load divided by 1.10 [mass].

    Sources:
        49 CFR 571.120; S32.

    Example:
        >>> from binder.quantities import registry
        >>> f"{derated_load(registry.Quantity(2028, 'pound')):.1f}"
        '1843.6 pound'
    """
    carried: Quantity = load / PASSENGER_DERATE.quantity.m
    return carried


def derated_table(table: LoadTable) -> LoadTable:
    """Load table of a passenger tire off a passenger car.

    Args:
        table: the maker's, per tire.

    Returns:
        The table with every load divided by 1.10.

    Sources:
        49 CFR 571.120; S32; S73.

    Example:
        >>> from binder.quantities import registry
        >>> row = LoadRow(registry.Quantity(35, "psi"), registry.Quantity(2028, "pound"))
        >>> f"{derated_table(LoadTable((row,))).rows[0].load:.1f}"
        '1843.6 pound'
    """
    return LoadTable(tuple(LoadRow(row.pressure, derated_load(row.load)) for row in table.rows))
