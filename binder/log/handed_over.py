"""A file that is handed over: its lines, the fields of each entry in it, and where each field stands."""

from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from stat import S_ISREG
from typing import NamedTuple

from binder.log.reading import WrongField
from binder.models.log_entries import Written
from binder.problems import InputProblems, Position, Problem

LARGEST = 64 * 1024 * 1024
"""Bytes of a file that is taken: ten years of a monitor that tells every tire each quarter of an hour."""

_MOST_TOLD = 50
_WIDEST = 160


class Draft(NamedTuple):
    """Fields of one entry as they stand in a file, and the line they begin in."""

    line: int
    fields: Mapping[str, Written]


class Handed(NamedTuple):
    """What a file holds: drafts of entries, what is wrong already, and how to find a field of a line."""

    drafts: list[Draft]
    wrong: list[tuple[int, WrongField]]
    column: Callable[[str, str], tuple[int, int]]
    """First column and length of a field, by the text of its line and its name."""


def text_of(file: Path) -> str:
    """Read a file that was handed over; refuse one that is too large, no plain file or no text."""
    name = str(file)
    try:
        status = file.stat()
        if not S_ISREG(status.st_mode):
            raise refusal(name, "this is no plain file")
        if status.st_size > LARGEST:
            size = status.st_size / 1024 / 1024
            raise refusal(name, f"this file has {size:.0f} MB; {LARGEST // 1024 // 1024} MB are the most")
        content = file.read_bytes()
    except FileNotFoundError as error:
        raise refusal(name, "there is no such file") from error
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise refusal(name, "this is UTF-16 text; save it as UTF-8")
    try:
        return content.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        before = content[: error.start]
        place = Position(before.count(b"\n") + 1, error.start - before.rfind(b"\n"))
        text = f"this is not UTF-8 text (byte 0x{content[error.start]:02x}); save the file as UTF-8"
        raise InputProblems([Problem(name, place, "", text)]) from error


def refusal(name: str, text: str, hint: str = "") -> InputProblems:
    """Refuse a file as a whole."""
    return InputProblems([Problem(name, None, "", text, hint)])


def told_with_places(
    name: str, text: str, handed: Handed, wrong: Iterable[tuple[int, WrongField]]
) -> InputProblems:
    """Tell what is wrong with a file's entries, each at its place, with the lines it stands in."""
    every = sorted(wrong, key=lambda one: one[0])
    lines = text.split("\n")
    problems = [_placed(name, lines, handed, line, one) for line, one in every[:_MOST_TOLD]]
    if len(every) > _MOST_TOLD:
        last = Position(len(lines) + 1, 1)
        problems.append(
            Problem(name, last, "", f"and {len(every) - _MOST_TOLD} more problems in later lines")
        )
    shown = {one.position.line for one in problems if one.position}
    quoted = (_plain(line) if at in shown else "" for at, line in enumerate(lines, 1))
    return InputProblems(problems, {name: "\n".join(quoted)})


def _placed(name: str, lines: list[str], handed: Handed, line: int, wrong: WrongField) -> Problem:
    raw = lines[line - 1] if line <= len(lines) else ""
    column, length = handed.column(raw, wrong.field)
    if column > _WIDEST:
        column, length = 1, 1
    return Problem(name, Position(line, column, length), wrong.field, wrong.text, wrong.hint)


def _plain(line: str) -> str:
    """A line as it may be shown: what has no ink, or would break it in two, is one mark."""
    cut = line if len(line) <= _WIDEST else f"{line[:_WIDEST]}..."
    return "".join(one if one.isprintable() else "\ufffd" for one in cut)
