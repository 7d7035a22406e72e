"""Fields as they were handed over, read into an entry of this rig; or what is wrong with them."""

import re
from collections.abc import Iterator, Mapping
from datetime import UTC, datetime, timedelta, tzinfo
from difflib import get_close_matches
from typing import NamedTuple

from pydantic import ValidationError

from binder.log.identity import is_id
from binder.log.rig_names import RigNames, placed
from binder.models.log_entries import KINDS, Entry, Written, forms_of

ENVELOPE = ("id", "at", "kind", "who", "card", "code", "corrects", "taken")
"""Fields that every entry has beside what it says."""

_MOMENT = re.compile(
    r"([0-9]{4}-[0-9]{2}-[0-9]{2})[T ]([0-9]{2}:[0-9]{2}(?::[0-9]{2}(?:\.[0-9]{1,6})?)?) ?"
    r"(Z|[+-][0-9]{2}:?[0-9]{2})?"
)
_CARD, _CODE = re.compile(r"[0-9]{1,2}(\.[0-9]{1,3})?"), re.compile(r"[0-9a-z]{5}")
_LONGEST_WHO = 100


class Reader(NamedTuple):
    """What reading depends on: the rig's names, the moment, and the zone of times written without one."""

    names: RigNames
    now: datetime
    zone: tzinfo | None = None


class WrongField(NamedTuple):
    """What is wrong with a field, and perhaps a hint."""

    field: str
    text: str
    hint: str = ""


def read_entry(fields: Mapping[str, Written], reader: Reader) -> tuple[Entry | None, list[WrongField]]:
    """Read one entry; where it cannot be, all that is wrong with it."""
    wrong: list[WrongField] = []

    def read(field: str) -> str:
        value = fields.get(field, "")
        if not isinstance(value, str):
            wrong.append(WrongField(field, "words are needed here, not a list or a block"))
            return ""
        return value

    kind, who, card, code, corrects, own_id = (
        read(field) for field in ("kind", "who", "card", "code", "corrects", "id")
    )
    wrong += _envelope_faults(fields, (who, card, code, corrects, own_id))
    at, taken = _moment(read("at"), reader, wrong), _taken(read("taken"), reader)
    if kind not in KINDS:
        near = get_close_matches(kind, KINDS, n=1)
        like = f"did you mean '{near[0]}'?" if near else f"the kinds are: {', '.join(KINDS)}"
        wrong.append(WrongField("kind", f"'{kind}' is no kind of entry" if kind else "kind is needed", like))
        return None, wrong
    if kind == "withdrawal" and not corrects and "corrects" not in {one.field for one in wrong}:
        wrong.append(WrongField("corrects", "a withdrawal needs 'corrects': the entry that was a mistake"))
    said, told = _said(kind, fields, reader.names)
    wrong += told
    if wrong or at is None:
        return None, wrong
    return Entry(own_id, at, kind, said, who, card, code, corrects, taken), []


def _envelope_faults(fields: Mapping[str, Written], texts: tuple[str, ...]) -> Iterator[WrongField]:
    who, card, code, corrects, own_id = texts
    if len(who) > _LONGEST_WHO:
        yield WrongField("who", f"a name has {_LONGEST_WHO} characters at most")
    if card and not _CARD.fullmatch(card):
        yield WrongField("card", f"'{_cut(card)}' is no card; write it like '3' or '5.1'")
    if code and not _CODE.fullmatch(code):
        yield WrongField("code", f"'{_cut(code)}' is no code of a card; write it like 'dx2vy'")
    if own_id and not is_id(own_id):
        text = "is no id of an entry (a UUID of version 7 or 8 in small letters)"
        yield WrongField("id", f"'{_cut(own_id)}' {text}")
    if corrects and not re.fullmatch(r"[0-9a-f-]{6,36}", corrects):
        yield WrongField("corrects", f"'{_cut(corrects)}' is no id of an entry")
    if corrects and corrects == own_id:
        yield WrongField("corrects", "an entry cannot correct itself")
    if "corrects" in fields and not corrects:
        yield WrongField("corrects", "corrects says no entry")


