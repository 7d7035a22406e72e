"""Quantities as text inside figures and findings: the rig's units, rounded in the direction asked for."""

from dataclasses import dataclass
from datetime import datetime
from typing import Literal, TypeAlias

from binder.quantities import Quantity, round_down, round_up

Rounding: TypeAlias = Literal["up", "down", "nearest"]


@dataclass(frozen=True)
class _Written:
    """A unit as pint knows it, as it is written, and the step and digits it is rounded to."""

    unit: str
    word: str
    step: float = 1
    decimals: int = 0


# The same units and steps as the cards print, so that a figure's words and the card agree.
_US = {
    "weight": _Written("pound", "lb"),
    "pressure": _Written("psi", "psi"),
    "temperature": _Written("degree_Fahrenheit", "°F"),
    "distance": _Written("mile", "mi"),
    "span": _Written("foot", "ft"),
    "volume": _Written("gallon", "gal"),
    "elevation": _Written("foot", "ft", 10),
    "speed": _Written("mile_per_hour", "mph"),
}
_METRIC = {
    "weight": _Written("kilogram", "kg"),
    "pressure": _Written("kilopascal", "kPa", 5),
    "temperature": _Written("degree_Celsius", "°C"),
    "distance": _Written("kilometer", "km"),
    "span": _Written("meter", "m", 0.1, 1),
    "volume": _Written("liter", "L"),
    "elevation": _Written("meter", "m", 5),
    "speed": _Written("kilometer_per_hour", "km/h"),
}


def _rounded(value: float, step: float, rounding: Rounding) -> float:
    if rounding == "up":
        return round_up(value, step)
    if rounding == "down":
        return round_down(value, step)
    return round(value / step) * step


@dataclass(frozen=True)
class Wording:
    """How quantities are written for one rig; ``units`` are those of its profile."""

    units: Literal["us", "metric"]

    def _text(self, measure: str, quantity: Quantity, rounding: Rounding) -> str:
        written = (_US if self.units == "us" else _METRIC)[measure]
        value = _rounded(float(quantity.to(written.unit).magnitude), written.step, rounding)
        return f"{value + 0.0:,.{written.decimals}f} {written.word}"

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
            quantity: the length, not below zero [length].
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
        if self.units == "metric":
            return f"{_rounded(float(quantity.to('meter').magnitude), 0.01, rounding) + 0.0:.2f} m"
        inches = int(_rounded(float(quantity.to("inch").magnitude), 1, rounding))
        feet, inches = divmod(inches, 12)
        return f"{feet} ft {inches} in" if feet else f"{inches} in"

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
            '7,210 ft'
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
        return f"{_rounded(number * 100, 1, rounding):.0f} %"

    @staticmethod
    def duration(quantity: Quantity, rounding: Rounding) -> str:
        """Write a duration in hours and minutes, in steps of 5 minutes.

        Args:
            quantity: the duration, not below zero [time].
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
        hours, minutes = divmod(int(_rounded(float(quantity.to("minute").magnitude), 5, rounding)), 60)
        if not hours:
            return f"{minutes} min"
        return f"{hours} h {minutes:02d} min" if minutes else f"{hours} h"

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
