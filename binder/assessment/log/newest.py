"""The newest pressure and tread of each tire, spares among them, as the log has them."""

from collections.abc import Iterator, Mapping
from datetime import date
from types import MappingProxyType
from typing import NamedTuple, TypeAlias

from binder.assessment.ledger import Fact, Figure, FigureKind, Input, InputKind, Key, Ledger, Phrase
from binder.assessment.log import kinds
from binder.assessment.log.tire_entries import Subject, mounted, subject_of, tires_of
from binder.assessment.tires.axle import is_spare
from binder.models.load import Profile
from binder.models.log_entries import Entry
from binder.quantities import Quantity

Tire: TypeAlias = Subject | tuple[str, str]
"""A mounted tire, or a spare: its tires and its position."""


class _Of(NamedTuple):
    """A value by the kind of entry and its field, and how it is told of a mounted tire and of a spare."""

    fields: Mapping[str, str]
    given: InputKind
    kind: FigureKind
    of_spare: FigureKind


_PRESSURE = _Of(
    MappingProxyType({"tire": "pressure", "air": "after"}),
    kinds.LAST_PRESSURE_INPUT,
    kinds.LAST_PRESSURE,
    kinds.SPARE_LAST_PRESSURE,
)
_TREAD = _Of(
    MappingProxyType({"tire": "tread"}), kinds.LAST_TREAD_INPUT, kinds.LAST_TREAD, kinds.SPARE_LAST_TREAD
)


class Read(NamedTuple):
    """A value of an entry."""

    entry: Entry
    value: Quantity


class TreadRead(NamedTuple):
    """The newest tread of a tire, and the least of those whose clock is off: it counts where it is worse."""

    newest: Read | None
    unsure: Read | None

    def worse_than(self, written: Quantity | None) -> Read | None:
        """What the log has instead of a tread of the profile: less of it, or one where there is none."""
        known = [one for one in self if one]
        if written is None and self.newest is None:
            return None
        least = min(known, key=lambda one: one.value)
        return least if written is None or least.value < written else None


def treads_of(profile: Profile) -> dict[Tire, TreadRead]:
    """What the log says of each tire's tread since it was mounted."""
    found = {}
    for tire, entries in _by_tire(profile, _TREAD.fields).items():
        read = [Read(one, _value(one, _TREAD)) for one in entries]
        sure = next((one for one in read if not one.entry.is_clock_unsure), None)
        unsure = [one for one in read if one.entry.is_clock_unsure]
        found[tire] = TreadRead(sure, min(unsure, key=lambda one: one.value, default=None))
    return found


def assess_newest(profile: Profile, ledger: Ledger) -> None:
    """Enter the newest pressure and tread of each tire."""
    spares = set(_all_spares(profile))
    for what in (_PRESSURE, _TREAD):
        for tire, entries in _by_tire(profile, what.fields).items():
            entry = min(entries, key=lambda one: one.is_clock_unsure)
            key = what.of_spare.of(*tire) if tire in spares else what.kind.of(*tire)
            ledger.enter(_figure(key, entry, what))


def _value(entry: Entry, what: _Of) -> Quantity:
    value: Quantity = getattr(entry.said, what.fields[entry.kind])
    return value


def _figure(key: Key, entry: Entry, what: _Of) -> Figure:
    value, said = _value(entry, what), entry.written
    facts: dict[str, Fact] = {
        "moment": entry.at,
        "day": entry.at.date(),
        "state": _said(kinds.STATE, "state", said.get("state")),
        "by": _said(kinds.BY, "by", said.get("by")),
        "how": tuple(str(said[name]) for name in ("state", "by") if said.get(name)),
        "who": _said(kinds.BY_WHOM, "who", entry.who),
        "clock": kinds.CLOCK_UNSURE if entry.is_clock_unsure else "",
    }
    return Figure(key, value, (Input(what.given, value),), facts=facts)


def _said(form: str, name: str, word: object) -> Phrase | str:
    return Phrase(form, {name: str(word)}) if word else ""


def _by_tire(profile: Profile, fields: Mapping[str, str]) -> dict[Tire, list[Entry]]:
    """Entries that have the field, newest first, of each tire; of those by a sure clock one alone."""
    tires, spares = tires_of(profile.rig), _spares(profile)
    days: dict[Tire, date | None] = {tire: mounted(profile.rig, tire).mounted_on for tire in tires.values()}
    found: dict[Tire, list[Entry]] = {}
    for entry in reversed([one for one in profile.logged(*fields) if fields[one.kind] in one.written]):
        is_sure = not entry.is_clock_unsure
        tire: Tire | None = subject_of(entry, tires) or spares.get(str(entry.written.get("position")))
        day = days.get(tire) if tire else None
        if tire is None or (day is not None and entry.at.date() < day):
            continue
        held = found.setdefault(tire, [])
        if not is_sure or all(one.is_clock_unsure for one in held):
            held.append(entry)
    return found


def _spares(profile: Profile) -> dict[str, tuple[str, str]]:
    """Spares by their position, where one set of tires alone has it."""
    every = list(_all_spares(profile))
    names = [position for _, position in every]
    return {position: (tires, position) for tires, position in every if names.count(position) == 1}


def _all_spares(profile: Profile) -> Iterator[tuple[str, str]]:
    for name, tires in profile.rig.tires.items():
        yield from ((name, position) for position in tires.mounted if is_spare(position))
