"""Each service item, and what carries a date, against calendar and meters: when it is due, what is left."""

import re
from collections.abc import Iterable, Iterator
from datetime import date
from typing import Literal, NamedTuple, TypeAlias, get_args

from binder.assessment.ledger import Figure, Finding, FindingKind, Input, Ledger, Phrase
from binder.assessment.route.days import first_day, last_day, trip_days
from binder.assessment.service import kinds
from binder.assessment.service.logged import Read, last_done, services_done
from binder.assessment.service.meters import MeterRun, RigMeters
from binder.calculations.service import Due, Meters, ServiceInterval, service_due
from binder.models.load import Profile
from binder.models.service import Expiry, IntervalValue, Service
from binder.quantities import Quantity, is_quantity

State: TypeAlias = Literal["overdue", "due", "unknown", "good"]
STATES: tuple[State, ...] = get_args(State)
"""The one that matters most first."""


class ItemDue(NamedTuple):
    """One interval of an item: when it ends, what is left at the trip's end, and its meter.

    ``when`` says when it falls due; None where it does not by the trip's end.
    """

    due: Due
    run: MeterRun | None
    state: State
    when: Phrase | None = None

    @property
    def kinds(self) -> kinds.Counted:
        """What is entered and said of it, by what it is counted in."""
        return kinds.COUNTED[self.due.by]


class ServiceItem(NamedTuple):
    """One item of the profile with all its intervals; ``name`` is its own, told apart from one alike.

    ``is_of_log``: the log says when it was last done.
    """

    name: str
    entry: Service
    dues: tuple[ItemDue, ...]
    is_of_log: bool = False

    @property
    def state(self) -> State:
        """The worst of its intervals; not known where it has none, or one is blank."""
        states = {one.state for one in self.dues} | ({"unknown"} if None in self.entry.every else set())
        return next((state for state in STATES if state in states), "unknown")

    @property
    def when(self) -> Phrase | None:
        """When the interval falls due that decides its state."""
        return next((one.when for one in self.dues if one.state == self.state), None)


def service_items(meters: RigMeters, on: date) -> tuple[ServiceItem, ...]:
    """Find when each item of the profile is due."""
    noted = meters.profile.rig.service
    names, entries = told_apart(entry.what for entry in noted), list(_with_log(meters))
    items = [
        ServiceItem(name, entry, tuple(_dues(meters, on, entry)), entry is not before)
        for name, entry, before in zip(names, entries, noted, strict=True)
    ]
    return tuple(sorted(items, key=lambda item: (STATES.index(item.state), _date_of(item))))


def _with_log(meters: RigMeters) -> Iterator[Service]:
    """Each item of the profile with the later of what it and the log say was done."""
    done = services_done(meters.profile).by_item
    for at, item in enumerate(meters.profile.rig.service):
        found = done.get(at, [])
        reads, hours = (_reads(meters, meters.of(item, name)) for name in ("odometer", item.hours_meter))
        last = last_done(item, found, reads, hours) if found else None
        yield item if last is None else item.model_copy(update={"last": last})


def _reads(meters: RigMeters, run: MeterRun) -> list[Read]:
    """All readings of a meter, of the profile and of the log."""
    noted = [
        Read(value, one.on)
        for one in meters.profile.rig.readings
        if one.vehicle == run.vehicle and (value := getattr(one, run.name)) is not None
    ]
    return [*noted, *meters.logged.get((run.vehicle, run.name), [])]


def told_apart(names: Iterable[str]) -> list[str]:
    """Give each entry a name of its own: one whose letters stood before gets its number in the list."""
    own: list[str] = []
    for number, name in enumerate(names, 1):
        is_taken = _letters(name) in {_letters(other) for other in own}
        own.append(f"{name} {number}" if is_taken else name)
    return own


def _letters(name: str) -> str:
    return "".join(filter(str.isalnum, name))


def _date_of(item: ServiceItem) -> date:
    dates = [one.due.at for one in item.dues if isinstance(one.due.at, date)]
    return min(dates, default=date.max)


def interval_of(every: list[IntervalValue]) -> ServiceInterval:
    """Gather written intervals; of two of one kind the shorter counts."""

    def shortest(name: Literal["time", "distance", "running"]) -> Quantity | None:
        stated = [part for one in every if (part := getattr(one, name)) is not None]
        return min(stated, default=None)

    return ServiceInterval(shortest("time"), shortest("distance"), shortest("running"))


def _dues(meters: RigMeters, on: date, entry: Service) -> Iterator[ItemDue]:
    profile = meters.profile
    odometer, hours = meters.of(entry, "odometer"), meters.of(entry, entry.hours_meter)
    interval, last = interval_of(entry.intervals), _last(entry)
    start, end = first_day(profile, on), last_day(profile, on)
    at_start = service_due(interval, last, Meters(start[0], odometer.reading, hours.reading))
    at_end = service_due(interval, last, Meters(end[0], odometer.at_end, hours.at_end))
    for before, after in zip(at_start.dues, at_end.dues, strict=True):
        if after.by == "date":
            yield _by_date(profile, after, start[0])
        else:
            yield _by_meter(before, after, odometer if after.by == "distance" else hours, start[1])


