"""A day's road from the side: its stops, and the grades whose place is given, by distance and elevation.

Between two of them nothing is known of the road: it may climb higher and fall lower.
"""

from collections.abc import Iterator
from typing import NamedTuple

from binder.assessment.route.days import TripDay
from binder.calculations.route.grades import grade_height
from binder.models.trip import Grade, Leg
from binder.quantities import Quantity, registry


class RoadPoint(NamedTuple):
    """A place on the day's road: ``along`` from its start; ``stop`` its name, empty at a grade's ends."""

    along: Quantity
    elevation: Quantity
    stop: str = ""


class RoadGrade(NamedTuple):
    """A grade on the day's road; those the plan does not place are spread over their leg, as points."""

    start: Quantity
    end: Quantity
    grade: Grade
    is_placed: bool


class DayProfile(NamedTuple):
    """Points in the order they are met, and the grades."""

    points: tuple[RoadPoint, ...]
    grades: tuple[RoadGrade, ...]


def day_profile(day: TripDay) -> DayProfile | None:
    """Set out a day's road from the side."""
    if day.start is None or day.start.elevation is None:
        return None
    along = registry.Quantity(0.0, "mile")
    points, grades = [RoadPoint(along, day.start.elevation, day.start.place)], list[RoadGrade]()
    for leg in day.plan.legs:
        if leg.distance is None or leg.to.elevation is None:
            return None
        for share, grade in enumerate(leg.grades, start=1):
            placed = _placed(grade, leg, along)
            middle = along + leg.distance * share / (len(leg.grades) + 1)
            grades.append(placed or RoadGrade(middle, middle, grade, is_placed=False))
            points += _ends(placed) if placed else ()
        along = along + leg.distance.to("mile")
        points.append(RoadPoint(along, leg.to.elevation, leg.to.place))
    in_order = sorted(points, key=lambda point: float(point.along.to("mile").m))
    return DayProfile(tuple(in_order), tuple(grades))


def _placed(grade: Grade, leg: Leg, along: Quantity) -> RoadGrade | None:
    if grade.begins_after is None or grade.top is None or grade.length is None or grade.slope is None:
        return None
    if leg.distance is None or grade.begins_after + grade.length > leg.distance:
        return None
    start = along + grade.begins_after
    return RoadGrade(start, start + grade.length, grade, is_placed=True)


def _ends(placed: RoadGrade) -> Iterator[RoadPoint]:
    grade = placed.grade
    if grade.top is None or grade.length is None or grade.slope is None:
        return
    foot = grade.top - grade_height(grade.length, grade.slope)
    first, last = (grade.top, foot) if grade.goes == "down" else (foot, grade.top)
    yield RoadPoint(placed.start, first)
    yield RoadPoint(placed.end, last)
