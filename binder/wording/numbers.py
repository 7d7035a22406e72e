"""A quantity as text: by its measure and direction, such as ``pressure up``, or as its owner wrote it.

Loads, required pressures and needs round up; ratings, margins, ranges and time left round down.
"""

from collections.abc import Callable, Mapping
from math import degrees
from types import MappingProxyType
from typing import get_args

from binder.quantities import MASS, PRESSURE, SPEED, TORQUE, VOLUME, Dimension, Quantity, number_in
from binder.wording import measures
from binder.wording.measures import (
    BAR,
    CAPACITY,
    DIFFERENCES,
    MEASURES,
    PRESSURE_LIMIT,
    RATING,
    SIZE,
    SPEED_LIMIT,
    MetricPressure,
    Printed,
    Rounding,
    Style,
    System,
    angle_text,
    days_text,
    duration_text,
    hours_text,
    length_text,
    number_text,
    rounded,
    whole_days_text,
)

BLANK = "______"
"""A value to fill in by hand."""

_SHORT = 12  # Inches: a length under a foot is told in the small unit alone.
_SECONDS = 120
"""Durations under so many seconds are told in seconds: a following gap, not a drive."""


def quantity_text(quantity: Quantity | None, measure: str, style: Style) -> str:
    """Write a quantity with its unit; a blank and the unit where it is not known."""
    name, rounding = named(measure)
    if name in MEASURES:
        word = style.printed(name).word
        return f"{bare_number(quantity, measure, style)}{'' if word.startswith('/') else ' '}{word}"
    if quantity is None:
        return _BLANKS.get(name, {"us": BLANK, "metric": BLANK})[style.system]
    return _OTHERS[name](quantity, style, rounding)


def bare_number(quantity: Quantity | None, measure: str, style: Style) -> str:
    """Write a quantity without its unit, for a column that names it once."""
    name, rounding = named(measure)
    if quantity is None:
        return BLANK
    return number_text(quantity, style.printed(name), rounding)


def unit_word(measure: str, style: Style) -> str:
    """Give the word of the unit a measure is printed in."""
    name, _ = named(measure)
    return _WORDS[name][style.system] if name in _WORDS else style.printed(name).word


_WORDS: Mapping[str, Mapping[System, str]] = {
    "fuel use": {"us": "mpg", "metric": "L/100km"},
    "fine percent": {"us": "%", "metric": "%"},
}


def plain_number(quantity: Quantity, measure: str, style: Style) -> float:
    """Give a quantity as the number it is printed as, not rounded: for drawings."""
    name, _ = named(measure)
    if name == "fuel use":
        use = number_in(quantity, "gallon / mile")
        return 1 / use if style.system == "us" else number_in(quantity, "liter / kilometer") * 100
    # Not by a factor: the scales of temperature differ by more.
    return float(quantity.m_as("percent" if name == "fine percent" else unit_name(measure, style)))


def unit_name(measure: str, style: Style) -> str:
    """Give the unit a measure is printed in, as pint knows it."""
    return style.printed(named(measure)[0]).unit


def named(measure: str) -> tuple[str, Rounding]:
    """Part a measure and its direction; without one the nearest."""
    name, _, last = measure.rpartition(" ")
    if last in get_args(Rounding):
        return name, last  # type: ignore[return-value] # It is one of them.
    return measure, "nearest"


def share_text(share: Quantity | float, rounding: Rounding) -> str:
    """Write a share in percent."""
    number = share if isinstance(share, int | float) else float(share.to("").magnitude)
    return f"{rounded(number * 100, 1, rounding):.0f} %"


def _size(quantity: Quantity, style: Style, rounding: Rounding) -> str:
    is_short = abs(number_in(quantity, "inch")) < _SHORT
    return (
        quantity_text(quantity, f"inches {rounding}", style)
        if is_short
        else length_text(quantity, style, rounding)
    )


def _room(quantity: Quantity, style: Style) -> str:
    """Room for more weight; less than one pound or kilogram is none."""
    text = quantity_text(quantity, "weight down", style)
    return "no room" if text.startswith("0 ") else text


