"""Long grades: statics of a weight on a slope, and what a retarder leaves."""

import pytest

from binder.assessment.road.grades import placed_grades
from tests.assessment.conftest import Assessed
from tests.by_key import ByKey

CABBAGE = "route.day_5.leg_2.grade_1"
SIX_PERCENT = 0.06 / (1 + 0.06**2) ** 0.5
"""Sine of the angle whose tangent is 6 %."""


def kilowatts(assessment: ByKey, key: str) -> float:
    quantity = assessment.quantity(key)
    assert quantity is not None
    return float(quantity.to("kilowatt").m)


def found(assessment: ByKey) -> list[tuple[str, str]]:
    return [(one.grade, one.text) for one in assessment.findings if ".grade_" in one.key]


def test_gravity_gives_the_weight_times_slope_times_speed(larkspur: ByKey) -> None:
    """33,112 lb are 15,019.4 kg; standard gravity 9.80665 m/s2; 45 mph are 20.1168 m/s."""
    watts = 33_112 * 0.45359237 * 9.80665 * SIX_PERCENT * 20.1168

    assert kilowatts(larkspur, f"{CABBAGE}.gravity_power") == pytest.approx(watts / 1000, rel=1e-4)


def test_what_is_held_and_what_the_retarder_leaves_add_up(larkspur: ByKey) -> None:
    gravity, drag, held, margin = (
        kilowatts(larkspur, f"{CABBAGE}.{name}")
        for name in ("gravity_power", "drag", "holding_power", "retarder_margin")
    )

    assert held == pytest.approx(gravity - drag)
    assert margin == pytest.approx(150 - held)
    # About 45 kW of road load were expected of such a coach; less is counted, never more.
    assert 30 < drag < 45


def test_height_and_energy_follow_from_length_and_slope(larkspur: ByKey) -> None:
    """6 miles of 5,280 ft; a pound through a foot is 1.3558 J, and 3.6 MJ are a kilowatt hour."""
    height = larkspur.figure(f"{CABBAGE}.height").quantity
    energy = larkspur.figure(f"{CABBAGE}.energy").quantity
    assert height is not None
    assert energy is not None

    feet = 6 * 5280 * SIX_PERCENT
    assert height.to("foot").m == pytest.approx(feet)
    assert energy.to("kilowatt_hour").m == pytest.approx(33_112 * feet * 1.355818 / 3.6e6, rel=1e-4)


def test_a_grade_that_takes_over_85_percent_of_the_retarder_is_a_finding(larkspur: ByKey) -> None:
    share = larkspur.quantity(f"{CABBAGE}.retarder_share")

    assert share is not None
    assert float(share.to("").m) == pytest.approx(kilowatts(larkspur, f"{CABBAGE}.holding_power") / 150)
    takes = "45 mph takes 93 % of the retarder."
    assert found(larkspur) == [("attention", f"Day 5: Cabbage Hill, west side: {takes}")]
    assert [one.order for one in larkspur.findings if ".grade_" in one.key] == [9]


def test_a_retarder_that_suffices_is_no_finding(assessed: Assessed) -> None:
    """139 kW of 165 kW are 84 %."""
    assert found(assessed("larkspur", ("retarder: 150 kW", "retarder: 165 kW"))) == []


def test_a_retarder_that_does_not_suffice_is_told_with_both_powers(assessed: Assessed) -> None:
    weak = assessed("larkspur", ("retarder: 150 kW", "retarder: 120 kW"))

    assert [grade for grade, _ in found(weak)] == ["attention", "attention"]
    assert "97 % of the retarder" in found(weak)[1][1]
    assert found(weak)[0][1] == (
        "Day 5: Cabbage Hill, west side: holding the posted 45 mph takes 139 kW, against 120 kW: "
        "brakes and engine take the rest."
    )
    assert [one.order for one in weak.findings if ".grade_" in one.key] == [7, 9]


def test_no_retarder_is_told_as_such(assessed: Assessed) -> None:
    texts = [text for _, text in found(assessed("larkspur", ("retarder: 150 kW", "retarder: 0 kW")))]

    assert len(texts) == 2
    assert all("against no retarder" in text for text in texts)


