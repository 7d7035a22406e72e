"""What was written comes back as it was written, whatever unit of the closed table it was in."""

import pytest

from binder.quantities import (
    LENGTH,
    MASS,
    POWER,
    PRESSURE,
    SPEED,
    TIME,
    TORQUE,
    VOLUME,
    Dimension,
    read_quantity,
)
from binder.wording.numbers import as_written


@pytest.mark.parametrize(
    ("text", "dimension"),
    [
        ("125.25 in", LENGTH),
        ("12 ft", LENGTH),
        ("340 mm", LENGTH),
        ("34 cm", LENGTH),
        ("11.68 m", LENGTH),
        ("2,007.5 lb", MASS),
        ("1,180 kg", MASS),
        ("3.5 t", MASS),
        ("110 psi", PRESSURE),
        ("7.6 bar", PRESSURE),
        ("760 kPa", PRESSURE),
        ("3.5 qt", VOLUME),
        ("2 pt", VOLUME),
        ("8 fl oz", VOLUME),
        ("11.25 gal", VOLUME),
        ("26 L", VOLUME),
        ("75 mph", SPEED),
        ("120 km/h", SPEED),
        ("380 hp", POWER),
        ("150 kW", POWER),
        ("900 W", POWER),
        ("7 years", TIME),
        ("84 months", TIME),
    ],
)
def test_a_quantity_comes_back_as_it_was_written(text: str, dimension: Dimension) -> None:
    assert as_written(read_quantity(text, dimension)) == text


@pytest.mark.parametrize(
    ("text", "printed"),
    [("475 ft*lb", "475 ft·lb"), ("90 in*lb", "90 in·lb"), ("650 N*m", "650 N·m")],
)
def test_a_torque_is_printed_with_a_raised_dot(text: str, printed: str) -> None:
    assert as_written(read_quantity(text, TORQUE)) == printed


def test_what_is_not_known_is_a_blank() -> None:
    assert as_written(None) == "______"
