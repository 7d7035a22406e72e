"""The day's road is read back from its SVG: dashed where it is not known, heavy on a grade, no hue."""

import re
from dataclasses import replace
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from binder.cards.blocks import Drawing, Note, Picture
from binder.cards.drawings import ElevationProfile, ProfileGrade, ProfilePoint, ProfileScale
from binder.rendering.drawings.drawers import drawn
from binder.rendering.drawings.elevation_profile import elevation_profile

SVG = "{http://www.w3.org/2000/svg}"
ROAD = (
    ProfilePoint(0, 6240, "Stanley", "6,240 ft"),
    ProfilePoint(30, 8700),
    ProfilePoint(35, 7118),
    ProfilePoint(61, 5850, "Ketchum", "5,850 ft"),
)
SCALE = ProfileScale(150, 4000, (1000, "1,000 ft"), (20, "20 mi"))
GRADE = ProfileGrade(30, 35, "8,700 ft, 6 %", is_placed=True, crest=30)


def elements(view: ElevationProfile, name: str) -> list[dict[str, str]]:
    return [one.attrib for one in ET.fromstring(elevation_profile(view).svg).iter(f"{SVG}{name}")]  # noqa: S314 - our own text.


def view(*grades: ProfileGrade, points: tuple[ProfilePoint, ...] = ROAD) -> ElevationProfile:
    heights = [point.height for point in points]
    scale = replace(SCALE, longest=points[-1].along, highest=max(heights) - min(heights))
    return ElevationProfile(points, grades, scale, "a road", 117.6)


def test_the_grade_is_heavy_and_the_road_between_known_places_is_dashed() -> None:
    lines = [line for line in elements(view(GRADE), "polyline") if float(line["stroke-width"]) >= 1]

    assert [("stroke-dasharray" in line, float(line["stroke-width"])) for line in lines] == [
        (True, 1.0),
        (False, 3.2),
        (True, 1.0),
    ]


def test_higher_places_stand_higher_and_farther_ones_to_the_right() -> None:
    stops = elements(view(GRADE), "circle")
    first, last = ((float(stop["cx"]), float(stop["cy"])) for stop in stops)

    assert len(stops) == 2
    assert first[0] < last[0]
    assert first[1] < last[1]


def test_two_days_of_a_trip_are_drawn_to_one_scale_and_its_bars_say_to_which() -> None:
    """The long day is 150 miles and climbs 4,000 ft; half of both is half as wide and half as high."""
    half = (ProfilePoint(0, 0, "A"), ProfilePoint(75, 2000, "B"))
    whole = (ProfilePoint(0, 0, "A"), ProfilePoint(150, 4000, "B"))
    spans = []
    for points in (half, whole):
        shown = ElevationProfile(points, (), SCALE, "a road", 117.6)
        first, last = elements(shown, "circle")
        spans.append((float(last["cx"]) - float(first["cx"]), float(first["cy"]) - float(last["cy"])))

    assert spans[0] == pytest.approx((spans[1][0] / 2, spans[1][1] / 2), abs=0.02)
    assert "1,000 ft" in elevation_profile(view()).svg
    assert "20 mi" in elevation_profile(view()).svg


def test_a_level_day_is_drawn_level() -> None:
    flat = (ProfilePoint(0, 500, "A", "500 ft"), ProfilePoint(90, 505, "B", "505 ft"))
    heights = [float(stop["cy"]) for stop in elements(view(points=flat), "circle")]

    assert abs(heights[0] - heights[1]) < 1


def test_a_grade_without_a_place_is_a_mark_with_its_slope() -> None:
    marked = view(ProfileGrade(15, 15, "7 %", is_placed=False, crest=15))

    assert [one for one in elements(marked, "polygon") if one["fill"] == "#000"]
    assert "7 %" in elevation_profile(marked).svg


def test_of_two_marks_too_near_for_the_words_of_both_the_second_stands_without() -> None:
    marks = [
        ProfileGrade(x, x, words, is_placed=False, crest=x) for x, words in ((15, "______ %"), (16, "7 %"))
    ]

    assert len([one for one in elements(view(*marks), "polygon") if one["fill"] == "#000"]) == 2
    assert "______ %" in elevation_profile(view(*marks)).svg
    assert "7 %" not in elevation_profile(view(*marks)).svg


def test_nothing_is_told_by_hue() -> None:
    colors = set(re.findall(r"#[0-9a-f]+", elevation_profile(view(GRADE)).svg))

    assert colors <= {"#000", "#fff", "#d0d0d0"}


def test_the_drawing_says_in_words_what_it_shows() -> None:
    assert elevation_profile(view(GRADE)).svg.count("<title>a road</title>") == 1


def test_a_long_name_is_cut_and_never_its_height() -> None:
    wide = (ProfilePoint(0, 1, "W" * 90, "1,200 ft"), ProfilePoint(9, 2, "B", "1,300 ft"))
    found = drawn(Picture(view(points=wide)))

    assert isinstance(found, Drawing)
    assert re.search(">W+\u2026 1,200 ft</text>", found.svg)


def test_words_that_find_no_room_leave_a_note() -> None:
    wide = (ProfilePoint(0, 1, "A", "9" * 90), ProfilePoint(9, 2, "B"))

    assert isinstance(drawn(Picture(view(points=wide))), Note)


@settings(max_examples=40, deadline=None)
@given(
    miles=st.lists(st.floats(1, 300), min_size=1, max_size=5),
    feet=st.lists(st.floats(-200, 14_000), min_size=6, max_size=6),
    slopes=st.integers(0, 2),
)
def test_any_day_is_drawn_inside_its_frame(miles: list[float], feet: list[float], slopes: int) -> None:
    along = [0.0]
    for one in miles:
        along.append(along[-1] + one)
    points = tuple(
        ProfilePoint(x, feet[number], f"Place {number}", f"{feet[number]:,.0f} ft")
        for number, x in enumerate(along)
    )
    grades = tuple(
        ProfileGrade(x, x, "6 %", is_placed=False, crest=x)
        for x in (along[-1] * share / 3 for share in range(1, slopes + 1))
    )

    drawing = elevation_profile(view(*grades, points=points))

    assert 15 < drawing.height_mm < 65
    for stop in elements(view(*grades, points=points), "circle"):
        assert 0 <= float(stop["cx"]) <= drawing.width_mm * 72 / 25.4
        assert 0 <= float(stop["cy"]) <= drawing.height_mm * 72 / 25.4


@pytest.mark.parametrize("start", [0, 61])
def test_a_mark_at_the_very_end_stays_inside(start: float) -> None:
    marked = view(ProfileGrade(start, start, "12 % all the way", is_placed=False, crest=start))

    assert elevation_profile(marked).width_mm == 117.6
