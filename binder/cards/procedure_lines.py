"""Lines of procedures as data: what to look at, what to see, and what follows when it is not so.

On cards that confirm what was done, the killer lines of a group stand first in it: the walk is made
once round and read back afterwards, so their order costs no second walk. On cards that are read and
then done, lines keep the order of the hands.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import TypeAlias

from binder.assessment.conditions import Condition, always
from binder.assessment.procedure_numbers import procedure_number
from binder.cards.blocks import Block, Consequence, Heading, Line, Reason
from binder.models.rig import Rig

Wording: TypeAlias = str | Callable[[Rig], str]
"""Words that are the same for every rig, or that are taken from it."""

MOST_LINES = 9
"""Items before a pause point: Gawande, Boorman and Berry, A checklist for checklists, 2010."""


@dataclass(frozen=True)
class ProcedureLine:
    """One line of a procedure.

    ``challenge`` holds the words on the thing, ``answer`` the value or state to see; ``place`` is the
    group it stands in; ``needs`` the condition on the rig; ``consequence`` what to do when it is not
    so; ``reason`` is empty where the line explains itself.
    """

    challenge: Wording
    answer: Wording
    place: str
    needs: Condition = always
    killer: bool = False
    consequence: Consequence = "fix before moving"
    detail: Wording = ""
    reason: str = ""
    source: str = "practice"


@dataclass(frozen=True)
class Group:
    """A group of lines between two pause points: its place, its heading, and its tick columns."""

    place: str
    heading: Wording
    ticks: int = 0
    killers_first: bool = True


def said(words: Wording, rig: Rig) -> str:
    """Give words as this rig has them."""
    return words if isinstance(words, str) else words(rig)


def with_number(template: str, name: str) -> Wording:
    """Make words that hold one fixed number in the rig's own units."""
    return lambda rig: template.format(procedure_number(name, rig.units))


def lines_of(place: str, lines: Iterable[ProcedureLine], rig: Rig) -> tuple[ProcedureLine, ...]:
    """Choose the lines of one place that this rig has the equipment for."""
    return tuple(line for line in lines if line.place == place and line.needs(rig))


def group_blocks(group: Group, lines: Iterable[ProcedureLine], rig: Rig) -> tuple[Block, ...]:
    """Set one group: its heading and its lines; nothing where the rig has none of them."""
    chosen = lines_of(group.place, lines, rig)
    if not chosen:
        return ()
    ordered = sorted(chosen, key=lambda line: not line.killer) if group.killers_first else chosen
    return (Heading(said(group.heading, rig)), *(_block(line, rig, group.ticks) for line in ordered))


def _block(line: ProcedureLine, rig: Rig, ticks: int) -> Line:
    return Line(
        said(line.challenge, rig),
        said(line.answer, rig),
        said(line.detail, rig),
        line.consequence,
        line.killer,
        ticks,
    )


def reasons_of(groups: Iterable[Group], lines: Iterable[ProcedureLine], rig: Rig) -> tuple[Reason, ...]:
    """List why the lines that do not explain themselves are so."""
    kept = list(lines)
    return tuple(
        Reason(said(line.challenge, rig), line.reason, line.source)
        for group in groups
        for line in lines_of(group.place, kept, rig)
        if line.reason
    )


def listed(names: Iterable[str]) -> str:
    """Join names as a sentence does."""
    every = list(names)
    return " or ".join([", ".join(every[:-1]), every[-1]]) if len(every) > 1 else "".join(every)
