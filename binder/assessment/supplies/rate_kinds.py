"""Kinds of figures of what the log's fills took, and which rate the trip is planned with."""

from binder.assessment.ledger import Basis, FigureKind, InputKind
from binder.quantities import number_in, registry, round_down, round_up

_TANK = "supplies.{vehicle}.{tank}"
FEWEST = 3
"""Intervals from one full tank to the next that a better rate has to rest on."""

OF_THE_LOG = frozenset({"worse", "better", "alone"})
"""Cases of a rate that is the log's."""

# Why an interval does not count.
TOO_MUCH, NO_ENGINE, ONE_MISSING = "too much", "no engine", "one missing"
DOUBTS = {
    TOO_MUCH: "{count:count} with more in a fill than the tank holds",
    NO_ENGINE: "{count:count} with a use that cannot be",
    ONE_MISSING: "{count:count} far better than the others or the plan, as where a fill was not entered",
}
LEFT_OUT = "Left out as unsure, from one full tank to the next: {why:parts}."
NOT_PLACED = (
    "A fill by a clock that can hardly be right has no odometer: nothing better than the plan is taken from "
    "the log until that is corrected."
)

# Words that stand inside other sentences.
FROM_FILLS = {1: "from one fill", 0: "from {count:count} fills"}

# Inputs.
PLANNED = InputKind("the plan says", "{value:fuel use up}", "trip plan, use")
PLANNED_SHARE = InputKind("the plan says", "{value:percent as stated}", "trip plan, use")
FROM_TO = "{begins:distance nearest} to {ends:distance nearest}"
TAKEN = InputKind(FROM_TO, "{amount:fine volume nearest}, {value:fuel use up}", "log, {on:date}")
TAKEN_OF_SHARE = InputKind(FROM_TO, "{amount:fine volume nearest}, {value:fine percent up}", "log, {on:date}")
SPREAD = InputKind("spread", "{most:fuel use up} to {value:fuel use down}", "log")
SPREAD_OF_SHARE = InputKind("spread", "{value:fine percent down} to {most:fine percent up}", "log")
USED = InputKind("fuel used", "{value:fuel use up}", "figure {origin}")

# Figures.
_TAKEN = "what went in from one full tank to the next over the miles between, the last six together"
_IN_STEPS = "It is taken in steps, to the safe side, and counts the fills that it was taken from."
_BY_CASE = {
    "worse": f"{_TAKEN}: more than the plan says, so this is used",
    "better": f"{_TAKEN}: at least 5 % less than the plan says over three or more, so this is used",
    "alone": f"{_TAKEN}: the plan says nothing",
    "plan": "as the plan states it: what the log's fills took is not more, nor clearly less",
    "": "not known: the plan says nothing, and the log has not three intervals from full to full",
}
_SOURCES = {"plan": "trip plan", "": "profile; practice"}
_BASIS: dict[str, Basis] = {"plan": "assumed", "": "measured"}
USE = FigureKind(
    f"{_TANK}.use",
    "fuel use up",
    _BY_CASE,
    _SOURCES,
    _BASIS,
    ("What a generator or a heater burned is in it.", _IN_STEPS),
)
SHARE = FigureKind(
    f"{_TANK}.share_of_fuel",
    "percent as stated",
    _BY_CASE,
    _SOURCES,
    _BASIS,
    (_IN_STEPS,),
    unknown_makes_it="higher",
)

_INTERVAL = f"{_TANK}.full_{{number}}"
_FROM_FULL = "what went in from one full tank to the next, over the miles between"
WHY_LEFT_OUT = {
    TOO_MUCH: "left out: more than the tank holds",
    NO_ENGINE: "left out: no engine takes so much or little",
    ONE_MISSING: "left out: far better than its like, so a fill may be missing",
    "": "",
}
_OF_INTERVAL = {doubt: f"{_FROM_FULL}; {why}" if why else _FROM_FULL for doubt, why in WHY_LEFT_OUT.items()}
FULL_TO_FULL = FigureKind(_INTERVAL, "fuel use up", _OF_INTERVAL, "profile", "measured")
FULL_TO_FULL_SHARE = FigureKind(_INTERVAL, "fine percent up", _OF_INTERVAL, "profile", "measured")
WENT_IN = InputKind("went in", "{amount:fine volume nearest}", "log, {on:date}")
OVER = InputKind("odometer", FROM_TO, "log, {on:date}")

# The page of the log.
OF_TANK = "{tank:capital}, from one full tank to the next"
OF_FLUID = "{tank:capital}, share of the fuel from one full tank to the next"
PLAN_LINE, FULL_LINE, LEFT_OUT_LINE = "the plan: {planned}", "from full to full", "left out"
CHART_SHOWS = "Use of {tank} over time: {uses:list}."
ROW_AMOUNT = "{amount:fine volume nearest}"
NEWEST_LISTED = "Drawn are the newest {drawn:count}, listed {listed:count} of them."
HEADERS = ("full on", "odometer", "went in", "took", "")

_MILES, _LITERS, _SHARE = 0.25, 0.5, 0.0025
_A_LITER = number_in(registry.Quantity(0.01, "liter / kilometer"), "gallon / mile")


def miles_in_steps(use: float) -> float:
    """Gallons a mile, in steps of miles a gallon."""
    return 1 / round_down(1 / use, _MILES)


def liters_in_steps(use: float) -> float:
    """Gallons a mile, in steps of liters on 100 km."""
    return round_up(use / _A_LITER, _LITERS) * _A_LITER


def share_in_steps(share: float) -> float:
    """A share of the fuel, in steps of a quarter of a percent."""
    return round_up(share, _SHARE)
