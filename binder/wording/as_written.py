"""A quantity as its owner wrote it, and beside it in the other system, for who reads that one."""

from collections.abc import Mapping

from binder.quantities import MASS, PRESSURE, SPEED, TORQUE, VOLUME, Dimension, Quantity
from binder.wording import measures
from binder.wording.measures import (
    CAPACITY,
    PRESSURE_LIMIT,
    RATING,
    SIZE,
    SPEED_LIMIT,
    Printed,
    System,
    number_text,
)
from binder.wording.numbers import BLANK, named, quantity_text

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


_OTHER: Mapping[System, System] = {"us": "metric", "metric": "us"}
# Beside another value a coarse step would show a difference that is none: 105 psi are 724 and not 725 kPa.
_FINE: Mapping[System, Mapping[str, Printed]] = {
    "us": {"volume": Printed("gallon", "gal", 0.1, 1)},
    "metric": {"volume": Printed("liter", "L", 0.1, 1), "pressure": Printed("kilopascal", "kPa")},
}
_US_UNITS = {
    "pound",
    "psi",
    "gallon",
    "quart",
    "pint",
    "fluid_ounce",
    "mile_per_hour",
    "foot * pound_force",
    "inch * pound_force",
}
_LIMITS: tuple[tuple[Dimension, str], ...] = (
    (MASS, RATING),
    (PRESSURE, PRESSURE_LIMIT),
    (VOLUME, CAPACITY),
    (SPEED, SPEED_LIMIT),
    (TORQUE, measures.TORQUE),
)


def beside(quantity: Quantity | None, meaning: str, system: System) -> str:
    """Write a quantity in the system the rig is not printed in."""
    if quantity is None:
        return ""
    other, (name, rounding) = _OTHER[system], named(meaning)
    fine = _FINE[other].get(name)
    if fine is None:
        return quantity_text(quantity, meaning, other)
    return f"{number_text(quantity, fine, rounding)} {fine.word}"


def both_lengths(quantity: Quantity | None, own: str, system: System) -> str:
    """Set the other system in parentheses after a length that is written already."""
    other = beside(quantity, SIZE, system)
    return f"{own} ({other})" if other else own


def both_as_written(quantity: Quantity | None) -> str:
    """Write a limit as its owner wrote it, and the other system in parentheses."""
    written = as_written(quantity)
    if quantity is None:
        return written
    system: System = "us" if str(quantity.units) in _US_UNITS else "metric"
    for dimension, meaning in _LIMITS:
        if dimension.measures(quantity):
            return f"{written} ({beside(quantity, meaning, system)})"
    return written
