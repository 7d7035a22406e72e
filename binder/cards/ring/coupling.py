"""Card 4, Coupling and uncoupling: read, then done, in the order in which the parts can be joined."""

from binder.assessment.assess import Assessment
from binder.assessment.conditions import carried, is_coupled, towed
from binder.cards.blocks import Blank, Block, Card, Heading, Step
from binder.cards.procedures.conditions import ON_WHEELS, TRAILERS, makers_words, tows_a_car
from binder.cards.procedures.facts import listed
from binder.cards.procedures.lines import said_card
from binder.cards.procedures.reading import card_words
from binder.models.rig import Rig
from binder.models.vehicles import Vehicle
from binder.wording.words import begun

BLANK_STEPS = 4
"""Ruled lines for the maker's procedure where the profile does not give it; most have four to six steps."""


def coupling(assessment: Assessment) -> Card | None:
    """Make the card for joining what is towed, and for parting it."""
    rig = assessment.rig
    if not is_coupled(rig):
        return None
    computed = {
        "trailer in its maker's words": _in_makers_words(rig, TRAILERS),
        "car in its maker's words": _in_makers_words(rig, ON_WHEELS),
    }
    said = said_card(card_words("coupling"), assessment, computed)
    return Card(
        id="4",
        name="coupling",
        title=said.title,
        sides=said.sides,
        wrong_as_soon_as=_wrong(rig),
        reasons=said.reasons,
        family="drive",
        rig=rig.name,
        effective=assessment.on.isoformat(),
    )


def _in_makers_words(rig: Rig, kinds: tuple[str, ...]) -> tuple[Block, ...]:
    """Set the steps a towed vehicle needs, as its maker says them; for a car, ruled lines for them.

    Why: a car cannot be towed without its maker's steps; a trailer's words stand beside lines that hold
    for every trailer, and are left out where they are not given.
    """
    return tuple(
        block
        for name, vehicle in (*towed(rig), *carried(rig))
        if vehicle.kind in kinds
        for block in _makers_steps(name, vehicle, is_needed=(name, vehicle) in towed(rig))
    )


def _makers_steps(name: str, vehicle: Vehicle, *, is_needed: bool) -> tuple[Block, ...]:
    words = makers_words(vehicle)
    if not words and not (is_needed and vehicle.kind in ON_WHEELS):
        return ()
    steps = tuple(Step(text, str(number), killer=True) for number, text in enumerate(words, 1))
    blanks = tuple(Blank(str(number)) for number in range(1, BLANK_STEPS + 1))
    return (Heading(f"{begun(name)}, in its maker's words"), *(steps or blanks))


def _wrong(rig: Rig) -> str:
    links = [
        f"the {link.how} between {link.ahead} and {link.behind}"
        for link in rig.couplings
        if link.behind in dict(towed(rig)) and link.how != "dolly"
    ]
    parts = [*links, *[f"the {name}" for name, _ in (*towed(rig), *carried(rig))]]
    brakes = ", its brake or its maker's procedure" if tows_a_car(rig) else " or its brakes"
    return f"{listed(parts)}{brakes} is changed."
