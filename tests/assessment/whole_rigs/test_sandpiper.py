"""The travel trailer with weight distribution comes out as it was worked by hand.

Statics of the truck, wheelbase L = 145 in, ball r = 66 in behind the drive axle, a = 222 in from the ball to
the trailer's axles: crew 380 lb at 65 in and 260 lb in the bed at 140 in make 3,329 / 2,741 lb of the solo
3,110 / 2,320; the tongue's 860 lb lift 860 * 66 / 145 = 391 lb off the steer axle: 2,937 / 3,993 / 5,740 with
bars off. Bars of 26,250 lb*in put M (a + r) / (a L) = 235 lb back in front and M / a = 118 lb on the trailer:
3,172 / 3,640 / 5,858.
"""

import csv
from dataclasses import replace
from datetime import date, datetime
from pathlib import Path

import pint
import pytest

from binder.assessment.assess import assess
from binder.assessment.weights.loads import loads_in_states
from binder.assessment.weights.states import trip_states
from binder.models.load import Profile, load_profile
from tests.by_key import ByKey
from tests.demos import PROFILES

ON = date(2026, 6, 1)
ROOT = Path(__file__).parents[3]
FOLDER = PROFILES / "sandpiper"
CHART = ROOT / "tests" / "published" / "tires" / "st225_75r15_D.csv"
L, R, A, M = 145.0, 66.0, 222.0, 26_250.0
STEER = 3110 + 380 * 80 / L + 260 * 5 / L
DRIVE = 2320 + 380 * 65 / L + 260 * 140 / L
BARS_OFF = {"truck.steer": STEER - 860 * R / L, "truck.drive": DRIVE + 860 * (L + R) / L, "trailer": 5740.0}
BARS = {
    "truck.steer": M * (A + R) / (A * L),
    "truck.drive": -M * (A + L + R) / (A * L),
    "trailer": M / A,
}


def _with_bars_off(profile: Profile) -> Profile:
    """No state of this rig: shown to compare with."""
    (coupling,) = profile.rig.couplings
    bare = coupling.model_copy(update={"distribution": None})
    return replace(profile, rig=profile.rig.model_copy(update={"couplings": [bare]}))


def _without_trailer(profile: Profile) -> Profile:
    """The loaded truck alone, on a trip that names no trailer's tanks."""
    vehicles = {"truck": profile.rig.vehicles["truck"]}
    rig = profile.rig.model_copy(update={"couplings": [], "vehicles": vehicles})
    assert profile.trip is not None
    levels = {"truck": profile.trip.levels_at_start["truck"]}
    return replace(
        profile, rig=rig, trip=profile.trip.model_copy(update={"levels_at_start": levels, "days": []})
    )


@pytest.fixture(scope="module")
def sandpiper() -> ByKey:
    return ByKey(assess(load_profile(FOLDER), ON))


def number(assessment: ByKey, key: str, unit: str) -> float:
    value = assessment.figure(key).value
    assert isinstance(value, pint.Quantity)
    return float(value.to(unit).m)


def ground(assessment: ByKey) -> dict[str, float]:
    """What stands on the steer axle, the drive axle and the trailer's axles at departure."""
    loads = {
        key: number(assessment, f"weights.{key}.departure.load", "lb")
        for key in ("truck.steer", "truck.drive", "trailer.first", "trailer.second")
    }
    trailer = loads.pop("trailer.first") + loads.pop("trailer.second")
    return loads | {"trailer": trailer}


def test_the_demo_states_what_statics_gives() -> None:
    """The rounded loads of the description, beside those worked out above."""
    on = {key: BARS_OFF[key] + BARS[key] for key in BARS_OFF}

    assert pytest.approx([3329, 2741], abs=1) == [STEER, DRIVE]
    assert list(BARS_OFF.values()) == pytest.approx([2937, 3993, 5740], abs=1)
    assert list(on.values()) == pytest.approx([3172, 3640, 5858], abs=1)
    assert sum(on.values()) == pytest.approx(12_670)
    assert sum(BARS.values()) == pytest.approx(0, abs=1e-9)


def test_the_loaded_truck_alone() -> None:
    """Solo 3,110 / 2,320, then crew and bed: 3,329 / 2,741."""
    profile = _without_trailer(load_profile(FOLDER))

    departure = loads_in_states(profile.rig, trip_states(profile))[1]

    axles = departure.vehicles["truck"].axles.values()
    loads = [axle.load.to("pound").m for axle in axles if axle.load is not None]
    assert departure.state.key == "departure"
    assert loads == pytest.approx([STEER, DRIVE], abs=1e-6)


def test_departure_with_bars_off() -> None:
    assessment = ByKey(assess(_with_bars_off(load_profile(FOLDER)), ON))

    assert ground(assessment) == pytest.approx(BARS_OFF, abs=1e-6)


def test_departure_with_bars_on(sandpiper: ByKey) -> None:
    loads = ground(sandpiper)

    assert loads == pytest.approx({key: BARS_OFF[key] + BARS[key] for key in BARS_OFF}, abs=1e-6)
    assert number(sandpiper, "weights.combination.departure.load", "lb") == pytest.approx(12_670)
    assert sum(loads.values()) == pytest.approx(12_670)


