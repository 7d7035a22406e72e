"""What a plan says of its legs and nights that can hardly be; the bands are practice."""

from collections.abc import Iterator
from typing import Literal, NamedTuple

from binder.assessment.entries import kinds
from binder.assessment.ledger import Fact, Finding, FindingKind
from binder.assessment.route.days import LONGEST_LEG, TripDay, trip_days
from binder.calculations.route.distances import great_circle
from binder.models.load import Profile
from binder.models.trip import Clearance, Leg, PostedLimit, Stop, Tunnel
from binder.quantities import number_in, registry

# Bands that hold every public road and every inhabited place on it.
_MEAN_SPEEDS = (12.0, 70.0)  # Miles an hour.
_STEEPEST, _GENTLEST = registry.Quantity(15.0, "percent"), registry.Quantity(2.0, "percent")
_POSTED = (registry.Quantity(8.0, "foot"), registry.Quantity(20.0, "foot"))
_ELEVATIONS = (registry.Quantity(-300.0, "foot"), registry.Quantity(14_300.0, "foot"))
_DEGREES = (-80.0, 130.0)
_STEEPEST_LEG = 0.06  # Elevation gained over a whole leg, by its length.
_SHORTER_THAN_STRAIGHT = 0.98  # Of the straight line: a town is no point.
_LONGER_THAN_STRAIGHT = 2.5
_NEAR = 15.0  # Miles.
_FUEL_USES = (3.0, 40.0)  # Miles a gallon.
_FEET_OR_METERS = {"us": ("feet", "meters"), "metric": ("meters", "feet")}
_UNITS_OF = {
    "feet": {registry.Unit("foot"), registry.Unit("mile")},
    "meters": {registry.Unit("meter"), registry.Unit("kilometer")},
}


class _PlannedLeg(NamedTuple):
    """One leg with its place in the plan, and the stop it starts from."""

    day: int
    number: int
    start: Stop | None
    plan: Leg

    def doubt(self, kind: FindingKind, **facts: Fact) -> Finding:
        """Make a finding about this leg."""
        return Finding(kind, kind.of(self.day, self.number), {"place": self.plan.to.place, **facts})


def trip_doubts(profile: Profile) -> Iterator[Finding]:
    """Doubts about the plan of a trip."""
    yield from _fuel_use(profile)
    for day in trip_days(profile):
        start = day.start
        for number, plan, _ in day.legs():
            leg = _PlannedLeg(day.number, number, start, plan)
            for rule in (_speed, _grades, _clearances, _distance, _climb, _elevation):
                yield from rule(leg)
            yield from _unit(leg, profile.rig.units)
            start = plan.to
        yield from _night(day)


def _speed(leg: _PlannedLeg) -> Iterator[Finding]:
    distance, driving = leg.plan.distance, leg.plan.driving
    if distance is not None and driving is not None and driving.m > 0:
        speed = number_in(distance, "mile") / number_in(driving, "hour")
        if not _MEAN_SPEEDS[0] <= speed <= _MEAN_SPEEDS[1]:
            yield leg.doubt(kinds.MEAN_SPEED, speed=registry.Quantity(speed, "mph"))


def _fuel_use(profile: Profile) -> Iterator[Finding]:
    use = profile.trip.use if profile.trip else None
    for fuel, taken in (("diesel", use.diesel), ("gasoline", use.gasoline)) if use else ():
        if taken is not None and not _FUEL_USES[0] <= 1 / number_in(taken, "gallon/mile") <= _FUEL_USES[1]:
            yield Finding(kinds.FUEL_USE, kinds.FUEL_USE.of(fuel), {"fuel": fuel})


def _unit(leg: _PlannedLeg, units: Literal["us", "metric"]) -> Iterator[Finding]:
    """An elevation in the unit of the other system."""
    elevation, (own, other) = leg.plan.to.elevation, _FEET_OR_METERS[units]
    if elevation is not None and elevation.units in _UNITS_OF[other]:
        yield leg.doubt(kinds.OTHER_UNIT, unit=other, units=own)


def _grades(leg: _PlannedLeg) -> Iterator[Finding]:
    distance = leg.plan.distance
    for grade in leg.plan.grades:
        if grade.slope is not None and grade.slope > _STEEPEST:
            yield leg.doubt(kinds.SLOPE, what=grade.what, steepest=_STEEPEST)
        if grade.slope is not None and grade.slope < _GENTLEST:
            yield leg.doubt(kinds.GENTLE, what=grade.what, gentlest=_GENTLEST)
        if grade.length is not None and distance is not None:
            if grade.length > distance:
                yield leg.doubt(kinds.LONGER_THAN_LEG, what=grade.what)
            elif grade.begins_after is not None and grade.begins_after + grade.length > distance:
                yield leg.doubt(kinds.BEYOND_LEG, what=grade.what)


def _clearances(leg: _PlannedLeg) -> Iterator[Finding]:
    distance = leg.plan.distance
    met: list[Clearance | PostedLimit | Tunnel] = [*leg.plan.clearances, *leg.plan.limits, *leg.plan.tunnels]
    for one in met:
        if one.after is not None and distance is not None and one.after > distance:
            yield leg.doubt(kinds.BEYOND_LEG, what=one.what)
    for under in leg.plan.clearances:
        if under.posted is not None and not _POSTED[0] <= under.posted <= _POSTED[1]:
            yield leg.doubt(kinds.POSTED, what=under.what, posted=under.posted)


def _distance(leg: _PlannedLeg) -> Iterator[Finding]:
    if leg.plan.distance is not None and leg.plan.distance > LONGEST_LEG:
        yield leg.doubt(kinds.LONG_LEG, distance=leg.plan.distance)
    start, end = (None if one is None else _position(one) for one in (leg.start, leg.plan.to))
    if leg.plan.distance is None or start is None or end is None:
        return
    straight = great_circle(start, end)
    distance, direct = number_in(leg.plan.distance, "mile"), number_in(straight, "mile")
    if distance < direct * _SHORTER_THAN_STRAIGHT - 1:
        yield leg.doubt(kinds.UNDER_STRAIGHT, straight=straight)
    elif distance > direct * _LONGER_THAN_STRAIGHT + _NEAR:
        yield leg.doubt(kinds.OVER_STRAIGHT, straight=straight)


def _position(stop: Stop) -> tuple[float, float] | None:
    return None if stop.latitude is None or stop.longitude is None else (stop.latitude, stop.longitude)


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
            yield Finding(
                kinds.TEMPERATURE,
                kinds.TEMPERATURE.of(day.number),
                {"place": day.end.place, "temperature": value},
            )
    if night.low is not None and night.high is not None and night.low > night.high:
        yield Finding(kinds.LOW_OVER_HIGH, kinds.LOW_OVER_HIGH.of(day.number), {"place": day.end.place})
