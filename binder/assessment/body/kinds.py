"""Kinds of figures and findings of the rig's body and safety equipment: rules, sources and sentences."""

from binder.assessment.ledger import FigureKind, FindingKind, InputKind
from binder.reference.constants import PROCEDURE_CONSTANTS

_PAGE = "rig_at_a_glance"

# Height and widths.
HEIGHT_OF = InputKind("height of the {vehicle}", "{value:length up}")
MEASURED_ON = InputKind("measured on")
STATE = InputKind("state")
HIGHEST_THING = InputKind("highest thing")
WIDTH_OF = InputKind("{width} of the {vehicle}", "{value:length up}")
_HEIGHT_OF_ITS_DAY = (
    "A height is true for the day and state it was measured in; tires, bags and roof gear change it."
)
OVERALL_HEIGHT = FigureKind(
    "rig.overall_height", "size up", sources={"": "profile; practice", "unknown": "profile"}, basis="measured"
).by_rule(
    {
        "": "the highest vehicle, at ride height or raised, whichever is higher",
        "unknown": "the height of every vehicle must be known; one is not",
    },
    {"": (_HEIGHT_OF_ITS_DAY,), "unknown": ()},
)
_WIDEST = {"": "the widest vehicle", "unknown": "the width of every vehicle must be known; one is not"}
OVERALL_WIDTH = FigureKind("rig.overall_width", "size up", sources="profile", basis="measured").by_rule(
    _WIDEST
)
WIDTH_WITH_MIRRORS = FigureKind(
    "rig.width_with_mirrors", "size up", sources="profile", basis="measured"
).by_rule(_WIDEST)
BODY, MIRRORS = "overall width", "width with mirrors"
NO_HEIGHT = (
    FindingKind("missing", 3, card="12")
    .says(
        "The overall height of the {vehicle} is not given.",
        {
            "": "Measure it, and enter it with date and state.",
            "carried": "Measure it, on the {carrier} and from the road, and enter it with date and state.",
        },
    )
    .at("rig.yaml vehicles.{vehicle}.size.overall_height")
)
ITS_DATE, ITS_STATE, ITS_HIGHEST = "the date", "the state it was in", "the highest thing"
HEIGHT_UNDATED = (
    FindingKind("missing", 3, card="12")
    .says(
        "The height of the {vehicle} is given without {lacking:and}.",
        "Measure it again, and enter what is missing.",
    )
    .at("rig.yaml vehicles.{vehicle}.size.height_measured")
)
HEIGHT_OF_LATER = FindingKind("attention", 3, card="12").says(
    "The height of the {vehicle} is dated {dated:date}, after {today:date}.", "Correct the date."
)
NO_WIDTH = (
    FindingKind("missing", 3, card="12")
    .says(
        "The {width} of the {vehicle} is not given.",
        {"": "Measure it.", "mirrors": "Measure it with the mirrors out."},
    )
    .at(
        {
            "": "rig.yaml vehicles.{vehicle}.size.overall_width",
            "mirrors": "rig.yaml vehicles.{vehicle}.size.width_with_mirrors",
        }
    )
)

# Tail swing.
WHEELBASE = InputKind("wheelbase", "{value:length up}")
OVERHANG = InputKind("overhang behind the drive axle", "{value:length up}")
BODY_WIDTH = InputKind(BODY, "{value:length up}")
WHEEL_CUT = InputKind("wheel cut", "{value:count}°")
TO_THE_AXLES = InputKind(
    "coupling to the middle of its axles", "{value:length up}", "rig.yaml couplings.at_behind"
)
TRAILER_OVERHANG = InputKind("overhang behind the middle of its axles", "{value:length up}")
TRAILER_WIDTH = InputKind("its width", "{value:length up}")
SWING_OF = InputKind("swing of the {vehicle}", "{value:length up}")
_SWINGS = (
    "wheel hard over, the rear corner swings out by sqrt(r^2 + O^2) - r; "
    "r = wheelbase / tan(wheel cut) + half the width, O = overhang behind the drive axle"
)
TAIL_SWING = FigureKind("rig.tail_swing", "size up", sources="geometry; profile").by_rule(
    {
        "": _SWINGS,
        "trailer": f"{_SWINGS}; a trailer's, whose wheels roll only along it, is followed in "
        "small steps until the rig stands at a right angle; the larger of both, each of which must be known",
    },
    ("What sticks out behind the body, such as a ladder or a bar, swings farther.",),
)
NO_SWING = (
    FindingKind("missing", 10, card=_PAGE)
    .says(
        {
            "": "The tail swing of the {vehicle} needs its wheelbase, rear overhang, width and wheel cut.",
            "trailer": "The tail swing of the {vehicle} needs its coupling's places, the towing vehicle's "
            "wheel cut, its axles, width and rear overhang.",
        },
        "Enter what is missing under size, axles and couplings.",
    )
    .at("rig.yaml vehicles.{vehicle}.size")
)

