"""The cards of the ring in order: which a rig has, each with its content code and its address."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import TypeAlias

from binder.assessment.assess import Assessment
from binder.cards.address import log_target
from binder.cards.blocks import Card
from binder.cards.codes import content_code
from binder.cards.log.on_cards import open_faults, with_log
from binder.cards.procedures.lines import said_card
from binder.cards.procedures.own_words import own_cards
from binder.cards.ring.brakes_and_grades import brakes_and_grades
from binder.cards.ring.day_sheet import day_sheets
from binder.cards.ring.fire import fire
from binder.cards.ring.fixed_cards import breakdown, coupling, every_stop, leaving, windshield_slip
from binder.cards.ring.sitting_out import sitting_out
from binder.cards.ring.tire_failure import tire_failure
from binder.cards.ring.tires import tires
from binder.cards.ring.towing import towing

_Made: TypeAlias = Card | tuple[Card, ...] | None
RING: Mapping[str, Callable[[Assessment], _Made]] = MappingProxyType(
    {
        "leaving": leaving,
        "every_stop": every_stop,
        "tires": tires,
        "coupling": coupling,
        "day_sheet": day_sheets,
        "breakdown": breakdown,
        "towing": towing,
        "tire_failure": tire_failure,
        "fire": fire,
        "brakes_and_grades": brakes_and_grades,
        "sitting_out": sitting_out,
        "windshield_slip": windshield_slip,
    }
)
"""Names of the cards in the order of the ring, with what makes each; a rig may lack some."""


def ring(assessment: Assessment) -> tuple[Card, ...]:
    """Cards of the ring in order, finished: code, address, rig and effective date."""
    return tuple(_finished(card, assessment) for card in with_log(_cards(assessment), assessment))


def card_again(card: Card, assessment: Assessment) -> Card | None:
    """Make a card, and no other, from another assessment; None where there is none like it."""
    made: Iterable[Card]
    if open_faults(assessment):
        # Which card tells of one depends on which cards there are.
        made = with_log(_cards(assessment), assessment)
    else:
        made = _made(RING[card.name], assessment) if card.name in RING else _own_cards(assessment)
    return next((_finished(one, assessment) for one in made if one.id == card.id), None)


def _cards(assessment: Assessment) -> Iterator[Card]:
    for make in RING.values():
        yield from _made(make, assessment)
    yield from _own_cards(assessment)


def _made(make: Callable[[Assessment], _Made], assessment: Assessment) -> tuple[Card, ...]:
    made = make(assessment)
    return (made,) if isinstance(made, Card) else made or ()


def _own_cards(assessment: Assessment) -> Iterator[Card]:
    for own, words in own_cards(assessment.profile):
        card = said_card(words, assessment)
        sides = tuple(side for side in card.sides if side.blocks)
        if sides:
            yield replace(card, sides=sides, sets=tuple(own.sets))


def _finished(card: Card, assessment: Assessment) -> Card:
    named = replace(card, rig=assessment.rig.name)
    code = content_code(named)
    log = assessment.rig.log
    target = log_target(log, card.id, code) if log else ""
    return replace(named, code=code, target=target, effective=assessment.on.isoformat())
