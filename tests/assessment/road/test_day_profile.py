"""A day's road from the side: only what the plan says of it."""

import pytest

from binder.assessment.road.grades import DayProfile, day_profile
from binder.assessment.route.days import trip_days
from tests.assessment.conftest import Assessed
from tests.by_key import ByKey


def profile_of(found: ByKey, day: int) -> DayProfile:
    profile = day_profile(trip_days(found.profile)[day - 1])
    assert profile is not None
    return profile


def test_stops_and_the_ends_of_a_grade_stand_in_the_order_they_are_met(larkspur: ByKey) -> None:
    """5 mi of 6 % fall 26,400 ft times the sine: 1,581 ft."""
    points = profile_of(larkspur, 3).points

    assert [(round(point.along.to("mile").m), point.stop.split(",")[0]) for point in points] == [
        (0, "Stanley"),
        (30, ""),
        (35, ""),
        (61, "Ketchum"),
        (143, "Twin Falls"),
    ]
    assert float(points[2].elevation.to("foot").m) == pytest.approx(8700 - 26_400 * 0.05989, abs=1)


def test_a_grade_whose_place_is_not_given_is_marked_in_its_leg(assessed: Assessed) -> None:
    found = assessed("larkspur", trip=(("            begins_after: 78 mi\n", ""),))
    grade = profile_of(found, 5).grades[0]

    assert not grade.is_placed
    assert float(grade.start.to("mile").m) == pytest.approx(44 + 96 / 2)


def test_a_climb_begins_at_its_foot(assessed: Assessed) -> None:
    name = "          - what: Cabbage Hill, west side\n"
    points = profile_of(assessed("larkspur", trip=((name, f"{name}            goes: up\n"),)), 5).points
    ends = [float(point.elevation.to("foot").m) for point in points if not point.stop]

    assert ends[0] < ends[1] == 3600


@pytest.mark.parametrize("gone", ["          elevation: 2150 ft\n", "      - distance: 72 mi\n"])
def test_what_is_not_given_leaves_no_profile(assessed: Assessed, gone: str) -> None:
    kept = "      - distance:\n" if "distance" in gone else ""

    found = assessed("larkspur", trip=((gone, kept),))

    assert day_profile(trip_days(found.profile)[0]) is None