def _last(entry: Service) -> Meters:
    if entry.last is None:
        return Meters()
    read = entry.last.at
    return Meters(entry.last.on, read.odometer if read else None, read.running if read else None)


def _by_meter(before: Due, after: Due, run: MeterRun, starts: str) -> ItemDue:
    counted = kinds.COUNTED[after.by]
    # A meter not read by the trip's end may still be over its reading now.
    if before.left is not None and before.left.magnitude <= 0:
        over = before.left * -1
        when = Phrase(counted.overdue, {"over": over, "starts": starts}) if over.m else Phrase(kinds.NOW)
        return ItemDue(after, run, "overdue", when)
    if after.left is None:
        return ItemDue(after, run, "unknown")
    if after.left.magnitude > 0:
        return ItemDue(after, run, "good")
    if not is_quantity(after.at) or (day := run.day_of(after.at)) is None:
        return ItemDue(after, run, "due", Phrase(kinds.BEFORE_THE_END))
    return ItemDue(after, run, "due", Phrase(counted.on_day, {"day": day.number, "at": after.at}))


def _by_date(profile: Profile, due: Due, starts: date) -> ItemDue:
    if not isinstance(due.at, date) or due.left is None:
        return ItemDue(due, None, "unknown")
    if due.left.magnitude > 0:
        return ItemDue(due, None, "good")
    at = {"at": due.at}
    if due.at < starts:
        return ItemDue(due, None, "overdue", Phrase(kinds.SINCE, at))
    days = [day.number for day in trip_days(profile) if day.plan.leave.date() == due.at]
    when = Phrase(kinds.ON_DAY, {**at, "day": days[0]}) if days else Phrase(kinds.ON, at)
    return ItemDue(due, None, "due", when)


_APART = 3
"""So many are told one by one; more are told together."""


def expiries(profile: Profile) -> tuple[tuple[str, Expiry], ...]:
    """Give each entry that carries a date with a name of its own in plain letters, the soonest first."""
    entries = profile.rig.expires
    names = told_apart(_plain(entry.what) for entry in entries)
    return tuple(sorted(zip(names, entries, strict=True), key=lambda item: item[1].on or date.max))


def _plain(what: str) -> str:
    return re.sub("[^a-z0-9]+", " ", what.lower().replace("'", "")).strip()


def undated(profile: Profile) -> tuple[str, ...]:
    """List what should carry a date on this rig and has none noted."""
    dated = [entry.what.lower() for entry in profile.rig.expires if entry.on is not None]
    served = [entry.what.lower() for entry in profile.rig.service]
    named = [entry.what for entry in profile.rig.expires if entry.on is None]
    known = [name.lower() for name in named]
    asked = [name for name, pattern in kinds.PAPERS.items() if not _any(pattern, [*dated, *known])]
    asked += [
        name for name, pattern in _of_equipment(profile) if not _any(pattern, [*dated, *served, *known])
    ]
    return tuple(dict.fromkeys((*named, *asked)))


def _any(pattern: str, texts: list[str]) -> bool:
    return any(re.search(pattern, text) for text in texts)


def _of_equipment(profile: Profile) -> Iterator[tuple[str, str]]:
    vehicles = profile.rig.vehicles.values()
    for field, named in kinds.ALARMS.items():
        if any(getattr(vehicle.equipment, field) is not None for vehicle in vehicles):
            yield named
    if any(tank.holds == "propane" for vehicle in vehicles for tank in vehicle.tanks.values()):
        yield kinds.PROPANE


def assess_expiry(profile: Profile, on: date, ledger: Ledger) -> None:
    """Enter what carries a date and what is left of it, and find what expires or has none."""
    (start, starts), (end, ends) = first_day(profile, on), last_day(profile, on)
    by = {"starts": starts, "ends": ends}
    found: dict[str, list[tuple[str, Expiry]]] = {state: [] for state in kinds.EXPIRES_STATES}
    for name, entry in expiries(profile):
        if entry.on is None:
            continue
        state = "expired" if entry.on < start else "expires" if entry.on < end else "good"
        found[state].append((name, entry))
        printed, facts = (Input(kinds.GOOD_UNTIL, entry.on),), {"what": entry.what}
        ledger.enter(Figure(kinds.EXPIRES_ON.of(name), entry.on, printed, facts=facts))
        words = Phrase(kinds.EXPIRES_STATES[state])
        ledger.enter(Figure(kinds.EXPIRES_STATE.of(name), words, printed, facts={**facts, **by}))
    for kind, told in ((kinds.EXPIRED, found["expired"]), (kinds.EXPIRES, found["expires"])):
        for group in [told] if len(told) > _APART else [[one] for one in told]:
            ledger.find(_finding(kind, group, by))
    names = undated(profile)
    if names:
        ledger.find(Finding(kinds.NO_DATE, kinds.NO_DATE.of(), {"names": names}))


def _finding(kind: FindingKind, group: list[tuple[str, Expiry]], by: dict[str, str]) -> Finding:
    dates = tuple(Phrase(kinds.DATED, {"what": entry.what, "on": entry.on}) for _, entry in group)
    about = kinds.EXPIRES_ON.of(group[0][0]) if len(group) == 1 else kind.of()
    return Finding(kind, about, {**by, "dates": dates})
