"""What is said of an axle's cold inflation when the answer is bad: grade, place in the list, words."""

import pytest

from tests.assessment.conftest import Assessed
from tests.assessment.edited_demos import Change
from tests.assessment.tires.test_label_first import psi
from tests.by_key import ByKey, ReadFinding
from tests.demos import PROFILES

WHEELS = (
    "maximum_load: 7400 lb\n    maximum_pressure: 120 psi\n    valve_maximum_pressure:              # not"
)


def wheels(load: str = "7400 lb", pressure: str = "120 psi", valve: str = "") -> Change:
    new = f"maximum_load: {load}\n    maximum_pressure: {pressure}\n    valve_maximum_pressure: {valve} # not"
    return WHEELS, new


def on(assessment: ByKey, start: str, *grades: str) -> list[ReadFinding]:
    return [
        found
        for found in assessment.findings
        if found.key.startswith(start) and (not grades or found.grade in grades)
    ]


def the_one(assessment: ByKey, start: str, grade: str) -> ReadFinding:
    (found,) = on(assessment, start, grade)
    return found


def test_a_wheel_end_over_its_wheel_must_not_drive(assessed: Assessed) -> None:
    """5,743.4 lb on a wheel for 5,700 lb: 44 lb over, and no pressure helps."""
    found = assessed("larkspur", wheels(load="5700 lb"))
    finding = the_one(found, "tires.coach.steer", "do not drive")

    assert (finding.order, finding.key) == (1, "tires.coach.steer.load_per_tire")
    assert finding.text == (
        "Coach, steer: left end is 44 lb a tire over the limit of its wheel (everything full)."
    )
    assert finding.what_helps
    for entry in ("set_point", "add_if_below", "leave_up_to", "low_alarm", "run_flat_below"):
        assert psi(found, f"tires.coach.steer.{entry}") is None
    assert psi(found, "tires.coach.drive.set_point") == pytest.approx(95)


def test_a_load_over_the_last_row_has_no_pressure(assessed: Assessed) -> None:
    """The table ends at 5,570 lb: 174 lb too little for the steer tires."""
    rows = (
        "        100 psi: 5775 lb\n        105 psi: 5975 lb\n        110 psi: 6175 lb\n      dual",
        "      dual",
    )
    found = assessed("larkspur", rows, ("maximum_load_single: 6175 lb", "maximum_load_single: 5570 lb"))
    finding = the_one(found, "tires.coach.steer", "do not drive")

    assert "174 lb a tire over the limit of its tire" in finding.text
    assert psi(found, "tires.coach.steer.row_pressure") is None
    assert psi(found, "tires.coach.steer.set_point") is None
    assert not [key for key in found.keys if key.startswith("tires.coach.steer.fill_at")]


def test_a_floor_over_the_cap_must_not_drive(assessed: Assessed) -> None:
    found = assessed("larkspur", wheels(valve="80 psi"))

    for axle in ("steer", "drive"):
        finding = the_one(found, f"tires.coach.{axle}", "do not drive")
        assert finding.order == 2
        assert "no legal pressure, the floor is over what the valve may hold" in finding.text
        assert psi(found, f"tires.coach.{axle}.set_point") is None


def test_a_row_at_the_cap_leaves_no_reserve(assessed: Assessed) -> None:
    """Row 100 psi under a valve of 100 psi: printed, without the margin, and told once each."""
    found = assessed("larkspur", wheels(valve="100 psi"))

    assert psi(found, "tires.coach.steer.set_point") == pytest.approx(100)
    texts = [one.text for one in on(found, "tires.coach.steer.set_point", "attention")]
    assert [one for one in texts if "no reserve left" in one]
    assert not on(found, "tires.coach.steer", "do not drive")


def test_a_cap_that_cuts_the_margin_is_told(assessed: Assessed) -> None:
    """Row 100, margin 5, valve 103: the fill is 103, which leaves the 2 psi of a cold morning."""
    found = assessed("larkspur", wheels(valve="103 psi"))

    assert psi(found, "tires.coach.steer.set_point") == pytest.approx(103)
    finding = next(one for one in on(found, "tires.coach.steer.set_point", "attention"))
    assert finding.text == "Coach, steer: the cap cuts the margin over the row short."


