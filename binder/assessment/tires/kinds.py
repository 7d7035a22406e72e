"""Kinds of figures and findings of tires: their rules, sources, cautions and sentences."""

from binder.assessment.ledger import FigureKind, FindingKind, InputKind

LABEL_FIRST = "Vehicle labels and the tire maker's table come first."
_AXLE = "tires.{vehicle}.{axle}"

# Words that stand inside other sentences.
NEXT_ROW, LABEL_LIMIT, HALF_RATING = "next row", "the label's limit", "half the axle's rating"
ROOM_LEFT = "{room:room} to {limit}"
ROOM_TO_SPARE = "{room:room} to spare"
ROOM_OVER = "{over:weight up} over {limit}"
SIDE_END, HEAVIER_END = "{side} end", "heavier end"
NONE_GIVEN, NONE_KNOWN = "none given", "none known"
WHY_LABEL = {
    "trailer": "a trailer is never under its label, whatever is weighed",
    "placard": "its placard serves every load within its ratings",
    "by the label": "the profile keeps to the label (basis: label)",
    "not weighed": "its wheel ends are not weighed, or not known in every state of the trip",
    "other size": "its tires are of another size than the label's",
    "size not known": "whether its tires are of the label's size and load range is not known",
    "weighed": "wheel ends weighed, ticket fit",
}

# Inputs.
WHEEL_END = InputKind("{end}", "{value:weight up}", "{state}; {knowledge}, {by}")
TIRES_ON_END = InputKind("tires on that end", "{value:count}")
LOAD_PER_TIRE_INPUT = InputKind("load per tire", "{value:weight up}")
LOAD_SEEN_THERE = InputKind("load per tire", "see there")
LOAD_TABLE = InputKind("load table", "{value}", "rig.yaml tires")
ROW_CHOSEN = InputKind(
    "row chosen", "{value:pressure nearest} carries {load:weight down}", "rig.yaml tires, table"
)
ROW_BELOW = InputKind(
    "row below it", "{value:pressure nearest} carries {load:weight down}", "rig.yaml tires, table"
)
LABEL = InputKind("label", "{value:pressure up}")
RATING_NEEDED = InputKind("gross axle weight rating", "{value:weight up}")
RATING = InputKind("gross axle weight rating", "{value:weight down}")
LAST_ROW = InputKind("tire, last row", "{value:pressure down}", "rig.yaml tires")
STAMPED = InputKind("tire, stamped", "{value:pressure down}", "rig.yaml tires, sidewall.maximum_pressure")
WHEEL = InputKind("wheel", "{value:pressure down}", "rig.yaml wheels, maximum_pressure")
VALVE = InputKind("valve", "{value:pressure down}", "rig.yaml wheels, valve_maximum_pressure")
ROW_INPUT = InputKind("row pressure", "{value:pressure up}")
LABEL_INPUT = InputKind("label pressure", "{value:pressure up}")
MARGIN = InputKind("margin", "{value:pressure up}", "rig.yaml tires, margin; practice")
CAP_INPUT = InputKind("cap", "{value:pressure up}")
SET_POINT_INPUT = InputKind("set-point", "{value:pressure up}")
RUN_FLAT_INPUT = InputKind("run-flat line, cold", "{value:pressure up}")
CLOSEST_ALARM = InputKind("closest low alarm", "{value:percent down}", "rig.yaml equipment, tire monitor")
TIRE = InputKind("tire", "{value}", "rig.yaml tires, maximum_speed")
HOLDS_UP_TO_INPUT = InputKind("holds up to", "{value:weight down}")

