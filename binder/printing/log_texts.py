"""What people wrote into the log, as it can be printed: what was taken never keeps paper from anyone."""

from collections.abc import Iterable
from functools import lru_cache
from itertools import groupby
from unicodedata import category

from binder.models.log_entries import Entry
from binder.rendering.typeface import missing_letters

_CANNOT = "[not printable]"
"""Stands for letters that neither face has, or that would turn others about."""

_LONGEST_WORD = 16
"""Letters of a word: a longer one is parted, for it may not fit its row."""


def printable(entries: Iterable[Entry]) -> tuple[Entry, ...]:
    """The same entries, the texts that are printed of them made printable."""
    every = tuple(entries)
    printed = {who: printable_text(who) for who in {one.who for one in every}}
    if all(who == text for who, text in printed.items()):
        return tuple(_printable(one) if one.kind == "fault" else one for one in every)
    return tuple(map(_printable, every))


def _printable(entry: Entry) -> Entry:
    who = printable_text(entry.who)
    written = entry.written
    if entry.kind == "fault":
        written = {**written, "what": printable_text(str(written["what"]))}
    return (
        entry if who == entry.who and written is entry.written else entry._replace(who=who, written=written)
    )


@lru_cache(maxsize=1 << 12)
def printable_text(text: str) -> str:
    """Part long words, and say where letters cannot be printed.

    >>> printable_text("lamp \U0001f4a1 dark")
    'lamp [not printable] dark'
    """
    whole = text if text.isascii() and text.isprintable() else _without_unprintable(text)
    if all(len(word) <= _LONGEST_WORD for word in whole.split()):
        return whole
    return " ".join(part for word in whole.split() for part in _parted(word))


def _without_unprintable(text: str) -> str:
    spaced = " ".join(text.split())
    lacking = {*missing_letters(spaced), *(letter for letter in spaced if category(letter) in {"Cf", "Cc"})}
    runs = groupby(spaced, key=lambda letter: letter in lacking)
    return "".join(_CANNOT if is_lacking else "".join(letters) for is_lacking, letters in runs)


def _parted(word: str) -> list[str]:
    return [word[at : at + _LONGEST_WORD] for at in range(0, len(word), _LONGEST_WORD)]
