"""Which entries count: an entry and all its corrections are one matter, of which the last made counts."""

from collections.abc import Iterable

from binder.log.identity import made_at
from binder.models.log_entries import Entry


def in_force(entries: Iterable[Entry]) -> list[Entry]:
    """Entries that count now, by their time; what was corrected or withdrawn is left out.

    A repair names the fault as it counts now. Of two corrections of one entry the later made counts, so that
    it is all one which phone was read first.
    """
    every = list(entries)
    corrects = {one.id: one.corrects for one in every if one.corrects}
    if not corrects:
        return _by_time(one for one in every if one.kind != "withdrawal")
    corrected = set(corrects.values())
    last = {one.id: one for one in every if one.id not in corrected and one.id not in corrects}
    for one in every:
        if one.id in corrected or one.id not in corrects:
            continue
        first = _first_of(one.id, corrects)
        if first not in last or _made(one) > _made(last[first]):
            last[first] = one
    return _by_time(
        _of_now(one, corrects, last) if one.kind == "repair" else one
        for one in last.values()
        if one.kind != "withdrawal"
    )


def _by_time(entries: Iterable[Entry]) -> list[Entry]:
    return sorted(entries, key=lambda one: (one.at.timestamp(), one.id))


def _of_now(entry: Entry, corrects: dict[str, str], last: dict[str, Entry]) -> Entry:
    """Name the fault of a repair as it counts now."""
    fault = entry.written.get("fault")
    now = last.get(_first_of(fault, corrects)) if isinstance(fault, str) else None
    return entry._replace(written={**entry.written, "fault": now.id}) if now and now.id != fault else entry


def rings(entries: Iterable[Entry]) -> set[str]:
    """Ids of entries that correct one another in a ring, which leaves none in force."""
    corrects = {one.id: one.corrects for one in entries if one.corrects}
    found: set[str] = set()
    seen: set[str] = set()
    for start in corrects:
        way: dict[str, int] = {}
        here = start
        while here in corrects and here not in way and here not in seen:
            way[here] = len(way)
            here = corrects[here]
        if here in way:
            found.update(one for one, place in way.items() if place >= way[here])
        seen.update(way)
    return found


def _first_of(own_id: str, corrects: dict[str, str]) -> str:
    while own_id in corrects:
        own_id = corrects[own_id]
    return own_id


def _made(entry: Entry) -> tuple[int, str]:
    return made_at(entry.id) or round(entry.at.timestamp() * 1000), entry.id
