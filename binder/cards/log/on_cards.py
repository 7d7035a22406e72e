"""Open faults of the log on the card they are of, in their finder's words."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from binder.assessment.assess import Assessment
from binder.assessment.ledger import Finding, Phrase
from binder.assessment.log import kinds
from binder.cards.blocks import Block, Card, End, Heading, Note, Step
from binder.cards.rig_words import words_of
from binder.wording.sentences import as_sentence
from binder.wording.words import Words, shortened

_MOST, _LONGEST = 5, 140
"""Faults that one card tells, the newest, and letters of each: all stands on the cover and in the log."""


def with_log(cards: Iterable[Card], assessment: Assessment) -> tuple[Card, ...]:
    """Add open faults to each card; what is of a card that this rig lacks goes to the first."""
    every, found = tuple(cards), open_faults(assessment)
    if not found:
        return every
    ids = [card.id for card in every]
    by_card: dict[str, list[Finding]] = {}
    for one in found:
        card = str(one.facts.get("card", one.kind.card))
        by_card.setdefault(card if card in ids else ids[0], []).append(one)
    return tuple(_with(card, by_card[card.id], assessment) if card.id in by_card else card for card in every)


def open_faults(assessment: Assessment) -> list[Finding]:
    """Faults that no repair names."""
    return [one for one in assessment.ledger.findings if one.kind is kinds.OPEN_FAULT]


def _blocks(found: list[Finding], assessment: Assessment) -> Iterator[Block]:
    words = words_of(assessment)
    yield Heading(kinds.OPEN)
    for one in found[: -_MOST - 1 : -1]:
        what = shortened(words.found(one).brief, _LONGEST)
        yield Step(as_sentence(what), detail=words.said(kinds.FAULT_FOUND, one.facts))
    yield from _more(found, words)


def _notes(found: list[Finding], assessment: Assessment) -> Iterator[Block]:
    """The same in small type, for a card that would need a side more."""
    words = words_of(assessment)
    told = [shortened(words.found(one).brief, _LONGEST) for one in found[: -_MOST - 1 : -1]]
    yield Note(f"{kinds.OPEN}: {'; '.join(told)}.")
    yield from _more(found, words)


def _more(found: list[Finding], words: Words) -> Iterator[Note]:
    if len(found) > _MOST:
        yield Note(words.said(Phrase(kinds.MORE_OPEN, {"count": len(found) - _MOST})))


def _with(card: Card, found: list[Finding], assessment: Assessment) -> Card:
    blocks, notes = (tuple(way(found, assessment)) for way in (_blocks, _notes))
    front, *others = card.sides
    if others and isinstance(front.blocks[-1], Note):  # What is said once a season makes room.
        return replace(card, sides=(replace(front, blocks=(*front.blocks[:-1], *notes)), *others))
    *first, last = card.sides
    fullest, *shorter = (
        _before_end(wording, said) for wording in (last.blocks, *last.shorter) for said in (blocks, notes)
    )
    return replace(card, sides=(*first, replace(last, blocks=fullest, shorter=tuple(shorter))))


def _before_end(held: tuple[Block, ...], blocks: tuple[Block, ...]) -> tuple[Block, ...]:
    is_ended = bool(held) and isinstance(held[-1], End)
    return (*held[:-1], *blocks, held[-1]) if is_ended else (*held, *blocks)
