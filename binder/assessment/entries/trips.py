"""What a trip plan says that can hardly be: speeds, slopes, temperatures, distances, heights."""

from collections.abc import Iterator

from binder.assessment.route.days import TripDay, trip_days
from binder.assessment.wording import Wording
from binder.calculations.route.distances import great_circle
from binder.models.load import Profile
from binder.models.trip import Leg, Stop
from binder.quantities import Quantity, number_in, registry

Doubt = tuple[int, str, str]

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


def trip_doubts(profile: Profile) -> Iterator[Doubt]:
    """Entries of the plan that can hardly be as they are written."""
    wording = Wording(profile.rig.units)
    for day in trip_days(profile):
        start = day.start
        for number, leg, _ in day.legs():
            key, name = f"{day.key}.leg_{number}", f"Day {day.number}, to {leg.to.place}"
            for order, words in [*_leg(leg, wording), *_way(start, leg, wording), *_stop(leg.to, wording)]:
                yield order, key, f"{name}: {words}"
            start = leg.to
        yield from _night(day, wording)


def _leg(leg: Leg, wording: Wording) -> Iterator[tuple[int, str]]:
    if leg.distance is not None and leg.driving is not None and leg.driving.m > 0:
        speed = number_in(leg.distance, "mile") / number_in(leg.driving, "hour")
        if not _SPEEDS[0] <= speed <= _SPEEDS[1]:
            told = wording.speed(registry.Quantity(speed, "mph"), "up")
            yield 10, f"{told} on average is unlikely"
    for grade in leg.grades:
        if grade.slope is not None and grade.slope > _STEEPEST:
            yield 7, f"{grade.what}: a slope over {_STEEPEST.m:.0f} % is unlikely"
        if grade.length is not None and leg.distance is not None:
            if grade.length > leg.distance:
                yield 7, f"{grade.what}: it is longer than the leg"
            elif grade.begins_after is not None and grade.begins_after + grade.length > leg.distance:
                yield 7, f"{grade.what}: it ends beyond the leg"
    for posted in leg.clearances:
        if posted.posted is not None and not _POSTED[0] <= posted.posted <= _POSTED[1]:
            yield 3, f"{posted.what}: posted {wording.length(posted.posted, 'down')} is unlikely"


def _way(start: Stop | None, leg: Leg, wording: Wording) -> Iterator[tuple[int, str]]:
    straight = _straight(start, leg.to)
    if leg.distance is None:
        return
    distance = number_in(leg.distance, "mile")
    if straight is not None:
        direct = number_in(straight, "mile")
        if distance < direct * _SHORTER_THAN_STRAIGHT - 1:
            yield 10, f"its distance is less than the straight line, {wording.distance(straight, 'down')}"
        elif distance > direct * _LONGER_THAN_STRAIGHT + _NEAR:
            yield 10, f"its distance is far more than the straight line, {wording.distance(straight, 'up')}"
    below, above = (start.elevation if start else None), leg.to.elevation
    if below is not None and above is not None and distance > 0:
        climb = abs(number_in(above, "mile") - number_in(below, "mile"))
        if climb / distance > _STEEPEST_LEG:
            told = wording.elevation(registry.Quantity(climb, "mile"), "up")
            yield 10, f"it climbs or falls {told} on the way, which is unlikely"


def _straight(start: Stop | None, end: Stop) -> Quantity | None:
    if start is None or start.latitude is None or start.longitude is None:
        return None
    if end.latitude is None or end.longitude is None:
        return None
    return great_circle((start.latitude, start.longitude), (end.latitude, end.longitude))


def _stop(stop: Stop, wording: Wording) -> Iterator[tuple[int, str]]:
    elevation = stop.elevation
    if elevation is not None and not _ELEVATIONS[0] <= elevation <= _ELEVATIONS[1]:
        yield 10, f"an elevation of {wording.elevation(elevation, 'up')} is unlikely"


def _night(day: TripDay, wording: Wording) -> Iterator[Doubt]:
    night = day.plan.night
    if night is None:
        return
    key, name = f"{day.key}.night", f"Day {day.number}, night at {day.end.place}"
    for value in (night.low, night.high):
        if value is not None and not _DEGREES[0] <= value.to("degree_Fahrenheit").m <= _DEGREES[1]:
            yield 8, key, f"{name}: {wording.temperature(value, 'nearest')} is unlikely"
    if night.low is not None and night.high is not None and night.low > night.high:
        yield 8, key, f"{name}: its low is above its high"
