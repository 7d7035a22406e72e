"""Lines of card 10: before the crest, a hot engine, and the weekly test of every kind of brake.

The test is done with the wheels chocked. Lines of air that stand on card 1 too have their reasons there.
"""

from binder.assessment.conditions import (
    AIR_BRAKES,
    BREAKAWAY,
    ELECTRIC_BRAKES,
    EXHAUST_BRAKE,
    HYDRAULIC_BRAKES,
    RETARDER,
    either,
    equipped,
    every,
    never,
)
from binder.cards.procedure_lines import Group, ProcedureLine, with_number
from binder.models.rig import Rig

CREST = Group("crest", "Before the crest", killers_first=False)
HOT_ENGINE = Group("engine", "Hot engine, climbing", killers_first=False)
WEEKLY = Group("weekly", "Every week, on the level")
TRAILER = Group("trailer", "Trailer brakes, every week", killers_first=False)

_HELPED = either(RETARDER, EXHAUST_BRAKE)


def _helper(rig: Rig) -> str:
    names = [*(["retarder"] if RETARDER(rig) else []), *(["exhaust brake"] if EXHAUST_BRAKE(rig) else [])]
    words = ", ".join(names)
    return words[:1].upper() + words[1:]


def _helper_off(rig: Rig) -> str:
    return f"{'Retarder' if RETARDER(rig) else 'Exhaust brake'}, slippery road"


_MAKER = "The brake maker's figure comes first."
_CONTROLLED = every(ELECTRIC_BRAKES, equipped("brake_controller"))

LINES = (
    ProcedureLine(
        "At the brake test place",
        "STOP FIRST",
        "crest",
        consequence="",
        reason="Named for each grade on the back. A brake that fades is found here, not on the grade.",
    ),
    ProcedureLine(
        "Air, warning",
        with_number("OVER {}, SILENT", "air to move"),
        "crest",
        AIR_BRAKES,
        consequence="",
        source="W39",
    ),
    ProcedureLine("Brake pedal, lamp", "FIRM, OUT", "crest", HYDRAULIC_BRAKES, consequence=""),
    ProcedureLine(
        "Hand lever, rolling slowly",
        "TRAILER PULLS",
        "crest",
        _CONTROLLED,
        consequence="",
        reason="A trailer that does not brake pushes.",
    ),
    ProcedureLine(
        "Gear, before the crest",
        "LOW, IN",
        "crest",
        consequence="",
        reason="Low enough that the engine nearly holds the speed. Once the speed has built up no lower gear "
        "goes in, and the one that was in may be lost.",
        source="W39",
    ),
    ProcedureLine(
        _helper,
        "ON",
        "crest",
        _HELPED,
        consequence="",
        reason="It takes work from the brakes, and only at a high engine speed.",
        source="W39",
    ),
    ProcedureLine(
        _helper_off,
        "OFF",
        "crest",
        _HELPED,
        consequence="",
        reason="It brakes the driven wheels alone, and skids them on a wet or icy road.",
        source="W39",
    ),
    ProcedureLine("Gear, throttle", "LOWER, LESS", "engine", consequence=""),
    ProcedureLine(
        "Air conditioner, heater",
        "OFF, FULL ON",
        "engine",
        consequence="",
        reason="The heater is a second radiator; the air conditioner warms the first one.",
    ),
    ProcedureLine("Still rising, off the road", "IDLE, THEN OFF", "engine", consequence=""),
    ProcedureLine(
        "Coolant cap, until cold",
        "SHUT",
        "engine",
        consequence="",
        reason="Under pressure the coolant is over its boiling point, and scalds.",
    ),
    ProcedureLine("Chocks", "IN", "weekly", killer=True, consequence="do not move"),
    ProcedureLine(
        "Pumping up: governor",
        with_number("STOPS, {}", "governor stops"),
        "weekly",
        AIR_BRAKES,
        consequence="do not move",
        reason=f"Lower: no reserve in the tanks. Higher: a valve sticks, and lines burst. {_MAKER}",
        source="W39",
    ),
    ProcedureLine(
        "Pumped down: it starts",
        with_number("AT {} OR OVER", "governor starts"),
        "weekly",
        AIR_BRAKES,
        consequence="do not move",
        reason="Engine running, pedal pumped: the needle rises again from here.",
        source="W39",
    ),
    ProcedureLine(
        with_number("Air build {}", "air build"),
        with_number("WITHIN {}", "air build time"),
        "weekly",
        AIR_BRAKES,
        consequence="do not move",
        source="W39",
    ),
    ProcedureLine(
        with_number("Engine off, released, {}", "air loss time"),
        with_number("LOSS UNDER {}", "air loss, released"),
        "weekly",
        AIR_BRAKES,
        consequence="do not move",
        reason=f"Tanks full, parking brake off, needle read twice; foot on: after the first fall. {_MAKER}",
        source="W39",
    ),
    ProcedureLine(
        with_number("Foot on, {}", "air loss time"),
        with_number("LOSS UNDER {}", "air loss, foot on"),
        "weekly",
        AIR_BRAKES,
        consequence="do not move",
        source="W39",
    ),
    ProcedureLine(
        "Pumped down: warning",
        with_number("BEFORE {}", "air warning"),
        "weekly",
        AIR_BRAKES,
        consequence="do not move",
        source="W39",
    ),
    ProcedureLine(
        "Pumped down: knobs",
        with_number("POP, {}", "knobs pop"),
        "weekly",
        AIR_BRAKES,
        consequence="do not move",
        source="W39",
    ),
    ProcedureLine(
        with_number("Pedal held, {}", "pedal held"),
        "FIRM",
        "weekly",
        never(AIR_BRAKES),
        consequence="do not move",
        reason="Engine running, a steady foot: a pedal that sinks is a leak, or a worn master cylinder.",
    ),
    ProcedureLine(
        "Brake fluid",
        "AT MARK",
        "weekly",
        never(AIR_BRAKES),
        consequence="do not move",
        reason="It falls a little as pads wear; more than that has leaked.",
    ),
    ProcedureLine("Under each wheel", "NO DRIP", "weekly", never(AIR_BRAKES), consequence="do not move"),
    ProcedureLine(
        "Gain, by its manual",
        "NO WHEEL LOCKS",
        "trailer",
        _CONTROLLED,
        consequence="do not move",
        reason="As high as no trailer wheel locks, at the weight carried today: more water, more gain.",
    ),
    ProcedureLine(
        "Breakaway pin, pulled",
        "BRAKE ON",
        "trailer",
        every(ELECTRIC_BRAKES, BREAKAWAY),
        consequence="do not move",
        reason="It must brake at once, and hold; a long test empties its battery.",
        source="49 CFR 393.43",
    ),
    ProcedureLine(
        "Breakaway pin, battery",
        "IN, CHARGED",
        "trailer",
        every(ELECTRIC_BRAKES, BREAKAWAY),
        killer=True,
        consequence="do not move",
    ),
)
