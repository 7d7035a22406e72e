"""The other system beside a value: conversions by NIST SP 811, rounded toward safety."""

import pytest

from binder.quantities import registry
from binder.wording.measures import FILL, SIZE, Style
from binder.wording.numbers import beside, both_as_written, both_lengths


@pytest.mark.parametrize(
    ("value", "unit", "text"),
    [
        # NIST SP 811: a pound is 0.45359237 kg, a psi 6.894757 kPa, a gallon 3.785412 L, a mile 1.609344 km,
        # a pound-force foot 1.355818 N m.
        (26000, "pound", "26,000 lb (11,793 kg)"),
        (7000, "kilogram", "7,000 kg (15,432 lb)"),
        (110, "psi", "110 psi (758 kPa)"),
        (550, "kilopascal", "550 kPa (79 psi)"),
        (190, "newton * meter", "190 N·m (140 ft·lb)"),
        (475, "foot * pound_force", "475 ft·lb (644 N·m)"),
        (300, "liter", "300 L (79.2 gal)"),
        (7.5, "quart", "7.5 qt (7.0 L)"),
        (65, "mile_per_hour", "65 mph (104 km/h)"),
        (7, "year", "7 years"),
    ],
)
def test_a_limit_is_written_in_both_systems(value: float, unit: str, text: str) -> None:
    assert both_as_written(registry.Quantity(value, unit)) == text


def test_what_is_not_known_is_one_blank_and_nothing_beside_it() -> None:
    assert both_as_written(None) == "______"
    assert beside(None, FILL, Style("us")) == ""
    assert beside(None, SIZE, Style("us")) == ""
    assert both_lengths(None, "______ m", Style("metric")) == "______ m"


def test_a_needed_pressure_and_a_height_round_up_beside_too() -> None:
    assert beside(registry.Quantity(450, "kilopascal"), FILL, Style("metric")) == "66 psi"
    assert beside(registry.Quantity(3.95, "meter"), SIZE, Style("metric")) == "13 ft 0 in"
