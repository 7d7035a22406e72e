"""A day's road from the side as a picture: stops with their elevations, grades with their slopes."""

from collections.abc import Iterator

from binder.assessment.assessment import Assessment
from binder.assessment.road.elevations import DayProfile, RoadGrade, RoadPoint, day_profile
from binder.assessment.route.days import trip_days
from binder.cards.blocks import Picture, Reason
from binder.cards.display import BLANK, Display
from binder.cards.drawings import ElevationProfile, ProfileGrade, ProfilePoint
from binder.quantities import Quantity

WIDTH_MM = 117.6
"""As wide as a line of the narrower card."""


def elevation_picture(assessment: Assessment, number: int) -> Picture | None:
    """Draw a day's road from the side."""
    profile = day_profile(trip_days(assessment.profile)[number - 1])
    if profile is None:
        return None
    display = Display(assessment.rig.units)
    points = tuple(_point(point, display) for point in profile.points)
    grades = tuple(_grade(one, display) for one in profile.grades)
    return Picture(ElevationProfile(points, grades, _told(profile, display), WIDTH_MM))


def profile_reason(assessment: Assessment, number: int) -> tuple[Reason, ...]:
    """Say what the picture shows and what it does not."""
    if day_profile(trip_days(assessment.profile)[number - 1]) is None:
        return ()
    text = (
        "From the plan, heights stretched. Heavy line: a grade as posted. Dashed: only its ends are known, "
        "and the road between may climb higher."
    )
    return (Reason("Elevations", text, "trip plan; geometry"),)


def _miles(along: Quantity) -> float:
    return float(along.to("mile").m)


def _grade(one: RoadGrade, display: Display) -> ProfileGrade:
    crest = one.start if one.grade.goes == "down" else one.end
    top = display.text(one.grade.top, "elevation", "up") if one.is_placed else ""
    label = f"{top}, {_slope(one)}" if top else _slope(one)
    return ProfileGrade(_miles(one.start), _miles(one.end), label, one.is_placed, _miles(crest))


def _point(point: RoadPoint, display: Display) -> ProfilePoint:
    along, height = _miles(point.along), float(point.elevation.to("foot").m)
    told = display.text(point.elevation, "elevation", "up")
    label = f"{_short(point.stop)} {told}" if point.stop else ""
    return ProfilePoint(along, height, label, is_stop=bool(point.stop))


def _short(place: str) -> str:
    return place.split(",", maxsplit=1)[0]


def _slope(one: RoadGrade) -> str:
    slope = one.grade.slope
    return f"{BLANK} %" if slope is None else f"{float(slope.to('percent').m):g} %"


def _told(profile: DayProfile, display: Display) -> str:
    stops = [
        f"{point.stop} at {display.text(point.elevation, 'elevation', 'up')}"
        for point in profile.points
        if point.stop
    ]
    return f"The day's road from the side: {', '.join([*stops, *_grades(profile)])}."


def _grades(profile: DayProfile) -> Iterator[str]:
    for one in profile.grades:
        yield f"{one.grade.what} {_slope(one)} {one.grade.goes}"
