"""What tire, wheel and valve allow: pressure, load and speed, and which marking rules."""

from typing import Literal, NamedTuple, TypeAlias

from binder.calculations.bounds import is_at_least
from binder.calculations.tires.load_tables import Family, LoadRow, LoadTable, row_for
from binder.quantities import Mass, Pressure, Quantity, Speed, checks_dimensions
from binder.reference.constants import PASSENGER_DERATE, SPECIAL_TRAILER_SPEED

Part: TypeAlias = Literal["tire", "wheel", "valve"]


class PressureLimits(NamedTuple):
    """Highest cold pressure of each part; None where it is not known.

    The tire has two figures: the last row of its table and what is stamped on its sidewall.
    """

    tabulated: Pressure | None
    stamped: Pressure | None
    wheel: Pressure | None
    valve: Pressure | None


class LoadLimits(NamedTuple):
    """Highest load on one tire of each part; None where it is not known."""

    tabulated: Mass | None
    stamped: Mass | None
    wheel: Mass | None


class Cap(NamedTuple):
    """Least of the limits that are known: which parts set it (all of a tie), and which are unknown.

    ``limit`` None means that no part's limit is known.
    """

    limit: Quantity | None
    bound_by: tuple[Part, ...]
    unknown: tuple[Part, ...]


def pressure_cap(limits: PressureLimits) -> Cap:
    """Highest cold pressure that tire, wheel and valve all allow.

    Args:
        limits: highest cold pressure of each part [pressure].
    Returns: The cap [pressure], what binds it, and the parts whose limit is to be read off the wheel.
    Sources: S60 (wheel); S21 (wheels and valves as the limit).

    >>> cap = pressure_cap(PressureLimits(q(110, "psi"), q(110, "psi"), q(120, "psi"), None))
    >>> cap.bound_by, cap.unknown
    (('tire',), ('valve',))
    """
    tire = _least([limits.tabulated, limits.stamped])
    return _cap((("tire", tire), ("wheel", limits.wheel), ("valve", limits.valve)))


def load_cap(limits: LoadLimits) -> Cap:
    """Highest load on one tire that the tire and its wheel both allow.

    Args:
        limits: highest load on one tire, of each part [mass].
    Returns: The cap [mass], what binds it, and the parts whose limit is not known.
    Sources: S21 (wheels as the limit); S60.

    >>> lb = q(6175, "pound")
    >>> load_cap(LoadLimits(lb, lb, q(5000, "pound"))).bound_by
    ('wheel',)
    """
    tire = _least([limits.tabulated, limits.stamped])
    return _cap((("tire", tire), ("wheel", limits.wheel)))


@checks_dimensions
def load_over_cap(load: Mass, cap: Cap) -> Mass | None:
    """How far the load on one tire is over what tire and wheel allow.

    Args:
        load: on one tire [mass].
        cap: of tire and wheel.
    Returns: The excess [mass]; None where the load is allowed or no limit is known.
    Sources: arithmetic.

    >>> f"{load_over_cap(q(3100, 'pound'), load_cap(LoadLimits(None, q(3042, 'pound'), None))):.0f}"
    '58 pound'
    """
    if cap.limit is None or is_at_least(cap.limit, load):
        return None
    excess: Quantity = load - cap.limit
    return excess


@checks_dimensions
def pressure_for_rating(table: LoadTable, rating: Mass, tires: int) -> Pressure | None:
    """Pressure at which fitted tires of another size than the label's carry the axle's rating.

    Args:
        table: of the fitted tires, per tire.
        rating: gross axle weight rating [mass].
        tires: on the axle [count].
    Returns: The row's pressure [pressure]; None where the fitted tires cannot carry the rating.
    Sources: 49 CFR 571.120; practice.

    >>> table = LoadTable((LoadRow(q(110, "psi"), q(6175, "pound")),))
    >>> f"{pressure_for_rating(table, q(12000, 'pound'), 2):.0f}"
    '110 psi'
    """
    row = row_for(table, rating / tires)
    return None if row is None else row.pressure


def _least(values: list[Quantity | None]) -> Quantity | None:
    known = [value for value in values if value is not None]
    return min(known) if known else None


def _cap(parts: tuple[tuple[Part, Quantity | None], ...]) -> Cap:
    known = [(part, value) for part, value in parts if value is not None]
    unknown = tuple(part for part, value in parts if value is None)
    if not known:
        return Cap(None, (), unknown)
    least = min(value for _, value in known)
    return Cap(least, tuple(part for part, value in known if is_at_least(least, value)), unknown)


def trailer_label_pressure(label: Pressure | None, stamped: Pressure | None) -> Pressure | None:
    """Pressure a trailer's axle never goes below, whatever was weighed.

    Args:
        label: on the trailer's certification label; None where not found [pressure].
        stamped: maximum cold pressure on the sidewall; None where not read [pressure].
    Returns: The label's pressure, and where there is no label the stamped one [pressure].
    Sources: S64; practice (tandem axles scrub).

    >>> f"{trailer_label_pressure(None, q(65, 'psi')):.0f}"
    '65 psi'
    """
    return stamped if label is None else label


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
    Returns: The stated speed, else 65 mph for special trailer tires; None where neither is known.
    Sources: S17; S04.

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
    Returns: True for a passenger tire on a trailer, truck or multipurpose vehicle, from tire data.
    Sources: 49 CFR 571.120; S32; S69.

    >>> is_derated("passenger P", "passenger car", is_placard=False)
    False
    """
    return family in ("passenger P", "passenger") and vehicle != "passenger car" and not is_placard


@checks_dimensions
def derated_load(load: Mass) -> Mass:
    """Load a passenger tire carries off a passenger car.

    Args:
        load: rated [mass].
    Returns: The load divided by 1.10 [mass].
    Sources: 49 CFR 571.120; S32.

    >>> f"{derated_load(q(2028, 'pound')):.1f}"
    '1843.6 pound'
    """
    carried: Quantity = load / PASSENGER_DERATE.quantity.m
    return carried


def derated_table(table: LoadTable) -> LoadTable:
    """Load table of a passenger tire off a passenger car.

    Args:
        table: the maker's, per tire.
    Returns: The table with every load divided by 1.10.
    Sources: 49 CFR 571.120; S32; S73.

    >>> f"{derated_table(LoadTable((LoadRow(q(35, 'psi'), q(2028, 'pound')),))).rows[0].load:.1f}"
    '1843.6 pound'
    """
    return LoadTable(tuple(LoadRow(row.pressure, derated_load(row.load)) for row in table.rows))
