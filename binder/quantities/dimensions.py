"""The one unit registry, the dimensions the product knows, and the grammar people write quantities in.

A quantity is read by our own small grammar (a number, then a unit from a closed table) and only then
handed to pint. Why: pint itself reads ``5,5 bar`` as 55 bar, ``12 ft 6 in`` as an area and ``38 F`` as
farads; a pressure read wrongly is a tire filled wrongly.
"""

import math
import re
import sys
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from pathlib import Path as FilePath
from typing import TYPE_CHECKING, Annotated, Any, TypeAlias

from typing_extensions import TypeIs

# Wherever they are installed pint takes numpy and dask along: a tenth of a second each of every command,
# and no use here. A name that stands for None cannot be imported (Python's reference, import system).
_TAKEN_ALONG = [name for name in ("numpy", "dask") if name not in sys.modules]
sys.modules.update(dict.fromkeys(_TAKEN_ALONG))  # type: ignore[arg-type] # typeshed knows modules alone.
try:
    import pint
finally:
    for _name in _TAKEN_ALONG:
        del sys.modules[_name]

if TYPE_CHECKING:
    from pydantic_core import CoreSchema

registry: pint.UnitRegistry[Any] = pint.UnitRegistry(None, autoconvert_offset_to_baseunit=True)
registry.load_definitions(FilePath(__file__).with_name("units.txt").read_text("utf-8").splitlines())

Quantity: TypeAlias = pint.Quantity[Any]


def is_quantity(value: object) -> TypeIs[Quantity]:
    """Tell whether a value is a quantity of any dimension.

    Args:
        value: anything [any].
    Returns: True where it is.

    >>> is_quantity(q(95.0, "psi")), is_quantity(95.0)
    (True, False)
    """
    return isinstance(value, pint.Quantity)


@cache
def _dimensionality(formula: str) -> object:
    return registry.get_dimensionality(formula) if formula else registry.Quantity(1).dimensionality


@cache
def _is_of(unit_items: Iterable[tuple[str, float]], formula: str) -> bool:
    # The items of a unit are quicker to look up than the unit.
    return bool(registry.get_dimensionality(dict(unit_items)) == _dimensionality(formula))


@cache
def _ends_in(unit: pint.Unit, ends: tuple[float, float, str]) -> tuple[float, float]:
    """The least and the most that can be, in another unit; a trillionth beyond them is only rounding."""
    least, most = (registry.Quantity(end, ends[2]).m_as(unit) for end in ends[:2])
    return least - abs(least) * 1e-12, most + abs(most) * 1e-12


@dataclass(frozen=True)
class Dimension:
    """What a quantity must measure, in pint's words and in a person's; ``ends``: least, most, their unit."""

    formula: str
    words: str
    example: str
    signed: bool = False
    ends: tuple[float, float, str] | None = None

    def __get_pydantic_core_schema__(self, source: object, handler: object) -> "CoreSchema":
        """Let a model field annotated with this dimension read text (pydantic's own hook)."""
        from pydantic_core import core_schema  # noqa: PLC0415 - only models need it.

        return core_schema.no_info_plain_validator_function(self.read)

    def read(self, text: object) -> Quantity:
        """Read a quantity of this dimension from text a person wrote.

        Args:
            text: a scalar of the file [text].
        Returns: The quantity.
        Raises: QuantityError: it is no such quantity, or below zero where that makes no sense.

        >>> f"{MASS.read('26,000 lb'):.0f}"
        '26000 pound'
        """
        if not isinstance(text, str):
            raise QuantityError(f"{self.words} is needed here, like '{self.example}'")
        quantity = read_quantity(text, self)
        if quantity.magnitude < 0 and not self.signed:
            raise QuantityError(f"'{text}' is below zero; {self.words} here is not, like '{self.example}'")
        least, most = _ends_in(quantity.units, self.ends) if self.ends else (-math.inf, math.inf)
        if not least <= quantity.magnitude <= most:
            raise QuantityError(f"'{text}' can hardly be {self.words}; write it like '{self.example}'")
        return quantity

    def measures(self, quantity: Quantity) -> bool:
        """Tell whether a quantity has this dimension.

        Args:
            quantity: any quantity [any].
        Returns: True where it has.
        Sources: Dimensional analysis.

        >>> MASS.measures(q(1, "pound"))
        True
        """
        return _is_of(tuple(quantity.unit_items()), self.formula)


