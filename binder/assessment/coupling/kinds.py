"""Kinds of figures and findings of couplings: their rules, sources, cautions and sentences."""

from binder.assessment.ledger import OF_THOSE_KNOWN, FigureKind, FindingKind, Grade, InputKind

_COUPLING = "coupling.{ahead}_{behind}"
_NAME = "{ahead} to {behind}"

# Parts of the chain that are no part in the owner's list.
RECEIVER_BARS_ON = "receiver, bars on"
ROOM = "combination rating less the loaded towing vehicle"
WITHOUT_BRAKES = "towing limit without brakes"

# Other words that stand inside sentences.
PARTS = "{parts:list}"
UNDER_WEAKEST = "{room:weight down} under the weakest part"
OVER_WEAKEST = "{over:weight up} over the weakest part"
SHARE, SHARE_RANGE, USUAL = "{share:tenths}", "{shares:range} %", "usual {least:number} to {most:number} %"
SHARES = f"{SHARE_RANGE}; {USUAL}"
LEVEL_LEFT, OUT_OF_LEVEL = "{left:length down} left", "too far out of level"
LOADED_WEIGHT, TICKET_WEIGHT, GROSS_RATING = "loaded weight", "weight on the scale ticket", "gross rating"

# Inputs.
LINK = InputKind("{part}", "{value:weight down}", "rig.yaml couplings")
TOWED_LOADED = InputKind("towed, loaded", "{value:weight up}", "weights")
CARRIED_WEIGHT = InputKind("weight of the {behind}", "{value:weight up}", "weights.{behind}.total")
LEAST_SHARE = InputKind("least share", "{value:tenths} %")
GREATEST_SHARE = InputKind("greatest share", "{value:tenths} %")
_ARM_PLACES = "rig.yaml couplings and axles"
BALL_TO_AXLES = InputKind("ball to the trailer's axles", "{value:length nearest}", _ARM_PLACES)
REAR_AXLE_TO_BALL = InputKind("rear axle to the ball", "{value:length nearest}", _ARM_PLACES)
WHEELBASE = InputKind("wheelbase", "{value:length nearest}", _ARM_PLACES)
RECEIVER_HEIGHT = InputKind(
    "height of the receiver", "{value:length nearest}", "rig.yaml couplings[{number}].height"
)
BASE_PLATE_HEIGHT = InputKind(
    "height of the base plate", "{value:length nearest}", "rig.yaml couplings[{number}].height_behind"
)

# Inputs that are the parts of the combination's length.
_LENGTH = "{value:length up}"
VEHICLE_LENGTH = InputKind("length of the {vehicle}", _LENGTH)
COUPLING_LENGTH = InputKind("length of the {how}", _LENGTH, "rig.yaml couplings[{number}].length")
FRONT_OVERHANG = InputKind("front overhang of the {vehicle}", _LENGTH)
PIN_PLACE = InputKind("place of the pin in the {vehicle}", _LENGTH, "rig.yaml couplings.at")
FIRST_AXLE_PLACE = InputKind("place of the first axle in the {vehicle}", _LENGTH, "rig.yaml couplings.at")
PIN_TO_FIRST_AXLE = InputKind("pin to first axle of the {vehicle}", _LENGTH, "rig.yaml couplings.at_behind")
FIRST_TO_LAST_AXLE = InputKind("first to last axle of the {vehicle}", _LENGTH)
REAR_OVERHANG = InputKind("rear overhang of the {vehicle}", _LENGTH)

