from typing import Literal

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st

from binder.calculations.fluids import (
    Basis,
    Fluid,
    freeze_margin,
    freeze_point,
    freeze_points,
    is_past_strongest,
    is_thin_enough,
    strength_for,
    thickest_for,
    winter_grade,
    winter_grades,
)
from binder.quantities import registry
from tests.published.kinds import check

q = registry.Quantity
FLUIDS: dict[tuple[Fluid, Basis], str] = {
    ("ethylene glycol", "mass"): "MEG",
    ("ethylene glycol", "volume"): "AEG",
    ("propylene glycol", "mass"): "MPG",
    ("propylene glycol", "volume"): "APG",
    ("methanol", "mass"): "MMA",
}
# The handbook's rows differ from the library by up to these, °C.
APART = {"APG": 1.4, "MMA": 0.3}


def library(name: str, percent: float) -> float:
    kelvin = PropsSI("T_freeze", "T", 300, "P", 101325, f"INCOMP::{name}[{percent / 100}]")
    return float(kelvin) - 273.15


@pytest.mark.parametrize("key", FLUIDS, ids=" ".join)
@check("LIB-COOLPROP", "library")
def test_rows_are_those_of_the_library(key: tuple[Fluid, Basis]) -> None:
    name = FLUIDS[key]
    rows = [row for row in freeze_points(*key) if name != "APG" or row.strength.m >= 10]

    assert len(rows) > 7
    for row in rows:
        allowed = 0.0051 if row.source == "LIB-COOLPROP" else APART[name]
        assert float(row.temperature.m) == pytest.approx(library(name, float(row.strength.m)), abs=allowed), (
            row
        )


@given(st.sampled_from(["MEG", "AEG", "MPG"]), st.floats(10, 60))
@check("LIB-COOLPROP", "library")
def test_protection_is_never_stated_colder_than_the_library(name: str, percent: float) -> None:
    key = next(key for key, value in FLUIDS.items() if value == name)
    point = freeze_point(*key, q(percent, "percent"))

    assert point is not None
    assert float(point.temperature.m) >= library(name, percent) - 0.0051


@given(st.floats(10, 59), st.floats(10, 59), st.sampled_from(["ethylene glycol", "propylene glycol"]))
def test_more_glycol_protects_more_up_to_the_strongest(one: float, other: float, fluid: Fluid) -> None:
    weak, strong = sorted((one, other))
    for basis in ("mass", "volume"):
        warm, cold = (freeze_point(fluid, basis, q(value, "percent")) for value in (weak, strong))
        assert warm is not None
        assert cold is not None
        assert cold.temperature <= warm.temperature


@given(st.floats(59, 100), st.floats(59, 100))
@check("S-YUCHAI", "published")
def test_beyond_the_strongest_ethylene_glycol_protects_less(one: float, other: float) -> None:
    """S-YUCHAI: -50 C at 59 %, -13 C as pure glycol."""
    less, more = sorted((one, other))
    points = [freeze_point("ethylene glycol", "not stated", q(value, "percent")) for value in (less, more)]
    at_59 = freeze_point("ethylene glycol", "not stated", q(59, "percent"))

    assert points[0] is not None
    assert points[1] is not None
    assert at_59 is not None
    assert points[1].temperature >= points[0].temperature >= at_59.temperature


@pytest.mark.parametrize("basis", ["mass", "volume"])
@pytest.mark.parametrize("fluid", ["ethylene glycol", "propylene glycol"])
def test_nothing_is_said_beyond_60_percent(fluid: Fluid, basis: Basis) -> None:
    assert freeze_point(fluid, basis, q(60, "percent")) is not None
    assert freeze_point(fluid, basis, q(60.1, "percent")) is None
    assert is_past_strongest(fluid, basis, q(60.1, "percent")) is None
    assert is_past_strongest(fluid, basis, q(50, "percent")) is False


def test_the_two_glycols_and_the_two_bases_are_four_columns() -> None:
    half = q(50, "percent")
    found = {
        round(float(point.temperature.m), 1)
        for fluid in ("ethylene glycol", "propylene glycol")
        for basis in ("mass", "volume")
        if (point := freeze_point(fluid, basis, half))
    }

    assert len(found) == 4


def glycols(
    ethylene: float, propylene: float
) -> list[tuple[Literal["ethylene glycol", "propylene glycol"], float]]:
    return [("ethylene glycol", ethylene), ("propylene glycol", propylene)]


@pytest.mark.parametrize(("percent", "degrees"), [(10, 23), (20, 11), (30, -4), (40, -22)])
@check("S-LANGE-MEOH", "published")
def test_washer_fluid_is_the_handbooks(percent: float, degrees: float) -> None:
    """S-LANGE-MEOH, p. 5.83: percent by volume and degrees Fahrenheit."""
    point = freeze_point("methanol", "volume", q(percent, "percent"))

    assert point is not None
    assert float(point.temperature.to("degF").m) == pytest.approx(degrees, abs=0.5)


def test_strength_for_a_night_freezes_below_it() -> None:
    found = strength_for("propylene glycol", "volume", q(-28, "degF"))

    assert found is not None
    assert float(found.strength.m) == 55 - 5 * (float(found.temperature.to("degF").m) > -29)
    assert strength_for("methanol", "volume", q(-40, "degF")) is None
    assert float(freeze_margin(q(-20, "degC"), q(-25, "degC")).m) == pytest.approx(-9)


@check("S-LANGE-MEOH", "published")
def test_a_mixture_that_freezes_at_the_low_itself_is_too_weak() -> None:
    """S-LANGE-MEOH: 30 % by volume freezes at -20 C, which is -4 F."""
    for low in (q(-4, "degF"), q(-20, "degC")):
        found = strength_for("methanol", "volume", low)
        assert found is not None
        assert float(found.strength.m) == 35


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
