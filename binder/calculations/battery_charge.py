"""Where the acid of a lead-acid battery freezes, by its charge."""

from functools import cache
from typing import Literal, TypeAlias

from binder.calculations.table_rows import Points, values_around
from binder.quantities import Share, Temperature, checks_dimensions, registry
from binder.reference.sources import rows_of_table

FloodedKind: TypeAlias = Literal["flooded", "flooded deep-cycle"]


@cache
def _specific_gravities(kind: FloodedKind) -> Points:
    """Specific gravity by charge in percent."""
    rows = [row for row in rows_of_table("battery_charge") if row["kind"] == kind]
    return sorted((float(row["charge_percent"]), float(row["specific_gravity_80F"])) for row in rows)


@cache
def _freeze_points() -> Points:
    rows = rows_of_table("electrolyte_freeze_points")
    return tuple((float(row["specific_gravity_80F"]), float(row["freeze_F"])) for row in rows)


def electrolyte_freezes(at_80_degrees: float) -> Temperature | None:
    """Temperature battery acid freezes at, never stated colder than it is.

    Why: a flat battery freezes and bursts where a full one does not.

    Args:
        at_80_degrees: specific gravity, corrected to 80 °F [dimensionless].

    Returns:
        The warmer of the rows around it [temperature]; None outside the table.

    Sources:
        S-OD1002.

    Example:
        >>> f"{electrolyte_freezes(1.12):.0f}"
        '19 degree_Fahrenheit'
    """
    around = values_around(_freeze_points(), at_80_degrees)
    return registry.Quantity(max(around), "degree_Fahrenheit") if around else None


@checks_dimensions
def electrolyte_freezes_at_charge(kind: FloodedKind, charge: Share) -> Temperature | None:
    """Temperature the acid of a flooded battery freezes at, by its charge.

    Args:
        kind: starting (flooded) or deep-cycle [name].
        charge: how full it is [dimensionless].

    Returns:
        The warmer of the rows around it [temperature]; None outside the table.

    Sources:
        S-DISCOVER, S-T105 (specific gravity by charge); S-OD1002 (freezing by specific gravity).

    Example:
        >>> f"{electrolyte_freezes_at_charge('flooded', registry.Quantity(50, 'percent')):.0f}"
        '5 degree_Fahrenheit'
    """
    around = values_around(_specific_gravities(kind), float(charge.to("percent").m))
    return electrolyte_freezes(min(around)) if around else None
