"""Fixed numbers of the procedures: each with its words in both systems, its reason and its source.

They are the same for every rig, so no figure holds them; a card prints the text that stands here and
computes nothing. The metric text is rounded to the strict side, and says how.
"""

from collections.abc import Mapping
from types import MappingProxyType

from binder.reference.brake_constants import BRAKES
from binder.reference.exhaust_fluid_constants import EXHAUST_FLUID
from binder.reference.procedure_constant import Amount, ProcedureConstant
from binder.reference.rule_constants import RULES

__all__ = ["PROCEDURE_CONSTANTS", "Amount", "ProcedureConstant"]

_AIR = "the brake maker's figure comes first"
_STEP_BACK = "counted at {} a step, rounded down: not beyond; measure your own"
_STEP = "counted at {} a step, rounded up; measure your own"
_PACES = ("2 ft 6 in", "0.76 m")
_LAW_PRINTS = "nearest, as the law prints it"

_ALL = (
    ProcedureConstant(
        "hot rise truck",
        Amount("10 to 18", "psi"),
        Amount("70 to 125", "kPa"),
        "How far a truck tire's pressure rises from cold to hot on the road.",
        "S54; gas law",
        "nearest 5 kPa",
    ),
    ProcedureConstant(
        "hot rise light truck",
        Amount("9 to 11", "psi"),
        Amount("60 to 80", "kPa"),
        "How far a light-truck tire at its full pressure rises from cold to hot.",
        "S54; gas law",
        "outward to 5 kPa",
    ),
    ProcedureConstant(
        "hot rise car",
        Amount("2 to 6", "psi"),
        Amount("10 to 45", "kPa"),
        "How far a car tire's pressure rises from cold to hot.",
        "S54; gas law",
        "outward to 5 kPa",
    ),
    ProcedureConstant(
        "hot mates",
        Amount("10", "%"),
        Amount("10", "%"),
        "Two hot tires of one axle further apart: a leak or a brake.",
        "practice",
    ),
    ProcedureConstant(
        "hot mates warmth",
        Amount("25", "°F"),
        Amount("14", "°C"),
        "A tire that much hotter than its mate: a leak or a brake.",
        "practice",
        "up to 1 °C, a difference",
    ),
    ProcedureConstant(
        "cold mates",
        Amount("5", "psi"),
        Amount("35", "kPa"),
        "Two cold tires of one axle further apart: one of them loses air.",
        "S45; S48",
        "up to 5 kPa",
    ),
    ProcedureConstant(
        "cold rest",
        Amount("3", "h"),
        Amount("3", "h"),
        "Parked in shade that long, or before sunrise, a tire is cold.",
        "practice",
    ),
    ProcedureConstant(
        "read again",
        Amount("1", "h"),
        Amount("1", "h"),
        "A slow leak shows between two readings.",
        "practice",
    ),
    ProcedureConstant(
        "law build-up heavy",
        Amount("15", "psi"),
        Amount("105", "kPa"),
        "Least build-up of a hot truck tire rated over 4,000 lb at 41 to 55 mph, by the law's table.",
        "49 CFR 393.75; S33",
        "up to 5 kPa",
        "Least build-up of a hot truck tire rated over 1,814 kg at 66 to 88 km/h, by the law's table.",
    ),
    ProcedureConstant(
        "law build-up light",
        Amount("5", "psi"),
        Amount("35", "kPa"),
        "Least build-up of a hot truck tire rated 4,000 lb or less at 41 to 55 mph, by the law's table.",
        "49 CFR 393.75; S33",
        "up to 5 kPa",
        "Least build-up of a hot truck tire rated 1,814 kg or less at 66 to 88 km/h, by the law's table.",
    ),
    ProcedureConstant(
        "air to move",
        Amount("100", "psi"),
        Amount("690", "kPa"),
        f"Under this the governor has not refilled the tanks; {_AIR}.",
        "W39",
        "up to 10 kPa",
    ),
    ProcedureConstant(
        "air build",
        Amount("85 to 100", "psi"),
        Amount("585 to 690", "kPa"),
        f"A compressor that needs longer is failing; {_AIR}.",
        "W39",
        "outward to 5 kPa",
    ),
    ProcedureConstant(
        "air build time",
        Amount("45", "s"),
        Amount("45", "s"),
        f"The longest a sound compressor takes; {_AIR}.",
        "W39",
    ),
    ProcedureConstant(
        "air loss, released",
        Amount("2", "psi"),
        Amount("13", "kPa"),
        f"More in one minute, engine off, brakes released, is a leak; {_AIR}.",
        "W39",
        "down to 1 kPa",
    ),
    ProcedureConstant(
        "air loss, foot on",
        Amount("3", "psi"),
        Amount("20", "kPa"),
        f"More in one minute, engine off, foot on the brake, is a leak; {_AIR}.",
        "W39",
        "down to 1 kPa",
    ),
    ProcedureConstant(
        "air loss time",
        Amount("1", "min"),
        Amount("1", "min"),
        "The time both leak tests are read over.",
        "W39",
    ),
    ProcedureConstant(
        "air warning",
        Amount("60", "psi"),
        Amount("415", "kPa"),
        f"Lamp or buzzer must come before the air falls this far (55 psi in newer texts); {_AIR}.",
        "W39",
        "up to 5 kPa",
        f"Lamp or buzzer must come before the air falls this far (380 kPa in newer texts); {_AIR}.",
    ),
    ProcedureConstant(
        "knobs pop",
        Amount("20 to 45", "psi"),
        Amount("140 to 310", "kPa"),
        f"Here the parking brake must set itself; {_AIR}.",
        "W39",
        "inward to 5 kPa",
    ),
    ProcedureConstant(
        "service brake speed",
        Amount("5", "mph"),
        Amount("8", "km/h"),
        "Slow enough to stop whatever happens; a pull to one side shows at once.",
        "W39",
        "down to 1 km/h",
    ),
    ProcedureConstant(
        "hub over its mate",
        Amount("50", "°F"),
        Amount("27", "°C"),
        "A hub this much hotter than its mate on the axle is a bearing or a brake.",
        "practice",
        "down to 1 °C, a difference",
    ),
    ProcedureConstant(
        "bar level",
        Amount("3", "in"),
        Amount("7", "cm"),
        "A bar farther out of level pushes the towed car up or down when braking.",
        "practice",
        "down to 1 cm",
    ),
    ProcedureConstant(
        "first stretch",
        Amount("hundred", "feet"),
        Amount("30", "meters"),
        "Far enough for every wheel to turn round several times, short enough to walk back.",
        "practice",
        "down to 10 m",
    ),
    ProcedureConstant(
        "device near",
        Amount("10", "ft"),
        Amount("3", "m"),
        "First device, on the traffic side.",
        "49 CFR 392.22",
        _LAW_PRINTS,
    ),
    ProcedureConstant(
        "device far",
        Amount("100", "ft"),
        Amount("30", "m"),
        "Second device.",
        "49 CFR 392.22",
        _LAW_PRINTS,
    ),
    ProcedureConstant(
        "device farthest",
        Amount("200", "ft"),
        Amount("60", "m"),
        "Third device where traffic comes from one side only.",
        "49 CFR 392.22",
        _LAW_PRINTS,
    ),
    ProcedureConstant(
        "device out of sight",
        Amount("500", "ft"),
        Amount("150", "m"),
        "A hill, curve or obstruction nearer than this hides the rig: the device on that side goes farther "
        "out, not beyond this.",
        "49 CFR 392.22",
        _LAW_PRINTS,
    ),
    *(
        ProcedureConstant(
            f"steps {name}",
            Amount(count, "steps"),
            Amount(count, "steps"),
            words.format(_PACES[0]),
            "practice",
            metric_reason=words.format(_PACES[1]),
        )
        for name, count, words in (
            ("near", "4", _STEP),
            ("far", "40", _STEP),
            ("farthest", "80", _STEP),
            ("out of sight", "200", _STEP_BACK),
        )
    ),
    ProcedureConstant(
        "breakaway holds",
        Amount("15", "min"),
        Amount("15", "min"),
        "A breakaway must apply at once and hold this long.",
        "49 CFR 393.43",
    ),
    ProcedureConstant(
        "emergency call, United States",
        Amount("911", ""),
        Amount("911", ""),
        "The emergency number of the United States.",
        "W34",
    ),
    ProcedureConstant(
        "emergency call, European Union",
        Amount("112", ""),
        Amount("112", ""),
        "The emergency number of the European Union.",
        "W35",
    ),
)

PROCEDURE_CONSTANTS: Mapping[str, ProcedureConstant] = MappingProxyType(
    {constant.name: constant for constant in (*_ALL, *BRAKES, *EXHAUST_FLUID, *RULES)}
)
"""Every fixed number of the procedures by its name."""
