"""What the meters read, and what they will read at the end of each day of the trip, by the plan."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import date
from itertools import pairwise
from typing import Literal, NamedTuple, TypeAlias

from binder.assessment.ledger import Figure, Input, Key, Ledger
from binder.assessment.route.days import TripDay, trip_days
from binder.assessment.service import kinds
from binder.models.load import Profile
from binder.models.service import Reading, Service
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


@dataclass(frozen=True)
class RigMeters:
    """The meters of a rig, each counted along the trip once."""

    profile: Profile
    runs: dict[tuple[str, MeterName], MeterRun] = field(default_factory=dict)

    def run(self, vehicle: str, name: MeterName) -> MeterRun:
        """Give one meter along the trip."""
        if (vehicle, name) not in self.runs:
            self.runs[vehicle, name] = meter_run(self.profile, vehicle, name)
        return self.runs[vehicle, name]

    def of(self, entry: Service, name: MeterName) -> MeterRun:
        """Give the meter of the vehicle that is named; of the driven one where that has none of its own."""
        return self.run(_owner(self.profile, entry, name), name)


def hours_meter(entry: Service) -> MeterName:
    """Tell which hour meter an item is counted on."""
    return entry.meter or ("generator" if "generator" in entry.what.lower() else "engine")


def _owner(profile: Profile, entry: Service, name: MeterName) -> str:
    vehicles = profile.rig.vehicles
    named = entry.vehicle
    if named and named in vehicles and (vehicles[named].kind in OWN_ODOMETER or name == "generator"):
        return named
    if name == "generator":
        owners = [vehicle for vehicle, item in vehicles.items() if item.generator]
        return next(iter([*owners, *vehicles]))
    return next(iter(vehicles))


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


def enter_meters(meters: RigMeters, ledger: Ledger) -> None:
    """Enter what each meter reads, what the trip adds, and what it will read then."""
    profile = meters.profile
    for vehicle, entry in profile.rig.vehicles.items():
        for name in METERS:
            run = meters.run(vehicle, name)
            is_there = {
                "odometer": entry.kind in OWN_ODOMETER,
                "engine": bool(entry.engine),
                "generator": bool(entry.generator),
            }
            if run.reading is not None or (is_there[name] and vehicle in _asked(profile, name)):
                _enter_meter(run, ledger)


def _enter_meter(run: MeterRun, ledger: Ledger) -> None:
    read = (Input(kinds.READ_ON, run.read_on),)
    reads, added, at_end = meter_keys(run.vehicle, run.name)
    ledger.enter(Figure(reads, run.reading, read))
    ledger.enter(Figure(added, run.added))
    ledger.enter(Figure(at_end, run.at_end, read))


def meter_keys(vehicle: str, name: MeterName) -> tuple[Key, Key, Key]:
    """Give the keys of what a meter reads, of what the trip adds, and of what it will read then."""
    if name == "odometer":
        return (
            kinds.ODOMETER.of(vehicle),
            kinds.ODOMETER_ADDED.of(vehicle),
            kinds.ODOMETER_AT_END.of(vehicle),
        )
    return (
        kinds.HOUR_METER.of(vehicle, name),
        kinds.HOURS_ADDED.of(vehicle, name),
        kinds.HOURS_AT_END.of(vehicle, name),
    )


def _asked(profile: Profile, name: MeterName) -> set[str]:
    """Vehicles whose meter some item is counted on."""
    first = next(iter(profile.rig.vehicles))
    generators = [vehicle for vehicle, entry in profile.rig.vehicles.items() if entry.generator]
    owner = next(iter([*generators, first])) if name == "generator" else first
    counted = [
        one
        for one in profile.rig.service
        if any(
            part.distance is not None
            if name == "odometer"
            else part.running is not None and hours_meter(one) == name
            for part in one.every
        )
    ]
    return {one.vehicle or owner for one in counted}
