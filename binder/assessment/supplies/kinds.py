"""Kinds of figures and findings of supplies along the trip: their rules, sources, cautions and sentences."""

from collections.abc import Mapping
from dataclasses import replace
from functools import partial
from typing import NamedTuple

from binder.assessment.ledger import FigureKind, FindingKind, InputKind, Key

AS_PLANNED = "as the plan states it"
HOUSE_BATTERY = "house battery"
WASTE = frozenset({"gray water", "black water"})
"""Tanks that fill: their levels are rounded up, all others down."""
_TANK = "supplies.{vehicle}.{tank}"
_BATTERY = "supplies.{vehicle}.{bank}_battery"
_SOURCE = "trip plan; arithmetic"
_PAGE = "supplies_along_trip"


class AtMoments(NamedTuple):
    """One kind of figure at each moment of a trip: on reaching or leaving a stop, and as a day starts."""

    at_stop: FigureKind
    at_start: FigureKind

    def of(self, subject: tuple[str, str], day: int, stop: int, end: str) -> Key:
        """The key for one tank or battery at one moment; stop 0 is where the day starts."""
        return self.at_stop.of(*subject, day, stop, end) if stop else self.at_start.of(*subject, day)


def _at_moments(kind: FigureKind) -> AtMoments:
    """Make two kinds of one, whose key says ``MOMENT`` for the moment it is of."""
    moments = ("day_{day}.stop_{stop}.{end}", "day_{day}.start")
    return AtMoments(*(replace(kind, key=kind.key.replace("MOMENT", moment)) for moment in moments))


# Words that stand inside other sentences.
ON_THE_WAY, AT_STOP = "Day {day}, on the way to {place}", "Day {day}, at {place}"
ON_REACHING, AT_PLACE = "on reaching {place}", "at {place}"
STOP_OF_DAY = "{place} (day {day})"
FILL_AT_LAST = "Fill at {stop}, the last place before it"
FILL_AT, FILL_BEFORE_LEAVING = "Fill at {stop}", "Fill before leaving"
PLAN_TO_FILL = "Plan a place to fill it before"
DUMP_AT, DUMP_BEFORE_LEAVING = "Dump at {stop}", "Dump before leaving"
PLAN_TO_DUMP = "Plan a place to dump before it"
WITHOUT_STATEMENT = "by what was filled and used it would be {by_walk:volume nearest}"
LEAST_AT = "{moment:small}"
TO_LAST_DROP = "{to_empty:distance down} to the last usable drop"
ELSE_LEFT, ELSE_EMPTY = "{left:volume down} {where}", "empty before {place}"
ELSE, ELSE_UNDER_RESERVE = "else {then}", "else {then}; reserve {kept:volume up}"
ELSE_HOLDS, ELSE_OVER_FULL = "else {holds:volume up} {where}", "else over full {where}"

# What is told of the use of one kind of contents.
SPLIT = "Of the water used, {share:percent} is counted to black, the rest to gray (practice, no source)."
FILLED_TO_MOST = "Usable is not given: {most:percent} of the tank is counted full (29 CFR 1910.110)."
ONE_PROPANE_USE = "One figure for every night: a furnace burns more on a cold one."
HEATER_NOT_COUNTED = "What the heater burns is not counted: its hours are not given."

