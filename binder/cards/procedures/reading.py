"""The words of a card, read from ``templates/procedures``; what is not known there is told with its place."""

import re
from collections.abc import Iterable, Iterator
from difflib import get_close_matches
from functools import cache
from pathlib import Path as FilePath
from typing import TypeVar

from pydantic import BaseModel

from binder import templates_folder
from binder.cards.procedures.conditions import CONDITION_NAMES
from binder.cards.procedures.facts import FACT_NAMES, is_fact
from binder.models.load import read_record
from binder.models.located_yaml import Located, Plain
from binder.models.procedures import CardWords, PageWords
from binder.problems import InputProblems, Path, Problem

BRACES = re.compile(r"\{([^{}]*)\}")
_WordsT = TypeVar("_WordsT", bound=BaseModel)


@cache
def card_words(card: str) -> CardWords:
    """Give the words of one card, read once."""
    return read_words(templates_folder() / "procedures" / f"{card}.yaml", CardWords)


@cache
def page_words(page: str) -> PageWords:
    """Give the words of one page, read once."""
    return read_words(templates_folder() / "procedures" / "pages" / f"{page}.yaml", PageWords)


def sources_of_pages() -> Iterator[str]:
    """Name what the lines of all pages rest on."""
    for file in sorted((templates_folder() / "procedures" / "pages").glob("*.yaml")):
        for group in page_words(file.stem).groups:
            yield from (entry.source for entry in group.lines if entry.reason)


def read_words(file: FilePath, kind: type[_WordsT]) -> _WordsT:
    """Read the words of a card or a page, or raise every problem of its file."""
    words, located = read_record(file, kind)
    problems = [*located.problems, *misnamed(located)]
    if problems or words is None:
        raise InputProblems(problems, {located.file: located.source})
    return words


def misnamed(located: Located) -> Iterator[Problem]:
    """Tell conditions and facts that are not known, and names given twice."""
    first: dict[tuple[str, Plain], Path] = {}
    for path, entry in mappings(located.data):
        for key in ("when", "unless"):
            yield from _unknown_conditions(located, (*path, key), entry.get(key))
        for key, value in entry.items():
            yield from _unknown_facts(located, (*path, key), value)
        if isinstance(entry.get("name"), str) and len(path) > 1:
            named = (str(path[-2]), entry["name"])
            if first.setdefault(named, path) != path:
                line = located.keys[(*first[named], "name")].line
                yield located.problem(
                    (*path, "name"), f"'{entry['name']}' is named twice; first in line {line}"
                )


def _texts(path: Path, given: Plain) -> Iterator[tuple[Path, str]]:
    """A text alone, or each of a list, with its path."""
    if isinstance(given, str):
        yield path, given
    elif isinstance(given, list):
        yield from (((*path, number), text) for number, text in enumerate(given) if isinstance(text, str))


def _unknown_conditions(located: Located, path: Path, given: Plain) -> Iterator[Problem]:
    for place, name in _texts(path, given):
        if name not in CONDITION_NAMES:
            hint = near_hint(name, CONDITION_NAMES) or "'binder fields conditions' lists them, like 'slides'"
            yield located.problem(place, f"there is no condition '{name}'", hint=hint)


def _unknown_facts(located: Located, path: Path, given: Plain) -> Iterator[Problem]:
    for place, text in _texts(path, given):
        for name in BRACES.findall(text):
            if not is_fact(name):
                hint = near_hint(name, FACT_NAMES) or "'binder fields facts' lists them, like '{chocks}'"
                yield located.problem(place, f"there is no fact '{name}'", hint=hint)


def near_hint(name: str, known: Iterable[str]) -> str:
    """Ask whether a name much like it was meant."""
    near = get_close_matches(name, list(known), n=1, cutoff=0.6)
    return f"did you mean '{near[0]}'?" if near else ""


def mappings(data: Plain, path: Path = ()) -> Iterator[tuple[Path, dict[str, Plain]]]:
    """Every block of ``name: value`` entries of a file, with the path that leads to it."""
    if isinstance(data, dict):
        yield path, data
    inside = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    for key, value in inside:
        yield from mappings(value, (*path, key))
