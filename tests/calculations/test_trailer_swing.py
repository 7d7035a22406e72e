from math import hypot, pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.calculations.trailer_swing import TowingBody, TrailerBody, trailer_tail_swing
from binder.quantities import Quantity, registry


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