# Figures.
LOAD_PER_TIRE = FigureKind(
    f"{_AXLE}.load_per_tire",
    "weight up",
    sources={"weighed": "statics; S58", "": "statics; S58; practice"},
    basis={"weighed": "calculated", "": "assumed"},
).by_rule(
    {
        "": "The heavier wheel end in the heaviest state of the trip, divided by its tires.",
        "not weighed": "Not known, for the axle is not weighed: its row is that of half the axle's rating.",
    },
    (LABEL_FIRST,),
)
ROW_PRESSURE = FigureKind(
    f"{_AXLE}.row_pressure",
    "pressure up",
    sources={"estimate": "S42; practice", "": "stated"},
    basis={"estimate": "calculated", "": "table"},
).by_rule(
    {
        "table": "First row of the maker's table that carries the load per tire.",
        "estimate": "From the sidewall by the family's curve, {more} more, then up to the next {step}.",
        "over the last row": "The load is over the last row: no pressure is printed.",
        "placard": "No table given: the placard serves, within the axle's rating.",
        "no table": "Neither a table nor the sidewall's figures are given: no row.",
        "load not known": "The load per tire is not known: no row.",
    },
    {"estimate": ("Calculated: get the maker's table.",), "": (LABEL_FIRST,)},
)
_BINDS = "it {binds}: {why:parts}."
LABEL_PRESSURE = FigureKind(
    f"{_AXLE}.label_pressure", "pressure up", sources="stated; practice", basis="stated by a maker"
).by_rule(
    {
        "other size": "What the fitted tires, of another size than the label's, need for the axle's "
        f"rating; {_BINDS}",
        "stamped": "No label is given: the pressure stamped on the tire stands in for it; " + _BINDS,
        "label": f"From the label; {_BINDS}",
    }
)
BINDS, BINDS_NOT = "binds", "does not bind"
CAP = FigureKind(f"{_AXLE}.cap", "pressure down", sources="stated; S60", basis="stated by a maker").by_rule(
    {
        "all known": "The least of tire, wheel and valve: set by {bound:and}.",
        "some unknown": "The least of tire, wheel and valve: not known, for {unknown:and} was not read; of "
        "those known {bound:and}, {least:pressure down}.",
    }
)
FLOOR_PRESSURE = FigureKind(f"{_AXLE}.floor_pressure", "pressure up", sources="practice; S69").by_rule(
    "The larger of row and label pressure, the label only where it binds: of those known set by {bound}."
)
LARGER = "the larger of label and row with margin"
LABEL_SET_ASIDE = "the row with margin, the label set aside ({why:parts})"
_FILL_TO = "What to fill to, cold: {among}, at most the cap; "
SET_POINT = FigureKind(f"{_AXLE}.set_point", "pressure up", sources="practice; S35").by_rule(
    {
        "label": f"{_FILL_TO}the label is higher than the row and its margin.",
        "row and margin": f"{_FILL_TO}the row and its margin.",
        "cap": f"{_FILL_TO}the cap cuts the margin short.",
        "no floor": f"{_FILL_TO}no pressure: the load is over what the tires carry, or neither row nor "
        "label is known.",
        "floor over cap": f"{_FILL_TO}no pressure: the floor is over the cap.",
        "label not known": f"{_FILL_TO}no pressure: the label binds, and what it says is not known.",
        "assumed over cap": f"{_FILL_TO}the cap, for only an assumed share is over what the tires carry.",
    },
    (LABEL_FIRST,),
)
ADD_IF_BELOW = FigureKind(f"{_AXLE}.add_if_below", "pressure up", sources="practice; S35").by_rule(
    "Below the set-point, cold: add air to the set-point.", (LABEL_FIRST,)
)
LEAVE_UP_TO = FigureKind(f"{_AXLE}.leave_up_to", "pressure down", sources="practice; S35").by_rule(
    {
        "": "Up to the cap, cold: leave it.",
        "some unknown": "Up to the cap, cold: leave it; not known, for {unknown:and} was not read; of "
        "those known {least:pressure down}.",
    },
    (LABEL_FIRST,),
)
RUN_FLAT_BELOW = FigureKind(
    f"{_AXLE}.run_flat_below", "pressure up", sources="29 CFR 1910.177; S39; S71; S72"
).by_rule(
    "80 % of the set-point in force: a tire driven at that or less is treated as run flat.",
    ("Truck tires: no air on the vehicle, stand clear, tire service.",),
)
HOT_FLAT = FigureKind(f"{_AXLE}.hot_flat", "pressure up", sources="gas law; USSA1976; S54; practice").by_rule(
    {
        "": "What a tire that is flat by the cold line reads just driven, as warm as one that is filled "
        "right.",
        "no rise": "What a tire that is flat by the cold line reads just driven, with the most that any tire "
        "rises: no rise of its family was found.",
    }
)
LOW_ALARM = FigureKind(f"{_AXLE}.low_alarm", "pressure up", sources="practice; 49 CFR 571.138").by_rule(
    {
        "": "The larger of row pressure and 85 % of the set-point, always over the run-flat line.",
        "no row": "The larger of row pressure and 85 % of the set-point: not known, for one of them is not.",
    },
    ("The gauge governs; many cap sensors read low at elevation.",),
)
MONITOR_SETTING = FigureKind(
    f"{_AXLE}.monitor_setting", "pressure down", sources="practice", unknown_makes_it="higher"
).by_rule("The closest the monitor can be set to; it warns {late:pressure up} after the wanted alarm.")
HOT_MATES_APART = FigureKind(
    # A share of the set-point: it rises only where a blank raised that.
    f"{_AXLE}.hot_mates_apart",
    "pressure down",
    sources="practice",
    unknown_makes_it="either",
).by_rule(
    "A tenth of the set-point: of two hot tires of the axle that far apart one leaks, or a brake drags."
)
LOAD_USED = FigureKind(f"{_AXLE}.load_used", "percent up", sources="practice").by_rule(
    "Load per tire as a share of what the tire carries at the set-point."
)
SPEED_LIMIT = FigureKind(
    f"{_AXLE}.speed_limit",
    "speed down",
    sources={"rated": "stated", "by its family": "S17; S04"},
    basis={"rated": "stated by a maker", "by its family": "assumed"},
).by_rule(
    {"rated": "Speed the tire is rated for.", "by its family": "Speed the tire is rated for, by its family."}
)
_LEAST = "; here {least}"
_HOLDS = (
    "Load on one tire up to which this holds: the least of what its row, or the label's pressure, carries "
    "and half the axle's rating"
)
_END_HOLDS = "Load on one wheel end up to which this holds: what one tire holds, times its tires"
HOLDS_UP_TO = FigureKind(
    f"{_AXLE}.holds_up_to", "weight down", sources="stated; 49 CFR 571.3; practice"
).by_rule({"": f"{_HOLDS}.", "known": f"{_HOLDS}{_LEAST}."})
END_HOLDS_UP_TO = FigureKind(
    f"{_AXLE}.end_holds_up_to", "weight down", sources="arithmetic; practice"
).by_rule({"": f"{_END_HOLDS}.", "known": f"{_END_HOLDS}{_LEAST}."})

