"""What no check can catch is printed as it was entered, each beside where it can be read."""

import pytest

from binder.cards.blocks import Table
from binder.cards.pages.worksheets import read_back
from tests.cards.binder_rigs import demo, hauler, row, table


def test_a_tank_is_told_by_words_for_its_side_and_never_by_a_sign() -> None:
    tanks = table(read_back(demo("larkspur")), "At the tanks, with a tape")

    assert row(tanks, "coach, propane") == {
        "tank": "coach, propane",
        "capacity": "30 gal",
        "middle, from the first axle": "128 in BEHIND",
        "from the center line": "36 in to the RIGHT",
        "read": "____",
    }
    assert row(tanks, "coach, fresh")["from the center line"] == "14 in to the LEFT"


def test_the_scale_slip_is_told_with_its_left_and_right_ends() -> None:
    slips = table(read_back(demo("larkspur")), "On the scale slip")
    steer, front = row(slips, "coach, steer"), row(slips, "car, front")

    assert (steer["left end"], steer["right end"], steer["axle whole"]) == (
        "5,480 lb",
        "5,240 lb",
        "10,720 lb",
    )
    assert (front["left end"], front["right end"], front["axle whole"]) == ("-", "-", "2,230 lb")


def test_ratings_and_coupling_parts_stand_as_they_were_typed() -> None:
    page = read_back(demo("tamarack"))
    labels, parts = table(page, "On the labels of the vehicle"), table(page, "Stamped on the coupling")

    assert ("truck", "gross combination weight rating", "13,600 kg", "-", "____") in labels.rows
    assert row(parts, "truck to trailer, head")["may tow"] == "9,000 kg"


def test_a_coupling_part_without_a_rating_is_a_blank() -> None:
    parts = table(read_back(hauler(parts={"head": None})), "Stamped on the coupling")

    assert [cells[1] for cells in parts.rows] == ["______"]


def test_every_posted_clearance_and_every_low_of_the_trip_is_told_with_its_day() -> None:
    assessment = demo("larkspur")
    road = table(read_back(assessment), "On signs, atlas and forecast")
    days = assessment.trip.days if assessment.trip else []
    posted = sum(len(leg.clearances) for day in days for leg in day.legs)
    nights = sum(day.night is not None for day in days)

    grades = sum(len(leg.grades) for day in days for leg in day.legs)

    assert len(road.rows) == posted + nights + grades + 1 > 0
    assert ("day 3", "bridge at the north end of Ketchum, weight", "80,000 lb", "____") in road.rows
    assert ("day 5", "Cabbage Hill, west side, down", "6 %, 6 mi, 45 mph", "____") in road.rows
    assert ("day 2", "low of the night, Stanley, Idaho", "24 °F", "____") in road.rows


@pytest.mark.parametrize("name", ["larkspur", "kestrel", "tamarack", "sandpiper"])
def test_every_row_has_a_place_to_mark_that_it_was_read(name: str) -> None:
    blocks = read_back(demo(name)).blocks

    assert all(isinstance(block, Table) and block.headers[-1] == "read" for block in blocks)
    assert all(cells[-1] == "____" for block in blocks if isinstance(block, Table) for cells in block.rows)
