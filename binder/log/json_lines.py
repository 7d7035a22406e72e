r"""The log as JSON Lines: what the page hands over and what an export writes.

The first line says what the file is; every other line is one entry, a flat object of text::

    {"format": "rig log", "version": 1, "rig": "Larkspur"}
    {"id": "0198...", "at": "2026-06-01T07:10:00-06:00", "kind": "tire", "position": "steer left", ...}

``id`` is a UUID of version 7 in small letters, ``at`` a time with its zone, ``kind`` one of the kinds;
``who``, ``card``, ``code`` and ``corrects`` (an id) may be left out. All others are the fields of the kind
(``models/log_entries.py``), each a text with its unit, as ``rig.yaml`` has it. Numbers, true and false are
read as their text; null and an empty text say nothing; an empty list of ``aboard`` says that nothing was.
"""

import json
from collections.abc import Iterable, Iterator

from binder.log.handed_over import Draft, Handed, refusal
from binder.log.reading import ENVELOPE, WrongField
from binder.models.log_entries import Entry, Written

FORMAT, VERSION = "rig log", 1
_LONGEST_LINE = 64 * 1024
_DEEPEST = 6
_OF_NOTHING = "aboard"
"""The field of which an empty list says something: that there was nothing."""


class _Unfit(ValueError):
    """What a line holds is no entry."""


def is_json_lines(text: str) -> bool:
    """Tell whether a text is meant as JSON Lines."""
    return text.lstrip()[:1] == "{"


def read_json_lines(name: str, text: str, rig: str) -> Handed:
    """Read the entries of a file that this rig handed over."""
    drafts: list[Draft] = []
    wrong: list[tuple[int, WrongField]] = []
    lines = text.split("\n")
    _refuse_other_file(name, lines[0], rig)
    for number, line in enumerate(lines[1:], 2):
        if not line.strip():
            continue
        try:
            drafts.append(Draft(number, _object(line)))
        except _Unfit as error:
            wrong.append((number, WrongField("", str(error))))
    return Handed(drafts, wrong, _column)


def _refuse_other_file(name: str, line: str, rig: str) -> None:
    try:
        head = _object(line)
    except _Unfit as error:
        raise refusal(name, f"line 1: {error}") from error
    if head.get("format") != FORMAT:
        like = json.dumps({"format": FORMAT, "version": VERSION, "rig": rig}, ensure_ascii=False)
        raise refusal(name, "the first line does not say that this is a rig's log", f"it is like {like}")
    if head.get("version") != str(VERSION):
        text = f"this is version {head.get('version', 'unknown')} of the format; {VERSION} is known here"
        raise refusal(name, text)
    if head.get("rig") != rig:
        text = f"this is the log of '{head.get('rig', '')}', and this folder is that of '{rig}'"
        raise refusal(name, text, "if only the name was changed, change it in the first line of the file too")


def read_block(text: str) -> Written:
    """Read a block that stands as JSON in a cell; ValueError where it cannot be read."""
    return _written(_loaded(text), 1)


def _object(line: str) -> dict[str, Written]:
    held = _loaded(line)
    if not isinstance(held, dict):
        raise _Unfit('a line is one object, like {"kind": "note", ...}')
    said = {key: _written(one, 1) for key, one in held.items()}
    return {key: value for key, value in said.items() if value or (value == [] and key == _OF_NOTHING)}


def _loaded(line: str) -> object:
    if len(line) > _LONGEST_LINE:
        raise _Unfit(f"this line has {len(line)} characters; an entry has {_LONGEST_LINE} at most")
    try:
        return _DECODER.decode(line)
    except json.JSONDecodeError as error:
        raise _Unfit(f"this is no JSON ({error.msg}, character {error.pos + 1})") from error
    except RecursionError as error:
        raise _Unfit("this is nested too deep for an entry") from error


def _block(pairs: list[tuple[str, object]]) -> dict[str, object]:
    held = dict(pairs)
    if len(held) < len(pairs):
        names = [name for name, _ in pairs]
        twice = next(name for name in names if names.count(name) > 1)
        raise _Unfit(f"'{twice[:40]}' stands twice in this entry")
    return held


_DECODER = json.JSONDecoder(object_pairs_hook=_block, parse_int=str, parse_float=str, parse_constant=str)


def _written(value: object, depth: int) -> Written:
    """Take a value as text; a number keeps the digits it was written with."""
    if isinstance(value, str):
        return _text(value)
    if depth > _DEEPEST:
        raise _Unfit("this is nested too deep for an entry")
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, dict):
        return {_text(key): _written(one, depth + 1) for key, one in value.items() if one is not None}
    if isinstance(value, list):
        return [_written(one, depth + 1) for one in value]
    return ""


def _text(text: str) -> str:
    # As a table's cell has it: both forms of an export say the same.
    text = (text.replace("\r\n", "\n").replace("\r", "\n") if "\r" in text else text).strip()
    if text.isascii() or not any("\ud800" <= letter <= "\udfff" for letter in text):
        return text
    raise _Unfit("this has half a letter (\\ud800 to \\udfff), which no file can hold")


def _column(line: str, field: str) -> tuple[int, int]:
    name = json.dumps(field.rpartition(".")[2], ensure_ascii=False)
    at = line.find(f"{name}:")
    return (at + 1, len(name)) if at >= 0 else (1, 1)


def as_json_lines(rig: str, entries: Iterable[Entry]) -> Iterator[str]:
    """Write a log as JSON Lines, a line at a time."""
    yield json.dumps({"format": FORMAT, "version": VERSION, "rig": rig}, ensure_ascii=False)
    for one in entries:
        yield json.dumps(flat(one), ensure_ascii=False)


def flat(entry: Entry) -> dict[str, Written]:
    """Give an entry as one flat object, what it is before what it says."""
    taken = entry.taken.isoformat() if entry.taken else ""
    ends = (entry.who, entry.card, entry.code, entry.corrects, taken)
    told = dict(zip(ENVELOPE, (entry.id, entry.at.isoformat(), entry.kind, *ends), strict=True))
    return {name: text for name, text in told.items() if text} | dict(entry.written)
