"""What service falls due before the trip ends: a figure for each item, and what is overdue or not known."""

import re
from collections.abc import Iterator
from datetime import date, timedelta
from typing import NamedTuple

from binder.assessment.ledger import Fact, Figure, Finding, FindingKind, Input, Ledger, Phrase, Place
from binder.assessment.route.days import TripDay, first_day, last_day
from binder.assessment.service import kinds
from binder.assessment.service.items import ItemDue, ServiceItem, assess_expiry, service_items
from binder.assessment.service.logged import OWN_ODOMETER, services_done
from binder.assessment.service.meters import MeterRun, RigMeters, enter_meters
from binder.calculations.bounds import is_at_least
from binder.models.load import Profile
from binder.models.rig import Rig
from binder.models.tires import Wheels
from binder.models.vehicles import Vehicle
from binder.quantities import LENGTH, TIME, Quantity
from binder.reference.constants import PROCEDURE_CONSTANTS

_APART = 3
"""So many of one kind are told one by one; more are told together."""
_COUPLING = re.compile(
    r"\b(coupling|coupler|tow ?bar|base plate|hitch|ball(?! joint)|fifth wheel|king ?pin|pin box|"
    r"spring bars?|receiver|safety (?:cables?|chains?)|gooseneck|dolly)\b"
)


def assess_service(profile: Profile, on: date, ledger: Ledger) -> None:
    """Enter meters, service, wheel nuts and dates, and find what is overdue, falls due, or is not known."""
    meters = RigMeters(profile)
    enter_meters(meters, ledger)
    items = service_items(meters, on)
    for item in items:
        _enter_item(profile, on, item, ledger)
    for finding in (
        *_due_findings(profile, on, items),
        *_missing_findings(items),
        *_doubts(profile, on, items),
        *_usual_findings(profile),
        *_unlisted(profile),
    ):
        ledger.find(finding)
    assess_wheel_nuts(meters, on, ledger)
    assess_expiry(profile, on, ledger)


def _enter_item(profile: Profile, on: date, item: ServiceItem, ledger: Ledger) -> None:
    end, ends = last_day(profile, on)
    facts = {"starts": first_day(profile, on)[1], "ends": ends}
    origin = Place("trip plan") if profile.trip else Phrase(kinds.EFFECTIVE_DATE)
    for one in item.dues:
        by = Phrase(kinds.OF_LOG if item.is_of_log else kinds.OF_SERVICE)
        last = Input(one.kinds.last_done, _last_done(item, one), by)
        ledger.enter(Figure(one.kinds.due.of(item.name), one.due.at, (last,)))
        at_end = one.run.at_end if one.run else end
        left = Input(one.kinds.at_end, at_end, origin)
        ledger.enter(Figure(one.kinds.left.of(item.name), one.due.left, (left,), facts=facts))
    state = Phrase(kinds.STATES[item.state])
    if item.when:
        state = Phrase(kinds.STATE_WHEN, {"state": state, "when": item.when})
    ledger.enter(Figure(kinds.STATE.of(item.name), state, facts=facts))


def _last_done(item: ServiceItem, one: ItemDue) -> date | Quantity | None:
    last = item.entry.last
    if one.due.by == "date":
        return last.on if last else None
    read = last.at if last else None
    if read is None:
        return None
    return read.odometer if one.due.by == "distance" else read.running


def _due_findings(profile: Profile, on: date, items: tuple[ServiceItem, ...]) -> Iterator[Finding]:
    starts, ends = first_day(profile, on)[1], last_day(profile, on)[1]
    coupling = [item for item in items if is_of_coupling(profile, item.entry.what)]
    others = [item for item in items if item not in coupling]
    for kind, state, by, among in (
        (kinds.COUPLING_OVERDUE, "overdue", starts, coupling),
        (kinds.COUPLING_DUE, "due", ends, coupling),
        (kinds.OVERDUE, "overdue", starts, others),
        (kinds.DUE, "due", ends, others),
    ):
        yield from _told(kind, by, [item for item in among if item.state == state])


def _told(kind: FindingKind, by: str, found: list[ServiceItem]) -> Iterator[Finding]:
    told = [{"what": item.entry.what, "when": item.when} for item in found]
    if len(found) > _APART:
        listed = tuple(Phrase(kinds.ITEM_WHEN, one) for one in told)
        yield Finding(kind, kind.of(), {"by": by, "count": len(found), "items": listed}, "several")
        return
    for item, one in zip(found, told, strict=True):
        yield Finding(kind, kinds.STATE.of(item.name), one)


