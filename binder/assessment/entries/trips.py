"""What a trip plan says that can hardly be: speeds, slopes, temperatures, distances, heights."""

from collections.abc import Iterator
from typing import NamedTuple

from binder.assessment.entries import kinds
from binder.assessment.entries.vehicles import doubt
from binder.assessment.ledger import Fact, Finding, FindingKind
from binder.assessment.route.days import TripDay, trip_days
from binder.calculations.route.distances import great_circle
from binder.models.load import Profile
from binder.models.trip import Leg, Stop
from binder.quantities import Quantity, number_in, registry

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