LENGTH = Dimension("[length]", "a length", "12 ft 6 in")
PLACE = Dimension("[length]", "a place", "252 in", signed=True)
MASS = Dimension("[mass]", "a weight", "26000 lb")
SCALE_WEIGHT = Dimension("[mass]", "a weight on a scale", "26000 lb", ends=(0, 200_000, "pound"))
SCALE_STEP = Dimension("[mass]", "a step of a scale", "20 lb", ends=(0.1, 500, "pound"))
PRESSURE = Dimension("[mass] / [length] / [time] ** 2", "a pressure", "110 psi")
TORQUE = Dimension("[mass] * [length] ** 2 / [time] ** 2", "a torque", "475 ft*lb")
VOLUME = Dimension("[length] ** 3", "a volume", "90 gal")
TIME = Dimension("[time]", "a time", "6 months")
DURATION = Dimension("[time]", "a time on the way", "2 h 15 min", ends=(0, 28, "day"))
STORE_TIME = Dimension("[time]", "for how long it lasts", "6 days")
ELEVATION = Dimension("[length]", "an elevation", "3,900 ft", signed=True, ends=(-1500, 30000, "foot"))
TEMPERATURE = Dimension("[temperature]", "a temperature", "34 degF", signed=True)
SPEED = Dimension("[length] / [time]", "a speed", "65 mph")
POWER = Dimension("[mass] * [length] ** 2 / [time] ** 3", "a power", "150 kW")
ANGLE = Dimension("", "an angle", "50 deg")
FUEL_USE = Dimension("[length] ** 2", "a fuel use", "8.0 mpg")
VOLUME_RATE = Dimension("[length] ** 3 / [time]", "an amount a day", "14 gal/day")
DENSITY = Dimension("[mass] / [length] ** 3", "a density", "835 kg/m3")
CURRENT = Dimension("[current]", "a current", "8 A")
CHARGE = Dimension("[current] * [time]", "a battery capacity", "220 Ah")
VOLTAGE = Dimension("[mass] * [length] ** 2 / [time] ** 3 / [current]", "a voltage", "12 V")
SHARE = Dimension("", "a share", "60 %")
RATIO_OF_TIMES = Dimension("", "a running time a day", "2 h/day")

Length: TypeAlias = Annotated[Quantity, LENGTH]
Place: TypeAlias = Annotated[Quantity, PLACE]
Mass: TypeAlias = Annotated[Quantity, MASS]
ScaleWeight: TypeAlias = Annotated[Quantity, SCALE_WEIGHT]
ScaleStep: TypeAlias = Annotated[Quantity, SCALE_STEP]
Pressure: TypeAlias = Annotated[Quantity, PRESSURE]
Torque: TypeAlias = Annotated[Quantity, TORQUE]
Volume: TypeAlias = Annotated[Quantity, VOLUME]
Time: TypeAlias = Annotated[Quantity, TIME]
Duration: TypeAlias = Annotated[Quantity, DURATION]
StoreTime: TypeAlias = Annotated[Quantity, STORE_TIME]
Elevation: TypeAlias = Annotated[Quantity, ELEVATION]
Temperature: TypeAlias = Annotated[Quantity, TEMPERATURE]
Speed: TypeAlias = Annotated[Quantity, SPEED]
Power: TypeAlias = Annotated[Quantity, POWER]
Angle: TypeAlias = Annotated[Quantity, ANGLE]
FuelUse: TypeAlias = Annotated[Quantity, FUEL_USE]
VolumeRate: TypeAlias = Annotated[Quantity, VOLUME_RATE]
Density: TypeAlias = Annotated[Quantity, DENSITY]
Current: TypeAlias = Annotated[Quantity, CURRENT]
Charge: TypeAlias = Annotated[Quantity, CHARGE]
Voltage: TypeAlias = Annotated[Quantity, VOLTAGE]
Share: TypeAlias = Annotated[Quantity, SHARE]
RatioOfTimes: TypeAlias = Annotated[Quantity, RATIO_OF_TIMES]


@dataclass(frozen=True)
class WrittenUnit:
    """What a word for a unit means: pint's name, and a factor where that is another size."""

    pint: str
    factor: float = 1.0
    dimension: Dimension | None = None
    inverse: bool = False


def _table(*rows: tuple[str, str, Dimension]) -> dict[str, WrittenUnit]:
    return {
        word: WrittenUnit(unit, dimension=dimension)
        for words, unit, dimension in rows
        for word in words.split("|")
    }


PROPANE_BY_WEIGHT = "a 20 lb cylinder of propane has a capacity of 5.9 gal, 4.7 gal of it usable"
"""At 4.24 lb a gallon (S-COMAR) and 80 % fill (29 CFR 1910.110): cylinders are sold by weight."""

