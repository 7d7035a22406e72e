"""Entries of vehicles and of the plan that can hardly be so."""

from collections.abc import Iterator
from typing import NamedTuple

from binder.assessment.entries import kinds
from binder.assessment.entries.contradictions import length_apart
from binder.assessment.ledger import Fact, Finding, FindingKind
from binder.assessment.route.days import TripDay, trip_days
from binder.calculations.route.distances import great_circle
from binder.models.load import Profile
from binder.models.trip import Leg, Stop
from binder.models.vehicles import Battery, Vehicle
from binder.quantities import Quantity, number_in, registry


def _inches(value: float) -> Quantity:
    return registry.Quantity(value, "inch")


_HEIGHTS = (_inches(48), _inches(180))  # A low car, and 15 ft: no state lets more pass unasked.
_WIDEST = registry.Quantity(2.6, "meter")  # Without mirrors; wider needs leave: 23 CFR 658.15.
_MIRRORS = _inches(48)  # Both together.
_LENGTHS_ALIKE = _inches(2)
_LONGEST_OVER_WHEELBASE = 2.6
_TRACK_SHARES = (0.55, 1.0)  # Of the overall width.
_SUMS_ALIKE = registry.Quantity(50.0, "pound")
_AXLES_OVER_VEHICLE = (1.0, 1.35)  # Axle ratings together, as a share of the vehicle's.
_AXLES_OVER_CAR = 1.2
_COMBINATION_OVER_VEHICLE = (1.0, 3.5)
_SYSTEMS = (12, 24, 36, 48)  # Volts of a bank.
_CAPACITIES_ALIKE = 0.05


def vehicle_doubts(name: str, vehicle: Vehicle) -> Iterator[Finding]:
    """Entries of a vehicle that can hardly be as they are written."""
    for rule in (_size, _widths, _wheelbase, _tracks, _ratings, _capacity, _batteries):
        yield from rule(name, vehicle)


def doubt(kind: FindingKind, *subject: str | int, **facts: Fact) -> Finding:
    """Make a finding that is about no figure."""
    return Finding(kind, kind.of(*subject), facts)


def ratio(part: Quantity, whole: Quantity) -> float:
    """One quantity as a share of another of its kind."""
    return float((part / whole).to("").m) if whole.m else float("inf")


def _size(name: str, vehicle: Vehicle) -> Iterator[Finding]:
    height, apart = vehicle.size.overall_height, length_apart(vehicle)
    if vehicle.kind != "dolly" and height is not None and not _HEIGHTS[0] <= height <= _HEIGHTS[1]:
        yield doubt(kinds.HEIGHT, name, height=height)
    if apart is not None and abs(apart) > _LENGTHS_ALIKE:
        yield doubt(kinds.OVERHANGS, name, apart=max(apart, -1 * apart))


def _widths(name: str, vehicle: Vehicle) -> Iterator[Finding]:
    width, with_mirrors = vehicle.size.overall_width, vehicle.size.width_with_mirrors
    if width is None:
        return
    if width > _WIDEST:
        yield doubt(kinds.WIDTH, name, width=width)
    if with_mirrors is not None and not width <= with_mirrors <= width + _MIRRORS:
        yield doubt(kinds.MIRRORS, name)


def _wheelbase(name: str, vehicle: Vehicle) -> Iterator[Finding]:
    length, axles = vehicle.size.overall_length, list(vehicle.axles.values())
    if vehicle.kind in {"trailer", "dolly"} or length is None or len(axles) <= 1:
        return
    wheelbase = axles[1].at - axles[0].at
    if length > wheelbase * _LONGEST_OVER_WHEELBASE:
        yield doubt(kinds.WHEELBASE, name, length=length, wheelbase=wheelbase)


