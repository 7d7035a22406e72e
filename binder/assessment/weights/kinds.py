"""Kinds of figures and findings of weights: their rules, sources, cautions and sentences."""

from typing import NamedTuple

from binder.assessment.ledger import FigureKind, FindingKind, Grade, InputKind

_VEHICLE, _AXLE = "weights.{vehicle}", "weights.{vehicle}.{axle}"

# States of a trip.
AS_WEIGHED, DEPARTURE, EVERYTHING_FULL = "as weighed", "departure", "everything full"
ARRIVING, LEAVING = "day {day}, arriving at {place}", "day {day}, leaving {place}"

# How a load is known: what was weighed, and what the heavier wheel end follows from.
WEIGHED = {"ends": "wheel ends weighed", "axle": "axle weighed", "nothing": "not weighed"}
END_BY = {"ratio kept": "ratio kept", "lateral statics": "lateral statics"}
HALF_RATING = "half the axle's rating"
END_BRIEF = "{side} end, by {by}."
HALF_AND_MORE = "half the axle and {allowance:percent as stated} (practice, assumed)"

# What differs from a ticket.
DOWN_LOAD_OF = "down load of the {behind}"
CHANGE_ON_AXLE = "change on the {name} axle of the {behind}"
AXLE_OF = "{name} axle of the {behind}"
BARS = "weight-distribution bars"
HEAVIER_END_OF_AXLE = "{name} axle of the {behind}, on its heavier end"

# Other words that stand inside sentences.
ROOM_UNDER = "{room:weight down} under {limit}"
ROOM_OVER = "{over:weight up} over {limit}"
ROOM_BRIEF, OVER_BRIEF = "{room:weight down}", "{over:weight up} OVER"
ITS_RATING = "its rating"
LEFT_FOR_CARGO = "{left:weight down} left for cargo"
OVER_HALF_AXLE = "{added:weight up} over half the axle"
COST_OF_AXLE = "{added:weight up} ({axle})"
TICKET_OF, NEVER_WEIGHED_ITSELF = "ticket of {on}", "never weighed by itself"
ITS_TOTAL, SCALE_DIVISION, STOOD_COUPLED = "its total", "the scale's division", "whether it stood coupled"
CARRIED_ON_IT, ON_THE_COUPLING = "the {carried} on it", "load on the coupling"
AXLE_NAME, AXLES_NAME = "{vehicle}, {axle}", "{vehicle}, {axle} to {last}"
AXLES_OF_TWO_NAME = "{vehicle}, {axle} to {other}, {last}"

# Doubts about a ticket.
NEVER_WEIGHED = "it was never weighed"
TICKET_OLD = "the ticket of {on} is more than a year old"
TICKET_AFTER_TRIP = "the ticket of {on} is from after the trip"
CARGO_UNPLACED = "cargo loaded since the ticket has no place in the plan"
SLIDES_NOT_IN = "slides were not in, or the ticket does not say"
NO_RIDE_HEIGHT = "it did not stand at ride height, or the ticket does not say"
LEVELS_UNSAID = "the ticket does not say how full these were: {tanks:list}"
ABOARD_UNSAID = "the ticket does not say who was aboard"
TIRE_MOUNTED_SINCE = "the tire at {position} was mounted after the weighing"
WEIGHTS_UNSAID = "the plan does not say what these weigh: {names:list}"
CAPACITY_UNKNOWN = "the capacity of these is not known, nor what the vehicle weighs with them: {tanks:list}"

