"""What the meters read, and what they will read at the end of each day of the trip, by the plan."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import date
from functools import cached_property
from itertools import pairwise
from typing import Literal, NamedTuple, TypeAlias

from binder.assessment.ledger import Fact, Figure, Finding, Input, Key, Ledger, Phrase
from binder.assessment.route.days import TripDay, total, trip_days
from binder.assessment.service import kinds
from binder.assessment.service.logged import OWN_ODOMETER, LoggedReads, Read, fallen, highest, reads_of
from binder.models.load import Profile
from binder.models.service import Service
from binder.quantities import Quantity, registry

MeterName: TypeAlias = Literal["odometer", "engine", "generator"]
METERS: tuple[MeterName, ...] = ("odometer", "engine", "generator")


class DayEnd(NamedTuple):
    """One day of the trip and what a meter has gained by its end; None where the plan does not say."""

    day: TripDay
    added: Quantity | None


class MeterRun(NamedTuple):
    """One meter: what it read, when, and what the trip adds; ``reading`` is None where it was not noted.

    ``fallen`` are readings of the log that are lower than one before them.
    """

    name: MeterName
    vehicle: str
    reading: Quantity | None
    read_on: date | None
    days: tuple[DayEnd, ...]
    is_of_log: bool = False
    fallen: tuple[Read, ...] = ()

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


def _run(profile: Profile, vehicle: str, name: MeterName, reads: list[Read]) -> MeterRun:
    noted = _noted(profile, vehicle, name)
    found = highest(reads, noted)
    reading, read_on = found or (None, None)
    days = tuple(day for day in trip_days(profile) if read_on is None or day.plan.leave.date() >= read_on)
    ends = tuple(_running_total(days, _gains(profile, vehicle, name, days)))
    is_of_log = found is not None and (noted is None or found.value is not noted.value)
    return MeterRun(name, vehicle, reading, read_on, ends, is_of_log, tuple(fallen(reads, noted)))


@dataclass(frozen=True)
class RigMeters:
    """The meters of a rig, each counted along the trip once."""

    profile: Profile
    runs: dict[tuple[str, MeterName], MeterRun] = field(default_factory=dict)

    @cached_property
    def logged(self) -> LoggedReads:
        """What the log says of each meter."""
        return reads_of(self.profile.logged("meter", "fill", "service"), self.profile.rig)

    def run(self, vehicle: str, name: MeterName) -> MeterRun:
        """Give one meter along the trip."""
        if (vehicle, name) not in self.runs:
            self.runs[vehicle, name] = _run(self.profile, vehicle, name, self.logged.get((vehicle, name), []))
        return self.runs[vehicle, name]

    def of(self, entry: Service, name: MeterName) -> MeterRun:
        """Give the meter of the vehicle that is named; of the driven one where that has none of its own."""
        return self.run(_owner(self.profile, entry, name), name)


def _owner(profile: Profile, entry: Service, name: MeterName) -> str:
    vehicles = profile.rig.vehicles
    named = entry.vehicle
    if named and named in vehicles and (vehicles[named].kind in OWN_ODOMETER or name == "generator"):
        return named
    return _carrying(profile, name)


def _carrying(profile: Profile, name: MeterName) -> str:
    """The vehicle a meter is of where none is named: for a generator the one that has it, else the first."""
    vehicles = profile.rig.vehicles
    owners = [vehicle for vehicle, entry in vehicles.items() if entry.generator and name == "generator"]
    return next(iter([*owners, *vehicles]))


def _noted(profile: Profile, vehicle: str, name: MeterName) -> Read | None:
    """What the profile says a meter read last."""
    read = [
        Read(value, one.on)
        for one in profile.rig.readings
        if one.vehicle == vehicle and (value := getattr(one, name)) is not None
    ]
    return max(read, key=lambda one: one.on or date.min, default=None)


def _gains(
    profile: Profile, vehicle: str, name: MeterName, days: tuple[TripDay, ...]
) -> Callable[[TripDay], Quantity | None]:
    if name == "odometer":
        return lambda day: total((leg.distance for leg in day.plan.legs), "mile")
    if name == "engine":
        is_driven = vehicle == next(iter(profile.rig.vehicles))
        return lambda day: total((leg.driving for leg in day.plan.legs if is_driven), "hour")
    rate = profile.trip.use.generator if profile.trip else None
    until = {day.number: following for day, following in pairwise(days)}

    def running(day: TripDay) -> Quantity | None:
        following = until.get(day.number)
        count = (following.plan.leave.date() - day.plan.leave.date()).days if following else 1
        return None if rate is None else (rate * registry.Quantity(float(count), "day")).to("hour")

    return running


def _running_total(days: tuple[TripDay, ...], gain: Callable[[TripDay], Quantity | None]) -> Iterator[DayEnd]:
    added: Quantity | None = None
    for number, day in enumerate(days):
        own = gain(day)
        added = own if not number else None if own is None or added is None else added + own
        yield DayEnd(day, added)


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
            is_blank = any(one.vehicle == vehicle and one.is_blank(name) for one in profile.rig.readings)
            if is_blank or run.reading is not None or (is_there[name] and vehicle in _asked(profile, name)):
                _enter_meter(run, ledger)


def _enter_meter(run: MeterRun, ledger: Ledger) -> None:
    origin = Phrase(kinds.OF_LOG if run.is_of_log else kinds.OF_READINGS)
    read = (Input(kinds.READ_ON, run.read_on, origin),)
    reads, added, at_end = meter_keys(run.vehicle, run.name)
    ledger.enter(Figure(reads, run.reading, read))
    ledger.enter(Figure(added, run.added))
    ledger.enter(Figure(at_end, run.at_end, read))
    if run.fallen:
        kind, telling = kinds.FALLEN[run.name == "odometer"]
        told = tuple(Phrase(telling, {"read": one.value, "on": one.on}) for one in run.fallen)
        facts: dict[str, Fact] = {"vehicle": run.vehicle, "meter": run.name, "reads": told}
        ledger.find(Finding(kind, reads, {**facts, "counts": run.reading}))


def meter_keys(vehicle: str, name: MeterName) -> tuple[Key, Key, Key]:
    """Give the keys of what a meter reads, of what the trip adds, and of what it will read then."""
    if name == "odometer":
        of_odometer = kinds.ODOMETER, kinds.ODOMETER_ADDED, kinds.ODOMETER_AT_END
        reads, added, at_end = (kind.of(vehicle) for kind in of_odometer)
    else:
        of_hours = kinds.HOUR_METER, kinds.HOURS_ADDED, kinds.HOURS_AT_END
        reads, added, at_end = (kind.of(vehicle, name) for kind in of_hours)
    return reads, added, at_end


def _asked(profile: Profile, name: MeterName) -> set[str]:
    """Vehicles whose meter some item is counted on."""
    owner = _carrying(profile, name)
    return {entry.vehicle or owner for entry in profile.rig.service if _is_counted_on(entry, name)}


def _is_counted_on(entry: Service, name: MeterName) -> bool:
    if name == "odometer":
        return any(part.distance is not None for part in entry.intervals)
    return entry.hours_meter == name and any(part.running is not None for part in entry.intervals)
