"""The words of a card said for one rig: conditions decided, facts filled in, killer lines first.

On cards that confirm what was done, the killer lines of a group stand first in it: the walk is made
once round and read back afterwards, so their order costs no second walk. On cards that are read and
then done, lines keep the order of the hands.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from itertools import count
from types import MappingProxyType
from typing import TypeAlias

from binder.assessment.assess import Assessment
from binder.assessment.ledger import Figure
from binder.cards.blocks import (
    Blank,
    Block,
    Box,
    Card,
    Consequence,
    End,
    Heading,
    Line,
    Note,
    ProcedurePage,
    Reason,
    Side,
    Step,
)
from binder.cards.procedures.conditions import is_so
from binder.cards.procedures.facts import fact, listed
from binder.cards.procedures.own_words import LEGEND, OWN, ChangedEntry, with_own_words
from binder.cards.procedures.reading import BRACES
from binder.cards.rig_words import reason_of, words_of
from binder.models.procedures import (
    CardWords,
    Conditional,
    Entry,
    Group,
    IfNot,
    PageWords,
    SideWords,
    Wording,
)

MOST_LINES = 9
"""Items before a pause point: Gawande, Boorman and Berry, A checklist for checklists, 2010."""

Part: TypeAlias = Block | Reason
Computed: TypeAlias = Mapping[str, Iterable[Part]]
"""What a card computes, by the name its file sets it with: blocks, and the reasons that go with them."""


_NOTHING: Computed = MappingProxyType({})
_PRACTICE = "practice"
_NO_FIGURES: Mapping[str, Figure] = MappingProxyType({})


def said_card(
    words: CardWords,
    assessment: Assessment,
    computed: Computed = _NOTHING,
    told: Mapping[str, Figure] = _NO_FIGURES,
) -> Card:
    """Say the words of a card for one rig; the figures it prints are told after its other reasons."""
    sides, reasons = [], []
    for side in with_own_words(words, assessment.profile).sides:
        if applies(side, assessment):
            parts = list(_side_parts(side, assessment, computed))
            blocks = tuple(part for part in parts if not isinstance(part, Reason))
            use = (chosen(side.use, assessment), LEGEND if _has_own(side, assessment) else "")
            sides.append(Side(" ".join(filter(None, use)), blocks, goes_on=side.goes_on))
            reasons += [part for part in parts if isinstance(part, Reason)]
    for why in words.reasons:
        if applies(why, assessment):
            reasons.append(Reason(filled(why.name, assessment), filled(why.reason, assessment), why.source))
    rig_words = words_of(assessment)
    return Card(
        words.number,
        words.card,
        words.title,
        tuple(sides),
        _wrong(words, assessment),
        (*reasons, *(reason_of(name, rig_words.told(figure)) for name, figure in told.items())),
        words.family,
        figures=tuple(rig_words.key(figure.key) for figure in told.values()),
    )


def _wrong(words: CardWords, assessment: Assessment) -> str:
    """List what must not change; a fact may give several things of a kind, or none."""
    said = (filled(one.text, assessment) for one in words.wrong_as_soon_as if applies(one, assessment))
    things = listed(part for text in said for part in text.split("; ") if part) or words.or_else
    so = chosen(words.so, assessment) or "changed."
    if not things:
        return ""
    return f"{things}{so}" if so.startswith(",") else f"{things} {so}"


def applies(words: Conditional, assessment: Assessment) -> bool:
    """Decide whether words belong to this rig."""
    return all(is_so(name, assessment) for name in words.when) and not any(
        is_so(name, assessment) for name in words.unless
    )


def chosen(wordings: Iterable[Wording], assessment: Assessment) -> str:
    """Say the first wording that belongs to this rig; nothing where none does."""
    return next((filled(one.text, assessment) for one in wordings if applies(one, assessment)), "")


def filled(text: str, assessment: Assessment) -> str:
    """Put facts into their braces."""
    return BRACES.sub(lambda braces: fact(braces[1], assessment), text)


def _has_own(side: SideWords, assessment: Assessment) -> bool:
    """Tell whether a line of a side is marked as the owner's own."""
    groups = (group for group in side.groups if applies(group, assessment))
    entries = (entry for group in groups for entry in group.lines if applies(entry, assessment))
    return any(isinstance(entry, ChangedEntry) and not entry.is_left_out for entry in entries)


def _side_parts(side: SideWords, assessment: Assessment, computed: Computed) -> Iterator[Part]:
    yield from _groups_parts(side.groups, assessment, computed)
    if side.end:
        yield End(side.end)


