"""Units, steps and digits of every measure in both systems, and what a written quantity means."""

import re
from collections.abc import Mapping
from decimal import Decimal
from math import degrees
from types import MappingProxyType
from typing import Literal, NamedTuple, TypeAlias

from binder.quantities import Quantity, number_in, round_down, round_up
from binder.reference.constants import Amount, ProcedureConstant

Rounding: TypeAlias = Literal["up", "down", "nearest"]
System: TypeAlias = Literal["us", "metric"]
MetricPressure: TypeAlias = Literal["kPa", "bar"]


class Printed(NamedTuple):
    """One measure: its unit as pint knows it, as it is printed, and the step it is rounded to."""

    unit: str
    word: str
    step: float = 1
    decimals: int = 0


def _both(us: Printed, metric: Printed) -> Mapping[System, Printed]:
    return MappingProxyType({"us": us, "metric": metric})


# Metric pressures in steps of 5 kPa, as makers' tables print them.
MEASURES: Mapping[str, Mapping[System, Printed]] = MappingProxyType(
    {
        "pressure": _both(Printed("psi", "psi"), Printed("kilopascal", "kPa", 5)),
        "fine pressure": _both(Printed("psi", "psi", 0.1, 1), Printed("kilopascal", "kPa")),
        "weight": _both(Printed("pound", "lb"), Printed("kilogram", "kg")),
        "distance": _both(Printed("mile", "mi"), Printed("kilometer", "km")),
        "span": _both(Printed("foot", "ft"), Printed("meter", "m", 0.1, 1)),
        "inches": _both(Printed("inch", "in"), Printed("centimeter", "cm")),
        "term": _both(Printed("pound", "lb", 0.1, 1), Printed("kilogram", "kg", 0.1, 1)),
        "couple": _both(
            Printed("pound * inch", "lb·in", 0.1, 1), Printed("kilogram * centimeter", "kg·cm", 0.1, 1)
        ),
        "arm": _both(Printed("inch", "in", 0.1, 1), Printed("centimeter", "cm", 0.1, 1)),
        "fine volume": _both(Printed("gallon", "gal", 0.1, 1), Printed("liter", "L", 0.1, 1)),
        "volume": _both(Printed("gallon", "gal"), Printed("liter", "L")),
        "temperature": _both(Printed("degree_Fahrenheit", "°F"), Printed("degree_Celsius", "°C")),
        "elevation": _both(Printed("foot", "ft"), Printed("meter", "m")),
        "speed": _both(Printed("mile_per_hour", "mph"), Printed("kilometer_per_hour", "km/h")),
        "torque": _both(Printed("foot * pound_force", "ft·lb"), Printed("newton * meter", "N·m")),
        "tread": _both(Printed("thirty_second_of_an_inch", "/32 in"), Printed("millimeter", "mm", 0.1, 1)),
        "power": _both(*[Printed("kilowatt", "kW")] * 2),
        "energy": _both(*[Printed("kilowatt_hour", "kWh")] * 2),
        "charge": _both(*[Printed("ampere_hour", "Ah")] * 2),
    }
)
BAR = Printed("bar", "bar", 0.05, 2)
"""Metric pressures where a rig chooses bar: the same steps as in kilopascal."""
_BARS: Mapping[str, Printed] = {"pressure": BAR, "fine pressure": Printed("bar", "bar", 0.01, 2)}
DIFFERENCES = {"degree_Fahrenheit": "delta_degree_Fahrenheit", "degree_Celsius": "kelvin"}
_HOUR = 60  # Minutes.


class Style(NamedTuple):
    """How one rig is written about: its units, those of metric pressures, and the hours of the clock."""

    system: System
    pressure: MetricPressure = "kPa"
    clock: Literal["12 h", "24 h"] = "24 h"

    def printed(self, name: str) -> Printed:
        """How a measure is printed."""
        is_bar = name in _BARS and self.pressure == "bar" and self.system == "metric"
        return _BARS[name] if is_bar else MEASURES[name][self.system]

    def amount(self, constant: ProcedureConstant) -> Amount:
        """A fixed number as this rig has it, with its unit."""
        found = constant.us if self.system == "us" else constant.metric
        if self.pressure != "bar" or found.unit != "kPa":
            return found
        return Amount(re.sub("[0-9.]+", lambda one: f"{Decimal(one[0]).scaleb(-2):f}", found.value), "bar")


