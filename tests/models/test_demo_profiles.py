"""The two demo rigs are whole, invented, and of one piece.

Their loads here are worked by hand from the scale ticket: the arithmetic is the lever law written out
(rear + w x/L), not the product's own, with densities of AP-42 (water 8.33 lb/gal), COMAR (propane 4.24),
ISO 22241-1 (exhaust fluid 9.1) and the usual figures for diesel and gasoline.
"""

import csv
from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path

import pytest

from binder.models.base import LevelValue
from binder.models.load import Profile, load_profile
from binder.models.vehicles import Tank
from tests.demos import PROFILES

_ROOT = Path(__file__).parents[2]
_CHART = _ROOT / "tests" / "published" / "tires" / "lt235_85r16_E.csv"
_POUNDS_A_GALLON = {
    "diesel": 7.05,
    "gasoline": 6.17,
    "exhaust fluid": 9.1,
    "fresh water": 8.33,
    "gray water": 8.33,
    "black water": 8.33,
    "propane": 4.24,
}
_FULL = LevelValue("full", share=1.0)
_RIGS = ("larkspur", "kestrel")


@pytest.fixture(params=_RIGS)
def demo(request: pytest.FixtureRequest) -> Profile:
    return load_profile(PROFILES / request.param)


def _gallons(tank: Tank, level: LevelValue) -> float:
    if level.volume is not None:
        return float(level.volume.to("gallon").magnitude)
    whole = tank.usable if tank.holds == "propane" else tank.capacity
    assert whole is not None
    assert level.share is not None
    return float(whole.to("gallon").magnitude) * level.share


def _loads(profile: Profile, levels: dict[str, LevelValue]) -> tuple[float, float]:
    """Front and rear axle of the coach in pounds with these levels, the trip's crew and its cargo."""
    assert profile.trip is not None
    coach, ticket = profile.rig.vehicles["coach"], profile.rig.scale_tickets[0]
    added = [(person.weight, person.at, 1) for person in profile.trip.crew]
    added += [(item.weight, item.at, 1) for item in profile.trip.cargo]
    added += [(item.weight, item.at, -1) for item in ticket.aboard or []]
    added += [(coupling.weight, coupling.at, 1) for coupling in profile.rig.couplings]
    steps = [
        (sign * weight.magnitude, at.magnitude) for weight, at, sign in added if weight and at is not None
    ]
    for name, tank in coach.tanks.items():
        more = _gallons(tank, levels[name]) - _gallons(tank, ticket.levels["coach"][name])
        assert tank.at is not None
        steps.append((more * _POUNDS_A_GALLON[tank.holds], tank.at.magnitude))
    _, wheelbase = (at.magnitude for at in coach.axle_places)
    weights = ticket.weights["coach"].axles
    steer, drive = weights["steer"].axle, weights["drive"].axle
    assert steer is not None
    assert drive is not None
    rear = sum(weight * at / wheelbase for weight, at in steps)
    front = sum(weight for weight, _ in steps) - rear
    return steer.magnitude + front, drive.magnitude + rear


def _levels_of_the_trip(profile: Profile) -> Iterator[dict[str, LevelValue]]:
    assert profile.trip is not None
    levels = dict(profile.trip.levels_at_start["coach"])
    yield levels
    for day in profile.trip.days:
        for leg in day.legs:
            for stated in (leg.to.arriving, leg.to.levels):
                levels = {**levels, **stated.get("coach", {})}
                yield levels


@pytest.mark.parametrize(("name", "front", "rear"), [("larkspur", 11_048, 17_180), ("kestrel", 3_964, 8_486)])
def test_departure_is_as_the_demo_was_worked_out(name: str, front: float, rear: float) -> None:
    profile = load_profile(PROFILES / name)

    assert _loads(profile, next(_levels_of_the_trip(profile))) == pytest.approx((front, rear), abs=1)


def test_everything_full_is_as_the_demo_was_worked_out() -> None:
    profile = load_profile(PROFILES / "larkspur")

    full = dict.fromkeys(profile.rig.vehicles["coach"].tanks, _FULL)

    assert _loads(profile, full) == pytest.approx((11_157, 17_896), abs=1)