# What a wrecker and a fire crew must know.
CLEARANCE_UNDER = InputKind("clearance under it", "{value:length down}")
OVERHANG_OF_END = InputKind("overhang", "{value:length up}")
OVERHANG_ANGLE = FigureKind(
    "rig.{vehicle}.overhang_angle.{end}", "angle down", sources="geometry; profile"
).by_rule(
    "the steepest ramp that the {end} overhang passes: tan(angle) = clearance under it / overhang",
    ("At ride height, on level ground; soft tires and empty air bags make it less.",),
)
AIR_FITTING, JACKING, LIFTING, EYES = "air fitting", "jacking points", "lift points", "tow eyes"
WHEELS_DOWN, CLEARANCES = "its maker's rule on towing", "clearances under its overhangs"
FOR_A_WRECKER = (
    FindingKind("missing", 10, key="equipment.{vehicle}.for_a_wrecker", card="7")
    .says("The {vehicle}: a wrecker's driver asks for its {lacking:and}.", "Read its manual, and enter them.")
    .at("rig.yaml vehicles.{vehicle}.equipment")
)
TYPE_OF, OPENING_OF = "type of the extinguisher, {place}", "way to open the exit, {place}"
FOR_A_FIRE = (
    FindingKind("missing", 10, key="equipment.{vehicle}.in_a_fire", card="9")
    .says("The {vehicle}: not noted: {lacking:list}.", "Read the label; open each exit; enter both.")
    .at("rig.yaml vehicles.{vehicle}.equipment.exits")
)

# Gaps and warning devices.
LENGTH_COUPLED = InputKind("length, coupled", "{value:length up}", "figure {origin}")
GAP_FACTS = {"each": PROCEDURE_CONSTANTS["gap length"], "fast": PROCEDURE_CONSTANTS["gap speed"]}
_DRY = ("The least gap, on a dry road in clear weather.",)
GAP_BELOW_40 = FigureKind("rig.following_gap_below_40", "time up", sources="W38").by_rule(
    "1 s for each {each} of length, under {fast}", _DRY
)
GAP_FROM_40 = FigureKind("rig.following_gap_from_40", "time up", sources="W38").by_rule(
    "1 s for each {each} of length, at {fast} and over, 1 s of it for the speed", _DRY
)
DEVICE_FACTS = {
    "hidden": PROCEDURE_CONSTANTS["device out of sight"],
    "far": PROCEDURE_CONSTANTS["device far"],
}
_COUNTED = "counted at {pace:length nearest} a step"
_DEVICE_CAUTIONS = (
    "Within {hidden} of a hill, curve or obstruction, that device goes out {far} to {hidden}.",
    "Vest on first, walk facing traffic; no safe way: stay behind the rail, flashers only.",
    "No flame near fuel or gas.",
    "Written for commercial vehicles; local law comes first.",
)
_PACED_CAUTIONS = (f"Paces {_COUNTED}: practice.", *_DEVICE_CAUTIONS)
_DEVICE = "rig.warning_devices.{road}.{device}"
_PLACED = "on a road {traffic}, {counted_from}"
TRAFFIC = {"two-way": "with traffic both ways", "divided": "divided or one-way"}
COUNTED_FROM = {"ahead": "ahead of the front of the rig", "behind": "behind the rear of the last vehicle"}
DEVICE_DISTANCE = FigureKind(
    f"{_DEVICE}.distance", "span up", sources="49 CFR 392.22", basis="table"
).by_rule(_PLACED, _DEVICE_CAUTIONS)
DEVICE_PACES = FigureKind(f"{_DEVICE}.paces", "number", sources="49 CFR 392.22; practice").by_rule(
    f"{_PLACED}, in paces {_COUNTED}", _PACED_CAUTIONS
)
PACES_FROM_REAR = FigureKind(
    f"{_DEVICE}.paces_from_rear", "number", sources="49 CFR 392.22; practice"
).by_rule(
    f"paces {_COUNTED} from the rear of the last vehicle to the device ahead: length and {{far}}",
    _PACED_CAUTIONS,
)

