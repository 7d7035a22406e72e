"""Days full of readings of one tire, as a monitor's export has them: the first and the last of each are read.

A day is read whole where what lies between could tell something of its own: a clock that is off, an entry
that was corrected, air added or a repair made on it, or on the day before or after: zones differ.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping
from datetime import date, datetime, timedelta
from typing import NamedTuple

from binder.models.log_entries import Entry, plausible

MANY = 4
"""Readings of one tire by one instrument that a day may have before some are left unread."""

_BESIDE = (timedelta(days=-1), timedelta(0), timedelta(days=1))


class Alike(NamedTuple):
    """Readings of one day, tire, state and instrument, which say the same of it: pressure, tread or both.

    ``first`` and ``last`` are their ids, ``begins`` and ``ends`` their moments in seconds; ``earliest`` and
    ``latest`` are when the log took the one and the other.
    """

    name: str
    day: str
    position: str
    readings: int
    first: str
    last: str
    begins: float
    ends: float
    earliest: str
    latest: str


def dense(groups: Iterable[Alike], others: Iterable[Entry], corrected: Collection[str]) -> list[Alike]:
    """Choose those of which two readings are enough; ``others`` are entries of every other kind."""
    many = [one for one in groups if one.readings > MANY and one.name not in corrected and _is_sure(one)]
    stirred = set(_stirred(others)) if many else set()
    return [one for one in many if not {(one.day, one.position), (one.day, None)} & stirred]


def with_unread(entries: Iterable[Entry], groups: Iterable[Alike]) -> Iterator[Entry]:
    """Tell of each first reading how many lie between it and the last, which are not read."""
    between: Mapping[str, int] = {one.first: one.readings - 2 for one in groups}
    yield from (one._replace(unread=between[one.id]) if one.id in between else one for one in entries)


def _is_sure(group: Alike) -> bool:
    """Whether the clock of none of them is off."""
    _, latest = plausible(datetime.fromisoformat(group.earliest))
    earliest, _ = plausible(datetime.fromisoformat(group.latest))
    return earliest.timestamp() <= group.begins and group.ends <= latest.timestamp()


def _stirred(others: Iterable[Entry]) -> Iterator[tuple[str, object]]:
    """Days, and of which tire, on which a reading may mean something else than the one before it."""
    for one in others:
        if one.kind in {"air", "repair"}:
            position = one.written.get("position") if one.kind == "air" else None
            yield from ((day, position) for day in _days_beside(one.at.date()))


def _days_beside(day: date) -> Iterator[str]:
    ordinals = (day.toordinal() + apart.days for apart in _BESIDE)
    yield from (date.fromordinal(at).isoformat() for at in ordinals if 1 <= at <= date.max.toordinal())
