"""Units as they are printed in the guide to the SI, and distances on a sphere against a second library."""

import math

import ephem
import pytest

from binder.calculations.route.distances import great_circle
from binder.quantities import registry
from tests.published.kinds import check


@check("NIST SP 811", "published")
@pytest.mark.parametrize(
    ("unit", "si", "factor", "digits"),
    [
        ("pound", "kilogram", 0.45359237, 0),
        ("inch", "meter", 0.0254, 0),
        ("mile", "meter", 1609.344, 0),
        ("mile_per_hour", "meter / second", 0.44704, 0),
        ("psi", "pascal", 6894.757, 5e-4),
        ("bar", "pascal", 1e5, 0),
        ("gallon", "meter ** 3", 3.785412e-3, 5e-10),
        ("foot * pound_force", "newton * meter", 1.355818, 5e-7),
        ("inch * pound_force", "newton * meter", 0.1129848, 5e-8),
        ("horsepower", "watt", 745.6999, 5e-5),
        ("btu", "joule", 1055.056, 5e-4),
        ("delta_degree_Fahrenheit", "kelvin", 5 / 9, 0),
    ],
)
def test_a_unit_is_what_the_guide_says(unit: str, si: str, factor: float, digits: float) -> None:
    """Appendix B.8, to half the last digit where it is not exact; 550 ft lbf/s make a horsepower."""
    found = float(registry.Quantity(1.0, unit).to(si).m)

    assert found == pytest.approx(factor, rel=1e-12, abs=digits)


@check("LIB-EPHEM", "library")
def test_distance_on_a_sphere_is_the_second_library_s() -> None:
    """The angle between two places, by another formula; a minute of it is a nautical mile."""
    for start, end in (((44.216, -114.93), (43.68, -114.36)), ((52.87, -118.08), (-33.9, 151.2))):
        radians = [tuple(map(math.radians, reversed(place))) for place in (start, end)]
        minutes = math.degrees(float(ephem.separation(*radians))) * 60

        assert float(great_circle(start, end).to("meter").m) == pytest.approx(minutes * 1852, rel=1e-6)
