"""Kinds of sitting it out and of the water question: their rules, sources, cautions and sentences."""

from collections.abc import Mapping
from dataclasses import replace
from typing import NamedTuple

from binder.assessment.ledger import FigureKind, FindingKind, InputKind
from binder.assessment.supplies.kinds import AS_PLANNED

_SOURCE = "trip plan; profile; practice; arithmetic"

# Resources, beside the contents of tanks.
GENERATOR_FUEL = "generator fuel"
RATION: Mapping[str, tuple[str, ...]] = {
    "gray water": ("Wash dishes in a basin.", "Shower less.", "Carry rinse water out where it is allowed."),
    "black water": ("Use campground toilets.", "Flush with less."),
    "fresh water": ("Drink first, wash last.", "Paper plates.", "Showers short."),
    "propane": ("Lower the thermostat.", "Close off rooms.", "Cook once a day."),
    "house battery": ("Lamps, fans off.", "Heat turned low.", "Inverter off."),
    GENERATOR_FUEL: ("Run it shorter.", "Run it at full load.", "Run it when batteries are lowest."),
    "food": ("Eat what spoils first.", "Stretch the rest."),
    "medicine": ("Never stretch a dose.", "Call who prescribed it."),
}
"""Steps that stretch each."""

# Words that stand inside other sentences.
WITH_LEVELS_AT_START = "with the levels at the start"
WITH_PART_FULL = "if fresh water were {fill:volume down} at the start (practice)"
AT_END: Mapping[str, str] = {
    "arriving": "reaching {place}, day {day}",
    "leaving": "leaving {place}, day {day}",
}
WITH_HALF_THE_USE = "{place}, with half the use of {names:and}"
NAMES, STEPS = "{names:and}", "{steps:sentences}"
THEN = "then {names:and} at {time:days}"
ENGINE_NOT_COUNTED = "What the engine charges while driving is not counted."

# Inputs.
HELD = InputKind("held", "{value:volume down}", "trip plan")
USED_A_DAY = InputKind("used a day", "{value:volume up}", "trip plan, use")
ROOM = InputKind("room", "{value:volume down}", "trip plan")
FLOWS_IN_A_DAY = InputKind("flows in a day", "{value:volume up}", "practice")
USABLE = InputKind("usable", "{value:charge}", "profile; practice")
SHARE_IN_COLD = InputKind("of its capacity in the cold", "{value:percent down}", "S-TM10-6140")
CUT_OFF = InputKind("cut-off", "{value:volume up}", "profile; a quarter where it says none")
CUT_OFF_OF_HOURS = InputKind("cut-off", "{value:volume up}", "profile; practice")
CASE = InputKind("case", "{value}", "trip plan")
ENDS_AT = InputKind("{resource}", "{value:days}", _SOURCE)
LESS_WATER = InputKind("less fresh water", "{value:volume down}", "trip plan; practice")

# Figures of sitting it out, first as they end a key.
UNKNOWN, UNUSED, LACKING = "unknown", "unused", "lacking"
_HELD_OVER_USE = "what is held over its use"
_DAYS_OF = FigureKind(
    "{resource}.days",
    "days",
    {
        "": _HELD_OVER_USE,
        UNKNOWN: f"{_HELD_OVER_USE}; an amount or a use is not known",
        UNUSED: f"{_HELD_OVER_USE}; nothing of it is used",
        "stated": AS_PLANNED,
        "unstated": "the plan does not say",
    },
    {"stated": "trip plan", "unstated": "trip plan", "": _SOURCE},
    {"stated": "assumed", "unstated": "assumed", "": "calculated"},
    unknown_makes_it="lower",
)
_DAYS = FigureKind(
    "days",
    "days",
    "the resource that ends first",
    _SOURCE,
    cautions={LACKING: ("Not counted, since not known: {lacking}.",), "": ()},
    unknown_makes_it="lower",
)
_NIGHT_LOW = FigureKind("night_low", "temperature down", AS_PLANNED, "trip plan", "assumed")
_RATION_FIRST = FigureKind(
    "ration_first", "text", "what stretches the resource that ends first", "practice", "assumed"
)
_GENERATOR_HOURS = FigureKind(
    "generator_fuel.hours",
    "duration down",
    "running hours on the fuel over its cut-off, at full load",
    _SOURCE,
)


def _at(start: str, kind: FigureKind) -> FigureKind:
    return replace(kind, key=f"{start}.{kind.key}")


class Ends(NamedTuple):
    """After how many days the first resource ends, which that is, and which is next."""

    days: FigureKind
    binding: FigureKind
    following: FigureKind


def _ends(start: str) -> Ends:
    named = (_at(start, replace(_DAYS, key=key, measure="text")) for key in ("ends_first", "ends_next"))
    return Ends(_at(start, _DAYS), *named)


class Stay(NamedTuple):
    """All that is entered of sitting it out at one place."""

    night_low: FigureKind
    days_of: FigureKind
    ends: Ends
    ration_first: FigureKind
    rationed: Ends
    with_generator: Ends
    generator_hours: FigureKind


