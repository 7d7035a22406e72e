"""The charge a battery may give: the usable part, and what cold leaves of it."""

from functools import cache
from typing import Literal, TypeAlias

from binder.calculations.table_rows import value_between
from binder.quantities import (
    Charge,
    Quantity,
    Share,
    Temperature,
    checks_dimensions,
    registry,
)
from binder.reference.sources import rows_of_table

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

    Returns:
        The charge [charge].

    Sources:
        practice; S-SUNON; S-LFP.

    Example:
        >>> q = registry.Quantity
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

    Returns:
        The share [dimensionless]; None under 0 °F and over 77 °F.

    Sources:
        S-TM10-6140.

    Example:
        >>> f"{lead_acid_capacity_in_cold(registry.Quantity(20, 'degF')):.0f}"
        '62 percent'
    """
    share = value_between(_cold_capacities(), float(electrolyte.to("degree_Fahrenheit").m))
    return None if share is None else registry.Quantity(share, "percent")