# Equipment.
THINGS = {
    "extinguishers": "fire extinguisher",
    "exits": "way out, a door and a window that opens,",
    "smoke_alarm": "smoke alarm",
    "carbon_monoxide_alarm": "carbon monoxide alarm",
    "propane_alarm": "propane alarm",
}
_EQUIPMENT = "equipment.{vehicle}.{entry}"
NOT_NOTED = (
    FindingKind("missing", 10, key=_EQUIPMENT, card=_PAGE)
    .says(
        {"": "The {vehicle}: {thing} ______ fitted?", "exits": "The {vehicle}: no {thing} is noted."},
        {
            "": "Look; note where it is, or none where there is none.",
            "exits": "Find it, open it, and note it.",
        },
    )
    .at("rig.yaml vehicles.{vehicle}.equipment.{entry}")
)
NONE_FITTED = FindingKind("attention", 10, key=_EQUIPMENT, card=_PAGE).says(
    "The {vehicle} has no {thing}.", "Fit one before anyone sleeps in it, and note where it is."
)
NO_PLACE = (
    FindingKind("missing", 10, key=_EQUIPMENT, card=_PAGE)
    .says("The {vehicle}: the place of the {thing} is not noted.", "Note where it is.")
    .at("rig.yaml vehicles.{vehicle}.equipment.{entry}")
)
ONE_EXIT = (
    FindingKind("missing", 10, key=_EQUIPMENT, card=_PAGE)
    .says("The {vehicle}: only one way out is noted.", "Find the second, open it, and note it.")
    .at("rig.yaml vehicles.{vehicle}.equipment.{entry}")
)
NO_CHOCKS = (
    FindingKind("missing", 10, key="equipment.chocks", card="1")
    .says("No wheel chocks are noted.", "Count and note them.")
    .at("rig.yaml vehicles.{vehicle}.equipment.chocks")
)
NO_DEVICES = (
    FindingKind("missing", 10, key="equipment.warning_devices", card="6")
    .says(
        {
            "": "No warning devices are noted; three are set out at a breakdown.",
            "unplaced": "The place of the warning devices is not noted.",
        },
        {"": "Carry three, and note where.", "unplaced": "Note where they are."},
    )
    .at("rig.yaml vehicles.{vehicle}.equipment.warning devices")
)
NO_LOG = (
    FindingKind("missing", 10, key="rig.log", card=_PAGE)
    .says(
        "No address of the log is given: the cards carry no codes.", "Enter log: with a web or mail address."
    )
    .at("rig.yaml log")
)

# What expires.
PRINTED_DATE = InputKind("{what}", "{value:date}", "rig.yaml {listed}[{number}].expires")
_AS_PRINTED = "as printed on it, against {ends} ({end:date})"
EXPIRES = FigureKind("{listed}.{what}.expires", "day", sources="profile", basis="stated by a maker").by_rule(
    _AS_PRINTED
)
EXPIRES_TOO = FigureKind(
    "{listed}.{what}.expires_{number}", "day", sources="profile", basis="stated by a maker"
).by_rule(_AS_PRINTED)
DAYS_AFTER, DAYS_BEFORE = "{days} days after {ends}", "{days} days before {ends}"
NO_EXPIRY = (
    FindingKind("missing", 10, key="{listed}.{number}.expires", card="spares_by_place")
    .says("When {what} expires is not noted.", "Read it off the package, and enter it under expires:.")
    .at("rig.yaml {listed}[{number}].expires")
)
OUT_OF_DATE = FindingKind("attention", 10, card="spares_by_place").says(
    {
        "": "{what} expires on {expires:date}, before {ends}.",
        "already": "{what} has expired on {expires:date}, before {ends}.",
    },
    "Replace it before leaving.",
)
