"""The tires card prints the figures of each axle, and a blank where one is not known."""

from pathlib import Path

import pytest

from binder.assessment.assess import Assessment
from binder.cards.blocks import Box, Line, Note, Table, ValueTable
from binder.cards.ring.tires import tires
from binder.wording.numbers import BLANK
from tests.assessment.edited_demos import edited_demo
from tests.by_key import ByKey
from tests.cards.binder_rigs import demo


def values(assessment: Assessment) -> ValueTable:
    table = tires(assessment).sides[0].blocks[0]
    assert isinstance(table, ValueTable)
    return table


@pytest.mark.parametrize(
    ("rig", "axles"),
    [
        ("larkspur", ("coach.steer", "coach.drive", "car.front")),
        ("kestrel", ("coach.steer", "coach.drive")),
    ],
)
def test_each_row_holds_the_four_pressures_of_its_axle(rig: str, axles: tuple[str, ...]) -> None:
    assessment = demo(rig)

    for row, axle in zip(values(assessment).rows, axles, strict=True):
        names = ("set_point", "leave_up_to", "low_alarm", "run_flat_below")
        figures = [ByKey(assessment).quantity(f"tires.{axle}.{name}") for name in names]
        printed = [None if text == BLANK else float(text) for text in (row.value, *row.others)]
        for text, figure in zip(printed, figures, strict=True):
            assert text == (None if figure is None else pytest.approx(figure.to("psi").magnitude, abs=1))


def test_the_card_becomes_wrong_over_what_a_wheel_end_holds() -> None:
    """Half of 19,000 lb, under twice the 4,930 lb of the row; the row of 100 psi; half of 2,450 lb."""
    assessment = demo("larkspur")
    end = ByKey(assessment).quantity("tires.coach.drive.end_holds_up_to")

    assert end is not None
    assert end.to("pound").magnitude == 9500
    assert "drive end over 9,500 lb" in tires(assessment).wrong_as_soon_as
    assert "steer end over 5,775 lb" in tires(assessment).wrong_as_soon_as
    assert "car end over 1,225 lb" in tires(assessment).wrong_as_soon_as


def test_a_valve_that_is_not_known_is_a_blank() -> None:
    notes = [block.text for block in tires(demo("larkspur")).sides[0].blocks if isinstance(block, Note)]

    assert any("valves ______ psi" in text for text in notes)
    assert any("valves ______ psi, up to 110 psi if valve so marked" in text for text in notes)


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
    lines = [block for block in tires(demo("larkspur")).sides[0].blocks if isinstance(block, Line)]

    assert [line.answer for line in lines if line.challenge == "Low, but not driven"] == ["FILL, READ IN 1 h"]


def test_a_trailer_becomes_wrong_over_half_its_axles_rating() -> None:
    """Half of 3,500 lb: under the 2,540 lb a tire that its label of 65 psi carries."""
    card = tires(demo("sandpiper"))

    assert "trailer end over 1,750 lb" in card.wrong_as_soon_as
    assert "to half its rating" in next(
        row.detail for row in values(demo("sandpiper")).rows if row.name == "Trailer"
    )


def test_an_axle_filled_to_its_cap_has_a_line_and_no_column() -> None:
    back = tires(demo("tamarack")).sides[1].blocks
    headers = [block.headers for block in back if isinstance(block, Table)]
    full = [block.challenge for block in back if isinstance(block, Line) and "COLD MORNING" in block.answer]

    assert full == ["Drive, pairs"]
    assert not [header for header in headers if "drive" in header]


def test_vehicles_that_are_treated_alike_share_a_line_of_the_box() -> None:
    """LT, ST and car tires: off and inspected inside; truck tires: no air on the vehicle."""
    lines = {
        name: next(block.lines for block in tires(demo(name)).sides[0].blocks if isinstance(block, Box))
        for name in ("tamarack", "larkspur")
    }

    assert lines["tamarack"] == ("Truck, trailer: off, and inspected inside.",)
    assert lines["larkspur"] == (
        "Coach: no air. Stand clear. Tire service.",
        "Car: off, and inspected inside.",
    )


def test_what_a_flat_tire_reads_hot_stands_beside_the_cold_line() -> None:
    box = next(block for block in tires(demo("larkspur")).sides[0].blocks if isinstance(block, Box))

    assert "or less (hot 99 / 91 / 33 psi)" in box.title


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
