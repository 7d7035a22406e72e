import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st

from binder.calculations.propane import (
    LEAST_HEATING_VALUE,
    MOST_HEATING_VALUE,
    Burner,
    HeatingValue,
    propane_in_cylinder,
    propane_lasts,
    propane_use,
    propane_vapor_pressure,
    propane_when_full,
    vapor_a_cylinder_gives,
)
from binder.quantities import Quantity, registry
from tests.published.kinds import check

q = registry.Quantity
FURNACE = Burner(q(30_000, "btu / hour"), q(50, "percent"))


def heat(pounds: float, degrees: float) -> float | None:
    rate = vapor_a_cylinder_gives(q(pounds, "pound"), q(degrees, "degF"))
    return None if rate is None else round(float(rate.to("btu / hour").m))


def test_the_demo_tank_holds_80_percent() -> None:
    assert float(propane_when_full(q(30, "gallon")).to("gallon").m) == pytest.approx(24)


@check("S-ENGFIX", "published")
def test_a_collar_of_47_6_lb_means_a_20_lb_cylinder() -> None:
    """S-ENGFIX: 47.6 lb of water, 42 %, 20 lb."""
    assert float(propane_in_cylinder(q(47.6, "pound")).to("pound").m) == pytest.approx(20, abs=0.05)


@check("S-KINETIC; S-FLAME", "published")
def test_a_20_lb_cylinder_burns_430270_btu() -> None:
    """S-KINETIC: 430,270 BTU in 20 lb, S-FLAME: 4.23 lb/gal, 91,690 BTU/gal; within a percent."""
    content = propane_in_cylinder(q(47.6, "pound")) / q(4.23, "pound / gallon")

    assert float((content * MOST_HEATING_VALUE.heat_per_volume).to("btu").m) == pytest.approx(
        430_270, rel=0.01
    )


def test_the_lower_heat_gives_the_fewer_hours() -> None:
    hours = [
        propane_lasts(q(24, "gallon"), propane_use([FURNACE], value))
        for value in (LEAST_HEATING_VALUE, MOST_HEATING_VALUE)
    ]

    assert hours[0] is not None
    assert hours[1] is not None
    assert float(hours[0].to("hour").m) == pytest.approx(24 * 91_333 / 15_000)
    assert hours[0] < hours[1]


def test_gross_and_net_are_never_mixed() -> None:
    net = HeatingValue(q(84_250, "btu / gallon"), "net")

    with pytest.raises(ValueError, match="gross cannot be used with a net"):
        propane_use([FURNACE], net)
    assert propane_use([Burner(FURNACE.rating, FURNACE.running, "net")], net).magnitude > 0


def test_nothing_burning_does_not_end() -> None:
    assert propane_lasts(q(24, "gallon"), propane_use([])) is None
    with pytest.raises(ValueError, match="below zero"):
        propane_lasts(q(24, "gallon"), q(-1, "gallon / day"))


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
