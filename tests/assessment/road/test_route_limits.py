"""Posted weights, widths, lengths and ground clearances against the rig, and the wind it parks at."""

import pytest

from tests.assessment.conftest import Assessed
from tests.by_key import ByKey

POSTED = "{what: bridge at the north end of Ketchum, weight: 80000 lb, after: 60 mi}"
KEY = "route.day_3.leg_1.limit_1"


def limits(found: ByKey) -> list[tuple[str, str]]:
    return [(one.grade, one.text) for one in found.findings if ".limit" in one.key]


def test_a_limit_that_is_kept_says_what_is_to_spare(larkspur: ByKey) -> None:
    """80,000 lb less the combination's 33,112 lb."""
    assert larkspur.figure(f"{KEY}.weight_margin").slack == "46,888 lb to spare"
    assert limits(larkspur) == []


@pytest.mark.parametrize(
    ("posted", "told"),
    [
        ("weight: 12 t", "weight 26,455 lb: this rig is 6,657 lb too heavy."),
        ("width: 8 ft", "width 8 ft 0 in: this rig is 2 ft 0 in too wide."),
        ("length: 45 ft", "length 45 ft 0 in: this rig is 13 ft 2 in too long."),
    ],
)
def test_a_limit_that_is_exceeded_forbids_the_road(assessed: Assessed, posted: str, told: str) -> None:
    found = assessed("larkspur", trip=((POSTED, f"{{what: old bridge, {posted}}}"),))

    assert limits(found) == [("do not drive", f"Day 3: old bridge, posted {told}")]
    assert [one.what_helps for one in found.findings if ".limit" in one.key] == [
        "Take another road; no vehicle of the rig passes there as it is."
    ]


def test_a_body_wider_than_a_posted_width_forbids_the_road_when_its_mirrors_are_blank(
    assessed: Assessed,
) -> None:
    """The body of 101 in alone is 5 in over 96 in; the mirrors could only add to it."""
    found = assessed(
        "larkspur",
        ("      width_with_mirrors: 120 in\n", ""),
        trip=((POSTED, "{what: old bridge, width: 8 ft}"),),
    )

    assert limits(found) == [
        ("do not drive", "Day 3: old bridge, posted width 8 ft 0 in: this rig is 5 in too wide.")
    ]


def test_a_ground_clearance_that_is_not_known_is_not_cleared(assessed: Assessed) -> None:
    found = assessed("larkspur", trip=((POSTED, "{what: rail crossing, ground_clearance: 8 in}"),))

    assert limits(found) == [
        (
            "not cleared",
            "Day 3: rail crossing, posted ground clearance 8 in: the rig's ground clearance is not known.",
        )
    ]


def test_the_lowest_vehicle_decides_over_a_hump(assessed: Assessed) -> None:
    overhangs = [("rear_overhang: 120 in\n", "rear_overhang: 120 in\n      ground_clearance: 9 in\n")]
    car = ("overall_height: 66 in", "overall_height: 66 in\n      ground_clearance: 7 in")
    plan = ((POSTED, "{what: rail crossing, ground_clearance: 8 in}"),)
    found = assessed("larkspur", *overhangs, car, trip=plan)

    assert limits(found) == [
        ("do not drive", "Day 3: rail crossing, posted ground clearance 8 in: this rig is 1 in too low.")
    ]


def test_a_limit_without_a_figure_is_asked_for(assessed: Assessed) -> None:
    found = assessed("larkspur", trip=((POSTED, "{what: old bridge}"),))

    assert limits(found) == [("not cleared", "Day 3, leg 1: old bridge: what is posted there is not given.")]


def test_the_wind_is_the_owners_own_or_practice(assessed: Assessed, larkspur: ByKey) -> None:
    silent = assessed("larkspur", trip=(("  wind: {sustained: 30 mph, gusts: 40 mph}\n", ""),))

    own, usual = (found.figure("route.wind_gusts") for found in (larkspur, silent))
    assert (f"{own.value:.0f}", own.source) == ("40 mile_per_hour", "trip plan")
    assert (f"{usual.value:.0f}", usual.source) == ("45 mile_per_hour", "practice")