def test_bars_change_what_the_truck_carries_and_nothing_of_the_whole(sandpiper: ByKey) -> None:
    """With bars on 741.8 lb stand on the truck, of a tongue of 860 lb, which ratings are held against."""
    assert number(sandpiper, "weights.truck.total.departure.load", "lb") == pytest.approx(6930 - M / A)
    assert number(sandpiper, "weights.trailer.total.departure.load", "lb") == pytest.approx(6600)
    assert number(sandpiper, "weights.combination.departure.margin", "lb") == pytest.approx(15_000 - 12_670)


def test_the_tongue_is_held_against_the_receiver_with_bars_on(sandpiper: ByKey) -> None:
    """At its heaviest it is at least the 860 lb of departure, and under the 1,200 lb with bars on."""
    down = sandpiper.figure("coupling.truck_trailer.down_load")

    assert 860 <= number(sandpiper, "coupling.truck_trailer.down_load", "lb") < 1200
    assert any("bars on" in given.name for given in down.inputs)


def test_the_chains_are_the_weakest_part(sandpiper: ByKey) -> None:
    """Receiver 12,000 with bars on, ball 12,000, chains 7,600, combination rating 15,000 less the truck."""
    assert sandpiper.figure("coupling.truck_trailer.weakest_part").value == "safety chains"
    assert number(sandpiper, "coupling.truck_trailer.limit", "lb") == pytest.approx(7600)


def test_no_tongue_of_the_trip_is_under_a_tenth_or_over_fifteen_hundredths() -> None:
    """The usual band of a ball coupling, 10 to 15 % (practice); levels taken from the plan itself."""
    profile = load_profile(FOLDER)
    assert profile.trip is not None
    tanks = profile.rig.vehicles["trailer"].tanks
    gallon = {"fresh": 8.33, "gray": 8.33, "black": 8.33, "propane": 4.24}
    full = {"fresh": 40.0, "gray": 30.0, "black": 30.0, "propane": 9.4}
    levels = dict(full)
    stated = [
        stop for day in profile.trip.days for leg in day.legs for stop in (leg.to.arriving, leg.to.levels)
    ]

    for each in stated:
        for name, level in each.get("trailer", {}).items():
            share = full[name] * level.share if level.share is not None else 0.0
            levels[name] = level.volume.to("gallon").m if level.volume is not None else share
        change = {name: (levels[name] - full[name]) * gallon[name] for name in full}
        places = {name: at.to("inch").m for name, tank in tanks.items() if (at := tank.at) is not None}
        tongue = 860 + sum(weight * (17 - places[name]) / A for name, weight in change.items())
        assert 0.10 < tongue / (6600 + sum(change.values())) < 0.15


@pytest.mark.parametrize(("axle", "end"), [("first", 1567), ("second", 1560)])
def test_the_heavier_end_decides_the_row_and_the_label_the_pressure(
    sandpiper: ByKey, axle: str, end: float
) -> None:
    """1,600 lb a tire: row 30 psi; the label's 65 psi is printed (a trailer is never under its label)."""
    load = number(sandpiper, f"tires.trailer.{axle}.load_per_tire", "lb")

    assert load == pytest.approx(end * (2870 + M / A / 2) / 2870)
    assert load <= 1600
    assert number(sandpiper, f"tires.trailer.{axle}.row_pressure", "psi") == pytest.approx(30)
    assert number(sandpiper, f"tires.trailer.{axle}.set_point", "psi") == pytest.approx(65)


def test_the_heaviest_tire_carries_sixteen_hundred(sandpiper: ByKey) -> None:
    assert number(sandpiper, "tires.trailer.first.load_per_tire", "lb") == pytest.approx(1600, abs=1)


def test_the_truck_keeps_its_placard(sandpiper: ByKey) -> None:
    for axle in ("steer", "drive"):
        assert number(sandpiper, f"tires.truck.{axle}.set_point", "psi") == pytest.approx(35)


def test_the_table_of_the_trailer_tires_is_the_published_chart() -> None:
    """S04, as re-typed in the published data of the tests."""
    table = load_profile(FOLDER).rig.tires["trailer tires"].table
    assert table is not None
    assert table.single is not None
    with CHART.open(newline="", encoding="utf-8") as file:
        printed = {float(row["pressure_psi"]): float(row["load_lb"]) for row in csv.DictReader(file)}

    assert {pressure.to("psi").m: load.to("pound").m for pressure, load in table.single.items()} == printed


def test_nothing_keeps_it_from_driving(sandpiper: ByKey) -> None:
    assert [found.text for found in sandpiper.findings if found.grade == "do not drive"] == []


def test_every_day_ends_before_sunset_and_under_the_longest_day(sandpiper: ByKey) -> None:
    for day in range(1, 6):
        assert number(sandpiper, f"route.day_{day}.daylight_left", "hour") > 0
        assert number(sandpiper, f"route.day_{day}.driving_time", "hour") <= 5


def test_the_clock_goes_ahead_over_lookout_pass_and_back_before_sandpoint(sandpiper: ByKey) -> None:
    """Day 2: 09:30, 0.7 h, 1.5 h, 2 h, one hour more. Day 4: 09:30, 1.9 h, 1 h, 1.8 h, one hour less."""
    st_regis, sandpoint = (sandpiper.figure(f"route.day_{day}.arrival").value for day in (2, 4))

    assert isinstance(st_regis, datetime)
    assert isinstance(sandpoint, datetime)
    assert f"{st_regis:%H:%M %Z}" == "14:42 MDT"
    assert f"{sandpoint:%H:%M %Z}" == "13:12 PDT"
