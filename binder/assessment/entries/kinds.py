"""Kinds of findings about doubtful entries, and the words of problems with entries that contradict others."""

from functools import partial

from binder.assessment.ledger import FindingKind

_AGAIN = "read it again; correct the profile, or leave it if it is so"
_PLAN_AGAIN = "read it again; correct the plan, or leave it if it is so"


def _doubt(order: int, card: str, text: str, key: str = "", helps: str = _AGAIN) -> FindingKind:
    return FindingKind("attention", order, text, helps, key, card)


# Doubts: sizes, labels and batteries of a vehicle.
_PAGE = "read_back"
_vehicle = partial(_doubt, 6, _PAGE)
_HEIGHT, _LENGTH, _WIDTH = "rig.overall_height", "rig.overall_length", "rig.overall_width"
HEIGHT = _doubt(3, _PAGE, "{vehicle}: a height of {height:length up} is unlikely", f"{_HEIGHT}.{{vehicle}}")
OVERHANGS = _vehicle(
    "{vehicle}: overhangs and axles are {apart:length up} off its overall length", f"{_LENGTH}.{{vehicle}}"
)
WIDTH = _vehicle(
    "{vehicle}: a width of {width:length up} without mirrors is more than roads allow unasked",
    f"{_WIDTH}.{{vehicle}}",
)
MIRRORS = _vehicle("{vehicle}: its width with mirrors does not suit that without", f"{_WIDTH}.{{vehicle}}")
WHEELBASE = _vehicle(
    "{vehicle}: a length of {length:length up} over a wheelbase of {wheelbase:length up} is unlikely",
    f"{_LENGTH}.{{vehicle}}",
)
TRACK = _vehicle(
    "{vehicle}: a track of {track:length up} at {axle} does not suit its width", "weights.track.{vehicle}"
)
AXLE_RATINGS = _vehicle(
    "{vehicle}: its axle ratings together are {share:share} of its gross vehicle weight rating",
    "weights.ratings.{vehicle}",
)
COMBINATION_RATING = _vehicle(
    "{vehicle}: its combination rating is {share:share} of its gross vehicle weight rating",
    "weights.combination_rating.{vehicle}",
)
LABEL_CAPACITY = _vehicle(
    "{vehicle}: unloaded weight and carrying capacity are {apart:weight up} off its gross vehicle weight "
    "rating",
    "weights.label_capacity.{vehicle}",
)
BATTERIES = _doubt(
    9,
    _PAGE,
    "{vehicle}: {count} {bank} batteries of {each:as written} at {voltage:as written} do not make "
    "{total:number} Ah",
    "rig.batteries.{vehicle}",
)

# Doubts: scale tickets and who was aboard.
TOTAL, END = "total", "{axle} {side}"
_weighed = partial(_doubt, 6, "weights")
_TICKET = "weights.{vehicle}.ticket"
UNDER_UNLOADED = _weighed(
    "{vehicle}: the ticket of {on:date} says less than its unloaded weight, {empty:weight down}", _TICKET
)
BETWEEN_STEPS = _weighed(
    "{vehicle}: the scale reads in steps of {division:weight nearest}, but not so: {parts:list}", _TICKET
)
UNEVEN_ENDS = _weighed(
    "{vehicle}, {axle}: one end weighs over a quarter more than the other on the ticket",
    f"{_TICKET}.{{axle}}",
)
MANY_ABOARD = _weighed(
    "{vehicle}: far more was aboard on the scale than the crew weighs; the rest is taken off",
    "weights.{vehicle}.aboard",
)

