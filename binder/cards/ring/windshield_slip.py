"""Card 12, the windshield slip: what must be known at a glance, and what a co-driver does first."""

from binder.assessment.assess import Assessment
from binder.assessment.body.kinds import WIDTH_WITH_MIRRORS
from binder.assessment.conditions import is_coupled
from binder.assessment.road.kinds import MARGIN_OF_TRIP
from binder.cards.blocks import Big, Block, Card
from binder.cards.procedures.lines import said_card
from binder.cards.procedures.reading import card_words
from binder.cards.rig_words import HEIGHT, LENGTH, WEIGHT, reason_of, words_of
from binder.quantities import Quantity
from binder.wording.as_written import beside
from binder.wording.measures import CLEARANCE, LOAD, SIZE
from binder.wording.words import Words

_WIDTH, _MARGIN = WIDTH_WITH_MIRRORS.of(), MARGIN_OF_TRIP.of()
_NAMES = {HEIGHT: "Height", _WIDTH: "Width", LENGTH: "Length", WEIGHT: "Weight", _MARGIN: "Lowest bridge"}


def windshield_slip(assessment: Assessment) -> Card:
    """Make the slip that stands at the windshield."""
    words = words_of(assessment)
    figures = {key: figure for key in _NAMES if (figure := assessment.known(key))}
    told = tuple(reason_of(_NAMES[key], words.told(figure)) for key, figure in figures.items())
    computed = {"sizes of the rig": (*_sizes(assessment), *told)}
    said = said_card(card_words("windshield_slip"), assessment, computed)
    return Card(
        id="12",
        name="windshield_slip",
        title=said.title,
        sides=said.sides,
        wrong_as_soon_as=_wrong(assessment),
        reasons=said.reasons,
        family="help",
        rig=assessment.rig.name,
        effective=assessment.on.isoformat(),
        figures=tuple(words.key(key) for key in figures),
    )


def _sizes(assessment: Assessment) -> tuple[Block, ...]:
    words = words_of(assessment)
    height, width, length, weight, room = (
        assessment.quantity(key) for key in (HEIGHT, _WIDTH, LENGTH, WEIGHT, _MARGIN)
    )
    other, heavy = beside(height, SIZE, words.units), beside(weight, LOAD, words.units)
    beside_height = ", ".join(part for part in (other, _spare(room, words)) if part)
    return (
        Big("Height", words.text(height, SIZE), beside_height, 40),
        Big("Width, mirrors out", words.text(width, SIZE), beside(width, SIZE, words.units), 32),
        Big(
            "Length, coupled" if is_coupled(assessment.rig) else "Length",
            words.text(length, SIZE),
            beside(length, SIZE, words.units),
            32,
        ),
        Big("Weight, all of it", words.text(weight, LOAD), f"{heavy}, at its heaviest" if heavy else "", 32),
    )


def _spare(room: Quantity | None, words: Words) -> str:
    if room is None:
        return ""
    return "TOO HIGH: card 5" if room.m < 0 else f"{words.text(room, CLEARANCE)} to spare"


def _wrong(assessment: Assessment) -> str:
    words, parts = words_of(assessment), []
    height, weight = assessment.quantity(HEIGHT), assessment.quantity(WEIGHT)
    if height is not None:
        parts.append(f"the rig stands over {words.text(height, SIZE)}")
    if weight is not None:
        parts.append(f"it weighs over {words.text(weight, LOAD)}")
    return ", ".join([*parts, "anything on the roof or any vehicle of the rig is changed."])