def _missing_findings(items: tuple[ServiceItem, ...]) -> Iterator[Finding]:
    asked = (
        (kinds.NO_INTERVAL, [item for item in items if None in (item.entry.every or [None])]),
        (kinds.NO_LAST, [item for item in items if any(one.due.at is None for one in item.dues)]),
        (kinds.NO_READING, [item for item in items if any(_is_not_read(one) for one in item.dues)]),
    )
    for kind, found in asked:
        if found:
            yield Finding(kind, kind.of(), {"items": tuple(item.entry.what for item in found)})


def _unlisted(profile: Profile) -> Iterator[Finding]:
    """Service of the log that is of no item."""
    items = services_done(profile).unlisted
    if items:
        yield Finding(kinds.NOT_LISTED, kinds.NOT_LISTED.of(), {"items": items})


def _is_not_read(one: ItemDue) -> bool:
    return one.due.at is not None and one.due.left is None


def _doubts(profile: Profile, on: date, items: tuple[ServiceItem, ...]) -> Iterator[Finding]:
    """What was last done after today, or beyond the meter: nothing would ever fall due."""
    start, _ = first_day(profile, on)
    for read in profile.rig.readings:
        if read.on is not None and read.on > on:
            read_later: dict[str, Fact] = {"vehicle": read.vehicle, "on": read.on}
            yield Finding(kinds.READ_LATER, kinds.READ_LATER.of(), read_later)
    for item in items:
        last = item.entry.last
        if last is None:
            continue
        facts: dict[str, Fact] = {"what": item.entry.what, "on": last.on}
        if last.on is not None and last.on > start:
            yield Finding(kinds.DONE_LATER, kinds.DONE_LATER.of(item.name), facts)
        for one in item.dues:
            if one.run and _is_beyond(_last_done(item, one), one.run, last.on):
                yield Finding(kinds.DONE_BEYOND, kinds.DONE_BEYOND.of(item.name), facts)


def _is_beyond(then: date | Quantity | None, run: MeterRun, done: date | None) -> bool:
    if then is None or isinstance(then, date) or run.reading is None:
        return False
    is_before = done is None or run.read_on is None or done <= run.read_on
    return is_before and bool(then > run.reading)


def is_of_coupling(profile: Profile, what: str) -> bool:
    """Tell whether a service item is of what joins the vehicles."""
    return bool(profile.rig.couplings and _COUPLING.search(what.lower().replace("joints", "joint")))


def usual_service(profile: Profile) -> tuple[str, ...]:
    """List what is usually serviced on a rig with this equipment."""
    found = [what for vehicle in profile.rig.vehicles.values() for what in _of_vehicle(vehicle)]
    found += [kinds.OF_COUPLING] if profile.rig.couplings else []
    return tuple(dict.fromkeys(found))


def _of_vehicle(vehicle: Vehicle) -> Iterator[str]:
    held = {tank.holds for tank in vehicle.tanks.values()}
    brakes = vehicle.brakes.service if vehicle.brakes else None
    if vehicle.engine or vehicle.kind in {"motorhome", "pickup"}:
        yield from kinds.OF_ENGINE
    if "diesel" in held:
        yield kinds.OF_DIESEL
    if vehicle.generator:
        yield kinds.OF_GENERATOR
    if brakes == "air":
        yield from kinds.OF_AIR_BRAKES
    elif brakes is not None and brakes != "none":
        yield kinds.OF_OTHER_BRAKES
    if vehicle.kind in {"trailer", "dolly"}:
        yield kinds.OF_TRAILER
    if vehicle.hydronic_heater:
        yield kinds.OF_HYDRONIC_HEATER
    if "propane" in held:
        yield kinds.OF_PROPANE


def _usual_findings(profile: Profile) -> Iterator[Finding]:
    """Find that no service is listed, or none of the coupling, or that one seldom."""
    rig = profile.rig
    if not rig.service:
        yield Finding(kinds.NONE_LISTED, kinds.NONE_LISTED.of(), {"usual": usual_service(profile)})
        return
    if not rig.couplings:
        return
    practice = PROCEDURE_CONSTANTS["coupling service"]
    often = {"often": practice}
    listed = [entry for entry in rig.service if is_of_coupling(profile, entry.what)]
    if not listed:
        yield Finding(kinds.NO_COUPLING, kinds.NO_COUPLING.of(), often)
    stated = [part.time for entry in listed for part in entry.intervals if part.time is not None]
    if stated and min(stated) > TIME.read(practice.us.text):
        yield Finding(kinds.COUPLING_SELDOM, kinds.COUPLING_SELDOM.of(), often)


_REMEMBERED = timedelta(days=365)
"""A tire mounted longer ago is taken to have been looked after since (practice, no source)."""


