"""The tires card prints the figures of each axle, and a blank where one is not known."""

from pathlib import Path

import pytest

from binder.assessment.assess import Assessment
from binder.cards.blocks import Bands, Box, Line, Note, Table
from binder.cards.ring.tires import tires
from binder.wording.numbers import BLANK
from tests.assessment.edited_demos import edited_demo
from tests.by_key import ByKey
from tests.cards.binder_rigs import demo


def values(assessment: Assessment) -> Bands:
    table = tires(assessment).sides[0].blocks[0]
    assert isinstance(table, Bands)
    return table


@pytest.mark.parametrize(
    ("rig", "bands"),
    [
        (
            "larkspur",
            (
                ("84 or less", "85 to 104", "105", "to ______", "over ______"),
                ("76 or less", "77 to 94", "95", "to ______", "over ______"),
                ("27 or less", "28 to 32", "33", "to 44", "over 44"),
            ),
        ),
        (
            "kestrel",
            (
                ("52 or less", "53 to 64", "65", "to 80", "over 80"),
                ("64 or less", "65 to 79", "80", "no more", "over 80"),
            ),
        ),
    ],
)
def test_each_axle_has_a_band_for_each_action(rig: str, bands: tuple[tuple[str, ...], ...]) -> None:
    """A gauge that reads 28 at the car: add to 33; where the valve was never read, GO has no end."""
    table = values(demo(rig))
    found = [(*row.others[:2], row.value, *row.others[2:]) for row in table.rows]

    assert table.headers == ("FLAT", "ADD", "GO", "OVER")
    assert [tuple(cell.replace("\u00a0", " ") for cell in row) for row in found] == list(bands)


def test_no_pressure_leaves_every_band_a_blank(tmp_path: Path) -> None:
    after = edited_demo(tmp_path, "kestrel", ("label_pressure: 65 psi", "label_pressure:"))
    row = values(after).rows[0]

    assert row.value == BLANK
    assert (row.others[0].split()[0], row.others[1].split()[0]) == (BLANK, BLANK)


def test_the_alarm_is_the_one_that_can_be_set() -> None:
    """88 % of 105, 95 and 33, where 100, 90 and 29 are wanted."""
    lines = [block for block in tires(demo("larkspur")).sides[1].blocks if isinstance(block, Line)]
    found = [line for line in lines if "alarm" in line.challenge]

    assert (found[0].challenge, found[0].answer) == ("Low alarm: steer, drive, car", "92 / 83 / 29 psi")
    assert found[0].detail == "while driving it means FLAT: stop, add no air"


def test_what_the_cap_leaves_no_room_for_is_added_at_the_coldest_place() -> None:
    """Where the valve was never read, no more is filled now than the table says at a cooler tire."""
    lines = [block for block in tires(demo("larkspur")).sides[1].blocks if isinstance(block, Line)]
    found = {line.challenge: line.answer for line in lines}

    assert found["Steer from 60 °F"] == "109 now; Stanley: add to 105 psi"


def test_the_card_becomes_wrong_over_what_a_wheel_end_holds() -> None:
    """Half of 19,000 lb, under twice the 4,930 lb of the row; the row of 100 psi; half of 2,450 lb."""
    assessment = demo("larkspur")
    end = ByKey(assessment).quantity("tires.coach.drive.end_holds_up_to")

    assert end is not None
    assert end.to("pound").magnitude == 9500
    assert "drive end over 9,500 lb" in tires(assessment).wrong_as_soon_as
    assert "steer end over 5,775 lb" in tires(assessment).wrong_as_soon_as
    assert "car end over 1,225 lb" in tires(assessment).wrong_as_soon_as


def test_a_valve_that_is_not_known_is_a_blank_and_says_what_it_would_allow() -> None:
    sides = tires(demo("larkspur")).sides
    notes = [block.text for side in sides for block in side.blocks if isinstance(block, Note)]

    assert any("valves ______ psi" in text for text in notes)
    assert "to 110 psi if valve so marked" in values(demo("larkspur")).rows[0].detail


