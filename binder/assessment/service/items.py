"""Each service item of a rig against the calendar and the meters: when it is due, and what is left."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date
from typing import Literal, NamedTuple, TypeAlias

from binder.assessment.measures import hours_text
from binder.assessment.route.days import first_day, last_day, trip_days
from binder.assessment.service.meters import OWN_ODOMETER, MeterName, MeterRun, meter_run
from binder.assessment.supplies.tanks import key_part
from binder.assessment.wording import Wording
from binder.calculations.service import Due, DueBy, Meters, ServiceInterval, service_due
from binder.models.load import Profile
from binder.models.service import IntervalValue, Service
from binder.quantities import Quantity, is_quantity

State: TypeAlias = Literal["overdue", "due", "not known", "in time"]
STATES: tuple[State, ...] = ("overdue", "due", "not known", "in time")
"""The one that matters most first."""


class ItemDue(NamedTuple):
    """One interval of an item: when it ends, what is left at the trip's end, and its meter.

    ``when`` says when it falls due, as a sentence goes on; empty where it does not by the trip's end.
    """

    due: Due
    run: MeterRun | None
    state: State
    when: str = ""


class ServiceItem(NamedTuple):
    """One item of the profile with all its intervals; ``key`` begins the keys of its figures."""

    key: str
    entry: Service
    dues: tuple[ItemDue, ...]

    @property
    def state(self) -> State:
        """The worst of its intervals; not known where it has none."""
        states = {one.state for one in self.dues}
        return next((state for state in STATES if state in states), "not known")

    @property
    def worst(self) -> ItemDue | None:
        """The interval that decides its state."""
        return next((one for one in self.dues if one.state == self.state), None)


def service_items(profile: Profile, on: date) -> tuple[ServiceItem, ...]:
    """Find when each item of the profile is due."""
    keys, meters = _keys(profile.rig.service), _Meters(profile)
    items = [
        ServiceItem(key, entry, tuple(_dues(meters, on, entry)))
        for key, entry in zip(keys, profile.rig.service, strict=True)
    ]
    return tuple(sorted(items, key=lambda item: (STATES.index(item.state), _date_of(item))))


def _keys(entries: list[Service]) -> list[str]:
    keys: list[str] = []
    for number, entry in enumerate(entries, 1):
        key = f"service.{key_part(entry.what)}"
        keys.append(f"{key}_{number}" if key in keys else key)
    return keys


def _date_of(item: ServiceItem) -> date:
    dates = [one.due.at for one in item.dues if isinstance(one.due.at, date)]
    return min(dates, default=date.max)


def interval_of(every: list[IntervalValue]) -> ServiceInterval:
    """Gather written intervals; of two of one kind the shorter counts."""

    def shortest(name: Literal["time", "distance", "running"]) -> Quantity | None:
        stated = [part for one in every if (part := getattr(one, name)) is not None]
        return min(stated, default=None)

    return ServiceInterval(shortest("time"), shortest("distance"), shortest("running"))


@dataclass(frozen=True)
class _Meters:
    """The meters of the rig, each counted along the trip once."""

    profile: Profile
    runs: dict[tuple[str, MeterName], MeterRun] = field(default_factory=dict)

    def of(self, entry: Service, name: MeterName) -> MeterRun:
        """The meter of the vehicle that is named; of the driven one where that has none of its own."""
        place = (_owner(self.profile, entry, name), name)
        if place not in self.runs:
            self.runs[place] = meter_run(self.profile, *place)
        return self.runs[place]


def _dues(meters: _Meters, on: date, entry: Service) -> Iterator[ItemDue]:
    profile = meters.profile
    runs: dict[DueBy, MeterRun] = {
        "distance": meters.of(entry, "odometer"),
        "running hours": meters.of(entry, hours_meter(entry)),
    }
    interval, last = interval_of(entry.every), _last(entry)
    odometer, hours = runs["distance"], runs["running hours"]
    start, end = first_day(profile, on), last_day(profile, on)
    at_start = service_due(interval, last, Meters(start[0], odometer.reading, hours.reading))
    at_end = service_due(interval, last, Meters(end[0], odometer.at_end, hours.at_end))
    for before, after in zip(at_start.dues, at_end.dues, strict=True):
        yield _item_due(profile, (before, after), runs.get(after.by), start)


def _last(entry: Service) -> Meters:
    if entry.last is None:
        return Meters()
    read = entry.last.at
    return Meters(entry.last.on, read.odometer if read else None, read.running if read else None)


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


def _item_due(
    profile: Profile, due: tuple[Due, Due], run: MeterRun | None, start: tuple[date, str]
) -> ItemDue:
    before, after = due
    if run is None:
        return _by_date(profile, after, start)
    # A meter not read by the trip's end may still be over its reading now.
    if before.left is not None and before.left.magnitude <= 0:
        over = before.left * -1
        by = _amount(profile, over, "up")
        return ItemDue(after, run, "overdue", f"by {by} at {start[1]}" if over.magnitude else "now")
    if after.left is None:
        return ItemDue(after, run, "not known")
    if after.left.magnitude > 0:
        return ItemDue(after, run, "in time")
    if not is_quantity(after.at) or (day := run.day_of(after.at)) is None:
        return ItemDue(after, run, "due", "before the trip ends")
    return ItemDue(after, run, "due", f"on day {day.number}, at {_amount(profile, after.at, 'down')}")


def _amount(profile: Profile, quantity: Quantity, rounding: Literal["up", "down"]) -> str:
    if str(quantity.units) in {"mile", "kilometer"}:
        return Wording(profile.rig.units).distance(quantity, rounding)
    return hours_text(quantity, rounding)


def _by_date(profile: Profile, due: Due, start: tuple[date, str]) -> ItemDue:
    if not isinstance(due.at, date) or due.left is None:
        return ItemDue(due, None, "not known")
    if due.left.magnitude > 0:
        return ItemDue(due, None, "in time")
    if due.at < start[0]:
        return ItemDue(due, None, "overdue", f"since {due.at.isoformat()}")
    days = [day for day in trip_days(profile) if day.plan.leave.date() == due.at]
    day = f", day {days[0].number}" if days else ""
    return ItemDue(due, None, "due", f"on {due.at.isoformat()}{day}")