# Doubts: tires and wheels; those without a key are about a figure of tires.
_tire = partial(_doubt, 5, "3")
STAMPED = _tire("{vehicle}, {axle}: the axle's rating is more than its tires are stamped for")
TABLE = _tire("{vehicle}, {axle}: at the label pressure, the typed table does not carry the axle's rating")
LABEL_OVER_CAP = _tire(
    "{vehicle}, {axle}: its label pressure is more than its tires, wheels or valves may hold"
)
PLACARD = _tire("{vehicle}, {axle}: a placard of {label:pressure nearest} is unlikely on a car")
TREAD = _doubt(5, "tire_register", "{vehicle}, {axle}: {position}: no tread is over 1 in deep")
_HIGHEST = "{vehicle}, {axle}: a highest pressure of {limit:pressure down} is unlikely for its"
TIRE_PRESSURE = _tire(f"{_HIGHEST} tires")
WHEEL_PRESSURE = _tire(f"{_HIGHEST} wheels")
TIRE_SPEED = _tire(
    "{vehicle}, {axle}: tires made for {speed:speed down} are unlikely",
    "tires.{vehicle}.{axle}.maximum_speed",
)
WHEEL_LOAD = _tire("{vehicle}, {axle}: a highest load of {limit:weight down} is unlikely for its wheels")
NUT_TORQUE = _doubt(
    5, "service_due", "{vehicle}, {axle}: its nut torque is unlikely", "tires.{vehicle}.{axle}.nut_torque"
)

# Doubts: couplings.
_COUPLING = "4"
_coupling = partial(_doubt, 4, _COUPLING)
AT_BEHIND = _coupling(
    "{ahead} to {behind}: its place on the {behind} is unlikely", "coupling.{behind}.at_behind"
)
AT_AHEAD = _coupling(
    "{ahead} to {behind}: its place is over 3 ft from the rear of the body", "coupling.{behind}.at"
)
NOT_JOINED = FindingKind(
    "missing",
    4,
    "{vehicle}: nothing says what joins it to the vehicle ahead",
    "enter it under couplings",
    "coupling.{vehicle}",
    _COUPLING,
    path="rig.yaml couplings",
)

# Doubts: legs and nights of a trip.
_DAY_SHEET = "5"


def _leg(order: int, text: str) -> FindingKind:
    told = f"Day {{day}}, to {{place}}: {text}"
    return _doubt(order, _DAY_SHEET, told, "route.day_{day}.leg_{leg}", _PLAN_AGAIN)


MEAN_SPEED = _leg(10, "{speed:speed up} on average is unlikely")
SLOPE = _leg(7, "{what}: a slope over {steepest:percent nearest} is unlikely")
GENTLE = _leg(7, "{what}: a grade under {gentlest:percent nearest} is unlikely")
LONGER_THAN_LEG = _leg(7, "{what}: it is longer than the leg")
BEYOND_LEG = _leg(7, "{what}: it lies beyond the leg")
POSTED = _leg(3, "{what}: posted {posted:length down} is unlikely")
UNDER_STRAIGHT = _leg(10, "its distance is less than the straight line, {straight:distance down}")
OVER_STRAIGHT = _leg(10, "its distance is far more than the straight line, {straight:distance up}")
CLIMB = _leg(10, "it climbs or falls {climb:elevation up} on the way, which is unlikely")
ELEVATION = _leg(10, "an elevation of {elevation:elevation up} is unlikely")


LONG_LEG = _leg(10, "a leg of {distance:distance up} is unlikely")
OTHER_UNIT = _leg(10, "its elevation is in {unit}, not in {units} as the rig's measures are")
FUEL_USE = _doubt(
    9,
    "supplies_along_trip",
    "The {fuel} that a distance takes, as the plan says it, is unlikely.",
    "route.use.{fuel}",
    _PLAN_AGAIN,
)


def _night(text: str) -> FindingKind:
    told = f"Day {{day}}, night at {{place}}: {text}"
    return _doubt(8, _DAY_SHEET, told, "route.day_{day}.night", _PLAN_AGAIN)


TEMPERATURE = _night("{temperature:temperature nearest} is unlikely")
LOW_OVER_HIGH = _night("its low is above its high")

# The owner's own words on a card.
_LINE_OF = "card {title}: '{said}'"
OWN_WORDS = FindingKind(
    "attention",
    3,
    {
        "": f"{_LINE_OF} is left out by its owner",
        "weaker": f"{_LINE_OF} stops less than it did, in its owner's own words",
        "reworded": f"{_LINE_OF}, without which nothing moves, is in its owner's own words",
    },
    "read it again; take the line out of {where}, or leave it if it is so",
    "cards.{card}.{line}",
    "1",
)

