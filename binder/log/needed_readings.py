"""Which readings of tires a printing needs: of long ago the last, of a day full of them the two at its ends.

A day is read whole where what lies between could tell something of its own: a clock that is off, an entry
that was corrected, air added or a repair made on it, or on the day before or after: zones differ.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping
from datetime import date, datetime
from typing import NamedTuple

from binder.models.log_entries import LOOKED_BACK, Entry, plausible

MANY = 4
"""Readings of one tire by one instrument that a day may have before some are left unread."""

_ZONES_APART = 2
"""Days that the dates of one moment can be apart."""


class Alike(NamedTuple):
    """Readings of one day, tire, state and instrument, which say the same of it: pressure, tread or both.

    ``first`` and ``last`` are their ids, ``begins`` and ``ends`` their moments in seconds; ``earliest`` and
    ``latest`` are when the log took the one and the other.
    """

    name: str
    day: str
    position: str
    vehicle: str | None
    has_pressure: int
    has_tread: int
    readings: int
    first: str
    last: str
    begins: float
    ends: float
    earliest: str
    latest: str

    @property
    def sort(self) -> tuple[object, ...]:
        """What the newest of counts, whatever it was read with."""
        return self.position, self.vehicle, self.has_pressure, self.has_tread


class Needed(NamedTuple):
    """Names of those that are read whole, and those of which the first and the last are."""

    whole: list[str]
    ends: list[Alike]

    @property
    def ids(self) -> list[str]:
        """Of each first and last."""
        return sorted({own_id for one in self.ends for own_id in (one.first, one.last)})

    def with_unread(self, entries: Iterable[Entry]) -> Iterator[Entry]:
        """Tell of each first reading how many lie between it and the last, which are not read."""
        between: Mapping[str, int] = {one.first: one.readings - 2 for one in self.ends}
        yield from (one._replace(unread=between[one.id]) if one.id in between else one for one in entries)


def needed(groups: Collection[Alike], others: Iterable[Entry], corrected: Collection[str]) -> Needed:
    """Choose what to read; ``others`` are all other entries, of ``corrected`` groups one was corrected."""
    quiet = [one for one in groups if one.name not in corrected and _is_sure(one)]
    newest: dict[tuple[object, ...], float] = {}
    for one in quiet:
        newest[one.sort] = max(one.ends, newest.get(one.sort, one.ends))
    since, stirred = _since(quiet), set(_stirred(others))
    passed = {one.name for one in quiet if one.day < since and one.ends < newest[one.sort]}
    ends = [
        one
        for one in quiet
        if one.readings > MANY
        and one.name not in passed
        and stirred.isdisjoint({(one.day, one.position), (one.day, None)})
    ]
    not_whole = {*passed, *(one.name for one in ends)}
    return Needed([one.name for one in groups if one.name not in not_whole], ends)


def _is_sure(group: Alike) -> bool:
    """Whether the clock of none of them is off."""
    _, latest = plausible(datetime.fromisoformat(group.earliest))
    earliest, _ = plausible(datetime.fromisoformat(group.latest))
    return earliest.timestamp() <= group.begins and group.ends <= latest.timestamp()


def _since(groups: Iterable[Alike]) -> str:
    """Before which day only the newest of each sort is looked at."""
    newest = max((one.day for one in groups if one.has_pressure), default=None)
    if newest is None:
        return ""
    back = LOOKED_BACK.days + _ZONES_APART
    return _day(date.fromisoformat(newest).toordinal() - back)


def _stirred(others: Iterable[Entry]) -> Iterator[tuple[str, object]]:
    """Days, and of which tire, on which a reading may mean something else than the one before it."""
    for one in others:
        if one.kind in {"air", "repair"}:
            position = one.written.get("position") if one.kind == "air" else None
            for apart in range(-_ZONES_APART, _ZONES_APART + 1):
                yield _day(one.at.toordinal() + apart), position


def _day(ordinal: int) -> str:
    return date.fromordinal(min(max(ordinal, 1), date.max.toordinal())).isoformat()
