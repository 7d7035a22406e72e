"""A file taken into the log whole, or not at all: its form found out, its entries held against the log."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import NamedTuple

from binder.log.csv_rows import read_rows
from binder.log.handed_over import Handed, refusal, text_of, told_with_places
from binder.log.identity import LEAST_ENDING, is_id
from binder.log.in_force import rings
from binder.log.json_lines import is_json_lines, read_json_lines
from binder.log.mail import is_message, read_message
from binder.log.reading import Reader, WrongField, read_entry
from binder.log.store import add, entries_in
from binder.models.log_entries import Entry


class Import(NamedTuple):
    """What an import did: entries that are new, those that were there, and those with a time hardly right."""

    added: int
    known: int
    unsure: tuple[Entry, ...]


def import_file(folder: Path, file: Path, reader: Reader, constant: Mapping[str, str]) -> Import:
    """Take a file into the log of a rig's folder, or tell everything that is wrong with it."""
    name, text = str(file), text_of(file)
    handed = _handed(name, text, reader, constant)
    held = entries_in(folder)
    entries: list[Entry] = []
    lines: dict[str, int] = {}
    wrong = list(handed.wrong)
    for draft in handed.drafts:
        entry, faults = read_entry(draft.fields, reader)
        wrong += [(draft.line, one) for one in faults]
        if entry is not None and not entry.id:
            wrong.append((draft.line, WrongField("id", "an id is needed: a UUID of version 7")))
        elif entry is not None:
            entries.append(entry)
            lines.setdefault(entry.id, draft.line)
    if not wrong:
        entries, faults_by_id = settled(entries, held)
        wrong += [(lines[own_id], one) for own_id, one in faults_by_id]
    if wrong:
        raise told_with_places(name, text, handed, wrong)
    added = add(folder, entries)
    unsure = tuple(one for one in entries if one.is_clock_unsure)
    return Import(added, len(entries) - added, unsure)


def _handed(name: str, text: str, reader: Reader, constant: Mapping[str, str]) -> Handed:
    if not text.strip():
        raise refusal(name, "this file is empty")
    names = reader.names
    if is_json_lines(text):
        return read_json_lines(name, text, names.rig)
    if is_message(text):
        return read_message(name, text, names)
    return read_rows(name, text, constant)


def settled(entries: list[Entry], held: Iterable[Entry]) -> tuple[list[Entry], list[tuple[str, WrongField]]]:
    """Entries with what they point to named in full, and one of each; what contradicts the log is told."""
    known = {one.id: one for one in held}
    wrong: list[tuple[str, WrongField]] = []
    every = known | {one.id: one for one in entries}
    ends = Endings(every)
    kept: dict[str, Entry] = {}
    for one in entries:
        try:
            entry = _with_full_ids(one, ends)
        except ValueError as error:
            wrong.append((one.id, WrongField("corrects" if one.corrects else "fault", str(error))))
            continue
        before = known.get(entry.id) or kept.get(entry.id)
        if before is not None and before.content != entry.content:
            text = "an entry with this id says something else in the log; an entry is not altered"
            hint = "give it an id of its own, and 'corrects' with this one"
            wrong.append((entry.id, WrongField("id", text, hint)))
        kept.setdefault(entry.id, entry)
    wrong += _contradictions(kept.values(), every | kept)
    return list(kept.values()), wrong


def _contradictions(entries: Iterable[Entry], every: Mapping[str, Entry]) -> Iterator[tuple[str, WrongField]]:
    ringed = rings(every.values())
    for one in entries:
        fault = one.written.get("fault") if one.kind == "repair" else None
        if isinstance(fault, str) and every[fault].kind != "fault":
            yield one.id, WrongField("fault", f"'{fault}' is a '{every[fault].kind}', no fault")
        if not one.corrects:
            continue
        corrected = every[one.corrects]
        if one.id in ringed:
            yield one.id, WrongField("corrects", "these entries correct each other in a ring")
        elif one.kind not in {corrected.kind, "withdrawal"}:
            text = f"this '{one.kind}' corrects a '{corrected.kind}'; they are to be of one kind"
            yield one.id, WrongField("corrects", text)


class Endings:
    """Ids by their ends, as a table shows them and a person types them."""

    def __init__(self, ids: Iterable[str]) -> None:
        """Keep the ids."""
        self._ids = set(ids)
        self._by_end: dict[str, list[str]] | None = None

    def full(self, end: str) -> str:
        """Give the one id that ends so; ValueError where there is none, or more than one."""
        if end in self._ids:
            return end
        if is_id(end) or len(end) < LEAST_ENDING:
            raise ValueError(f"'{end}' is no entry of this log")
        if self._by_end is None:
            self._by_end = {}
            for one in self._ids:
                self._by_end.setdefault(one[-LEAST_ENDING:], []).append(one)
        found = [one for one in self._by_end.get(end[-LEAST_ENDING:], []) if one.endswith(end)]
        if len(found) == 1:
            return found[0]
        many = f"ends {len(found)} entries; type more of it" if found else "ends no entry of this log"
        raise ValueError(f"'{end}' {many}")


def _with_full_ids(entry: Entry, ends: Endings) -> Entry:
    if entry.corrects:
        entry = entry._replace(corrects=ends.full(entry.corrects))
    fault = entry.written.get("fault")
    if entry.kind == "repair" and isinstance(fault, str):
        entry = entry._replace(written={**entry.written, "fault": ends.full(fault)})
    return entry


def ids_shown(entries: Iterable[Entry]) -> dict[str, str]:
    """The end of each id that is enough to name it."""
    ids = [one.id for one in entries]
    length = LEAST_ENDING
    while len(ids) > 1 and length < len(ids[0]) and max(Counter(one[-length:] for one in ids).values()) > 1:
        length += 1
    return {one: one[-length:] for one in ids}
