"""The typed load tables, printed as they were typed, to be read against the maker's book row by row."""

from collections.abc import Iterator

from binder.assessment.assess import Assessment
from binder.assessment.tires import kinds
from binder.assessment.weights.resting import rolling_axles
from binder.cards.blocks import Block, Note, Table
from binder.models.tires import LoadTableText
from binder.quantities import Quantity
from binder.wording.as_written import as_written, number_as_written, unit_as_written

_SAME = 1e-6
"""Share by which two pressures may differ and be one: the noise of binary arithmetic."""


def load_table_blocks(assessment: Assessment) -> Iterator[Block]:
    """Make each typed load table, with the rows that were used."""
    without = [name for name, tires in assessment.rig.tires.items() if tires.table is None]
    if without:
        yield Note(f"No load table is given: {', '.join(without)}.")
    for name, tires in assessment.rig.tires.items():
        if tires.table is None:
            continue
        table = tires.table
        yield Table(
            ("cold pressure", *_headers(table), "row used for", "read"),
            tuple(_rows(assessment, name, table)),
            small=True,
            caption=f"Load table of the {name}, {tires.size or ''} {tires.load_range or ''}, as typed",
        )
        yield Note(
            f"From: {table.origin}. Loads are {table.basis}, as typed. Read every row against the maker's "
            'book for this size and load range, and mark it under "read": a wrong digit here is a wrong '
            "pressure in the tire."
        )


def _headers(table: LoadTableText) -> tuple[str, ...]:
    sides = (("single", table.single), ("dual", table.dual))
    return tuple(f"{side}, {_unit(rows)}" for side, rows in sides if rows)


def _unit(rows: dict[Quantity, Quantity]) -> str:
    return unit_as_written(next(iter(rows.values())))


def _rows(assessment: Assessment, name: str, table: LoadTableText) -> Iterator[tuple[str, ...]]:
    sides = [rows for rows in (table.single, table.dual) if rows]
    pressures = sorted({pressure for rows in sides for pressure in rows})
    used = tuple(_used(assessment, name))
    for pressure in pressures:
        loads = (number_as_written(rows[pressure]) if pressure in rows else "-" for rows in sides)
        axles = "; ".join(
            f"{axle} ({fitment})"
            for axle, fitment, row in used
            if abs(float((row / pressure).to("").m) - 1) < _SAME
        )
        yield (as_written(pressure), *loads, f"ROW USED: {axles}" if axles else "", "____")


def _used(assessment: Assessment, name: str) -> Iterator[tuple[str, str, Quantity]]:
    """Axles on these tires, with the pressure of the row chosen for each."""
    for vehicle, _, axle_name, axle in rolling_axles(assessment.rig):
        row = assessment.quantity(kinds.ROW_PRESSURE.of(vehicle, axle_name))
        if axle.tires == name and row is not None:
            yield f"{vehicle}, {axle_name}", axle.fitment, row
