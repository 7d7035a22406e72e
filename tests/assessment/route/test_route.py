from datetime import date, datetime
from typing import Any

import pytest

from binder.assessment.body.dimensions import assess_dimensions
from binder.assessment.route.route import assess_route
from binder.models.load import Profile
from binder.models.located_yaml import Located
from binder.models.rig import Rig
from binder.models.trip import Trip
from binder.quantities import registry
from tests.by_key import ByKey, entered_by

ON = date(2026, 6, 1)
START = {
    "place": "Pendleton",
    "latitude": "45.672",
    "longitude": "-118.789",
    "time_zone": "America/Los_Angeles",
    "elevation": "1070 ft",
}
SITE = {
    "place": "Ontario",
    "latitude": "44.027",
    "longitude": "-116.963",
    "time_zone": "America/Boise",
    "elevation": "2150 ft",
    "kind": "site",
}


def leg(**more: Any) -> dict[str, Any]:
    bridge = {"what": "old bridge", "posted": "14 ft 2 in"}
    return {"distance": "72 mi", "driving": "1.25 h", "to": SITE, "clearances": [bridge]} | more


def day(*legs: dict[str, Any], **more: Any) -> dict[str, Any]:
    written = {"leave": "2026-06-01 09:00", "from": START, "legs": list(legs), "night": {"low": "40 degF"}}
    return {key: value for key, value in (written | more).items() if value is not None}


def assessed(
    *days: dict[str, Any],
    rules: dict[str, Any] | None = None,
    height: str = "12 ft 8 in",
    gas: dict[str, str] | None = None,
) -> ByKey:
    measured = {"on": "2026-03-30", "state": "ride height", "highest": "dish"}
    size = {"overall_height": height, "height_measured": measured} if height else {}
    tanks = {
        "fuel": {"holds": "diesel"},
        "fresh": {"holds": "fresh water"},
        "gas": {"holds": "propane"} | (gas or {}),
    }
    coach = {"kind": "motorhome", "size": size, "axles": {}, "tanks": tanks}
    rig = {"name": "x", "units": "us", "paper": "letter", "vehicles": {"coach": coach}}
    trip = {"name": "west", "days": list(days), "rules": rules or {}}
    profile = Profile(
        "x",
        Rig.model_validate(rig),
        Located("rig.yaml", ""),
        trip=Trip.model_validate(trip),
        trip_name="west",
    )
    return entered_by(profile, ON, assess_dimensions, assess_route)


def found(ledger: ByKey, grade: str) -> list[str]:
    return [item.text for item in ledger.findings if item.grade == grade and item.key.startswith("route.")]


def clock(ledger: ByKey, key: str) -> str:
    value = ledger.figure(key).value
    assert isinstance(value, datetime)
    return value.strftime("%H:%M %Z")


def test_a_good_day_has_no_findings() -> None:
    ledger = assessed(day(leg()))

    assert clock(ledger, "route.day_1.arrival") == "11:15 MDT"
    assert ledger.figure("route.day_1.lowest_clearance_margin").slack == "1 ft 6 in under old bridge"
    assert found(ledger, "do not drive") + found(ledger, "attention") + found(ledger, "missing") == []


@pytest.mark.parametrize(
    ("posted", "stops"), [("13 ft 2 in", False), ("13 ft 1 in", True), ("12 ft 0 in", True)]
)
def test_a_clearance_under_height_and_margin_stops_the_rig(posted: str, *, stops: bool) -> None:
    ledger = assessed(day(leg(clearances=[{"what": "old bridge", "posted": posted}])))

    assert bool(found(ledger, "do not drive")) is stops


def test_a_rig_that_is_too_high_is_told_by_how_much() -> None:
    ledger = assessed(day(leg(clearances=[{"what": "old bridge", "posted": "12 ft 0 in"}])))

    assert found(ledger, "do not drive") == [
        "Day 1: old bridge, posted 12 ft 0 in: this rig is 8 in too high for it; 6 in under is wanted."
    ]


def test_the_owners_own_margin_rules() -> None:
    close = leg(clearances=[{"what": "old bridge", "posted": "13 ft 0 in"}])

    assert found(assessed(day(close), rules={"clearance": "4 in"}), "do not drive") == []
    assert len(found(assessed(day(close), rules={"clearance": "5 in"}), "do not drive")) == 1


