"""Readings of tires in the log: of which tire each is, at what temperature and elevation, on which level."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date, datetime, timedelta
from statistics import median
from typing import Literal, NamedTuple, TypeAlias, get_args

from binder.assessment.tires.axle import positions_of, tire_axles
from binder.calculations.tires.gas_law import TireState
from binder.calculations.tires.leaks import REFERENCE, ColdReading
from binder.models.load import Profile
from binder.models.log_entries import LOOKED_BACK, Entry, of_unsure_clock
from binder.models.rig import Rig
from binder.models.tires import MountedTire
from binder.quantities import Quantity, number_in

Subject: TypeAlias = tuple[str, str, str]
"""A tire: its vehicle, axle and position."""

Why: TypeAlias = Literal["cold", "clock", "odd", "alone", "between"]
"""Why a reading is not used."""

_MOST = 40
"""Readings of a tire that are taken, or days of them: more say little more, and cost by their square."""

_ONE_WALK = timedelta(hours=6)
"""A walk around the rig: what was written of one tire holds of the others read on it."""

_ODD = 0.5
"""A reading that is off the middle of its tire's by over so much of it is a slip of the pen, or a flat."""


class Reading(NamedTuple):
    """A cold reading, and what it would be at the reference.

    ``is_assumed``: its temperature or elevation was written of no tire of the walk.
    """

    subject: Subject
    moment: datetime
    pressure: Quantity
    ambient: Quantity | None
    elevation: Quantity | None
    by: str
    cold: ColdReading
    is_after_air: bool = False
    is_assumed: bool = False


class TireReadings(NamedTuple):
    """Readings of one tire by their time, and how many are left out for which reason."""

    used: tuple[Reading, ...]
    left_out: Mapping[Why, int]


class _Placed(NamedTuple):
    """What one entry says of a tire's pressure, not read yet."""

    subject: Subject
    entry: Entry
    day: date
    field: str
    level: str


_FIELDS = {"tire": ("pressure",), "air": ("before", "after")}


def tires_of(rig: Rig) -> dict[tuple[str | None, str], Subject]:
    """Every tire of a rig by vehicle and position, and by its position alone where only one has it."""
    places = [(axle, position) for axle in tire_axles(rig, ()) for position in positions_of(axle)]
    names = Counter(position.name for _, position in places)
    found: dict[tuple[str | None, str], Subject] = {}
    for axle, position in places:
        subject = (*axle.subject, position.name)
        found[axle.vehicle_name, position.name] = subject
        if names[position.name] == 1:
            found[None, position.name] = subject
    return found


def subject_of(entry: Entry, tires: Mapping[tuple[str | None, str], Subject]) -> Subject | None:
    """The tire an entry is of; None where this rig has no such one any more."""
    vehicle, position = entry.written.get("vehicle"), entry.written.get("position")
    if isinstance(position, str) and (vehicle is None or isinstance(vehicle, str)):
        return tires.get((vehicle, position))
    return None


def mounted(rig: Rig, subject: Subject) -> MountedTire:
    """A tire as the register has it."""
    vehicle, axle, position = subject
    tires = rig.tires.get(rig.vehicles[vehicle].axles[axle].tires or "")
    return (tires.mounted.get(position) if tires else None) or MountedTire()


def readings_of(profile: Profile) -> dict[Subject, TireReadings]:
    """Cold readings of each tire that was read, front to rear, which can be set against each other."""
    left_out: dict[Subject, Counter[Why]] = defaultdict(Counter)
    chosen = _chosen(_recent(profile, left_out), left_out)
    used: dict[Subject, list[Reading]] = {}
    for one in _with_states([_read(one) for one in chosen]):
        used.setdefault(one.subject, []).append(one)
    mates = _assumed_on(one for every in used.values() for one in every)
    told = {}
    for subject in dict.fromkeys(tires_of(profile.rig).values()):
        if subject not in left_out:
            continue
        out = left_out[subject]
        beside = [
            one
            for one in used.get(subject, [])
            if not one.is_assumed or len(mates[subject[0], one.moment.date()]) > 1
        ]
        out["alone"] += len(used.get(subject, [])) - len(beside)
        kept = _without_odd(beside)
        out["odd"] += len(beside) - len(kept)
        told[subject] = TireReadings(tuple(kept), {why: out[why] for why in get_args(Why) if out[why]})
    return told