def rounded(value: float, step: float, rounding: Rounding) -> float:
    """Round a number to a step in the direction asked for."""
    if rounding == "up":
        return float(round_up(value, step)) + 0.0
    if rounding == "down":
        return float(round_down(value, step)) + 0.0
    return float(round(value / step) * step) + 0.0


def number_text(quantity: Quantity, printed: Printed, rounding: Rounding) -> str:
    """Write a quantity as a bare number in the unit of a measure."""
    if printed.unit in DIFFERENCES:
        value = _degrees(quantity, printed.unit)
    else:
        value = number_in(quantity, printed.unit)
    return f"{rounded(value, printed.step, rounding):,.{printed.decimals}f}"


def _degrees(quantity: Quantity, scale: str) -> float:
    # A difference of temperatures has no zero to shift by.
    is_difference = str(quantity.units).startswith("delta_")
    return float(quantity.to(DIFFERENCES[scale] if is_difference else scale).magnitude)


def length_text(quantity: Quantity, style: Style, rounding: Rounding) -> str:
    """Write a length of the rig: feet and inches, or meters to the centimeter."""
    if style.system == "metric":
        return f"{rounded(number_in(quantity, 'meter'), 0.01, rounding):.2f} m"
    inches = int(rounded(number_in(quantity, "inch"), 1, rounding))
    sign = "-" if inches < 0 else ""
    feet, inches = divmod(abs(inches), 12)
    return f"{sign}{feet} ft {inches} in" if feet else f"{sign}{inches} in"


def duration_text(quantity: Quantity, rounding: Rounding) -> str:
    """Write a duration in hours and whole minutes: it adds up with times of day."""
    minutes = int(rounded(float(quantity.to("minute").magnitude), 1, rounding))
    sign = "-" if minutes < 0 else ""
    hours, minutes = divmod(abs(minutes), _HOUR)
    if not hours:
        return f"{sign}{minutes} min"
    return f"{sign}{hours} h {minutes:02d} min" if minutes else f"{sign}{hours} h"


def angle_text(angle: Quantity, rounding: Rounding) -> str:
    """Write an angle in whole degrees."""
    return f"{rounded(degrees(float(angle.to('').magnitude)), 1, rounding):.0f}°"


def hours_text(quantity: Quantity, rounding: Rounding) -> str:
    """Write what an hour meter shows: whole hours."""
    return f"{rounded(float(quantity.to('hour').magnitude), 1, rounding):,.0f} h"


def days_text(quantity: Quantity) -> str:
    """Write for how many days something lasts, to a tenth."""
    return f"{round_down(number_in(quantity, 'day'), 0.1):.1f} days"


def whole_days_text(quantity: Quantity) -> str:
    """Write days that are left, rounded down."""
    days = int(rounded(float(quantity.to("day").magnitude), 1, "down"))
    return f"{days} day" if days == 1 else f"{days} days"


LOAD = "weight up"
RATING = "weight down"
WEIGHED = "weight nearest"
FILL = "pressure up"
PRESSURE_LIMIT = "pressure down"
PRESSURE = "pressure nearest"
SIZE = "length up"
CLEARANCE = "length down"
SWING = "inches up"
SPAN = "span up"
APART = "length down"
ARM = "inches nearest"
INCHES_LEFT, INCHES_NEEDED = "inches down", "inches up"
TERM, COUPLE, PLACE = "term nearest", "couple nearest", "arm nearest"
SLOPE_POSTED, SPEED_POSTED = "percent up", "speed up"
NEEDED_VOLUME = "volume up"
CAPACITY = "volume down"
LEAST_VOLUME = "volume down"
VOLUME = "volume nearest"
WAY = "distance up"
RANGE = "distance down"
DISTANCE = "distance nearest"
HEIGHT = "elevation up"
ELEVATION = "elevation nearest"
LOW = "temperature down"
HIGH = "temperature up"
TEMPERATURE = "temperature nearest"
SLOPE = "percent as stated"
SPEED_LIMIT = "speed down"
SPEED = "speed nearest"
TORQUE = "torque nearest"
TREAD = "tread down"
POWER_NEEDED = "power up"
POWER = "power down"
AGE = "years up"
TIME_NEEDED = "duration up"
LASTING = "lasting down"
RUNNING = "hours down"