def test_a_leg_without_a_posted_figure_is_missing_one() -> None:
    ledger = assessed(day(leg(clearances=[]), leg(clearances=[{"what": "old bridge"}])))

    assert found(ledger, "missing") == ["Day 1, leg 1 to Ontario: no clearance is given."]
    assert found(ledger, "not cleared") == ["Day 1, leg 2: old bridge: its posted height is not given."]
    assert ledger.figure("route.lowest_clearance_margin").value is None


def test_an_unknown_height_gives_no_margin() -> None:
    ledger = assessed(day(leg()), height="")

    assert ledger.figure("route.day_1.lowest_clearance").value is not None
    assert ledger.figure("route.day_1.lowest_clearance_margin").value is None


def test_arrival_after_sunset_is_told() -> None:
    """Leaving at 20:00 PDT arrives at 22:15 MDT; the sun sets at Ontario at about 21:24 MDT."""
    ledger = assessed(day(leg(), leave="2026-06-01 20:00"))

    assert found(ledger, "attention") == ["Day 1: arrival at Ontario is 52 min after sunset."]
    assert ledger.figure("route.day_1.daylight_left").slack == "52 min after sunset"


def test_dusk_may_be_the_limit() -> None:
    late = day(leg(), leave="2026-06-01 19:20")

    assert len(found(assessed(late), "attention")) == 1
    assert found(assessed(late, rules={"arrive_before": "dusk"}), "attention") == []


def test_driving_over_the_longest_day_is_told_and_reaching_it_is_not() -> None:
    assert found(assessed(day(leg()), rules={"longest_day": "1.25 h"}), "attention") == []
    assert found(assessed(day(leg()), rules={"longest_day": "1 h"}), "attention") == [
        "Day 1: driving is 15 min over your longest day."
    ]


def test_polar_summer_says_that_the_sun_does_not_set() -> None:
    north = SITE | {"latitude": "71.29", "longitude": "-156.79", "time_zone": "America/Anchorage"}
    ledger = assessed(day(leg(to=north)))

    assert ledger.figure("route.day_1.sunset").value == "the sun does not set"
    assert ledger.figure("route.day_1.daylight_left").value is None
    assert found(ledger, "attention") == []


def test_without_a_zone_there_are_no_times() -> None:
    start = {key: value for key, value in START.items() if key != "time_zone"}
    ledger = assessed(day(leg(), **{"from": start}))

    assert ledger.figure("route.day_1.arrival").value is None
    assert found(ledger, "missing") == [
        "Day 1: the place it starts from has no time zone, so no time can be given."
    ]


@pytest.mark.parametrize(
    ("low", "frozen"),
    [
        ("32 degF", "nothing"),
        ("31 degF", "fresh water freezes"),
        ("25 degF", "fresh water freezes"),
        ("24 degF", "diesel may gel; fresh water freezes"),
    ],
)
def test_what_a_low_freezes(low: str, frozen: str) -> None:
    ledger = assessed(day(leg(), night={"low": low}))

    assert ledger.figure("route.day_1.freezes").value == frozen
    assert len(found(ledger, "attention")) == (0 if frozen == "nothing" else frozen.count(";") + 1)


def test_a_night_without_a_low_is_missing_it() -> None:
    ledger = assessed(day(leg(), night={"hookups": "full"}))

    assert found(ledger, "missing") == ["Day 1: the low of the night at Ontario is not given."]


def test_the_next_fuel_may_be_on_a_later_day() -> None:
    pump = SITE | {"kind": "fuel", "place": "Boise"}
    second = day(leg(to=pump), leg(), leave="2026-06-02 09:00", **{"from": None})
    ledger = assessed(day(leg()), second)

    assert ledger.figure("route.day_1.next_fuel").value == "Boise"
    assert ledger.figure("route.day_1.next_fuel").slack == "on day 2"
    assert ledger.quantity("route.day_1.next_fuel_distance") == registry.Quantity(144, "mile")
    assert ledger.figure("route.day_2.next_fuel").slack == ""


def test_without_a_fuel_stop_ahead_there_is_no_next_one() -> None:
    assert assessed(day(leg())).figure("route.day_1.next_fuel").value is None


