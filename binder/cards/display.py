"""How a quantity is printed: the unit, the digits and the direction of rounding, decided in one place.

Loads, required pressures and consumption round up; capacities, margins, ranges and days round down.
"""

from dataclasses import dataclass
from datetime import date, datetime, time
from typing import Literal, TypeAlias

from binder.quantities import Quantity, round_down, round_up

Rounding: TypeAlias = Literal["up", "down", "nearest"]
System: TypeAlias = Literal["us", "metric"]


@dataclass(frozen=True)
class Printed:
    """One measure: its unit as pint knows it, as it is printed, and the step it is rounded to."""

    unit: str
    word: str
    step: float
    decimals: int = 0


_US = {
    "pressure": Printed("psi", "psi", 1),
    "weight": Printed("pound", "lb", 1),
    "distance": Printed("mile", "mi", 1),
    "span": Printed("foot", "ft", 1),
    "inches": Printed("inch", "in", 1),
    "volume": Printed("gallon", "gal", 1),
    "temperature": Printed("degree_Fahrenheit", "°F", 1),
    "elevation": Printed("foot", "ft", 10),
    "speed": Printed("mile_per_hour", "mph", 1),
    "torque": Printed("foot * pound_force", "ft·lb", 1),
    "tread": Printed("inch / 32", "/32 in", 1),
    "power": Printed("kilowatt", "kW", 1),
}
_METRIC = {
    "pressure": Printed("kilopascal", "kPa", 5),
    "weight": Printed("kilogram", "kg", 1),
    "distance": Printed("kilometer", "km", 1),
    "span": Printed("meter", "m", 0.1, 1),
    "inches": Printed("centimeter", "cm", 1),
    "volume": Printed("liter", "L", 1),
    "temperature": Printed("degree_Celsius", "°C", 1),
    "elevation": Printed("meter", "m", 5),
    "speed": Printed("kilometer_per_hour", "km/h", 1),
    "torque": Printed("newton * meter", "N·m", 1),
    "tread": Printed("millimeter", "mm", 0.1, 1),
    "power": Printed("kilowatt", "kW", 1),
}
Measure: TypeAlias = Literal[
    "pressure",
    "weight",
    "distance",
    "span",
    "inches",
    "volume",
    "temperature",
    "elevation",
    "speed",
    "torque",
    "tread",
    "power",
]
BLANK = "______"


def _rounded(value: float, step: float, rounding: Rounding) -> float:
    if rounding == "up":
        return round_up(value, step)
    if rounding == "down":
        return round_down(value, step)
    return round(value / step) * step


@dataclass(frozen=True)
class Display:
    """The system of units a rig is printed in."""

    system: System

    def measure(self, measure: Measure) -> Printed:
        """Give the unit, word and step a measure is printed with.

        Args:
            measure: what is printed, such as ``pressure`` [name].

        Returns:
            The measure in this system.

        Sources:
            Own choice; kPa in steps of 5 as makers' tables print them.

        Example:
            >>> Display("metric").measure("pressure").word
            'kPa'
        """
        return (_US if self.system == "us" else _METRIC)[measure]

    def number(self, quantity: Quantity | None, measure: Measure, rounding: Rounding = "nearest") -> str:
        """Write a quantity as a bare number.

        Args:
            quantity: the quantity, None where it is not known [any].
            measure: how it is printed [name].
            rounding: the safe direction [name].

        Returns:
            The number with thousands commas, or a blank to fill in.

        Sources:
            Own choice.

        Example:
            >>> from binder.quantities import registry
            >>> Display("us").number(registry.Quantity(5743.2, "pound"), "weight", "up")
            '5,744'
        """
        if quantity is None:
            return BLANK
        printed = self.measure(measure)
        value = float(quantity.to(printed.unit).magnitude)
        return f"{_rounded(value, printed.step, rounding) + 0.0:,.{printed.decimals}f}"

    def text(self, quantity: Quantity | None, measure: Measure, rounding: Rounding = "nearest") -> str:
        """Write a quantity with its unit.

        Args:
            quantity: the quantity, None where it is not known [any].
            measure: how it is printed [name].
            rounding: the safe direction [name].

        Returns:
            Number and unit, or a blank and the unit.

        Sources:
            Own choice.

        Example:
            >>> from binder.quantities import registry
            >>> Display("us").text(registry.Quantity(95.0, "psi"), "pressure", "up")
            '95 psi'
        """
        word = self.measure(measure).word
        space = "" if word.startswith("/") else " "
        return f"{self.number(quantity, measure, rounding)}{space}{word}"

    def length(self, quantity: Quantity | None, rounding: Rounding = "up") -> str:
        """Write a length of the rig: feet and inches, or meters to the centimeter.

        Args:
            quantity: the length, None where it is not known [length].
            rounding: the safe direction [name].

        Returns:
            The length as text.

        Sources:
            Own choice.

        Example:
            >>> from binder.quantities import registry
            >>> Display("us").length(registry.Quantity(152.0, "inch"))
            '12 ft 8 in'
        """
        if quantity is None:
            return f"{BLANK} ft {BLANK} in" if self.system == "us" else f"{BLANK} m"
        if self.system == "metric":
            return f"{_rounded(float(quantity.to('meter').magnitude), 0.01, rounding):.2f} m"
        inches = int(_rounded(float(quantity.to("inch").magnitude), 1, rounding))
        return f"{inches // 12} ft {inches % 12} in"

    @staticmethod
    def duration(quantity: Quantity | None) -> str:
        """Write a duration in hours and minutes, rounded up to 5 minutes.

        Args:
            quantity: the duration, None where it is not known [time].

        Returns:
            The duration as text.

        Sources:
            Own choice.

        Example:
            >>> from binder.quantities import registry
            >>> Display.duration(registry.Quantity(2.5, "hour"))
            '2 h 30 min'
        """
        if quantity is None:
            return f"{BLANK} h"
        minutes = int(round_up(float(quantity.to("minute").magnitude), 5))
        if 0 < minutes < 60:  # noqa: PLR2004 - minutes of an hour.
            return f"{minutes} min"
        return f"{minutes // 60} h {minutes % 60:02d} min" if minutes % 60 else f"{minutes // 60} h"


def clock(moment: datetime | time | None) -> str:
    """Write a time of day with its zone's short name, where it has one.

    Args:
        moment: the time, None where it is not known [time of day].

    Returns:
        The time as text.

    Sources:
        Own choice: 24 hours, so that nobody asks which half of the day.

    Example:
        >>> clock(datetime(2026, 6, 1, 9, 5))
        '09:05'
    """
    if moment is None:
        return f"{BLANK}"
    zone = moment.tzname()
    return f"{moment:%H:%M}" + (f" {zone}" if zone else "")


def day(moment: date) -> str:
    """Write a date.

    Args:
        moment: the date [date].

    Returns:
        The date with its weekday.

    Sources:
        ISO 8601 for the date.

    Example:
        >>> day(date(2026, 6, 1))
        'Mon 2026-06-01'
    """
    return f"{moment:%a %Y-%m-%d}"
