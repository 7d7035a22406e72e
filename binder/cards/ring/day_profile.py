"""A day's road from the side, drawn on the days where it tells something."""

from collections.abc import Iterator

from binder.assessment.assess import Assessment
from binder.assessment.road.grades import DayProfile, RoadGrade, RoadPoint, day_profile
from binder.assessment.route.days import trip_days
from binder.cards.blocks import Picture, Reason
from binder.cards.drawings import ElevationProfile, ProfileGrade, ProfilePoint, ProfileScale
from binder.cards.rig_words import words_of
from binder.quantities import Quantity, number_in
from binder.wording.measures import ELEVATION, HEIGHT, SLOPE, WAY
from binder.wording.words import Words, profile_bars, town

WIDTH_MM = 117.6
"""As wide as a line of the narrower card."""


def elevation_picture(assessment: Assessment, number: int) -> Picture | None:
    """Draw a day's road from the side, where it has a long grade or goes far up or down."""
    words, told = words_of(assessment), _telling(assessment)
    profile = told.get(number)
    if profile is None:
        return None
    spans = [(_miles(one.points[-1].along), _span(one)) for one in told.values()]
    longest = max(far for far, _ in spans) or 1.0
    rise, run = (bar.quantity for bar in profile_bars(words.style))
    parts = [run * share for share in _SHARES]
    run = next((part for part in parts if _miles(part) <= _ROOM * longest), parts[-1])
    bars = [
        (number_in(q, unit), words.text(q, how))
        for q, unit, how in ((rise, "foot", ELEVATION), (run, "mile", WAY))
    ]
    scale = ProfileScale(longest, max(span for _, span in spans), bars[0], bars[1])
    points = tuple(_point(point, words) for point in profile.points)
    grades = tuple(_grade(one, words) for one in profile.grades)
    return Picture(ElevationProfile(points, grades, scale, _told(profile, words), WIDTH_MM))


_SHARES, _ROOM = (1.0, 0.5, 0.25, 0.1, 0.05), 0.15
"""Shares of the usual bar along, and the part of the longest day that has room beside the road."""

_CLIMB = 3000.0
"""Feet from the lowest to the highest place of a day from which its road is drawn: own choice."""


def _telling(assessment: Assessment) -> dict[int, DayProfile]:
    """Days whose road from the side tells something, by their numbers."""
    found = {day.number: day_profile(day) for day in trip_days(assessment.profile)}
    return {at: one for at, one in found.items() if one and (one.grades or _span(one) >= _CLIMB)}


def _span(profile: DayProfile) -> float:
    heights = [number_in(point.elevation, "foot") for point in profile.points]
    return max(heights) - min(heights)


def profile_reason(assessment: Assessment, number: int) -> tuple[Reason, ...]:
    """Say on the first day that has the picture what it shows and what it does not."""
    if number != min(_telling(assessment), default=0):
        return ()
    text = (
        "From the plan, heights stretched, all days to one scale. Heavy line: a grade as posted. Dashed: "
        "only its ends are known, and the road between may climb higher."
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
    if not point.stop:
        return ProfilePoint(along, height)
    return ProfilePoint(along, height, town(point.stop), words.text(point.elevation, HEIGHT))


def _told(profile: DayProfile, words: Words) -> str:
    stops = [
        f"{point.stop} at {words.text(point.elevation, HEIGHT)}" for point in profile.points if point.stop
    ]
    return f"The day's road from the side: {', '.join([*stops, *_grades(profile, words)])}."


def _grades(profile: DayProfile, words: Words) -> Iterator[str]:
    for one in profile.grades:
        yield f"{one.grade.what} {words.text(one.grade.slope, SLOPE)} {one.grade.goes}"
