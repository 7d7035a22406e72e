"""Kinds of figures and findings of what is met on the road: their rules, sources, cautions and sentences."""

from typing import NamedTuple

from binder.assessment.ledger import OF_THOSE_KNOWN, FigureKind, FindingKind, InputKind

_DAY = "route.day_{day}"
_LEG = f"{_DAY}.leg_{{leg}}"
_GRADE = f"{_LEG}.grade_{{grade}}"
_SUMMED = "trip plan; arithmetic"
_ON_THE_LEG = "Day {day}, leg {leg}: {what}:"

# Where a grade stands in the plan.
OF_GRADE = "trip {trip}, day {day}, leg {leg}, {what}"

# Posted clearances.
MARGIN_WANTED = InputKind("margin wanted", "{value:length up}", "trip plan, rules.clearance; practice")
POSTED = InputKind("{what}", "{value:length down}")
AS_POSTED = InputKind("{what}", "as posted")
HEIGHT_INPUT = InputKind("overall height", "{value:length up}", "figure {origin}")
CLEARANCE_NEEDED = FigureKind("rig.clearance_needed", "size up", sources="practice").by_rule(
    "Overall height and the margin wanted over it."
)


def _lowest(start: str) -> FigureKind:
    return FigureKind(f"{start}.lowest_clearance", "size down", sources="trip plan").by_rule(
        {
            "": "the lowest of the clearances posted in the plan",
            OF_THOSE_KNOWN: "the lowest of those known: of one in the plan no height is given",
            "none": _NONE_POSTED,
        },
        {
            "": ("A posted height is not always that of your lane; snow and new asphalt take from it.",),
            "none": (),
        },
    )


def _lowest_margin(start: str) -> FigureKind:
    return FigureKind(
        f"{start}.lowest_clearance_margin",
        "size down",
        sources={"": "arithmetic; trip plan; practice", "none": "trip plan", "unmeasured": "trip plan"},
    ).by_rule(
        {
            "": "lowest posted clearance less overall height; at least {margin:length up} wanted",
            OF_THOSE_KNOWN: "lowest of the known clearances less overall height",
            "none": _NONE_POSTED,
            "unmeasured": "the rig's overall height is not known",
        },
        {"": ("Margin wanted: practice.",), "none": (), "unmeasured": ()},
    )


_NONE_POSTED = "no clearance is posted in the plan: not known"
LOWEST_OF_TRIP, MARGIN_OF_TRIP = _lowest("route"), _lowest_margin("route")
LOWEST_OF_DAY, MARGIN_OF_DAY = _lowest(_DAY), _lowest_margin(_DAY)
_UNDER, _TOO_HIGH = "{room:length down} under", "{over:length up} too high for"
ROOM_UNDER, TOO_HIGH = f"{_UNDER} {{what}}", f"{_TOO_HIGH} {{what}}"
_ASK_HEIGHTS = "Ask for the posted heights of this road, and enter them in the plan."
NO_CLEARANCE = (
    FindingKind("missing", 3, key=f"{_LEG}.clearances", card="5")
    .says("Day {day}, leg {leg} to {place}: no clearance is given.", _ASK_HEIGHTS)
    .at("trip plan, days[{day}].legs[{leg}].clearances")
)
NOT_POSTED = (
    FindingKind("not cleared", 3, key=f"{_LEG}.clearances", card="5")
    .says(f"{_ON_THE_LEG} its posted height is not given.", _ASK_HEIGHTS)
    .at("trip plan, days[{day}].legs[{leg}].clearances.posted")
)
_LOW = "Day {day}: {what}, posted {posted:length down}: this rig is"
_WANTED = "it; {margin:length up} under is wanted."
HEIGHT_UNKNOWN = (
    FindingKind("not cleared", 3, card="5")
    .says(
        "Day {day}: whether this rig passes under what is posted is not known: its height is not.",
        "Measure every vehicle, loaded, and enter its overall_height.",
    )
    .at("rig.yaml vehicles.NAME.size.overall_height")
)
TOO_LOW = FindingKind("do not drive", 3, card="5").says(
    {"": f"{_LOW} {_UNDER} {_WANTED}", "over": f"{_LOW} {_TOO_HIGH} {_WANTED}"},
    "Take another road, or measure the height again as it stands and correct the profile.",
)


# Other posted limits.
class HeldLimit(NamedTuple):
    """One kind of limit, and what of the rig is held against it."""

    margin: FigureKind
    posted: InputKind
    own: InputKind
    sign: str
    name: str
    spare: str
    over: str


