"""The road of a day sheet, read back from its printed lines: in driving order, and what is shown adds up."""

import re
from collections.abc import Iterator

import pytest

from binder.cards.blocks import Big, Card, Line, RoadLine
from binder.cards.ring.day_sheet import day_sheets
from binder.cards.ring.order import ring
from binder.rendering.layout import laid_out
from binder.rendering.paper import PAPERS
from tests.assessment.edited_demos import Assessed, assessed
from tests.cards.binder_rigs import demo

__all__ = ["assessed"]

DEMOS = ("larkspur", "kestrel", "sandpiper", "tamarack")
ZONES = {"PDT": -7, "MDT": -6, "CDT": -5, "MST": -7}
"""Hours from Greenwich in summer."""


def sheets(rig: str) -> dict[str, Card]:
    return {card.id: card for card in ring(demo(rig)) if card.name == "day_sheet"}


def road(card: Card) -> list[RoadLine]:
    return [block for side in card.sides for block in side.blocks if isinstance(block, RoadLine)]


def lines_of(card: Card) -> Iterator[Line]:
    yield from (block for side in card.sides for block in side.blocks if isinstance(block, Line))


def names(card: Card) -> list[str]:
    return [line.challenge for line in road(card)]


def clock(text: str) -> int | None:
    """Minutes of a time of day at Greenwich, as printed with its zone."""
    found = re.search(r"(\d+):(\d\d)(?: ([ap])m)? ([A-Z]{3})", text)
    if found is None:
        return None
    hour = int(found[1]) % 12 + (12 if found[3] == "p" else 0) if found[3] else int(found[1])
    return (hour - ZONES[found[4]]) * 60 + int(found[2])


def minutes(text: str) -> int:
    """Minutes of a duration as printed; none where there is none."""
    hours, rest = re.search(r"(\d+) h\b", text), re.search(r"(\d+) min\b", text)
    return (int(hours[1]) * 60 if hours else 0) + (int(rest[1]) if rest else 0)


def test_the_summit_stands_before_the_bridge_and_the_brake_test_before_its_grade() -> None:
    found = names(sheets("larkspur")["5.3"])
    grade = found.index("Galena Summit, south side")

    assert found[grade - 2 : grade] == ["Test brakes", "Downshift"]
    assert found[grade + 1] == "Down at 35 mph: retarder"
    assert grade < found.index("Bridge at the north end of Ketchum") < found.index("Ketchum")


@pytest.mark.parametrize("rig", DEMOS)
def test_a_road_runs_from_its_start_to_its_end_with_growing_miles(rig: str) -> None:
    for card in sheets(rig).values():
        lines = road(card)
        miles = [int(line.mile.split(" ")[0]) for line in lines if re.match(r"\d", line.mile)]

        assert miles == sorted(miles)
        assert miles[0] == 0
        assert [line.mark for line in lines].count("end") == 1
        assert lines[0].mark == "start"


def test_what_the_plan_does_not_place_has_a_blank_for_its_mile_and_stands_first(assessed: Assessed) -> None:
    cards = day_sheets(assessed("larkspur", trip=((", after: 55 mi}", "}"),)))
    lines = road(cards[2])
    bridge = next(at for at, line in enumerate(lines) if line.challenge == "Railroad bridge at Shoshone")

    assert lines[bridge].mile == "______"
    assert lines[bridge - 1].challenge == "Drive ID-75, US-93 south"


def test_a_road_is_named_where_the_plan_names_it() -> None:
    assert [name for name in names(sheets("larkspur")["5.2"]) if name.startswith("Drive")] == [
        "Drive I-84 east",
        "Drive ID-21 north",
    ]


@pytest.mark.parametrize("rig", DEMOS)
def test_legs_breaks_and_stays_add_up_to_the_times_of_arrival(rig: str) -> None:
    for card in sheets(rig).values():
        now, checked = None, 0
        for line in road(card):
            if line.mark in {"start", "stop", "end"}:
                at = clock(line.answer)
                assert now is None or now == at, (card.id, line.challenge)
                checked += 1
                now = (at or 0) + (minutes(line.answer.partition("\u00b7")[2]))
            elif line.challenge.startswith("Drive") or line.challenge == "Break":
                assert now is not None
                now += minutes(line.answer)
        assert checked >= 2


@pytest.mark.parametrize("rig", DEMOS)
def test_light_left_is_from_arrival_to_sunset_and_driving_is_that_of_the_legs(rig: str) -> None:
    for card in sheets(rig).values():
        found = {
            block.challenge: block for side in card.sides for block in side.blocks if isinstance(block, Line)
        }
        at, left = found["Sunset, to spare"].answer.split(", ")
        end = next(line for line in road(card) if line.mark == "end")

        assert (clock(at) or 0) - (clock(end.answer) or 0) == minutes(left), card.id
        driven = sum(minutes(line.answer) for line in road(card) if line.challenge.startswith("Drive"))
        assert driven == minutes(found["Driving, breaks not counted"].answer)
        far = found["Driving, breaks not counted"].detail.partition(";")[0]
        assert far == end.mile


def test_fuel_is_told_in_miles_beside_gallons_and_how_far_to_the_next_pump() -> None:
    cards = sheets("larkspur")
    stop = next(line for line in road(cards["5.1"]) if line.challenge == "Baker City")
    fuel = [line for line in lines_of(cards["5.4"]) if line.challenge.startswith("Next fuel")]

    assert "diesel 88 gal (504 mi to the reserve)" in stop.detail
    assert [(line.challenge, line.answer, line.detail) for line in fuel] == [
        ("Next fuel: Baker City, Oregon", "250 mi", "on day 5")
    ]


def test_an_unknown_clearance_stands_on_the_front_beside_the_lowest() -> None:
    card = laid_out(sheets("larkspur")["5.2"], PAPERS["letter"])
    lowest = next(
        block for block in card.sides[0].blocks if isinstance(block, Big) and "Lowest" in block.name
    )
    unknown = [b for b in card.sides[0].blocks if isinstance(b, Line) and b.answer == "UNKNOWN"]

    assert (lowest.name, lowest.points) == ("Lowest known clearance", 24)
    assert lowest.detail.endswith("to Stanley: UNKNOWN")
    assert [line.challenge for line in unknown] == ["Clearances"]


def test_a_road_is_set_apart_by_the_miles_between_its_lines() -> None:
    card = laid_out(sheets("larkspur")["5.4"], PAPERS["letter"])
    gaps = {line.challenge: line.gap for line in road(card)}

    assert gaps["I-84 overpass at Mountain Home"] > gaps["I-84 overpass at Ontario"] > gaps["Break"] > 0


def test_elevation_is_drawn_only_where_it_tells_something() -> None:
    """A level day's road is not drawn; days with a long grade, or that climb 3,000 ft, are."""
    drawn = [
        card.id
        for card in sheets("larkspur").values()
        if any(b.kind == "picture" for b in card.sides[-1].blocks)
    ]

    assert drawn == ["5.2", "5.3", "5.5"]
