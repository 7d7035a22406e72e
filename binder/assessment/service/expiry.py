"""What carries a date: alarms, extinguishers, the propane system and papers, against the trip's last day."""

import re
from collections.abc import Iterator
from datetime import date

from binder.assessment.ledger import Figure, Finding, FindingKind, Input, Ledger, Phrase
from binder.assessment.route.days import first_day, last_day
from binder.assessment.service import kinds
from binder.assessment.service.items import told_apart
from binder.models.load import Profile
from binder.models.service import Expiry

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
