import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st

from binder.calculations.supplies.propane import (
    PropaneAtLow,
    propane_use_at,
    propane_vapor_pressure,
    vapor_a_cylinder_gives,
)
from binder.quantities import Quantity, registry
from tests.published.kinds import check

Q = registry.Quantity
MILD = PropaneAtLow(Q(50, "degF"), Q(0.9, "gal/day"))
COLD = PropaneAtLow(Q(20, "degF"), Q(3.5, "gal/day"))
ALWAYS = PropaneAtLow(None, Q(1.0, "gal/day"))


@pytest.mark.parametrize(
    ("low", "use"), [(70, 0.9), (50, 0.9), (35, 2.2), (24, 3.5 - 4 / 30 * 2.6), (20, 3.5), (19, None)]
)
def test_use_is_straight_between_the_owners_lows_and_not_beyond(low: float, use: float | None) -> None:
    found = propane_use_at([COLD, MILD], Q(low, "degF"))

    assert (found if found is None else found.to("gal/day").m) == (use if use is None else pytest.approx(use))


def test_one_figure_holds_whatever_the_low() -> None:
    assert propane_use_at([ALWAYS], Q(-10, "degF")) == ALWAYS.use
    assert propane_use_at([ALWAYS], None) == ALWAYS.use


def test_without_a_low_figures_by_low_say_nothing() -> None:
    assert propane_use_at([MILD, COLD], None) is None


q = registry.Quantity


def heat(pounds: float, degrees: float) -> float | None:
    rate = vapor_a_cylinder_gives(q(pounds, "pound"), q(degrees, "degF"))
    return None if rate is None else round(float(rate.to("btu / hour").m))


@pytest.mark.parametrize(
    ("pounds", "degrees", "expected"),
    [
        (100, 0, 113_000),
        (100, 70, 300_000),
        (50, 20, 94_000),
        (10, 0, 28_000),
        (10, 60, 60_000),
        (59.9, 39.9, 94_000),
        (100, 95, 300_000),
        (9.9, 40, None),
        (50, -0.1, None),
        (101, 40, None),
    ],
)
@check("S-FLAME", "published")
def test_vapor_is_that_of_the_next_lower_row_and_column(
    pounds: float, degrees: float, expected: int | None
) -> None:
    """S-FLAME: vaporization of a 100-lb cylinder."""
    assert heat(pounds, degrees) == expected


@given(st.floats(10, 100), st.floats(10, 100), st.floats(0, 90), st.floats(0, 90))
def test_less_propane_and_more_cold_never_give_more(a: float, b: float, c: float, d: float) -> None:
    low, high = heat(min(a, b), min(c, d)), heat(max(a, b), max(c, d))

    assert low is not None
    assert high is not None
    assert low <= high


@pytest.mark.parametrize(("degrees", "psi"), [(-30, 6.8), (0, 24.5), (20, 42), (70, 110), (110, 204)])
@check("S-FLAME; LIB-COOLPROP", "published")
def test_vapor_pressure_is_the_published_row(degrees: float, psi: float) -> None:
    """S-FLAME; commercial propane, so beside pure propane (LIB-COOLPROP) within 7 %, or 1.2 psi."""
    band = propane_vapor_pressure(q(degrees, "degF"))
    pure = (
        PropsSI("P", "T", float(q(degrees, "degF").to("kelvin").m), "Q", 0, "n-Propane") - 101_325
    ) / 6894.757

    assert band is not None
    assert psi_of(band.least) == psi_of(band.most) == pytest.approx(psi)
    assert pure == pytest.approx(psi, rel=0.07, abs=1.2)


def psi_of(pressure: Quantity) -> float:
    return float(pressure.to("psi").m)


def test_vapor_pressure_outside_the_table_is_not_said() -> None:
    assert propane_vapor_pressure(q(-31, "degF")) is None
    assert propane_vapor_pressure(q(111, "degF")) is None
