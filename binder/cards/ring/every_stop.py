"""Card 2, Every stop: one walk at each halt, a column of tick cells for each, and fueling behind."""

from collections.abc import Iterator

from binder.assessment.assessment import Assessment
from binder.assessment.conditions import driven, towed
from binder.cards.blocks import Card, Line, Reason
from binder.cards.display import BLANK, Display
from binder.cards.exhaust_fluid_rows import exhaust_fluid_start
from binder.cards.figure_reasons import reason_of
from binder.cards.procedures.facts import listed
from binder.cards.procedures.lines import Part, said_card
from binder.cards.procedures.reading import card_words
from binder.cards.rig_words import overall_height

HEIGHT, TAIL_SWING = "rig.overall_height", "rig.tail_swing"
_FLUID = {
    "Carried can": "container_worth",
    "Exhaust fluid, topped up": "top_up",
    "Exhaust fluid, full tank": "range",
    "Exhaust fluid keeps": "shelf_life",
}
"""Figures of the exhaust fluid that the card's reasons tell; their values stand with the supplies."""
_WRONG_FLUID = (
    "In the wrong tank it is harmless until the key is turned: then the pump carries it everywhere."
)


def every_stop(assessment: Assessment) -> Card:
    """Make the card that is ticked at each halt, with fueling on its back."""
    said = said_card(card_words("every_stop"), assessment, {"fillers": tuple(_fillers(assessment))})
    is_fueled = len(said.sides) > 1
    named = {"Canopy": HEIGHT, "Tail swing": TAIL_SWING} if is_fueled else {}
    fluid = exhaust_fluid_start(assessment)
    named |= {words: f"{fluid}.{key}" for words, key in _FLUID.items()} if fluid and is_fueled else {}
    figures = {name: figure for name, key in named.items() if (figure := assessment.known(key))}
    return Card(
        id="2",
        name="every_stop",
        title=said.title,
        sides=said.sides,
        wrong_as_soon_as=_wrong(assessment),
        reasons=(*said.reasons, *(reason_of(name, figure) for name, figure in figures.items())),
        family="stop",
        rig=assessment.rig.name,
        effective=assessment.on.isoformat(),
        figures=tuple(figure.key for figure in figures.values()),
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
    start = exhaust_fluid_start(assessment)
    apart = assessment.quantity(f"{start}.fillers_apart") if start else None
    if apart is None:
        return ""
    span = Display(assessment.rig.units).text(apart, "span", "up")
    return f"{span} from the fuel's: pull ahead, or use the can"


def _wrong(assessment: Assessment) -> str:
    height = overall_height(assessment)
    over = Display(assessment.rig.units).length(height)
    parts = [
        *([f"higher than {over}"] if height is not None else []),
        "a tank, a filler",
        *[f"the {behind}" for behind, _ in towed(assessment.rig)],
    ]
    return f"{listed(parts)} changed."
