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
        """Write a weight.

        Args:
            quantity: the weight [mass].
            rounding: loads up, ratings and margins down [name].

        Returns:
            The weight as text.

        Sources:
            Own choice.

        Example:
            >>> from binder.quantities import registry
            >>> Wording("us").weight(registry.Quantity(5743.2, "pound"), "up")
            '5,744 lb'
        """
        return self._text("weight", quantity, rounding)

    def pressure(self, quantity: Quantity, rounding: Rounding) -> str:
        """Write a pressure; kPa in steps of 5, as makers' tables print them.

        Args:
            quantity: the pressure [pressure].
            rounding: required pressures up, caps down [name].

        Returns:
            The pressure as text.

        Sources:
            Own choice.

        Example:
            >>> from binder.quantities import registry
            >>> Wording("metric").pressure(registry.Quantity(95.0, "psi"), "up")
            '660 kPa'
        """
        return self._text("pressure", quantity, rounding)

    def length(self, quantity: Quantity, rounding: Rounding) -> str:
        """Write a length of the rig: feet and inches, or meters to the centimeter.

        Args:
            quantity: the length, also below zero [length].
            rounding: heights of the rig up, posted heights and margins down [name].

        Returns:
            The length as text; under a foot in inches alone.

        Sources:
            Own choice.

        Example:
            >>> from binder.quantities import registry
            >>> Wording("us").length(registry.Quantity(152.0, "inch"), "up")
            '12 ft 8 in'
            >>> Wording("us").length(registry.Quantity(11.4, "inch"), "down")
            '11 in'
        """
        return length_text(quantity, self.units, rounding)

    def temperature(self, quantity: Quantity, rounding: Rounding) -> str:
        """Write a temperature.

        Args:
            quantity: the temperature [temperature].
            rounding: lows down, freezing points up [name].

        Returns:
            The temperature as text.

        Sources:
            Own choice.

        Example:
            >>> from binder.quantities import registry
            >>> Wording("us").temperature(registry.Quantity(0, "degC"), "down")
            '32 °F'
        """
        return self._text("temperature", quantity, rounding)

    def distance(self, quantity: Quantity, rounding: Rounding) -> str:
        """Write a distance along the road.

        Args:
            quantity: the distance [length].
            rounding: distance to go up, range down [name].

        Returns:
            The distance as text.

        Sources:
            Own choice.

        Example:
            >>> from binder.quantities import registry
            >>> Wording("us").distance(registry.Quantity(96.0, "mile"), "up")
            '96 mi'
        """
        return self._text("distance", quantity, rounding)

    def span(self, quantity: Quantity, rounding: Rounding) -> str:
        """Write a length on the ground: whole feet, or meters to a tenth.

        Args:
            quantity: the length [length].
            rounding: the safe direction [name].

        Returns:
            The length as text.

        Sources:
            Own choice.

        Example:
            >>> from binder.quantities import registry
            >>> Wording("us").span(registry.Quantity(100.0, "foot"), "up")
            '100 ft'
        """
        return self._text("span", quantity, rounding)

    def volume(self, quantity: Quantity, rounding: Rounding) -> str:
        """Write a volume.

        Args:
            quantity: the volume [volume].
            rounding: what is there down, what is needed up [name].

        Returns:
            The volume as text.

        Sources:
            Own choice.

        Example:
            >>> from binder.quantities import registry
            >>> Wording("us").volume(registry.Quantity(67.5, "gallon"), "down")
            '67 gal'
        """
        return self._text("volume", quantity, rounding)

    def elevation(self, quantity: Quantity, rounding: Rounding) -> str:
        """Write an elevation, in steps of 10 ft or 5 m.

        Args:
            quantity: the elevation [length].
            rounding: the safe direction [name].

        Returns:
            The elevation as text.

        Sources:
            Own choice.

        Example:
            >>> from binder.quantities import registry
            >>> Wording("us").elevation(registry.Quantity(7204.0, "foot"), "up")
            '7,204 ft'
        """
        return self._text("elevation", quantity, rounding)

    def speed(self, quantity: Quantity, rounding: Rounding) -> str:
        """Write a speed.

        Args:
            quantity: the speed [speed].
            rounding: limits down [name].

        Returns:
            The speed as text.

        Sources:
            Own choice.

        Example:
            >>> from binder.quantities import registry
            >>> Wording("us").speed(registry.Quantity(65.0, "mph"), "down")
            '65 mph'
        """
        return self._text("speed", quantity, rounding)

    def power(self, quantity: Quantity, rounding: Rounding) -> str:
        """Write a power, in kilowatts in both systems.

        Args:
            quantity: the power [power].
            rounding: what must be held up, what a retarder takes down [name].

        Returns:
            The power as text.

        Sources:
            Own choice; retarders are rated so.

        Example:
            >>> from binder.quantities import registry
            >>> Wording("us").power(registry.Quantity(136.2, "kW"), "up")
            '137 kW'
        """
        return self._text("power", quantity, rounding)

    def tread(self, quantity: Quantity, rounding: Rounding = "down") -> str:
        """Write a depth of tread: whole thirty-seconds of an inch, or millimeters to a tenth.

        Args:
            quantity: the depth [length].
            rounding: what is left down, the least allowed up [name].

        Returns:
            The depth as text.

        Sources:
            Own choice; gauges are marked so.

        Example:
            >>> from binder.quantities import registry
            >>> Wording("us").tread(registry.Quantity(10, "millimeter"))
            '12/32 in'
        """
        return self._text("tread", quantity, rounding)

    @staticmethod
    def percent(share: Quantity | float, rounding: Rounding) -> str:
        """Write a share in percent.

        Args:
            share: the share, 1 for all [share].
            rounding: load used up, what is left down [name].

        Returns:
            The share as text.

        Sources:
            Own choice.

        Example:
            >>> Wording.percent(0.934, "up")
            '94 %'
        """
        number = share if isinstance(share, int | float) else float(share.to("").magnitude)
        return f"{rounded(number * 100, 1, rounding):.0f} %"

    @staticmethod
    def duration(quantity: Quantity, rounding: Rounding) -> str:
        """Write a duration in hours and minutes, in steps of 5 minutes.

        Args:
            quantity: the duration, also below zero [time].
            rounding: time needed up, time left down [name].

        Returns:
            The duration as text.

        Sources:
            Own choice.

        Example:
            >>> from binder.quantities import registry
            >>> Wording.duration(registry.Quantity(200, "minute"), "down")
            '3 h 20 min'
        """
        return duration_text(quantity, rounding)

    @staticmethod
    def clock(moment: datetime) -> str:
        """Write a time of day on 24 hours, with its zone's short name.

        Args:
            moment: the time, in its own zone [time of day].

        Returns:
            The time as text.

        Sources:
            Own choice.

        Example:
            >>> Wording.clock(datetime(2026, 6, 1, 9, 5))
            '09:05'
        """
        zone = moment.tzname()
        return f"{moment:%H:%M}" + (f" {zone}" if zone else "")
