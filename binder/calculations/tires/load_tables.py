"""A tire's load table, the curve that stands in for one, and how far a typed table may be believed.

Checks of a typed table point at likely slips; they do not find every one.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import Enum
from itertools import pairwise
from statistics import median_high
from typing import Literal, NamedTuple, TypeAlias

from binder.calculations.bounds import is_at_least, rounded_up
from binder.quantities import Mass, Pressure, Quantity, checks_dimensions, registry

Basis: TypeAlias = Literal["per tire", "per pair", "per axle end"]
Fitment: TypeAlias = Literal["single", "dual"]


class LoadRow(NamedTuple):
    """One row: the cold pressure and the load **one** tire carries at it."""

    pressure: Pressure
    load: Mass


@dataclass(frozen=True)
class LoadTable:
    """The rows of one size, load range and fitment, per tire, in the order they were typed."""

    rows: tuple[LoadRow, ...]

    def __post_init__(self) -> None:
        if not self.rows:
            raise ValueError("a load table has at least one row")


def table_per_tire(rows: Iterable[LoadRow], basis: Basis, fitment: Fitment) -> LoadTable:
    """Bring a typed table to the load of one tire.

    Why: makers print all three bases. Only a dual row is ever given for more than one tire.

    Args:
        rows: as typed, each load on the typed basis.
        basis: what one load of the table is for.
        fitment: which column of the table the rows are.
    Returns: The table per tire.
    Raises: ValueError: there is no row.
    Sources: S01 (per position, the dual row for the pair); S06 (per axle end).

    >>> row = LoadRow(q(50, "psi"), q(4015, "pound"))
    >>> f"{table_per_tire([row], 'per pair', 'dual').rows[0].load:.1f}"
    '2007.5 pound'
    """
    tires = 2 if fitment == "dual" and basis != "per tire" else 1
    return LoadTable(tuple(LoadRow(row.pressure, row.load / tires) for row in rows))


@checks_dimensions
def row_for(table: LoadTable, load: Mass) -> LoadRow | None:
    """First row of the table that carries the load; equal is enough.

    Args:
        table: of the exact size, load range and fitment.
        load: on one tire [mass].
    Returns: The row; the first one for any load below it; None where the last row does not carry the load.
    Sources: S01; S09; S04.

    >>> table = LoadTable((LoadRow(q(40, "psi"), q(1880, "pound")), LoadRow(q(45, "psi"), q(2020, "pound"))))
    >>> f"{row_for(table, q(1880, 'pound')).pressure:.0f}"
    '40 psi'
    """
    return next((row for row in table.rows if is_at_least(row.load, load)), None)


@checks_dimensions
def load_carried(table: LoadTable, pressure: Pressure) -> Mass | None:
    """Load one tire carries at a pressure: that of the last row at or below it.

    Args:
        table: of the exact size, load range and fitment.
        pressure: cold, in the tire [pressure].
    Returns: The load [mass]; None below the first row, where the maker states nothing.
    Sources: S01; nothing is interpolated, which is the safe side.

    >>> table = LoadTable((LoadRow(q(40, "psi"), q(1880, "pound")), LoadRow(q(45, "psi"), q(2020, "pound"))))
    >>> f"{load_carried(table, q(44, 'psi')):.0f}"
    '1880 pound'
    """
    reached = [row.load for row in table.rows if is_at_least(pressure, row.pressure)]
    return reached[-1] if reached else None


@checks_dimensions
def slack_to_next_row(table: LoadTable, load: Mass) -> Mass | None:
    """How much more one tire may carry before the next row is needed.

    Args:
        table: of the exact size, load range and fitment.
        load: on one tire [mass].
    Returns: The slack [mass]; None where no row carries the load.
    Sources: arithmetic.

    >>> table = LoadTable((LoadRow(q(100, "psi"), q(5775, "pound")),))
    >>> f"{slack_to_next_row(table, q(5744, 'pound')):.0f}"
    '31 pound'
    """
    row = row_for(table, load)
    return None if row is None else row.load - load


def table_step(table: LoadTable) -> Pressure | None:
    """Step of the table from one row to the next: the middle one where they differ, the larger of two.

    Args:
        table: per tire.
    Returns: The step [pressure]; None for a table of one row.
    Sources: practice: the usual margin over the row is one step.

    >>> table = LoadTable(tuple(LoadRow(q(psi, "psi"), q(1, "pound")) for psi in (45, 50, 54)))
    >>> f"{table_step(table):.1f}"
    '5.0 psi'
    """
    unit = table.rows[0].pressure.units
    values = [row.pressure.to(unit).m for row in table.rows]
    steps = [after - before for before, after in pairwise(values)]
    return registry.Quantity(median_high(steps), unit) if steps else None


Family: TypeAlias = Literal[
    "passenger P", "passenger", "light truck", "special trailer", "truck", "european commercial"
]

_LINEAR = 1.0
# Load grows as pressure to this power. Fitted on S01 S03 S04 S05 S06 S10; P-metric formula S42.
# "passenger" (a size without a letter) and unknown stay linear: a lower power is the unsafe side.
_EXPONENTS: dict[str, float] = {
    "passenger P": 0.50,
    "special trailer": 0.585,
    "light truck": 0.70,
    "truck": 0.70,
    "european commercial": 0.80,
}
# First rows of the reference tables: S05, S04, S01 with S61, S06. No estimate goes below them.
_FIRST_ROWS: dict[str, float] = {
    "passenger P": 20.0,
    "special trailer": 15.0,
    "light truck": 35.0,
    "european commercial": 30.0,
}
_FLAT_SHARE = 0.50  # Where no first row is known: a tire at half its maximum counts as flat (S40).
_PADDING = registry.Quantity(2.0, "psi")  # The right exponents miss printed tables by up to 1.84 psi.
_STEP = registry.Quantity(5.0, "psi")  # Step of the tables the exponents were fitted on.


def family_exponent(family: Family | None) -> float:
    """Power of pressure that load grows with in a family of tires.

    Args:
        family: of the tire; None where unknown.
    Returns: The exponent; 1 where the family is unknown or the size has no letter, which asks for more air.
    Sources: measured here (on S01, S03, S04, S05, S06, S10); S42 (P-metric). Truck is weakly supported.

    >>> family_exponent("special trailer"), family_exponent(None)
    (0.585, 1.0)
    """
    return _LINEAR if family is None else _EXPONENTS.get(family, _LINEAR)


@checks_dimensions
def curve_pressure(load: Mass, rated: LoadRow, exponent: float) -> Pressure:
    """Pressure on the family curve through a tire's rated point, before anything is added.

    Args:
        load: on one tire [mass].
        rated: maximum pressure and the load carried at it.
        exponent: power of pressure that load grows with [dimensionless].
    Returns: P = Pmax (L / Lmax) ** (1 / n) [pressure].
    Sources: S31 (the same law with exponent 0.8); S42; measured here.

    >>> f"{curve_pressure(q(550, 'kg'), LoadRow(q(50, 'psi'), q(750, 'kg')), 0.8):.1f}"
    '33.9 psi'
    """
    share = (load / rated.load).to("").m
    return registry.Quantity(rated.pressure.m * share ** (1 / exponent), rated.pressure.units)


@checks_dimensions
def estimated_row(load: Mass, rated: LoadRow, family: Family | None) -> Pressure | None:
    """Pressure used as the row where the maker's table is not given.

    Why: a bare step up still lands below the maker's row for 2 to 16 % of loads; 2 psi more does not.

    Args:
        load: on one tire, below zero where an axle would be lifted [mass].
        rated: stamped maximum pressure and the load carried at it in this fitment.
        family: of the tire; None where unknown.
    Returns: The curve's pressure and 2 psi, up to the next 5 psi, at most the stamped pressure, which carries
        the stamped load; not below the first row of its family's tables [pressure]. None where the tire does
        not carry the load. To be marked "calculated, get the maker's table".
    Sources: measured here (on S01, S03, S04, S05, S06, S10); S42; S40.

    >>> f"{estimated_row(q(2150, 'pound'), LoadRow(q(80, 'psi'), q(3042, 'pound')), 'light truck'):.0f}"
    '55 psi'
    """
    if not is_at_least(rated.load, load):
        return None
    # The curve has no answer below a load of zero; the first row holds there.
    pressing = load if load.m > 0 else 0 * load
    bare = curve_pressure(pressing, rated, family_exponent(family)).to("psi")
    estimate = max(rounded_up(bare + _PADDING, _STEP), _first_row(rated, family))
    return rated.pressure if is_at_least(estimate, rated.pressure) else estimate


def _first_row(rated: LoadRow, family: Family | None) -> Pressure:
    if family is not None and family in _FIRST_ROWS:
        return registry.Quantity(_FIRST_ROWS[family], "psi")
    return rounded_up(rated.pressure * _FLAT_SHARE, _STEP)


_CURVE_TOLERANCE = 0.03  # Every reference table lies within it: S01 S03 S04 S05 S06.
_DUAL_SHARES = (0.75, 0.97)  # The reference tables lie in 0.79 to 0.96: S01 S06 S07 S10.


class Doubt(Enum):
    """What is doubtful about a typed table."""

    NOT_RISING = "pressure or load does not rise from the row before"
    UNEVEN_STEP = "pressure step differs from the table's other steps"
    TOP_PRESSURE = "last row's pressure is not the stamped one"
    TOP_LOAD = "last row's load is not the stamped one"
    OFF_CURVE = "more than 3 % off the family curve through the top row"
    DUAL_SHARE = "dual load per tire is outside 75 to 97 % of single"


class TableDoubt(NamedTuple):
    """One doubt: at which row (None: the whole table), and what was found against what was expected."""

    doubt: Doubt
    row: LoadRow | None = None
    found: Quantity | None = None
    expected: Quantity | None = None

    @property
    def is_problem(self) -> bool:
        """Tell whether nothing may be printed from the table."""
        return self.doubt in (Doubt.NOT_RISING, Doubt.DUAL_SHARE)


class Stamp(NamedTuple):
    """What is stamped on the sidewall for this fitment; None where it was not read."""

    pressure: Pressure | None
    load: Mass | None


def table_doubts(table: LoadTable, stamp: Stamp, family: Family | None) -> tuple[TableDoubt, ...]:
    """Everything doubtful about one column of a typed table.

    Args:
        table: per tire, rows in the order typed.
        stamp: of the sidewall for this fitment.
        family: of the tire; None or one without a curve leaves the curve unchecked.
    Returns: The doubts, by kind and row; none for a table that looks right.
    Sources: measured here (on S01, S03, S04, S05, S06, S10); practice.

    >>> swapped = LoadTable(tuple(LoadRow(q(at, "psi"), q(9000 - at, "pound")) for at in (40, 45)))
    >>> [doubt.doubt.name for doubt in table_doubts(swapped, Stamp(None, None), None)]
    ['NOT_RISING']
    """
    return (
        *_not_rising(table.rows),
        *_uneven_steps(table),
        *_top_doubts(table.rows[-1], stamp),
        *_off_curve(table.rows, family),
    )


def dual_doubts(single: LoadTable, dual: LoadTable) -> tuple[TableDoubt, ...]:
    """Rows whose dual load cannot be that of one tire: pair and tire were confused.

    Args:
        single: per tire.
        dual: per tire.
    Returns: A doubt for each row of a pressure both columns have; none where all are plausible.
    Sources: measured here (on S01, S06, S07, S10).

    >>> single, pair = (LoadTable((LoadRow(q(50, "psi"), q(load, "lb")),)) for load in (2205, 4015))
    >>> [doubt.doubt.name for doubt in dual_doubts(single, pair)]
    ['DUAL_SHARE']
    """
    doubts = []
    for row in dual.rows:
        mate = next((other for other in single.rows if _equal(other.pressure, row.pressure)), None)
        if mate is None:
            continue
        share = (row.load / mate.load).to("")
        if not _DUAL_SHARES[0] <= share.m <= _DUAL_SHARES[1]:
            doubts.append(TableDoubt(Doubt.DUAL_SHARE, row, share))
    return tuple(doubts)


def _not_rising(rows: Sequence[LoadRow]) -> list[TableDoubt]:
    return [
        TableDoubt(Doubt.NOT_RISING, row)
        for before, row in pairwise(rows)
        if is_at_least(before.pressure, row.pressure) or is_at_least(before.load, row.load)
    ]


def _uneven_steps(table: LoadTable) -> list[TableDoubt]:
    step = table_step(table)
    doubts = []
    for before, row in pairwise(table.rows):
        this = row.pressure - before.pressure
        is_short_last = row is table.rows[-1] and step is not None and this < step
        if step is not None and not _equal(this, step) and not is_short_last:
            doubts.append(TableDoubt(Doubt.UNEVEN_STEP, row, this, step))
    return doubts


def _top_doubts(top: LoadRow, stamp: Stamp) -> list[TableDoubt]:
    doubts = []
    if stamp.pressure is not None and not _equal(top.pressure, stamp.pressure):
        doubts.append(TableDoubt(Doubt.TOP_PRESSURE, top, top.pressure, stamp.pressure))
    if stamp.load is not None and not _equal(top.load, stamp.load):
        doubts.append(TableDoubt(Doubt.TOP_LOAD, top, top.load, stamp.load))
    return doubts


def _off_curve(rows: Sequence[LoadRow], family: Family | None) -> list[TableDoubt]:
    exponent = family_exponent(family)
    if exponent == 1.0:
        # A linear curve stands for "not known"; it is no curve to hold a table against.
        return []
    top = rows[-1]
    doubts = []
    for row in rows:
        share = (row.pressure / top.pressure).to("").m ** exponent
        expected = registry.Quantity(top.load.m * share, top.load.units)
        if abs((row.load / expected).to("").m - 1) > _CURVE_TOLERANCE:
            doubts.append(TableDoubt(Doubt.OFF_CURVE, row, row.load, expected))
    return doubts


def _equal(one: Quantity, other: Quantity) -> bool:
    return is_at_least(one, other) and is_at_least(other, one)
