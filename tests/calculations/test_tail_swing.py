from math import atan2, cos, hypot, pi, tan

import pytest

from binder.calculations.tail_swing import TurningBody, tail_swing, turning_radius_of_rear_axle
from binder.quantities import registry

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
