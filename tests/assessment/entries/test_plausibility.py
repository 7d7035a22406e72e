"""Likely slips of a digit, a unit or a line in a demo rig are told, each once, and nothing else is."""

import pytest

from tests.assessment.conftest import Assessed
from tests.assessment.edited_demos import Change
from tests.by_key import ByKey
from tests.demos import PROFILES

AGAIN = ("Read it again; correct the profile, or leave it if it is so", "Read it again; correct the plan, or")
STEER = "rating: 12000 lb\n        label_pressure: 110 psi"

CAR = "rating: 2600 lb\n        label_pressure: 33 psi"


def doubts(assessment: ByKey) -> list[tuple[int, str]]:
    return [
        (found.order, found.text)
        for found in assessment.findings
        if found.grade == "attention" and found.what_helps.startswith(AGAIN)
    ]


def test_nothing_is_doubtful_about_the_demo_rigs(larkspur: ByKey, kestrel: ByKey) -> None:
    assert doubts(larkspur) == doubts(kestrel) == []


@pytest.mark.parametrize(
    ("change", "order", "words"),
    [
        (("overall_height: 12 ft 8 in", "overall_height: 22 ft 8 in"), 3, "a height of 22 ft 8 in"),
        (("overall_height: 66 in", "overall_height: 6 in"), 3, "Car: a height of"),
        (("rear_overhang: 120 in", "rear_overhang: 117 in"), 6, "3 in off its overall length"),
        (("track: 83 in", "track: 53 in"), 6, "track of 4 ft 5 in at steer"),
        (
            ("gross_vehicle_weight_rating: 30500 lb", "gross_vehicle_weight_rating: 32500 lb"),
            6,
            "2,000 lb off its gross vehicle weight rating",
        ),
        (("rating: 2450 lb", "rating: 4250 lb"), 6, "its axle ratings together are 141%"),
        (("rating: 41000 lb", "rating: 410000 lb"), 6, "its combination rating is 1344%"),
        (("nut_torque: 475 ft*lb", "nut_torque: 4750 ft*lb"), 5, "its nut torque is unlikely"),
        ((STEER, STEER.replace("110", "80")), 5, "at the label pressure, the typed table"),
        (("rating: 2600 lb", "rating: 3900 lb"), 5, "more than its tires are stamped for"),
        ((STEER, STEER.replace("110 psi", "110 kPa")), 5, "at the label pressure, the typed table"),
        ((STEER, STEER.replace("110 psi", "120 psi")), 5, "its label pressure is more than"),
        ((CAR, CAR.replace("33", "23")), 5, "a placard of 23 psi is unlikely on a car"),
        (("at: 376 in ", "at: 276 in "), 4, "over 3 ft from the rear of the body"),
        (("weight: 360 lb", "weight: 360 kg"), 6, "far more was aboard on the scale"),
        (("overall_width: 101 in", "overall_width: 111 in"), 6, "a width of 9 ft 3 in without mirrors"),
        (("width_with_mirrors: 120 in", "width_with_mirrors: 20 in"), 6, "its width with mirrors"),
        (("width_with_mirrors: 120 in", "width_with_mirrors: 220 in"), 6, "its width with mirrors"),
        (("overall_length: 178 in", "overall_length: 278 in"), 6, "a length of 23 ft 2 in over a wheelbase"),
        (("at: 104.5 in", "at: 4.5 in"), 6, "over a wheelbase of 5 in"),
        (("rating: 2600 lb", "rating: 3600 lb"), 6, "its axle ratings together are 125%"),
        (("at_behind: -35 in", "at_behind: -35 ft"), 4, "its place on the car is unlikely"),
        (("at_behind: -35 in", "at_behind: 35 in"), 4, "its place on the car is unlikely"),
        (("maximum_speed: 118 mph", "maximum_speed: 18 mph"), 5, "tires made for 18 mph"),
        (("maximum_pressure: 44 psi", "maximum_pressure: 44 bar"), 5, "a highest pressure of 638 psi"),
        (("maximum_pressure: 51 psi", "maximum_pressure: 5.1 psi"), 5, "a highest pressure of 5 psi"),
        (("maximum_load: 7400 lb", "maximum_load: 74000 lb"), 5, "a highest load of 74,000 lb is unlikely"),
        (("maximum_load: 2000 lb", "maximum_load: 200 lb"), 5, "a highest load of 200 lb is unlikely"),
        (("total: 440 Ah", "total: 540 Ah"), 9, "4 house batteries of 220 Ah at 6 V do not make 540 Ah"),
    ],
)
def test_a_slip_in_the_profile_is_told(assessed: Assessed, change: Change, order: int, words: str) -> None:
    found = doubts(assessed("larkspur", change))

    assert any(place == order and words in text for place, text in found), found


