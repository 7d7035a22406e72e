import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.calculations.bounds import Band
from binder.calculations.supplies.fuel import (
    distance_on_exhaust_fluid,
    exhaust_fluid_use_band,
    exhaust_fluid_used,
    fuel_range,
    shelf_life,
)
from binder.quantities import registry
from tests.published.kinds import check

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


amounts = st.floats(0.01, 500)


@pytest.mark.parametrize(
    ("degrees", "months"),
    [
        (-20, 36),
        (50, 36),
        (50.1, 18),
        (76.9, 18),
        (77, 12),
        (86, 12),
        (86.1, 6),
        (95, 6),
        (95.1, 2),
        (103.9, 2),
        (104, None),
        (120, None),
    ],
)
@check("S-FORD", "published")
def test_shelf_life_is_that_of_its_row(degrees: float, months: int | None) -> None:
    """S-FORD: up to 50, 86 and 95 F the rows hold on their edge; that of 77 and 104 F only below it."""
    life = shelf_life(q(degrees, "degF"))

    assert (None if life is None else float(life.time.to("month").m)) == months


@pytest.mark.parametrize(("celsius", "months"), [(10, 36), (25, 12), (30, 12), (35, 6)])
@check("S-FORD", "published")
def test_an_edge_written_in_celsius_is_the_same_edge(celsius: float, months: int) -> None:
    life = shelf_life(q(celsius, "degC"))

    assert life is not None
    assert float(life.time.to("month").m) == months


@given(st.floats(-40, 110), st.floats(-40, 110))
def test_warmer_storage_never_keeps_longer(one: float, other: float) -> None:
    cool, warm = (shelf_life(q(value, "degF")) for value in sorted((one, other)))

    assert warm is None or (cool is not None and cool.time >= warm.time)


@given(amounts, st.floats(1, 5))
def test_a_jug_is_worth_the_distance_that_uses_it(gallons: float, percent: float) -> None:
    share = q(percent, "percent")
    worth = distance_on_exhaust_fluid(q(gallons, "gallon"), EIGHT, share)

    assert float(exhaust_fluid_used(worth, EIGHT, share).to("gallon").m) == pytest.approx(gallons)


def test_both_ends_of_the_dosing_are_shown() -> None:
    """S-FOSTER: 2 to 3 % of the fuel."""
    used = exhaust_fluid_use_band(q(1000, "mile"), EIGHT)

    assert [float(end.to("gallon").m) for end in (used.least, used.most)] == pytest.approx([2.5, 3.75])


def test_no_dosing_is_refused() -> None:
    with pytest.raises(ValueError, match="more than zero"):
        distance_on_exhaust_fluid(q(1, "gallon"), EIGHT, q(0, "percent"))
    with pytest.raises(ValueError, match="upside down"):
        Band(q(3, "percent"), q(2, "percent"))
