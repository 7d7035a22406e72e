"""What people write about service: how often, when last done, what the meters read, and what expires."""

from dataclasses import dataclass
from typing import Annotated, Literal, TypeAlias

from pydantic import PlainValidator

from binder.models.base import Day, Form, Record, Text, as_text, entry, needed, written_problem
from binder.quantities import (
    LENGTH,
    TIME,
    Dimension,
    Length,
    Quantity,
    QuantityError,
    Time,
    read_quantity,
    written_pattern,
)

_RUNNING = {"hour", "minute", "second"}
"""Units of time an hour meter counts in; longer ones are of the calendar."""


@dataclass(frozen=True)
class IntervalValue:
    """One interval: by the calendar, by the odometer, or by the hour meter."""

    time: Time | None = None
    distance: Length | None = None
    running: Time | None = None

    @property
    def quantity(self) -> Quantity:
        """The interval as it was written."""
        return next(part for part in (self.time, self.distance, self.running) if part is not None)


@dataclass(frozen=True)
class MetersValue:
    """What the meters read when a service was done; None where that was not written down."""

    odometer: Length | None = None
    running: Time | None = None


def _quantity(value: object, needed: str) -> Quantity:
    for dimension in (LENGTH, TIME):
        try:
            quantity = read_quantity(value if isinstance(value, str) else "", dimension)
        except QuantityError:
            continue
        if quantity.magnitude >= 0:
            return quantity
    raise written_problem(f"'{value}' is no {needed}")


def _interval(value: object) -> IntervalValue:
    needed = "interval; write it like '6 months', '12000 mi' or '250 h'"
    quantity = _quantity(value, needed)
    if LENGTH.measures(quantity):
        return IntervalValue(distance=quantity)
    if str(quantity.units) in _RUNNING:
        return IntervalValue(running=quantity)
    return IntervalValue(time=quantity)


def _meters(value: object) -> MetersValue:
    needed = "reading of a meter; write it like '33400 mi', '412 h' or '[33400 mi, 1210 h]'"
    odometer: Quantity | None = None
    running: Quantity | None = None
    for one in value if isinstance(value, list) else [value]:
        quantity = _quantity(one, needed)
        if LENGTH.measures(quantity) and odometer is None:
            odometer = quantity
        elif str(quantity.units) in _RUNNING and running is None:
            running = quantity
        else:
            raise written_problem(f"'{one}' is no {needed}")
    return MetersValue(odometer, running)


_EITHER = f"{written_pattern(LENGTH)}|{written_pattern(TIME)}"
_METER = as_text("a reading of a meter", "33400 mi", _EITHER).schema
Interval: TypeAlias = Annotated[
    IntervalValue, PlainValidator(_interval), as_text("an interval", "6 months", _EITHER)
]
Hours: TypeAlias = Annotated[Quantity, Dimension("[time]", "a reading of an hour meter", "412 h")]
MeterReadings: TypeAlias = Annotated[
    MetersValue,
    PlainValidator(_meters),
    Form("readings of meters", "[33400 mi, 1210 h]", {"anyOf": [_METER, {"type": "array", "items": _METER}]}),
]


HourMeter: TypeAlias = Literal["engine", "generator"]


class LastDone(Record):
    """When something was last done, and what the meters read then."""

    on: Day | None = entry("the day", "", "2026-03-12")
    at: MeterReadings | None = entry("what the meters read then", "", "33400 mi")


class Service(Record):
    """One service item and how often it is due; ``vehicle`` and ``meter`` say whose meters count."""

    what: Text = needed("what is done", "", "engine oil and filter")
    every: list[Interval | None] = entry(
        "how often, whichever comes first", "the manual", "[12 months, 15000 mi]", default=[]
    )
    last: LastDone | None = entry("when it was last done")
    vehicle: Text | None = entry("whose meters count", "", "coach", alias="in")
    meter: HourMeter | None = entry("which hour meter counts", "", "generator")

    @property
    def intervals(self) -> list[IntervalValue]:
        """Those of its intervals that are known."""
        return [one for one in self.every if one is not None]

    @property
    def hours_meter(self) -> HourMeter:
        """Which hour meter it is counted on."""
        return self.meter or ("generator" if "generator" in self.what.lower() else "engine")


class Reading(Record):
    """What the meters of one vehicle read on a day; the latest day counts."""

    asked = frozenset({"odometer", "engine", "generator"})
    on: Day | None = entry("the day", "", "2026-05-20")
    vehicle: Text = needed("the vehicle", "", "coach", alias="in")
    odometer: Length | None = entry("odometer", "the dash", "34150 mi")
    engine: Hours | None = entry("engine hours", "the dash", "1102 h")
    generator: Hours | None = entry("generator hours", "its meter", "438 h")


class Expiry(Record):
    """Something with a date after which it no longer counts; without a date it is not known."""

    what: Text = needed("what carries a date", "", "insurance")
    on: Day | None = entry("the date", "printed on it", "2026-12-31")