# Inputs.
OF_THE_TANK = InputKind("share of the full tank", "{value:percent}", "profile")
MOVED: Mapping[str, InputKind] = {
    what: InputKind(what, "{value:volume up}", "since the moment before")
    for what in ("filled", "used", "dumped", "spilled")
}
"""What can happen to a tank between two moments: inputs of its level, where it did."""
USABLE_WHEN_FULL = InputKind("usable when full", "{value:volume down}", "profile")
RESERVE_OF_RANGE = InputKind(
    "reserve", "{value:volume up}", "trip plan, rules; a quarter where it gives none"
)
RESERVE_OF_STOP = InputKind("reserve", "{value:volume up}", "trip plan, rules; practice")
TANK = InputKind("tank")
MOST_BY_THEN = InputKind("most by then", "{value:volume up}", "trip plan; arithmetic")
DOSING = InputKind("exhaust fluid", "{value:percent as stated} of the fuel", "trip plan, use")
LOGGED_DOSING = InputKind("exhaust fluid", "{value:percent as stated} of the fuel", "figure {origin}")
LOGGED_USE = InputKind("fuel use", "{value:fuel use up}", "figure {origin}")
USUAL_DOSING = InputKind("exhaust fluid", "{value:percent} to {most:percent} of the fuel", "S-FOSTER")
CONTAINER_HELD = InputKind("held", "{value:as written}")
FILLER = InputKind("filler of the {filled}", "{value}", "profile")
HOTTEST = InputKind("hottest", "{value:temperature up}", "trip plan")

# Figures along the trip.
_level = FigureKind(
    f"{_TANK}.MOMENT",
    "volume down",
    {
        "stated": AS_PLANNED,
        "start": AS_PLANNED,
        "walked": "what it held before, and what was filled, used, dumped and spilled since",
        "": "not known: the level before it, what was used, or the capacity is not",
    },
    {"start": "trip plan", "": _SOURCE},
    {"stated": "assumed", "stated_unknown": "assumed", "start": "assumed", "": "calculated"},
)
LEVEL = _at_moments(_level)
WASTE_LEVEL = _at_moments(replace(_level, measure="volume up"))


def level_of(contents: str) -> AtMoments:
    """The kind of level of a tank by what it holds."""
    return WASTE_LEVEL if contents in WASTE else LEVEL


CHARGE = _at_moments(
    FigureKind(
        f"{_BATTERY}.MOMENT",
        "charge down",
        {
            "start": "a rig leaves with its batteries charged",
            "": "usable charge left; what the engine charges while driving is not counted",
        },
        {"start": "practice", "": _SOURCE},
        {"start": "assumed", "": "calculated"},
    )
)
RANGE_LEFT = _at_moments(
    FigureKind(
        f"{_TANK}.MOMENT.range_left",
        "distance down",
        "fuel over the reserve, over its use; below zero: under the reserve",
        _SOURCE,
    )
)
_LEAST, _MOST = "the least it holds along the trip", "the most it holds along the trip"
LOWEST = FigureKind(
    f"{_TANK}.lowest", "volume down", {"known": _LEAST, "": f"{_LEAST}; a level is not known"}, _SOURCE
)
HIGHEST = FigureKind(
    f"{_TANK}.highest", "volume up", {"known": _MOST, "": f"{_MOST}; a level is not known"}, _SOURCE
)
SHARE_TO_BLACK = FigureKind(
    "supplies.share_to_black",
    "percent up",
    {
        "stated": AS_PLANNED,
        "": "of the water used, this share is counted to the black tank, the rest to gray",
    },
    {"stated": "trip plan", "": "practice"},
    "assumed",
)
RESERVE = FigureKind(
    f"{_TANK}.reserve",
    "volume up",
    "kept in the tank: the plan's rule, else a quarter",
    "trip plan; practice",
)
NIGHTS = FigureKind("supplies.day_{day}.nights", "number", AS_PLANNED, "trip plan", "assumed")
_TO_RESERVE = "from full down to the reserve"
RANGE = FigureKind(
    f"{_TANK}.range",
    "distance down",
    {"known": _TO_RESERVE, "": f"{_TO_RESERVE}; a capacity or the use is not known"},
    "trip plan; arithmetic; practice",
)
WITHOUT_FILLING = FigureKind(
    f"{_TANK}.day_{{day}}.stop_{{stop}}.without_filling_margin",
    "volume down",
    "what is left over the reserve until the next stop that fills, were this one passed",
    "trip plan; arithmetic; practice",
)
WITHOUT_DUMPING = FigureKind(
    f"{_TANK}.day_{{day}}.stop_{{stop}}.without_dumping_margin",
    "volume down",
    "room left in the tank until the next stop that dumps, were this one passed",
    "trip plan; arithmetic; practice",
)