def _tracks(name: str, vehicle: Vehicle) -> Iterator[Finding]:
    width = vehicle.size.overall_width
    for axle_name, axle in vehicle.axles.items():
        if width is None or axle.track is None:
            continue
        if not _TRACK_SHARES[0] <= ratio(axle.track, width) <= _TRACK_SHARES[1]:
            yield doubt(kinds.TRACK, name, track=axle.track, axle=axle_name)


def _ratings(name: str, vehicle: Vehicle) -> Iterator[Finding]:
    label = vehicle.label
    whole, combination = label.gross_vehicle_weight_rating, label.gross_combination_weight_rating
    if whole is None:
        return
    axles = [axle.rating for axle in vehicle.axles.values() if axle.rating is not None]
    if len(axles) == len(vehicle.axles) and vehicle.kind not in {"trailer", "dolly"}:
        share = ratio(sum(axles, start=whole * 0), whole)
        most = _AXLES_OVER_CAR if vehicle.kind == "car" else _AXLES_OVER_VEHICLE[1]
        if not _AXLES_OVER_VEHICLE[0] <= share <= most:
            yield doubt(kinds.AXLE_RATINGS, name, share=share)
    if combination is not None:
        share = ratio(combination, whole)
        if not _COMBINATION_OVER_VEHICLE[0] <= share <= _COMBINATION_OVER_VEHICLE[1]:
            yield doubt(kinds.COMBINATION_RATING, name, share=share)


def _capacity(name: str, vehicle: Vehicle) -> Iterator[Finding]:
    label = vehicle.label
    whole, empty = label.gross_vehicle_weight_rating, label.unloaded_vehicle_weight
    carried = label.occupant_and_cargo_carrying_capacity
    if whole is None or empty is None or carried is None:
        return
    apart = abs(empty + carried - whole)
    if apart > _SUMS_ALIKE:
        yield doubt(kinds.LABEL_CAPACITY, name, apart=apart)


def _batteries(name: str, vehicle: Vehicle) -> Iterator[Finding]:
    for words, bank in vehicle.batteries.items():
        stored = _amounts_possible(bank)
        if bank.total is None or not stored:
            continue
        total = float(bank.total.to("ampere_hour").m)
        if all(abs(total - one) > _CAPACITIES_ALIKE * one for one in stored):
            facts = {"count": bank.count, "each": bank.each, "voltage": bank.voltage}
            yield doubt(kinds.BATTERIES, name, **facts, bank=words, total=total)


def _amounts_possible(bank: Battery) -> list[float]:
    """Capacity of a bank at each common voltage that its batteries can be joined to, in ampere hours."""
    if bank.count is None or bank.each is None or bank.voltage is None:
        return []
    whole = bank.count * float(bank.each.to("ampere_hour").m) * float(bank.voltage.to("volt").m)
    return [whole / volts for volts in _SYSTEMS]


# Practice, all of them: bands that hold every public road and every inhabited place on it.
_SPEEDS = (12.0, 70.0)  # Miles an hour.
_STEEPEST = registry.Quantity(15.0, "percent")
_POSTED = (registry.Quantity(8.0, "foot"), registry.Quantity(20.0, "foot"))
_ELEVATIONS = (registry.Quantity(-300.0, "foot"), registry.Quantity(14_300.0, "foot"))
_DEGREES = (-80.0, 130.0)
_STEEPEST_LEG = 0.06  # Elevation gained over a whole leg, by its length.
_SHORTER_THAN_STRAIGHT = 0.98  # Of the straight line: a town is no point.
_LONGER_THAN_STRAIGHT = 2.5
_NEAR = 15.0  # Miles.


class _PlannedLeg(NamedTuple):
    """One leg with its place in the plan, and the stop it starts from."""

    day: int
    number: int
    start: Stop | None
    plan: Leg

    def doubt(self, kind: FindingKind, **facts: Fact) -> Finding:
        """Make a finding about this leg."""
        return doubt(kind, self.day, self.number, place=self.plan.to.place, **facts)