def _time(quantity: Quantity, rounding: Rounding) -> str:
    seconds = float(quantity.to("second").magnitude)
    if abs(seconds) < _SECONDS:
        return f"{rounded(seconds, 1, rounding):.0f} s"
    return duration_text(quantity, rounding)


def _years(quantity: Quantity, rounding: Rounding) -> str:
    return f"{rounded(float(quantity.to('year').magnitude), 0.1, rounding):.1f} years"


def _fuel_use(use: Quantity, style: Style, rounding: Rounding) -> str:
    """Fuel a distance takes, as it is said: the more miles a gallon, the less."""
    number, word = plain_number(use, "fuel use", style), unit_word("fuel use", style)
    if style.system == "metric":
        return f"{rounded(number, 0.1, rounding):g} {word}"
    turned: Mapping[Rounding, Rounding] = {"up": "down", "down": "up"}
    return f"{rounded(number, 0.05, turned.get(rounding, rounding)):.4g} {word}"


def _months(time: Quantity, rounding: Rounding) -> str:
    return f"{rounded(number_in(time, 'month'), 1, rounding):.0f} months"


def _lasting(time: Quantity) -> str:
    """How long something lasts, for a person who must decide: half days, or hours under a day."""
    days = rounded(float(time.to("day").magnitude), 0.5, "down")
    if days < 1:
        return f"{rounded(float(time.to('hour').magnitude), 1, 'down'):.0f} h"
    return "1 day" if days == 1 else f"{days:g} days"


_OTHERS: Mapping[str, Callable[[Quantity, Style, Rounding], str]] = MappingProxyType(
    {
        "length": length_text,
        "size": _size,
        "room": lambda quantity, style, _: _room(quantity, style),
        "percent": lambda quantity, _, rounding: share_text(quantity, rounding),
        "angle": lambda quantity, _, rounding: angle_text(quantity, rounding),
        "duration": lambda quantity, _, rounding: duration_text(quantity, rounding),
        "time": lambda quantity, _, rounding: _time(quantity, rounding),
        "lasting": lambda quantity, _, __: _lasting(quantity),
        "hours": lambda quantity, _, rounding: hours_text(quantity, rounding),
        "days": lambda quantity, _, __: days_text(quantity),
        "whole days": lambda quantity, _, __: whole_days_text(quantity),
        "years": lambda quantity, _, rounding: _years(quantity, rounding),
        "bare years": lambda quantity, _, __: f"{quantity.to('year').magnitude:g}",
        "months": lambda quantity, _, rounding: _months(quantity, rounding),
        "fuel use": _fuel_use,
        "fine percent": lambda quantity, _, rounding: (
            f"{rounded(number_in(quantity, 'percent'), 0.1, rounding):.1f} %"
        ),
        "percent as stated": lambda quantity, _, __: f"{number_in(quantity, 'percent'):g} %",
        "as written": lambda quantity, _, __: f"{quantity:g~P}",
    }
)
_BLANKS: Mapping[str, Mapping[System, str]] = MappingProxyType(
    {
        "length": {"us": f"{BLANK} ft {BLANK} in", "metric": f"{BLANK} m"},
        "angle": {"us": f"{BLANK}°", "metric": f"{BLANK}°"},
        "duration": {"us": f"{BLANK} h", "metric": f"{BLANK} h"},
        "hours": {"us": f"{BLANK} h", "metric": f"{BLANK} h"},
        "lasting": {"us": f"{BLANK} days", "metric": f"{BLANK} days"},
        "years": {"us": f"{BLANK} years", "metric": f"{BLANK} years"},
        "percent as stated": {"us": f"{BLANK} %", "metric": f"{BLANK} %"},
    }
)
QUANTITY_MEASURES = frozenset([*MEASURES, *_OTHERS])
"""Names of everything a quantity can be written as."""

