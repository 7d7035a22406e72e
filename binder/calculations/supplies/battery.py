"""A battery: where its acid freezes, the part that may be drawn, and what cold leaves of it."""

from functools import cache
from typing import Literal, TypeAlias

from binder.calculations.bounds import Points, value_between, values_around
from binder.quantities import Charge, Quantity, Share, Temperature, checks_dimensions, registry
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
    Returns: The warmer of the rows around it [temperature]; None outside the table.
    Sources: S-OD1002.

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
    Returns: The warmer of the rows around it [temperature]; None outside the table.
    Sources: S-DISCOVER, S-T105 (specific gravity by charge); S-OD1002 (freezing by specific gravity).

    >>> f"{electrolyte_freezes_at_charge('flooded', q(50, 'percent')):.0f}"
    '5 degree_Fahrenheit'
    """
    around = values_around(_specific_gravities(kind), float(charge.to("percent").m))
    return electrolyte_freezes(min(around)) if around else None


Chemistry: TypeAlias = Literal["lead-acid", "lithium iron phosphate"]

# practice; S-SUNON advises 50 % for lead-acid, S-LFP at most 80 % for lithium iron phosphate.
USABLE: dict[Chemistry, Share] = {
    "lead-acid": registry.Quantity(50.0, "percent"),
    "lithium iron phosphate": registry.Quantity(80.0, "percent"),
}


@checks_dimensions
def usable_charge(capacity: Charge, usable: Share, cold: Share) -> Charge:
    """Charge a battery may give before it is recharged.

    Args:
        capacity: when full and warm [charge].
        usable: part that may be drawn; the owner's, else by chemistry [dimensionless].
        cold: part of the capacity left at its temperature [dimensionless].
    Returns: The charge [charge].
    Sources: practice; S-SUNON; S-LFP.

    >>> f"{usable_charge(q(440, 'Ah'), USABLE['lead-acid'], q(75, 'percent')):.0f}"
    '165 ampere_hour'
    """
    charge: Quantity = capacity * (usable.to("").m * cold.to("").m)
    return charge


@cache
def _cold_capacities() -> tuple[tuple[float, float], ...]:
    rows = rows_of_table("lead_acid_cold_capacity")
    return tuple((float(row["electrolyte_F"]), float(row["capacity_percent"])) for row in rows)


@checks_dimensions
def lead_acid_capacity_in_cold(electrolyte: Temperature) -> Share | None:
    """Part of its capacity a lead-acid battery gives in the cold, straight between the table's rows.

    Args:
        electrolyte: temperature of the battery, not of the air [temperature].
    Returns: The share [dimensionless]; None under 0 °F and over 77 °F.
    Sources: S-TM10-6140.

    >>> f"{lead_acid_capacity_in_cold(q(20, 'degF')):.0f}"
    '62 percent'
    """
    share = value_between(_cold_capacities(), float(electrolyte.to("degree_Fahrenheit").m))
    return None if share is None else registry.Quantity(share, "percent")
