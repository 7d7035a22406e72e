"""YAML read as text with the place of every key and value, and refused where it is not plain.

Every scalar stays the text a person wrote; the models give it meaning. Why: YAML itself reads
``12:30`` as 750 and ``no`` as false, keeps the last of a doubled key, and expands anchors.
"""

import json
import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cached_property
from typing import TypeAlias

import yaml

from binder.problems import Path, Position, Problem, field_name

_DEEPEST = 12
_Loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)

# Control characters, line breaks other than the usual, and the byte order mark inside a text.
_INVISIBLE = re.compile("[\\x00-\\x08\\x0b\\x0c\\x0e-\\x1f\\x7f-\\x9f\\u2028\\u2029\\ufffe\\uffff]")
# What a web page or a word processor leaves in a text: spaces of other kinds, and marks without ink.
_SPACES = re.compile("[\\u00a0\\u1680\\u2000-\\u200a\\u202f\\u205f\\u3000]")
_NOTHING = re.compile(
    "[\\u00ad\\u180e\\u200b-\\u200f\\u202a-\\u202e\\u2060-\\u2064\\u2066-\\u2069\\ufe0e\\ufe0f]"
)
_GROUPED_NUMBER = re.compile(r"[0-9]{1,3}(?:,[0-9]{3})+(?![0-9])")

_BARE = re.compile(r"[A-Za-z0-9](?:[A-Za-z0-9 ./%_'-]*[A-Za-z0-9./%_'-])?")

Plain: TypeAlias = "str | dict[str, Plain] | list[Plain] | None"


@dataclass
class Located:
    """A file as plain dicts, lists, texts and None, with the places of its keys and values."""

    file: str
    source: str
    data: Plain = None
    keys: dict[Path, Position] = field(default_factory=dict)
    values: dict[Path, Position] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)

    @cached_property
    def rows(self) -> list[str]:
        """Lines of the source, as they are counted in a place."""
        return self.source.splitlines()

    def problem(self, path: Path, text: str, *, at_key: bool = False, hint: str = "") -> Problem:
        """Make a problem at the entry a path leads to, or at the nearest entry above it."""
        known = self._known(path)
        table = self.keys if at_key and known in self.keys else self.values
        return Problem(self.file, table.get(known, Position(1, 1)), field_name(known), text, hint)

    def _known(self, path: Path) -> Path:
        known: Path = ()
        for part in path:
            if (*known, part) in self.values:
                known = (*known, part)
        return known


class _Stop(Exception):
    """Reading on would only tell more of the same."""


