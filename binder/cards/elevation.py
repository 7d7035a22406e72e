"""A day's road from the side as a picture: stops with their elevations, grades with their slopes."""

from collections.abc import Iterator

from binder.assessment.assessment import Assessment
from binder.assessment.road.elevations import DayProfile, RoadGrade, RoadPoint, day_profile
from binder.assessment.route.days import trip_days
from binder.cards.axle_words import words_of
from binder.cards.blocks import Picture, Reason
from binder.cards.drawings import ElevationProfile, ProfileGrade, ProfilePoint
from binder.quantities import Quantity
from binder.wording.meanings import HEIGHT, SLOPE
from binder.wording.words import Words, town

WIDTH_MM = 117.6
"""As wide as a line of the narrower card."""


def elevation_picture(assessment: Assessment, number: int) -> Picture | None:
    """Draw a day's road from the side."""
    profile = day_profile(trip_days(assessment.profile)[number - 1])
    if profile is None:
        return None
    words = words_of(assessment)
    points = tuple(_point(point, words) for point in profile.points)
    grades = tuple(_grade(one, words) for one in profile.grades)
    return Picture(ElevationProfile(points, grades, _told(profile, words), WIDTH_MM))


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


def _grade(one: RoadGrade, words: Words) -> ProfileGrade:
    crest = one.start if one.grade.goes == "down" else one.end
    slope = words.text(one.grade.slope, SLOPE)
    label = f"{words.text(one.grade.top, HEIGHT)}, {slope}" if one.is_placed else slope
    return ProfileGrade(_miles(one.start), _miles(one.end), label, one.is_placed, _miles(crest))


def _point(point: RoadPoint, words: Words) -> ProfilePoint:
    along, height = _miles(point.along), float(point.elevation.to("foot").m)
    told = words.text(point.elevation, HEIGHT)
    label = f"{town(point.stop)} {told}" if point.stop else ""
    return ProfilePoint(along, height, label, is_stop=bool(point.stop))


def _told(profile: DayProfile, words: Words) -> str:
    stops = [
        f"{point.stop} at {words.text(point.elevation, HEIGHT)}" for point in profile.points if point.stop
    ]
    return f"The day's road from the side: {', '.join([*stops, *_grades(profile, words)])}."


def _grades(profile: DayProfile, words: Words) -> Iterator[str]:
    for one in profile.grades:
        yield f"{one.grade.what} {words.text(one.grade.slope, SLOPE)} {one.grade.goes}"