# Figures of the exhaust fluid.
CONTAINER_WANTED = "wants a container: its filler is on the other side from the fuel's"
AT_THE_PUMP = "at the pump: its filler is on the side of the fuel's"
AT_THE_PUMP_APART = f"{AT_THE_PUMP}, {{apart:span up}} apart"
OF_PROFILE, OF_SPARES, NONE_NOTED = (
    "profile",
    "profile, spares",
    "practice: a common container; none is noted",
)
_LOW_FLUID = ("Low or bad fluid may slow the engine to 5 mph within hours: see your engine's manual.",)
_BAY = ("A bay in the sun is hotter than the air.",)
_USE = "distance, fuel use and share of the fuel, over the whole trip"
USE_HIGH = FigureKind(
    f"{_TANK}.use_high",
    "volume up",
    {"known": _USE, "": f"{_USE}; one of them is not known"},
    "trip plan; S-FOSTER",
    cautions=_LOW_FLUID,
)
# The lower end of a band, which widens where the owner's own share is not known.
USE_LOW = replace(USE_HIGH, key=f"{_TANK}.use_low", unknown_makes_it="lower")
_UPPER_END, _NO_USE = "at the upper end of its use", "; the fuel use or the capacity is not known"
FLUID_RANGE = FigureKind(
    f"{_TANK}.range",
    "distance down",
    {"known": f"{_TO_RESERVE}, {_UPPER_END}", "": f"{_TO_RESERVE}, {_UPPER_END}{_NO_USE}"},
    "trip plan; S-FOSTER; practice",
    cautions=_LOW_FLUID,
)
_CONTAINER = f"the carried container, {_UPPER_END}"
CONTAINER_WORTH = FigureKind(
    f"{_TANK}.container_worth",
    "distance down",
    {
        "noted": _CONTAINER,
        "common": _CONTAINER,
        "noted_unknown": f"{_CONTAINER}{_NO_USE}",
        "common_unknown": f"{_CONTAINER}{_NO_USE}",
    },
    "trip plan; S-FOSTER; practice",
    {"common": "assumed", "common_unknown": "assumed", "": "calculated"},
    cautions=_LOW_FLUID,
)
TOP_UP = FigureKind(
    f"{_TANK}.top_up",
    "text",
    {"unknown": "sides of the two fillers; one is not known", "": "sides of the two fillers"},
    "profile",
    cautions={"pump": ("Where the hose does not reach, pull ahead, or fill from a container.",), "": ()},
)
FILLERS_APART = FigureKind(
    f"{_TANK}.fillers_apart",
    "size up",
    "from the middle of one tank to that of the other, along the side both fillers are on",
    "profile",
    # A neutral fact: where a side is not known, the line of topping up says so.
    unknown_makes_it="either",
)
_KEPT_HOT = "kept all the time at the highest of the plan's temperatures"
SHELF_LIFE = FigureKind(
    f"{_TANK}.shelf_life",
    "months down",
    {"known": _KEPT_HOT, "": f"{_KEPT_HOT}; none is given, or the table ends below it: use it at once"},
    "S-FORD; S-ISO22241-3; trip plan",
    "table",
    cautions=_BAY,
)
SHELF_LIFE_ENDS = FigureKind(
    f"{_TANK}.shelf_life_ends",
    "day",
    {"noted": "as noted with the spare", "": "no date is noted with the carried container"},
    "profile",
    "stated by a maker",
    cautions=_BAY,
)

# Findings.
_ORDER = 9
_missing = partial(FindingKind, "missing", _ORDER, card=_PAGE)
_attention = partial(FindingKind, "attention", _ORDER, card=_PAGE)


def _at_a_stop(text: str, helps: str) -> FindingKind:
    """What is so on the way to a stop or at it; its own card says when and where."""
    return _attention(f"{{moment}}: {text}", helps, brief=text)


