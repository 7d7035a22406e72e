"""The record and the explanation speak in the rig's own units throughout."""

import json
from datetime import date

import pytest

from binder.assessment.assess import Assessment, assess
from binder.models.load import load_profile
from binder.quantities import registry
from binder.wording.measures import Style, System
from binder.wording.numbers import recorded
from binder.wording.record import assessment_record, explanation
from tests.demos import PROFILES

US = {"lb", "psi", "in", "ft", "mi", "gal", "degF", "delta_degF", "mph", "ft*lb"}
METRIC = {"kg", "kPa", "m", "mm", "km", "L", "degC", "delta_degC", "km/h", "N*m"}


def demo(name: str) -> Assessment:
    return assess(load_profile(PROFILES / name), date(2026, 6, 1))


@pytest.mark.parametrize(
    ("name", "foreign"), [("tamarack", US), ("larkspur", METRIC), ("sandpiper", METRIC), ("kestrel", METRIC)]
)
def test_no_figure_is_recorded_in_the_other_system(name: str, foreign: set[str]) -> None:
    record = json.loads(json.dumps(assessment_record(demo(name))))
    used = {figure["unit"] for figure in record["figures"].values()}

    assert used & (US | METRIC)
    assert not used & foreign


@pytest.mark.parametrize(
    ("value", "unit", "measure", "units", "expected"),
    [
        # NIST SP 811: a pound is 0.45359237 kg, an inch 25.4 mm, a gallon 3.785411784 L.
        (100.0, "pound", "weight", "metric", (45.359237, "kg")),
        (152.0, "inch", "length", "metric", (3.8608, "m")),
        (10.0, "gallon", "volume", "metric", (37.85411784, "L")),
        (41.0, "degree_Fahrenheit", "temperature", "metric", (5.0, "degC")),
        (9.0, "delta_degree_Fahrenheit", "temperature", "metric", (5.0, "degC")),
        (10.0, "millimeter", "tread", "us", (0.3937007874, "in")),
        (2.0, "hour", "duration", "metric", (2.0, "h")),
    ],
)
def test_a_value_is_converted_by_what_it_measures(
    value: float, unit: str, measure: str, units: System, expected: tuple[float, str]
) -> None:
    number, word = recorded(registry.Quantity(value, unit), measure, Style(units))

    assert number == pytest.approx(expected[0])
    assert word == expected[1]


def test_a_metric_height_is_explained_to_the_centimeter() -> None:
    assert explanation(demo("tamarack"), "rig.overall_height").splitlines()[0] == (
        "rig.overall_height = 3.95 m (measured)"
    )
