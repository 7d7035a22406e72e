"""A quantity as its owner wrote it: what is read back against a label, a stick or a book is not converted."""

from binder.cards.display import BLANK
from binder.quantities import Quantity

_WORDS = {
    "inch": "in",
    "foot": "ft",
    "mile": "mi",
    "kilometer": "km",
    "millimeter": "mm",
    "centimeter": "cm",
    "meter": "m",
    "pound": "lb",
    "kilogram": "kg",
    "tonne": "t",
    "psi": "psi",
    "bar": "bar",
    "kilopascal": "kPa",
    "gallon": "gal",
    "quart": "qt",
    "pint": "pt",
    "fluid_ounce": "fl oz",
    "liter": "L",
    "mile_per_hour": "mph",
    "kilometer_per_hour": "km/h",
    "horsepower": "hp",
    "kilowatt": "kW",
    "watt": "W",
    "foot * pound_force": "ft·lb",
    "inch * pound_force": "in·lb",
    "meter * newton": "N·m",
    "minute": "min",
    "hour": "h",
    "day": "days",
    "week": "weeks",
    "year": "years",
    "month": "months",
    "percent": "%",
    "degree_Fahrenheit": "°F",
    "degree_Celsius": "°C",
}


def as_written(quantity: Quantity | None) -> str:
    """Write a quantity in the unit and with the digits it was written in.

    Args:
        quantity: as the profile holds it, None where it is not known [any].

    Returns:
        Number and unit, or a blank to fill in.

    Sources:
        Own choice: a typed value is read against its original digit by digit.

    Example:
        >>> from binder.quantities import registry
        >>> as_written(registry.Quantity(2007.5, "pound")), as_written(registry.Quantity(3.5, "quart"))
        ('2,007.5 lb', '3.5 qt')
    """
    if quantity is None:
        return BLANK
    return f"{number_as_written(quantity)} {unit_as_written(quantity)}"


def number_as_written(quantity: Quantity) -> str:
    """Write the bare number a quantity was written with.

    Args:
        quantity: as the profile holds it [any].

    Returns:
        The number with thousands commas and no more decimals than were written.

    Sources:
        Own choice.

    Example:
        >>> from binder.quantities import registry
        >>> number_as_written(registry.Quantity(5155.0, "pound"))
        '5,155'
    """
    return f"{round(float(quantity.magnitude), 6):,.6f}".rstrip("0").rstrip(".")


def unit_as_written(quantity: Quantity) -> str:
    """Give the word of the unit a quantity was written in.

    Args:
        quantity: as the profile holds it [any].

    Returns:
        The word, such as ``lb``.

    Raises:
        KeyError: nobody can write that unit; printing it is a bug.

    Sources:
        The table of units people may write.

    Example:
        >>> from binder.quantities import registry
        >>> unit_as_written(registry.Quantity(5155.0, "pound"))
        'lb'
    """
    return _WORDS[str(quantity.units)]