def _held(limit: str, name: str, measure: str, too: str, *, is_least: bool = False) -> HeldLimit:
    """A limit is read low and the rig's own figure high, unless the sign says what is needed at least."""
    posted, own = (f"{{value:{measure} {way}}}" for way in (("up", "down") if is_least else ("down", "up")))
    return HeldLimit(
        FigureKind(
            f"{_LEG}.limit_{{limit}}.{limit}_margin",
            "weight down" if measure == "weight" else "size down",
            sources=_SUMMED,
        ).by_rule(f"what is posted, against the rig's {name}"),
        InputKind("{what}", posted),
        InputKind(name, own, "figure {origin}"),
        f"posted {limit.replace('_', ' ')} {posted}",
        name,
        f"{{value:{measure} down}} to spare",
        f"{{over:{measure} up}} {too}",
    )


LIMITS = {
    "weight": _held("weight", "weight, coupled, at its heaviest", "weight", "too heavy"),
    "width": _held("width", "width with mirrors", "length", "too wide"),
    "length": _held("length", "length, coupled", "length", "too long"),
    "ground_clearance": _held("ground_clearance", "ground clearance", "length", "too low", is_least=True),
}
GROUND_OF = InputKind("of the {vehicle}", "{value:length down}")
GROUND_CLEARANCE = FigureKind(
    "rig.ground_clearance", "size down", sources="profile", basis="measured"
).by_rule({"": "the lowest vehicle", "unknown": "that of every vehicle must be known; one is not"})
LIMIT_NOT_POSTED = (
    FindingKind("not cleared", 3, key=f"{_LEG}.limits", card="5")
    .says(
        f"{_ON_THE_LEG} what is posted there is not given.",
        "Ask for it, and enter its weight, width, length or ground_clearance.",
    )
    .at("trip plan, days[{day}].legs[{leg}].limits")
)
LIMIT_NOT_JUDGED = (
    FindingKind("not cleared", 3, card="5")
    .says("Day {day}: {what}, {sign}: the rig's {own} is not known.", "Measure it, and enter it.")
    .at(
        {
            "weight": "rig.yaml scale_tickets",
            "length": "rig.yaml vehicles.NAME.size.overall_length, couplings",
            "width": "rig.yaml vehicles.NAME.size.overall_width, width_with_mirrors",
            "": "rig.yaml vehicles.NAME.size.ground_clearance",
        }
    )
)
LIMIT_EXCEEDED = (
    FindingKind({"": "do not drive", "assumed": "not cleared", "not reached": "attention"}, 3, card="5")
    .says(
        {
            "": "Day {day}: {what}, {sign}: this rig is {over_by}.",
            "assumed": "Day {day}: {what}, {sign}: this rig is {over_by}, at the most by what is not known.",
            "not reached": "Day {day}: {what}, {sign}: with everything full, which this trip does not reach, "
            "this rig is {over_by}.",
        },
        {
            "": "Take another road; no vehicle of the rig passes there as it is.",
            "assumed": "Enter the level of every tank and all aboard, or take another road.",
            "not reached": "At the hose, keep to the plan's levels.",
        },
    )
    .at({"assumed": "trip plan, crew, cargo, levels_at_start", "": ""})
)

# Tunnels.
PROPANE_UNKNOWN = (
    FindingKind("missing", 10, key=f"{_LEG}.tunnels", card="5")
    .says("Day {day}: {what}: whether propane may pass is not given.", "Ask the operator.")
    .at("trip plan, days[{day}].legs[{leg}].tunnels.propane")
)
_LETS = "Day {day}: {what} lets cylinders of {most:weight down} pass at the most: the {tank} of the {vehicle}"
CYLINDER_TOO_LARGE = FindingKind("do not drive", 3, key=f"{_LEG}.tunnels", card="5").says(
    f"{_LETS} holds {{held:weight up}}.", "Take another road, or ask its operator."
)
CYLINDER_UNKNOWN = (
    FindingKind("not cleared", 3, key=f"{_LEG}.tunnels", card="5")
    .says(f"{_LETS}: what it holds is not known.", "Read it off the container, and enter it.")
    .at("rig.yaml vehicles.{vehicle}.tanks.{tank}.capacity")
)


