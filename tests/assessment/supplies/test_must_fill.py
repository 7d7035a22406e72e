"""A stop whose filling or dumping cannot be left out is told, against hand arithmetic."""

import pytest

from binder.cards.blocks import RoadLine
from binder.cards.ring.day_sheet import day_sheets
from tests.assessment.conftest import Assessed
from tests.by_key import ByKey

LONGER = ("distance: 82 mi\n        driving: 1.6 h", "distance: 282 mi\n        driving: 5 h")


def gallons(found: ByKey, key: str) -> float:
    value = found.quantity(f"supplies.coach.{key}")
    assert value is not None
    return float(value.to("gallon").m)


def lines(found: ByKey, day: int) -> list[RoadLine]:
    """The lines of a day's road, in driving order."""
    road = day_sheets(found.assessment)[day - 1].sides[0]
    return [block for block in road.blocks if isinstance(block, RoadLine)]


def challenges(found: ByKey, day: int) -> list[set[tuple[str, str]]]:
    """What each shorter way to set a day's road says in a bar."""
    road = day_sheets(found.assessment)[day - 1].sides[0]
    said = ([one for one in shorter if isinstance(one, RoadLine) and one.killer] for shorter in road.shorter)
    return [{(line.challenge, line.answer) for line in each} for each in said]


def test_a_stop_that_may_be_passed_says_what_would_be_left(larkspur: ByKey) -> None:
    """88 gal at Baker City; the plan states 9 gal to Ontario and 7 to Boise; the reserve is 1/4 of 100."""
    key = "diesel.day_1.stop_1.without_filling_margin"

    assert gallons(larkspur, key) == pytest.approx(88 - (100 - 91) - (91 - 84) - 25)
    told = larkspur.figure(f"supplies.coach.{key}").slack
    assert told == "else 72 gal on reaching Boise, Idaho; reserve 25 gal"
    said = [line.challenge for day in range(1, 6) for line in lines(larkspur, day)]
    assert "Fill" in said
    assert not [challenge for challenge in said if "MUST" in challenge]


def test_a_stop_that_must_fill_is_a_killer_line_with_what_follows(assessed: Assessed) -> None:
    """84 gal at Boise; the plan states 31 gal from there to Ketchum; then 282 mi at 8 mpg."""
    found = assessed("larkspur", trip=(LONGER,))

    margin = gallons(found, "diesel.day_2.stop_1.without_filling_margin")
    assert margin == pytest.approx(84 - (100 - 69) - 282 / 8 - 25)
    must = [line for line in lines(found, 2) if line.challenge == "MUST FILL"]
    assert [(line.answer, line.killer) for line in must] == [("DIESEL", True)]
    assert must[0].detail == "else 17 gal on reaching Twin Falls, Idaho; reserve 25 gal"
    assert challenges(found, 2) == [{("MUST FILL", "DIESEL")}] * 2


def test_what_must_be_filled_is_not_said_twice(assessed: Assessed) -> None:
    fills = [
        line for line in lines(assessed("larkspur", trip=(LONGER,)), 2) if "fill" in line.challenge.lower()
    ]

    assert [(line.challenge, line.answer) for line in fills] == [
        ("MUST FILL", "DIESEL"),
        ("Fill", "DEF"),
    ]


def test_a_tank_that_would_be_over_full_must_be_dumped(assessed: Assessed) -> None:
    """Gray 4 gal on reaching Ontario; 22 gal come in at Stanley, 3 on the road; a tank of 20 gal."""
    small = (
        "gray:          {holds: gray water, capacity: 60 gal",
        "gray:          {holds: gray water, capacity: 30 gal",
    )
    found = assessed("larkspur", small)

    assert gallons(found, "gray.day_1.stop_2.without_dumping_margin") < 0
    dump = next(line for line in lines(found, 1) if line.challenge == "MUST DUMP")
    assert (dump.answer, dump.killer) == ("BLACK, THEN GRAY", True)
    assert dump.detail.startswith("else over full ")


def test_water_has_a_reserve_only_where_its_owner_gives_one(assessed: Assessed, larkspur: ByKey) -> None:
    own = assessed("larkspur", trip=(("reserve: {diesel: 1/4}", "reserve: {diesel: 1/4, fresh: 1/2}"),))
    key = "fresh.day_1.stop_2.without_filling_margin"

    assert gallons(larkspur, key) - gallons(own, key) == pytest.approx(45)


def test_what_is_used_after_a_stop_being_unknown_leaves_no_figure_of_passing_it(assessed: Assessed) -> None:
    found = assessed("larkspur", trip=(("diesel: 8.0 mpg", "diesel:"),))

    assert found.quantity("supplies.coach.diesel.day_2.stop_1.without_filling_margin") is None
    assert found.quantity("supplies.coach.diesel.lowest") is None


def test_a_tank_of_unknown_capacity_is_asked_for(assessed: Assessed) -> None:
    found = assessed("kestrel", ("holds: fresh water, capacity: 35 gal,", "holds: fresh water,"))

    assert [(one.grade, one.text) for one in found.findings if one.key == "supplies.coach.fresh"] == [
        ("missing", "What the fresh tank of the coach holds is not known.")
    ]
