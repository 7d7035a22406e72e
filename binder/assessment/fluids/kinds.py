"""Kinds of figures and findings of fluids, and their names: rules, sources, cautions and sentences."""

import re
from collections.abc import Mapping
from functools import partial
from typing import NamedTuple

from binder.assessment.ledger import FigureKind, FindingKind, InputKind

# Fluids by their names in the owner's file.
ASKED = ("coolant", "hydronic", "washer", "engine oil", "generator oil")
"""Those of which it is asked down to where they protect."""
STARTED_ON = frozenset({"engine oil", "generator oil"})
"""Oils whose W grade tells: gear oils have W grades of another scale."""
NEVER_MEASURED = re.compile(r"brake|washer|water|grease|steering")
"""Fluids whose capacity nobody needs: they are filled to a mark, or by hand."""
STATED_LIMIT = re.compile(r"\bto (-?[0-9]+(?:\.[0-9]+)? ?deg[FC])\b")
STRENGTH = re.compile(r"([0-9]+(?:\.[0-9]+)?) ?%")
"""How a specification states down to where it protects, and how much is mixed with water."""


class UsualFluid(NamedTuple):
    """A fluid that equipment implies, and the words by which an entry is known to be it."""

    name: str
    pattern: str


OF_ENGINE = (
    UsualFluid("engine oil", r"engine oil"),
    UsualFluid("coolant", r"coolant|antifreeze"),
    UsualFluid("washer fluid", r"washer"),
)
OF_DRIVE = (
    UsualFluid("transmission oil", r"transmission|gearbox"),
    UsualFluid("axle oil", r"axle oil|differential|gear oil"),
)
OF_STEERING = UsualFluid("power steering fluid", r"steering|hydraulic")
OF_HYDRAULIC_BRAKES = UsualFluid("brake fluid", r"brake")
OF_DRIVEN_HUBS = UsualFluid("hub oil", r"hub|bearing")
OF_TOWED_HUBS = UsualFluid("wheel bearing grease", r"hub|bearing")
OF_GENERATOR = UsualFluid("generator oil", r"generator")
OF_HYDRONIC_HEATER = UsualFluid("hydronic fluid", r"hydronic|heater")
OF_EXHAUST = UsualFluid("exhaust fluid", r"exhaust fluid")
OF_LEAD_ACID = UsualFluid("battery water", r"batter|distilled")

# Words that stand inside other sentences.
SPECIFICATION, CAPACITY, HOW_READ = "specification", "capacity", "where and how it is read"
BLANK_OF_FLUID = "{blank} of {fluid}"
NOT_LISTED, NOT_NOTED = "not listed: {names}", "not noted: {blanks}"
MIXED, MIXED_BY = "{strength:percent as stated}", "{strength:percent as stated} by {basis}"
OR_THINNER = "{grade} or thinner"
FREEZES, TOO_THICK = "{fluid} of the {vehicle} freezes", "{fluid} of the {vehicle} is too thick to start on"
PAST_STRONGEST = "Past its strongest mixture more of it protects less."


class Harm(NamedTuple):
    """What a cold night does to something aboard, what helps, and whence its limit is."""

    words: str
    helps: str
    source: str


HARMS: Mapping[str, Harm] = {
    "diesel": Harm("diesel may gel", "Fill winter blend before the climb.", "practice"),
    "exhaust fluid": Harm(
        "exhaust fluid freezes", "Leave 7 % air in its tank; the engine thaws it.", "S-ISO22241-1"
    ),
    "fresh water": Harm("fresh water freezes", "Heat the bays, drip or drain; take the hose in.", "practice"),
    "propane": Harm(
        "propane gives little vapor", "Keep its container full; run fewer burners at a time.", "S-FLAME"
    ),
}
"""By what a tank holds."""
LITHIUM_COLD = Harm(
    "lithium batteries take no charge", "Warm them first; turn chargers and solar off.", "S-LFP"
)
LEAD_ACID_FREEZES = Harm(
    "a battery drawn to half freezes",
    "Keep batteries charged, the towed vehicle's too.",
    "S-DISCOVER; S-T105; S-OD1002",
)
OIL_HELPS = "The engine maker's chart first: a thinner winter grade, or the block heater."
MIXTURE_HELPS = "Mix it stronger before the climb, and test it."

# Inputs.
SPECIFICATION_INPUT = InputKind("specification", "{value}", "profile")
COLDEST_NIGHT = InputKind(
    "coldest night", "{value:temperature down}, night after day {day}, {place}", "trip plan"
)
PROTECTS_TO_INPUT = InputKind("protects to", "{value:temperature up}", "{sources:parts}")

# Figures.
PROPANE_PRESSURE = FigureKind(
    "fluids.propane.vapor_pressure",
    "pressure down",
    "Pressure over liquid propane as cold as the trip's coldest night: the least of the table's rows "
    "around it.",
    "S-FLAME",
    "table",
)
PROPANE_HEAT = FigureKind(
    "fluids.propane.heat_half_full",
    "power down",
    "Heat that a 100-lb cylinder, half full, gives off as vapor in air as cold as the coldest night: "
    "the next lower row and column. Another container has another wall, and no table.",
    "S-FLAME",
    "assumed",
    ("A 100-lb cylinder half full is assumed, whatever your tank is and holds.",),
)
_FLUID = "fluids.{vehicle}.{fluid}"
_CHART = "The engine maker's chart comes first."
_TEST = "The mixture in the vehicle is what counts: test it."
PROTECTS_TO = FigureKind(
    f"{_FLUID}.protects_to",
    "temperature up",
    {
        "oil": "cold-cranking limit of {grade}",
        "stated": "as its specification states",
        "mixed": "freezing point of {mixed}, {mixture}",
        "": "its specification does not tell",
    },
    {"": "profile", "oil": "{sources:parts}", "mixed": "{sources:parts}"},
    "table",
    cautions={"": (), "oil": (_CHART,), "stated": (_TEST,), "mixed": (_TEST,)},
)
_OVER = "the coldest night of the trip over the temperature it protects to"
MARGIN = FigureKind(
    f"{_FLUID}.margin",
    "temperature down",
    {"known": _OVER, "": f"{_OVER}; no low is given"},
    {"known": "{sources:parts}; trip plan", "": "{sources:parts}"},
)
NEEDED = FigureKind(
    f"{_FLUID}.needed",
    "text",
    {
        "oil": "thickest winter grade whose cranking limit covers it",
        "mixed": "weakest mixture of {mixed} in the table that does not freeze then",
    },
    "{source}; trip plan",
    "table",
    cautions={"oil": (_CHART,), "mixed": (_TEST,)},
)

# Findings.
_ORDER = 8
_missing = partial(FindingKind, "missing", _ORDER, card="fluids")
_attention = partial(FindingKind, "attention", _ORDER, card="fluids")
NOT_TOLD = _missing(
    "The {vehicle}: down to where its {fluid} protects is not known.",
    "Note its grade, like SAE 15W-40, or its mixture, like 50 % by volume.",
    path="rig.yaml vehicles.{vehicle}.fluids.{fluid}.specification",
)
TOO_STRONG = _attention(
    "The {vehicle}: its {fluid} is mixed past its strongest: more of it protects less.",
    "Take it back to the maker's mixture, and test it.",
)
BLANKS = _missing(
    "The {vehicle}, fluids {lacking:parts}.",
    "Enter them under fluids:, from its manual; where it has none, specification: none.",
    key="fluids.{vehicle}.listed",
    path="rig.yaml vehicles.{vehicle}.fluids",
)
