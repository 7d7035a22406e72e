"""A tire's load table: rows of cold pressure and the load one tire carries at it."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise
from statistics import median_high
from typing import Literal, NamedTuple, TypeAlias

from binder.calculations.bounds import is_at_least
from binder.quantities import Mass, Pressure, checks_dimensions, registry

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
