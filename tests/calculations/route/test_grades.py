from math import atan, sin

import pytest
from fluids.atmosphere import ATMOSPHERE_1976
from hypothesis import given
from hypothesis import strategies as st

from binder.calculations.route.grades import (
    Motion,
    air_density,
    grade_energy,
    grade_height,
    holding_power,
    least_road_load,
    retarder_margin,
    retarder_share,
    road_loads,
    time_on_grade,
)
from binder.quantities import Quantity, registry
from tests.published.kinds import check

q = registry.Quantity
SEA = air_density(q(0, "foot"))
LINE_HAUL = road_loads()["line-haul truck"]


def motion(pounds: float = 33_112, mph: float = 45) -> Motion:
    return Motion(q(pounds, "pound"), q(mph, "mph"), SEA)


def kilowatts(power: Quantity) -> float:
    return float(power.to("kilowatt").m)


@pytest.mark.parametrize("feet", [0, 1000, 5000, 8000, 12_000])
@check("LIB-FLUIDS", "library")
def test_air_is_that_of_the_standard_atmosphere(feet: float) -> None:
    """LIB-FLUIDS, which codes USSA1976."""
    expected = ATMOSPHERE_1976(feet * 0.3048).rho

    assert float(air_density(q(feet, "foot")).to("kg / meter ** 3").m) == pytest.approx(expected, rel=1e-4)


def test_the_demo_on_6_percent_at_45_mph_needs_177_kw_less_about_45() -> None:
    """Worked beforehand for the demo: 33,112 lb; air and tires take about 45 kW at sea level."""
    held = holding_power(motion(), q(6, "percent"), LINE_HAUL)

    assert kilowatts(held.gravity) == pytest.approx(177, abs=0.5)
    assert kilowatts(held.air + held.rolling) == pytest.approx(45, abs=3)
    assert kilowatts(held.left) == pytest.approx(177.4 - 43.2, abs=1)
    assert kilowatts(retarder_margin(held, q(150, "kW"))) == pytest.approx(150 - kilowatts(held.left))
    assert float(retarder_share(held, q(150, "kW")).m) == pytest.approx(kilowatts(held.left) / 150)


def test_a_retarder_that_takes_nothing_has_no_share() -> None:
    with pytest.raises(ValueError, match="takes nothing"):
        retarder_share(holding_power(motion(), q(6, "percent"), LINE_HAUL), q(0, "kW"))


def test_a_grade_that_air_and_tires_hold_takes_nothing_of_a_retarder() -> None:
    held = holding_power(motion(), q(0.1, "percent"), LINE_HAUL)

    assert held.left.magnitude < 0
    assert retarder_share(held, q(150, "kW")).m == 0


def test_gravity_is_weight_times_height_lost_in_the_time() -> None:
    length, slope = q(6, "mile"), q(6, "percent")
    height = grade_height(length, slope)
    held = holding_power(motion(), slope, LINE_HAUL)
    energy = grade_energy(motion().mass, height)

    assert float((held.gravity * time_on_grade(length, motion().speed) / energy).to("").m) == pytest.approx(1)
    assert float((height / length).to("").m) == pytest.approx(sin(atan(0.06)))


def test_the_least_road_load_helps_least() -> None:
    """LIB-FASTSIM has three trucks and no motorhome: downhill, the one that resists least is taken."""
    least = holding_power(motion(), q(6, "percent"), least_road_load())

    for load in road_loads().values():
        assert holding_power(motion(), q(6, "percent"), load).left <= least.left


@given(st.floats(1, 80), st.floats(1, 80), st.floats(0, 12))
def test_more_speed_needs_more_holding_of_gravity(one: float, other: float, percent: float) -> None:
    slow, fast = (
        holding_power(motion(mph=speed), q(percent, "percent"), LINE_HAUL) for speed in sorted((one, other))
    )

    assert slow.gravity <= fast.gravity
    assert slow.air <= fast.air


def test_standing_still_is_refused() -> None:
    with pytest.raises(ValueError, match="more than zero"):
        time_on_grade(q(6, "mile"), q(0, "mph"))
