"""The trip's days: distances, times, clearances, lows, grades and the last fuel of each."""

from collections.abc import Iterator
from datetime import date

from binder.assessment.figures import Figure, Finding, Input, Ledger
from binder.assessment.route.clearances import assess_clearances
from binder.assessment.route.days import TripDay, is_fuel_stop, trip_days
from binder.assessment.route.limits import assess_limits
from binder.assessment.route.nights import assess_nights
from binder.assessment.route.times import assess_times
from binder.assessment.route.wind import assess_wind
from binder.assessment.wording import Wording
from binder.models.load import Profile
from binder.models.trip import Grade, Tunnel
from binder.quantities import Length, Quantity, registry


def assess_route(profile: Profile, on: date, ledger: Ledger) -> None:
    """Enter the figures of every day of the trip, and what is bad or missing about them."""
    days = trip_days(profile)
    if not days:
        return
    _find_whether_over(days[-1].plan.leave.date(), on, ledger)
    for day in days:
        _assess_distance(profile, day, ledger)
        assess_times(profile, day, ledger)
        for finding in [*_grade_findings(day), *_tunnel_findings(profile, day)]:
            ledger.find(finding)
    _assess_last_fuel(profile, days, ledger)
    assess_clearances(profile, ledger)
    assess_limits(profile, ledger)
    assess_wind(profile, ledger)
    assess_nights(profile, ledger)


def _find_whether_over(last: date, on: date, ledger: Ledger) -> None:
    if last < on:
        text = f"The trip was over on {last.isoformat()}, before the effective date, {on.isoformat()}."
        helps = "Enter the days of the trip to come; 'build --date' prints for another day."
        ledger.find(Finding("attention", 10, "route.day_1.departure", text, helps))


def _assess_distance(profile: Profile, day: TripDay, ledger: Ledger) -> None:
    wording, inputs = Wording(profile.rig.units), []
    for number, leg, place in day.legs():
        key = f"{day.key}.leg_{number}.distance"
        told = wording.distance(leg.distance, "up") if leg.distance is not None else "not known"
        own = Input(f"to {leg.to.place}", told, place)
        inputs.append(own)
        ledger.add(Figure(key, leg.distance, "assumed", "as planned", "trip plan", (own,)))
        if leg.distance is None:
            text = f"Day {day.number}, leg {number} to {leg.to.place}: its distance is not given."
            ledger.find(Finding("missing", 10, key, text, "Enter it."))
    total = _total([leg.distance for leg in day.plan.legs])
    rule = "distances of the legs" + ("; one is not given" if total is None else "")
    source = "trip plan; arithmetic"
    ledger.add(Figure(f"{day.key}.distance", total, "calculated", rule, source, tuple(inputs)))


def _total(parts: list[Length | None]) -> Quantity | None:
    known = [part.to("mile") for part in parts if part is not None]
    if len(known) < len(parts):
        return None
    return sum(known, start=registry.Quantity(0.0, "mile"))


def _assess_last_fuel(profile: Profile, days: tuple[TripDay, ...], ledger: Ledger) -> None:
    wording = Wording(profile.rig.units)
    place: str | None = None
    origin = ""
    since: list[Length | None] = []
    for day in days:
        if day.number == 1 and day.start and is_fuel_stop(day.start):
            place, origin, since = day.start.place, f"{day.place}, from", []
        for _, leg, name in day.legs():
            since.append(leg.distance)
            if is_fuel_stop(leg.to):
                place, origin, since = leg.to.place, name, []
        left = _total(since) if place else None
        rule = "the last stop with fuel before the day's end" if place else "the plan has no fuel stop so far"
        inputs = (Input("last fuel", place, origin),) if place else ()
        slack = f"then {wording.distance(left, 'up')} to {day.end.place}" if left is not None else ""
        key = f"{day.key}.last_fuel"
        ledger.add(Figure(key, place, "assumed", rule, "trip plan", inputs, slack=slack))
        to_end = f"distance from {rule} to it"
        ledger.add(Figure(f"{key}_distance", left, "calculated", to_end, "trip plan; arithmetic", inputs))


def _grade_findings(day: TripDay) -> Iterator[Finding]:
    for number, leg, _ in day.legs():
        for grade in leg.grades:
            lacking = [words for words, value in _parts_of(grade) if value is None]
            if lacking:
                key, start = f"{day.key}.leg_{number}.grades", f"Day {day.number}: {grade.what}"
                text = f"{start}: {' and '.join(lacking)} not given."
                yield Finding("missing", 7, key, text, "Read it off the sign, and enter it.")


def _parts_of(grade: Grade) -> tuple[tuple[str, object], ...]:
    return (
        ("its length", grade.length),
        ("its slope", grade.slope),
        ("the posted truck speed", grade.posted_truck_speed),
    )


def _tunnel_findings(profile: Profile, day: TripDay) -> Iterator[Finding]:
    held = {tank.holds for vehicle in profile.rig.vehicles.values() for tank in vehicle.tanks.values()}
    tunnels: list[tuple[int, Tunnel]] = [
        (number, item) for number, leg, _ in day.legs() for item in leg.tunnels
    ]
    for number, tunnel in tunnels:
        if "propane" in held and tunnel.propane is None:
            key = f"{day.key}.leg_{number}.tunnels"
            text = f"Day {day.number}: {tunnel.what}: whether propane may pass is not given."
            yield Finding("missing", 10, key, text, "Ask the operator.")