def _stay(start: str, night_low: FigureKind, days_of: FigureKind, generator_hours: FigureKind) -> Stay:
    return Stay(
        _at(start, night_low),
        _at(start, days_of),
        _ends(start),
        _at(start, _RATION_FIRST),
        _ends(f"{start}.rationed"),
        _ends(f"{start}.with_generator"),
        _at(start, generator_hours),
    )


_OF_A_STAY = _NIGHT_LOW, _DAYS_OF, _GENERATOR_HOURS
AT_START = _stay("sitting_out", *_OF_A_STAY)
# Of whichever place is named as the worst: another blank names another place.
LEAST = _stay("sitting_out.least", *(replace(kind, unknown_makes_it="either") for kind in _OF_A_STAY))
LEAST = LEAST._replace(
    rationed=LEAST.rationed._replace(days=replace(LEAST.rationed.days, unknown_makes_it="either"))
)
"""With the levels at the start, and at the moment of the trip where it is shortest."""
AT_MOMENT = _ends("sitting_out.day_{day}.stop_{stop}.{end}")
LEAST_PLACE = FigureKind(
    "sitting_out.least.place",
    "text",
    "of every arrival and departure of the plan the one from which what there is ends soonest",
    _SOURCE,
)
PART_FULL, PART_FULL_DAYS_OF = _ends("sitting_out.part_full"), _at("sitting_out.part_full", _DAYS_OF)
PART_FULL_HELD = FigureKind(
    "sitting_out.part_full.held", "volume up", "a common part fill", "practice", "assumed"
)
WEIGHT_SAVED = FigureKind(
    "sitting_out.part_full.weight_saved",
    "weight up",
    "weight of the water that is left behind",
    "S-AP42A; practice",
)
BY_LEVEL = FigureKind(
    "sitting_out.by_level.{resource}.{share}",
    "days",
    {
        "room": "with {share} left of the room in its tank, at the use of the plan",
        "charge": "with {share} left of the part that may be drawn, at the use of the plan",
        "": "with {share} left of what its tank holds, at the use of the plan",
    },
    "profile; trip plan; practice; arithmetic",
    unknown_makes_it="lower",
)
LASTS_MISSING = FindingKind(
    "missing",
    10,
    "The plan does not say for how many days {resource} is aboard.",
    "Enter it in lasts:, like {{{resource}: 6 days}}.",
    card="11",
    path="trip plan, lasts.{resource}",
)

# The water question.
_FILL = "water.fresh.{fill}"
_AXLE = "water.{vehicle}.{axle}.{fill}"
_STATICS = "statics; trip plan"
_ALONE = "With this much fresh water and all else as {state}"
_RATING_LESS_LOAD = "The rating less the load."
FRESH_WATER = InputKind("fresh water", "{value:volume}", "{fill}")
FRESH_LASTS = InputKind("fresh water", "{value:days}")
WASTE_LASTS = InputKind("{waste} water", "{value:days}", "sitting_out")
HEAVIER_END_INPUT = InputKind("heavier wheel end", "{value:weight up}")
NAMES_OF_ENDS = "{names}"
FILL_VOLUME = FigureKind(
    f"{_FILL}.volume",
    "volume up",
    "What the fresh tanks hold full, part (a common part fill: practice) and empty.",
    "profile; practice",
)
FILL_WEIGHT = FigureKind(f"{_FILL}.weight", "weight up", "Volume times the density of water.", "S-AP42A")
FILL_DAYS = FigureKind(
    f"{_FILL}.days",
    "days",
    "What can be drawn over the water used a day.",
    "trip plan; arithmetic",
    unknown_makes_it="lower",
)
FILL_STAY = FigureKind(
    f"{_FILL}.stay",
    "days",
    "The first of fresh, gray and black water to end.",
    "trip plan; arithmetic",
    unknown_makes_it="lower",
)
FILL_ENDS_FIRST = replace(FILL_STAY, key=f"{_FILL}.ends_first", measure="text")
AXLE_LOAD = FigureKind(f"{_AXLE}.load", "weight up", f"{_ALONE}, moved by statics.", _STATICS)
HEAVIER_END = FigureKind(f"{_AXLE}.heavier_end", "weight up", "The heavier wheel end, {by}.", _STATICS)
AXLE_MARGIN = FigureKind(
    f"{_AXLE}.margin", "weight down", "The gross axle weight rating less the load.", "49 CFR 571.3"
)
SET_POINT = FigureKind(
    f"{_AXLE}.set_point",
    "pressure up",
    "Set-point that this state alone would ask for, by the rules of card 3.",
    "practice; stated",
    cautions=("Fill tires to card 3: its pressures hold in every state of the trip.",),
)
TOTAL_LOAD = FigureKind("water.{vehicle}.total.{fill}.load", "weight up", f"{_ALONE}.", _STATICS)
TOTAL_MARGIN = FigureKind(
    "water.{vehicle}.total.{fill}.margin", "weight down", _RATING_LESS_LOAD, "49 CFR 571.3"
)
COMBINATION_LOAD = replace(TOTAL_LOAD, key="water.combination.{fill}.load")
COMBINATION_MARGIN = replace(TOTAL_MARGIN, key="water.combination.{fill}.margin")