# Inputs.
ON_THE_SCALE = InputKind("on the scale", "{value:weight nearest}")
CHANGE = InputKind(
    "{what}", "{value:weight nearest}", "difference to the ticket, at {at:length nearest} from the first axle"
)
CHANGE_SOMEWHERE = InputKind(
    "{what}",
    "{value:weight nearest}",
    "difference to the ticket; its place is not known: it counts where it weighs most",
)
KNOWN_BY = InputKind("known by")
SUM_OF_AXLES = InputKind("sum of", "{value:list}", "weights.{vehicle}")
SUM_OF_VEHICLES = InputKind("sum of", "{value:list}", "weights, totals on the ground")
LOAD_INPUT = InputKind("load", "{value:weight up}")
LOAD_THEN = InputKind("load then", "{value:weight up}")
HALF_RATING_INPUT = InputKind(HALF_RATING, "{value:weight down}", AXLE_NAME)
AXLE_HEAVIEST = InputKind("axle, heaviest", "{value:weight up}")
PEOPLE = InputKind("people", "{value}", "trip plan, crew; rig.yaml people")
FRESH_WATER = InputKind("fresh water, tank full", "{value:volume up}")
RESTING = InputKind("{resting:and}", "{value:weight up}", "coupling, down_load")
APART = InputKind("apart, first to last", "{value:length down}", "rig.yaml axles, couplings")
AXLE_COUNT = InputKind("axles", "{value}", "rig.yaml axles")
HEAVIEST_TOGETHER = InputKind("heaviest together", "{value:weight up}", "weights, all states")
FEDERAL_LIMIT = InputKind("limit", "{value:weight down}")
RATING_OF = InputKind("rating of the {name}", "{value:weight nearest}", "label")


# Figures and findings of what has a load in each state and one rating.
class RatedKinds(NamedTuple):
    """Kinds of an axle, a vehicle or the combination: what it weighs in each state and what it may."""

    load: FigureKind
    margin: FigureKind
    heaviest: FigureKind
    rating: InputKind
    over: FindingKind
    unrated: FindingKind
    unknown: FindingKind


_LOAD_RULES = {"weighed": "As read on the scale.", "": "Scale ticket and every difference, moved by statics."}
_HEAVIEST_RULES = {
    "known": "Its heaviest moment: {moment}.",
    "": "Its load is not known in every state of the trip; at least that of: {moment}.",
}
_WEIGH_AGAIN = ("Weigh again after a change; vehicle labels come first.",)
_FUELS = "Diesel and gasoline count at usual densities, from secondary pages (grade C)."


KEEP_TO_THE_PLAN = "At the hose, keep to the plan's levels; where a dump was closed, fill less"
FRESH_AT_THE_HOSE = (
    "At the hose: a dump was closed? With every other tank full fresh at most {fresh:volume down}"
)
_OVER_HELPS = {
    "": "take weight off, carry less water, or move it to another axle with margin",
    "assumed": "enter the place of all aboard and the level of every tank, or take weight off",
    "not reached": "{hose}",
}
_OVER_GRADES: dict[str, Grade] = {"": "do not drive", "assumed": "not cleared", "not reached": "attention"}


def _rated(key: str, name: str, rating: str, order: int, card: str) -> RatedKinds:
    return RatedKinds(
        FigureKind(
            f"{key}.{{state}}.load",
            "weight up",
            sources="statics",
            basis={"weighed": "measured", "": "calculated"},
        ).by_rule(_LOAD_RULES, (*_WEIGH_AGAIN, _FUELS)),
        FigureKind(f"{key}.{{state}}.margin", "weight down", sources="49 CFR 571.3").by_rule(
            f"The {rating} less the load.", _WEIGH_AGAIN
        ),
        FigureKind(f"{key}.heaviest.load", "weight up", sources="statics").by_rule(
            _HEAVIEST_RULES, _WEIGH_AGAIN
        ),
        InputKind(rating, "{value:weight down}"),
        FindingKind(_OVER_GRADES, order, card=card)
        .says(
            {
                "": f"{name}: {{over:weight up}} over its {rating} ({{moment}})",
                "assumed": f"{name}: perhaps {{over:weight up}} over its {rating} ({{moment}}): a place or "
                "level that is not known counts at its worst",
                "not reached": f"{name}: {{over:weight up}} over its {rating} ({{moment}}), which this trip "
                "does not reach: it leaves {room:weight down} at the heaviest",
            },
            _OVER_HELPS,
            brief=f"{{over:weight up}} over its {rating}",
        )
        .at({"assumed": "trip plan, crew, cargo, levels_at_start", "": ""}),
        FindingKind("not cleared", order, key=key, card="weights")
        .says(f"{name}: {rating} not known", "read the label")
        .at("{place}"),
        FindingKind("not cleared", order, card="weights")
        .says(
            f"{name}: whether it is over its {rating} is not known, for its load is not ({{moment}})",
            "enter what is missing of its scale ticket, its axles and its couplings",
        )
        .at("rig.yaml scale_tickets"),
    )


