"""A quantity as text: by the name of a measure and the direction it is rounded in, such as ``pressure up``.

Loads, required pressures and needs round up; ratings, margins, ranges and time left round down.
"""

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import get_args

from binder.quantities import Quantity, number_in
from binder.wording.measures import (
    DIFFERENCES,
    MEASURES,
    Measure,
    Rounding,
    System,
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


def quantity_text(quantity: Quantity | None, measure: str, units: System) -> str:
    """Write a quantity with its unit; a blank and the unit where it is not known."""
    name, rounding = named(measure)
    if name in MEASURES[units]:
        word = MEASURES[units][name].word  # type: ignore[index] # It is one of them.
        return f"{bare_number(quantity, measure, units)}{'' if word.startswith('/') else ' '}{word}"
    if quantity is None:
        return _BLANKS.get(name, {"us": BLANK, "metric": BLANK})[units]
    return _OTHERS[name](quantity, units, rounding)


def bare_number(quantity: Quantity | None, measure: str, units: System) -> str:
    """Write a quantity without its unit, for a column that names it once."""
    name, rounding = named(measure)
    if quantity is None:
        return BLANK
    return number_text(quantity, MEASURES[units][name], rounding)  # type: ignore[index] # Only of these.


def unit_word(measure: str, units: System) -> str:
    """Give the word of the unit a measure is printed in."""
    return MEASURES[units][named(measure)[0]].word  # type: ignore[index] # Only of these.


def unit_name(measure: str, units: System) -> str:
    """Give the unit a measure is printed in, as pint knows it."""
    return MEASURES[units][named(measure)[0]].unit  # type: ignore[index] # Only of these.


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


def _size(quantity: Quantity, units: System, rounding: Rounding) -> str:
    is_short = abs(number_in(quantity, "inch")) < _SHORT
    return (
        quantity_text(quantity, f"inches {rounding}", units)
        if is_short
        else length_text(quantity, units, rounding)
    )


def _room(quantity: Quantity, units: System) -> str:
    """Room for more weight; less than one pound or kilogram is none."""
    text = quantity_text(quantity, "weight down", units)
    return "no room" if text.startswith("0 ") else text


def _time(quantity: Quantity, rounding: Rounding) -> str:
    seconds = float(quantity.to("second").magnitude)
    if abs(seconds) < _SECONDS:
        return f"{rounded(seconds, 1, rounding):.0f} s"
    return duration_text(quantity, rounding)


def _years(quantity: Quantity, rounding: Rounding) -> str:
    return f"{rounded(float(quantity.to('year').magnitude), 0.1, rounding):.1f} years"


def _months(time: Quantity, rounding: Rounding) -> str:
    return f"{rounded(number_in(time, 'month'), 1, rounding):.0f} months"


def _lasting(time: Quantity) -> str:
    """How long something lasts, for a person who must decide: half days, or hours under a day."""
    days = rounded(float(time.to("day").magnitude), 0.5, "down")
    if days < 1:
        return f"{rounded(float(time.to('hour').magnitude), 1, 'down'):.0f} h"
    return "1 day" if days == 1 else f"{days:g} days"


_OTHERS: Mapping[str, Callable[[Quantity, System, Rounding], str]] = MappingProxyType(
    {
        "length": length_text,
        "size": _size,
        "room": lambda quantity, units, _: _room(quantity, units),
        "percent": lambda quantity, _, rounding: share_text(quantity, rounding),
        "duration": lambda quantity, _, rounding: duration_text(quantity, rounding),
        "time": lambda quantity, _, rounding: _time(quantity, rounding),
        "lasting": lambda quantity, _, __: _lasting(quantity),
        "hours": lambda quantity, _, rounding: hours_text(quantity, rounding),
        "days": lambda quantity, _, __: days_text(quantity),
        "whole days": lambda quantity, _, __: whole_days_text(quantity),
        "years": lambda quantity, _, rounding: _years(quantity, rounding),
        "bare years": lambda quantity, _, __: f"{quantity.to('year').magnitude:g}",
        "months": lambda quantity, _, rounding: _months(quantity, rounding),
        "percent as stated": lambda quantity, _, __: f"{number_in(quantity, 'percent'):g} %",
        "as written": lambda quantity, _, __: f"{quantity:g~P}",
    }
)
_BLANKS: Mapping[str, Mapping[System, str]] = MappingProxyType(
    {
        "length": {"us": f"{BLANK} ft {BLANK} in", "metric": f"{BLANK} m"},
        "duration": {"us": f"{BLANK} h", "metric": f"{BLANK} h"},
        "hours": {"us": f"{BLANK} h", "metric": f"{BLANK} h"},
        "lasting": {"us": f"{BLANK} days", "metric": f"{BLANK} days"},
        "years": {"us": f"{BLANK} years", "metric": f"{BLANK} years"},
        "percent as stated": {"us": f"{BLANK} %", "metric": f"{BLANK} %"},
    }
)
QUANTITY_MEASURES = frozenset([*get_args(Measure), *_OTHERS])
"""Names of everything a quantity can be written as."""

_CODES: Mapping[str, str] = MappingProxyType(
    {
        "psi": "psi",
        "kilopascal": "kPa",
        "pound": "lb",
        "kilogram": "kg",
        "mile": "mi",
        "kilometer": "km",
        "foot": "ft",
        "meter": "m",
        "inch": "in",
        "centimeter": "cm",
        "millimeter": "mm",
        "gallon": "gal",
        "liter": "L",
        "degree_Fahrenheit": "degF",
        "degree_Celsius": "degC",
        "delta_degree_Fahrenheit": "degF",
        "kelvin": "degC",
        "mile_per_hour": "mph",
        "kilometer_per_hour": "km/h",
        "foot * pound_force": "ft*lb",
        "newton * meter": "N*m",
        "kilowatt": "kW",
        "kilowatt_hour": "kWh",
        "percent": "%",
        "ampere_hour": "Ah",
        "month": "month",
        "hour": "h",
        "second": "s",
        "day": "day",
        "year": "year",
    }
)
"""Units as a program reads them, and as people write them in their profiles."""

_IN_BOTH = {"percent": "percent", "duration": "hour", "hours": "hour", "time": "second", "lasting": "day"}
_IN_BOTH |= {"months": "month", "percent as stated": "percent"}
_IN_BOTH |= {"days": "day", "whole days": "day", "years": "year"}
_IN_EACH: Mapping[str, Mapping[System, str]] = MappingProxyType(
    {
        "length": {"us": "inch", "metric": "meter"},
        "size": {"us": "inch", "metric": "meter"},
        "tread": {"us": "inch", "metric": "millimeter"},
        "room": {"us": "pound", "metric": "kilogram"},
        "volume as written": {"us": "gallon", "metric": "liter"},
    }
)
_DIGITS = 10  # Far beyond any measurement, short of the noise of binary arithmetic.


def recorded(quantity: Quantity, measure: str, units: System) -> tuple[float, str]:
    """Give a quantity as a plain number and its unit, for other programs: not rounded to what is printed."""
    name, _ = named(measure)
    unit = _IN_BOTH.get(name) or _IN_EACH.get(name, {}).get(units) or unit_name(measure, units)
    if str(quantity.units).startswith("delta_"):
        unit = DIFFERENCES[unit]
    return round(float(quantity.to(unit).magnitude), _DIGITS), _CODES[unit]
