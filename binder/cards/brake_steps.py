"""What is done on the way down and when brakes are hot, as data with conditions."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from binder.assessment.conditions import (
    AIR_BRAKES,
    Condition,
    always,
    never,
)
from binder.cards.blocks import Block, Box, Heading, Reason, Step
from binder.cards.procedure_lines import Wording, said, with_number
from binder.models.rig import Rig


@dataclass(frozen=True)
class ProcedureStep:
    """One command of a group."""

    text: Wording
    place: str
    needs: Condition = always
    reason: str = ""
    source: str = "practice"


@dataclass(frozen=True)
class ProcedureBox:
    """What must stop a hand, between steps."""

    title: str
    place: str
    needs: Condition
    reason: str
    source: str


DOWN, HOT_BRAKES = "down", "hot brakes"
HEADINGS = {DOWN: "On the way down", HOT_BRAKES: "Hot brakes: smoke, smell"}

LANE = "No brakes: take the runaway lane."
"""Said in the box, whatever the brakes: the last thing that is left."""

STEPS: tuple[ProcedureStep | ProcedureBox, ...] = (
    ProcedureStep("At the speed chosen: brake firmly.", DOWN),
    ProcedureStep(
        lambda rig: with_two("{} under it, about {}: release.", "snub speed", "snub time", rig),
        DOWN,
        reason="Firm and short, then rest: a light foot all the way down heats the drums more. The speed "
        "chosen is never over the posted one.",
        source="W39",
    ),
    ProcedureStep("Foot off the pedal until the next.", DOWN),
    ProcedureBox(
        "Air falling? Stop at once.",
        DOWN,
        AIR_BRAKES,
        "The parking brake sets itself when the air is low enough, wherever that is. A runaway lane stops "
        "the rig in gravel or uphill: towed out is better than run away.",
        "W39",
    ),
    ProcedureBox(
        "Pedal sinking? Stop at once.",
        DOWN,
        never(AIR_BRAKES),
        "A pedal that goes farther each time is boiling fluid or a leak: it will not come back by itself. A "
        "runaway lane stops the rig in gravel or uphill: towed out is better than run away.",
        "practice",
    ),
    ProcedureStep("Off the road, level. Chocks in.", HOT_BRAKES),
    ProcedureStep(
        "Parking brake: not hard on smoking drums.",
        HOT_BRAKES,
        reason="Set hard, hot drums may crack as they shrink, or lock.",
    ),
    ProcedureStep(
        with_number("No water on them. Wait {}.", "brakes cool"),
        HOT_BRAKES,
        reason="Water cracks hot iron. Stay out of line with the tires: one may burst. Flames: get away.",
    ),
)


def with_two(template: str, first: str, second: str, rig: Rig) -> str:
    """Make words that hold two fixed numbers in the rig's own units."""
    return said(with_number(said(with_number(template.replace("{}", "{{}}", 1), second), rig), first), rig)


def steps_of(places: Iterable[str], rig: Rig) -> tuple[Block, ...]:
    """Set the groups of some places, their commands numbered through."""
    return tuple(_blocks(places, rig))


def _blocks(places: Iterable[str], rig: Rig) -> Iterator[Block]:
    number = 0
    for place in places:
        yield Heading(HEADINGS[place])
        for one in _shown(place, rig):
            if isinstance(one, ProcedureBox):
                yield Box(one.title, (LANE,), "WARNING")
            else:
                number += 1
                yield Step(said(one.text, rig), str(number))


def _shown(place: str, rig: Rig) -> list[ProcedureStep | ProcedureBox]:
    return [one for one in STEPS if one.place == place and one.needs(rig)]


def step_reasons(places: Iterable[str], rig: Rig) -> tuple[Reason, ...]:
    """List why the steps that do not explain themselves are so."""
    return tuple(
        Reason(_name(one, rig), one.reason, one.source)
        for place in places
        for one in _shown(place, rig)
        if one.reason
    )


def _name(one: ProcedureStep | ProcedureBox, rig: Rig) -> str:
    words = one.title if isinstance(one, ProcedureBox) else said(one.text, rig)
    return words.rstrip(".")