def trip_doubts(profile: Profile) -> Iterator[Finding]:
    """Entries of the plan that can hardly be as they are written."""
    for day in trip_days(profile):
        start = day.start
        for number, plan, _ in day.legs():
            leg = _PlannedLeg(day.number, number, start, plan)
            for rule in (_speed, _grades, _clearances, _distance, _climb, _elevation):
                yield from rule(leg)
            start = plan.to
        yield from _night(day)


def _speed(leg: _PlannedLeg) -> Iterator[Finding]:
    distance, driving = leg.plan.distance, leg.plan.driving
    if distance is not None and driving is not None and driving.m > 0:
        speed = number_in(distance, "mile") / number_in(driving, "hour")
        if not _SPEEDS[0] <= speed <= _SPEEDS[1]:
            yield leg.doubt(kinds.MEAN_SPEED, speed=registry.Quantity(speed, "mph"))


def _grades(leg: _PlannedLeg) -> Iterator[Finding]:
    distance = leg.plan.distance
    for grade in leg.plan.grades:
        if grade.slope is not None and grade.slope > _STEEPEST:
            yield leg.doubt(kinds.SLOPE, what=grade.what, steepest=_STEEPEST)
        if grade.length is not None and distance is not None:
            if grade.length > distance:
                yield leg.doubt(kinds.LONGER_THAN_LEG, what=grade.what)
            elif grade.begins_after is not None and grade.begins_after + grade.length > distance:
                yield leg.doubt(kinds.BEYOND_LEG, what=grade.what)


def _clearances(leg: _PlannedLeg) -> Iterator[Finding]:
    for under in leg.plan.clearances:
        if under.posted is not None and not _POSTED[0] <= under.posted <= _POSTED[1]:
            yield leg.doubt(kinds.POSTED, what=under.what, posted=under.posted)


def _distance(leg: _PlannedLeg) -> Iterator[Finding]:
    straight = _straight(leg.start, leg.plan.to)
    if leg.plan.distance is None or straight is None:
        return
    distance, direct = number_in(leg.plan.distance, "mile"), number_in(straight, "mile")
    if distance < direct * _SHORTER_THAN_STRAIGHT - 1:
        yield leg.doubt(kinds.UNDER_STRAIGHT, straight=straight)
    elif distance > direct * _LONGER_THAN_STRAIGHT + _NEAR:
        yield leg.doubt(kinds.OVER_STRAIGHT, straight=straight)


def _straight(start: Stop | None, end: Stop) -> Quantity | None:
    if start is None or start.latitude is None or start.longitude is None:
        return None
    if end.latitude is None or end.longitude is None:
        return None
    return great_circle((start.latitude, start.longitude), (end.latitude, end.longitude))


def _climb(leg: _PlannedLeg) -> Iterator[Finding]:
    below, above = (leg.start.elevation if leg.start else None), leg.plan.to.elevation
    if below is None or above is None or leg.plan.distance is None or leg.plan.distance.m <= 0:
        return
    climb = abs(number_in(above, "mile") - number_in(below, "mile"))
    if climb / number_in(leg.plan.distance, "mile") > _STEEPEST_LEG:
        yield leg.doubt(kinds.CLIMB, climb=registry.Quantity(climb, "mile"))


def _elevation(leg: _PlannedLeg) -> Iterator[Finding]:
    elevation = leg.plan.to.elevation
    if elevation is not None and not _ELEVATIONS[0] <= elevation <= _ELEVATIONS[1]:
        yield leg.doubt(kinds.ELEVATION, elevation=elevation)


def _night(day: TripDay) -> Iterator[Finding]:
    night = day.plan.night
    if night is None:
        return
    for value in (night.low, night.high):
        if value is not None and not _DEGREES[0] <= value.to("degree_Fahrenheit").m <= _DEGREES[1]:
            yield doubt(kinds.TEMPERATURE, day.number, place=day.end.place, temperature=value)
    if night.low is not None and night.high is not None and night.low > night.high:
        yield doubt(kinds.LOW_OVER_HIGH, day.number, place=day.end.place)
