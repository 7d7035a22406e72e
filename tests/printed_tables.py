"""Load tables typed in as they are printed."""

from collections.abc import Iterable

from binder.calculations.tires.load_tables import LoadRow, LoadTable
from binder.quantities import registry

q = registry.Quantity


def table_from(rows: Iterable[tuple[float, float]], pressure_unit: str, load_unit: str) -> LoadTable:
    """Pressures and the load of one tire at each, rising."""
    return LoadTable(
        tuple(LoadRow(q(pressure, pressure_unit), q(load, load_unit)) for pressure, load in rows)
    )
