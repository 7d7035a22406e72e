"""Quantities as they are printed: the steps of makers' tables, and rounding toward safety below zero too."""

import pytest

from binder.quantities import registry
from binder.wording.measures import (
    LOW,
    MEASURES,
    TREAD,
    Rounding,
    Style,
    System,
    duration_text,
    length_text,
    number_text,
)
from binder.wording.numbers import BLANK
from binder.wording.words import Words


@pytest.mark.parametrize("measure", sorted(MEASURES))
@pytest.mark.parametrize("system", ["us", "metric"])
def test_every_measure_can_be_printed_and_asked_for(measure: str, system: System) -> None:
    printed = MEASURES[measure][system]
    words, word = Words(Style(system)), printed.word.strip()

    text = words.text(registry.Quantity(8.0, printed.unit), f"{measure} up")
    blank = words.text(None, f"{measure} up")

    assert text.removesuffix(word).strip() in {"8", "8.0", "10"}
    assert blank.startswith(BLANK)
    assert blank.endswith(word)


@pytest.mark.parametrize(
    ("millimeters", "us"), [(10.0, "12/32 in"), (9.525, "12/32 in"), (9.5, "11/32 in"), (1.5875, "2/32 in")]
)
def test_tread_rounds_down(millimeters: float, us: str) -> None:
    """1/32 in is 0.79375 mm (NIST Handbook 44: an inch is 25.4 mm): 10 mm are 12.6 of them."""
    tread = registry.Quantity(millimeters, "millimeter")

    assert Words(Style("us")).text(tread, TREAD) == us
    assert Words(Style("metric")).text(tread, TREAD).endswith(" mm")


@pytest.mark.parametrize(
    ("inches", "rounding", "us", "metric"),
    [
        (-14.5, "up", "-1 ft 2 in", "-0.36 m"),
        (-14.5, "down", "-1 ft 3 in", "-0.37 m"),
        (-3.0, "down", "-3 in", "-0.08 m"),
        (14.5, "down", "1 ft 2 in", "0.36 m"),
        (-0.2, "up", "0 in", "0.00 m"),
    ],
)
def test_a_length_below_zero_keeps_its_sign_before_both_parts(
    inches: float, rounding: Rounding, us: str, metric: str
) -> None:
    length = registry.Quantity(inches, "inch")

    assert (length_text(length, Style("us"), rounding), length_text(length, Style("metric"), rounding)) == (
        us,
        metric,
    )
    assert Words(Style("us")).text(length, f"length {rounding}") == us


@pytest.mark.parametrize(
    ("minutes", "rounding", "text"),
    [
        (61, "up", "1 h 01 min"),
        (60.2, "up", "1 h 01 min"),
        (64.8, "down", "1 h 04 min"),
        (60.8, "down", "1 h"),
        (-60.2, "down", "-1 h 01 min"),
        (-60.8, "up", "-1 h"),
        (0.8, "down", "0 min"),
    ],
)
def test_a_duration_rounds_the_way_it_is_asked_to(minutes: float, rounding: Rounding, text: str) -> None:
    duration = registry.Quantity(minutes, "minute")

    assert duration_text(duration, rounding) == text
    assert Words(Style("us")).text(duration, f"duration {rounding}") == text


def test_kilopascals_go_by_fives_toward_safety() -> None:
    """95 psi are 655.0 kPa, 105 psi 723.9 kPa (a psi is 6.894757 kPa)."""
    pressure = MEASURES["pressure"]["metric"]

    assert number_text(registry.Quantity(105, "psi"), pressure, "up") == "725"
    assert number_text(registry.Quantity(105, "psi"), pressure, "down") == "720"


def test_a_difference_of_temperatures_has_no_zero_to_shift() -> None:
    """9 F of difference are 5 C; the temperature 9 F is -12.8 C."""
    difference, temperature = registry.Quantity(9, "delta_degree_Fahrenheit"), registry.Quantity(9, "degF")

    assert Words(Style("metric")).text(difference, LOW) == "5 °C"
    assert Words(Style("metric")).text(temperature, LOW) == "-13 °C"
    assert Words(Style("us")).text(difference, LOW) == "9 °F"
