"""What carries a date: alarms, extinguishers, the propane system and papers, against the trip's last day."""

import re
from collections.abc import Iterator
from datetime import date

from binder.assessment.figures import Figure, Finding, Input, Ledger
from binder.assessment.route.days import first_day, last_day
from binder.models.load import Profile
from binder.models.service import Expiry

_ORDER = 10
_APART = 3
"""So many are told one by one; more are told together."""

# What is asked for, and the words by which an entry of the profile is known to be it.
_PAPERS = (
    ("driver's license", r"licen[cs]e"),
    ("insurance", r"insurance"),
    ("registration", r"registration|registered"),
)
_ALARMS = (
    ("extinguishers", "extinguishers", r"extinguisher"),
    ("smoke_alarm", "smoke alarm", r"smoke|\balarms\b"),
    ("carbon_monoxide_alarm", "carbon monoxide alarm", r"carbon monoxide|\balarms\b"),
    ("propane_alarm", "propane alarm", r"(propane|gas) alarm|\balarms\b"),
)
_PROPANE = ("propane system or cylinders", r"(propane|gas) (?!alarm)|cylinder")


def expiries(profile: Profile) -> tuple[tuple[str, Expiry], ...]:
    """Give each entry that carries a date with the start of its keys, the soonest first."""
    keys: dict[str, Expiry] = {}
    for number, entry in enumerate(profile.rig.expires, 1):
        words = re.sub("[^a-z0-9]+", "_", entry.what.lower().replace("'", "")).strip("_")
        key = f"expires.{words}"
        keys[f"{key}_{number}" if key in keys else key] = entry
    return tuple(sorted(keys.items(), key=lambda item: item[1].on or date.max))


def undated(profile: Profile) -> tuple[str, ...]:
    """List what should carry a date on this rig and has none noted."""
    dated = [entry.what.lower() for entry in profile.rig.expires if entry.on is not None]
    served = [entry.what.lower() for entry in profile.rig.service]
    asked = [name for name, pattern in _PAPERS if not _any(pattern, dated)]
    asked += [name for name, pattern in _of_equipment(profile) if not _any(pattern, [*dated, *served])]
    named = [entry.what for entry in profile.rig.expires if entry.on is None]
    asked = [name for name in asked if not _any(dict(_patterns(profile))[name], [n.lower() for n in named])]
    return tuple(dict.fromkeys((*named, *asked)))


def _any(pattern: str, texts: list[str]) -> bool:
    return any(re.search(pattern, text) for text in texts)


def _patterns(profile: Profile) -> Iterator[tuple[str, str]]:
    yield from _PAPERS
    yield from _of_equipment(profile)


def _of_equipment(profile: Profile) -> Iterator[tuple[str, str]]:
    vehicles = profile.rig.vehicles.values()
    for field, name, pattern in _ALARMS:
        if any(getattr(vehicle.equipment, field) is not None for vehicle in vehicles):
            yield name, pattern
    if any(tank.holds == "propane" for vehicle in vehicles for tank in vehicle.tanks.values()):
        yield _PROPANE


def assess_expiry(profile: Profile, on: date, ledger: Ledger) -> None:
    """Enter what carries a date and what is left of it, and find what expires or has none."""
    (start, starts), (end, ends) = first_day(profile, on), last_day(profile, on)
    over, soon = [], []
    for key, entry in expiries(profile):
        if entry.on is None:
            continue
        inputs = (Input(entry.what, entry.on.isoformat(), "rig.yaml expires"),)
        ledger.add(Figure(f"{key}.on", entry.on, "stated by a maker", "as printed on it", "profile", inputs))
        state = "expired" if entry.on < start else "expires on the trip" if entry.on < end else "in date"
        rule = f"expired by {starts}, or before {ends}; its last day is good"
        ledger.add(Figure(f"{key}.state", state, "calculated", rule, "profile; trip plan", inputs))
        if entry.on < start:
            over.append((f"{key}.on", f"{entry.what}, {entry.on.isoformat()}"))
        elif entry.on < end:
            soon.append((f"{key}.on", f"{entry.what}, {entry.on.isoformat()}"))
    ledger_text = (("Expired", over, f"by {starts}"), ("Expires", soon, f"before {ends}"))
    for verb, found, when in ledger_text:
        for finding in _findings(verb, found, when):
            ledger.find(finding)
    _find_undated(profile, ledger)


def _findings(verb: str, found: list[tuple[str, str]], when: str) -> Iterator[Finding]:
    groups = [found] if len(found) > _APART else [[one] for one in found]
    for group in groups:
        text = f"{verb} {when}: {'; '.join(told for _, told in group)}."
        key = group[0][0] if len(group) == 1 else "expires.dates"
        yield Finding("attention", _ORDER, key, text, "Renew or replace before leaving.")


def _find_undated(profile: Profile, ledger: Ledger) -> None:
    names = undated(profile)
    if names:
        text = f"No date is noted for: {', '.join(names)}."
        helps = "Read it off the thing or the paper, and list it under expires:."
        ledger.find(Finding("missing", _ORDER, "expires.dates", text, helps))
