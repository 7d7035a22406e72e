"""Fluids against the cold: freezing points and the strength a night asks for, and the grade of engine oil.

Ethylene and propylene glycol are different fluids, and percent by mass and by volume different columns.
Between two rows the warmer one stands: past the strongest mixture ethylene glycol protects **less**, so
neither the row below nor the row above is always the safe one.

Of oil the engine maker's chart comes first; the limit of its W grade says only that it lets an engine crank.
"""

import re
from functools import cache
from typing import Literal, NamedTuple, TypeAlias

from binder.calculations.bounds import is_same, values_around
from binder.quantities import Share, Temperature, checks_dimensions, registry
from binder.reference.sources import rows_of_table

Fluid: TypeAlias = Literal["ethylene glycol", "propylene glycol", "methanol"]
Basis: TypeAlias = Literal["mass", "volume", "not stated"]

_LAST_BITS = 1e-9  # of a degree: -4 °F and -20 °C are one temperature.


class FreezePoint(NamedTuple):
    """A row of the table: strength, where it freezes, and whence the row is."""

    strength: Share
    temperature: Temperature
    source: str


@cache
def freeze_points(fluid: Fluid, basis: Basis) -> tuple[FreezePoint, ...]:
    """Rows of the table for a fluid in water.

    Args:
        fluid: what is mixed with water [name].
        basis: of the percentage; ``not stated`` is an engine maker's own table [name].
    Returns: The rows, strength rising; none where the fluid has no table on that basis.
    Sources: LIB-COOLPROP; S-LANGE-PG; S-LANGE-MEOH; S-YUCHAI.

    >>> rows = freeze_points("ethylene glycol", "not stated")
    >>> f"{rows[-1].strength:.0f} {rows[-1].temperature:.0f}"
    '100 percent -13 degree_Celsius'
    """
    rows = [row for row in rows_of_table("freeze_points") if (row["fluid"], row["basis"]) == (fluid, basis)]
    return tuple(
        FreezePoint(
            registry.Quantity(float(row["percent"]), "percent"),
            registry.Quantity(float(row["freeze_C"]), "degree_Celsius"),
            row["source_id"],
        )
        for row in rows
    )


@checks_dimensions
def freeze_point(fluid: Fluid, basis: Basis, strength: Share) -> FreezePoint | None:
    """Where a mixture freezes, never stated colder than it is.

    Args:
        fluid: what is mixed with water [name].
        basis: of the percentage [name].
        strength: how much of the mixture is the fluid [dimensionless].
    Returns: The warmer of the rows around the strength; None outside the table.
    Sources: LIB-COOLPROP; S-LANGE-PG; S-LANGE-MEOH; S-YUCHAI.

    >>> f"{freeze_point('propylene glycol', 'volume', q(50, 'percent')).temperature.to('degF'):.0f}"
    '-28 degree_Fahrenheit'
    >>> freeze_point("ethylene glycol", "volume", q(70, "percent")) is None
    True
    """
    rows = freeze_points(fluid, basis)
    points = [(float(row.strength.m), float(index)) for index, row in enumerate(rows)]
    around = values_around(points, float(strength.to("percent").m))
    return max((rows[int(index)] for index in around), key=lambda row: row.temperature, default=None)


@checks_dimensions
def strength_for(fluid: Fluid, basis: Basis, low: Temperature) -> FreezePoint | None:
    """Weakest mixture of the table that does not freeze at a temperature.

    Args:
        fluid: what is mixed with water [name].
        basis: of the percentage [name].
        low: the coldest it gets [temperature].
    Returns: The first row that freezes below it; None where no row does.
    Sources: LIB-COOLPROP; S-LANGE-PG; S-LANGE-MEOH; S-YUCHAI.

    >>> f"{strength_for('ethylene glycol', 'volume', q(-20, 'degF')).strength:.0f}"
    '45 percent'
    """
    rows = freeze_points(fluid, basis)
    return next((row for row in rows if freeze_margin(row.temperature, low).m > _LAST_BITS), None)


