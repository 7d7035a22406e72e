"""Kinds of figures and findings of service: meters, items, wheel nuts, and what carries a date."""

from functools import partial
from typing import NamedTuple

from binder.assessment.ledger import FigureKind, FindingKind, InputKind

_ORDER = 10
_OF_COUPLING = 4  # A coupling is among what matters most, other service is not.
_CARD = "service_due"
_missing = partial(FindingKind, "missing", _ORDER, card=_CARD)
_attention = partial(FindingKind, "attention", _ORDER, card=_CARD)

# What is usually serviced, by equipment.
OF_ENGINE = ("engine oil and filter", "coolant tested", "transmission oil", "air filter")
OF_DIESEL = "fuel filters"
OF_GENERATOR = "generator oil and filter"
OF_AIR_BRAKES = ("air dryer cartridge", "chassis greased")
OF_OTHER_BRAKES = "brakes inspected"
OF_TRAILER = "wheel bearings"
OF_HYDRONIC_HEATER = "hydronic heater"
OF_PROPANE = "propane system leak tested"
OF_COUPLING = "coupling"

# What is asked for a date, and how an entry of the profile is known to be it.
PAPERS = {
    "driver's license": r"licen[cs]e",
    "insurance": r"insurance",
    "registration": r"registration|registered",
}
ALARMS = {
    "extinguishers": ("extinguishers", r"extinguisher"),
    "smoke_alarm": ("smoke alarm", r"smoke|\balarms\b"),
    "carbon_monoxide_alarm": ("carbon monoxide alarm", r"carbon monoxide|\balarms\b"),
    "propane_alarm": ("propane alarm", r"(propane|gas) alarm|\balarms\b"),
}
"""By the field of the equipment."""
PROPANE = ("propane system or cylinders", r"(propane|gas) (?!alarm)|cylinder")

# Words that stand inside other sentences.
EFFECTIVE_DATE = "effective date"
STATES = {"overdue": "overdue", "due": "due", "unknown": "not known", "good": "in time"}
"""The one that matters most first."""
STATE_WHEN = "{state} {when}"
NOW, BEFORE_THE_END = "now", "before the trip ends"
SINCE, ON, ON_DAY = "since {at:date}", "on {at:date}", "on {at:date}, day {day}"
ITEM_WHEN = "{what}, {when}"
DATED = "{what}, {on:date}"

# Meters.
READ_ON = InputKind("read on", "{value:date}")
OF_READINGS, OF_SERVICE, OF_LOG = "rig.yaml readings", "rig.yaml service", "log"
_READ, _ADDED, _AT_END = (
    "as read",
    "what the trip adds, by the plan; the day of the reading is counted whole",
    "the reading and what the trip adds; what is driven between them is not counted",
)
_METER, _ADDED_FROM, _AT_END_FROM = "profile", "trip plan; arithmetic", "profile; trip plan; arithmetic"
_ODOMETER, _HOURS = "service.meters.{vehicle}.odometer", "service.meters.{vehicle}.{meter}"
ODOMETER = FigureKind(_ODOMETER, "distance up", _READ, _METER, "measured")
ODOMETER_ADDED = FigureKind(f"{_ODOMETER}_added", "distance up", _ADDED, _ADDED_FROM)
ODOMETER_AT_END = FigureKind(f"{_ODOMETER}_at_end", "distance up", _AT_END, _AT_END_FROM)
HOUR_METER = FigureKind(_HOURS, "hours up", _READ, _METER, "measured")
HOURS_ADDED = FigureKind(f"{_HOURS}_added", "hours up", _ADDED, _ADDED_FROM)
HOURS_AT_END = FigureKind(f"{_HOURS}_at_end", "hours up", _AT_END, _AT_END_FROM)

