"""How a quantity is printed: the unit, the digits and the direction of rounding, decided in one place.

Loads, required pressures and consumption round up; capacities, margins, ranges and days round down.
"""

from dataclasses import dataclass
from datetime import date, datetime, time
from math import floor

from binder.quantities import Quantity
from binder.wording.measures import (
    MEASURES,
    Measure,
    Printed,
    Rounding,
    System,
    duration_text,
    length_text,
    number_text,
)

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
        """Give the unit, word and step a measure is printed with."""
        return MEASURES[self.system][measure]

    def number(self, quantity: Quantity | None, measure: Measure, rounding: Rounding = "nearest") -> str:
        """Write a quantity as a bare number."""
        if quantity is None:
            return BLANK
        return number_text(quantity, self.measure(measure), rounding)

    def fill(self, pressure: Quantity | None, cap: Quantity | None) -> str:
        """Write a pressure to fill to: rounded up, but never over the cap, then as finely as that needs."""
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
        """Write a quantity with its unit."""
        word = self.measure(measure).word
        space = "" if word.startswith("/") else " "
        return f"{self.number(quantity, measure, rounding)}{space}{word}"

    def length(self, quantity: Quantity | None, rounding: Rounding = "up") -> str:
        """Write a length of the rig: feet and inches, or meters to the centimeter."""
        if quantity is None:
            return f"{BLANK} ft {BLANK} in" if self.system == "us" else f"{BLANK} m"
        return length_text(quantity, self.system, rounding)

    @staticmethod
    def duration(quantity: Quantity | None, rounding: Rounding = "up") -> str:
        """Write a duration in hours and minutes, in steps of 5 minutes."""
        if quantity is None:
            return f"{BLANK} h"
        return duration_text(quantity, rounding)


def clock(moment: datetime | time | None) -> str:
    """Write a time of day with its zone's short name, where it has one."""
    if moment is None:
        return f"{BLANK}"
    zone = moment.tzname()
    return f"{moment:%H:%M}" + (f" {zone}" if zone else "")


def day(moment: date) -> str:
    """Write a date."""
    return f"{moment:%a %Y-%m-%d}"
