"""What people write about service: how often, when last done, what the meters read, and what expires."""

from dataclasses import dataclass
from typing import Annotated, Literal, TypeAlias

from pydantic import Field, PlainValidator

from binder.models.base import Day, Record, Text, written_problem
from binder.quantities import LENGTH, TIME, Dimension, Length, Quantity, QuantityError, Time, read_quantity

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


Interval: TypeAlias = Annotated[IntervalValue, PlainValidator(_interval)]
Hours: TypeAlias = Annotated[Quantity, Dimension("[time]", "a reading of an hour meter", "412 h")]
MeterReadings: TypeAlias = Annotated[MetersValue, PlainValidator(_meters)]


class LastDone(Record):
    """When something was last done, and what the meters read then."""

    on: Day | None = None
    at: MeterReadings | None = None


class Service(Record):
    """One service item and how often it is due; ``vehicle`` and ``meter`` say whose meters count."""

    what: Text
    every: list[Interval] = []
    last: LastDone | None = None
    vehicle: Text | None = Field(default=None, alias="in")
    meter: Literal["engine", "generator"] | None = None


class Reading(Record):
    """What the meters of one vehicle read on a day; the latest day counts."""

    on: Day | None = None
    vehicle: Text = Field(alias="in")
    odometer: Length | None = None
    engine: Hours | None = None
    generator: Hours | None = None


class Expiry(Record):
    """Something with a date after which it no longer counts; without a date it is not known."""

    what: Text
    on: Day | None = None