def test_nothing_on_the_trip_is_heavier_than_everything_full(demo: Profile) -> None:
    full = _loads(demo, dict.fromkeys(demo.rig.vehicles["coach"].tanks, _FULL))

    for levels in _levels_of_the_trip(demo):
        front, rear = _loads(demo, levels)
        assert (front, rear) <= (full[0] + 1e-6, 1e9)
        assert rear <= full[1] + 1e-6


def test_it_is_marked_as_invented(demo: Profile) -> None:
    assert demo.rig.invented
    assert demo.trip is not None
    assert demo.trip.invented
    for source in demo.sources.values():
        assert source.startswith("# ALL INVENTED")


def test_every_tire_is_two_to_four_years_old_on_the_first_of_june(demo: Profile) -> None:
    today = date(2026, 6, 1)
    codes = [tire.date_code for tires in demo.rig.tires.values() for tire in tires.mounted.values()]

    assert len(codes) >= 6
    for code in codes:
        assert code is not None
        made = date(2000 + int(code[2:]), 1, 1) + timedelta(weeks=int(code[:2]) - 1)
        assert 2 * 365 <= (today - made).days <= 4 * 365


def test_the_tires_are_those_of_the_label(demo: Profile) -> None:
    for vehicle in demo.rig.vehicles.values():
        for axle in vehicle.axles.values():
            tires = demo.rig.tires[axle.tires or ""]
            assert axle.label_tires == f"{tires.size} {tires.load_range}"


def test_the_mates_of_a_pair_match(demo: Profile) -> None:
    """At most 3/4 in of circumference and 4/32 in of tread between the mates (a tire maker's book, S45)."""
    mounted = demo.rig.tires["coach tires"].mounted
    for side in ("left", "right"):
        outer, inner = (mounted[f"drive {side} {place}"] for place in ("outer", "inner"))
        assert outer.circumference is not None
        assert inner.circumference is not None
        assert outer.tread is not None
        assert inner.tread is not None
        assert abs(outer.circumference - inner.circumference).to("inch").magnitude <= 0.75
        assert abs(outer.tread - inner.tread).to("inch").magnitude <= 4 / 32


def test_the_table_of_kestrel_is_the_published_chart() -> None:
    table = load_profile(PROFILES / "kestrel").rig.tires["coach tires"].table
    assert table is not None
    typed = {
        (fitment, pressure.magnitude): load.magnitude
        for fitment, rows in (("single", table.single), ("dual", table.dual))
        for pressure, load in (rows or {}).items()
    }

    with _CHART.open(newline="", encoding="utf-8") as file:
        printed = {
            (row["fitment"], float(row["pressure_psi"])): float(row["load_lb"])
            for row in csv.DictReader(file)
        }

    assert typed == printed


def test_the_trip_stays_in_the_west_north_of_42_degrees(demo: Profile) -> None:
    assert demo.trip is not None
    stops = [leg.to for day in demo.trip.days for leg in day.legs]

    assert len(demo.trip.days) == 5
    assert len({stop.time_zone for stop in stops}) >= 2
    for stop in stops:
        assert stop.latitude is not None
        assert stop.longitude is not None
        assert 42 < stop.latitude < 55
        assert -125 < stop.longitude < -105
        assert stop.elevation_from == "about, from memory"


def test_the_coldest_night_of_larkspur_is_its_highest() -> None:
    trip = load_profile(PROFILES / "larkspur").trip
    assert trip is not None
    nights = [(day.night.low, day.legs[-1].to.elevation) for day in trip.days if day.night]
    lows = [low.to("degree_Fahrenheit").magnitude for low, _ in nights if low is not None]
    elevations = [elevation.to("foot").magnitude for _, elevation in nights if elevation is not None]

    assert (min(lows), max(elevations)) == pytest.approx((24, 6240))
    assert lows.index(min(lows)) == elevations.index(max(elevations))
