"""Which figures stand on paper, and how those that read alike share an entry of the numbers page."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from binder.assessment.assessment import Assessment
from binder.assessment.figures import Figure
from binder.assessment.trip_states import trip_states

_CELL = re.compile(r"(.*)\.fill_at[._].*")
_TIRE = re.compile(r"(tires\.[^.]+\.[^.]+)\.[^.]+\.(made|age|tread)")
_SUMMED = {"departure", "everything_full", "heaviest"}
"""States whose loads are explained one by one; the others follow the same rule."""


@dataclass(frozen=True)
class Entry:
    """One or more figures explained together; ``section`` and ``name`` make up the start of their keys."""

    section: str
    name: str
    figures: tuple[Figure, ...]


def printed_entries(assessment: Assessment) -> tuple[Entry, ...]:
    """Group the figures for the numbers page.

    Args:
        assessment: the rig on its trip.

    Returns:
        Entries in the order the figures were made, those of one section together.

    Sources:
        Design: cells of one table, and the tires of one axle, share their rule.

    Example:
        >>> from datetime import date
        >>> from pathlib import Path
        >>> from binder.assessment.assess import assess
        >>> from binder.models.load import load_profile
        >>> entries = printed_entries(assess(load_profile(Path("profiles/larkspur")), date(2026, 6, 1)))
        >>> entries[0].section, entries[0].name
        ('tires.coach.steer', 'load_per_tire')
    """
    groups: dict[tuple[str, str], list[Figure]] = {}
    skipped = {state.key for state in trip_states(assessment.profile)} - _SUMMED
    for figure in assessment.ledger.figures.values():
        if not _is_left_to_summary(figure.key, skipped):
            groups.setdefault(_place(figure.key), []).append(figure)
    entries = [Entry(section, name, tuple(figures)) for (section, name), figures in groups.items()]
    order = list(dict.fromkeys(entry.section for entry in entries))
    return tuple(sorted(entries, key=lambda entry: order.index(entry.section)))


def _is_left_to_summary(key: str, skipped: set[str]) -> bool:
    parts = key.split(".")
    return parts[0] == "weights" and any(part in skipped for part in parts)


def _place(key: str) -> tuple[str, str]:
    if cell := _CELL.fullmatch(key):
        return cell[1], "fill_at"
    if tire := _TIRE.fullmatch(key):
        return tire[1], f"each tire, {tire[2]}"
    parts = key.split(".")
    if parts[0] in {"weights", "tires"} and len(parts) > 3:  # noqa: PLR2004 - vehicle and axle.
        return ".".join(parts[:3]), ".".join(parts[3:])
    if len(parts) > 2:  # noqa: PLR2004 - a subject, a day or coupling, and what is told of it.
        return ".".join(parts[:2]), ".".join(parts[2:])
    return parts[0], ".".join(parts[1:])


def names_told(entry: Entry) -> Iterator[str]:
    """Last words that tell the figures of an entry apart.

    Args:
        entry: with more than one figure.

    Returns:
        For a tire its position, for a cell its temperature, in words.

    Sources:
        Own key grammar.

    Example:
        >>> figure = Figure("tires.car.rear.rear_left.age", 1.0, "calculated", "", "")
        >>> list(names_told(Entry("tires.car.rear", "each tire, age", (figure,))))
        ['rear left']
    """
    for figure in entry.figures:
        rest = figure.key.removeprefix(f"{entry.section}.")
        told = rest.split(".")[0] if entry.name.startswith("each") else rest
        yield told.replace("fill_at_", "").replace("fill_at.", "").replace("_", " ")
