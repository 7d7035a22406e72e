"""Wheel nuts: torqued once more a short way after a wheel was fitted, and whether that was done."""

from datetime import date, timedelta

from binder.assessment.figures import Figure, Finding, Input, Ledger
from binder.assessment.procedure_numbers import procedure_constant
from binder.assessment.route.days import first_day
from binder.assessment.service.meters import OWN_ODOMETER, MeterRun, meter_run
from binder.assessment.supplies.tanks import key_part
from binder.assessment.wording import Wording
from binder.calculations.bounds import is_at_least
from binder.models.load import Profile
from binder.models.rig import Rig
from binder.models.tires import Wheels
from binder.quantities import LENGTH, Quantity

_ORDER = 10
_REMEMBERED = timedelta(days=365)
"""A tire mounted longer ago is taken to have been looked after since (practice, no source)."""


def wheel_nuts_key(wheels: str) -> str:
    """Begin the keys of the figures of one kind of wheel."""
    return f"service.wheel_nuts.{key_part(wheels)}"


def assess_wheel_nuts(profile: Profile, on: date, ledger: Ledger) -> None:
    """Enter where the nuts of newly fitted wheels are due, and find what was not done."""
    for name, wheels in profile.rig.wheels.items():
        axle = _axle_of(profile.rig, name)
        if axle is None:
            continue
        if wheels.fitted and wheels.fitted.at and wheels.fitted.at.odometer is not None:
            _enter(profile, (name, axle), wheels.fitted.at.odometer, ledger)
            continue
        fitted = _fitted_on(profile, on, name, wheels)
        if fitted is not None and not _is_checked(profile, wheels):
            text = f"The {name}: fitted on {fitted}; that their nuts were torqued again is not noted."
            ledger.find(Finding("missing", _ORDER, f"{wheel_nuts_key(name)}.state", text, _HELPS))


_HELPS = "Torque them, and note it under nuts_checked: of these wheels."


def _axle_of(rig: Rig, wheels: str) -> str | None:
    """The vehicle that rolls on a kind of wheel."""
    for name, vehicle in rig.vehicles.items():
        if any(axle.wheels == wheels for axle in vehicle.axles.values()):
            return name
    return None


def _distances(profile: Profile) -> tuple[Quantity, Quantity]:
    constant = procedure_constant("nuts again")
    amount = constant.us if profile.rig.units == "us" else constant.metric
    first, last = (LENGTH.read(f"{part} {amount.unit}") for part in amount.value.split(" to "))
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
    kinds = {
        axle.tires
        for vehicle in profile.rig.vehicles.values()
        for axle in vehicle.axles.values()
        if axle.wheels == name
    }
    days = [
        tire.mounted_on
        for kind, tires in profile.rig.tires.items()
        if kind in kinds
        for position, tire in tires.mounted.items()
        if tire.mounted_on is not None and position != "spare"
    ]
    last = max(days, default=None)
    start, _ = first_day(profile, on)
    return last if last is not None and start - last <= _REMEMBERED else None


def _enter(profile: Profile, whose: tuple[str, str], fitted: Quantity, ledger: Ledger) -> None:
    name, vehicle = whose
    first, last = (fitted + far for far in _distances(profile))
    wording, key = Wording(profile.rig.units), wheel_nuts_key(name)
    inputs = (Input("fitted at", wording.distance(fitted, "down"), f"rig.yaml wheels.{name}.fitted"),)
    for end, at, words in (("due_from", first, "soonest"), ("due_by", last, "latest")):
        rule = f"fitted, and the {words} that its nuts are torqued again"
        ledger.add(Figure(f"{key}.{end}", at, "calculated", rule, "W53; profile", inputs))
    run = meter_run(profile, _counting(profile.rig, vehicle), "odometer")
    state, finding = _judged(name, (first, last), run, wording)
    if _is_checked(profile, profile.rig.wheels[name]):
        state, finding = "done", None
    rule = "the odometer by the trip's end against where they are due"
    ledger.add(Figure(f"{key}.state", state, "calculated", rule, "W53; trip plan", inputs))
    if finding:
        ledger.find(finding)


def _counting(rig: Rig, vehicle: str) -> str:
    """The vehicle whose odometer counts: a trailer has none."""
    return vehicle if rig.vehicles[vehicle].kind in OWN_ODOMETER else next(iter(rig.vehicles))


def _judged(
    name: str, due: tuple[Quantity, Quantity], run: MeterRun, wording: Wording
) -> tuple[str, Finding | None]:
    first, last = due
    key = f"{wheel_nuts_key(name)}.state"
    if run.reading is not None and is_at_least(run.reading, last):
        text = f"The {name}: their nuts were to be torqued again by {wording.distance(last, 'down')}."
        return "overdue", Finding("attention", _ORDER, key, text, _HELPS)
    if run.at_end is None:
        text = f"The {name}: whether their nuts are due is not known: the odometer is not."
        return "not known", Finding("missing", _ORDER, key, text, "Enter it under readings:.")
    if not is_at_least(run.at_end, first):
        return "not on this trip", None
    between = f"from {wording.distance(first, 'down')} to {wording.distance(last, 'down')}"
    day = run.day_of(first)
    when = f"day {day.number}, {between}" if day else between
    text = f"The {name}: torque their nuts again on {when}."
    state = f"due on day {day.number}" if day else "due on the trip"
    return state, Finding("attention", _ORDER, key, text, _HELPS)
