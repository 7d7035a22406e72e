"""Kinds of figures and findings of a trip's days: their rules, sources, cautions and sentences."""

from functools import partial

from binder.assessment.ledger import FigureKind, FindingKind, InputKind
from binder.reference.constants import PROCEDURE_CONSTANTS

_DAY = "route.day_{day}"
_LEG = f"{_DAY}.leg_{{leg}}"
_AS_PLANNED = "as planned"
_SUMMED = "trip plan; arithmetic"
_ENTER_IT = "Enter it."
_TO_THE_STOP = "Day {day}, leg {leg} to {place}:"
_missing = partial(FindingKind, "missing", 10, card="5")
_attention = partial(FindingKind, "attention", 10, card="5")

# Where an entry of the plan stands.
OF_DAY = "trip {trip}, day {day}"
OF_LEG = f"{OF_DAY}, leg {{leg}}"

# Words that stand inside other sentences.
EFFECTIVE_DATE, END_OF_TRIP, DEPARTING = "the effective date", "the end of the trip", "departure"
AT_NIGHT = "at {place}, night after day {day}"

# Distances and fuel.
TO_PLACE = InputKind("to {place}", "{value:distance up}")
NEXT_FUEL_INPUT = InputKind("next fuel")
LEG_DISTANCE = FigureKind(f"{_LEG}.distance", "distance up", _AS_PLANNED, "trip plan", "assumed")
DISTANCE = FigureKind(
    f"{_DAY}.distance",
    "distance up",
    {"": "distances of the legs", "unknown": "distances of the legs; one is not given"},
    _SUMMED,
)
_FUEL, _NO_FUEL = "the next stop with fuel after the day's start", "the plan has no fuel stop after it"
NEXT_FUEL = FigureKind(f"{_DAY}.next_fuel", "text", {"": _FUEL, "none": _NO_FUEL}, "trip plan", "assumed")
ON_DAY = "on day {day}"
NEXT_FUEL_DISTANCE = FigureKind(
    f"{_DAY}.next_fuel_distance",
    "distance up",
    {"": f"distance from the day's start to {_FUEL}", "none": _NO_FUEL},
    _SUMMED,
)
NO_PLAN = FindingKind(
    "missing",
    10,
    "The plan {file} is as it was handed out: everything is printed without a trip.",
    "Enter its name, when each day leaves and its places; or take the file away.",
    key="route",
    card="weights",
    path="trip plan, name, days.leave, days.from.place, days.legs.to.place",
)
NO_DISTANCE = _missing(
    f"{_TO_THE_STOP} its distance is not given.",
    _ENTER_IT,
    path="trip plan, days[{day}].legs[{leg}].distance",
)

# Times.
LEAVE = InputKind("leave", "{on:date} {value:clock}", "{origin}, leave")
DRIVING_TO = InputKind("driving to {place}", "{value:duration up}")
BREAK = InputKind(
    "break on the way to {place}", "15 min, after {value:duration down} of this leg", "W40; practice"
)
BREAK_AT = FigureKind(
    f"{_LEG}.break_{{count}}",
    "distance nearest",
    "from the leg's start, at its mean speed: a break after 2 h or {break_after} of driving",
    "W40; practice",
)
BREAK_LASTS = "{length:duration up}"
STAY = InputKind("stay at {place}", "{value:duration up}")
LEG = InputKind("leg")
PLACE = InputKind("place")
DEPARTURE = FigureKind(f"{_DAY}.departure", "moment", _AS_PLANNED, "trip plan")
_ARRIVAL_RULE = (
    "departure, driving, a break of 15 min after 2 h or {break_after} of driving whichever comes first, and "
    "the plan's own stays, which count as breaks from 15 min on"
)
ARRIVAL_FACTS = {"break_after": PROCEDURE_CONSTANTS["break after"]}
_ARRIVAL_SOURCES = "trip plan; W40; practice"
LEG_ARRIVAL = FigureKind(f"{_LEG}.arrival", "moment", _ARRIVAL_RULE, _ARRIVAL_SOURCES)
ARRIVAL = FigureKind(f"{_DAY}.arrival", "moment", _ARRIVAL_RULE, _ARRIVAL_SOURCES)
ZONE_TAKEN = "No time zone is given for {place}: that of the place before is taken."
NO_STAY = "No stay is given for {place}: none is counted."
LEG_DRIVING = FigureKind(f"{_LEG}.driving_time", "duration up", _AS_PLANNED, "trip plan", "assumed")
_DRIVING = "driving times of the legs, without breaks and stays"
DRIVING = FigureKind(
    f"{_DAY}.driving_time", "duration up", {"": _DRIVING, "unknown": f"{_DRIVING}; one is not given"}, _SUMMED
)
UNDER_LONGEST, OVER_LONGEST = (
    "{under:duration down} under your longest day",
    "{over:duration up} over your longest day",
)
_LIGHT_RULE = "sunset at the place and on the day, over a flat horizon"
_LIGHT_SOURCES = "LIB-SUN; trip plan"
_HILLS = ("Hills take the sun earlier.",)
SUNSET = FigureKind(f"{_DAY}.sunset", "moment", _LIGHT_RULE, _LIGHT_SOURCES, cautions=_HILLS)
SUNRISE = FigureKind(
    f"{_DAY}.sunrise", "moment", "sunrise where the day starts, over a flat horizon", _LIGHT_SOURCES
)
SUN = "the sun {state}"
DAYLIGHT_LEFT = FigureKind(
    f"{_DAY}.daylight_left", "duration down", _LIGHT_RULE, _LIGHT_SOURCES, cautions=_HILLS
)
BEFORE_DARK, AFTER_DARK = "{left:duration down} before {event}", "{late:duration up} after {event}"
AT_LEAST_AFTER_DARK = "at least {late:duration up} after {event}"
LEAVE_BY = FigureKind(
    f"{_DAY}.leave_by",
    "moment",
    "the latest departure that still arrives before {event}",
    "LIB-SUN; W40; trip plan; practice",
)
OVER_BEFORE = _attention(
    "The trip was over on {last:date}, before the effective date, {today:date}.",
    "Enter the days of the trip to come; 'build --date' prints for another day.",
)
NO_ZONE = _missing(
    "Day {day}: the place it starts from has no time zone, so no time can be given.",
    "Give the start with its time_zone, like America/Denver.",
    path="trip plan, days[1].from.time_zone",
)
NO_DRIVING = _missing(
    f"{_TO_THE_STOP} its driving time is not given.",
    "Enter it, at the speed you really drive.",
    path="trip plan, days[{day}].legs[{leg}].driving",
)
LONG_DAY = _attention(f"Day {{day}}: driving is {OVER_LONGEST}.", "Split the day, or stop earlier.")
NO_POSITION = _missing(
    "Day {day}: no position is given for {place}: no sunset.",
    "Enter its latitude and longitude.",
    path="trip plan, days[{day}].legs.to.latitude, longitude",
)
LIGHT_UNKNOWN = _missing(
    "Day {day}: a distance, a stay or a time zone is left blank: whether it arrives with light is not known; "
    "with no stay, no time at its hookups is counted.",
    "Enter the distance of each leg, and stay: and time_zone: of each stop.",
    path="trip plan, days[{day}].legs",
)
DARK_ARRIVAL = _attention(
    "Day {day}: arrival at {place} is {late}.",
    "Leave earlier, or stop short; arrive with light to see branches and cords.",
)

