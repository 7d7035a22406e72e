"""What must be aboard and in date: extinguishers, exits, alarms, chocks, warning devices, spares, the log."""

from collections.abc import Iterator
from datetime import date

from binder.assessment.figures import Figure, Finding, Input, Ledger
from binder.assessment.route.days import last_day
from binder.models.load import Profile
from binder.models.rig import Rig
from binder.models.spares import Carried
from binder.models.vehicles import Vehicle

_ALARMS = (
    ("extinguishers", "fire extinguisher"),
    ("exits", "way out, a door and a window that opens,"),
    ("smoke_alarm", "smoke alarm"),
    ("carbon_monoxide_alarm", "carbon monoxide alarm"),
)
_PROPANE_ALARM = ("propane_alarm", "propane alarm")
_TWO_EXITS = 2  # practice: the door may be what burns.


def is_lived_in(vehicle: Vehicle) -> bool:
    """Tell whether people sleep in a vehicle, by what it is.

    Why: a pickup may carry fuel for a stove and have its doors noted as ways out, and needs no smoke
    alarm; a cargo trailer without water, beds or burners neither.
    """
    if vehicle.kind != "trailer":
        return vehicle.kind in {"motorhome", "camper"}
    held, has = {tank.holds for tank in vehicle.tanks.values()}, vehicle.equipment
    carried = (has.burners, has.refrigerator, has.exits, has.smoke_alarm, has.carbon_monoxide_alarm)
    return not {"fresh water", "propane"}.isdisjoint(held) or any(item is not None for item in carried)


def assess_equipment(profile: Profile, on: date, ledger: Ledger) -> None:
    """Find equipment that is not noted, spares out of date before the trip ends, and a missing log."""
    for name, vehicle in profile.rig.vehicles.items():
        if is_lived_in(vehicle):
            for finding in _alarm_findings(name, vehicle):
                ledger.find(finding)
    for finding in _roadside_findings(profile):
        ledger.find(finding)
    _assess_spares(profile, on, ledger)
    if not profile.rig.log:
        text = "No address of the log is given: the cards carry no codes."
        ledger.find(Finding("missing", 10, "rig.log", text, "Enter log: with a web or mail address."))


def _alarm_findings(name: str, vehicle: Vehicle) -> Iterator[Finding]:
    has_propane = any(tank.holds == "propane" for tank in vehicle.tanks.values())
    for field, words in (*_ALARMS, *([_PROPANE_ALARM] if has_propane else [])):
        key, places = f"equipment.{name}.{field}", getattr(vehicle.equipment, field)
        if places is None:
            yield Finding(
                "missing", 10, key, f"The {name}: no {words} is noted.", "Fit one, or note where it is."
            )
        elif not places:
            text = f"The {name}: the place of the {words} is not noted."
            yield Finding("missing", 10, key, text, "Note where it is.")
        elif field == "exits" and len(places) < _TWO_EXITS:
            text = f"The {name}: only one way out is noted."
            yield Finding("missing", 10, key, text, "Find the second, open it, and note it.")


def _roadside_findings(profile: Profile) -> Iterator[Finding]:
    everything = [vehicle.equipment for vehicle in profile.rig.vehicles.values()]
    chocks = [item.chocks for item in everything if item.chocks is not None]
    if not sum(chocks):
        yield Finding("missing", 10, "equipment.chocks", "No wheel chocks are noted.", "Count and note them.")
    devices = [item.warning_devices for item in everything if item.warning_devices is not None]
    if not devices:
        text = "No warning devices are noted; three are set out at a breakdown."
        yield Finding("missing", 10, "equipment.warning_devices", text, "Carry three, and note where.")
    elif not any(devices):
        text = "The place of the warning devices is not noted."
        yield Finding("missing", 10, "equipment.warning_devices", text, "Note where they are.")


def _listed(rig: Rig) -> Iterator[tuple[str, int, Carried]]:
    for listed, entries in (("spares", rig.spares), ("tools", rig.tools)):
        for number, entry in enumerate(entries, start=1):
            yield listed, number, entry


def _assess_spares(profile: Profile, on: date, ledger: Ledger) -> None:
    end, ends = last_day(profile, on)
    for listed, number, spare in _listed(profile.rig):
        if spare.expires is None:
            continue
        key = f"{listed}.{spare.what.replace(' ', '_').replace('.', '')}.expires"
        if key in ledger.figures:
            key = f"{key}_{number}"
        days = (spare.expires - end).days
        slack = f"{days} days after {ends}" if days >= 0 else f"{-days} days before {ends}"
        inputs = (Input(spare.what, spare.expires.isoformat(), f"rig.yaml {listed}[{number}].expires"),)
        rule = f"as printed on it, against {ends} ({end.isoformat()})"
        ledger.add(Figure(key, spare.expires, "stated by a maker", rule, "profile", inputs, slack=slack))
        if days < 0:
            verb = "has expired" if spare.expires < on else "expires"
            text = f"{spare.what} {verb} on {spare.expires.isoformat()}, before {ends}."
            ledger.find(Finding("attention", 10, key, text, "Replace it before leaving."))
