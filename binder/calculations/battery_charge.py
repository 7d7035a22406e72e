"""How full a lead-acid battery is, from its rested voltage or its acid; and where the acid freezes.

Every answer is a band: tables of makers differ, and a reading between two rows is only between them.
"""

from collections import defaultdict
from collections.abc import Mapping
from functools import cache
from typing import Literal, TypeAlias

from binder.calculations.bands import Band
from binder.calculations.table_rows import Points, value_between, values_around
from binder.quantities import Share, Temperature, Voltage, checks_dimensions, registry
from binder.reference.sources import rows_of_table

FloodedKind: TypeAlias = Literal["flooded", "flooded deep-cycle"]
BatteryKind: TypeAlias = Literal["flooded", "flooded deep-cycle", "absorbed glass mat"]
_Column: TypeAlias = Literal["rested_V", "specific_gravity_80F"]

# A deep-cycle battery under 32 °F is kept fuller than this: S-T105.
KEPT_OVER_IN_COLD = registry.Quantity(60.0, "percent")


@cache
def _charges(kind: BatteryKind, column: _Column) -> Mapping[str, Points]:
    """Points of reading and charge in percent, by the source they are from."""
    points: dict[str, list[tuple[float, float]]] = defaultdict(list)
    for row in rows_of_table("battery_charge"):
        if row["kind"] == kind and row[column]:
            points[row["source_id"]].append((float(row[column]), float(row["charge_percent"])))
    return {source: sorted(rows) for source, rows in points.items()}


def _band(tables: Mapping[str, Points], reading: float) -> Band | None:
    around = [value for points in tables.values() for value in values_around(points, reading)]
    if not around:
        return None
    return Band(registry.Quantity(min(around), "percent"), registry.Quantity(max(around), "percent"))


@checks_dimensions
def charge_by_voltage(kind: BatteryKind, rested: Voltage) -> Band | None:
    """Charge of a 12-volt lead-acid battery from its voltage after rest, nothing drawn or fed.

    Args:
        kind: starting (flooded), deep-cycle, or absorbed glass mat [name].
        rested: after 6 to 24 hours for a flooded battery, 2 for the other [voltage].

    Returns:
        Least and most share over the tables of that kind [dimensionless]; None outside all of them:
        over them it has not rested.

    Sources:
        S-DISCOVER (flooded); S-T105 (flooded deep-cycle); S-SUNON; S-POLARIS (absorbed glass mat);
        S-TROJAN (rest).

    Example:
        >>> band = charge_by_voltage("flooded", registry.Quantity(12.3, "volt"))
        >>> f"{band.least:.0f} to {band.most:.0f}"
        '50 percent to 75 percent'
        >>> charge_by_voltage("flooded", registry.Quantity(13.4, "volt")) is None
        True
    """
    return _band(_charges(kind, "rested_V"), float(rested.to("volt").m))


@cache
def _corrections() -> Points:
    rows = rows_of_table("hydrometer_correction")
    return tuple((float(row["electrolyte_F"]), float(row["add_to_specific_gravity"])) for row in rows)


@checks_dimensions
def corrected_specific_gravity(reading: float, electrolyte: Temperature) -> float | None:
    """Specific gravity at 80 °F from a hydrometer's reading.

    Args:
        reading: of the hydrometer [dimensionless].
        electrolyte: temperature of the acid [temperature].

    Returns:
        The reading brought to 80 °F; None outside 0 to 160 °F.

    Sources:
        S-TROJAN; S-NISSAN; S-DISCOVER.

    Example:
        >>> round(corrected_specific_gravity(1.250, registry.Quantity(60, "degF")), 4)
        1.242
    """
    add = value_between(_corrections(), float(electrolyte.to("degree_Fahrenheit").m))
    return None if add is None else reading + add


def charge_by_specific_gravity(kind: FloodedKind, at_80_degrees: float) -> Band | None:
    """Charge of a flooded lead-acid battery from its acid.

    Args:
        kind: starting (flooded) or deep-cycle [name].
        at_80_degrees: specific gravity, corrected to 80 °F [dimensionless].

    Returns:
        Least and most share [dimensionless]; None outside the table: full is 1.265, deep-cycle 1.277.

    Sources:
        S-DISCOVER (flooded); S-T105 (flooded deep-cycle).

    Example:
        >>> band = charge_by_specific_gravity("flooded", 1.242)
        >>> f"{band.least:.0f} to {band.most:.0f}"
        '75 percent to 100 percent'
    """
    return _band(_charges(kind, "specific_gravity_80F"), at_80_degrees)


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
    tables = _charges(kind, "specific_gravity_80F").values()
    points = sorted((percent, gravity) for rows in tables for gravity, percent in rows)
    around = values_around(points, float(charge.to("percent").m))
    return electrolyte_freezes(min(around)) if around else None
