"""The log as rows of named columns: a monitor's export, a sheet of one's own, or an export of the log.

A column is named for a field (``at``, ``kind``, ``position``, ``pressure`` ...), as in the JSON Lines. A unit
may stand in the heading, ``pressure [psi]``, and then not in the cells. What is the same in all rows may be
given with ``--with``. A block, such as the axles of a weighing, is JSON in its cell. A row without an id has
one of its content, so that the same export read again, or a longer one, adds only what is new.
"""

import csv
import io
import json
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence

from binder.log.handed_over import Draft, Handed, refusal
from binder.log.identity import id_of_content
from binder.log.json_lines import flat, read_block
from binder.log.reading import ENVELOPE, WrongField
from binder.models.log_entries import KINDS, Entry, Written

_HEADING = re.compile(r"([^\[\](]+?)\s*(?:[\[(]([^\])]+)[\])])?")
_FIELDS = {*ENVELOPE, *(name for model in KINDS.values() for name in model.model_fields)}
_FORMULA = re.compile(r"'*[=+@\t\r-]")
"""How a cell begins that a spreadsheet would work out, not show; an apostrophe ahead of it stops that."""


_told = json.JSONEncoder(sort_keys=True).encode


def read_rows(name: str, text: str, constant: Mapping[str, str]) -> Handed:
    """Read the rows of a table whose first row names its columns."""
    dialect = _delimiter(text)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=dialect, strict=True)
    drafts: list[Draft] = []
    wrong: list[tuple[int, WrongField]] = []
    try:
        heading = next(reader, [])
        columns = _columns(name, heading, constant)
        before = reader.line_num
        for row in reader:
            line, before = before + 1, reader.line_num
            if any(cell.strip() for cell in row):
                _take(row, columns, constant, line, drafts, wrong)
    except csv.Error as error:
        raise refusal(
            name, f"line {reader.line_num}: this row cannot be read as columns ({error})"
        ) from error
    order = [field for field, _ in columns]
    return Handed(drafts, wrong, lambda line, field: _column(line, field, order, dialect))


def _delimiter(text: str) -> str:
    first = text.partition("\n")[0]
    return max(",;\t", key=first.count)


def _columns(name: str, heading: Sequence[str], constant: Mapping[str, str]) -> list[tuple[str, str]]:
    """Field and unit of each column."""
    matches = [_HEADING.fullmatch(cell.strip()) for cell in heading]
    columns = [
        (match[1].lower().replace(" ", "_"), match[2] or "") if match else ("", "") for match in matches
    ]
    named = [field for field, _ in columns]
    unknown = [cell for cell, field in zip(heading, named, strict=True) if field not in _FIELDS]
    if unknown:
        fields = ", ".join(sorted(_FIELDS - {"taken"}))
        text = f"no field is named like the column {', '.join(repr(one) for one in unknown)}"
        raise refusal(name, text, f"name each column for its field, or take it out; the fields are: {fields}")
    if twice := {field for field in named if named.count(field) > 1 or field in constant}:
        raise refusal(name, f"given twice: {', '.join(sorted(twice))}")
    return columns


def _take(  # noqa: PLR0913, PLR0917 - what a row depends on.
    row: list[str],
    columns: list[tuple[str, str]],
    constant: Mapping[str, str],
    line: int,
    drafts: list[Draft],
    wrong: list[tuple[int, WrongField]],
) -> None:
    if len(row) != len(columns):
        wrong.append((line, WrongField("", f"this row has {len(row)} cells; the heading has {len(columns)}")))
        return
    fields: dict[str, Written] = dict(constant)
    for (field, unit), cell in zip(columns, row, strict=True):
        told = cell.replace("\r", "\n").strip()
        if not told:
            continue
        if _FORMULA.match(told) and told.startswith("'"):
            told = told[1:]
        fields[field] = f"{told} {unit}" if unit else told
        if told[:1] in "{[" and field in _BLOCKS:
            try:
                fields[field] = read_block(told)
            except ValueError as error:
                wrong.append((line, WrongField(field, str(error))))
    if "id" not in fields:
        fields["id"] = id_of_content(f"[{_told(field)}, {_told(fields[field])}]" for field in sorted(fields))
    drafts.append(Draft(line, fields))


_BLOCKS = {"weights", "aboard", "levels", "state"}


def _column(line: str, field: str, order: list[str], delimiter: str) -> tuple[int, int]:
    """Find the cell of a field in its line: quotes may hold what parts cells."""
    name = field.partition(".")[0]
    if name not in order:
        return 1, 1
    cells, start, quoted = [], 0, False
    for at, letter in enumerate(f"{line}{delimiter}"):
        quoted ^= letter == '"'
        if letter == delimiter and not quoted:
            cells.append((start, at))
            start = at + 1
    place = order.index(name)
    first, last = cells[place] if place < len(cells) else (0, 1)
    return first + 1, max(1, last - first)


def as_rows(entries: Iterable[Entry]) -> Iterator[str]:
    """Write a log as rows of named columns, a row at a time."""
    every = [flat(one) for one in entries]
    said = sorted({name for one in every for name in one} - set(ENVELOPE))
    columns = [*ENVELOPE, *said]
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\n")
    for row in (columns, *([_cell(one.get(name, "")) for name in columns] for one in every)):
        writer.writerow(row)
        yield out.getvalue().removesuffix("\n")
        out.seek(0)
        out.truncate()


def _cell(value: Written) -> str:
    text = value if isinstance(value, str) else json.dumps(value, ensure_ascii=False)
    return f"'{text}" if _FORMULA.match(text) else text