# The closed table of units a person may write. Dimension is the first the word can mean.
UNITS: dict[str, WrittenUnit] = _table(
    ("in|inch|inches", "inch", LENGTH),
    ("ft|foot|feet", "foot", LENGTH),
    ("mi|mile|miles", "mile", LENGTH),
    ("mm", "millimeter", LENGTH),
    ("cm", "centimeter", LENGTH),
    ("m", "meter", LENGTH),
    ("km", "kilometer", LENGTH),
    ("lb|lbs|pounds", "pound", MASS),
    ("kg", "kilogram", MASS),
    ("t", "tonne", MASS),
    ("psi", "psi", PRESSURE),
    ("bar", "bar", PRESSURE),
    ("kPa", "kilopascal", PRESSURE),
    ("ft*lb|lb*ft|ft-lb|lb-ft|ft lb|lb ft|ft-lbs|lbs-ft|ft lbs|lbs ft", "foot * pound_force", TORQUE),
    ("in*lb|lb*in|in-lb|lb-in|in lb|lb in|in-lbs|in lbs", "inch * pound_force", TORQUE),
    ("N*m|Nm", "newton * meter", TORQUE),
    ("gal|gallon|gallons", "gallon", VOLUME),
    ("qt|quart|quarts", "quart", VOLUME),
    ("pt|pint|pints", "pint", VOLUME),
    ("fl oz", "fluid_ounce", VOLUME),
    ("L|l|liter|liters", "liter", VOLUME),
    ("s", "second", TIME),
    ("min|mins|minute|minutes", "minute", TIME),
    ("h|hr|hrs|hour|hours", "hour", TIME),
    ("day|days", "day", TIME),
    ("week|weeks", "week", TIME),
    ("month|months", "month", TIME),
    ("year|years", "year", TIME),
    ("degF", "degree_Fahrenheit", TEMPERATURE),
    ("degC", "degree_Celsius", TEMPERATURE),
    ("mph", "mile_per_hour", SPEED),
    ("km/h", "kilometer_per_hour", SPEED),
    ("W", "watt", POWER),
    ("kW", "kilowatt", POWER),
    ("hp", "horsepower", POWER),
    ("BTU/h", "btu / hour", POWER),
    ("gal/day", "gallon / day", VOLUME_RATE),
    ("L/day", "liter / day", VOLUME_RATE),
    ("gal/h", "gallon / hour", VOLUME_RATE),
    ("L/h", "liter / hour", VOLUME_RATE),
    ("Ah", "ampere_hour", CHARGE),
    ("A", "ampere", CURRENT),
    ("Ah/day", "ampere_hour / day", CURRENT),
    ("V", "volt", VOLTAGE),
    ("%", "percent", SHARE),
    ("h/day", "hour / day", RATIO_OF_TIMES),
) | {
    "deg": WrittenUnit("", math.pi / 180, ANGLE),
    "mpg": WrittenUnit("gallon / mile", dimension=FUEL_USE, inverse=True),
    "L/100km": WrittenUnit("liter / kilometer", 0.01, FUEL_USE),
}

# At most twelve digits: longer numbers are slips, and far longer ones become infinite.
# Only 0 to 9 and the plain space: \d and \s would take the digits and spaces of every script.
DIGITS = r"[0-9]{1,12}(?:\.[0-9]{1,12})?"
_NUMBER = rf"[-+]?[0-9]{{1,3}}(?:,[0-9]{{3}}){{1,3}}(?:\.[0-9]{{1,12}})?|[-+]?{DIGITS}"
FRACTION = r"[0-9]{1,3}/[1-9][0-9]{0,2}"
_WHOLE = re.compile(rf"({_NUMBER})(?:[ -]({FRACTION}))? *(.*)")
_ONLY_FRACTION = re.compile(rf"({FRACTION})(?: +(.*))?")
_FEET_INCHES = re.compile(rf"([0-9]{{1,4}}) ?ft ({DIGITS})(?:[ -]({FRACTION}))? ?in")
_HOURS_MINUTES = re.compile(
    r"([0-9]{1,3}) ?(?:h|hr|hrs|hours?),? ?(?:and )?([0-9]{1,2}) ?(?:min|mins|m|minutes?)?"
)
_CLOCK_TIME = re.compile(r"([0-9]{1,3}):([0-9]{2})")
_DECIMAL_COMMA = re.compile(r"[-+]?[0-9]+,[0-9]+")
_SPACED_NUMBER = re.compile(r"[-+]?[0-9]{1,3}(?: [0-9]{3})+(?![0-9])")
_INCHES_A_FOOT, _MINUTES_AN_HOUR = 12, 60
_LONGEST = 40


class QuantityError(ValueError):
    """What a person wrote is not the quantity that is needed; the text says why."""


