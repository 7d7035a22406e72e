"""The trip's days, each walked once: distances, times and the last fuel; then what is met and the nights."""

from datetime import date

from binder.assessment.ledger import Fact, Figure, Finding, Input, Ledger, Phrase
from binder.assessment.road.clearances import assess_clearances
from binder.assessment.road.grades import find_unmeasured_grades
from binder.assessment.road.limits import assess_limits, find_unknown_tunnels
from binder.assessment.route import kinds
from binder.assessment.route.days import TripDay, is_fuel_stop, trip_days
from binder.assessment.route.times import assess_times
from binder.assessment.route.weather import assess_nights, assess_wind
from binder.models.load import Profile
from binder.quantities import Length, Quantity, registry


def assess_route(profile: Profile, on: date, ledger: Ledger) -> None:
    """Enter the figures of every day of the trip, and what is bad or missing about them."""
    if profile.trip is None:
        return
    days, rules = trip_days(profile), profile.trip.rules
    _find_whether_over(days[-1].plan.leave.date(), on, ledger)
    for day in days:
        _assess_distance(day, ledger)
        assess_times(day, rules, ledger)
        find_unmeasured_grades(day, ledger)
        find_unknown_tunnels(profile, day, ledger)
    _assess_last_fuel(days, ledger)
    assess_clearances(profile, days, ledger)
    assess_limits(profile, days, ledger)
    assess_wind(profile.rig, rules.wind, ledger)
    assess_nights(profile, days, ledger)


def _find_whether_over(last: date, on: date, ledger: Ledger) -> None:
    if last < on:
        ledger.find(Finding(kinds.OVER_BEFORE, kinds.DEPARTURE.of(1), {"last": last, "today": on}))


def _assess_distance(day: TripDay, ledger: Ledger) -> None:
    inputs = []
    for number, leg, origin in day.legs():
        key, to = kinds.LEG_DISTANCE.of(day.number, number), {"place": leg.to.place}
        own = Input(kinds.TO_PLACE, leg.distance, origin, to)
        inputs.append(own)
        ledger.enter(Figure(key, leg.distance, (own,)))
        if leg.distance is None:
            ledger.find(Finding(kinds.NO_DISTANCE, key, to))
    total = _total([leg.distance for leg in day.plan.legs])
    case = "unknown" if total is None else ""
    ledger.enter(Figure(kinds.DISTANCE.of(day.number), total, tuple(inputs), case))


def _total(parts: list[Length | None]) -> Quantity | None:
    known = [part.to("mile") for part in parts if part is not None]
    if len(known) < len(parts):
        return None
    return sum(known, start=registry.Quantity(0.0, "mile"))


def _assess_last_fuel(days: tuple[TripDay, ...], ledger: Ledger) -> None:
    fuel: Input | None = None
    since: list[Length | None] = []
    for day in days:
        if day.number == 1 and day.start and is_fuel_stop(day.start):
            origin = Phrase(kinds.OF_START, day.origin.facts)
            fuel, since = Input(kinds.LAST_FUEL_INPUT, day.start.place, origin), []
        for _, leg, origin in day.legs():
            since.append(leg.distance)
            if is_fuel_stop(leg.to):
                fuel, since = Input(kinds.LAST_FUEL_INPUT, leg.to.place, origin), []
        _enter_last_fuel(day, fuel, _total(since) if fuel else None, ledger)


def _enter_last_fuel(day: TripDay, fuel: Input | None, left: Quantity | None, ledger: Ledger) -> None:
    inputs, case = ((fuel,), "") if fuel else ((), "none")
    facts: dict[str, Fact] = {"left": left, "place": day.end.place}
    slack = None if left is None else Phrase(kinds.THEN_TO_THE_END, facts)
    place = str(fuel.value) if fuel else None
    ledger.enter(Figure(kinds.LAST_FUEL.of(day.number), place, inputs, case, slack=slack))
    ledger.enter(Figure(kinds.LAST_FUEL_DISTANCE.of(day.number), left, inputs, case))
