"""Wheel nuts: torqued once more a short way after a wheel was fitted, and whether that was done."""

from datetime import date, timedelta
from typing import NamedTuple

from binder.assessment.ledger import Figure, Finding, FindingKind, Input, Ledger, Phrase, Place
from binder.assessment.route.days import TripDay, first_day
from binder.assessment.service import kinds
from binder.assessment.service.meters import OWN_ODOMETER, MeterRun, RigMeters
from binder.calculations.bounds import is_at_least
from binder.models.load import Profile
from binder.models.rig import Rig
from binder.models.tires import Wheels
from binder.quantities import LENGTH, Quantity
from binder.reference.procedure_constants import PROCEDURE_CONSTANTS

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