def said_page(words: PageWords, assessment: Assessment, computed: Computed = _NOTHING) -> ProcedurePage:
    """Say the words of a page for one rig; why a line is so stands with it."""
    blocks: list[Block] = []
    for part in _groups_parts(words.groups, assessment, computed):
        if not isinstance(part, Reason):
            blocks.append(part)
        elif isinstance(last := blocks[-1], Line | Step):
            # What is only practice is said once, above.
            origin = "" if part.source == _PRACTICE else f" [{part.origin}]"
            blocks[-1] = replace(last, detail=f"{last.detail} {part.text}{origin}".strip())
    return ProcedurePage(words.page, words.title, chosen(words.intro, assessment), tuple(blocks))


def _groups_parts(groups: Iterable[Group], assessment: Assessment, computed: Computed) -> Iterator[Part]:
    numbers = count(1)
    for group in groups:
        if applies(group, assessment):
            # A group with a heading is a list of its own.
            numbers = count(1) if group.heading else numbers
            yield from _group_parts(group, assessment, computed, numbers)


def _group_parts(
    group: Group, assessment: Assessment, computed: Computed, numbers: Iterator[int]
) -> Iterator[Part]:
    """The heading and the lines of a group; nothing where the rig has none of them."""
    parts = [
        part
        for entry in group.lines
        if applies(entry, assessment)
        for part in (computed[entry.computed] if entry.computed else _said(entry, group, assessment, numbers))
    ]
    if parts and group.heading:
        yield Heading(chosen(group.heading, assessment))
    yield from sorted(parts, key=_is_no_killer) if group.killers_first else parts


def _is_no_killer(part: Part) -> bool:
    return not (isinstance(part, Line) and part.killer)


def _said(entry: Entry, group: Group, assessment: Assessment, numbers: Iterator[int]) -> Iterator[Part]:
    if isinstance(entry, ChangedEntry):
        yield from _own(entry, group, assessment, numbers)
        return
    yield _block(entry, group, assessment, numbers)
    if entry.reason:
        yield Reason(named(entry, assessment), filled(entry.reason, assessment), entry.source)


def _own(entry: ChangedEntry, group: Group, assessment: Assessment, numbers: Iterator[int]) -> Iterator[Part]:
    """A line in the owner's own words, marked; of one that is left out, that it is."""
    name, was = named(entry, assessment), named(entry.was, assessment) if entry.was else ""
    if entry.is_left_out:
        if stops(entry, group):
            yield Note(f"Left out by the owner: {name}.")
        yield Reason(name, "Left out by the owner.", OWN)
        return
    yield _marked(_block(entry, group, assessment, numbers))
    told = [f"In the place of: {was}."] if was else ["Added by the owner."]
    why = [filled(entry.reason, assessment)] if "reason" in entry.model_fields_set and entry.reason else []
    yield Reason(name, " ".join(told + why), OWN)


def _marked(block: Block) -> Block:
    """Set the mark of the owner's own words behind the first words of a line."""
    match block:
        case Line():
            return replace(block, challenge=f"{block.challenge} *")
        case Step() | Note():
            return replace(block, text=f"{block.text} *")
        case Box():
            return replace(block, title=f"{block.title} *")
        case Blank():
            return replace(block, name=f"{block.name} *")
    return block


def named(entry: Entry, assessment: Assessment) -> str:
    """Name a line by its first words."""
    words = entry.challenge or entry.step or entry.box or entry.note or entry.ruled
    return filled(words, assessment).rstrip(".")


def stops(entry: Entry, group: Group) -> bool:
    """Tell whether a line keeps somebody from moving, or is itself something to be done."""
    forbids = bool(entry.challenge) and if_not(entry, group) in {"do not move", "fix before moving"}
    return forbids or bool(entry.step or entry.box)


def _block(entry: Entry, group: Group, assessment: Assessment, numbers: Iterator[int]) -> Block:
    if entry.challenge:
        challenge, answer, detail = (
            filled(text, assessment) for text in (entry.challenge, entry.answer, entry.detail)
        )
        return Line(challenge, answer, detail, _SAID[if_not(entry, group)], entry.killer, group.ticks)
    if entry.step:
        number = str(next(numbers)) if entry.numbered and not entry.indented else ""
        return Step(filled(entry.step, assessment), number, indent=entry.indented)
    if entry.box:
        below = tuple(filled(text, assessment) for text in entry.below)
        return Box(filled(entry.box, assessment), below, entry.signal or "")
    return Blank(filled(entry.ruled, assessment)) if entry.ruled else Note(filled(entry.note, assessment))


_SAID: Mapping[IfNot, Consequence] = {
    "do not move": "DO NOT MOVE",
    "fix before moving": "FIX FIRST",
    "go": "OK TO GO",
    "nothing": "",
}


def if_not(entry: Entry, group: Group) -> IfNot:
    """What follows when it is not so: as the line says, else as its group does, else as is usual."""
    usual: IfNot = "do not move" if entry.killer else "fix before moving"
    return entry.if_not or group.if_not or usual
