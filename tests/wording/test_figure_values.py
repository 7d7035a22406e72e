"""Values of figures as text: each kind says how it is measured, and is rounded toward safety."""

import pytest

from binder.assessment.body.kinds import DEVICE_DISTANCE, GAP_FROM_40
from binder.assessment.fluids.kinds import PROTECTS_TO
from binder.assessment.ledger import Figure, FigureKind
from binder.assessment.road.kinds import MARGIN_OF_TRIP
from binder.assessment.route.kinds import COLDEST_NIGHT, DAYLIGHT_LEFT, DRIVING
from binder.assessment.service.kinds import DAYS_LEFT, DUE_AT_HOURS, HOUR_METER
from binder.assessment.tires.kinds import CAP, LOAD_USED, SET_POINT
from binder.assessment.tires.register_kinds import AGE, TREAD
from binder.assessment.weights.kinds import AXLE
from binder.quantities import registry
from binder.wording.measures import Style, System
from binder.wording.words import Words


def text(kind: FigureKind, magnitude: float, unit: str, system: System = "us") -> str:
    return Words(Style(system)).value(Figure(kind.of(), registry.Quantity(magnitude, unit)))


@pytest.mark.parametrize(
    ("kind", "magnitude", "unit", "expected"),
    [
        (AXLE.load, 11047.2, "pound", "11,048 lb"),
        (AXLE.margin, 952.9, "pound", "952 lb"),
        (AXLE.margin, -0.2, "pound", "-1 lb"),
        (SET_POINT, 104.1, "psi", "105 psi"),
        (CAP, 110.9, "psi", "110 psi"),
        (LOAD_USED, 96.1, "percent", "97 %"),
        (TREAD, 0.41, "inch", "13/32 in"),
        (AGE, 1160, "day", "3.2 years"),
        (GAP_FROM_40, 5.8, "second", "6 s"),
        (DAYLIGHT_LEFT, 444.8, "minute", "7 h 24 min"),
        (DRIVING, 180.2, "minute", "3 h 01 min"),
        (DEVICE_DISTANCE, 100, "foot", "100 ft"),
        (MARGIN_OF_TRIP, 18.7, "inch", "1 ft 6 in"),
        (MARGIN_OF_TRIP, -3.2, "inch", "-4 in"),
        (COLDEST_NIGHT, 23.9, "degree_Fahrenheit", "23 °F"),
    ],
)
def test_a_value_is_rounded_toward_safety(
    kind: FigureKind, magnitude: float, unit: str, expected: str
) -> None:
    assert text(kind, magnitude, unit) == expected


def test_metric_rigs_read_metric_units() -> None:
    # 105 psi is 723.9 kPa (6.894757 kPa a psi, NIST Handbook 44, appendix C): up to the next 5.
    assert text(SET_POINT, 105, "psi", "metric") == "725 kPa"
    assert text(TREAD, 10.09, "millimeter", "metric") == "10.0 mm"


def test_what_is_not_known_is_a_blank() -> None:
    assert Words(Style("us")).value(Figure(SET_POINT.of(), None)) == "______"


def test_a_fluid_is_never_said_to_hold_colder_than_it_does() -> None:
    assert text(PROTECTS_TO, -34.6, "degree_Fahrenheit") == "-34 °F"


def test_what_service_counts_is_told_as_meters_and_calendars_do() -> None:
    assert text(DAYS_LEFT, 116.0, "day") == "116 days"
    assert text(DUE_AT_HOURS, 561.9, "hour") == "561 h"
    assert text(HOUR_METER, 1101.2, "hour") == "1,102 h"
