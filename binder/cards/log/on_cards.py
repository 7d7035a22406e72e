"""What the log found, on the card it is of: tires that lose air, open faults in their finder's words."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from binder.assessment.assess import Assessment
from binder.assessment.ledger import Finding, Phrase
from binder.assessment.log import kinds
from binder.cards.blocks import Block, Card, End, Heading, Note, Step
from binder.cards.rig_words import words_of
from binder.wording.words import begun, shortened

_MOST, _LONGEST = 5, 140
"""Faults that one card tells, the newest, and letters of each: all stands on the cover and in the log."""


def with_log(cards: Iterable[Card], assessment: Assessment) -> tuple[Card, ...]:
    """Add to each card what the log found of it; what is of a card that this rig lacks goes to the first."""
    every, found = tuple(cards), _found(assessment)
    if not found:
        return every
    ids = [card.id for card in every]
    by_card: dict[str, list[Finding]] = {}
    for one in found:
        card = str(one.facts.get("card", one.kind.card))
        by_card.setdefault(card if card in ids else ids[0], []).append(one)
    return tuple(_with(card, tuple(_blocks(by_card.get(card.id, []), assessment))) for card in every)


def _found(assessment: Assessment) -> list[Finding]:
    return [one for one in assessment.ledger.findings if one.kind in {kinds.LOSES_MORE, kinds.OPEN_FAULT}]


def _blocks(found: list[Finding], assessment: Assessment) -> Iterator[Block]:
    words = words_of(assessment)
    losing = [one for one in found if one.kind is kinds.LOSES_MORE]
    faults = [one for one in found if one.kind is kinds.OPEN_FAULT]
    if losing:
        yield Heading(kinds.LOSING)
        for one in losing:
            told = words.found(one)
            yield Step(begun(told.brief), detail=told.helps)
    if faults:
        yield Heading(kinds.OPEN)
        for one in faults[: -_MOST - 1 : -1]:
            what = shortened(words.found(one).brief, _LONGEST)
            yield Step(begun(what), detail=words.said(kinds.FAULT_FOUND, one.facts))
        if len(faults) > _MOST:
            yield Note(words.said(Phrase(kinds.MORE_OPEN, {"count": len(faults) - _MOST})))


def _with(card: Card, blocks: tuple[Block, ...]) -> Card:
    if not blocks:
        return card
    *others, last = card.sides
    longer = replace(
        last,
        blocks=_before_end(last.blocks, blocks),
        shorter=tuple(_before_end(one, blocks) for one in last.shorter),
    )
    return replace(card, sides=(*others, longer))


def _before_end(held: tuple[Block, ...], blocks: tuple[Block, ...]) -> tuple[Block, ...]:
    is_ended = bool(held) and isinstance(held[-1], End)
    return (*held[:-1], *blocks, held[-1]) if is_ended else (*held, *blocks)
