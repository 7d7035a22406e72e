"""The fifth wheel rig comes out as it was worked by hand.

Statics of the truck, wheelbase 4.37 m, solo 2,080 / 1,560 kg (lever law, rear + w x / L):
crew 190 kg at 1.9 m puts 190 * 1.9 / 4.37 = 82.6 kg on the drive axle; hitch 75 at 4.32: 74.1; tools 120 at
4.2: 115.3; pin 1,340 at 4.32: 1,324.7. Drive 1,560 + 1,596.8 = 3,156.8, steer 2,080 + 128.2 = 2,208.2.
"""

from datetime import date, datetime

import pint
import pytest

from binder.assessment.assess import assess
from binder.models.load import load_profile
from tests.by_key import ByKey
from tests.demos import PROFILES

ON = date(2026, 9, 1)
FOLDER = PROFILES / "tamarack"
WATER = 8.33 * 0.45359237 / 3.785411784  # AP-42: 8.33 lb/gal, here in kg/L.
PROPANE = 4.24 * 0.45359237 / 3.785411784  # COMAR: 4.24 lb/gal, here in kg/L.
LEVER = 4.32 / 4.37


@pytest.fixture(scope="module")
def tamarack() -> ByKey:
    return ByKey(assess(load_profile(FOLDER), ON))


def number(assessment: ByKey, key: str, unit: str) -> float:
    value = assessment.figure(key).value
    assert isinstance(value, pint.Quantity)
    return float(value.to(unit).m)


@pytest.mark.parametrize(
    ("key", "kilograms"),
    [
        ("truck.steer", 2080 + (190 * (4.37 - 1.9) + (75 + 1340) * 0.05 + 120 * 0.17) / 4.37),
        ("truck.drive", 1560 + (190 * 1.9 + (75 + 1340) * 4.32 + 120 * 4.2) / 4.37),
        ("truck.total", 3640 + 190 + 75 + 120 + 1340),
        ("trailer.first", 2530),
        ("trailer.second", 2530),
        ("trailer.total", 6400),
        ("combination", 10_425),
    ],
)
def test_departure_is_as_worked_by_hand(tamarack: ByKey, key: str, kilograms: float) -> None:
    assert number(tamarack, f"weights.{key}.departure.load", "kg") == pytest.approx(kilograms, abs=1e-6)


def test_the_coupled_truck_is_as_the_demo_states_it(tamarack: ByKey) -> None:
    """2,208 / 3,157 = 5,365 kg."""
    loads = [number(tamarack, f"weights.truck.{part}.departure.load", "kg") for part in ("steer", "drive")]

    assert loads == pytest.approx([2208, 3157], abs=1)
    assert sum(loads) == pytest.approx(5365, abs=1)


def test_the_truck_alone_is_what_the_scale_said(tamarack: ByKey) -> None:
    loads = [number(tamarack, f"weights.truck.{part}.as_weighed.load", "kg") for part in ("steer", "drive")]

    assert loads == [2080, 1560]


def test_the_pin_carries_a_fifth_of_the_trailer(tamarack: ByKey) -> None:
    down = number(tamarack, "coupling.truck_trailer.down_load", "kg")
    towed = number(tamarack, "weights.trailer.total.departure.load", "kg")

    assert down == pytest.approx(1340)
    assert down / towed == pytest.approx(0.209, abs=0.0005)


@pytest.mark.parametrize(
    ("key", "kilograms"),
    [
        ("weights.combination.departure.margin", 13_600 - 10_425),
        ("weights.truck.total.departure.margin", 6350 - 5365),
        ("weights.trailer.total.departure.margin", 7000 - 6400),
        ("weights.trailer.first.departure.margin", 3060 - 2530),
    ],
)
def test_what_is_left_under_each_rating(tamarack: ByKey, key: str, kilograms: float) -> None:
    assert number(tamarack, key, "kg") == pytest.approx(kilograms, abs=1e-6)


def test_water_over_the_axles_presses_on_them_and_not_on_the_pin(tamarack: ByKey) -> None:
    """Gray 240 L and black 150 L come on top of the ticket."""
    waste = (240 + 150) * WATER

    first = number(tamarack, "weights.trailer.first.everything_full.load", "kg")

    assert first == pytest.approx(2530 + waste / 2)
    assert number(tamarack, "weights.truck.drive.everything_full.load", "kg") == pytest.approx(
        number(tamarack, "weights.truck.drive.departure.load", "kg")
    )


def test_propane_burned_ahead_of_the_axles_lightens_the_pin_and_the_truck(tamarack: ByKey) -> None:
    """2.5 L less, 6.1 m ahead of the first axle: 6.55 m of 7.6 m ahead of the middle of both."""
    lighter = 2.5 * PROPANE * 6.55 / 7.6

    before = number(tamarack, "weights.truck.drive.day_1_stop_2_arriving.load", "kg")
    after = number(tamarack, "weights.truck.drive.day_1_stop_2_leaving.load", "kg")

    assert before - after == pytest.approx(lighter * LEVER, rel=1e-6)


def test_the_trailer_keeps_its_label_and_its_row_is_calculated(tamarack: ByKey) -> None:
    """Left end 1,290 of 2,530 kg; everything full by that ratio 1,389 kg, under the tire's 1,550 kg.

    By hand: 550 kPa (1,389 / 1,550)^(1 / 0.585) = 456 kPa = 66.1 psi, 2 psi more, up to the next 5: 70 psi.
    """
    assert number(tamarack, "tires.trailer.first.load_per_tire", "kg") == pytest.approx(
        1290 / 2530 * (2530 + 195 * WATER)
    )
    assert number(tamarack, "tires.trailer.first.row_pressure", "psi") == pytest.approx(70)
    assert number(tamarack, "tires.trailer.first.set_point", "kPa") == pytest.approx(550)
    assert number(tamarack, "tires.trailer.second.set_point", "kPa") == pytest.approx(550)


def test_the_truck_keeps_its_placard(tamarack: ByKey) -> None:
    assert number(tamarack, "tires.truck.steer.set_point", "kPa") == pytest.approx(450)
    assert number(tamarack, "tires.truck.drive.set_point", "kPa") == pytest.approx(550)


def test_nothing_keeps_it_from_driving(tamarack: ByKey) -> None:
    assert [found.text for found in tamarack.findings if found.grade == "do not drive"] == []


def test_every_day_ends_before_sunset_and_under_the_longest_day(tamarack: ByKey) -> None:
    for day in range(1, 6):
        assert number(tamarack, f"route.day_{day}.daylight_left", "hour") > 0
        assert number(tamarack, f"route.day_{day}.driving_time", "hour") <= 6


def test_the_clock_goes_ahead_before_jasper_and_back_before_dawson_creek(tamarack: ByKey) -> None:
    """Day 2: 10:00, 0.5 h, 1.5 h stay, 1.2 h and the hour: 14:12. Day 4: 09:30, 2.4 h, 15 min, 1 h, 1.6 h."""
    jasper, dawson_creek = (tamarack.figure(f"route.day_{day}.arrival").value for day in (2, 4))

    assert isinstance(jasper, datetime)
    assert isinstance(dawson_creek, datetime)
    assert f"{jasper:%H:%M %Z}" == "14:12 MDT"
    assert f"{dawson_creek:%H:%M %Z}" == "13:45 MST"