def read_quantity(text: str, dimension: Dimension) -> Quantity:
    """Read a quantity a person wrote.

    Args:
        text: a number and a unit, such as ``12 ft 6 in`` or ``26,000 lb``.
        dimension: what it must measure.
    Returns: The quantity, in the unit it was written in (fuel use always as volume a distance).
    Raises: QuantityError: no unit, an unknown unit, a decimal comma, or another dimension.
    Sources: Unit definitions from NIST Handbook 44, appendix C.

    >>> f"{read_quantity('12 ft 6 in', LENGTH).to('inch'):.0f}"
    '150 inch'
    >>> read_quantity('26000', MASS)
    Traceback (most recent call last):
    ...
    binder.quantities.dimensions.QuantityError: '26000' has no unit; write it like '26000 lb'
    """
    if len(text) > _LONGEST:
        raise QuantityError(f"'{text[:12]}...' is too long for {dimension.words}, like '{dimension.example}'")
    if not text.isascii():
        odd = next(letter for letter in text if not letter.isascii())
        raise QuantityError(
            f"'{text}' holds '{odd}' (U+{ord(odd):04X}), which is no plain letter, digit or space; "
            f"write it like '{dimension.example}'"
        )
    if match := _FEET_INCHES.fullmatch(text):
        return _checked(_feet_and_inches(match, text), text, LENGTH, dimension)
    match = _HOURS_MINUTES.fullmatch(text) or (_CLOCK_TIME.fullmatch(text) if dimension is DURATION else None)
    if match:
        return _checked(_hours_and_minutes(match, text), text, TIME, dimension)
    number, unit_text = _split(text, dimension)
    if not unit_text:
        raise QuantityError(f"'{text}' has no unit; write it like '{_like(text, dimension)}'")
    unit = _unit(unit_text)
    if unit is None:
        raise QuantityError(
            f"'{text}': '{unit_text}' is not a unit here; write it like '{dimension.example}'"
        )
    return _checked(_with_unit(number, unit, text), text, unit.dimension or SHARE, dimension)


def _unit(text: str) -> WrittenUnit | None:
    """Find a unit; capitals are forgiven, but not in one letter: M might mean miles, meters or minutes."""
    return UNITS.get(text) or (UNITS.get(text.lower()) if len(text) > 1 else None)


def _feet_and_inches(match: re.Match[str], text: str) -> Quantity:
    feet, inches, fraction = match.groups()
    over_feet = float(inches) + float(Fraction(fraction or 0))
    if over_feet >= _INCHES_A_FOOT:
        raise QuantityError(f"'{text}' has 12 inches or more beside its feet; write it like '12 ft 6 in'")
    return registry.Quantity(float(feet) * _INCHES_A_FOOT + over_feet, "inch")


def _hours_and_minutes(match: re.Match[str], text: str) -> Quantity:
    hours, minutes = map(float, match.groups())
    if minutes >= _MINUTES_AN_HOUR:
        raise QuantityError(f"'{text}' has 60 minutes or more beside its hours; write it like '2 h 15 min'")
    return registry.Quantity(hours * _MINUTES_AN_HOUR + minutes, "minute")


def _split(text: str, dimension: Dimension) -> tuple[float, str]:
    if match := _ONLY_FRACTION.fullmatch(text):
        fraction, unit = match.groups()
        return float(Fraction(fraction)), unit or ""
    if match := _SPACED_NUMBER.match(text):
        better = text.replace(match[0], match[0].replace(" ", ""))
        raise QuantityError(f"'{text}' has a space inside its number; write it like '{better}'")
    match = _WHOLE.fullmatch(text)
    if match is None:
        raise QuantityError(f"'{text}' is not {dimension.words}; write it like '{dimension.example}'")
    if _DECIMAL_COMMA.match(text) and match.group(3)[:1] == ",":
        raise QuantityError(
            f"'{text}' has a decimal comma; write it with a point, like '{text.replace(',', '.', 1)}'"
        )
    number, fraction, unit = match.groups()
    whole, part = float(number.replace(",", "")), float(Fraction(fraction or 0))
    return (whole - part if number.startswith("-") else whole + part), unit


def _with_unit(number: float, unit: WrittenUnit, text: str) -> Quantity:
    if unit.inverse:
        if number <= 0:
            raise QuantityError(f"'{text}' must be more than zero")
        number = 1 / number
    return registry.Quantity(number * unit.factor, _registered(unit.pint))


@cache
def _registered(name: str) -> pint.Unit:
    return registry.Unit(name)


def _checked(quantity: Quantity, text: str, written: Dimension, needed: Dimension) -> Quantity:
    same_formula_only = needed.formula in ("", FUEL_USE.formula) and written is not needed
    if same_formula_only or not needed.measures(quantity):
        by_weight = f"; {PROPANE_BY_WEIGHT}" if (written, needed) == (MASS, VOLUME) else ""
        raise QuantityError(
            f"'{text}' is {written.words}; {needed.words} is needed here, like '{needed.example}'{by_weight}"
        )
    return quantity


def _like(text: str, dimension: Dimension) -> str:
    unit = dimension.example.rsplit(" ", 1)[-1]
    return f"{text} {unit}" if re.fullmatch(_NUMBER, text) else dimension.example