def _placed(subject: Subject, entries: Iterable[Entry], kept: set[date] | None) -> Iterator[_Placed]:
    """Readings of a tire that can be used, of some days; air added or let out begins a new level."""
    added = 0
    for entry in entries:
        fields, day = _FIELDS[entry.kind], entry.at.date()
        if (kept is None or day in kept) and entry.written.get("state") == "cold":
            for field in fields:
                level = f"{entry.written.get('by', '')} {added + (field == 'after')}"
                yield _Placed(subject, entry, day, field, level)
        added += "after" in fields


def _count(entries: Iterable[Entry]) -> int:
    """How many readings some entries have, those that were not read with them."""
    return sum(len(_FIELDS[one.kind]) + one.unread for one in entries)


def _recent(profile: Profile, left_out: dict[Subject, Counter[Why]]) -> dict[Subject, list[Entry]]:
    """Entries of the newest months of each tire as it is now, those of a sure clock, by their time."""
    tires, began = tires_of(profile.rig), _began(profile)
    entries = [one for one in profile.logged("air", "tire") if one.kind == "air" or "pressure" in one.written]
    unsure = {one.id: one for one in of_unsure_clock(entries)}
    newest = next((one.at for one in reversed(entries) if one.id not in unsure), None)
    if newest is None:
        return {}
    first = newest.toordinal() - LOOKED_BACK.days
    for entry in unsure.values():
        if subject := subject_of(entry, tires):
            left_out[subject]["clock"] += len(_FIELDS[entry.kind])
    by_name: dict[object, list[Entry]] = {}
    for entry in entries:
        # Whole days: of one that is full of readings only the first and the last are read.
        if entry.at.toordinal() >= first:
            written = entry.written
            by_name.setdefault((written.get("vehicle"), written.get("position")), []).append(entry)
    found: dict[Subject, list[Entry]] = {}
    for named in by_name.values():
        if subject := subject_of(named[0], tires):
            since = began.get(subject)
            of_now = [one for one in named if one.id not in unsure and (not since or _is_of_now(one, since))]
            found.setdefault(subject, []).extend(of_now)
    return {subject: sorted(own, key=_in_order) for subject, own in found.items() if own}


def _in_order(entry: Entry) -> tuple[float, bool, str]:
    """Of one minute the reading was before the air."""
    return entry.at.timestamp(), entry.kind == "air", entry.id


def _is_of_now(entry: Entry, began: datetime | date | None) -> bool:
    """Whether an entry is of the tire as it is now: neither changed since, nor repaired."""
    if began is None:
        return True
    return entry.at > began if isinstance(began, datetime) else entry.at.date() >= began


def _began(profile: Profile) -> dict[Subject, datetime | date]:
    """Since when each tire is as it is: when it or its wheels were mounted, or a fault of it was repaired."""
    tires = tires_of(profile.rig)
    found: dict[Subject, datetime | date | None] = {}
    for subject in tires.values():
        vehicle, axle, _ = subject
        wheels = profile.rig.wheels.get(profile.rig.vehicles[vehicle].axles[axle].wheels or "")
        days = [mounted(profile.rig, subject).mounted_on, wheels.since if wheels else None]
        found[subject] = max((day for day in days if day), default=None)
    faults = {one.id: one for one in profile.logged("fault") if "position" in one.written}
    for entry in profile.logged("repair"):
        fault = faults.get(str(entry.written.get("fault")))
        tire = subject_of(fault, tires) if fault else None
        if tire and not entry.is_clock_unsure and _is_of_now(entry, found[tire]):
            found[tire] = entry.at
    return {subject: began for subject, began in found.items() if began}