# Findings of the monitor.
MONITOR_LATE = FindingKind("attention", 10, card="3").says(
    "{vehicle}, {axle}: the monitor warns {late:pressure up} after the wanted low alarm",
    "read the tires by gauge every cold morning; trust the fast-leak alarm",
)
MONITOR_MEANS_FLAT = FindingKind("attention", 10, card="3").says(
    "{vehicle}, {axle}: the monitor's low alarm while driving means FLAT, which reads {hot:pressure up} hot",
    "stop and add no air; read the tires by gauge every cold morning, fit a monitor that can be set closer",
)
CLOSEST_ALARM_UNKNOWN = (
    FindingKind("missing", 10, card="3")
    .says(
        "{vehicle}, {axle}: how close the monitor's low alarm can be set is not known",
        "read it in the monitor's manual",
    )
    .at("rig.yaml vehicles.{vehicle}.equipment.tire monitor.closest_low_alarm")
)
# Findings of pressures.
_OVER = "{end} is {excess:weight up} a tire over the limit of its {parts:and}"
OVERLOADED = (
    FindingKind({"": "do not drive", "assumed": "not cleared"}, 1, card="3")
    .says(
        {
            "": f"{{vehicle}}, {{axle}}: {_OVER} ({{state}})",
            "assumed": "{vehicle}, {axle}: {each:weight up} each, {by}, is {excess:weight up} over "
            "the limit of its {parts:and} ({state})",
        },
        {
            "": "take weight off this end or axle, carry less water, or fit tires and wheels rated for it",
            "assumed": "weigh both ends of this axle; until then carry less on it",
        },
        brief={"": _OVER, "assumed": "{each:weight up} each, {by}: over its {parts:and}"},
    )
    .at({"assumed": "rig.yaml scale_tickets", "": ""})
)
CANNOT_CARRY_RATING = (
    FindingKind({"": "do not drive", "if another size": "not cleared"}, 2, card="3")
    .says(
        {
            "": "{vehicle}, {axle}: no legal pressure, the fitted tires cannot carry the axle's rating",
            "if another size": "{vehicle}, {axle}: the fitted tires cannot carry the axle's rating, "
            "and whether "
            "they are the label's is not known",
        },
        {
            "": "fit tires of the label's size and load range",
            "if another size": "read size and load range off label and sidewall",
        },
        brief="no legal pressure, the fitted tires cannot carry the axle's rating",
    )
    .at({"if another size": "rig.yaml vehicles.{vehicle}.axles.{axle}.label_tires", "": ""})
)
FLOOR_OVER_CAP = FindingKind("do not drive", 2, card="3").says(
    "{vehicle}, {axle}: no legal pressure, the floor is over what the {parts:and} may hold",
    "have tires, wheels and valves matched to the label by a tire service",
    brief="no legal pressure, the floor is over what the {parts:and} may hold",
)
ROW_OVER_CAP_BY_ASSUMPTION = (
    FindingKind("not cleared", 2, card="3")
    .says(
        "{vehicle}, {axle}: {each:weight up} each, {by}, asks for more than the {parts:and} may hold",
        "weigh both ends of this axle; until then carry less on it",
        brief="{each:weight up} each, {by}: over its {parts:and}",
    )
    .at("rig.yaml scale_tickets")
)
NO_PRESSURE = (
    FindingKind("not cleared", 2, card="3")
    .says(
        {
            "": "{vehicle}, {axle}: no pressure can be printed, neither label pressure nor load "
            "table is known",
            "label": "{vehicle}, {axle}: no pressure can be printed, its label binds and is not known",
        },
        {
            "": "read the label; get the tire maker's table",
            "label": "read it off the label and enter it at {place}",
        },
    )
    .at("rig.yaml vehicles.{vehicle}.axles.{axle}.label_pressure")
)
NO_RESERVE = FindingKind("attention", 2, card="3").says(
    "{vehicle}, {axle}: no reserve left, the cap leaves nothing over the row for a cold morning",
    "add air on cold mornings; carry less on this axle",
)
MARGIN_CUT_SHORT = FindingKind("attention", 2, card="3").says(
    "{vehicle}, {axle}: the cap cuts the margin over the row short",
    "carry less on this axle, or fit parts rated for more",
)
LOAD_USED_HIGH = FindingKind("attention", 2, card="3").says(
    "{vehicle}, {axle}: its tires use {value:percent up} of what they carry at the set-point",
    "move or leave weight; the heaviest state decides",
)
OTHER_SIZE = FindingKind("attention", 5, card="3").says(
    "{vehicle}, {axle}: tires are {size} {load_range}, the label says {label}",
    "ask a tire service; the floor is what carries the axle's rating",
)
LABEL_HOLDS = FindingKind("attention", 6, card="3").says(
    "{vehicle}, {axle}: the label holds although the profile says weighed: {why:parts}",
    "weigh every wheel end again, in travel state",
)
ROW_CALCULATED = FindingKind("attention", 5, card="3").says(
    "{vehicle}, {axle}: the row is calculated, no load table is given",
    "get the maker's table for this exact size and load range",
)
_UNKNOWN = "{vehicle}, {axle}: "
LABEL_PRESSURE_UNKNOWN = (
    FindingKind({"": "missing", "stamped": "not cleared"}, 5, card="3")
    .says(
        {
            "": f"{_UNKNOWN}label pressure not known",
            "stamped": f"{_UNKNOWN}label pressure not known; what is stamped on its tires stands in for it",
        },
        "read the label",
    )
    .at("rig.yaml vehicles.{vehicle}.axles.{axle}.label_pressure")
)
PRESSURE_FOR_RATING_UNKNOWN = (
    FindingKind("missing", 5, card="3")
    .says(
        f"{_UNKNOWN}pressure at which the fitted tires carry the axle's rating not known",
        "get the maker's table, and the rating off the label",
    )
    .at("rig.yaml tires.{tires}.table")
)
LABEL_SIZE_UNKNOWN = (
    FindingKind("missing", 5, card="3")
    .says(f"{_UNKNOWN}the label's tire size not known", "read the label")
    .at("rig.yaml vehicles.{vehicle}.axles.{axle}.label_tires")
)
HIGHEST_PRESSURE_UNKNOWN = (
    FindingKind("not cleared", 2, card="3")
    .says(f"{_UNKNOWN}highest pressure of the {{part}} not known", "read it off the {part}")
    .at(
        {
            "": "rig.yaml tires.{tires}.sidewall.maximum_pressure",
            "wheel": "rig.yaml wheels.{wheels}.maximum_pressure",
            "valve": "rig.yaml wheels.{wheels}.valve_maximum_pressure",
        }
    )
)
HIGHEST_LOAD_UNKNOWN = (
    FindingKind("not cleared", 1, card="3")
    .says(f"{_UNKNOWN}highest load of the {{part}} not known", "read it off the {part}")
    .at(
        {
            "": "rig.yaml tires.{tires}.sidewall.maximum_load_{fitment}",
            "wheel": "rig.yaml wheels.{wheels}.maximum_load",
        }
    )
)
LOAD_RANGE_UNKNOWN = (
    FindingKind("missing", 5, card="3")
    .says(f"{_UNKNOWN}load range of the tires not known, so that the label binds", "read the sidewall")
    .at("rig.yaml tires.{tires}.load_range")
)
SIZE_UNKNOWN = (
    FindingKind("missing", 5, card="3")
    .says(f"{_UNKNOWN}tire size not known", "read the sidewall")
    .at("rig.yaml tires.{tires}.size")
)

