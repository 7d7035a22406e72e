"""Densities against the library, and fuels against figures that nine public programs agree on."""

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st

from binder.calculations.densities import Liquid, contents_weight, fuel_density, liquid_density
from binder.quantities import Quantity, registry
from binder.reference.constants import DIESEL_DENSITY, PROPANE_DENSITY, WATER_DENSITY
from tests.published.kinds import check

q = registry.Quantity


def library(liquid: Liquid, fahrenheit: float) -> float:
    kelvin = float(q(fahrenheit, "degF").to("kelvin").m)
    if liquid == "propane liquid":
        return float(PropsSI("D", "T", kelvin, "Q", 0, "n-Propane"))
    names = {
        "water": "Water",
        "ethylene glycol 50 % by volume": "INCOMP::AEG[0.5]",
        "propylene glycol 50 % by volume": "INCOMP::APG[0.5]",
    }
    return float(PropsSI("D", "T", kelvin, "P", 101_325, names[liquid]))


def metric(density: Quantity | None) -> float:
    assert density is not None
    return float(density.to("kilogram / meter ** 3").m)


@given(
    st.sampled_from(["water", "ethylene glycol 50 % by volume", "propylene glycol 50 % by volume"]),
    st.floats(33, 176),
)
@check("LIB-COOLPROP", "library")
def test_liquids_lie_within_a_thousandth_of_the_library(liquid: Liquid, degrees: float) -> None:
    """LIB-COOLPROP, between the rows too."""
    found = metric(liquid_density(liquid, q(degrees, "degF")))

    assert found == pytest.approx(library(liquid, degrees), rel=1e-3)


@given(st.floats(-20, 130))
@check("LIB-COOLPROP", "library")
def test_liquid_propane_lies_within_two_thousandths_of_the_library(degrees: float) -> None:
    found = metric(liquid_density("propane liquid", q(degrees, "degF")))

    assert found == pytest.approx(library("propane liquid", degrees), rel=2e-3)


@pytest.mark.parametrize(("liquid", "degrees"), [("water", 32), ("water", 181), ("propane liquid", -21)])
def test_outside_the_table_there_is_none(liquid: Liquid, degrees: float) -> None:
    assert liquid_density(liquid, q(degrees, "degF")) is None


@pytest.mark.parametrize(
    ("at_15", "celsius", "expected"),
    [
        (745, -20, 776.19),
        (745, 0, 758.48),
        (745, 15, 745),
        (745, 40, 722.21),
        (835, -20, 859.68),
        (835, 30, 824.28),
        (845, -20, 869.53),
        (845, 0, 855.57),
        (845, 40, 827.21),
    ],
)
@check("S-D1250", "published")
def test_fuel_expands_as_public_programs_have_it(at_15: float, celsius: float, expected: float) -> None:
    """S-D1250: gasoline, light and usual diesel."""
    found = metric(fuel_density(q(at_15, "kilogram / meter ** 3"), q(celsius, "degC")))

    assert found == pytest.approx(expected, abs=0.005)


@given(st.sampled_from([700, 745, 800, 835, 845, 860]), st.floats(-20, 40), st.floats(-20, 40))
def test_warmer_fuel_is_never_heavier(at_15: float, one: float, other: float) -> None:
    cold, warm = (
        fuel_density(q(at_15, "kilogram / meter ** 3"), q(value, "degC")) for value in sorted((one, other))
    )

    assert metric(cold) >= metric(warm)


@pytest.mark.parametrize(("at_15", "celsius"), [(780, 15), (640, 15), (845, 41), (845, -21)])
def test_between_products_and_outside_temperatures_there_is_none(at_15: float, celsius: float) -> None:
    assert fuel_density(q(at_15, "kilogram / meter ** 3"), q(celsius, "degC")) is None


@check("S-AP42A; S-COMAR; S-MIDWEST", "published")
def test_the_fixed_densities_stand_near_the_tables() -> None:
    """S-AP42A, S-COMAR and S-MIDWEST against the tables at 60 F and 845 kg/m3."""
    water, propane = (liquid_density(name, q(60, "degF")) for name in ("water", "propane liquid"))
    diesel = fuel_density(q(845, "kilogram / meter ** 3"), q(60, "degF"))

    for found, fixed in ((water, WATER_DENSITY), (propane, PROPANE_DENSITY), (diesel, DIESEL_DENSITY)):
        assert metric(found) == pytest.approx(metric(fixed.quantity), rel=0.005)


def test_weight_is_volume_times_density() -> None:
    assert float(contents_weight(q(90, "gallon"), q(8.33, "lb / gal")).to("lb").m) == pytest.approx(749.7)