# Problems: names that lead nowhere.
MISREAD = "which is misread?"
NOT_DESCRIBED = "'{name}' is not described in rig.yaml"
DID_YOU_MEAN = "did you mean '{near}'?"
THERE_ARE = "there are: {names}"
THERE_ARE_NONE = "there are none in this file"
NOT_IN_LIST = "'{name}' is not in the list of what belongs aboard"
NOT_IN_LIST_HINT = "leave it out where the list has no such thing; 'binder explain DIR spares' prints it"
NO_SUCH_HOUR = "{time} is left out that day in {zone}, where daylight saving begins"
INTERVAL = "an interval is more than nothing and under 100 years; leave it out if it is not known"

# Problems: axles, levels, tickets, tables and times.
NOT_BEHIND = "this axle is not behind '{ahead}'; axles stand front to rear"
FIRST_AXLE = "the first axle is where measuring starts; write '0 in'"
OVER_CAPACITY = "'{level}' is more than the tank holds ({capacity})"
END_OVER_AXLE = f"this end is more than the axle, which says {{axle}}; {MISREAD}"
ENDS_APART = f"left and right make {{both}}, the axle says {{axle}}; {MISREAD}"
AXLES_APART = f"the axles make {{axles}}, the total says {{total}}; {MISREAD}"
SOME_AXLES_OVER = f"{{count}} of its axles make {{axles}}, more than this total; {MISREAD}"
EMPTY_ROW = "a row of this table has no pressure or no load; read it against the maker's book"
AT_ROW = " at {pressure}"
DUAL_SHARE = (
    "the dual load a tire{at} is not 75 to 97 % of the single load; is the table per tire, per pair or per "
    "axle end?"
)
FALLS = "the table does not rise{at}; read it against the maker's book"
NOT_ENDED = "the day before, from {began} with {driving} of driving, cannot have ended yet"

# Problems: measures of a vehicle.
_LENGTHS = "both overhangs and the distance of the axles make {apart} in"
LENGTHS_OVER = f"{_LENGTHS} more than this; {MISREAD}"
LENGTHS_UNDER = f"{_LENGTHS} less than this; {MISREAD}"
LAST_AXLE_BEYOND = f"the last axle stands {{behind}} in behind the first, beyond this; {MISREAD}"
USABLE_OVER = "more than the tank holds ({capacity}) cannot be usable"
OUTSIDE_ALONG = "this is outside the vehicle, by its overhangs and axles"
OUTSIDE_ACROSS = "this is outside the vehicle, by its overall width"
OUTSIDE = "this is outside the {vehicle}"

# Problems: vehicles and what joins them.
JOIN = "join them under couplings: '{{ahead: truck, behind: camper, how: carried, at: 62 in}}'"
NO_AXLE = "at least one axle is needed here"
NOT_STATED = "the scale finds it from the axles; only a camper, which has none, states it"
CAMPER_AXLES = "a camper has no axles; one that rolls is a trailer"
NOT_CARRIED = "nothing says what carries '{vehicle}'"
FIRST_CARRIES = "what the first axle carries follows from statics; leave it out"
SHARES = "the axles of this group take {stated} of what is added; together they take all of it"
SHARES_HINT = "an axle that takes the rest has no 'carries'"
BEHIND_ITSELF = "'{behind}' cannot be behind itself"
NOT_FOLLOWING = "'{behind}' does not follow '{ahead}' under vehicles"
NOT_FOLLOWING_HINT = "list vehicles and couplings front to rear"
ALREADY_BEHIND = "'{behind}' is already behind another vehicle"
JOINED_TO_CARRIED = "'{ahead}' is carried, and nothing is joined to what is carried"
CAMPER_HOW = "a camper is 'carried'"
NO_DOLLY = "'{ahead}' is no dolly; the dolly is a vehicle of its own, with its axle"
NO_DOLLY_HINT = "three vehicles and two couplings: coach to dolly by 'ball', dolly to car by 'dolly'"
NO_FRONT_AXLE = "'{behind}' has no front axle to stand on a dolly and rear axle to roll on"
COUPLER_AHEAD = "a coupler is ahead of the first axle of its trailer; write it like '-205 in'"
SPRING_BARS = "spring bars belong to a ball, not to '{how}'"
NOT_MEASURED = {
    "down_load": "what it presses down is what it weighs: its scale ticket says it",
    "at_behind": "'at' alone says where it stands on the vehicle ahead",
}
