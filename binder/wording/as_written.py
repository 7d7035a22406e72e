"""A quantity as its owner wrote it: what is read back against a label, a stick or a book is not converted."""

from binder.quantities import Quantity
from binder.wording.numbers import BLANK

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
    """Write a quantity in the unit and with the digits it was written in."""
    if quantity is None:
        return BLANK
    return f"{number_as_written(quantity)} {unit_as_written(quantity)}"


def number_as_written(quantity: Quantity) -> str:
    """Write the bare number a quantity was written with."""
    return f"{round(float(quantity.magnitude), 6):,.6f}".rstrip("0").rstrip(".")


def unit_as_written(quantity: Quantity) -> str:
    """Give the word of the unit a quantity was written in."""
    return _WORDS[str(quantity.units)]