# Grades.
GRADE_LENGTH = InputKind("length", "{value:distance up}")
GRADE_SLOPE = InputKind("slope", "{value:percent up}")
HEAVIEST = InputKind("weight at its heaviest", "{value:weight up}", "figure {origin}")
POSTED_SPEED = InputKind("posted for trucks", "{value:speed up}")
CREST = InputKind("crest", "{value:elevation up}")
CREST_TAKEN = InputKind(
    "crest, taken as", "{value:elevation up}", "no top is given: the highest paved road of North America"
)
GRAVITY = InputKind("gravity", "{value:power up}", "figures beside")
DRAG_INPUT = InputKind("drag", "{value:power down}", "figures beside")
RETARDER = InputKind("retarder", "{value:power down}")
TO_BE_HELD = InputKind("to be held", "{value:power up}", "figures beside")
GRADE_HEIGHT = FigureKind(f"{_GRADE}.height", "elevation up", sources="geometry").by_rule(
    "length along the road by the slope"
)
CLIMB = "{value:elevation up} {goes}"
GRADE_ENERGY = FigureKind(f"{_GRADE}.energy", "energy up", sources="statics").by_rule(
    {
        "up": "weight by height: what the engine gives for the climb alone",
        "down": "weight by height: what engine, retarder, brakes, air and tires take on the way down",
    }
)
LASTS = "within {minutes:count} min at the posted speed"
GRAVITY_POWER = FigureKind(f"{_GRADE}.gravity_power", "power up", sources="statics").by_rule(
    "what gravity gives this weight at the posted truck speed"
)
_DRAG = "what tires and air take of it, counted low;"
_DRAG_SOURCES = "S-MANNERING; LIB-FASTSIM; USSA1976; practice"
# It grows with the weight that gravity pulls: whether a blank helps shows in what must be held.
DRAG = FigureKind(f"{_GRADE}.drag", "power down", sources=_DRAG_SOURCES, unknown_makes_it="either").by_rule(
    {
        "": f"{_DRAG} air as thin as at the crest, on a truck's least drag by the rig's front to one of "
        "{wide:length up} by {high:length up}",
        "airless": f"{_DRAG} air is left out: no elevation, or no width and height, is known",
    }
)
HOLDING_POWER = FigureKind(f"{_GRADE}.holding_power", "power up", sources=_DRAG_SOURCES).by_rule(
    "what engine, retarder and brakes must hold together: gravity less drag",
    (
        "No speed is advised: the figures compare, the driver decides.",
        (
            "The road load is the least published of trucks, less for a smaller front: none of motorhomes "
            "was found."
        ),
    ),
)
RETARDER_MARGIN = FigureKind(f"{_GRADE}.retarder_margin", "power down", sources="practice").by_rule(
    "the retarder's power less what must be held at the posted truck speed",
    (
        "A retarder gives its power only at its best engine speed, and not on a slippery road.",
        "The engine's own drag is not counted.",
    ),
)
RETARDER_SHARE = FigureKind(f"{_GRADE}.retarder_share", "percent up", sources="practice").by_rule(
    {
        "": "what must be held at the posted truck speed, as a share of the retarder's power",
        "none": "there is no retarder: engine and brakes hold it alone",
    }
)
POWER_SPARE = "{value:power down} to spare"
POWER_LACKING = "{over:power up} left to engine and brakes, all the way down"
ITS_LENGTH, ITS_SLOPE, ITS_SPEED = "its length", "its slope", "the posted truck speed"
GRADE_LACKS = (
    FindingKind("missing", 7, key=f"{_LEG}.grades", card="10")
    .says("Day {day}: {what}: {lacking:and} not given.", "Read it off the sign, and enter it.")
    .at("trip plan, days[{day}].legs[{leg}].grades")
)
GRADE_NAMED = "day {day}, {what}"
NO_RETARDER = (
    FindingKind("missing", 7, card="10")
    .says(
        "The retarder's power of the {vehicle} is not given, for the long grades: {grades:parts}.",
        "Ask the chassis maker; enter 0 kW where there is none. Until then the brakes hold it alone: "
        "card 10.",
    )
    .at("rig.yaml vehicles.{vehicle}.brakes.retarder")
)
NO_WEIGHT = (
    FindingKind("missing", 7, card="10")
    .says(
        "Day {day}: {what}: the weight of the rig is not known, so neither is the power to hold it.",
        "Weigh it.",
    )
    .at("rig.yaml scale_tickets")
)
_TAKES = "Day {day}: {what}: holding the posted {speed:speed up} takes {need:power up}, against"
_THE_REST = "brakes and engine take the rest."
_BEFORE_THE_CREST = "Take the gear before the crest and brake in snubs: card 10."
RETARDER_WEAK = FindingKind("attention", 7, card="10").says(
    {"": f"{_TAKES} {{retarder:power down}}: {_THE_REST}", "none": f"{_TAKES} no retarder: {_THE_REST}"},
    _BEFORE_THE_CREST,
)
RETARDER_FULL = FindingKind("attention", 9, card="10").says(
    "Day {day}: {what}: {speed:speed up} takes {share:percent up} of the retarder.",
    "Gear before the crest; snubs: card 10.",
)
