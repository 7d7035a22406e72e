import pytest

from binder.calculations.oil_grade import is_thin_enough, thickest_for, winter_grade, winter_grades
from binder.quantities import registry
from tests.published.kinds import check

q = registry.Quantity


@check("S-J300", "published")
def test_limits_are_those_of_the_standard() -> None:
    """S-J300 (January 2015): cranking temperatures of the W grades, °C."""
    found = [(grade.name, float(grade.cranks_at.m)) for grade in winter_grades()]

    assert found == [("0W", -35), ("5W", -30), ("10W", -25), ("15W", -20), ("20W", -15), ("25W", -10)]


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("SAE 15W-40", "15W"),
        ("5w30 full synthetic", "5W"),
        ("CK-4 SAE 10W-30", "10W"),
        ("0W-20", "0W"),
        ("SAE 40", None),
        ("75W-90", None),
        ("5W-30 or 10W-30", None),
        ("115W-40", None),
        ("200 W heater", None),
        ("", None),
    ],
)
def test_grade_is_read_from_a_specification(text: str, name: str | None) -> None:
    grade = winter_grade(text)

    assert (None if grade is None else grade.name) == name


def test_an_oil_is_thin_enough_down_to_its_limit_and_not_below() -> None:
    grade = winter_grade("15W-40")

    assert grade is not None
    assert [is_thin_enough(grade, q(c, "degC")) for c in (-19, -20, -20.1)] == [True, True, False]
    assert is_thin_enough(grade, q(-4, "degF"))


@pytest.mark.parametrize(
    ("celsius", "name"), [(20, "25W"), (-10, "25W"), (-12, "20W"), (-35, "0W"), (-36, None)]
)
def test_thickest_grade_for_a_start(celsius: float, name: str | None) -> None:
    grade = thickest_for(q(celsius, "degC"))

    assert (None if grade is None else grade.name) == name
