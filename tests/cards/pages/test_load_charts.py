"""Each axle on its load table: the chart says what the figures say, and nothing where there is no table."""

from binder.cards.blocks import Heading, Picture
from binder.cards.drawings import LoadChart
from binder.cards.pages.tire_drawings import load_chart_blocks
from tests.cards.binder_rigs import demo


def charts(name: str) -> list[LoadChart]:
    blocks = load_chart_blocks(demo(name))
    return [
        block.view for block in blocks if isinstance(block, Picture) and isinstance(block.view, LoadChart)
    ]


def test_the_marks_are_row_label_and_set_point_one_for_each_pressure_and_no_cap_of_an_unread_valve() -> None:
    steer, drive = charts("larkspur")

    assert [mark.words for mark in steer.marks] == ["row 100 psi", "label 110 psi", "set-point 105 psi"]
    assert [mark.words for mark in drive.marks] == ["row 90 psi", "label, set-point 95 psi"]


def test_the_cap_is_marked_where_wheel_and_valve_are_known() -> None:
    marks = [[mark.words for mark in chart.marks] for chart in charts("kestrel")]

    assert all(any("cap" in words for words in chart) for chart in marks)


def test_the_row_marked_is_the_first_that_carries_the_load() -> None:
    for chart in charts("larkspur"):
        (row,) = (mark.pressure for mark in chart.marks if "row" in mark.kinds)
        carries = {entry.pressure: entry.load for entry in chart.rows}
        below = [load for pressure, load in carries.items() if pressure < row]

        assert carries[row] >= chart.load
        assert all(load < chart.load for load in below)


def test_the_load_stands_with_what_may_still_be_added() -> None:
    assert charts("larkspur")[0].load_words == "load 5,744 lb, 31 lb to next row"


def test_a_pair_is_drawn_on_the_loads_of_a_pair() -> None:
    assert [chart.rows[0].load_text for chart in charts("larkspur")] == ["4,500", "4,135"]


def test_an_axle_without_a_table_has_no_chart() -> None:
    headings = [block.text for block in load_chart_blocks(demo("larkspur")) if isinstance(block, Heading)]

    assert [heading.partition(":")[0] for heading in headings] == ["Coach, steer", "Coach, drive"]
