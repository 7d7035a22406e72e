"""Engine-oil grade against the coldest start: where the cold-cranking limit of its W grade lies.

The engine maker's chart comes first; the limit says only that the oil still lets an engine crank.
"""

import re
from functools import cache
from typing import NamedTuple

from binder.quantities import Temperature, checks_dimensions, registry
from binder.reference.sources import rows_of_table

_WINTER_GRADE = re.compile(r"(?:^|[^0-9])([0-9]{1,2}) ?[wW](?![a-zA-Z])")


class WinterGrade(NamedTuple):
    """A W grade and the temperature its limit of cranking is stated at."""

    name: str
    cranks_at: Temperature


@cache
def winter_grades() -> tuple[WinterGrade, ...]:
    """The W grades, thinnest first.

    Returns:
        The rows of the table.

    Sources:
        S-J300.

    Example:
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

    Returns:
        The grade; None where it names none (a summer oil), an unknown one, or two different ones.

    Sources:
        S-J300.

    Example:
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

    Returns:
        True where it is not colder than the temperature the limit is stated at.

    Sources:
        S-J300.

    Example:
        >>> oil = winter_grade("15W-40")
        >>> is_thin_enough(oil, registry.Quantity(-4, "degF"))
        True
        >>> is_thin_enough(oil, registry.Quantity(-5, "degF"))
        False
    """
    # -4 °F and -20 °C are one temperature, but for the last bits.
    return float(coldest_start.to("kelvin").m) >= float(grade.cranks_at.to("kelvin").m) - 1e-9


@checks_dimensions
def thickest_for(coldest_start: Temperature) -> WinterGrade | None:
    """Thickest W grade whose cranking limit covers the coldest start.

    Args:
        coldest_start: of the trip [temperature].

    Returns:
        The grade; None where it is colder than the table.

    Sources:
        S-J300.

    Example:
        >>> thickest_for(registry.Quantity(-10, "degF")).name
        '10W'
    """
    fit = [grade for grade in winter_grades() if is_thin_enough(grade, coldest_start)]
    return fit[-1] if fit else None