def test_pressures_that_follow_the_label_have_no_table_of_temperatures() -> None:
    tables = {
        rig: [b for b in tires(demo(rig)).sides[1].blocks if isinstance(b, Table)]
        for rig in ("larkspur", "kestrel")
    }

    assert len(tables["larkspur"]) == 1
    assert tables["kestrel"] == []


def test_a_flat_one_of_a_pair_takes_both_off() -> None:
    boxes = [block for block in tires(demo("kestrel")).sides[1].blocks if isinstance(block, Box)]

    assert [box.title for box in boxes] == ["One of a pair flat or low?"]
    assert "Both come off. Both are inspected." in boxes[0].lines


def test_the_wait_before_a_second_reading_is_the_constant() -> None:
    assert values(demo("larkspur")).actions[1] == "to the big number; read after 1\u00a0h"


def test_a_trailer_becomes_wrong_over_half_its_axles_rating() -> None:
    """Half of 3,500 lb: under the 2,540 lb a tire that its label of 65 psi carries."""
    card = tires(demo("sandpiper"))

    assert card.wrong_as_soon_as.count("trailer end over 1,750 lb") == 1
    assert "to spare" in next(row.detail for row in values(demo("sandpiper")).rows if row.name == "Trailer")


def test_an_axle_filled_to_its_cap_has_a_line_and_no_row() -> None:
    back = tires(demo("tamarack")).sides[1].blocks
    rows = [row for block in back if isinstance(block, Table) for row in block.rows]
    full = [block for block in back if isinstance(block, Line) and " now; " in block.answer]

    assert [(line.challenge, line.answer) for line in full] == [
        ("Drive", "550 now; Grande Cache: add to 550 kPa")
    ]
    assert not [row for row in rows if "Drive" in row]


def test_vehicles_that_are_treated_alike_share_a_line_of_the_box() -> None:
    """LT, ST and car tires: off and inspected inside; truck tires: no air on the vehicle."""
    lines = {
        name: next(block.lines for block in tires(demo(name)).sides[0].blocks if isinstance(block, Box))
        for name in ("tamarack", "larkspur")
    }

    assert lines["tamarack"] == ("Truck, trailer: take it off, inspect inside.",)
    assert lines["larkspur"] == (
        "Coach: no air. Stand clear. Tire service.",
        "Car: take it off, inspect inside.",
    )


def test_what_a_flat_tire_reads_hot_stands_under_the_bands() -> None:
    lines = [block for block in tires(demo("larkspur")).sides[0].blocks if isinstance(block, Line)]

    assert [(line.challenge, line.answer) for line in lines[:2]] == [
        ("Read just driven: FLAT at", "99 / 91 / 33 psi or less"),
        ("Normal rise, coach / car", "10 to 18 / 2 to 6 psi"),
    ]


def test_a_load_that_rests_on_an_assumed_share_says_so_beside_the_number(tmp_path: Path) -> None:
    ends = "left: 1985 lb, right: 1915 lb, "
    before, after = demo("kestrel"), edited_demo(tmp_path, "kestrel", (ends, ""))

    assert "lb each, assumed half and more" in values(after).rows[0].detail
    assert "assumed" not in values(before).rows[0].detail


def test_an_axle_that_was_not_weighed_has_no_load_on_the_card(tmp_path: Path) -> None:
    after = edited_demo(
        tmp_path, "kestrel", ("steer: {left: 1985 lb, right: 1915 lb, axle: 3900 lb}", "steer: {}")
    )

    assert "not weighed: for half its rating" in values(after).rows[0].detail
    assert "each" not in values(after).rows[0].detail


def test_two_axles_of_one_limit_are_told_once(tmp_path: Path) -> None:
    """Sandpiper's second trailer axle with a label of its own: a row each on the card."""
    second = (
        "second:\n        at: 34 in\n        track: 75 in\n        fitment: single\n        rating: 3500 lb\n"
    )
    text = f"{second}        label_pressure: "
    card = tires(edited_demo(tmp_path, "sandpiper", (f"{text}65 psi", f"{text}60 psi")))

    assert card.wrong_as_soon_as.count("trailer end over 1,750 lb") == 1
