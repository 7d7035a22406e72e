"""Kinds of figures and findings of the log: what tires lose, what was read last, what is broken."""

from binder.assessment.ledger import FigureKind, FindingKind, InputKind

_TIRE = "tires.{vehicle}.{axle}.{position}"
_SPARE = "tires.{set}.{position}"

# Words that stand inside other sentences.
BY, STATE, BY_WHOM = ", {by}", ", {state}", " by {who}"
PLACES = {
    (True, True): ", {vehicle}, {position}",
    (True, False): ", {vehicle}",
    (False, True): ", {position}",
}
CLOCK_UNSURE = " (by a clock that can hardly be right)"
LEFT_OUT = "Left out of the readings: {why:parts}."
COUNTED = "{count:count} {why}"
WHY_LEFT_OUT = {
    "cold": "not said to be cold",
    "clock": "by a clock that can hardly be right",
    "odd": "far from the others",
    "alone": "of unknown temperature or elevation, with no other tire read beside",
    "between": "of the same days, or of days between, for there are more than it takes",
}
TAKEN_AS = (
    "Temperature or elevation was not written of {count:count} readings and taken as "
    "{temperature:temperature nearest}, at sea level: all tires of a walk alike, so mates can be compared."
)
LOSING = ("Losing air: {position}", "{lost:pressure up} A MONTH")
OPEN = "Open faults"
MORE_OPEN = "And {count:count} more: see the cover."
HOW_READ, READ_ON = "{how:list}", "{day:date}{clock}"
NEWEST_NOTE = (
    "Of two treads the lesser counts: no reading makes a tire better than the profile says it is. Enter a "
    "new tire in rig.yaml with the day it was mounted; what was read before is not told of it."
)

# The page of the log.
PAGE_TITLE = "Log"
PAGE_INTRO = "What was entered on the road, over time. Its figures stand with their readings in numbers.json."
PRESSURES_OF = "{vehicle}, {axle}: pressure at {temperature:temperature nearest} and sea level"
COLD_FILL = "cold fill {fill:pressure up}"
CHART_NOTE = (
    "Each cold reading is brought to one temperature and elevation by the gas law. A plus stands over a "
    "reading after air was added; a line breaks there, and where another instrument was read."
)
CHART_SHOWS = "Pressures of the tires of {axle} over time. {tires:parts}."
FROM_TO = "{position}: from {first:pressure nearest} to {last:pressure nearest}"
LOSSES = "What each tire loses a month"
LOSSES_NOTE = (
    "The second number is one standard error. All tires lose a little; one is named that loses clearly more "
    "than the middle of its mates, over {named:count} days or longer."
)
LEFT_OUT_OF_TIRES = "Readings left out, {why}: {tires:parts}."
OF_TIRE = "{vehicle}, {position} {count:count}"
WITH_ITS_ERROR = "{value:fine pressure up} \u00b1 {error:fine pressure up}"
VERDICT = {
    "even": "as its mates",
    "losing": "LOSES MORE",
    "perhaps": "perhaps more: read on",
    "few": "too few yet",
}

# What was read last.
LAST_PRESSURE_INPUT = InputKind("read {moment:moment}", "{value:pressure nearest}", "log{by}{who}")
LAST_TREAD_INPUT = InputKind("read {moment:moment}", "{value:tread down}", "log{by}{who}")


def _last(tire: str, what: str, measure: str) -> FigureKind:
    kind = FigureKind(f"{tire}.last_{what}", measure, sources="profile", basis="measured")
    return kind.by_rule("The newest of the log{state}{clock}.")


LAST_PRESSURE = _last(_TIRE, "pressure", "pressure nearest")
LAST_TREAD = _last(_TIRE, "tread", "tread down")
SPARE_LAST_PRESSURE = _last(_SPARE, "pressure", "pressure nearest")
SPARE_LAST_TREAD = _last(_SPARE, "tread", "tread down")

# What tires lose.
READ = InputKind(
    "read {moment:day}",
    "{value:fine pressure nearest}, {reference:fine pressure nearest} at the reference",
    "log; {ambient:temperature nearest}, {elevation:elevation nearest}{by}",
)
LOSS_INPUT = InputKind("it loses a month", "{value:fine pressure up}")
MATES_INPUT = InputKind("{position} loses a month", "{value:fine pressure up}")
_SLOPES = (
    "the middle of the slopes of all pairs of its {readings:count} cold readings, at "
    "{temperature:temperature nearest} and sea level, weighed by the days between; readings before and after "
    "air was added, or by another instrument, are not set against each other"
)
_SOURCES = "SEN1968; HIRSCH1982; SCHOLZ1978; gas law; USSA1976; practice"
_FEW = "Not known: it takes {fewest:count} cold readings over {days:count} days; there are {readings:count}."
_GIVE_OR_TAKE = "Give or take {error:fine pressure up}, one standard error."
LOSS = FigureKind(f"{_TIRE}.loss_a_month", "fine pressure up", sources=_SOURCES).by_rule(
    {
        "": f"What it loses a month: {_SLOPES}. {_GIVE_OR_TAKE}",
        "few": _FEW,
        "assumed": "Not known: temperature or elevation of a reading was not written.",
    }
)
LOSS_OVER_MATES = FigureKind(f"{_TIRE}.loss_over_mates", "fine pressure up", sources=_SOURCES).by_rule(
    {
        "": f"What it loses a month over the middle of its mates: {_SLOPES}. What a walk round the rig found "
        f"of all tires is taken off. {_GIVE_OR_TAKE}",
        "few": _FEW,
    }
)

# Findings.
_LOSES = "{vehicle}, {position}: loses {value:fine pressure up} a month more than its mates"
LOSES_MORE = FindingKind("attention", 5, card="3").says(
    f"{_LOSES}, give or take {{error:fine pressure up}}",
    "look for a nail and a cracked valve, wet tread, valve and bead with soapy water; have a tire service "
    "find it",
    brief=_LOSES,
)
OPEN_FAULT = FindingKind("attention", 5, key="log.fault.{entry}", card="1").says(
    "open fault of {found:date}{who}{place}{clock}: {what}",
    "put it right, then enter the repair in the log",
    brief="{what}",
)
FAULT_FOUND = "{found:date}{who}{place}{clock}"