# Figures.
_CHAIN_RULE = {
    "": "The least of every part between the two vehicles and of the combination rating.",
    OF_THOSE_KNOWN: "The least of the parts known between the two vehicles and of the combination rating.",
}
_CHAIN_SOURCES = "49 CFR 571.3; 49 CFR 393.70"
LIMIT = FigureKind(
    f"{_COUPLING}.limit", "weight down", sources=_CHAIN_SOURCES, basis="stated by a maker"
).by_rule(_CHAIN_RULE)
WEAKEST_PART = FigureKind(
    f"{_COUPLING}.weakest_part", "text", sources=_CHAIN_SOURCES, basis="stated by a maker"
).by_rule(_CHAIN_RULE)
TOWED = FigureKind(f"{_COUPLING}.towed", "weight up", sources="statics").by_rule(
    "Heaviest loaded weight behind the coupling."
)
MARGIN = FigureKind(f"{_COUPLING}.margin", "weight down", sources=_CHAIN_SOURCES).by_rule(
    {"": "The limit less what is towed.", OF_THOSE_KNOWN: "The limit of the parts known less what is towed."}
)
DOWN_LOAD = FigureKind(
    f"{_COUPLING}.down_load", "weight up", sources={"": "statics", "carried": "scale ticket"}
).by_rule(
    {
        "": "Heaviest load the towed vehicle presses on the coupling.",
        "carried": "Heaviest the carried vehicle becomes, all of it on the one that carries it.",
    }
)
_MANUAL = "The band is common practice, from memory: the trailer's manual overrides it."
# The end of a band that is nearer to leaving it, low or high: what leaves it is found, either way.
DOWN_SHARE = FigureKind(
    f"{_COUPLING}.down_share", "percent down", sources="statics; practice", unknown_makes_it="either"
).by_rule(
    "Load on the coupling as a share of the loaded trailer, in the state nearest to leaving "
    "{least:number} to {most:number} %; more sways less and presses more.",
    {
        "": (_MANUAL,),
        "bars": (_MANUAL, "Loads are with the spring bars on, as the receiver's distributing rating is."),
    },
)
COUPLE_ARM = FigureKind(f"{_COUPLING}.couple_arm", "size up", sources="statics").by_rule(
    {
        "": "What the bars put on the front axle, times this, is the couple they apply.",
        "unknown": "Not known: a place of the coupling or of an axle is not.",
    }
)
LEVEL_DIFFERENCE = FigureKind(
    f"{_COUPLING}.level_difference", "size up", sources={"": "practice; profile", "unknown": "practice"}
).by_rule("height of the receiver less that of the base plate; within {within:length down}")
_OVER_THE_BED = "lengths of the vehicles; the {behind} counts from its pin"
COMBINATION_LENGTH = FigureKind("rig.combination_length", "size up", sources="profile; arithmetic").by_rule(
    {
        "": "lengths of the vehicles and of the bars between them; what carries one is measured with it on",
        "alone": "the length of the {behind}",
        "tow bar": "lengths of the vehicles and of the bar between them",
        "ball": "lengths of the vehicles; the {behind} counts from its coupler",
        "fifth wheel": _OVER_THE_BED,
        "gooseneck": _OVER_THE_BED,
        "dolly": "lengths of the vehicles; the {behind} counts from its first axle",
        "carried": "the length of what carries the {behind}, measured with it on",
    }
)


# Findings.
def _found(grade: Grade, part: str = "") -> FindingKind:
    return FindingKind(grade, 4, key=f"{_COUPLING}.{part}" if part else "", card="4")


