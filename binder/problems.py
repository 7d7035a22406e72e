"""Problems: what is wrong with the input, where, and what is needed instead.

Three kinds of bad news, kept apart::

    Exception
    |-- InputProblems      the input is wrong: printed with its places, nothing written, exit 2
    |   (a *finding* is no exception: the input is right and the answer is bad; it is printed)
    `-- anything else      a bug of ours: a traceback
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import NamedTuple, TypeAlias

Path: TypeAlias = tuple[str | int, ...]


class Position(NamedTuple):
    """A place in a file: line and column counted from 1, and how many characters to underline."""

    line: int
    column: int
    length: int = 1


@dataclass(frozen=True)
class Problem:
    """One thing that is wrong with the input.

    ``file`` as it is to be printed; ``position`` None where the whole file or folder is meant;
    ``field`` is the dotted path of the entry, empty where there is none.
    """

    file: str
    position: Position | None
    field: str
    text: str
    hint: str = ""


class InputProblems(Exception):
    """All problems of the input at once, with the source lines they point at."""

    def __init__(self, problems: Iterable[Problem], sources: Mapping[str, str] | None = None) -> None:
        """Keep the problems in file order."""
        self.problems = sorted(
            problems, key=lambda problem: (problem.file, problem.position or Position(0, 0))
        )
        self.sources = dict(sources or {})
        super().__init__(f"{len(self.problems)} problems")

    def __str__(self) -> str:
        return problems_as_text(self.problems, self.sources)


def field_name(path: Path) -> str:
    """Name an entry of a file by its dotted path."""
    text = ""
    for part in path:
        text += f"[{part + 1}]" if isinstance(part, int) else f".{part}" if text else str(part)
    return text


def problems_as_text(problems: list[Problem], sources: Mapping[str, str]) -> str:
    """Write problems as a person reads them: place, what is wrong, the line, a caret."""
    lines = [line for problem in problems for line in _one_as_lines(problem, sources)]
    files = sorted({problem.file for problem in problems})
    count = f"{len(problems)} problem{'s' if len(problems) != 1 else ''}"
    return "\n".join([*lines, f"{count} in {' and '.join(files)}; nothing was written."])


def _one_as_lines(problem: Problem, sources: Mapping[str, str]) -> list[str]:
    field = f"{problem.field}: " if problem.field else ""
    if problem.position is None:
        lines = [f"{problem.file}: error: {field}{problem.text}"]
    else:
        place = f"{problem.position.line}:{problem.position.column}"
        lines = [f"{problem.file}:{place}: error: {field}{problem.text}"]
        lines += _quoted(problem.position, sources.get(problem.file, ""))
    return lines + ([f"  hint: {problem.hint}"] if problem.hint else [])


def _quoted(position: Position, source: str) -> list[str]:
    rows = source.splitlines()
    if position.line > len(rows):
        return []
    row = rows[position.line - 1]
    before = "".join("\t" if letter == "\t" else " " for letter in row[: position.column - 1])
    carets = "^" * max(1, min(position.length, len(row) - position.column + 1))
    return [f"{position.line:>6} | {row}", f"       | {before}{carets}"]