def test_times_are_whole_minutes_so_that_they_add_up_with_the_clock() -> None:
    """0.33 h are 19.8 minutes: twice 20 minutes, not 39.6."""
    ledger = assessed(day(*[leg(driving="0.33 h", distance="20 mi")] * 2))

    assert ledger.quantity("route.day_1.driving_time") == registry.Quantity(40, "minute")
    assert f"{ledger.figure('route.day_1.arrival').value:%H:%M}" == "10:40"


def test_a_break_stands_where_it_is_due() -> None:
    """After 100 of 150 miles at 50 mph."""
    ledger = assessed(day(leg(distance="150 mi", driving="3 h")))
    at = ledger.quantity("route.day_1.leg_1.break_1")

    assert at is not None
    assert float(at.to("mile").m) == pytest.approx(100)
    assert ledger.figure("route.day_1.leg_1.break_1").slack == "15 min"


def test_the_coldest_and_the_highest_night_name_their_place() -> None:
    camp = SITE | {"place": "Stanley", "elevation": "6240 ft"}
    second = day(leg(to=camp), leave="2026-06-02 09:00", night={"low": "24 degF"}, **{"from": None})
    ledger = assessed(day(leg()), second)

    assert ledger.figure("route.coldest_night").slack == "at Stanley, night after day 2"
    assert ledger.figure("route.highest_overnight_elevation").slack == "at Stanley, night after day 2"


def test_the_highest_elevation_of_a_day_counts_the_top_of_a_grade() -> None:
    ledger = assessed(day(leg(grades=[{"what": "summit", "top": "7,100 ft"}])))

    assert ledger.figure("route.day_1.elevation_highest").value == registry.Quantity(7100.0, "foot")


def test_a_place_of_unknown_height_may_be_the_highest_and_a_night_of_unknown_low_the_coldest() -> None:
    unknown = {key: value for key, value in SITE.items() if key != "elevation"}
    second = day(leg(to=unknown), leave="2026-06-02 09:00", night={}, **{"from": None})
    ledger = assessed(day(leg()), second)

    for key in ("day_2.elevation_highest", "highest_overnight_elevation", "coldest_night"):
        assert ledger.figure(f"route.{key}").value is None
    assert "not known: " in ledger.figure("route.day_2.elevation_highest").rule


def test_a_leg_of_millions_of_miles_takes_no_breaks_by_distance() -> None:
    ledger = assessed(day(leg(distance="5000000 mi", driving="3 h")))

    # 9:00 in the Pacific zone, three hours, one break of 15 minutes after two, an hour lost.
    assert str(ledger.figure("route.day_1.arrival").value) == "2026-06-01 13:15:00-06:00"


def test_a_tunnel_is_missing_what_its_operator_says_of_propane() -> None:
    ledger = assessed(day(leg(tunnels=[{"what": "bay tunnel"}])))

    assert found(ledger, "missing") == ["Day 1: bay tunnel: whether propane may pass is not given."]


@pytest.mark.parametrize(
    ("tank", "told"),
    [
        (
            {"capacity": "5.9 gal"},
            [("do not drive", "the gas of the coach holds 21 lb.")],
        ),
        ({"usable": "2.3 gal"}, []),
        (
            {},
            [("not cleared", "the gas of the coach: what it holds is not known.")],
        ),
    ],
)
def test_each_cylinder_is_held_against_the_largest_a_tunnel_lets_pass(
    tank: dict[str, str], told: list[tuple[str, str]]
) -> None:
    tunnels = [{"what": "bay tunnel", "largest_cylinder": "10 lb"}]
    ledger = assessed(day(leg(tunnels=tunnels)), gas=tank)

    judged = [one for one in ledger.findings if "tunnels" in one.key]
    assert [(one.grade, one.text) for one in judged] == [
        (grade, f"Day 1: bay tunnel lets cylinders of 10 lb pass at the most: {text}") for grade, text in told
    ]


def test_a_grade_lacks_what_its_sign_would_say() -> None:
    ledger = assessed(day(leg(grades=[{"what": "summit", "length": "5 mi"}])))

    assert found(ledger, "missing") == [
        "Day 1: summit: its slope and the posted truck speed not given.",
    ]
