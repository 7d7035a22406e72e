"""What service falls due before the trip ends: a figure for each item, and what is overdue or not known."""

from collections.abc import Callable, Iterator
from datetime import date

from binder.assessment.figures import Figure, Finding, Input, Ledger
from binder.assessment.measures import hours_text
from binder.assessment.route.days import first_day, last_day
from binder.assessment.service.expiry import assess_expiry
from binder.assessment.service.items import ItemDue, ServiceItem, hours_meter, service_items
from binder.assessment.service.meters import METERS, OWN_ODOMETER, MeterName, MeterRun, meter_run
from binder.assessment.service.usual import assess_usual_service, is_of_coupling
from binder.assessment.service.wheel_nuts import assess_wheel_nuts
from binder.assessment.supplies.tanks import key_part
from binder.assessment.wording import Wording
from binder.models.load import Profile
from binder.quantities import Quantity

_ORDER = 10
_OF_COUPLING = 4
"""Place among the ten findings: a coupling is among what matters most, other service is not."""

_APART = 3
"""So many of one kind are told one by one; more are told together."""

_KEYS = {"date": "due_on", "distance": "due_at", "running hours": "due_at_hours"}
_LEFT = {"date": "days_left", "distance": "distance_left", "running hours": "hours_left"}


def assess_service(profile: Profile, on: date, ledger: Ledger) -> None:
    """Enter meters, service, wheel nuts and dates, and find what is overdue, falls due, or is not known."""
    _enter_meters(profile, ledger)
    items = service_items(profile, on)
    for item in items:
        _enter_item(profile, on, item, ledger)
    for finding in (
        *_due_findings(profile, on, items),
        *_missing_findings(items),
        *_doubts(profile, on, items),
    ):
        ledger.find(finding)
    assess_usual_service(profile, ledger)
    assess_wheel_nuts(profile, on, ledger)
    assess_expiry(profile, on, ledger)


def _enter_meters(profile: Profile, ledger: Ledger) -> None:
    for vehicle, entry in profile.rig.vehicles.items():
        for name in METERS:
            run = meter_run(profile, vehicle, name)
            is_there = {
                "odometer": entry.kind in OWN_ODOMETER,
                "engine": bool(entry.engine),
                "generator": bool(entry.generator),
            }
            if run.reading is None and not (is_there[name] and vehicle in _asked(profile, name)):
                continue
            read = Input(
                "read on", run.read_on.isoformat() if run.read_on else "not known", "rig.yaml readings"
            )
            key = f"service.meters.{key_part(vehicle)}.{name}"
            ledger.add(Figure(key, run.reading, "measured", "as read", "profile", (read,)))
            rule = "what the trip adds, by the plan; the day of the reading is counted whole"
            ledger.add(Figure(f"{key}_added", run.added, "calculated", rule, "trip plan; arithmetic"))
            rule = "the reading and what the trip adds; what is driven between them is not counted"
            source = "profile; trip plan; arithmetic"
            ledger.add(Figure(f"{key}_at_end", run.at_end, "calculated", rule, source, (read,)))


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


def _enter_item(profile: Profile, on: date, item: ServiceItem, ledger: Ledger) -> None:
    end, ends = last_day(profile, on)
    for one in item.dues:
        rule = f"last done and its interval by {one.due.by}; whichever of its intervals ends first counts"
        source = "profile; arithmetic"
        ledger.add(
            Figure(
                f"{item.key}.{_KEYS[one.due.by]}",
                one.due.at,
                "calculated",
                rule,
                source,
                (Input("last done", _last_done(profile, item, one), "rig.yaml service"),),
            )
        )
        rule = f"what is left of it at {ends}"
        at_end = Input(
            ends, _meter_at_end(profile, one, end), "trip plan" if profile.trip else "effective date"
        )
        source = "profile; trip plan; arithmetic"
        figure = Figure(
            f"{item.key}.{_LEFT[one.due.by]}",
            one.due.left,
            "calculated",
            rule,
            source,
            (at_end,),
        )
        ledger.add(figure)
    rule = f"overdue by {first_day(profile, on)[1]}, due by {ends}, or in time; the worst of its intervals"
    ledger.add(Figure(f"{item.key}.state", state_words(item), "calculated", rule, "profile; trip plan"))


def _last_done(profile: Profile, item: ServiceItem, one: ItemDue) -> str:
    if one.due.by == "date":
        last = item.entry.last
        return last.on.isoformat() if last and last.on else "not known"
    read = _read_then(item, one)
    if read is None:
        return "not known"
    return (
        Wording(profile.rig.units).distance(read, "down")
        if one.due.by == "distance"
        else hours_text(read, "down")
    )