_LASTS = "it lasts {lasts:percent down} of the time"
RESERVE_CROSSED = _at_a_stop(
    "the {tank} falls to {least:volume down}, under the reserve of {kept:volume up}.",
    "{place}, or plan a stop in between.",
)
RUNS_DRY = _at_a_stop("the {tank} ends, {lacking:volume up} short.", "{place}, or plan a stop in between.")
ENDS = _at_a_stop(
    f"the {{tank}} ends, {{short:volume up}} short: {_LASTS}.", "{place}, stay shorter, or use less."
)
BATTERY_DRAWN = _at_a_stop(
    f"the house battery is drawn to its limit: {_LASTS}.",
    "Run the generator, take a site with electric hookups, or use less.",
)
OVERFLOWS = _at_a_stop(
    "the {tank} tank overflows by {over:volume up}.", "{place}, dump sooner after it, or use less water."
)
STATED_APART = _at_a_stop(
    "the plan says {stated:volume down} of {tank}, by its own use and distance {left:volume down}.",
    "Read both again; the plan's level is used.",
)
AT_A_STOP = frozenset({RESERVE_CROSSED, RUNS_DRY, ENDS, BATTERY_DRAWN, OVERFLOWS, STATED_APART})
_ENTER_USE = "Enter it in use:, from your own log, "
USE_MISSING = _missing(
    {
        "fuel": "The plan does not say the fuel a distance takes.",
        "water": "The plan does not say the water used a day.",
        "propane": "The plan does not say the propane used a day.",
    },
    {
        "fuel": f"{_ENTER_USE}like 8.0 mpg.",
        "water": f"{_ENTER_USE}like 14 gal/day. One person needs {{least:volume up}} a day (FEMA).",
        "propane": f"{_ENTER_USE}like 0.9 gal/day.",
    },
    key=f"{_TANK}.use",
    path={
        "fuel": "trip plan, use.diesel, gasoline",
        "water": "trip plan, use.water",
        "propane": "trip plan, use.propane",
    },
)
BATTERY_USE_MISSING = _missing(
    "The plan does not say what the house battery gives a day.",
    f"{_ENTER_USE}under battery, like 60 Ah/day.",
    key=f"{_BATTERY}.use",
    path="trip plan, use.battery",
)
BATTERY_MISSING = _missing(
    {
        "name": "The {vehicle}: no battery is called the house battery, so how long it lasts is not known.",
        "total": "The {vehicle}: the charge of the {bank} battery when full is not given.",
        "chemistry": "The {vehicle}: whether the {bank} battery is lead-acid or lithium is not given.",
    },
    {
        "name": "Enter it in vehicles.{vehicle}.batteries.house.",
        "total": "Read it off the battery; enter it in vehicles.{vehicle}.batteries.{bank}.total.",
        "chemistry": "Read it off the battery; enter it in vehicles.{vehicle}.batteries.{bank}.chemistry.",
    },
    key=f"{_BATTERY}.usable",
    path={
        "name": "rig.yaml vehicles.{vehicle}.batteries.house",
        "total": "rig.yaml vehicles.{vehicle}.batteries.{bank}.total",
        "chemistry": "rig.yaml vehicles.{vehicle}.batteries.{bank}.chemistry",
    },
)
GENERATOR_USE_MISSING = _missing(
    "The {vehicle}: what the generator burns at full load is not given.",
    "Read it in its manual; enter it in vehicles.{vehicle}.generator.use_at_full_load, like 0.9 gal/h.",
    key="supplies.{vehicle}.generator.use",
    path="rig.yaml vehicles.{vehicle}.generator.use_at_full_load",
)
CAPACITY_MISSING = _missing(
    "What the {tank} tank of the {vehicle} holds is not known.",
    "Read it in the manual, or fill it from empty once by a meter.",
    key=_TANK,
    path="rig.yaml vehicles.{vehicle}.tanks.{tank}.capacity",
)
LEVEL_MISSING = _missing(
    "The {vehicle}: the level of the {tank} tank at the start is not given.",
    "Enter it in levels_at_start:, like 3/4, full or 25 gal.",
    key=f"{_TANK}.start",
    path="trip plan, levels_at_start.{vehicle}.{tank}",
)
