"""Numbers read out of printed text: each with its unit, also where one unit serves several numbers."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from binder.quantities import Quantity, registry

UNITS = {
    "psi": "psi", "kPa": "kilopascal", "bar": "bar", "lb": "pound", "kg": "kilogram",
    "ft·lb": "foot * pound_force", "ft*lb": "foot * pound_force", "N·m": "newton * meter",
    "N*m": "newton * meter",
    "lb/gal": "pound / gallon", "gal/day": "gallon / day", "mi": "mile", "km": "kilometer",
    "miles": "mile", "ft": "foot", "feet": "foot", "in": "inch", "cm": "centimeter", "mm": "millimeter",
    "m": "meter", "meters": "meter", "gal": "gallon", "L": "liter", "qt": "quart", "pt": "pint",
    "°F": "degree_Fahrenheit", "degF": "degree_Fahrenheit", "°C": "degree_Celsius", "degC": "degree_Celsius",
    "mph": "mile_per_hour",
    "km/h": "kilometer_per_hour", "h": "hour", "hours": "hour", "hour": "hour", "min": "minute",
    "minutes": "minute", "s": "second", "%": "percent", "day": "day", "days": "day", "months": "month",
    "years": "year", "year": "year", "V": "volt", "Ah": "ampere_hour", "W": "watt", "kW": "kilowatt",
    "kWh": "kilowatt_hour",
    "hp": "horsepower", "steps": "steps", "deg": "deg", "°": "deg",
}  # fmt: skip
"""Printed units as the registry names them; steps and degrees of angle it does not know."""

_NUMBER = r"[-\u2212]?\d{1,3}(?:,\d{3})+(?:\.\d+)?|[-\u2212]?\d+(?:\.\d+)?"
_UNIT = "|".join(sorted((re.escape(unit) for unit in UNITS), key=len, reverse=True))
_END = r"(?![A-Za-z0-9]|(?<=\ in)\ (?:the|Europe)\b)"
"""A unit ends with its word, and "911 in the United States" are no inches."""
_WORD = re.compile(
    rf"""(?P<date>\d{{4}}-\d{{2}}(?:-\d{{2}})?{_END})
    | (?P<weekday>(?:Mon|Tue|Wed|Thu|Fri|Sat|Sun)\ [A-Z][a-z]{{2}}\ \d{{1,2}}{_END})
    | (?P<time>\d{{1,2}}:\d{{2}}(?:\ [ap]m)?{_END})
    | (?P<feet>\d+)\ ft\ (?P<inches>\d+)\ in{_END}
    | (?P<hours>\d+)\ h\ (?P<minutes>\d+)\ min{_END}
    | (?P<thirty>\d+/\d+)\ in{_END}
    | (?P<name>[A-Za-z0-9][\w./-]*[A-Za-z_][\w./-]*[A-Za-z0-9]|[A-Za-z]+[-.]?\d[\d./-]*)
    | (?P<number>(?<![\d.]){_NUMBER})(?:(?:\ /\ _+)*\ ?(?P<unit>{_UNIT}){_END})?
    """,
    re.VERBOSE,
)
_BETWEEN = re.compile(r"^ ?(?:to|or|and|/|,|;|now; .+: add to) ?$")


@dataclass(frozen=True)
class Number:
    """A number as printed: its words, its unit ("" for none), its value, its last digit, its neighbors."""

    words: str
    unit: str
    value: float | str
    step: float = 1.0
    before: str = ""
    after: str = ""

    @property
    def is_bare(self) -> bool:
        """A number that no unit follows."""
        return self.unit == "" and not isinstance(self.value, str)

    @property
    def quantity(self) -> Quantity | None:
        """The number with its unit, where the registry knows that."""
        known = UNITS.get(self.unit, "")
        if isinstance(self.value, str) or known in {"", "steps", "deg"}:
            return None
        return registry.Quantity(self.value, known)


def numbers_of(text: str, unit: str = "") -> Iterator[Number]:
    """Read every number of a text; one without a unit takes that of the next after "to", "or", "/".

    A word that holds a digit, like a size or a part's number, is one number, read as it stands.
    ``unit`` is what a heading says for numbers that have none.
    """
    text = text.replace("\u00a0", " ")
    text = re.sub(r" / _+", "", text)  # A blank takes its place in the row, and leaves the unit to the rest.
    found = [match for match in _WORD.finditer(text) if re.search(r"\d", match[0])]
    later, start = "", len(text)
    numbers = []
    for match in reversed(found):
        shared = later if _BETWEEN.match(text[match.end() : start]) else ""
        number = _with_neighbors(_number(match), text[: match.start()], text[match.end() :])
        if number.is_bare and (shared or unit):
            number = replace(number, unit=shared or unit)
        numbers.append(number)
        later, start = number.unit, match.start()
    yield from reversed(numbers)


def _with_neighbors(number: Number, before: str, after: str) -> Number:
    left, right = re.search(r"([A-Za-z]+)[:=,]? ?$", before), re.match(r" ?([A-Za-z]+)", after)
    return replace(number, before=left[1].lower() if left else "", after=right[1].lower() if right else "")


def _number(match: re.Match[str]) -> Number:
    words = match[0]
    if match["feet"]:
        return Number(words, "in", 12.0 * int(match["feet"]) + int(match["inches"]))
    if match["hours"]:
        return Number(words, "min", 60.0 * int(match["hours"]) + int(match["minutes"]), 5.0)
    if match["thirty"]:
        above, below = match["thirty"].split("/")
        return Number(words, "in", int(above) / int(below), 1 / int(below))
    if match["number"]:
        plain = match["number"].replace(",", "").replace("\u2212", "-")
        digits = len(plain.partition(".")[2])
        return Number(words, match["unit"] or "", float(plain), 10.0**-digits)
    return Number(words, "", words)


_LAST_UNIT = re.compile(rf"(?:^|[ ,;(])({_UNIT})\)?$")


_UNITS_LEFT = re.compile(rf"({_UNIT}) left\b")


def unit_said(heading: str) -> str:
    """The unit a heading ends in, like "cold fill, psi", or counts down, like "days left"; empty for none."""
    left = _UNITS_LEFT.match(heading)
    if left:
        return left[1]
    match = _LAST_UNIT.search(heading)
    return match[1] if match and (match.start() > 0 or heading == match[1]) else ""