# Nights and wind.
LOW = InputKind("low at {place}", "{value:temperature down}", "{origin}, night")
ELEVATION = InputKind("{place}", "{value:elevation up}")
NIGHT_LOW = FigureKind(f"{_DAY}.night_low", "temperature down", _AS_PLANNED, "trip plan", "assumed")
FREEZES = FigureKind(
    f"{_DAY}.freezes",
    "text",
    {
        "": "what is aboard and stands over the night's low: {around:list}",
        "none": "what is aboard and stands over the night's low: nothing that freezes",
        "unknown": "the low is not known",
    },
    {"": "trip plan; {sources:parts}", "none": "trip plan", "unknown": "trip plan"},
    cautions={
        "": ("A heated bay is warmer than the air, a line along a wall may be colder.",),
        "unknown": (),
    },
)
FROZEN, NOTHING, FREEZES_BELOW = "{frozen:parts}", "nothing", "{words} below {limit:temperature up}"
HIGHEST_STOP = FigureKind(
    f"{_DAY}.elevation_highest",
    "elevation up",
    {
        "": "the highest of the day's stops and of the tops of its grades; passes between may be higher",
        "some": "the highest of the day's stops and of the tops of its grades; not known: {lacking:list}",
        "none": "no elevation is given",
    },
    "trip plan",
    "assumed",
)
COLDEST_NIGHT = FigureKind(
    "route.coldest_night",
    "temperature down",
    {"": "the lowest of the planned lows", "none": "no low is given"},
    "trip plan",
    "assumed",
    cautions={"": (), "some": ("The low of a night is not given; it may be the coldest.",)},
    unknown_makes_it="lower",
)
HIGHEST_NIGHT = FigureKind(
    "route.highest_overnight_elevation",
    "elevation up",
    {"": "the highest place a night is spent at", "none": "no elevation of a night is given"},
    "trip plan",
    "assumed",
    cautions={"": (), "some": ("The elevation of a night is not given; it may be the highest.",)},
)
NO_LOW = FindingKind(
    "missing",
    8,
    "Day {day}: the low of the night at {place} is not given.",
    "Enter the forecast, or the normal low.",
    card="5",
    path="trip plan, days[{day}].night.low",
)
NO_ELEVATION = FindingKind(
    "missing",
    8,
    "Day {day}: the elevation of {place} is not given.",
    "Enter it; tire pressures of cold mornings need it.",
    card="3",
    path="trip plan, days[{day}].legs.to.elevation",
)
FREEZES_THERE = FindingKind(
    "attention",
    8,
    "Day {day}: {words} at {place}: low {low:temperature down}, limit {limit:temperature up}.",
    "{helps}",
    card="5",
)
OWN_WIND = InputKind("{name}", "{value:speed down}", "trip plan, rules.wind.{name}")
USUAL_WIND = {name: PROCEDURE_CONSTANTS[f"wind {name}"] for name in ("sustained", "gusts")}


def _wind(name: str) -> FigureKind:
    return FigureKind(
        f"route.wind_{name}",
        "speed down",
        {
            "own": "Your own limit: over it the rig parks.",
            "usual": "The usual limit, for want of your own: over it the rig parks.",
        },
        {"own": "trip plan", "usual": "practice"},
        "assumed",
        cautions={"own": (), "usual": ("Crosswinds turn a high rig over before they stop it.",)},
    )


WIND = {"sustained": _wind("sustained"), "gusts": _wind("gusts")}

PLANNED = frozenset(
    [*(kind for kind in list(vars().values()) if isinstance(kind, FigureKind)), *WIND.values()]
)
"""What the plan says, or follows from it: no assumption, whatever it rests on."""