# The fill table.
STANDS_AT = InputKind("must still stand at", "{value:pressure up}", "row pressure and the gauge's allowance")
WORST_MORNING = InputKind("cold morning that asks for most", "{value:temperature down}", "{place}")
ITS_ELEVATION = InputKind("its elevation", "{value:elevation up}", "{place}")
FILLED_AT = InputKind("filled at", "{value:elevation up}", "highest of the start and the nights")
FILL_AT = FigureKind(
    f"{_AXLE}.fill_at.{{temperature}}", "pressure up", sources="gas law; USSA1976; S35"
).by_rule(
    {
        "fill": "Filled to this at this tire temperature, it carries its load on every morning of the plan.",
        "cap": "The cap is in the way: add air on the cold morning.",
    },
    ("The temperature of the tire, not of the air; three hours in shade.",),
)
MORNINGS_UNKNOWN = (
    FindingKind("missing", 8, key="tires.cold_mornings", card="3")
    .says(
        "the fill for cold mornings is not known: low or elevation not given of {places:and}",
        "look the night's low and the elevation up; until then read every cold morning and add",
    )
    .at("trip plan, days.night.low, days.legs.to.elevation")
)
WARMEST_DAY = FigureKind(
    "route.warmest_day", "temperature down", sources="practice", basis="assumed"
).by_rule(
    {
        "": "The highest of the planned highs; one of them is not given.",
        "whole": "The highest of the planned highs.",
    }
)

FORBIDDING = frozenset(
    kind for kind in list(vars().values()) if isinstance(kind, FindingKind) and kind.may_forbid
)
"""What is found of tires that must not be driven on."""
