"""Age, tread and matching of the mounted tires, each by changing one entry of a demo register."""

import pytest

from tests.assessment.conftest import Assessed
from tests.assessment.tires.test_label_first import psi
from tests.by_key import ByKey, ReadFinding

STEER = "steer left:        {date_code: 1423, tread: 13/32 in, circumference: 125.5 in,"
OUTER = "drive left outer:  {date_code: 4622, tread: 12/32 in, circumference: 125.25 in,"
SPARE = "spare:             {date_code: 3623,"


def register(assessment: ByKey) -> list[ReadFinding]:
    """Findings of age, tread and pairs: the fifth of the list of ten."""
    return [found for found in assessment.findings if found.order == 5]


def test_a_sound_register_is_silent(larkspur: ByKey, kestrel: ByKey) -> None:
    assert register(larkspur) == register(kestrel) == []


@pytest.mark.parametrize(
    ("code", "grade", "words"),
    [
        ("", "not cleared", "date code not found"),
        ("1419", "do not drive", "past its age of 7"),
        ("1421", "attention", "5.2 years old"),
        ("239", "do not drive", "made before 2000"),
        ("1427", "not cleared", "no week and year before today"),
        ("6023", "not cleared", "no week and year before today"),
    ],
)
def test_the_age_of_a_steering_tire(assessed: Assessed, code: str, grade: str, words: str) -> None:
    """The trip ends on 2026-06-06; week 14 of 2019 is over seven years before."""
    (found,) = register(assessed("larkspur", (STEER, STEER.replace("1423", code))))

    assert found.grade == grade
    assert words in found.text
    assert found.key == "tires.coach.steer.steer_left.age"


@pytest.mark.parametrize(("tread", "told"), [("4/32 in", 0), ("3/32 in", 1)])
def test_a_steering_tire_needs_four_thirty_seconds(assessed: Assessed, tread: str, told: int) -> None:
    """49 CFR 393.75."""
    found = register(assessed("larkspur", (STEER, STEER.replace("13/32 in", tread))))

    assert [one.grade for one in found] == ["do not drive"] * told


@pytest.mark.parametrize(
    ("change", "grade", "words"),
    [
        (("tread: 12/32 in", "tread: 8/32 in"), "do not drive", "the left pair does not match"),
        (("125.25 in", "124.5 in"), "do not drive", "the left pair does not match"),
        (("tread: 12/32 in", "tread: 12/32 in, damage: bulge"), "do not drive", "bulge"),
        (("tread: 12/32 in, ", ""), "not cleared", "tread not known"),
        (("tread: 12/32 in", "tread: 12 in"), "attention", "no tread is over 1 in deep"),
    ],
)
def test_a_dual_tire(assessed: Assessed, change: tuple[str, str], grade: str, words: str) -> None:
    """More than 4/32 in of tread or 3/4 in of circumference apart is no pair (S45, S48)."""
    found = register(assessed("larkspur", (OUTER, OUTER.replace(*change))))

    assert any(one.grade == grade and words in one.text for one in found)


def test_duals_too_close_ask_for_attention(assessed: Assessed) -> None:
    (close,) = register(assessed("larkspur", ("dual_spacing: 13.5 in", "dual_spacing: 13.0 in")))
    (blank,) = register(assessed("larkspur", ("dual_spacing: 13.5 in", "dual_spacing: ")))

    assert (close.grade, close.key) == ("attention", "tires.coach.drive.dual_spacing")
    assert (blank.grade, blank.key) == ("missing", "tires.coach.drive.dual_spacing")


@pytest.mark.parametrize(("code", "grade"), [("3616", "attention"), ("", "missing")])
def test_a_spare_ages_too(assessed: Assessed, code: str, grade: str) -> None:
    """It stops nobody until it is mounted."""
    found = register(assessed("kestrel", (SPARE, SPARE.replace("3623", code))))

    assert [(one.grade, one.text.startswith("Spare of the coach tires")) for one in found] == [(grade, True)]


AGES = "    replace_after: 7 years\n"


@pytest.mark.parametrize(
    ("code", "grade", "words"),
    [
        ("1419", "attention", "past the usual age of 7 (practice)"),
        ("1416", "do not drive", "past its age of 10"),
    ],
)
def test_an_age_of_practice_asks_for_attention_and_ten_years_forbid(
    assessed: Assessed, code: str, grade: str, words: str
) -> None:
    found = register(assessed("larkspur", (AGES, ""), (STEER, STEER.replace("1423", code))))

    about = [one for one in found if one.key == "tires.coach.steer.steer_left.age"]
    assert [(one.grade, words in one.text) for one in about] == [(grade, True)]


def test_a_pair_never_measured_around_is_not_cleared(assessed: Assessed) -> None:
    inner = "drive left inner:  {date_code: 4622, tread: 13/32 in, circumference: 125.5 in"
    found = register(assessed("larkspur", (inner, inner.replace(", circumference: 125.5 in", ""))))

    assert [(one.grade, one.key) for one in found] == [("not cleared", "tires.coach.drive.left_pair")]


def test_a_table_left_from_other_tires_is_put_aside_and_told(assessed: Assessed, larkspur: ByKey) -> None:
    """The row then comes from the sidewall, and is no lower."""
    found = assessed("larkspur", ("    size: 295/75R22.5\n", "    size: 275/80R22.5\n"))
    key = "tires.coach.steer.row_pressure"

    told = [one for one in found.findings if one.key == key and "put aside" in one.text]
    assert [one.grade for one in told] == ["not cleared"]
    assert "275/80R22.5" in told[0].text
    assert "sidewall" in found.figure(key).rule
    assert (psi(found, key) or 0) >= (psi(larkspur, key) or 0) > 0


def test_a_table_that_does_not_say_its_size_is_told(assessed: Assessed) -> None:
    found = register(assessed("larkspur", ("      size: 295/75R22.5 G\n", "")))

    assert {(one.grade, "does not say its size" in one.text) for one in found} == {("missing", True)}
