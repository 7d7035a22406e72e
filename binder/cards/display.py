"""How a quantity is printed: the unit, the digits and the direction of rounding, decided in one place.

Loads, required pressures and consumption round up; capacities, margins, ranges and days round down.
"""

from dataclasses import dataclass
from datetime import date, datetime, time
from math import floor

from binder.assessment.measures import (
    MEASURES,
    Measure,
    Printed,
    Rounding,
    System,
    duration_text,
    length_text,
    number_text,
)
from binder.quantities import Quantity

_FINEST = {"us": 0.1, "metric": 1.0}
"""What a pressure at its cap is rounded down to, in psi or kilopascal: finer than a gauge shows."""

_SAME = 1e-6

__all__ = ["BLANK", "Display", "Measure", "Printed", "Rounding", "System", "clock", "day"]

BLANK = "______"


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
        return MEASURES[self.system][measure]

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
        return number_text(quantity, self.measure(measure), rounding)

    def fill(self, pressure: Quantity | None, cap: Quantity | None) -> str:
        """Write a pressure to fill to: rounded up, but never over the cap, and then as finely as that needs.

        Args:
            pressure: to fill to [pressure].
            cap: the highest that is allowed, None where it is not known [pressure].

        Returns:
            The number; at a cap that is no whole step the cap itself, rounded down to a kilopascal or a
            tenth of a psi, less than a gauge shows.

        Sources:
            Own choice.

        Example:
            >>> from binder.quantities import registry
            >>> stamped = registry.Quantity(552.0, "kilopascal")
            >>> Display("metric").fill(stamped, stamped), Display("us").fill(stamped, stamped)
            ('552', '80')
        """
        text = self.number(pressure, "pressure", "up")
        if pressure is None or cap is None:
            return text
        unit = self.measure("pressure").unit
        limit = float(cap.to(unit).magnitude)
        if float(text.replace(",", "")) <= limit + _SAME:
            return text
        finest = _FINEST[self.system]
        return f"{floor(limit / finest + _SAME) * finest:.1f}".removesuffix(".0")

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
        return length_text(quantity, self.system, rounding)

    @staticmethod
    def duration(quantity: Quantity | None, rounding: Rounding = "up") -> str:
        """Write a duration in hours and minutes, in steps of 5 minutes.

        Args:
            quantity: the duration, None where it is not known [time].
            rounding: time needed up, time left down [name].

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
        return duration_text(quantity, rounding)


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