def test_a_limit_nobody_read_leaves_the_rig_not_cleared(assessed: Assessed, larkspur: ByKey) -> None:
    unread = [one.text for one in on(larkspur, "tires.coach.drive", "not cleared")]

    assert unread == ["Coach, drive: highest pressure of the valve not known."]
    blank = assessed("larkspur", wheels(load="", pressure=""))
    texts = [one.text for one in on(blank, "tires.coach.drive", "not cleared")]
    assert texts == [
        "Coach, drive: highest load of the wheel not known.",
        "Coach, drive: highest pressure of the wheel not known.",
        "Coach, drive: highest pressure of the valve not known.",
    ]


def test_no_table_is_estimated_and_said_to_be(assessed: Assessed) -> None:
    """Without its table the steer tire's row is calculated, above the table's own, under the label."""
    rig = (PROFILES / "kestrel" / "rig.yaml").read_text("utf-8")
    found = assessed("kestrel", (rig[rig.index("    table:") : rig.index("    mounted:")], ""))

    finding = on(found, "tires.coach.steer.row_pressure", "attention")[0]
    assert finding.what_helps == "Get the maker's table for this exact size and load range."
    row = psi(found, "tires.coach.steer.row_pressure")
    assert row is not None
    assert row >= 45
    assert psi(found, "tires.coach.steer.set_point") == pytest.approx(65)


def test_tires_near_their_limit_ask_for_attention(larkspur: ByKey) -> None:
    """5,744 lb of 5,975 lb at 105 psi is 96.1 %, printed up."""
    finding = the_one(larkspur, "tires.coach.steer.load_used", "attention")

    assert (finding.order, finding.text) == (
        2,
        "Coach, steer: its tires use 97 % of what they carry at the set-point.",
    )
    assert not on(larkspur, "tires.coach.drive.load_used")


@pytest.mark.parametrize(
    ("closest", "setting", "told"),
    [("100 %", 100, []), ("94.7 %", 99.435, ["late"]), ("90 %", 94.5, ["FLAT"]), ("75 %", 78.75, ["FLAT"])],
)
def test_a_monitor_that_cannot_be_set_close_is_told(
    assessed: Assessed, closest: str, setting: float, told: list[str]
) -> None:
    """Of 105 psi with the wanted alarm at 100; a tire at 84 cold reads 99 while it is hot."""
    found = assessed("larkspur", ("closest_low_alarm: 88 %", f"closest_low_alarm: {closest}"))
    texts = [one.text for one in on(found, "tires.coach.steer.monitor_setting", "attention")]

    assert psi(found, "tires.coach.steer.monitor_setting") == pytest.approx(setting)
    assert ["late" if "after the wanted" in text else "FLAT" for text in texts] == told


def test_a_typed_row_off_the_curve_is_pointed_at(assessed: Assessed) -> None:
    """5,365 lb at 90 psi typed as 5,265 still rises; one typed as 5,565 is more than 3 % off."""
    found = assessed("larkspur", ("        90 psi: 5365 lb\n", "        90 psi: 5565 lb\n"))
    texts = [one.text for one in on(found, "tires.coach.steer.row_pressure", "attention")]

    assert any("at 90 psi" in text and "3 %" in text for text in texts)


@pytest.mark.parametrize(("axle", "hot"), [("coach.steer", 99), ("coach.drive", 91), ("car.front", 33)])
def test_a_tire_flat_by_the_cold_line_reads_more_while_it_is_hot(
    larkspur: ByKey, axle: str, hot: float
) -> None:
    """By hand: (84 + 14.7)(105 + 18 + 14.7)/(105 + 14.7) - 14.7 = 98.8; 76 gives 90.9, 27 gives 32.3."""
    assert psi(larkspur, f"tires.{axle}.hot_flat") == pytest.approx(hot)


def test_a_monitor_whose_closest_alarm_is_not_known_is_told(assessed: Assessed) -> None:
    found = assessed("larkspur", ("tire monitor: {closest_low_alarm: 88 %}", "tire monitor: {}"))

    assert [one.grade for one in on(found, "tires.coach.steer.monitor_setting")] == ["missing"]
