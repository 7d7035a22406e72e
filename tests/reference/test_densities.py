"""The densities weights are made with, against the library."""

import pytest
from CoolProp.CoolProp import PropsSI

from binder.quantities import registry
from binder.reference.constants import PROPANE_DENSITY, WATER_DENSITY, Constant
from tests.published.kinds import check

q = registry.Quantity


@pytest.mark.parametrize(
    ("constant", "given", "value", "fluid"),
    [(WATER_DENSITY, "P", 101_325, "Water"), (PROPANE_DENSITY, "Q", 0, "n-Propane")],
)
@check("LIB-COOLPROP; S-AP42A; S-COMAR", "library")
def test_a_fixed_density_stands_near_the_library(
    constant: Constant, given: str, value: float, fluid: str
) -> None:
    """At 60 °F: water under one atmosphere, propane as liquid under its own vapor."""
    density = PropsSI("D", "T", float(q(60, "degF").to("kelvin").m), given, value, fluid)

    assert float(constant.quantity.to("kg / meter ** 3").m) == pytest.approx(density, rel=0.005)