AXLE = _rated(_AXLE, AXLE_NAME, "gross axle weight rating", 1, "3")
TOTAL = _rated(
    f"{_VEHICLE}.total",
    "{vehicle}, total",
    "gross vehicle weight rating",
    1,
    "weights",
)
COMBINATION = _rated(
    "weights.combination",
    "combination",
    "gross combination weight rating",
    4,
    "4",
)

# Figures.
_ALONE_RULES = {
    "": "Its heaviest moment, with nothing on its coupling: {moment}.",
    "unknown": "Its load with nothing on its coupling is not known in every state of the trip.",
}
AXLE_ALONE, TOTAL_ALONE = (
    FigureKind(f"{key}.alone.load", "weight up", sources="statics").by_rule(_ALONE_RULES, _WEIGH_AGAIN)
    for key in (_AXLE, f"{_VEHICLE}.total")
)
HEAVIER_END = FigureKind(
    f"{_AXLE}.{{state}}.heavier_end",
    "weight up",
    sources="statics; practice",
    basis={"ends": "calculated", "": "assumed"},
).by_rule(
    {
        "": "The heavier wheel end ({side}), by {by}.",
        "nothing": "Not known, for the axle is not weighed in this state; its tires are taken at {by}.",
    }
)
END_ALLOWANCE = FigureKind(
    # What stands between two loads, each compared: it falls where the lower one rises.
    f"{_AXLE}.end_allowance",
    "weight up",
    sources="practice",
    unknown_makes_it="either",
).by_rule(
    "What the heavier wheel end is taken to carry over half the axle, because the ends were not weighed."
)
FRESH_AT_MOST = FigureKind("weights.fresh_at_most", "volume down", sources="statics; 49 CFR 571.3").by_rule(
    "The most fresh water that passes no rating while every other tank is full, each fresh tank filled alike."
)
_LABEL_SOURCES = "49 CFR 571.110; 49 CFR 571.120; 49 CFR 567.4"
_SCALE_DECIDES = (
    "What was added since the label was printed counts as cargo; the scale is the better judge.",
)
LABEL_USED = FigureKind(f"{_VEHICLE}.label_capacity.used", "weight up", sources=_LABEL_SOURCES).by_rule(
    "People at {person} each, fresh water at {water} and the coupling's load, as labels count.",
    _SCALE_DECIDES,
)
LABEL_LEFT = FigureKind(f"{_VEHICLE}.label_capacity.left", "weight down", sources=_LABEL_SOURCES).by_rule(
    "Capacity on the label less what is taken out of it.", _SCALE_DECIDES
)
LICENSE_GROUP = FigureKind(
    "rig.federal_license_group", "text", sources="49 CFR 383.5; 49 CFR 383.91"
).by_rule(
    "A: a combination rated {heavy:weight nearest} or more that tows more than {light:weight nearest}; "
    "B: one vehicle rated {heavy:weight nearest} or more. The larger of the stated combination rating and "
    "the sum of the ratings counts.",
    ("Federal groups, comparison only: local law differs, ask your licensing office.",),
)


class GroupKinds(NamedTuple):
    """Kinds of a group of axles under federal law."""

    limit: FigureKind
    load: FigureKind
    margin: FigureKind
    over: FindingKind


_LAW = ("For comparison only: a federal rule for freight on Interstate highways; local law differs.",)


def _group(key: str) -> GroupKinds:
    return GroupKinds(
        FigureKind(f"{key}.limit", "weight down", sources="23 CFR 658.17").by_rule(
            "The least of the federal axle, tandem and gross limits and the bridge formula, in whole feet.",
            _LAW,
        ),
        FigureKind(f"{key}.load", "weight up", sources="statics").by_rule("Its axles together."),
        FigureKind(f"{key}.margin", "weight down", sources="23 CFR 658.17").by_rule(
            "The federal limit less its axles together, in their heaviest state.", _LAW
        ),
        FindingKind("attention", 10, card="weights").says(
            "{group}: {over:weight up} over the federal limit of axle groups, which is information only",
            "local law differs: ask the road authority before a bridge posted for weight",
        ),
    )