_UNITS: Mapping[str, str] = MappingProxyType(
    {
        "psi": "psi",
        "bar": "bar",
        "kilopascal": "kPa",
        "pound": "lb",
        "kilogram": "kg",
        "tonne": "t",
        "mile": "mi",
        "kilometer": "km",
        "foot": "ft",
        "inch": "in",
        "meter": "m",
        "centimeter": "cm",
        "millimeter": "mm",
        "gallon": "gal",
        "quart": "qt",
        "pint": "pt",
        "fluid_ounce": "fl oz",
        "liter": "L",
        "degree_Fahrenheit": "°F",
        "degree_Celsius": "°C",
        "delta_degree_Fahrenheit": "°F",
        "kelvin": "°C",
        "mile_per_hour": "mph",
        "kilometer_per_hour": "km/h",
        "foot * pound_force": "ft·lb",
        "inch * pound_force": "in·lb",
        "meter * newton": "N·m",
        "newton * meter": "N·m",
        "horsepower": "hp",
        "watt": "W",
        "kilowatt": "kW",
        "kilowatt_hour": "kWh",
        "ampere_hour": "Ah",
        "percent": "%",
        "gallon / mile": "gal/mi",
        "liter / kilometer": "L/km",
        "second": "s",
        "minute": "min",
        "hour": "h",
        "day": "days",
        "week": "weeks",
        "month": "months",
        "year": "years",
    }
)
"""Units as pint knows them, and as they are printed."""

_CODE_LETTERS = str.maketrans({"°": "deg", "·": "*"})

_IN_BOTH = {"percent": "percent", "duration": "hour", "hours": "hour", "time": "second", "lasting": "day"}
_IN_BOTH |= {"months": "month", "percent as stated": "percent", "fine percent": "percent"}
_IN_BOTH |= {"days": "day", "whole days": "day", "years": "year"}
_IN_EACH: Mapping[str, Mapping[System, str]] = MappingProxyType(
    {
        "length": {"us": "inch", "metric": "meter"},
        "size": {"us": "inch", "metric": "meter"},
        "tread": {"us": "inch", "metric": "millimeter"},
        "room": {"us": "pound", "metric": "kilogram"},
        "fuel use": {"us": "gallon / mile", "metric": "liter / kilometer"},
        "volume as written": {"us": "gallon", "metric": "liter"},
    }
)
_DIGITS = 10  # Far beyond any measurement, short of the noise of binary arithmetic.


def recorded(quantity: Quantity, measure: str, style: Style) -> tuple[float, str]:
    """Give a quantity as a plain number and its unit, for other programs: not rounded to what is printed."""
    name, _ = named(measure)
    if name == "angle":
        return round(degrees(float(quantity.to("").magnitude)), _DIGITS), "deg"
    unit = _IN_BOTH.get(name) or _IN_EACH.get(name, {}).get(style.system) or unit_name(measure, style)
    if str(quantity.units).startswith("delta_"):
        unit = DIFFERENCES[unit]
    return round(float(quantity.to(unit).magnitude), _DIGITS), _code(unit)


def _code(unit: str) -> str:
    """A unit as a program reads it, and as people write it in their profiles."""
    return unit if unit in {"day", "month", "year"} else _UNITS[unit].translate(_CODE_LETTERS)


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
    return _UNITS[str(quantity.units)]


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


def beside(quantity: Quantity | None, meaning: str, style: Style) -> str:
    """Write a quantity in the system the rig is not printed in."""
    if quantity is None:
        return ""
    other, (name, rounding) = style._replace(system=_OTHER[style.system]), named(meaning)
    fine = _FINE[other.system].get(name)
    if fine is None or other.printed(name) is BAR:
        return quantity_text(quantity, meaning, other)
    return f"{number_text(quantity, fine, rounding)} {fine.word}"


def both_lengths(quantity: Quantity | None, own: str, style: Style) -> str:
    """Set the other system in parentheses after a length that is written already."""
    other = beside(quantity, SIZE, style)
    return f"{own} ({other})" if other else own


def both_as_written(quantity: Quantity | None, pressure: MetricPressure = "kPa") -> str:
    """Write a limit as its owner wrote it, and the other system in parentheses."""
    written = as_written(quantity)
    if quantity is None:
        return written
    system: System = "us" if str(quantity.units) in _US_UNITS else "metric"
    for dimension, meaning in _LIMITS:
        if dimension.measures(quantity):
            return f"{written} ({beside(quantity, meaning, Style(system, pressure))})"
    return written
