import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.calculations.fuel_range import fuel_range
from binder.quantities import registry

q = registry.Quantity
EIGHT = 1 / q(8, "mile / gallon")


def test_the_demo_tank_reaches_552_miles_to_its_reserve() -> None:
    """94 gal usable less 25 gal of reserve at 8 mpg, by hand."""
    found = fuel_range(q(94, "gallon"), q(25, "gallon"), EIGHT)

    assert float(found.to_reserve.to("mile").m) == pytest.approx(552)
    assert float(found.to_empty.to("mile").m) == pytest.approx(752)


def test_use_in_liters_is_the_same_use() -> None:
    found = fuel_range(q(136, "liter"), q(34, "liter"), q(17.5, "liter") / q(100, "kilometer"))

    assert float(found.to_reserve.to("kilometer").m) == pytest.approx(102 / 0.175)


def test_a_level_under_the_reserve_is_told_by_its_sign() -> None:
    found = fuel_range(q(20, "gallon"), q(25, "gallon"), EIGHT)

    assert float(found.to_reserve.to("mile").m) == pytest.approx(-40)
    assert float(found.to_empty.to("mile").m) == pytest.approx(160)


@given(st.floats(0, 200), st.floats(0, 50))
def test_the_distance_to_empty_uses_what_is_held(held: float, reserve: float) -> None:
    found = fuel_range(q(held, "gallon"), q(reserve, "gallon"), EIGHT)

    assert found.to_reserve <= found.to_empty
    assert float((found.to_empty * EIGHT).to("gallon").m) == pytest.approx(held)