def _meter_at_end(profile: Profile, one: ItemDue, end: date) -> str:
    if one.due.by == "date":
        return end.isoformat()
    at_end = one.run.at_end if one.run else None
    if at_end is None:
        return "not known"
    if one.due.by == "distance":
        return Wording(profile.rig.units).distance(at_end, "up")
    return hours_text(at_end, "up")


def state_words(item: ServiceItem) -> str:
    """Say how an item stands."""
    when = item.worst.when if item.worst else ""
    return f"{item.state} {when}".strip()


_HELPS = {
    "overdue": "Have it done before leaving.",
    "due": "Have it done before leaving, or plan it on the way.",
}


def _due_findings(profile: Profile, on: date, items: tuple[ServiceItem, ...]) -> Iterator[Finding]:
    by = {"overdue": first_day(profile, on)[1], "due": last_day(profile, on)[1]}
    for order in (_OF_COUPLING, _ORDER):
        for state, helps in _HELPS.items():
            found = [
                item
                for item in items
                if item.state == state and is_of_coupling(profile, item.entry.what) == (order == _OF_COUPLING)
            ]
            if len(found) > _APART:
                told = "; ".join(f"{item.entry.what}, {_when(item)}" for item in found)
                text = f"Service {state} by {by[state]}, {len(found)} items: {told}."
                yield Finding("attention", order, f"service.{state}", text, helps.replace(" it ", " them "))
                continue
            for item in found:
                text = f"Service {state} {_when(item)}: {item.entry.what}."
                yield Finding("attention", order, f"{item.key}.state", text, helps)


def _when(item: ServiceItem) -> str:
    return item.worst.when if item.worst else ""


def _missing_findings(items: tuple[ServiceItem, ...]) -> Iterator[Finding]:
    asked: tuple[tuple[str, Callable[[ServiceItem], bool], str, str], ...] = (
        (
            "every",
            lambda item: not item.entry.every,
            "how often is not noted",
            "Enter it under every:, from the maker's manual, like 6 months.",
        ),
        (
            "last",
            lambda item: any(one.due.at is None for one in item.dues),
            "when last done is not noted, by each of its intervals",
            "Enter it under last:, like {on: 2026-03-12, at: 33400 mi}.",
        ),
        (
            "readings",
            lambda item: any(one.due.at is not None and one.due.left is None for one in item.dues),
            "the meter's reading, or what the trip adds to it, is not known",
            "Enter it under readings:, and the hours a day under use: in the plan.",
        ),
    )
    for name, is_asked, words, helps in asked:
        found = [item.entry.what for item in items if is_asked(item)]
        if found:
            yield Finding(
                "missing", _ORDER, f"service.{name}", f"Service, {words}: {'; '.join(found)}.", helps
            )


def _doubts(profile: Profile, on: date, items: tuple[ServiceItem, ...]) -> Iterator[Finding]:
    """What was last done after today, or beyond the meter: nothing would ever fall due."""
    start, _ = first_day(profile, on)
    for read in profile.rig.readings:
        if read.on is not None and read.on > on:
            text = (
                f"The meters of the {read.vehicle} were read on {read.on.isoformat()}, which is yet to come."
            )
            yield Finding("attention", _ORDER, "service.meters", text, "Read the date again.")
    for item in items:
        last = item.entry.last
        if last is None:
            continue
        if last.on is not None and last.on > start:
            text = f"Service last done on {last.on.isoformat()}, which is yet to come: {item.entry.what}."
            yield Finding("attention", _ORDER, f"{item.key}.last", text, "Read the date again.")
        for one in item.dues:
            then = _read_then(item, one)
            if one.run and then is not None and _is_beyond(then, one.run, last.on):
                text = f"Service last done at more than its meter reads: {item.entry.what}."
                yield Finding("attention", _ORDER, f"{item.key}.last", text, "Read both again.")


def _read_then(item: ServiceItem, one: ItemDue) -> Quantity | None:
    at = item.entry.last.at if item.entry.last else None
    if at is None:
        return None
    return at.odometer if one.due.by == "distance" else at.running


def _is_beyond(read: Quantity, run: MeterRun, done: date | None) -> bool:
    is_before = done is None or run.read_on is None or done <= run.read_on
    return run.reading is not None and is_before and bool(read > run.reading)
