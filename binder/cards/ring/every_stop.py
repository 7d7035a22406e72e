"""Card 2, Every stop: one walk at each halt, a column of tick cells for each, and fueling behind."""

from collections.abc import Iterator

from binder.assessment.assess import Assessment
from binder.assessment.body.kinds import OVERALL_HEIGHT, TAIL_SWING
from binder.assessment.conditions import driven, towed
from binder.assessment.supplies import kinds
from binder.cards.blocks import Card, Line, Reason
from binder.cards.pages.supplies_along_trip import exhaust_fluid_tank
from binder.cards.procedures.facts import listed
from binder.cards.procedures.lines import Part, said_card
from binder.cards.procedures.reading import card_words
from binder.cards.rig_words import overall_height, reason_of, words_of
from binder.wording.measures import SIZE, SPAN
from binder.wording.numbers import BLANK

_FLUID = {
    "Carried can": kinds.CONTAINER_WORTH,
    "Exhaust fluid, topped up": kinds.TOP_UP,
    "Exhaust fluid, full tank": kinds.FLUID_RANGE,
    "Exhaust fluid keeps": kinds.SHELF_LIFE,
}
"""Figures of the exhaust fluid that the card's reasons tell; their values stand with the supplies."""
_WRONG_FLUID = (
    "In the wrong tank it is harmless until the key is turned: then the pump carries it everywhere."
)


def every_stop(assessment: Assessment) -> Card:
    """Make the card that is ticked at each halt, with fueling on its back."""
    said = said_card(card_words("every_stop"), assessment, {"fillers": tuple(_fillers(assessment))})
    words, is_fueled = words_of(assessment), len(said.sides) > 1
    named = {"Canopy": OVERALL_HEIGHT.of(), "Tail swing": TAIL_SWING.of()} if is_fueled else {}
    tank = exhaust_fluid_tank(assessment)
    named |= {name: kind.of(*tank) for name, kind in _FLUID.items()} if tank and is_fueled else {}
    figures = {name: figure for name, key in named.items() if (figure := assessment.known(key))}
    return Card(
        id="2",
        name="every_stop",
        title=said.title,
        sides=said.sides,
        wrong_as_soon_as=_wrong(assessment),
        reasons=(*said.reasons, *(reason_of(name, words.told(figure)) for name, figure in figures.items())),
        family="stop",
        rig=assessment.rig.name,
        effective=assessment.on.isoformat(),
        figures=tuple(words.key(figure.key) for figure in figures.values()),
    )


def _fillers(assessment: Assessment) -> Iterator[Part]:
    """A line for each filler that is reached at a pump."""
    tanks = driven(assessment.rig)[1].tanks
    for name, tank in tanks.items():
        if tank.holds in {"diesel", "gasoline", "exhaust fluid"}:
            alone = sum(other.holds == tank.holds for other in tanks.values()) == 1
            challenge = f"Filler, {tank.holds if alone else name}"
            where = (tank.filler or BLANK).upper()
            if tank.holds == "exhaust fluid":
                yield Line(challenge, f"{where}, BLUE CAP", _apart(assessment))
                yield Reason(challenge, _WRONG_FLUID, "practice")
            else:
                yield Line(challenge, where)


def _apart(assessment: Assessment) -> str:
    """Say how far the exhaust fluid's filler is from the fuel's, where both are on one side."""
    tank = exhaust_fluid_tank(assessment)
    apart = assessment.quantity(kinds.FILLERS_APART.of(*tank)) if tank else None
    if apart is None:
        return ""
    return f"{words_of(assessment).text(apart, SPAN)} from the fuel's: pull ahead, or use the can"


def _wrong(assessment: Assessment) -> str:
    height = overall_height(assessment)
    parts = [
        *([f"higher than {words_of(assessment).text(height, SIZE)}"] if height is not None else []),
        "a tank, a filler",
        *[f"the {behind}" for behind, _ in towed(assessment.rig)],
    ]
    return f"{listed(parts)} changed."
