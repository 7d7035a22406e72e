"""Words for equipment, as tables of rules use them: each tells whether a rig has it."""

from collections.abc import Iterator, Mapping
from datetime import date
from types import MappingProxyType

from binder.assessment.body import kinds
from binder.assessment.conditions import (
    AIR_BRAKES,
    BREAKAWAY,
    DISTRIBUTION,
    DUALS,
    SUPPLEMENTAL_BRAKE,
    Condition,
    always,
    coupled_by,
    driven,
    equipped,
    holds,
    is_coupled,
)
from binder.assessment.ledger import Fact, Figure, Finding, Input, Ledger, Phrase
from binder.assessment.route.days import last_day
from binder.models.load import Profile
from binder.models.rig import Carried, Rig
from binder.models.vehicles import Vehicle

_ALARMS = ("extinguishers", "exits", "smoke_alarm", "carbon_monoxide_alarm")
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
            ledger.find(*_alarm_findings(name, vehicle))
    ledger.find(*_roadside_findings(profile))
    _assess_spares(profile, on, ledger)
    if not profile.rig.log:
        ledger.find(Finding(kinds.NO_LOG, kinds.NO_LOG.of()))


def _alarm_findings(name: str, vehicle: Vehicle) -> Iterator[Finding]:
    has_propane = any(tank.holds == "propane" for tank in vehicle.tanks.values())
    for entry in (*_ALARMS, *(["propane_alarm"] if has_propane else [])):
        places, thing = getattr(vehicle.equipment, entry), {"thing": kinds.THINGS[entry]}
        written = entry.replace("_", " ")
        if places is None:
            case = "exits" if entry == "exits" else ""
            yield Finding(kinds.NOT_NOTED, kinds.NOT_NOTED.of(name, written), thing, case)
        elif places is False:
            yield Finding(kinds.NONE_FITTED, kinds.NONE_FITTED.of(name, written), thing)
        elif not places:
            yield Finding(kinds.NO_PLACE, kinds.NO_PLACE.of(name, written), thing)
        elif entry == "exits" and len(places) < _TWO_EXITS:
            yield Finding(kinds.ONE_EXIT, kinds.ONE_EXIT.of(name, written))


def _roadside_findings(profile: Profile) -> Iterator[Finding]:
    everything = [vehicle.equipment for vehicle in profile.rig.vehicles.values()]
    first: dict[str, Fact] = {"vehicle": driven(profile.rig)[0]}
    if not sum(item.chocks for item in everything if item.chocks is not None):
        yield Finding(kinds.NO_CHOCKS, kinds.NO_CHOCKS.of(), first)
    devices = [item.warning_devices for item in everything if item.warning_devices is not None]
    if not any(devices):
        yield Finding(kinds.NO_DEVICES, kinds.NO_DEVICES.of(), first, "unplaced" if devices else "")


def _listed(rig: Rig) -> Iterator[tuple[str, int, Carried]]:
    for listed, entries in (("spares", rig.spares), ("tools", rig.tools)):
        for number, entry in enumerate(entries, start=1):
            yield listed, number, entry


def _assess_spares(profile: Profile, on: date, ledger: Ledger) -> None:
    end, ends = last_day(profile, on)
    entered = set[tuple[str, str]]()
    for listed, number, spare in _listed(profile.rig):
        if spare.is_blank("expires"):
            ledger.find(Finding(kinds.NO_EXPIRY, kinds.NO_EXPIRY.of(listed, number), {"what": spare.what}))
        if spare.expires is None:
            continue
        # Names that differ in blanks and points alone would make one key.
        name = (listed, spare.what.replace(" ", "_").replace(".", ""))
        key = kinds.EXPIRES_TOO.of(*name, number) if name in entered else kinds.EXPIRES.of(*name)
        entered.add(name)
        days = (spare.expires - end).days
        until: dict[str, Fact] = {"end": end, "ends": ends}
        slack = Phrase(kinds.DAYS_AFTER if days >= 0 else kinds.DAYS_BEFORE, {"days": abs(days)})
        facts: dict[str, Fact] = {"what": spare.what, "listed": listed, "number": number}
        inputs = (Input(kinds.PRINTED_DATE, spare.expires, facts=facts),)
        ledger.enter(Figure(key, spare.expires, inputs, facts=until, slack=slack))
        if days < 0:
            expired: dict[str, Fact] = {"what": spare.what, "expires": spare.expires, "ends": ends}
            case = "already" if spare.expires < on else ""
            ledger.find(Finding(kinds.OUT_OF_DATE, key, expired, case))


_HEAVY = ("truck", "european commercial")


def _engine(rig: Rig) -> bool:
    return driven(rig)[1].kind in {"motorhome", "pickup", "car"}


def _lived_in(rig: Rig) -> bool:
    return any(is_lived_in(vehicle) for vehicle in rig.vehicles.values())


def _trailer(rig: Rig) -> bool:
    return any(vehicle.kind == "trailer" for vehicle in rig.vehicles.values())


def _light_tires(rig: Rig) -> bool:
    return any(tires.family is not None and tires.family not in _HEAVY for tires in rig.tires.values())


def _brake_controller(rig: Rig) -> bool:
    return any(bool(vehicle.equipment.brake_controller) for vehicle in rig.vehicles.values())


def _fluid(name: str) -> Condition:
    return lambda rig: any(name in vehicle.fluids for vehicle in rig.vehicles.values())


WORDS: Mapping[str, Condition] = MappingProxyType(
    {
        "always": always,
        "engine": _engine,
        "diesel": holds("diesel"),
        "gasoline": holds("gasoline"),
        "exhaust fluid": holds("exhaust fluid"),
        "propane": holds("propane"),
        "fresh water": holds("fresh water"),
        "waste water": holds("gray water", "black water"),
        "transmission oil": _fluid("transmission oil"),
        "hydraulic oil": _fluid("hydraulic oil"),
        "brake fluid": _fluid("brake fluid"),
        "generator oil": _fluid("generator oil"),
        "hydronic fluid": _fluid("hydronic fluid"),
        "air brakes": AIR_BRAKES,
        "duals": DUALS,
        "light tires": _light_tires,
        "wipers": equipped("wipers"),
        "alarms": equipped("smoke_alarm", "carbon_monoxide_alarm", "propane_alarm"),
        "slide": equipped("slide"),
        "leveling jacks": equipped("leveling_jacks"),
        "brake controller": _brake_controller,
        "lived in": _lived_in,
        "coupled": is_coupled,
        "trailer": _trailer,
        "tow bar": coupled_by("tow bar"),
        "ball": coupled_by("ball"),
        "fifth wheel": coupled_by("fifth wheel"),
        "distribution": DISTRIBUTION,
        "supplemental brake": SUPPLEMENTAL_BRAKE,
        "breakaway": BREAKAWAY,
    }
)
"""The whole vocabulary: a rule with another word is a bug."""


def has(rig: Rig, needs: tuple[tuple[str, ...], ...]) -> bool:
    """Tell whether a rig has what a rule needs."""
    return any(all(WORDS[word](rig) for word in group) for group in needs)
