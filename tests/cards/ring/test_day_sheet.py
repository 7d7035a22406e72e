from datetime import date
from typing import Any

import pytest

from binder.assessment.body.dimensions import assess_dimensions
from binder.assessment.route.route import assess_route
from binder.assessment.supplies.supplies import assess_supplies
from binder.assessment.supplies.walk import walked_trip
from binder.cards.blocks import Big, Blank, Card, Line, RoadLine, Step, Table
from binder.cards.ring.day_sheet import day_sheets
from binder.models.load import Profile
from binder.models.located_yaml import Located
from binder.models.rig import Rig
from binder.models.trip import Trip
from binder.rendering.layout import laid_out
from binder.rendering.paper import PAPERS
from binder.rendering.unfit import unfit
from tests.by_key import entered_by
from tests.cards.binder_rigs import demo

ON = date(2026, 6, 1)
START = {"place": "Pendleton", "time_zone": "America/Los_Angeles"}
SITE = {
    "place": "Ontario",
    "latitude": "44.027",
    "longitude": "-116.963",
    "time_zone": "America/Boise",
    "fill": ["diesel"],
    "dump": "true",
    "arriving": {"coach": {"diesel": "88 gal", "fresh": "60 gal"}},
}
TANKS = {
    "diesel": {"holds": "diesel", "capacity": "100 gal"},
    "fresh": {"holds": "fresh water", "capacity": "90 gal"},
    "propane": {"holds": "propane"},
}
LEG: dict[str, Any] = {
    "distance": "72 mi",
    "driving": "1.25 h",
    "to": SITE,
    "clearances": [{"what": "old bridge", "posted": "14 ft 2 in"}],
}


def sheets(
    leg: dict[str, Any] | list[dict[str, Any]],
    night: dict[str, Any] | None = None,
    height: str = "12 ft 8 in",
) -> list[Card]:
    size = {"overall_height": height} if height else {}
    coach = {"kind": "motorhome", "size": size, "axles": {}, "tanks": TANKS}
    rig = {"name": "x", "units": "us", "paper": "letter", "vehicles": {"coach": coach}}
    plan = {
        "leave": "2026-06-01 09:00",
        "from": START,
        "legs": leg if isinstance(leg, list) else [leg],
        "night": night,
    }
    days = [{key: value for key, value in plan.items() if value is not None}]
    profile = Profile(
        "x",
        Rig.model_validate(rig),
        Located("rig.yaml", ""),
        trip=Trip.model_validate({"name": "west", "days": days}),
    )
    found = entered_by(
        profile,
        ON,
        assess_dimensions,
        assess_route,
        lambda of, _, ledger: assess_supplies(of, walked_trip(of), ledger),
    )
    return list(day_sheets(found.assessment))


def lines(card: Card) -> dict[str, Line]:
    return {block.challenge: block for side in card.sides for block in side.blocks if isinstance(block, Line)}


@pytest.mark.parametrize(
    ("day", "told"),
    [
        (3, ("Fuel at the day's end", "272 mi TO RESERVE")),
        (4, ("Fuel at the day's end", "392 mi TO RESERVE")),
    ],
)
def test_the_last_fuel_is_told_with_how_far_the_tank_goes_on(day: int, told: tuple[str, str]) -> None:
    """Day 3 fills where it ends; day 4 lives from there: 74 gal less 25 kept, 8 miles a gallon."""
    found = lines(day_sheets(demo("larkspur"))[day - 1])

    assert (found[told[0]].challenge, found[told[0]].answer) == told


def test_a_grade_has_its_posted_speed_beside_it() -> None:
    found = lines(day_sheets(demo("larkspur"))[2])

    assert found["Galena Summit, south side"].answer == "6 %, 5 mi down, 35 mph"


def bigs(card: Card) -> dict[str, Big]:
    return {block.name: block for side in card.sides for block in side.blocks if isinstance(block, Big)}


def blanks(card: Card) -> list[str]:
    return [block.name for side in card.sides for block in side.blocks if isinstance(block, Blank)]


def test_the_height_stands_first_at_24_points_or_more() -> None:
    first = sheets(LEG)[0].sides[0].blocks[0]

    assert isinstance(first, Big)
    assert first.value == "12 ft 8 in"
    assert first.points >= 24


def test_a_day_is_told_line_by_line() -> None:
    card = sheets(LEG, {"hookups": "none", "low": "24 degF", "gate": "open", "phone": "555 0100"})[0]
    found = lines(card)

    assert card.id == "5.1"
    assert found["Pendleton"].answer == "LEAVE 9:00 am PDT"
    assert found["Ontario"].answer == "11:15 am MDT"
    assert bigs(card)["Lowest clearance"] == Big("Lowest clearance", "14 ft 2 in", "1 ft 6 in over us")
    assert found["Tonight, low to high"] == Line("Tonight, low to high", "24 °F")
    assert Step("Cold tonight: diesel may gel; fresh water freezes") in card.sides[1].blocks
    assert found["Old bridge"].answer == "14 ft 2 in"
    assert (found["Fill"].answer, found["Dump"].answer) == ("DIESEL", "BLACK, THEN GRAY")
    assert found["Ontario"].detail == "no hookups; gauges should read diesel 88 gal, fresh 60 gal"
    odometer = next(block for block in card.sides[-1].blocks if isinstance(block, Table))
    assert odometer.headers == ("", "Leaving", "Arrived")


