"""The words of a card, read from ``templates/procedures``; what is not known there is told with its place."""

import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path as FilePath
from typing import Annotated, Any, Literal, Self, TypeAlias, TypeVar

from pydantic import BaseModel, BeforeValidator, Field, model_validator

from binder import templates_folder
from binder.cards.blocks import SignalWord
from binder.cards.procedures.conditions import CONDITION_NAMES
from binder.cards.procedures.facts import is_fact
from binder.models.base import Count, SpacedRecord, Text, Truth, written_problem
from binder.models.load import read_record
from binder.models.located_yaml import Located, Plain
from binder.problems import InputProblems, Path, Problem

BRACES = re.compile(r"\{([^{}]*)\}")
KINDS = ("challenge", "step", "box", "ruled", "note", "computed")
"""What an entry of a group may be: the first key it is written with."""

_EMPTY: Any = Field(default_factory=list)


def _as_list(value: object) -> object:
    return [value] if isinstance(value, str) else value


def _as_wordings(value: object) -> object:
    return [{"text": value}] if isinstance(value, str) else value


_WordsT = TypeVar("_WordsT", bound=BaseModel)
Names: TypeAlias = Annotated[list[Text], BeforeValidator(_as_list), _EMPTY]
IfNot: TypeAlias = Literal["do not move", "fix before moving", "go", "nothing"]


class Conditional(SpacedRecord):
    """What is printed only where all conditions under ``when`` hold and none under ``unless``."""

    when: Names
    unless: Names


class Wording(Conditional):
    """One of several wordings."""

    text: Text


Wordings: TypeAlias = Annotated[list[Wording], BeforeValidator(_as_wordings), _EMPTY]


class Entry(Conditional):
    """One line of a group, of any kind."""

    name: Text = ""
    challenge: Text = ""
    answer: Text = ""
    detail: Text = ""
    step: Text = ""
    numbered: Truth = True
    indented: Truth = False
    box: Text = ""
    signal: SignalWord | Literal[""] = ""
    below: list[Text] = Field(default_factory=list)
    ruled: Text = ""
    note: Text = ""
    computed: Text = ""
    killer: Truth = False
    if_not: IfNot | None = None
    reason: Text = ""
    source: Text = "practice"

    @model_validator(mode="after")
    def _is_one_thing(self) -> Self:
        if sum(bool(getattr(self, kind)) for kind in KINDS) != 1:
            raise written_problem(f"a line is one of: {', '.join(KINDS)}")
        if bool(self.answer) != bool(self.challenge):
            raise written_problem("a challenge and its answer belong together")
        if not self.name and not self.computed:
            raise written_problem("a line needs a name of its own, like 'name: chocks'")
        return self


class Group(Conditional):
    """The lines between two pause points."""

    name: Text
    heading: Wordings
    ticks: Count = 0
    killers_first: Truth = True
    if_not: IfNot | None = None
    lines: list[Entry]


class SideWords(Conditional):
    """One side of a card: how it is used, its groups in print order, and the call that ends it."""

    use: Wordings
    groups: list[Group]
    end: Text = ""


class CardReason(Conditional):
    """Why something on the card is so that is not told by one line."""

    name: Text
    reason: Text
    source: Text = "practice"


class CardWords(SpacedRecord):
    """The words of one card; ``so`` ends the list of what must not change."""

    card: Text
    number: Text
    family: Literal["drive", "stop", "help"] = "help"
    title: Text
    wrong_as_soon_as: Wordings
    or_else: Text = ""
    so: Wordings
    sides: list[SideWords]
    reasons: list[CardReason] = Field(default_factory=list)


class PageWords(SpacedRecord):
    """The words of a page of the binder: how it is used, and its groups in print order."""

    page: Text
    title: Text
    intro: Wordings
    groups: list[Group]


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
        if "name" in entry:
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
            yield located.problem(place, f"there is no condition '{name}'")


def _unknown_facts(located: Located, path: Path, given: Plain) -> Iterator[Problem]:
    for place, text in _texts(path, given):
        for name in BRACES.findall(text):
            if not is_fact(name):
                yield located.problem(place, f"there is no fact '{name}'")


def mappings(data: Plain, path: Path = ()) -> Iterator[tuple[Path, dict[str, Plain]]]:
    """Every block of ``name: value`` entries of a file, with the path that leads to it."""
    if isinstance(data, dict):
        yield path, data
    inside = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    for key, value in inside:
        yield from mappings(value, (*path, key))
