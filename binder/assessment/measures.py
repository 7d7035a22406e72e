"""Units, steps and digits of every measure in both systems: the one place where they are decided.

The words of figures and the cells of cards are both made here, so that they cannot differ.
"""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal, NamedTuple, TypeAlias

from binder.quantities import Quantity, number_in, round_down, round_up

Rounding: TypeAlias = Literal["up", "down", "nearest"]
System: TypeAlias = Literal["us", "metric"]
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
    "energy",
]


class Printed(NamedTuple):
    """One measure: its unit as pint knows it, as it is printed, and the step it is rounded to."""

    unit: str
    word: str
    step: float = 1
    decimals: int = 0


_US: Mapping[Measure, Printed] = {
    "pressure": Printed("psi", "psi"),
    "weight": Printed("pound", "lb"),
    "distance": Printed("mile", "mi"),
    "span": Printed("foot", "ft"),
    "inches": Printed("inch", "in"),
    "volume": Printed("gallon", "gal"),
    "temperature": Printed("degree_Fahrenheit", "°F"),
    "elevation": Printed("foot", "ft"),
    "speed": Printed("mile_per_hour", "mph"),
    "torque": Printed("foot * pound_force", "ft·lb"),
    "tread": Printed("thirty_second_of_an_inch", "/32 in"),
    "power": Printed("kilowatt", "kW"),
    "energy": Printed("kilowatt_hour", "kWh"),
}
# Pressures in steps of 5 kPa, as makers' tables print them.
_METRIC: Mapping[Measure, Printed] = {
    "pressure": Printed("kilopascal", "kPa", 5),
    "weight": Printed("kilogram", "kg"),
    "distance": Printed("kilometer", "km"),
    "span": Printed("meter", "m", 0.1, 1),
    "inches": Printed("centimeter", "cm"),
    "volume": Printed("liter", "L"),
    "temperature": Printed("degree_Celsius", "°C"),
    "elevation": Printed("meter", "m"),
    "speed": Printed("kilometer_per_hour", "km/h"),
    "torque": Printed("newton * meter", "N·m"),
    "tread": Printed("millimeter", "mm", 0.1, 1),
    "power": Printed("kilowatt", "kW"),
    "energy": Printed("kilowatt_hour", "kWh"),
}
MEASURES: Mapping[System, Mapping[Measure, Printed]] = MappingProxyType({"us": _US, "metric": _METRIC})
_DIFFERENCES = {"degree_Fahrenheit": "delta_degree_Fahrenheit", "degree_Celsius": "kelvin"}
_HOUR = 60  # Minutes.


def rounded(value: float, step: float, rounding: Rounding) -> float:
    """Round a number to a step in the direction asked for.

    Args:
        value: any [number].
        step: it is rounded to [number].
        rounding: the safe direction [name].

    Returns:
        The rounded number, never minus zero.

    Sources:
        Design: toward safety.

    Example:
        >>> rounded(9.2, 5, "up"), rounded(9.2, 5, "down"), rounded(-0.2, 1, "nearest")
        (10.0, 5.0, 0.0)
    """
    if rounding == "up":
        return float(round_up(value, step)) + 0.0
    if rounding == "down":
        return float(round_down(value, step)) + 0.0
    return float(round(value / step) * step) + 0.0


def number_text(quantity: Quantity, printed: Printed, rounding: Rounding) -> str:
    """Write a quantity as a bare number in the unit of a measure.

    Args:
        quantity: of the measure's dimension [any].
        printed: the measure.
        rounding: the safe direction [name].

    Returns:
        The number with thousands commas.

    Sources:
        Own choice.

    Example:
        >>> from binder.quantities import registry
        >>> number_text(registry.Quantity(10.0, "millimeter"), MEASURES["us"]["tread"], "down")
        '12'
    """
    if printed.unit in _DIFFERENCES:
        value = _degrees(quantity, printed.unit)
    else:
        value = number_in(quantity, printed.unit)
    return f"{rounded(value, printed.step, rounding):,.{printed.decimals}f}"


def _degrees(quantity: Quantity, scale: str) -> float:
    # A difference of temperatures has no zero to shift by.
    is_difference = str(quantity.units).startswith("delta_")
    return float(quantity.to(_DIFFERENCES[scale] if is_difference else scale).magnitude)


def length_text(quantity: Quantity, system: System, rounding: Rounding) -> str:
    """Write a length of the rig: feet and inches, or meters to the centimeter.

    Args:
        quantity: the length, also below zero [length].
        system: of units [name].
        rounding: the safe direction [name].

    Returns:
        The length; under a foot in inches alone, below zero with its sign before both.

    Sources:
        Own choice.

    Example:
        >>> from binder.quantities import registry
        >>> length_text(registry.Quantity(-14.5, "inch"), "us", "up")
        '-1 ft 2 in'
    """
    if system == "metric":
        return f"{rounded(number_in(quantity, 'meter'), 0.01, rounding):.2f} m"
    inches = int(rounded(number_in(quantity, "inch"), 1, rounding))
    sign = "-" if inches < 0 else ""
    feet, inches = divmod(abs(inches), 12)
    return f"{sign}{feet} ft {inches} in" if feet else f"{sign}{inches} in"


def duration_text(quantity: Quantity, rounding: Rounding) -> str:
    """Write a duration in hours and minutes, in steps of 5 minutes.

    Args:
        quantity: the duration, also below zero [time].
        rounding: time needed up, time left down [name].

    Returns:
        The duration.

    Sources:
        Own choice.

    Example:
        >>> from binder.quantities import registry
        >>> duration_text(registry.Quantity(203, "minute"), "down")
        '3 h 20 min'
    """
    minutes = int(rounded(float(quantity.to("minute").magnitude), 5, rounding))
    sign = "-" if minutes < 0 else ""
    hours, minutes = divmod(abs(minutes), _HOUR)
    if not hours:
        return f"{sign}{minutes} min"
    return f"{sign}{hours} h {minutes:02d} min" if minutes else f"{sign}{hours} h"


def hours_text(quantity: Quantity, rounding: Rounding) -> str:
    """Write what an hour meter shows: whole hours.

    Args:
        quantity: the reading, or what is left to one, also below zero [time].
        rounding: readings up, hours left and hours due down [name].

    Returns:
        The hours.

    Sources:
        Own choice; meters are read so.

    Example:
        >>> from binder.quantities import registry
        >>> hours_text(registry.Quantity(1_101.5, "hour"), "up")
        '1,102 h'
    """
    return f"{rounded(float(quantity.to('hour').magnitude), 1, rounding):,.0f} h"


def days_text(quantity: Quantity) -> str:
    """Write for how many days something lasts, to a tenth.

    Args:
        quantity: the time [time].

    Returns:
        The days, rounded down.

    Sources:
        Own choice: nobody is told that water lasts longer than it does.

    Example:
        >>> from binder.quantities import registry
        >>> days_text(registry.Quantity(6.48, "day"))
        '6.4 days'
    """
    return f"{round_down(number_in(quantity, 'day'), 0.1):.1f} days"


def whole_days_text(quantity: Quantity) -> str:
    """Write days that are left, rounded down.

    Args:
        quantity: the time, also below zero [time].

    Returns:
        The days.

    Sources:
        Own choice.

    Example:
        >>> from binder.quantities import registry
        >>> whole_days_text(registry.Quantity(279, "day")), whole_days_text(registry.Quantity(1, "day"))
        ('279 days', '1 day')
    """
    days = int(rounded(float(quantity.to("day").magnitude), 1, "down"))
    return f"{days} day" if days == 1 else f"{days} days"