@pytest.mark.parametrize("retarder", ["0 kW", "150 kW"])
def test_a_grade_that_air_and_tires_hold_asks_nothing_of_any_retarder(
    assessed: Assessed, retarder: str
) -> None:
    posted = "slope: {}\n            posted_truck_speed: 45 mph"
    trip = ((posted.format("6 %"), posted.format("0.3 %")),)
    gentle = assessed("larkspur", ("retarder: 150 kW", f"retarder: {retarder}"), trip=trip)

    assert kilowatts(gentle, f"{CABBAGE}.holding_power") < 0
    assert not [text for _, text in found(gentle) if "Cabbage" in text]
    share = gentle.figure(f"{CABBAGE}.retarder_share").quantity
    assert share is None if retarder == "0 kW" else share == 0


def test_a_retarder_that_is_not_known_leaves_the_margin_blank(assessed: Assessed) -> None:
    unknown = assessed("larkspur", ("retarder: 150 kW, ", ""))

    assert unknown.figure(f"{CABBAGE}.retarder_margin").value is None
    assert unknown.figure(f"{CABBAGE}.holding_power").value is not None
    missing = [one.text for one in unknown.findings if one.order == 7 and one.grade == "missing"]
    grades = "day 3, Galena Summit, south side; day 5, Cabbage Hill, west side"
    assert missing == [f"The retarder's power of the coach is not given, for the long grades: {grades}."]


def test_a_grade_that_goes_up_asks_nothing_of_the_retarder(assessed: Assessed) -> None:
    slope = "            what: Cabbage Hill, west side\n".replace("            what", "          - what")
    up = assessed(
        "larkspur", ("retarder: 150 kW", "retarder: 0 kW"), trip=((slope, f"{slope}            goes: up\n"),)
    )

    assert len(found(up)) == 1
    assert up.known(f"{CABBAGE}.holding_power") is None
    assert up.figure(f"{CABBAGE}.height").value is not None


def test_a_speed_that_is_not_posted_leaves_powers_blank_and_height_known(assessed: Assessed) -> None:
    silent = assessed("larkspur", trip=(("            posted_truck_speed: 45 mph\n", ""),))

    assert silent.figure(f"{CABBAGE}.holding_power").value is None
    assert silent.figure(f"{CABBAGE}.retarder_margin").value is None
    assert silent.figure(f"{CABBAGE}.height").value is not None


def test_without_a_weight_the_power_is_missing(assessed: Assessed) -> None:
    weighed = "        steer: {left: 5480 lb, right: 5240 lb, axle: 10720 lb}\n"
    unweighed = assessed("larkspur", (weighed, "        steer: {}\n"))

    texts = [text for grade, text in found(unweighed) if grade == "missing"]
    assert unweighed.figure(f"{CABBAGE}.energy").value is None
    assert texts[0].startswith("Day 3: Galena Summit, south side: the weight of the rig is not known")


def test_the_top_of_the_plan_decides_how_thin_the_air_is(assessed: Assessed, larkspur: ByKey) -> None:
    """3600 ft as planned; without it the higher end of the leg and the grade's height, 5337 ft."""
    unsaid = assessed("larkspur", trip=(("            top: 3600 ft\n", ""),))

    assert kilowatts(unsaid, f"{CABBAGE}.drag") < kilowatts(larkspur, f"{CABBAGE}.drag")


def test_a_smaller_front_is_given_less_drag(assessed: Assessed, larkspur: ByKey) -> None:
    small = assessed("larkspur", ("overall_width: 101 in ", "overall_width: 80 in "))

    assert kilowatts(small, f"{CABBAGE}.drag") < kilowatts(larkspur, f"{CABBAGE}.drag")


def test_grades_are_numbered_within_their_leg(larkspur: ByKey) -> None:
    placed = placed_grades(larkspur.profile)

    assert [(one.subject, one.grade.what) for one in placed] == [
        ((3, 1, 1), "Galena Summit, south side"),
        ((5, 2, 1), "Cabbage Hill, west side"),
    ]
