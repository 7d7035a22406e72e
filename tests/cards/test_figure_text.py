"""Values as text: unit by what is measured, rounding toward safety."""

import pytest

from binder.assessment.figures import Figure
from binder.cards.display import Display
from binder.cards.figure_text import value_text
from binder.quantities import registry


def text(key: str, magnitude: float, unit: str, system: str = "us") -> str:
    value = registry.Quantity(magnitude, unit)
    shown = Display("metric" if system == "metric" else "us")
    return value_text(Figure(key, value, "calculated", "", ""), shown)


@pytest.mark.parametrize(
    ("key", "magnitude", "unit", "expected"),
    [
        ("weights.a.b.departure.load", 11047.2, "pound", "11,048 lb"),
        ("weights.a.b.departure.margin", 952.9, "pound", "952 lb"),
        ("weights.a.b.departure.margin", -0.2, "pound", "-1 lb"),
        ("tires.a.b.set_point", 104.1, "psi", "105 psi"),
        ("tires.a.b.cap", 110.9, "psi", "110 psi"),
        ("tires.a.b.load_used", 96.1, "percent", "97 %"),
        ("tires.a.b.c.tread", 0.41, "inch", "13/32 in"),
        ("tires.a.b.c.age", 1160, "day", "3.2 years"),
        ("rig.following_gap_from_40", 5.8, "second", "6 s"),
        ("route.day_1.daylight_left", 444, "minute", "7 h 20 min"),
        ("route.day_1.driving_time", 181, "minute", "3 h 05 min"),
        ("rig.warning_devices.divided.behind.distance", 100, "foot", "100 ft"),
        ("route.lowest_clearance_margin", 18.7, "inch", "1 ft 6 in"),
        ("route.lowest_clearance_margin", -3.2, "inch", "-4 in"),
        ("route.coldest_night", 23.9, "degree_Fahrenheit", "23 °F"),
    ],
)
def test_a_value_is_rounded_toward_safety(key: str, magnitude: float, unit: str, expected: str) -> None:
    assert text(key, magnitude, unit) == expected


def test_metric_rigs_read_metric_units() -> None:
    # 105 psi is 723.9 kPa (6.894757 kPa a psi, NIST Handbook 44, appendix C): up to the next 5.
    assert text("tires.a.b.set_point", 105, "psi", "metric") == "725 kPa"
    assert text("tires.a.b.c.tread", 10.09, "millimeter", "metric") == "10.0 mm"


@pytest.mark.parametrize("value", [None])
def test_what_is_not_known_is_a_blank(value: None) -> None:
    assert value_text(Figure("a.b", value, "assumed", "", ""), Display("us")) == "______"


def test_a_fluid_is_never_said_to_hold_colder_than_it_does() -> None:
    limit = Figure("fluids.a.b.protects_to", registry.Quantity(-34.6, "degree_Fahrenheit"), "table", "", "")

    assert value_text(limit, Display("us")) == "-34 °F"


def test_what_service_counts_is_told_as_meters_and_calendars_do() -> None:
    days = Figure("service.a.days_left", registry.Quantity(116.0, "day"), "calculated", "", "")
    hours = Figure("service.a.due_at_hours", registry.Quantity(561.9, "hour"), "calculated", "", "")
    meter = Figure("service.meters.a.engine", registry.Quantity(1101.2, "hour"), "measured", "", "")

    assert [value_text(one, Display("us")) for one in (days, hours, meter)] == [
        "116 days",
        "561 h",
        "1,102 h",
    ]
