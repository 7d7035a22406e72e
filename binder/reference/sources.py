"""The bibliography: every source a number may name, with its grade and where it is found.

Grades: A = regulation, standard, handbook, a maker's own text; B = trade press, catalog, library;
C = a secondary page; the words ``textbook``, ``practice``, ``memory``, ``measured`` and ``stated``
say that there is no publication behind the number.
"""

import csv
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from types import MappingProxyType

_TABLES = files("binder.reference").joinpath("tables")


@dataclass(frozen=True)
class Source:
    """One entry of the bibliography."""

    id: str
    title: str
    grade: str
    locator: str


def rows_of_table(name: str) -> list[dict[str, str]]:
    """Read one table of the reference data that come with the package.

    Args:
        name: the file's name without its ending.
    Returns: One mapping of column to text for each row.
    Raises: FileNotFoundError: there is no such table.
    Sources: Each row carries its own in the column ``source_id``.

    >>> rows_of_table("freeze_points")[0]["fluid"]
    'ethylene glycol'
    """
    text = _TABLES.joinpath(f"{name}.csv").read_text(encoding="utf-8")
    return list(csv.DictReader(text.splitlines()))


@cache
def bibliography() -> Mapping[str, Source]:
    """Read all sources, once and only where one is looked up.

    Returns: Each source by its id.
    Sources: The bibliography itself.

    >>> bibliography()["W10"].title
    'FHWA Q&A, 23 CFR 658.15'
    """
    rows = rows_of_table("sources")
    return MappingProxyType(
        {
            row["source_id"]: Source(row["source_id"], row["title"], row["grade"], row["locator"])
            for row in rows
        }
    )


def source(source_id: str) -> Source:
    """Find one source of the bibliography.

    Args:
        source_id: such as ``S04``, ``W40``, ``S-J300``, ``49 CFR 393.75`` or ``practice``.
    Returns: The source.
    Raises: KeyError: the bibliography does not know it; a number without an origin is a bug.
    Sources: The bibliography itself.

    >>> source("49 CFR 393.75").grade
    'A'
    """
    return bibliography()[source_id]


def source_ids(text: str) -> tuple[str, ...]:
    """Split the sources a figure names.

    Args:
        text: ids separated by semicolons, such as ``S50; practice``.
    Returns: The ids in their order, without repeats.
    Raises: KeyError: the bibliography does not know one of them.

    >>> source_ids("S50; practice")
    ('S50', 'practice')
    """
    names = [name.strip() for name in text.split(";") if name.strip()]
    return tuple(source(name).id for name in dict.fromkeys(names))