@checks_dimensions
def freeze_margin(point: Temperature, low: Temperature) -> Temperature:
    """How much colder it may get before a mixture freezes.

    Args:
        point: where it freezes [temperature].
        low: the coldest it gets [temperature].
    Returns: The difference [temperature], negative where it freezes.
    Sources: arithmetic.

    >>> f"{freeze_margin(q(-28, 'degF'), q(20, 'degF')):.0f}"
    '48 delta_degree_Fahrenheit'
    """
    difference = float(low.to("kelvin").m) - float(point.to("kelvin").m)
    return registry.Quantity(difference * 9 / 5, "delta_degree_Fahrenheit")


@checks_dimensions
def is_past_strongest(fluid: Fluid, basis: Basis, strength: Share) -> bool | None:
    """Tell whether more of the fluid protects less.

    Args:
        fluid: what is mixed with water [name].
        basis: of the percentage [name].
        strength: how much of the mixture is the fluid [dimensionless].
    Returns: True past the table's coldest row; None where the table ends there or before the strength, so
        that it cannot tell.
    Sources: S-YUCHAI; LIB-COOLPROP.

    >>> strength = q(70, "percent")
    >>> is_past_strongest("ethylene glycol", "not stated", strength)
    True
    >>> is_past_strongest("ethylene glycol", "volume", strength) is None
    True
    """
    rows = freeze_points(fluid, basis)
    if not rows or strength > rows[-1].strength:
        return None
    coldest = min(rows, key=lambda row: row.temperature)
    here, there = float(strength.to("percent").m), float(coldest.strength.m)
    return here > there and not is_same(here, there)


_WINTER_GRADE = re.compile(r"(?:^|[^0-9])([0-9]{1,2}) ?[wW](?![a-zA-Z])")


class WinterGrade(NamedTuple):
    """A W grade and the temperature its limit of cranking is stated at."""

    name: str
    cranks_at: Temperature


@cache
def winter_grades() -> tuple[WinterGrade, ...]:
    """The W grades, thinnest first.

    Returns: The rows of the table.
    Sources: S-J300.

    >>> [grade.name for grade in winter_grades()]
    ['0W', '5W', '10W', '15W', '20W', '25W']
    """
    return tuple(
        WinterGrade(row["grade"], registry.Quantity(float(row["cranking_at_C"]), "degree_Celsius"))
        for row in rows_of_table("engine_oil_grades")
    )


def winter_grade(specification: str) -> WinterGrade | None:
    """W grade an oil's specification names.

    Args:
        specification: such as ``SAE 15W-40`` [text].
    Returns: The grade; None where it names none (a summer oil), an unknown one, or two different ones.
    Sources: S-J300.

    >>> f"{winter_grade('SAE 15W-40, CK-4').cranks_at:.0f}"
    '-20 degree_Celsius'
    >>> winter_grade("SAE 30") is None
    True
    """
    names = {f"{int(number)}W" for number in _WINTER_GRADE.findall(specification)}
    if len(names) != 1:
        return None
    return next((grade for grade in winter_grades() if grade.name in names), None)


@checks_dimensions
def is_thin_enough(grade: WinterGrade, coldest_start: Temperature) -> bool:
    """Tell whether an oil's cranking limit covers the coldest start.

    Args:
        grade: of the oil [grade].
        coldest_start: of the trip [temperature].
    Returns: True where it is not colder than the temperature the limit is stated at.
    Sources: S-J300.

    >>> oil = winter_grade("15W-40")
    >>> is_thin_enough(oil, q(-4, "degF"))
    True
    >>> is_thin_enough(oil, q(-5, "degF"))
    False
    """
    # -4 °F and -20 °C are one temperature, but for the last bits.
    return float(coldest_start.to("kelvin").m) >= float(grade.cranks_at.to("kelvin").m) - 1e-9


@checks_dimensions
def thickest_for(coldest_start: Temperature) -> WinterGrade | None:
    """Thickest W grade whose cranking limit covers the coldest start.

    Args:
        coldest_start: of the trip [temperature].
    Returns: The grade; None where it is colder than the table.
    Sources: S-J300.

    >>> thickest_for(q(-10, "degF")).name
    '10W'
    """
    fit = [grade for grade in winter_grades() if is_thin_enough(grade, coldest_start)]
    return fit[-1] if fit else None