@pytest.mark.parametrize(
    ("change", "order", "words"),
    [
        (("distance: 131 mi", "distance: 31 mi"), 10, "less than the straight line"),
        (("distance: 131 mi", "distance: 431 mi"), 10, "far more than the straight line"),
        (("driving: 3.25 h", "driving: 1.25 h"), 10, "105 mph on average"),
        (("driving: 3.25 h", "driving: 32.5 h"), 10, "5 mph on average"),
        (
            ("length: 5 mi\n            slope: 6 %", "length: 5 mi\n            slope: 60 %"),
            7,
            "a slope over",
        ),
        (
            ("length: 5 mi\n            slope: 6 %", "length: 5 mi\n            slope: 0.6 %"),
            7,
            "a grade under 2 % is unlikely",
        ),
        (("length: 5 mi\n            slope: 6 %", "length: 95 mi\n            slope: 6 %"), 7, "longer than"),
        (("begins_after: 30 mi", "begins_after: 57 mi"), 7, "it lies beyond the leg"),
        (("posted: 14 ft 2 in", "posted: 142 ft"), 3, "posted 142 ft 0 in"),
        (("posted: 14 ft 2 in", "posted: 24 ft 2 in"), 3, "posted 24 ft 2 in"),
        (("elevation: 6240 ft", "elevation: 6240 m"), 10, "an elevation of"),
        (("elevation: 6240 ft", "elevation: 1902 m"), 10, "its elevation is in meters, not in feet"),
        (("distance: 131 mi", "distance: 1310000 mi"), 10, "a leg of 1,310,000 mi is unlikely"),
        (("diesel: 8.0 mpg", "diesel: 85 mpg"), 9, "The diesel that a distance takes"),
        (("low: 24 degF", "low: 240 degF"), 8, "is unlikely"),
        (("low: 24 degF", "low: 64 degF"), 8, "its low is above its high"),
        (("latitude: 44.216", "latitude: 24.216"), 10, "less than the straight line"),
    ],
)
def test_a_slip_in_the_plan_is_told(assessed: Assessed, change: Change, order: int, words: str) -> None:
    found = doubts(assessed("larkspur", trip=(change,)))

    assert any(place == order and words in text for place, text in found), found


def test_a_ticket_under_the_unloaded_weight_is_told(assessed: Assessed) -> None:
    found = doubts(
        assessed(
            "larkspur",
            ("right: 8060 lb, axle: 16480 lb", "right: 6060 lb, axle: 14480 lb"),
            ("total: 27200 lb", "total: 25200 lb"),
        )
    )

    assert [text for _, text in found] == [
        "Coach: the ticket of 2026-03-30 says less than its unloaded weight, 25,370 lb.",
        "Coach, drive: one end weighs over a quarter more than the other on the ticket.",
    ]


def test_a_vehicle_nothing_joins_is_missing_its_coupling(assessed: Assessed) -> None:
    rig = (PROFILES / "larkspur" / "rig.yaml").read_text("utf-8")
    found = assessed("larkspur", (rig[rig.index("couplings:") : rig.index("\ntires:\n")], ""))

    assert "Car: nothing says what joins it to the vehicle ahead." in [
        one.text for one in found.findings if one.grade == "missing"
    ]
