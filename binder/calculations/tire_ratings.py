"""What the markings on a tire's sidewall stand for, and which of them rules."""

from functools import cache
from typing import Literal, NamedTuple, TypeAlias

from binder.calculations.inflation_estimates import Family
from binder.calculations.load_tables import LoadRow, LoadTable
from binder.quantities import Mass, Quantity, Speed, checks_dimensions, registry
from binder.reference.constants import PASSENGER_DERATE, SPECIAL_TRAILER_SPEED
from binder.reference.sources import rows_of_table

VehicleClass: TypeAlias = Literal["passenger car", "trailer, truck or multipurpose vehicle"]


class SpeedLimit(NamedTuple):
    """Highest speed of a tire; ``is_assumed`` where the family's default stands in for the sidewall."""

    speed: Speed
    is_assumed: bool


@cache
def _load_indexes() -> dict[int, float]:
    return {int(row["load_index"]): float(row["kg"]) for row in rows_of_table("load_index")}


@cache
def _speed_symbols() -> dict[str, tuple[float, str]]:
    rows = rows_of_table("speed_symbol")
    return {row["symbol"]: (float(row["km_h"]), row["source_id"]) for row in rows}


@cache
def _ply_ratings() -> dict[str, int]:
    return {row["load_range"]: int(row["ply_rating"]) for row in rows_of_table("load_range")}


def load_of_index(load_index: int) -> Mass:
    """Load a load index stands for.

    Args:
        load_index: from 0 to 200 [code].

    Returns:
        The load [mass]. On an LT tire it is not the limit; the stamped load is.

    Raises:
        KeyError: the index is not in the table.

    Sources:
        S24; S25; S26; S07.

    Example:
        >>> f"{load_of_index(144):.0f}"
        '2800 kilogram'
    """
    return registry.Quantity(_load_indexes()[load_index], "kg")


def speed_of_symbol(symbol: str) -> Speed | None:
    """Speed a speed symbol stands for.

    Args:
        symbol: the letter, such as ``L``.

    Returns:
        The speed [speed]; None where the symbol's value is only remembered, which sets no limit.

    Raises:
        KeyError: the symbol is not in the table.

    Sources:
        S27; S25; S28.

    Example:
        >>> f"{speed_of_symbol('L').to('mph'):.1f}"
        '74.6 mile_per_hour'
    """
    value, source_id = _speed_symbols()[symbol]
    return None if source_id == "memory" else registry.Quantity(value, "km_h")


def ply_rating(load_range: str) -> int:
    """Ply rating a load range stands for.

    Args:
        load_range: the letter, such as ``G``.

    Returns:
        The ply rating, a word for strength, not a count.

    Raises:
        KeyError: the load range is not in the table.

    Sources:
        S08.

    Example:
        >>> ply_rating("G")
        14
    """
    return _ply_ratings()[load_range]


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


def rated_load(stamped: Mass | None, load_index: int | None, family: Family | None) -> Mass | None:
    """Load one tire is rated for.

    Args:
        stamped: maximum load on the sidewall in this fitment; None where not read [mass].
        load_index: on the sidewall in this fitment; None where there is none [code].
        family: of the tire; None where unknown.

    Returns:
        The stamped load; without it the load index's, but never for an LT tire, whose index is not
        its limit, or for an unknown family; None where nothing may be said.

    Sources:
        S10; S41.

    Example:
        >>> f"{rated_load(registry.Quantity(3042, 'pound'), 120, 'light truck'):.0f}"
        '3042 pound'
    """
    if stamped is not None:
        return stamped
    if load_index is None or family in (None, "light truck"):
        return None
    return load_of_index(load_index)


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
        >>> from binder.calculations.load_tables import table_from
        >>> f"{derated_table(table_from([(35, 2028)], 'psi', 'pound')).rows[0].load:.1f}"
        '1843.6 pound'
    """
    return LoadTable(tuple(LoadRow(row.pressure, derated_load(row.load)) for row in table.rows))