def _moment(text: str, reader: Reader, wrong: list[WrongField]) -> datetime | None:
    try:
        return read_moment(text, reader.zone)
    except ValueError as error:
        wrong.append(WrongField("at", str(error)))
        return None


def card_and_code(mark: str) -> tuple[str, str]:
    """Part a mark like ``3.dx2vy``; a card alone has no code."""
    found = re.fullmatch(rf"(.+)\.({_CODE.pattern})", mark)
    return (found[1], found[2]) if found else (mark, "")


def read_moment(text: str, zone: tzinfo | None) -> datetime:
    """Read a time with its zone; one without takes the zone that is given, or is refused."""
    if not text:
        raise ValueError("at is needed: the time, like '2026-06-01 07:10 -06:00'")
    match = _MOMENT.fullmatch(text)
    if match is None:
        raise ValueError(f"'{_cut(text)}' is no time; write it like '2026-06-01 07:10 -06:00'")
    try:
        moment = datetime.fromisoformat(f"{match[1]}T{match[2]}{match[3] or ''}")
        moment.utctimetuple()
    except (ValueError, OverflowError) as error:
        raise ValueError(f"'{text}' is not in the calendar") from error
    if moment.tzinfo is not None:
        return moment
    if zone is None:
        raise ValueError(f"'{text}' has no zone; write it like '{text} -06:00', or give --zone")
    return moment.replace(tzinfo=zone)


def _taken(text: str, reader: Reader) -> datetime:
    """When a log took it, as its export says; never after now, since that clock would be wrong too."""
    try:
        return min(read_moment(text, UTC), reader.now + timedelta(days=1))
    except ValueError:
        return reader.now


def _said(
    kind: str, fields: Mapping[str, Written], names: RigNames
) -> tuple[dict[str, Written], list[WrongField]]:
    given: dict[str, object] = {name: value for name, value in fields.items() if name not in ENVELOPE}
    model = KINDS[kind]
    if "vehicle" in model.model_fields or kind == "weight":
        filled, misplaced = placed(given, names)
        given = filled if "vehicle" in model.model_fields else given
        if misplaced:
            return {}, [WrongField(one.field, one.text) for one in misplaced]
    try:
        model.model_validate(given)
    except ValidationError as error:
        return {}, [_as_wrong(item, kind) for item in error.errors(include_url=False)]
    if model.one_of and not set(model.one_of) & set(given):
        return {}, [WrongField(model.one_of[0], f"one of these is needed: {', '.join(model.one_of)}")]
    # In the order of the kind's fields, whatever order they were written in.
    return {name: given[name] for name in model.model_fields if name in given}, []  # type: ignore[misc] # As above.


def _as_wrong(item: object, kind: str) -> WrongField:
    assert isinstance(item, dict)  # noqa: S101 - pydantic's own dict.
    path, context = tuple(item["loc"]), item.get("ctx", {})
    field = ".".join(str(part + 1) if isinstance(part, int) else part for part in path)
    name, sort = str(path[-1]) if path else kind, item["type"]
    if sort == "extra_forbidden":
        known = list(forms_of(kind)) if len(path) == 1 else []
        near = get_close_matches(name, known, n=1, cutoff=0.6)
        hint = f"did you mean '{near[0]}'?" if near else f"'{kind}' has: {', '.join(known)}" if known else ""
        return WrongField(field, f"'{_cut(name)}' is not a field here", hint)
    if sort == "missing":
        return WrongField(field, f"{name} is needed", _like(kind, path))
    if sort in {"written", "value_error"}:
        return WrongField(field, str(context.get("error", context.get("text"))))
    if sort == "literal_error":
        return WrongField(field, f"'{_cut(str(item['input']))}' is not one of {context.get('expected')}")
    return WrongField(field, "this cannot stand here", _like(kind, path))


def _like(kind: str, path: tuple[str | int, ...]) -> str:
    field = KINDS[kind].model_fields.get(str(path[0])) if path else None
    if field is None or not field.examples or len(path) > 1:
        return ""
    return f"write it like '{path[0]} {field.examples[0]}'"


def _cut(text: str) -> str:
    return text if len(text) <= 40 else f"{text[:40]}..."  # noqa: PLR2004 - enough to tell which it is.
