"""The value of any figure as text: unit by what it measures, rounding by what it is."""

from datetime import date, datetime

from binder.assessment.figures import Figure
from binder.cards.display import BLANK, Display, clock, day
from binder.quantities import (
    LENGTH,
    MASS,
    POWER,
    PRESSURE,
    SPEED,
    TEMPERATURE,
    TIME,
    TORQUE,
    VOLUME,
    Quantity,
    is_quantity,
    round_down,
    round_up,
)
from binder.wording.measures import Measure, Rounding, days_text, hours_text, whole_days_text

_DOWN = {
    "margin",
    "cap",
    "drag",
    "limit",
    "leave_up_to",
    "monitor_setting",
    "holds_up_to",
    "end_holds_up_to",
    "left",
    "speed_limit",
    "tread",
    "load_limit",
    "down_share",
    "daylight_left",
    "lowest_clearance_margin",
    "lowest_posted",
    "range",
    "container_worth",
    "lowest",
    "hours",
    "due_at",
    "due_at_hours",
    "days_left",
    "distance_left",
    "hours_left",
    "due_from",
    "due_by",
}
"""Last words of the keys of what is allowed or left; anything else is a load or a need, rounded up."""

_MEASURES: tuple[tuple[object, Measure], ...] = (
    (MASS, "weight"),
    (PRESSURE, "pressure"),
    (TEMPERATURE, "temperature"),
    (SPEED, "speed"),
    (TORQUE, "torque"),
    (POWER, "power"),
    (VOLUME, "volume"),
)
_SECONDS = 120
"""Durations under so many seconds are told in seconds: a following gap, not a drive."""


def rounding_of(figure: Figure) -> Rounding:
    """Tell which way the value of a figure is rounded toward safety."""
    last = figure.key.rsplit(".", 1)[-1]
    if last == "protects_to":
        return "up"  # A fluid that is said to hold colder than it does would freeze.
    is_low = is_quantity(figure.value) and TEMPERATURE.measures(figure.value)
    return "down" if last in _DOWN or last.endswith("margin") or is_low else "up"


def value_text(figure: Figure, display: Display) -> str:
    """Write the value of a figure."""
    value = figure.value
    if value is None:
        return BLANK
    if is_quantity(value):
        return _quantity_text(figure, value, display)
    if isinstance(value, datetime):
        return f"{day(value)} {clock(value)}"
    if isinstance(value, date):
        return day(value)
    if isinstance(value, str):
        return value
    return f"{value:g}"


def _quantity_text(figure: Figure, value: Quantity, display: Display) -> str:
    rounding = rounding_of(figure)
    if LENGTH.measures(value):
        return _length_text(figure, value, display, rounding)
    if TIME.measures(value):
        return _time_text(figure, value, rounding)
    if str(value.units) == "kilowatt_hour":
        return display.text(value, "energy", rounding)
    for dimension, measure in _MEASURES:
        if dimension.measures(value):  # type: ignore[attr-defined] # Each is a Dimension.
            return display.text(value, measure, rounding)
    number = float(value.to("percent").magnitude)
    return f"{round_up(number) if rounding == 'up' else round_down(number):.0f} %"


def _time_text(figure: Figure, value: Quantity, rounding: Rounding) -> str:
    if figure.key.startswith("service."):
        return whole_days_text(value) if figure.key.endswith("days_left") else hours_text(value, rounding)
    if figure.key.endswith(".age"):
        return age_text(value)
    return days_text(value) if str(value.units) == "day" else duration_text(value, rounding)


def _length_text(figure: Figure, value: Quantity, display: Display, rounding: Rounding) -> str:
    last = figure.key.rsplit(".", 1)[-1]
    if last == "tread":
        return tread_text(value, display)
    if "elevation" in last or last == "height":
        return display.text(value, "elevation", rounding)
    if str(value.units) in {"mile", "kilometer"}:
        return display.text(value, "distance", rounding)
    if ".warning_devices." in figure.key:
        return display.text(value, "span", rounding)
    is_short = abs(float(value.to("foot").magnitude)) < 1
    return display.text(value, "inches", rounding) if is_short else display.length(value, rounding)


def duration_text(duration: Quantity, rounding: Rounding) -> str:
    """Write a duration: seconds up to two minutes, else hours and steps of 5 minutes."""
    toward = round_down if rounding == "down" else round_up
    seconds = float(duration.to("second").magnitude)
    if abs(seconds) < _SECONDS:
        return f"{toward(seconds):.0f} s"
    return Display.duration(duration, rounding)


def lasting_text(time: Quantity | None) -> str:
    """Write how long something lasts, for a person who must decide: half days, or hours under a day."""
    if time is None:
        return f"{BLANK} days"
    days = round_down(float(time.to("day").magnitude), 0.5)
    if days < 1:
        return f"{round_down(float(time.to('hour').magnitude)):.0f} h"
    return "1 day" if days == 1 else f"{days:g} days"


def tread_text(tread: Quantity | None, display: Display) -> str:
    """Write a depth of tread."""
    return display.text(tread, "tread", "down")


def age_text(age: Quantity | None) -> str:
    """Write the age of a tire in years."""
    if age is None:
        return f"{BLANK} years"
    return f"{round_up(float(age.to('year').magnitude), 0.1):.1f} years"