# Items.
_ITEM = "service.{item}"
_LAST, _FIRST = "last done and its interval by", "whichever of its intervals ends first counts"
_LEFT = "what is left of it at {ends}"
DUE_ON = FigureKind(f"{_ITEM}.due_on", "day", f"{_LAST} date; {_FIRST}", "profile; arithmetic")
DUE_AT = FigureKind(f"{_ITEM}.due_at", "distance down", f"{_LAST} distance; {_FIRST}", "profile; arithmetic")
DUE_AT_HOURS = FigureKind(
    f"{_ITEM}.due_at_hours", "hours down", f"{_LAST} running hours; {_FIRST}", "profile; arithmetic"
)
DAYS_LEFT = FigureKind(f"{_ITEM}.days_left", "whole days down", _LEFT, _AT_END_FROM)
DISTANCE_LEFT = FigureKind(f"{_ITEM}.distance_left", "distance down", _LEFT, _AT_END_FROM)
HOURS_LEFT = FigureKind(f"{_ITEM}.hours_left", "hours down", _LEFT, _AT_END_FROM)
STATE = FigureKind(
    f"{_ITEM}.state",
    "text",
    "overdue by {starts}, due by {ends}, or in time; the worst of its intervals",
    "profile; trip plan",
)


class Counted(NamedTuple):
    """What is entered and said of an interval, by what it is counted in."""

    due: FigureKind
    left: FigureKind
    last_done: InputKind
    at_end: InputKind
    overdue: str
    on_day: str


def _counted(due: FigureKind, left: FigureKind, measure: str) -> Counted:
    return Counted(
        due,
        left,
        InputKind("last done", f"{{value:{measure} down}}"),
        InputKind("{ends}", f"{{value:{measure} up}}"),
        f"by {{over:{measure} up}} at {{starts}}",
        f"on day {{day}}, at {{at:{measure} down}}",
    )


LAST_DONE_ON = InputKind("last done", "{value:date}")
LAST_DAY = InputKind("{ends}", "{value:date}")
COUNTED = {
    "date": Counted(DUE_ON, DAYS_LEFT, LAST_DONE_ON, LAST_DAY, SINCE, ON_DAY),
    "distance": _counted(DUE_AT, DISTANCE_LEFT, "distance"),
    "running hours": _counted(DUE_AT_HOURS, HOURS_LEFT, "hours"),
}


def _due(state: str, one: str, several: str) -> tuple[FindingKind, FindingKind]:
    """Of the coupling, and of anything else."""
    text = {
        "": f"Service {state} {{when}}: {{what}}.",
        "several": f"Service {state} by {{by}}, {{count:count}} items: {{items:parts}}.",
    }
    of_coupling, of_other = (
        FindingKind(
            "attention", order, text, {"": one, "several": several}, key=f"service.{state}", card=_CARD
        )
        for order in (_OF_COUPLING, _ORDER)
    )
    return of_coupling, of_other


COUPLING_OVERDUE, OVERDUE = _due("overdue", "Have it done before leaving.", "Have them done before leaving.")
COUPLING_DUE, DUE = _due(
    "due",
    "Have it done before leaving, or plan it on the way.",
    "Have them done before leaving, or plan them on the way.",
)
NO_INTERVAL = _missing(
    "Service, how often is not noted: {items:parts}.",
    "Enter it under every:, from the maker's manual, like 6 months.",
    key="service.every",
    path="rig.yaml service.every",
)
NO_LAST = _missing(
    "Service, when last done is not noted, by each of its intervals: {items:parts}.",
    "Enter it under last:, like {{on: 2026-03-12, at: 33400 mi}}.",
    key="service.last",
    path="rig.yaml service.last",
)
NO_READING = _missing(
    "Service, the meter's reading, or what the trip adds to it, is not known: {items:parts}.",
    "Enter it under readings:, and the hours a day under use: in the plan.",
    key="service.readings",
    path="rig.yaml readings",
)
READ_LATER = _attention(
    "The meters of the {vehicle} were read on {on:date}, which is yet to come.",
    "Read the date again.",
    key="service.meters",
)
DONE_LATER = _attention(
    "Service last done on {on:date}, which is yet to come: {what}.",
    "Read the date again.",
    key=f"{_ITEM}.last",
)
DONE_BEYOND = _attention(
    "Service last done at more than its meter reads: {what}.", "Read both again.", key=f"{_ITEM}.last"
)
_FALLEN = tuple(
    _attention(
        f"The {{meter}} of the {{vehicle}} reads less in the log than before: {{reads:parts}}. The highest, "
        f"{{counts:{measure} up}}, counts.",
        "Correct the entry that is wrong.",
    )
    for measure in ("hours", "distance")
)
FALLEN = {
    False: (_FALLEN[0], "{read:hours nearest} on {on:date}"),
    True: (_FALLEN[1], "{read:distance nearest} on {on:date}"),
}
"""What is found of a meter and how each reading is told, by whether it is an odometer."""
NOT_LISTED = _missing(
    "Service done by the log, and listed under no such name, or under several: {items:parts}.",
    "Call it as it stands under service:, or list it there.",
    key="service.not_listed",
    path="rig.yaml service",
)
NONE_LISTED = _missing(
    "No service is listed. Usual for this equipment (practice): {usual:parts}.",
    "List each under service:, with the interval of its maker's manual and when it was last done.",
    key="service.listed",
    path="rig.yaml service",
)
NO_COUPLING = FindingKind(
    "missing",
    _OF_COUPLING,
    "No service of the coupling is listed.",
    "List it: every {often} or sooner when traveling much (practice).",
    key="service.coupling",
    card=_CARD,
    path="rig.yaml service",
)
COUPLING_SELDOM = FindingKind(
    "attention",
    _OF_COUPLING,
    "The coupling is serviced less often than every {often}.",
    "When traveling much, at least so often (practice); its maker's manual comes first.",
    key="service.coupling",
    card=_CARD,
)