@dataclass
class _Reader:
    located: Located
    events: Iterator[yaml.Event]

    def node(self, event: yaml.Event, path: Path) -> Plain:
        self._refuse_what_is_not_plain(event, path)
        if len(path) > _DEEPEST:
            self._refuse(event, path[:1], f"entries are nested more than {_DEEPEST} deep")
            raise _Stop
        if isinstance(event, yaml.MappingStartEvent):
            return self._mapping(event, path)
        if isinstance(event, yaml.SequenceStartEvent):
            return self._sequence(event, path)
        return self._scalar(event, path)

    def _refuse_what_is_not_plain(self, event: yaml.Event, path: Path) -> None:
        if isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None):
            text = "a word that starts with & or * needs quotes (anchors and aliases are not used here)"
            self._refuse(event, path, text)
        if getattr(event, "tag", None):
            self._refuse(event, path, "a word that starts with ! needs quotes (tags are not used here)")
        if isinstance(event, yaml.AliasEvent):
            raise _Stop

    def _scalar(self, event: yaml.Event, path: Path) -> str | None:
        self.located.values.setdefault(path, _position(event))
        text = _plain(str(getattr(event, "value", "")))
        empty = text in {"", "~", "null"} and getattr(event, "style", None) in {None, ""}
        return None if empty else text

    def _mapping(self, event: yaml.Event, path: Path) -> dict[str, Plain]:
        self.located.values.setdefault(path, _position(event))
        result: dict[str, Plain] = {}
        before: str | None = None
        while not isinstance(key := next(self.events), yaml.MappingEndEvent):
            if not isinstance(key, yaml.ScalarEvent):
                self._refuse(key, path, "a key is a plain word here")
                raise _Stop
            name = _plain(str(key.value))
            if getattr(event, "flow_style", False) and not self._is_followed_by_colon(key):
                next(self.events)
                result |= self._cut_entry(key, path, before, result)
                continue
            inside: Path = (*path, name)
            before = name
            if name in result:
                first = self.located.keys[inside].line
                self._refuse(key, inside, f"'{name}' stands twice here; the first is in line {first}")
            self.located.keys[inside] = _position(key)
            result[name] = self.node(next(self.events), inside)
        return result

    def _is_followed_by_colon(self, key: yaml.ScalarEvent) -> bool:
        end, rows = key.end_mark, self.located.rows
        rest = rows[end.line][end.column :] if end and end.line < len(rows) else ""
        return rest.lstrip(" ").startswith(":")

    def _cut_entry(
        self, key: yaml.ScalarEvent, path: Path, before: str | None, result: dict[str, Plain]
    ) -> dict[str, Plain]:
        """Tell that a comma cut a value in two; what it was meant to be is handed back and read on."""
        value = result.get(before) if before is not None else None
        if before is None or not isinstance(value, str):
            text = f"'{key.value}' has no value; write it like '{key.value}: ...'"
            self._refuse(key, path, text)
            return {}
        space = "" if self._stands_right_after_comma(key) else " "
        meant = f"{value},{space}{key.value}"
        self._refuse_cut((*path, before), key, meant)
        return {before: meant}

    def _refuse_cut(self, path: Path, end: yaml.Event, meant: str) -> None:
        start, last = self.located.values[path], _position(end)
        length = last.column + last.length - start.column if start.line == last.line else start.length
        place = Position(start.line, start.column, length)
        self.located.problems.append(Problem(self.located.file, place, field_name(path), _cut_text(meant)))

    def _stands_right_after_comma(self, event: yaml.Event) -> bool:
        mark = event.start_mark
        rows = self.located.rows
        return bool(mark and mark.column and rows[mark.line][mark.column - 1] == ",")

    def _sequence(self, event: yaml.Event, path: Path) -> list[Plain]:
        self.located.values.setdefault(path, _position(event))
        result: list[Plain] = []
        while not isinstance(item := next(self.events), yaml.SequenceEndEvent):
            inside: Path = (*path, len(result))
            value = self.node(item, inside)
            last = result[-1] if result else None
            if isinstance(value, str) and isinstance(last, str) and self._stands_right_after_comma(item):
                meant = f"{last},{value}"
                if re.search(r"[0-9],[0-9]", meant[len(last) - 1 : len(last) + 2]):
                    self._refuse_cut((*path, len(result) - 1), item, meant)
            result.append(value)
        return result

    def _refuse(self, event: yaml.Event, path: Path, text: str) -> None:
        located = self.located
        located.problems.append(Problem(located.file, _position(event), field_name(path), text))


def _cut_text(meant: str) -> str:
    if number := _GROUPED_NUMBER.search(meant):
        better = f"like '{meant.replace(number[0], number[0].replace(',', ''))}'"
    elif re.search(r"[0-9],[0-9]", meant):
        pointed = re.sub(r"([0-9]),([0-9])", r"\1.\2", meant, count=1)
        better = f"with a point, like '{pointed}'"
    else:
        better = f'in quotes, like "{meant}"'
    return f"inside brackets a comma ends the entry, so '{meant}' is cut in two; write it {better}"


def _position(event: yaml.Event) -> Position:
    start, end = event.start_mark, event.end_mark
    if start is None or end is None:
        return Position(1, 1)
    same_line = start.line == end.line and isinstance(event, yaml.ScalarEvent)
    return Position(start.line + 1, start.column + 1, max(1, end.column - start.column) if same_line else 1)


def _without_strange_spaces(text: str) -> str:
    return _NOTHING.sub("", _SPACES.sub(" ", text.replace("\ufeff", "")))


def _plain(text: str) -> str:
    """A text as it is printed: plain spaces, no marks without ink, each accent one with its letter."""
    if text.isascii() and "\t" not in text and "\n" not in text:
        return text
    return unicodedata.normalize("NFC", _without_strange_spaces(text.replace("\t", " ").replace("\n", " ")))


