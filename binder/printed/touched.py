"""Entries of the owner's files that were changed, and one change at a time taken back again."""

from collections.abc import Iterable, Iterator, Mapping
from copy import deepcopy
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import NamedTuple, TypeVar

from pydantic import BaseModel, ValidationError

from binder.cards.codes import short_code
from binder.models.load import OwnCardFile, Profile, without_blanks
from binder.models.located_yaml import Located, Plain, located_yaml
from binder.models.log_entries import Entry
from binder.models.procedures import OwnCard
from binder.models.rig import Rig
from binder.models.trip import Trip
from binder.printed.record import LogThen
from binder.problems import Path as Path_

_Model = TypeVar("_Model", bound=BaseModel)

RIG, TRIP, LOG = "rig.yaml", "trip plan", "log"
_MOST = 4
"""Changes that are tried each by itself; of more, those that stand together are tried together."""


class Touched(NamedTuple):
    """An entry that reads otherwise than when a part was printed, or all that changed below it.

    Of the log it is all its entries, ``since`` the day of the first that is new.
    """

    file: str
    path: Path_
    line: int | None
    since: date | None


def files_of(profile: Profile) -> dict[str, str]:
    """Texts of the owner's files, of another trip in the place of this one; nothing of ``private.yaml``."""
    return {name: place.source for name, place in _places(profile).items()}


def _places(profile: Profile) -> dict[str, Located]:
    trip = {TRIP: profile.trip_places} if profile.trip_places else {}
    own = {f"cards/{Path(one.places.file).name}": one.places for one in profile.own_cards}
    return {RIG: profile.rig_places, **trip, **own}


def with_entries(profile: Profile, files: Mapping[str, Plain]) -> Profile | None:
    """The same folder with other entries in its files; None where they cannot be read."""
    places = _places(profile)

    def of(name: str, model: type[_Model]) -> tuple[_Model | None, Located]:
        located = replace(places.get(name, Located(name, "")), data=files.get(name), problems=[])
        return model.model_validate(without_blanks(located.data, model)) if located.data else None, located

    try:
        rig, rig_places = of(RIG, Rig)
        trip, trip_places = of(TRIP, Trip)
        own = [of(name, OwnCard) for name in files if name.startswith("cards/") and files[name]]
    except ValidationError:
        return None
    if rig is None:
        return None
    plain = replace(profile, private=None, trip=trip, trip_places=trip_places if trip else None)
    cards = tuple(OwnCardFile(words, place) for words, place in own if words)
    return replace(plain, rig=rig, rig_places=rig_places, own_cards=cards)


def log_then(profile: Profile) -> LogThen | None:
    """What is kept of a log to tell whether it is another; nothing where there is none."""
    taken = [one.taken for one in profile.log if one.taken]
    return LogThen(until=max(taken), code=_log_code(profile.log)) if taken else None


def _log_code(log: Iterable[Entry]) -> str:
    """An entry is never altered: its id says all of it, and how many beside it are not read."""
    told = [f"{one.id} {one.unread}" if one.unread else one.id for one in log]
    return short_code("\n".join(told)) if told else ""


def log_before(profile: Profile, then: LogThen | None) -> tuple[Entry, ...]:
    """The log without what it took since; what was corrected or withdrawn since is not brought back."""
    return tuple(one for one in profile.log if then and (one.taken is None or one.taken <= then.until))


def is_log(log: Iterable[Entry], then: LogThen | None) -> bool:
    """Tell whether a log is the one that was."""
    return _log_code(log) == (then.code if then else "")


def log_touched(profile: Profile, then: LogThen | None) -> list[Touched]:
    """The log where it is another one than it was, with the day of its first new entry."""
    if is_log(profile.log, then):
        return []
    old = {one.id for one in log_before(profile, then)}
    days = [one.at.date() for one in profile.log if one.id not in old and not one.is_clock_unsure]
    return [Touched(LOG, (), None, min(days, default=None))]


def entries_now(profile: Profile) -> dict[str, Plain]:
    """What the owner's files say."""
    return {name: place.data for name, place in _places(profile).items()}


def entries_then(files: Mapping[str, str], profile: Profile) -> dict[str, Plain]:
    """What some texts say, of which those that are still the same were read already."""
    places = _places(profile)
    return {
        name: places[name].data
        if name in places and places[name].source == text
        else located_yaml(name, text).data
        for name, text in files.items()
    }


def touched(was: Mapping[str, Plain], profile: Profile) -> list[Touched]:
    """List what was changed since: an entry each, or the nearest above several where there are too many."""
    now = entries_now(profile)
    changed = [
        (name, path) for name in sorted({*was, *now}) for path in _changed(was.get(name), now.get(name))
    ]
    while len(changed) > _MOST:
        deepest = max(len(path) for _, path in changed)
        if deepest <= 1:
            break
        changed = list(dict.fromkeys((name, path[: deepest - 1]) for name, path in changed))
    return [
        Touched(name, path, _line(name, path, profile), _since(now.get(name), path)) for name, path in changed
    ]


def _changed(was: Plain, now: Plain, path: Path_ = ()) -> Iterator[Path_]:
    if isinstance(was, dict) and isinstance(now, dict):
        for key in dict.fromkeys((*was, *now)):
            if (key in was) != (key in now):
                yield (*path, key)
            else:
                yield from _changed(was[key], now[key], (*path, key))
    elif isinstance(was, list) and isinstance(now, list) and len(was) == len(now):
        for at, pair in enumerate(zip(was, now, strict=True)):
            yield from _changed(*pair, (*path, at))
    elif was != now:
        yield path


def taken_back(was: Mapping[str, Plain], now: Mapping[str, Plain], one: Touched) -> dict[str, Plain]:
    """The files as they are, but for one change."""
    files = dict(deepcopy(dict(now)))
    if not one.path:
        files[one.file] = was.get(one.file)
        return files
    *above, last = one.path
    old, new = _at(was.get(one.file), above), _at(files.get(one.file), above)
    is_there = (isinstance(old, dict) and last in old) or isinstance(old, list)
    if isinstance(new, dict) and not is_there:
        new.pop(str(last), None)
    elif isinstance(new, dict | list):
        new[last] = old[last]  # type: ignore[index] # Both are of one form where they are compared.
    return files


def _at(data: Plain, path: list[str | int]) -> Plain:
    for part in path:
        data = data[part]  # type: ignore[index] # It was walked to this path.
    return data


def _line(name: str, path: Path_, profile: Profile) -> int | None:
    """The line of an entry, or of the nearest above it that is still there."""
    place = _places(profile).get(name)
    return place.problem(path, "", at_key=True).position.line if place and path else None  # type: ignore[union-attr] # Every problem of an entry has a place.


def _since(now: Plain, path: Path_) -> date | None:
    """The day that an owner gave for a thing: the one nearest to the entry."""
    found = None
    here: Plain = now
    for part in (*path, None):
        if isinstance(here, dict):
            said = here.get("since") or here.get("date")
            found = _day(said) or found
        if part is None or not isinstance(here, dict | list):
            break
        try:
            here = here[part]  # type: ignore[index] # A part that is not there ends the walk.
        except (KeyError, IndexError, TypeError):
            break
    return found


def _day(text: Plain) -> date | None:
    try:
        return date.fromisoformat(text) if isinstance(text, str) else None
    except ValueError:
        return None