# Wheel nuts.
FITTED_AT = InputKind("fitted at", "{value:distance down}")
_NUTS = "service.wheel_nuts.{wheels}"
_AGAIN = "that its nuts are torqued again"
NUTS_DUE_FROM = FigureKind(
    f"{_NUTS}.due_from", "distance down", f"fitted, and the soonest {_AGAIN}", "W53; profile"
)
NUTS_DUE_BY = FigureKind(
    f"{_NUTS}.due_by", "distance down", f"fitted, and the latest {_AGAIN}", "W53; profile"
)
NUTS_STATE = FigureKind(
    f"{_NUTS}.state", "text", "the odometer by the trip's end against where they are due", "W53; trip plan"
)
NUTS_STATES = {
    "done": "done",
    "overdue": "overdue",
    "unknown": "not known",
    "later": "not on this trip",
    "due": "due on the trip",
    "on_day": "due on day {day}",
}
_TORQUE_THEM = "Torque them, and note it under nuts_checked: of these wheels."
_BETWEEN = "from {first:distance down} to {last:distance down}"
NUTS_NOT_NOTED = _missing(
    "The {wheels}: fitted on {on:date}; that their nuts were torqued again is not noted.",
    _TORQUE_THEM,
    path="rig.yaml wheels.{wheels}.nuts_checked",
)
NUTS_OVERDUE = _attention(
    "The {wheels}: their nuts were to be torqued again by {last:distance down}.", _TORQUE_THEM
)
NUTS_UNKNOWN = _missing(
    "The {wheels}: whether their nuts are due is not known: the odometer is not.",
    "Enter it under readings:.",
    path="rig.yaml readings",
)
NUTS_DUE = _attention(
    {
        "": f"The {{wheels}}: torque their nuts again on {_BETWEEN}.",
        "on_day": f"The {{wheels}}: torque their nuts again on day {{day}}, {_BETWEEN}.",
    },
    _TORQUE_THEM,
)

# What carries a date.
GOOD_UNTIL = InputKind("{what}", "{value:date}", "rig.yaml expires")
EXPIRES_ON = FigureKind("expires.{entry}.on", "day", "as printed on it", "profile", basis="stated by a maker")
EXPIRES_STATE = FigureKind(
    "expires.{entry}.state",
    "text",
    "expired by {starts}, or before {ends}; its last day is good",
    "profile; trip plan",
)
EXPIRES_STATES = {"expired": "expired", "expires": "expires on the trip", "good": "in date"}
_RENEW = "Renew or replace before leaving."
EXPIRED = _attention("Expired by {starts}: {dates:parts}.", _RENEW, key="expires.dates")
EXPIRES = _attention("Expires before {ends}: {dates:parts}.", _RENEW, key="expires.dates")
NO_DATE = _missing(
    "No date is noted for: {names:list}.",
    "Read it off the thing or the paper, and list it under expires:.",
    key="expires.dates",
    path="rig.yaml expires",
)
