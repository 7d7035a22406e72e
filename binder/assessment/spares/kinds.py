"""Kinds of figures and findings of spares and tools."""

from functools import partial

from binder.assessment.ledger import OF_THOSE_KNOWN, FigureKind, FindingKind, InputKind

_ORDER = 10
_PLACES = "spares_by_place"
_missing = partial(FindingKind, "missing", _ORDER, card=_PLACES)
_attention = partial(FindingKind, "attention", _ORDER, card=_PLACES)

# Words that stand inside other sentences.
ENGINE_BELT, BELT = "engine belt", "{belt} belt"
SPARE, SPARE_OF = "{spare}", "{spare} of the {vehicle}"
NUMBER_NOT_NOTED = "number not noted"
SHORT = "{spare} {short} short"
OF_GROUP = "{group} {count:count}"
UNLISTED = "{what}, {amount} {word} on {on:date}"
SHORT_OF = "{short} short, {usual} usual"
LACKING = "{lacking:list}"
WITHOUT_PLACE = {"one": "{count:count} entry without a place", "": "{count:count} entries without a place"}
WITHOUT_WEIGHT = {"one": "{count:count} entry without a weight", "": "{count:count} entries without a weight"}

# Which size or kind to buy.
READS_TO = "reads to {cap:pressure up} or more"
TORQUES_TO = "to {torque:torque up} or more"
SOCKETS = "{sockets:and}"
SPECIFICATION = "{specification}"

# Inputs.
NOTED = InputKind("{what}", "{noted}", "rig.yaml")
NOTED_UNTIL = InputKind("{what}", "{noted}, until {until:date}", "rig.yaml")
CHANGED = InputKind("{word}: {what}", "{value}", "log, {on:date}")
BAY_RATING = InputKind("rating", "{value:weight down}", "rig.yaml")
NOTED_IN_BAY = InputKind("noted in it", "{value:weight up}", "figure {origin}")

# Figures: of the rig, and of a vehicle where each of several has its own.
_OF = ("spares.{spare}", "spares.{vehicle}.{spare}")
WANTED, VEHICLE_WANTED = (
    FigureKind(
        f"{of}.wanted",
        "text",
        "usual for this equipment, from the list of practice",
        "practice",
        "table",
        ("{reason:capital}.", "A list of practice, no source: what its maker's manual asks for comes first."),
    )
    for of in _OF
)
_ADDED_UP = "what the profile notes and is in date on the last day, added up"
_BY_LOG = ", less what was used since and with what was bought, by the log"
CARRIED, VEHICLE_CARRIED = (
    FigureKind(f"{of}.carried", "text", {"": _ADDED_UP, "log": f"{_ADDED_UP}{_BY_LOG}"}, "profile")
    for of in _OF
)
_BAY = "spares.{vehicle}.{bay}"
BAY_LOAD = FigureKind(
    f"{_BAY}.bay_load",
    "weight up",
    {
        "": "weights noted of what lies in the bay, on the scale ticket or not, added up",
        OF_THOSE_KNOWN: "weights noted of what lies in the bay, added up as far as they are known",
    },
    "arithmetic",
)
BAY_MARGIN = FigureKind(
    f"{_BAY}.bay_margin", "weight down", "the bay's rating less what is noted in it", "arithmetic"
)

# Findings.
NONE_NOTED = _missing(
    "No spares and tools are noted; {count:count} belong to this equipment (practice).",
    "The shopping list names them; note what is carried under spares: and tools:.",
    key="spares.listed",
    path="rig.yaml spares",
)
MISSING = _missing(
    "Of {usual:count} spares and tools usual for this equipment (practice), {count:count} not noted: "
    "{names:list}.",
    "Buy them by the shopping list, or note where they are.",
    key="spares.missing",
    path="rig.yaml spares",
)
TOO_FEW = _missing(
    "Fewer than usual are carried (practice): {names:list}.",
    "They stand on the shopping list.",
    key="spares.too_few",
    path="rig.yaml spares.quantity",
)
NOT_COUNTED = _missing(
    "How many are carried is not noted, or not in the measure wanted: {names:list}.",
    "Count them, and note it.",
    key="spares.not_counted",
    path="rig.yaml spares.quantity",
)
NOT_LISTED = _missing(
    "By the log, and listed under no such name, or under several: {names:parts}.",
    "List it under spares: by that name, or correct the entry.",
    key="spares.not_listed",
    card=_PLACES,
    path="rig.yaml spares",
)
NO_PLACE = _missing(
    {
        "": "The place is not noted: {names:list}.",
        "many": "The place is not noted: {count:count} spares and tools.",
    },
    "Note where each lies.",
    key="spares.place",
    card=_PLACES,
    path="rig.yaml spares.place",
)
NO_PART_NUMBER = _missing(
    {
        "": "The part number is not noted: {names:list}.",
        "many": "The part number is not noted: {count:count} spares.",
    },
    "Read it off the part or its box.",
    key="spares.part_number",
    card=_PLACES,
    path="rig.yaml spares.part_number",
)
NO_VEHICLE = _missing(
    "These weigh something and are counted nowhere, since no vehicle is named: {names:list}.",
    "Enter in: with the vehicle, or the bay as the place.",
    key="spares.weight",
    card=_PLACES,
    path="rig.yaml spares.in",
)
NO_DAY = _missing(
    "These are counted as not on the scale ticket, to be safe: {names:list}.",
    "Enter since: with the day each came aboard.",
    key="spares.weight",
    card=_PLACES,
    path="rig.yaml spares.since",
)
NO_WEIGHT = _missing(
    "These came aboard after the weighing and have no weight: {names:list}.",
    "Weigh them on a kitchen scale; enter weight:.",
    key="spares.weight",
    card=_PLACES,
    path="rig.yaml spares.weight",
)
BAY_OVER = _attention(
    "The {bay} of the {vehicle} holds {load:weight up} and is rated {rating:weight down}.",
    "Move some of it to another bay.",
    card=_PLACES,
)
