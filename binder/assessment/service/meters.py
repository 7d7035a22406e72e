"""What the meters read, and what they will read at the end of each day of the trip, by the plan."""

from collections.abc import Callable, Iterator
from datetime import date
from itertools import pairwise
from typing import Literal, NamedTuple, TypeAlias

from binder.assessment.route.days import TripDay, trip_days
from binder.models.load import Profile
from binder.models.service import Reading
from binder.quantities import Quantity, registry

MeterName: TypeAlias = Literal["odometer", "engine", "generator"]
METERS: tuple[MeterName, ...] = ("odometer", "engine", "generator")
OWN_ODOMETER = {"motorhome", "pickup", "car"}
"""Kinds of vehicles that count their own miles; a trailer's are those of the vehicle ahead."""


class DayEnd(NamedTuple):
    """One day of the trip and what a meter has gained by its end; None where the plan does not say."""

    day: TripDay
    added: Quantity | None


class MeterRun(NamedTuple):
    """One meter: what it read, when, and what the trip adds; ``reading`` is None where it was not noted."""

    name: MeterName
    vehicle: str
    reading: Quantity | None
    read_on: date | None
    days: tuple[DayEnd, ...]

    @property
    def added(self) -> Quantity | None:
        """What the whole trip adds."""
        if self.days:
            return self.days[-1].added
        return registry.Quantity(0.0, "mile" if self.name == "odometer" else "hour")

    @property
    def at_end(self) -> Quantity | None:
        """What it reads at the trip's end."""
        if self.reading is None or self.added is None:
            return None
        # In the unit it was read in: of a sum the left one decides.
        total: Quantity = self.reading + self.added
        return total

    def day_of(self, reading: Quantity) -> TripDay | None:
        """Find the day on which the meter comes to a reading."""
        if self.reading is None:
            return None
        for end in self.days:
            if end.added is not None and self.reading + end.added >= reading:
                return end.day
        return None


def meter_run(profile: Profile, vehicle: str, name: MeterName) -> MeterRun:
    """Give one meter along the trip."""
    latest = _latest(profile, vehicle, name)
    read_on = latest.on if latest else None
    days = tuple(day for day in trip_days(profile) if read_on is None or day.plan.leave.date() >= read_on)
    ends = tuple(_running_total(days, _gains(profile, vehicle, name, days)))
    return MeterRun(name, vehicle, getattr(latest, name) if latest else None, read_on, ends)


def _latest(profile: Profile, vehicle: str, name: MeterName) -> Reading | None:
    read = [one for one in profile.rig.readings if one.vehicle == vehicle and getattr(one, name) is not None]
    return max(read, key=lambda one: one.on or date.min, default=None)


def _gains(
    profile: Profile, vehicle: str, name: MeterName, days: tuple[TripDay, ...]
) -> Callable[[TripDay], Quantity | None]:
    if name == "odometer":
        return lambda day: _sum([leg.distance for leg in day.plan.legs], "mile")
    if name == "engine":
        is_driven = vehicle == next(iter(profile.rig.vehicles))
        return lambda day: _sum([leg.driving for leg in day.plan.legs] if is_driven else [], "hour")
    rate = profile.trip.use.generator if profile.trip else None
    until = {day.number: following for day, following in pairwise(days)}

    def running(day: TripDay) -> Quantity | None:
        following = until.get(day.number)
        count = (following.plan.leave.date() - day.plan.leave.date()).days if following else 1
        return None if rate is None else (rate * registry.Quantity(float(count), "day")).to("hour")

    return running


def _sum(parts: list[Quantity | None], unit: str) -> Quantity | None:
    total: Quantity = registry.Quantity(0.0, unit)
    for part in parts:
        if part is None:
            return None
        total = total + part
    return total


def _running_total(days: tuple[TripDay, ...], gain: Callable[[TripDay], Quantity | None]) -> Iterator[DayEnd]:
    total: Quantity | None = None
    is_known = True
    for day in days:
        own = gain(day)
        is_known = is_known and own is not None
        if own is not None:
            total = own if total is None else total + own
        yield DayEnd(day, total if is_known else None)
