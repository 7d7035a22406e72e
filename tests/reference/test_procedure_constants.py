"""Fixed numbers of procedures against their publications, and the metric text against the US one."""

import re
from fractions import Fraction

import pytest

from binder.reference.constants import PROCEDURE_CONSTANTS
from binder.reference.sources import source_ids
from tests.published.kinds import check

FACTOR = {
    "psi": 6.894757,
    "mph": 1.609344,
    "miles": 1.609344,
    "°F": 5 / 9,
    "in": 2.54,
    "ft": 0.3048,
    "lb": 0.45359237,
    "lb/gal": 0.1198264,
}
"""Units of NIST Special Publication 811, appendix B.8: kPa, km/h, km, °C of a difference, cm, m, kg, kg/L."""

AS_THE_LAW_PRINTS = {"10 ft": "3 m", "100 ft": "30 m", "200 ft": "60 m", "500 ft": "150 m"}
"""49 CFR 392.22(b) gives both systems side by side: no rounding of ours."""

DIRECTION = {"up": (0, 1), "down": (-1, 0), "nearest": (-0.5, 0.5)}


def numbers(text: str) -> list[float]:
    return [float(Fraction(number)) for number in re.findall(r"\d+(?:[./]\d+)?", text)]


@pytest.mark.parametrize(
    ("name", "text"),
    [
        # Commercial driver's manual, air brakes, read in reprint.
        ("air to move", "100 psi"),
        ("air build", "85 to 100 psi"),
        ("air build time", "45 s"),
        ("air loss, released", "2 psi"),
        ("air loss, foot on", "3 psi"),
        ("air warning", "60 psi"),
        ("knobs pop", "20 to 45 psi"),
        ("service brake speed", "5 mph"),
        # 49 CFR 392.22(b)(1), (b)(2)(iv), (b)(2)(v).
        ("device near", "10 ft"),
        ("device far", "100 ft"),
        ("device farthest", "200 ft"),
        ("device out of sight", "500 ft"),
        # 49 CFR 393.43(d).
        ("breakaway holds", "15 min"),
    ],
)
@check("W39; 49 CFR 392.22; 49 CFR 393.43", "published")
def test_published_numbers(name: str, text: str) -> None:
    assert PROCEDURE_CONSTANTS[name].us.text == text


@pytest.mark.parametrize(
    "name",
    [
        name
        for name, each in PROCEDURE_CONSTANTS.items()
        if each.us.unit in FACTOR and not name.startswith("device ")
    ],
)
def test_the_metric_text_is_rounded_as_it_says(name: str) -> None:
    constant = PROCEDURE_CONSTANTS[name]
    word = constant.rounding.split()[0]
    step = numbers(constant.rounding)[0]
    factor = FACTOR[constant.us.unit] * (10 if constant.metric.unit == "mm" else 1)
    zero = 32 if name in POINTS_OF_A_SCALE else 0
    exact = [(number - zero) * factor for number in numbers(constant.us.value)]
    ways = {"outward": ["down", "up"], "inward": ["up", "down"]}.get(word, [word] * len(exact))

    sign = -1 if constant.metric.value.startswith("-") else 1
    shown = [sign * number for number in numbers(constant.metric.value)]

    assert len(shown) == len(exact) == len(ways)
    for value, true, way in zip(shown, exact, ways, strict=True):
        low, high = DIRECTION[way]
        assert low * step - 1e-6 <= value - true <= high * step + 1e-6
        assert abs(value / step - round(value / step)) < 1e-6


POINTS_OF_A_SCALE = {"exhaust fluid freezes"}
"""Temperatures themselves; every other one here is a difference, which has no zero to shift by."""


@pytest.mark.parametrize("name", ["near", "far", "farthest", "out of sight"])
def test_the_metric_distance_of_a_device_is_the_laws_own(name: str) -> None:
    constant = PROCEDURE_CONSTANTS[f"device {name}"]

    assert constant.metric.text == AS_THE_LAW_PRINTS[constant.us.text]


US_UNITS = re.compile(r"\d (?:lb|psi|ft|in|miles|mph|gal|°F)\b")


def test_no_metric_text_or_reason_names_us_units() -> None:
    for name, constant in PROCEDURE_CONSTANTS.items():
        said = f"{constant.metric.text} {constant.metric_reason or constant.reason}"
        assert not US_UNITS.search(said), name


@pytest.mark.parametrize(
    ("steps", "distance"),
    [("steps near", 10), ("steps far", 100), ("steps farthest", 200), ("steps out of sight", 500)],
)
def test_steps_cover_their_distance(steps: str, distance: int) -> None:
    """A step of 2 ft 6 in: practice."""
    assert numbers(PROCEDURE_CONSTANTS[steps].us.value) == [distance / 2.5]


def test_each_number_says_why_and_whence() -> None:
    for name, constant in PROCEDURE_CONSTANTS.items():
        assert constant.name == name
        assert constant.reason
        assert source_ids(constant.source)
        same = constant.us == constant.metric
        assert same == (constant.rounding == "the same in both systems"), name