def assess_wheel_nuts(meters: RigMeters, on: date, ledger: Ledger) -> None:
    """Enter where the nuts of newly fitted wheels are due, and find what was not done."""
    profile = meters.profile
    for name, wheels in profile.rig.wheels.items():
        vehicle = _vehicle_on(profile.rig, name)
        if vehicle is None:
            continue
        if wheels.fitted and wheels.fitted.at and wheels.fitted.at.odometer is not None:
            run = meters.run(_counting(profile.rig, vehicle), "odometer")
            _enter(profile, name, wheels.fitted.at.odometer, run, ledger)
            continue
        if wheels.fitted:
            for due in (kinds.NUTS_DUE_FROM, kinds.NUTS_DUE_BY):
                ledger.enter(Figure(due.of(name), None))
        fitted = _fitted_on(profile, on, name, wheels)
        if fitted is not None and not _is_checked(profile, wheels):
            ledger.find(Finding(kinds.NUTS_NOT_NOTED, kinds.NUTS_STATE.of(name), {"on": fitted}))


def _vehicle_on(rig: Rig, wheels: str) -> str | None:
    """The vehicle that rolls on a kind of wheel."""
    for name, vehicle in rig.vehicles.items():
        if any(axle.wheels == wheels for axle in vehicle.axles.values()):
            return name
    return None


def _distances(profile: Profile) -> tuple[Quantity, Quantity]:
    constant = PROCEDURE_CONSTANTS["nuts again"]
    amount = constant.us if profile.rig.units == "us" else constant.metric
    first, last = (LENGTH.read(end) for end in amount.ends)
    return first, last


def _is_checked(profile: Profile, wheels: Wheels) -> bool:
    fitted, checked = wheels.fitted, wheels.nuts_checked
    if checked is None:
        return False
    if fitted is None:
        return True
    at = (fitted.at.odometer if fitted.at else None, checked.at.odometer if checked.at else None)
    if at[0] is not None and at[1] is not None:
        return is_at_least(at[1], at[0] + _distances(profile)[0])
    return fitted.on is None or (checked.on is not None and checked.on >= fitted.on)


def _fitted_on(profile: Profile, on: date, name: str, wheels: Wheels) -> date | None:
    """The day they were fitted, else the last day a tire was mounted on them, where that is not long ago."""
    if wheels.fitted and wheels.fitted.on:
        return wheels.fitted.on
    on_them = {
        axle.tires
        for vehicle in profile.rig.vehicles.values()
        for axle in vehicle.axles.values()
        if axle.wheels == name
    }
    days = [
        tire.mounted_on
        for kind, tires in profile.rig.tires.items()
        if kind in on_them
        for position, tire in tires.mounted.items()
        if tire.mounted_on is not None and position != "spare"
    ]
    last = max(days, default=None)
    start, _ = first_day(profile, on)
    return last if last is not None and start - last <= _REMEMBERED else None


def _counting(rig: Rig, vehicle: str) -> str:
    """The vehicle whose odometer counts: a trailer has none."""
    return vehicle if rig.vehicles[vehicle].kind in OWN_ODOMETER else next(iter(rig.vehicles))


class _Judged(NamedTuple):
    """How the nuts stand, the day they fall due on, and what is found of it."""

    state: str
    kind: FindingKind | None = None
    day: TripDay | None = None


def _enter(profile: Profile, name: str, fitted: Quantity, run: MeterRun, ledger: Ledger) -> None:
    first, last = (fitted + far for far in _distances(profile))
    given = (Input(kinds.FITTED_AT, fitted, Place("rig.yaml", ("wheels", name, "fitted"))),)
    ledger.enter(Figure(kinds.NUTS_DUE_FROM.of(name), first, given))
    ledger.enter(Figure(kinds.NUTS_DUE_BY.of(name), last, given))
    is_checked = _is_checked(profile, profile.rig.wheels[name])
    judged = _Judged("done") if is_checked else _judged(first, last, run)
    key, day = kinds.NUTS_STATE.of(name), {"day": judged.day.number if judged.day else None}
    ledger.enter(Figure(key, Phrase(kinds.NUTS_STATES[judged.state], day), given))
    if judged.kind:
        facts = {"first": first, "last": last, **day}
        ledger.find(Finding(judged.kind, key, facts, judged.state))


def _judged(first: Quantity, last: Quantity, run: MeterRun) -> _Judged:
    if run.reading is not None and is_at_least(run.reading, last):
        return _Judged("overdue", kinds.NUTS_OVERDUE)
    if run.at_end is None:
        return _Judged("unknown", kinds.NUTS_UNKNOWN)
    if not is_at_least(run.at_end, first):
        return _Judged("later")
    day = run.day_of(first)
    return _Judged("on_day" if day else "due", kinds.NUTS_DUE, day)
