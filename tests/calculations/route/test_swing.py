from math import atan2, cos, hypot, pi, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.calculations.route.swing import (
    TowingBody,
    TrailerBody,
    TurningBody,
    tail_swing,
    trailer_tail_swing,
    turning_radius_of_rear_axle,
)
from binder.quantities import Quantity, registry

q = registry.Quantity


def body(wheelbase: float, overhang: float, width: float, cut: float) -> TurningBody:
    return TurningBody(q(wheelbase, "inch"), q(overhang, "inch"), q(width, "inch"), q(cut * pi / 180, ""))


def test_a_three_four_five_triangle_worked_by_hand() -> None:
    """At 45 degrees R = L = 300; side r = 300 + 200/2 = 400; corner 500 with 300 behind: swing 100."""
    assert float(tail_swing(body(300, 300, 200, 45)).to("inch").m) == pytest.approx(100)


def test_a_long_coach_worked_by_hand() -> None:
    """252/tan 50 = 211.45; + 50.5 = 261.95; sqrt(261.95^2 + 120^2) = 288.13; swing 26.2 in."""
    assert float(tail_swing(body(252, 120, 101, 50)).to("inch").m) == pytest.approx(26.2, abs=0.05)


def test_the_corner_followed_step_by_step_never_swings_farther() -> None:
    """Turn the corner about the point in steps of a hundredth of a degree, and keep the farthest."""
    side = 252 / tan(50 * pi / 180) + 101 / 2
    reach, angle = hypot(side, 120), atan2(120, side)
    farthest = max(reach * cos(angle - step * pi / 18000) - side for step in range(9000))

    assert float(tail_swing(body(252, 120, 101, 50)).to("inch").m) == pytest.approx(farthest, abs=0.01)


def test_no_overhang_no_swing() -> None:
    assert float(tail_swing(body(252, 0, 101, 50)).to("inch").m) == pytest.approx(0)


@pytest.mark.parametrize("cut", [0.0, 90.0, 120.0, -10.0])
def test_a_cut_that_is_none_is_refused(cut: float) -> None:
    with pytest.raises(ValueError, match="a wheel cut lies between 0 and 90 degrees"):
        turning_radius_of_rear_axle(q(252, "inch"), q(cut * pi / 180, ""))


def inch(value: float) -> Quantity:
    return registry.Quantity(value, "inch")


def swing(behind: float, length: float, overhang: float, width: float = 96) -> float:
    towing = TowingBody(inch(150), registry.Quantity(40 * pi / 180, ""), inch(behind))
    return float(
        trailer_tail_swing(towing, TrailerBody(inch(length), inch(overhang), inch(width))).to("inch").m
    )


@given(behind=st.floats(-10, 80), length=st.floats(120, 400), overhang=st.floats(0, 160))
def test_no_trailer_swings_farther_than_one_that_turns_about_its_axles(
    behind: float, length: float, overhang: float
) -> None:
    """Geometry: the wheels of a trailer only ever move inward, beyond what the coupling swings out."""
    about_its_axles = hypot(overhang, 48) - 48

    assert 0 <= swing(behind, length, overhang) <= about_its_axles + max(behind, 0) + 0.01


@given(length=st.floats(120, 400), overhang=st.floats(10, 150))
def test_more_overhang_swings_farther(length: float, overhang: float) -> None:
    assert swing(0, length, overhang + 10) > swing(0, length, overhang)


def test_a_coupling_behind_the_axle_swings_the_trailer_farther_than_one_over_it() -> None:
    assert swing(66, 222, 99) > swing(-2, 222, 99) + 5


def test_a_trailer_without_overhang_behind_a_coupling_over_the_axle_does_not_swing() -> None:
    assert swing(0, 300, 0) == pytest.approx(0, abs=1e-6)


def test_axles_ahead_of_the_coupling_are_refused() -> None:
    with pytest.raises(ValueError, match="behind its coupling"):
        swing(0, -5, 100)