def test_what_is_not_known_is_a_blank_and_never_a_number() -> None:
    bare = {"to": {"place": "Ontario"}}
    card = sheets(bare, {"hookups": "none"}, height="")[0]
    found = lines(card)

    assert (bigs(card)["We stand"].value, bigs(card)["Lowest clearance"].value) == (
        "______ ft ______ in",
        "______",
    )
    names = (
        "Driving, breaks not counted",
        "Drive",
        "Sunset, to spare",
        "Following distance",
        "Ontario",
    )
    for name in (*names, "Tonight, low to high"):
        assert "______" in found[name].answer, name
    assert found["Clearances"].answer == "UNKNOWN"
    assert blanks(card)[:2] == ["Site's gate", "Site's phone"]


def test_nothing_to_fill_or_dump_no_line_for_it() -> None:
    quiet = LEG | {"to": {"place": "Ontario", "time_zone": "America/Boise"}}

    assert not {"Fill", "Dump", "MUST FILL", "MUST DUMP"} & lines(sheets(quiet)[0]).keys()


def test_the_last_day_without_a_night_has_no_tonight() -> None:
    assert "Tonight, low to high" not in lines(sheets(LEG)[0])


def test_a_tunnel_whose_operator_was_not_asked_says_so() -> None:
    card = sheets(LEG | {"tunnels": [{"what": "bay tunnel"}]})[0]

    assert lines(card)["Bay tunnel"].answer == "ASK"


def test_a_tunnel_asks_nothing_of_a_rig_without_propane(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delitem(TANKS, "propane")
    card = sheets(LEG | {"tunnels": [{"what": "bay tunnel"}]})[0]

    assert (lines(card)["Bay tunnel"].answer, lines(card)["Bay tunnel"].detail) == ("TUNNEL", "")


def test_many_clearances_fold_to_the_lowest_and_tell_their_count() -> None:
    many = [{"what": f"bridge {number}", "posted": f"{14 + number} ft 0 in"} for number in range(20)]
    found = lines(laid_out(sheets(LEG | {"clearances": many})[0], PAPERS["letter"]))

    assert found["Bridge 0"].detail == "the lowest of 20 on this leg"
    assert "Bridge 1" not in found


def test_the_card_says_when_it_becomes_wrong_and_names_its_figures() -> None:
    card = sheets(LEG, {"low": "24 degF"})[0]

    assert card.wrong_as_soon_as.startswith("the rig stands over 12 ft 8 in, you leave after ")
    assert "the forecast is under 24 °F" in card.wrong_as_soon_as
    wanted = {"rig.overall_height", "route.day_1.arrival", "route.day_1.leg_1.driving_time"}
    assert wanted <= set(card.figures)
    assert len(card.reasons) > 5


def test_no_trip_no_sheets() -> None:
    rig = {"name": "x", "units": "us", "paper": "letter", "vehicles": {"car": {"kind": "car", "axles": {}}}}
    profile = Profile("x", Rig.model_validate(rig), Located("rig.yaml", ""))

    assert day_sheets(entered_by(profile, ON).assessment) == ()


def test_a_day_of_many_stops_with_a_bridge_each_takes_the_sides_it_needs() -> None:
    leg = LEG | {"clearances": [{"what": "bridge", "posted": "14 ft 0 in"}]}
    card = sheets([leg] * 14)[0]
    laid = laid_out(card, PAPERS["letter"])

    assert len(laid.sides) > 2
    assert list(unfit([laid], PAPERS["letter"])) == []
    said = [block.challenge for side in laid.sides for block in side.blocks if isinstance(block, Line)]
    assert said.count("Bridge") == 14


@pytest.mark.parametrize(("name", "unit"), [("larkspur", "miles"), ("tamarack", "km")])
def test_a_road_says_in_which_unit_it_is_counted(name: str, unit: str) -> None:
    for card in day_sheets(demo(name)):
        assert card.sides[0].use.endswith(f". In driving order; {unit} from the start.")


@pytest.mark.parametrize("bridge", [11, 13, 17])
def test_a_road_never_goes_back_even_where_a_bridge_stands_on_a_grade(bridge: int) -> None:
    grade = {"what": "long hill", "begins_after": "12 mi", "length": "5 mi", "slope": "6 %"}
    low = {"what": "bridge", "posted": "14 ft", "after": f"{bridge} mi"}
    (card,) = sheets(LEG | {"grades": [grade], "clearances": [low]})
    road = [block for side in card.sides for block in side.blocks if isinstance(block, RoadLine)]
    placed = [line.along for line in road if line.along is not None]

    assert placed == sorted(placed)
    assert {12, bridge} <= {round(along) for along in placed}
    assert (17 in {round(along) for along in placed}) == (bridge != 13)