ONE_AXLE = _group("weights.bridge.{vehicle}_{axle}")
AXLE_GROUP = _group("weights.bridge.{vehicle}_{axle}_to_{other}_{last}")

# Findings.
NO_TICKET = (
    FindingKind("missing", 6, key=_VEHICLE, card="weights")
    .says(
        "{vehicle}: no scale ticket",
        {"axles": "weigh it, each wheel end, loaded for travel", "": "weigh it, or its pickup with it"},
    )
    .at("rig.yaml scale_tickets")
)
TICKET_ASIDE = (
    FindingKind("not cleared", 6, key=_VEHICLE, card="weights")
    .says(
        "{vehicle}: the ticket of {on} is put aside, for the {part} is newer ({since:date})",
        "weigh it again, each wheel end, loaded for travel",
    )
    .at("rig.yaml scale_tickets")
)
TICKET_DOUBTED = FindingKind("attention", 6, key=_VEHICLE, card="weights").says(
    "{vehicle}: {doubt}", "weigh it again, in travel state"
)
UNEVEN_ENDS = FindingKind("attention", 1, key=_AXLE, card="weights").says(
    {
        "weighed": "{vehicle}, {axle}: the heavier end ({side}) carries {more:weight up} more than half "
        "the axle's rating ({moment})",
        "": "{vehicle}, {axle}: the heavier end (assumed: only the axle was weighed) carries "
        "{more:weight up} more than half the axle's rating ({moment})",
    },
    {"weighed": "move weight to the other side", "": "weigh each wheel end, or leave weight"},
)
AXLES_UNREAD = (
    FindingKind("missing", 6, key=_VEHICLE, card="weights")
    .says(
        "{vehicle}: not on the ticket of {on}: {axles:list}",
        "weigh it; until then half its rating counts at each end",
    )
    .at("rig.yaml scale_tickets.weights.{vehicle}")
)
ENDS_UNREAD = (
    FindingKind("missing", 6, key=_VEHICLE, card="weights")
    .says(
        "{vehicle}: its wheel ends were not weighed ({axles:list})",
        {
            "costs": "weigh each wheel end; until then the heavier end counts over half the axle by "
            "{costs:list}",
            "": "weigh each wheel end",
        },
    )
    .at("rig.yaml scale_tickets.weights.{vehicle}")
)
SHARING_UNKNOWN = (
    FindingKind("missing", 6, key=_VEHICLE, card="weights")
    .says(
        "{vehicle}: how its axles share what is added is not given ({axles:list})",
        "ask its maker, and enter carries: or equalized:; until then loads are known only as weighed",
    )
    .at("rig.yaml vehicles.{vehicle}.axles")
)
AXLE_PLACE_UNKNOWN = (
    FindingKind("missing", 6, key=_AXLE, card="weights")
    .says(
        "{vehicle}, {axle}: where it stands is not given",
        "measure it between wheel centers, and enter it; until then nothing says what a load puts on which "
        "axle",
    )
    .at("rig.yaml vehicles.{vehicle}.axles.{axle}.at")
)
TICKET_LACKS = (
    FindingKind("missing", 6, key=_VEHICLE, card="weights")
    .says(
        "{vehicle}: the ticket of {on} does not give {lacking:and}",
        "type it in: by it a misread figure is found",
    )
    .at("rig.yaml scale_tickets.weights.{vehicle}")
)
SEATS_OVER_LABEL = FindingKind("attention", 1, key=_VEHICLE, card="weights").says(
    "{vehicle}: the {what} on its label, {capacity:weight down}, is less than {person} for each of its "
    "{seats} seats with a belt ({needed:weight up})",
    "not every seat may be taken with cargo aboard: weigh it so loaded",
)
SEATS_WEIGHT = "capacity for occupants and cargo"
MORE_PEOPLE_THAN_SEATS = FindingKind("do not drive", 1, key=_VEHICLE, card="weights").says(
    "{vehicle}: {people} people, {seats} seats with a belt", "carry no more people than seats with a belt"
)
OVER_LABEL = FindingKind("attention", 1, card="weights").says(
    "{vehicle}: {over:weight up} over the capacity on its label, the fresh tank full",
    "carry less water, or weigh it: the scale decides",
)