def located_yaml(file: str, source: str) -> Located:
    """Read YAML text; what cannot be read is in ``problems``, and ``data`` is None then."""
    source = _without_strange_spaces(source)
    located = Located(file, _INVISIBLE.sub("\ufffd", source))
    if found := _INVISIBLE.search(source):
        before = source[: found.start()]
        place = Position(before.count("\n") + 1, len(before) - before.rfind("\n"))
        text = f"an invisible character (U+{ord(found[0]):04X}) stands here; delete it"
        located.problems.append(Problem(file, place, "", text))
        return located
    try:
        events = iter(yaml.parse(source, Loader=_Loader))
        for event in events:
            if isinstance(event, yaml.DocumentStartEvent):
                _document(located, events)
    except yaml.MarkedYAMLError as error:
        located.problems.append(_syntax_problem(located, error))
    except _Stop:
        pass
    if not located.problems and not isinstance(located.data, dict):
        text = "the file is empty" if located.data is None else "the file must be made of 'name: value' lines"
        located.problems.append(Problem(file, None, "", f"{text}; see 'binder new' for a starter"))
    return located


def _document(located: Located, events: Iterator[yaml.Event]) -> None:
    first = next(events)
    if located.values:
        text = "a second document starts here ('---'); one file holds one"
        located.problems.append(Problem(located.file, _position(first), "", text))
        raise _Stop
    located.data = _Reader(located, events).node(first, ())


def _syntax_problem(located: Located, error: yaml.MarkedYAMLError) -> Problem:
    mark, text = _syntax_reason(located, error)
    place = Position(mark.line + 1, mark.column + 1) if mark else None
    return Problem(located.file, place, "", text)


def _syntax_reason(located: Located, error: yaml.MarkedYAMLError) -> "tuple[yaml.Mark | None, str]":
    said = f"{error.context or ''} {error.problem or ''}"
    mark = error.problem_mark or error.context_mark
    opened = error.context_mark or mark
    row = located.rows[mark.line] if mark and mark.line < len(located.rows) else ""
    before, letter = (row[: mark.column], row[mark.column : mark.column + 1]) if mark else ("", "")
    same_line = bool(mark and opened and mark.line == opened.line)
    second_colon = letter == ":" and ": " in before and ("flow" not in said or same_line)
    tab = "'\\t'" in said or "\t" in before + letter
    # The first that holds is told; libyaml's own words are too far from what a person did.
    tight = letter == ":" and row[len(before) + 1 :][:1] not in {"", " "}
    reasons = (
        ("quoted scalar" in said, opened, "this quote is not closed"),
        (tab, mark, "a tab stands here; YAML is indented with spaces"),
        ("nesting depth" in said, mark, f"entries are nested more than {_DEEPEST} deep"),
        (tight, mark, "a space is missing after this ':'"),
        (second_colon, mark, "a second ': ' in one line; put the text in quotes, like \"height: dish down\""),
        (
            "cannot start any" in said,
            mark,
            f"text that starts with '{letter}' needs quotes, like \"{letter}...\"",
        ),
        (
            "expected ':'" in said,
            opened,
            "this is no 'name: value'; is the colon, or the space after it, missing?",
        ),
        ("flow" in said, opened, "this bracket is not closed, or a comma is missing in it"),
        (
            "block" in said or "not allowed" in said,
            mark,
            "this line does not fit the ones above; is its indent right?",
        ),
        (True, mark, f"YAML cannot read this ({(error.problem or 'no reason given').strip()})"),
    )
    return next((place, text) for holds, place, text in reasons if holds)


def own_yaml(text: str) -> object:
    """Read YAML that we wrote, as ``written_yaml`` does; None where it is none any more."""
    try:
        return yaml.load(text, Loader=_Loader)  # noqa: S506 - the safe loader, in C where there is one.
    except yaml.YAMLError:
        return None


def written_yaml(data: object) -> str:
    """Write plain data as YAML: texts of several lines as they stand, short lists on one line."""
    return yaml.dump(data, Dumper=_Dumper, sort_keys=False, allow_unicode=True, width=110)


class _Dumper(yaml.SafeDumper):
    """Writes a text of several lines as a block, to be read and compared line by line."""


def _text_node(dumper: _Dumper, text: str) -> yaml.ScalarNode:
    style = "|" if "\n" in text else None
    return dumper.represent_scalar("tag:yaml.org,2002:str", text, style=style)


_Dumper.add_representer(str, _text_node)


def as_scalar(text: str) -> str:
    """Write a text as it may stand in an owner's file: in quotes where YAML could read something else.

    >>> as_scalar("steer left"), as_scalar("car #2")
    ('steer left', '"car #2"')
    """
    is_bare = _BARE.fullmatch(text) and text.lower() != "null"
    return text if is_bare else json.dumps(text, ensure_ascii=False)
