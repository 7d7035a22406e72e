"""YAML read as text with the place of every key and value, and refused where it is not plain.

Every scalar stays the text a person wrote; the models give it meaning. Why: YAML itself reads
``12:30`` as 750 and ``no`` as false, keeps the last of a doubled key, and expands anchors.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import TypeAlias

import yaml

from binder.problems import Path, Position, Problem, field_name

_DEEPEST = 12
_Loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)

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

    def problem(self, path: Path, text: str, *, at_key: bool = False, hint: str = "") -> Problem:
        """Make a problem at the entry a path leads to, or at the nearest entry above it.

        Args:
            path: keys and list positions; parts that are not in the file are passed over.
            text: what is wrong and what is needed.
            at_key: underline the key instead of the value.
            hint: a line of help.

        Returns:
            The problem with its place.

        Sources:
            Own convention.

        Example:
            >>> located_yaml("a.yaml", "name: x").problem(("name",), "'x' is short").position
            Position(line=1, column=7, length=1)
        """
        known = self._known(path)
        table = self.keys if at_key and known in self.keys else self.values
        return Problem(self.file, table.get(known, Position(1, 1)), field_name(known), text, hint)

    def _known(self, path: Path) -> Path:
        known: Path = ()
        for part in path:
            if (*known, part) in self.values:
                known = (*known, part)
        return known


class _TooDeep(Exception):  # noqa: N818 - it never leaves this module.
    pass


@dataclass
class _Reader:
    located: Located
    events: Iterator[yaml.Event]

    def node(self, event: yaml.Event, path: Path) -> Plain:
        if isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None):
            self._refuse(event, path, "anchors and aliases (& and *) are not used here; write the value out")
            if isinstance(event, yaml.AliasEvent):
                return None
        if len(path) > _DEEPEST:
            self._refuse(event, path[:1], f"entries are nested more than {_DEEPEST} deep")
            raise _TooDeep
        if isinstance(event, yaml.MappingStartEvent):
            return self._mapping(event, path)
        if isinstance(event, yaml.SequenceStartEvent):
            return self._sequence(event, path)
        return self._scalar(event, path)

    def _scalar(self, event: yaml.Event, path: Path) -> str | None:
        self.located.values.setdefault(path, _position(event))
        text = str(getattr(event, "value", ""))
        empty = text in {"", "~", "null"} and getattr(event, "style", None) in {None, ""}
        return None if empty else text

    def _mapping(self, event: yaml.Event, path: Path) -> dict[str, Plain]:
        self.located.values.setdefault(path, _position(event))
        result: dict[str, Plain] = {}
        while not isinstance(key := next(self.events), yaml.MappingEndEvent):
            if not isinstance(key, yaml.ScalarEvent):
                self._refuse(key, path, "a key is a plain word here")
                raise _TooDeep
            name = str(key.value)
            inside: Path = (*path, name)
            if name in result:
                first = self.located.keys[inside].line
                self._refuse(key, inside, f"'{name}' stands twice here; the first is in line {first}")
            self.located.keys[inside] = _position(key)
            result[name] = self.node(next(self.events), inside)
        return result

    def _sequence(self, event: yaml.Event, path: Path) -> list[Plain]:
        self.located.values.setdefault(path, _position(event))
        result: list[Plain] = []
        while not isinstance(item := next(self.events), yaml.SequenceEndEvent):
            result.append(self.node(item, (*path, len(result))))
        return result

    def _refuse(self, event: yaml.Event, path: Path, text: str) -> None:
        located = self.located
        located.problems.append(Problem(located.file, _position(event), field_name(path), text))


def _position(event: yaml.Event) -> Position:
    start, end = event.start_mark, event.end_mark
    if start is None or end is None:
        return Position(1, 1)
    same_line = start.line == end.line and isinstance(event, yaml.ScalarEvent)
    return Position(start.line + 1, start.column + 1, max(1, end.column - start.column) if same_line else 1)


def located_yaml(file: str, source: str) -> Located:
    """Read YAML text; what cannot be read is in ``problems``, and ``data`` is None then.

    Args:
        file: the name to print for it.
        source: the text of the file.

    Returns:
        The file with the places of its keys and values.

    Sources:
        YAML 1.1 by PyYAML's event stream; what is refused is our own choice.

    Example:
        >>> located_yaml("a.yaml", "time: 12:30").data
        {'time': '12:30'}
    """
    located = Located(file, source)
    try:
        events = iter(yaml.parse(source, Loader=_Loader))
        for event in events:
            if isinstance(event, yaml.DocumentStartEvent):
                _document(located, events)
    except yaml.MarkedYAMLError as error:
        located.problems.append(_syntax_problem(located, error))
    except yaml.reader.ReaderError as error:
        place = source[: error.position].count("\n") + 1
        text = f"character {error.character!r} cannot stand in a YAML file"
        located.problems.append(Problem(file, Position(place, 1), "", text))
    except _TooDeep:
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
        raise _TooDeep
    located.data = _Reader(located, events).node(first, ())


def _syntax_problem(located: Located, error: yaml.MarkedYAMLError) -> Problem:
    said = f"{error.context or ''} {error.problem or ''}"
    mark = error.problem_mark or error.context_mark
    if "quoted scalar" in said and error.context_mark:
        mark, text = error.context_mark, "this quote is not closed"
    elif "'\\t'" in said or _is_tab(located.source, mark):
        text = "a tab stands here; YAML is indented with spaces"
    elif "mapping values are not allowed" in said:
        text = "a second ': ' in one line; put the text in quotes, like \"ride height: dish down\""
    elif "flow" in said and error.context_mark:
        mark, text = error.context_mark, "this bracket is not closed, or a comma is missing in it"
    elif "block" in said or "could not find expected" in said:
        text = "this line does not fit the ones above; is its indent right, and has it 'name: value'?"
    else:
        text = f"YAML cannot read this ({(error.problem or 'no reason given').strip()})"
    place = Position(mark.line + 1, mark.column + 1) if mark else None
    return Problem(located.file, place, "", text)


def _is_tab(source: str, mark: yaml.Mark | None) -> bool:
    if mark is None:
        return False
    rows = source.splitlines()
    return mark.line < len(rows) and "\t" in rows[mark.line][: mark.column + 1]
