"""Fixed numbers of braking, of the weekly leak-down, and of the wheel nuts."""

from binder.reference.procedure_constant import Amount, ProcedureConstant

_AIR = "the brake maker's figure comes first"

BRAKES = (
    ProcedureConstant(
        "snub speed",
        Amount("5", "mph"),
        Amount("8", "km/h"),
        "How far one braking takes the speed down below the one chosen; then the brakes rest.",
        "W39",
        "down to 1 km/h",
    ),
    ProcedureConstant(
        "snub time",
        Amount("3", "s"),
        Amount("3", "s"),
        "About as long as one firm braking takes; a light foot all the way down heats the drums more.",
        "W39",
    ),
    ProcedureConstant(
        "governor stops",
        Amount("120 to 140", "psi"),
        Amount("830 to 965", "kPa"),
        f"Here the compressor must stop filling the tanks; {_AIR}.",
        "W39",
        "inward to 5 kPa",
    ),
    ProcedureConstant(
        "governor starts",
        Amount("100", "psi"),
        Amount("690", "kPa"),
        f"Not under this the compressor must start again; {_AIR}.",
        "W39",
        "up to 10 kPa",
    ),
    ProcedureConstant(
        "brakes cool",
        Amount("1", "h"),
        Amount("1", "h"),
        "Drums that smoked hold their heat that long; touch no wheel before.",
        "practice",
    ),
    ProcedureConstant(
        "pedal held",
        Amount("1", "min"),
        Amount("1", "min"),
        "A pedal that sinks under a steady foot in that time is a leak.",
        "practice",
    ),
    ProcedureConstant(
        "nuts again",
        Amount("50 to 100", "miles"),
        Amount("80 to 160", "km"),
        "After a wheel is fitted its nuts are torqued again this far on; the maker's manual comes first.",
        "W53",
        "down to 10 km",
    ),
)
"""Looked up by name beside the other fixed numbers."""