LENGTH_MISSING = (
    FindingKind("missing", 3, card="rig_at_a_glance")
    .says("The {what} is not given ({origin}).", "Measure it, and enter it.")
    .at("{origin}")
)
_OVER_TOWED = "{over:weight up} over what the {parts:list} may tow"
NOT_REACHED, ASSUMED = "not reached", "assumed"
_FORBIDS_REACHED: dict[str, Grade] = {"": "do not drive", ASSUMED: "not cleared", NOT_REACHED: "attention"}
_AT_MOST = ", at the most by what is not known"
_ENTER_IT = "enter the place of all aboard and the level of every tank, or take weight off"
_KEEP_TO_THE_PLAN = "at the hose, keep to the plan's levels; where a dump was closed, fill less"
_IF_FULL = " ({moment}), which this trip does not reach"
TOWED_OVER = (
    FindingKind(_FORBIDS_REACHED, 4, card="4")
    .says(
        {
            "": f"{_NAME}: {_OVER_TOWED}",
            ASSUMED: f"{_NAME}: {_OVER_TOWED}{_AT_MOST}",
            NOT_REACHED: f"{_NAME}: {_OVER_TOWED}{_IF_FULL}",
        },
        {
            "": "tow less, or have the part replaced by one rated for it",
            ASSUMED: _ENTER_IT,
            NOT_REACHED: _KEEP_TO_THE_PLAN,
        },
        brief=_OVER_TOWED,
    )
    .at({ASSUMED: "trip plan, crew, cargo, levels_at_start", "": ""})
)
PART_UNRATED = (
    _found("not cleared")
    .says(f"{_NAME}: limit of the {{part}} not known", "read it off the part or its manual")
    .at("rig.yaml couplings[{ahead} to {behind}].parts.{part}")
)
PLACE_UNKNOWN = (
    _found("missing", "at")
    .says(
        {
            "": f"{_NAME}: its place is not known: what it carries counts where it weighs most on each axle "
            "ahead",
            "behind": f"{_NAME}: where it joins the {{behind}} is not known, nor how far the axles are apart",
        },
        "measure it from the first axle",
    )
    .at(
        {
            "": "rig.yaml couplings[{ahead} to {behind}].at",
            "behind": "rig.yaml couplings[{ahead} to {behind}].at_behind",
        }
    )
)
CARRIED_PLACE_UNKNOWN = (
    _found("missing", "at")
    .says(
        f"{_NAME}: where it stands is not known: it counts where it weighs most on each axle of the "
        "{ahead}",
        "measure it from the first axle",
    )
    .at("rig.yaml couplings[{ahead} to {behind}].at")
)
NO_PARTS = (
    _found("not cleared")
    .says(f"{_NAME}: no part is given with its rating", "read it off each part")
    .at("rig.yaml couplings[{ahead} to {behind}].parts")
)
TOWED_UNKNOWN = (
    _found("not cleared")
    .says(f"{_NAME}: the towed weight is not known", "weigh the {behind}")
    .at("rig.yaml scale_tickets.weights.{behind}")
)
COUPLE_UNKNOWN = (
    _found("missing", "distribution")
    .says(
        f"{_NAME}: the couple of its bars is not known: each axle counts with them on or off, whichever "
        "is more",
        "weigh with bars on and off, and enter it",
    )
    .at("rig.yaml couplings[{ahead} to {behind}].distribution")
)
DOWN_LOAD_UNKNOWN = (
    FindingKind("not cleared", 4, card="4")
    .says(
        f"{_NAME}: what the {{behind}} presses on it is not known, nor what the {{ahead}} carries",
        {"carrying": "weigh the {behind}, and its down load", "": "weigh the {behind}"},
    )
    .at("rig.yaml scale_tickets.weights.{behind}")
)
DOWN_UNRATED = (
    _found("not cleared")
    .says(
        {
            "": f"{_NAME}: what its parts may carry is not known",
            "some": f"{_NAME}: what the {{parts:list}} may carry is not known",
        },
        "read the down or tongue rating off each part",
    )
    .at("rig.yaml couplings[{ahead} to {behind}].parts")
)
_OVER_DOWN = "down load {over:weight up} over what the {parts:list} may carry"
DOWN_OVER = (
    FindingKind(_FORBIDS_REACHED, 4, card="4")
    .says(
        {
            "": f"{_NAME}: {_OVER_DOWN}",
            ASSUMED: f"{_NAME}: {_OVER_DOWN}{_AT_MOST}",
            NOT_REACHED: f"{_NAME}: {_OVER_DOWN}{_IF_FULL}",
        },
        {
            ASSUMED: _ENTER_IT,
            "dolly": "carry the {behind} on a trailer, or take weight off its front",
            NOT_REACHED: _KEEP_TO_THE_PLAN,
            "": "move weight in the trailer to the rear of its axles",
        },
        brief=_OVER_DOWN,
    )
    .at({ASSUMED: "trip plan, crew, cargo, levels_at_start", "": ""})
)
SHARE_UNKNOWN = (
    _found("missing")
    .says(
        f"{_NAME}: the share of the trailer on the coupling is not known",
        "weigh the {behind} and what it presses on its coupling",
    )
    .at("rig.yaml scale_tickets.weights.{behind}")
)
SHARE_LOW = _found("attention").says(
    f"{_NAME}: {{share:tenths}} % of the trailer on the coupling, under the usual {{least:number}} % "
    "({moment})",
    "move weight ahead of the axles: too little lets a trailer sway; its manual overrides",
)
SHARE_HIGH = _found("attention").says(
    f"{_NAME}: {{share:tenths}} % of the trailer on the coupling, over the usual {{most:number}} % "
    "({moment})",
    "move weight behind the axles, within every rating; its manual overrides",
)
BRAKE_UNSTATED = (
    _found("not cleared", "brake")
    .says("Whether the {behind} is braked while it is towed is not given.", "Look; none is none.")
    .at(
        {
            "": "rig.yaml vehicles.{behind}.towing.supplemental_brake",
            "trailer": "rig.yaml vehicles.{behind}.brakes.service",
        }
    )
)
NO_BRAKE = _found("do not drive", "brake").says(
    "The {behind} has no brake while it is towed.",
    "Fit a supplemental brake; local law differs.",
    brief="the {behind} has no brake while it is towed",
)
LAMP_UNSTATED = (
    _found("missing", "brake_lamp_in_cab")
    .says("Whether a lamp in the cab shows the brake of the {behind} is not given.", "Enter it under towing.")
    .at("rig.yaml vehicles.{behind}.towing.brake_lamp_in_cab")
)
NO_LAMP = _found("attention", "brake_lamp_in_cab").says(
    "No lamp in the cab shows the brake of the {behind}: a brake that drags is not seen.",
    "Fit the lamp; feel the hubs at every stop.",
)
CONTROLLER_UNSTATED = (
    _found("not cleared", "brake_controller")
    .says(
        "Whether the {ahead} has a brake controller for the {behind} is not given.",
        "Enter it under its equipment.",
    )
    .at("rig.yaml vehicles.{ahead}.equipment.brake controller")
)
NO_CONTROLLER = _found("do not drive", "brake_controller").says(
    "The {ahead} has no brake controller for the electric brakes of the {behind}.",
    "Fit one, and set it to the load.",
    brief="the {ahead} has no brake controller for the electric brakes of the {behind}",
)
BREAKAWAY_UNSTATED = (
    _found("not cleared", "breakaway")
    .says(
        "Whether a breakaway switch brakes the {behind} is not given.",
        "Look, and enter vehicles.{behind}.towing.breakaway.",
    )
    .at("rig.yaml vehicles.{behind}.towing.breakaway")
)
NO_BREAKAWAY = _found("do not drive", "breakaway").says(
    "No breakaway switch brakes the {behind} when it comes loose.",
    "Fit one; it must hold 15 minutes.",
    brief="no breakaway switch brakes the {behind} when it comes loose",
)
PROCEDURE_UNSTATED = (
    _found("not cleared", "procedure")
    .says("How the maker of the {behind} says it is towed is not given.", "Copy the steps from its manual.")
    .at("rig.yaml vehicles.{behind}.towing.as_its_maker_says")
)
NO_PROCEDURE = _found("do not drive", "procedure").says(
    "The maker of the {behind} gives no way to tow it on its wheels.",
    "Carry it on a trailer, or drive it.",
    brief="the maker of the {behind} gives no way to tow it on its wheels",
)
CABLES_UNSTATED = (
    _found("not cleared", "safety_cables")
    .says("No safety cables or chains of the {behind} are given.", "Enter them with the rating of each.")
    .at("rig.yaml couplings[{ahead} to {behind}].parts.safety cables")
)
CABLE_UNRATED = (
    _found("not cleared", "safety_cables")
    .says("The rating of the {cable} of the {behind} is not given.", "Read it off the tag.")
    .at("rig.yaml couplings[{ahead} to {behind}].parts.{cable}")
)
CABLE_NOT_JUDGED = (
    _found("not cleared", "safety_cables")
    .says(
        "The {cable} cannot be judged: the loaded weight of the {behind} is not known.",
        "Weigh it, or enter its gross rating.",
    )
    .at("rig.yaml vehicles.{behind}.label.gross_vehicle_weight_rating")
)
_TOO_WEAK = "rated {rating:weight down} each, under its {what} of {load:weight up}"
CABLE_TOO_WEAK = _found("do not drive", "safety_cables").says(
    f"The {{cable}} of the {{behind}}: {_TOO_WEAK}.",
    "Fit cables that each hold all of it.",
    brief=f"{{cable}} of the {{behind}} {_TOO_WEAK}",
)
HEIGHTS_UNSTATED = (
    _found("missing")
    .says(
        "The heights of both ends of the tow bar of the {behind} are not given.",
        "Measure both, loaded, on level ground.",
    )
    .at("rig.yaml couplings")
)
NOT_LEVEL = _found("attention").says(
    "The tow bar of the {behind} is {across:length up} out of level.",
    "Fit a drop or rise of the right height.",
)

FORBIDDING = frozenset(
    kind for kind in list(vars().values()) if isinstance(kind, FindingKind) and kind.may_forbid
)
"""What forbids to tow as the rig is coupled."""
