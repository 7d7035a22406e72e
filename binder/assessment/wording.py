"""Quantities as text inside figures and findings: the rig's units, rounded in the direction asked for."""

from datetime import datetime
from typing import NamedTuple

from binder.assessment.measures import (
    MEASURES,
    Measure,
    Rounding,
    System,
    duration_text,
    length_text,
    number_text,
    rounded,
)
from binder.quantities import Quantity


class Wording(NamedTuple):
    """How quantities are written for one rig; ``units`` are those of its profile."""

    units: System

    def _text(self, measure: Measure, quantity: Quantity, rounding: Rounding) -> str:
        printed = MEASURES[self.units][measure]
        space = "" if printed.word.startswith("/") else " "
        return f"{number_text(quantity, printed, rounding)}{space}{printed.word}"

    def weight(self, quantity: Quantity, rounding: Rounding) -> str:
        """Write a weight."""
        return self._text("weight", quantity, rounding)

    def pressure(self, quantity: Quantity, rounding: Rounding) -> str:
        """Write a pressure; kPa in steps of 5, as makers' tables print them."""
        return self._text("pressure", quantity, rounding)

    def length(self, quantity: Quantity, rounding: Rounding) -> str:
        """Write a length of the rig: feet and inches, or meters to the centimeter."""
        return length_text(quantity, self.units, rounding)

    def temperature(self, quantity: Quantity, rounding: Rounding) -> str:
        """Write a temperature."""
        return self._text("temperature", quantity, rounding)

    def distance(self, quantity: Quantity, rounding: Rounding) -> str:
        """Write a distance along the road."""
        return self._text("distance", quantity, rounding)

    def span(self, quantity: Quantity, rounding: Rounding) -> str:
        """Write a length on the ground: whole feet, or meters to a tenth."""
        return self._text("span", quantity, rounding)

    def volume(self, quantity: Quantity, rounding: Rounding) -> str:
        """Write a volume."""
        return self._text("volume", quantity, rounding)

    def elevation(self, quantity: Quantity, rounding: Rounding) -> str:
        """Write an elevation, in steps of 10 ft or 5 m."""
        return self._text("elevation", quantity, rounding)

    def speed(self, quantity: Quantity, rounding: Rounding) -> str:
        """Write a speed."""
        return self._text("speed", quantity, rounding)

    def power(self, quantity: Quantity, rounding: Rounding) -> str:
        """Write a power, in kilowatts in both systems."""
        return self._text("power", quantity, rounding)

    def tread(self, quantity: Quantity, rounding: Rounding = "down") -> str:
        """Write a depth of tread: whole thirty-seconds of an inch, or millimeters to a tenth."""
        return self._text("tread", quantity, rounding)

    @staticmethod
    def percent(share: Quantity | float, rounding: Rounding) -> str:
        """Write a share in percent."""
        number = share if isinstance(share, int | float) else float(share.to("").magnitude)
        return f"{rounded(number * 100, 1, rounding):.0f} %"

    @staticmethod
    def duration(quantity: Quantity, rounding: Rounding) -> str:
        """Write a duration in hours and minutes, in steps of 5 minutes."""
        return duration_text(quantity, rounding)

    @staticmethod
    def clock(moment: datetime) -> str:
        """Write a time of day on 24 hours, with its zone's short name."""
        zone = moment.tzname()
        return f"{moment:%H:%M}" + (f" {zone}" if zone else "")