def _chosen(
    of_tires: Mapping[Subject, Sequence[Entry]], left_out: dict[Subject, Counter[Why]]
) -> list[_Placed]:
    """All, or where a tire has many the first of each day, of so many days of its vehicle, the last too."""
    days: dict[str, set[date]] = {}
    counts: dict[Subject, int] = {}
    for subject, entries in of_tires.items():
        cold = [one for one in entries if one.written.get("state") == "cold"]
        counts[subject] = _count(cold)
        left_out[subject]["cold"] += _count(entries) - counts[subject]
        days.setdefault(subject[0], set()).update(one.at.date() for one in cold)
    many = {subject[0] for subject, count in counts.items() if count > _MOST}
    kept = {vehicle: _spread(sorted(days[vehicle])) for vehicle in many}
    chosen: list[_Placed] = []
    for subject, entries in of_tires.items():
        readings = list(_placed(subject, entries, kept.get(subject[0])))
        if subject[0] in kept:
            first = {(one.day, one.field, one.level): one for one in reversed(readings)}
            readings = list(first.values())
        left_out[subject]["between"] += counts[subject] - len(readings)
        chosen.extend(readings)
    return sorted(chosen, key=lambda one: _in_order(one.entry))


def _spread(days: list[date]) -> set[date]:
    last = len(days) - 1
    if last < _MOST:
        return set(days)
    return {days[round(step * last / (_MOST - 1))] for step in range(_MOST)}


def _read(one: _Placed) -> Reading:
    said = one.entry.said
    ambient, elevation = (getattr(said, name) for name in ("ambient", "elevation"))
    by = str(one.entry.written.get("by", ""))
    pressure = getattr(said, one.field)
    is_after = one.field == "after"
    cold = ColdReading(one.entry.at, pressure, _state(ambient, elevation), one.level)
    return Reading(one.subject, one.entry.at, pressure, ambient, elevation, by, cold, is_after)


def _state(ambient: Quantity | None, elevation: Quantity | None) -> TireState:
    """What a tire is taken to have been read at."""
    temperature = REFERENCE.temperature if ambient is None else ambient
    return TireState(temperature, REFERENCE.elevation if elevation is None else elevation)


def _with_states(readings: list[Reading]) -> Iterator[Reading]:
    """Fill in what was written of another tire of the same walk."""
    by_day: dict[date, list[Reading]] = {}
    for one in readings:
        by_day.setdefault(one.moment.date(), []).append(one)
    for one in readings:
        beside = [(abs(other.moment - one.moment), other) for other in by_day[one.moment.date()]]
        walk = [other for apart, other in sorted(beside, key=lambda pair: pair[0]) if apart < _ONE_WALK]
        ambient = next((other.ambient for other in walk if other.ambient is not None), None)
        elevation = next((other.elevation for other in walk if other.elevation is not None), None)
        is_assumed = ambient is None or elevation is None
        cold = replace(one.cold, state=_state(ambient, elevation))
        yield one._replace(ambient=ambient, elevation=elevation, is_assumed=is_assumed, cold=cold)


def _assumed_on(readings: Iterable[Reading]) -> dict[tuple[str, date], set[str]]:
    """Tires of a vehicle read on each day at an assumed state."""
    found: dict[tuple[str, date], set[str]] = {}
    for one in readings:
        if one.is_assumed:
            found.setdefault((one.subject[0], one.moment.date()), set()).add(one.subject[2])
    return found


def _without_odd(readings: list[Reading]) -> list[Reading]:
    if not readings:
        return []
    psi = [number_in(one.cold.at_reference, "psi") for one in readings]
    middle = median(psi)
    return [one for one, value in zip(readings, psi, strict=True) if abs(value - middle) <= _ODD * middle]
