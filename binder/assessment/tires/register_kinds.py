"""Kinds of figures and findings of the tire register: age, tread, pairs, and doubts about load tables."""

from binder.assessment.ledger import FigureKind, FindingKind, InputKind

_AXLE = "tires.{vehicle}.{axle}"
_TIRE = f"{_AXLE}.{{position}}"
_SPARE = "tires.{set}.{position}"
_DATE_CODE = "rig.yaml tires, mounted, {position}"
DATE_CODE_NOT_FOUND = "not found"
DATE_CODE = InputKind("date code", "{value}", _DATE_CODE)
TREAD_INPUT = InputKind("tread", "{value:tread down}", _DATE_CODE)
_MADE = "First day of the week in the date code; {code}."
_AGE = "Age on {day}, the last day this must hold."
MADE = FigureKind(f"{_TIRE}.made", "day", sources="S36; S52", basis="stated by a maker").by_rule(_MADE)
AGE = FigureKind(f"{_TIRE}.age", "years up", sources="S36; S50").by_rule(_AGE)
TREAD_READ = InputKind("read on {read:date}", "{value:tread down}", "log{who}")
_BY_LOG = "Groove depth as the log has it, for that is less than what the profile says, or all there is"
TREAD = FigureKind(f"{_TIRE}.tread", "tread down", sources="49 CFR 393.75", basis="measured").by_rule(
    {
        "": "Groove depth; at least {floor:tread up} on this axle.",
        "log": f"{_BY_LOG}; at least {{floor:tread up}} on this axle.",
    }
)
BY_WHOM = " by {who}"
SPARE_MADE = FigureKind(f"{_SPARE}.made", "day", sources="S36; S52", basis="stated by a maker").by_rule(_MADE)
SPARE_AGE = FigureKind(f"{_SPARE}.age", "years up", sources="S36; S50").by_rule(_AGE)
SPARE_TREAD = FigureKind(f"{_SPARE}.tread", "tread down", sources="profile", basis="measured").by_rule(
    {"": "Groove depth of the spare.", "log": f"{_BY_LOG}."}
)
_REGISTER = "tire_register"
_SERVICE = "have a tire service look at it before moving"
CODE_NOT_FOUND = (
    FindingKind("not cleared", 5, card=_REGISTER)
    .says("{vehicle}, {position}: date code not found", "read the last digits on both sides")
    .at("rig.yaml tires.{tires}.mounted.{position}.date_code")
)
CODE_IMPOSSIBLE = (
    FindingKind("not cleared", 5, card=_REGISTER)
    .says(
        "{vehicle}, {position}: its date code is no week and year before today", "read it again off the tire"
    )
    .at("rig.yaml tires.{tires}.mounted.{position}.date_code")
)
MADE_BEFORE_2000 = FindingKind("do not drive", 5, card=_REGISTER).says(
    "{vehicle}, {position}: made before 2000", "replace it", brief="made before 2000"
)
PAST_ITS_AGE = FindingKind({"": "do not drive", "practice": "attention"}, 5, card=_REGISTER).says(
    {
        "": "{vehicle}, {position}: {value:years nearest} old, past its age of {out:bare years}",
        "practice": "{vehicle}, {position}: {value:years nearest} old, past the usual age of "
        "{out:bare years} (practice)",
    },
    "replace it",
    brief="{value:years nearest} old, past its age of {out:bare years}",
)
INSPECT_YEARLY = FindingKind("attention", 5, card=_REGISTER).says(
    "{vehicle}, {position}: {value:years nearest} old", "have it inspected every year"
)
DAMAGED = FindingKind("do not drive", 5, card=_REGISTER).says(
    "{vehicle}, {position}: {damage}", _SERVICE, brief="{damage}"
)
DAMAGE_UNKNOWN = (
    FindingKind("not cleared", 5, card=_REGISTER)
    .says("{vehicle}, {position}: damage left blank", "look at it, and enter none or what it is")
    .at("rig.yaml tires.{tires}.mounted.{position}.damage")
)
TREAD_UNKNOWN = (
    FindingKind("not cleared", 5, card=_REGISTER)
    .says("{vehicle}, {position}: tread not known", "measure it in the shallowest groove")
    .at("rig.yaml tires.{tires}.mounted.{position}.tread")
)
_UNDER = "tread {value:tread down} is under {floor:tread up}"
WORN_OUT = (
    FindingKind({"": "do not drive", "unsure": "not cleared"}, 5, card=_REGISTER)
    .says(
        {
            "": f"{{vehicle}}, {{position}}: {_UNDER}",
            "log": "{vehicle}, {position}: tread {value:tread down}, read on {read:date}{who}, is under "
            "{floor:tread up}",
            "unsure": "{vehicle}, {position}: tread {value:tread down}, read on {read:date}{who} by a clock "
            "that can hardly be right, would be under {floor:tread up}",
        },
        {"": "replace it", "unsure": "measure it again, and enter it in the log"},
        brief=_UNDER,
    )
    .at({"unsure": "rig.yaml tires.{tires}.mounted.{position}.tread", "": ""})
)
PAIR_UNLIKE = FindingKind("do not drive", 5, key=f"{_AXLE}.{{side}}_pair", card=_REGISTER).says(
    "{vehicle}, {axle}: the {side} pair does not match: {mismatch}",
    "have the pair matched",
    brief="the {side} pair does not match: {mismatch}",
)
PAIR_NOT_MEASURED = (
    FindingKind("not cleared", 5, key=f"{_AXLE}.{{side}}_pair", card=_REGISTER)
    .says("{vehicle}, {axle}: whether the {side} pair matches is not known", "measure around both its tires")
    .at("rig.yaml tires.{tires}.mounted.{axle} {side} outer.circumference")
)
DUALS_TOO_CLOSE = FindingKind("attention", 5, key=f"{_AXLE}.dual_spacing", card=_REGISTER).says(
    "{vehicle}, {axle}: duals stand {spacing:as written} apart, this size needs {needed:as written}", _SERVICE
)
DUAL_SPACING_UNKNOWN = (
    FindingKind("missing", 5, key=f"{_AXLE}.dual_spacing", card=_REGISTER)
    .says("{vehicle}, {axle}: spacing of the duals not known", "measure between tread centers")
    .at("rig.yaml wheels.{wheels}.dual_spacing")
)
TABLE_OTHER_SIZE = (
    FindingKind("not cleared", 5, card=_REGISTER)
    .says(
        "{vehicle}, {axle}: the typed load table is for {table}, the tires are {size}: it is put aside",
        "type the maker's table of the tires that are mounted",
    )
    .at("rig.yaml tires.{tires}.table")
)
TABLE_SIZE_UNKNOWN = (
    FindingKind("missing", 5, card=_REGISTER)
    .says("{vehicle}, {axle}: the typed load table does not say its size", "add its size: and load range")
    .at("rig.yaml tires.{tires}.table.size")
)
TABLE_DOUBTED = FindingKind("attention", 5, card=_REGISTER).says(
    {
        "": "{vehicle}, {axle}: the typed load table: {doubt}",
        "row": "{vehicle}, {axle}: the typed load table at {row:pressure nearest}: {doubt}",
    },
    "read it against the maker's book; it may be a typing error",
)
SPARE_AGE_UNKNOWN = (
    FindingKind("missing", 5, card=_REGISTER)
    .says("{position} of the {set}: its age is not known", "read its date code again")
    .at("rig.yaml tires.{set}.mounted.{position}.date_code")
)
SPARE_PAST_ITS_AGE = FindingKind("attention", 5, card=_REGISTER).says(
    "{position} of the {set}: {value:years nearest} old, past its age", "replace it"
)
SPARE_INSPECT_YEARLY = FindingKind("attention", 5, card=_REGISTER).says(
    "{position} of the {set}: {value:years nearest} old", "have it inspected every year"
)

FORBIDDING = frozenset(
    kind for kind in list(vars().values()) if isinstance(kind, FindingKind) and kind.may_forbid
)
"""What is found of tires that must not roll."""
