"""Stairs, marks and mounted tires are read back from their SVG."""

import re

import pytest

from binder.cards.drawings import ChartMark, ChartRow, LoadChart, TireBox, TireColumn, TireMap
from binder.rendering.drawings.tires import load_chart, tire_map

ROWS = tuple(
    ChartRow(pressure, load, f"{pressure:.0f}", f"{load:,.0f}")
    for pressure, load in zip(range(70, 115, 5), range(4500, 6300, 200), strict=True)
)
MARKS = (
    ChartMark(("row",), 95, "row 95 psi"),
    ChartMark(("label", "cap"), 110, "label, cap 110 psi"),
    ChartMark(("set-point",), 100, "set-point 100 psi"),
)
CHART = LoadChart(ROWS, MARKS, 5400, "load 5,400 lb, 100 lb to next row", ("psi", "lb"), "Steer axle")


def test_every_word_of_the_chart_is_drawn() -> None:
    svg = load_chart(CHART).svg

    for words in (*(mark.words for mark in MARKS), *(row.pressure_text for row in ROWS), CHART.load_words):
        assert f">{words}</text>" in svg


def test_the_drawing_has_its_words_as_alternative() -> None:
    assert "<title>Steer axle</title>" in load_chart(CHART).svg


def test_the_set_point_is_a_full_ring_and_the_row_an_empty_one() -> None:
    rings = re.findall(r'<circle[^>]*fill="([^"]+)"', load_chart(CHART).svg)

    assert sorted(rings) == ["#000", "#fff"]


def test_the_higher_load_stands_higher() -> None:
    steps = re.search(r'points="([^"]+)"[^>]*stroke-width="1.2"', load_chart(CHART).svg)
    assert steps
    heights = [float(point.split(",")[1]) for point in steps[1].split()]

    assert heights == sorted(heights, reverse=True)


@pytest.mark.parametrize("load", [5400, 60_000])
def test_rows_that_lie_close_together_do_not_stretch_the_chart_off_its_page(load: float) -> None:
    near = ChartRow(112, ROWS[-1].load + 1, "112", f"{ROWS[-1].load + 1:,.0f}")
    drawn = load_chart(LoadChart((*ROWS, near), MARKS, load, "load", ("psi", "lb"), "Steer axle"))

    assert drawn.height_mm < 140
    # The highest row is told of those that have no room beside one another.
    assert f">{near.load_text}</text>" in drawn.svg
    assert f">{ROWS[-1].load_text}</text>" not in drawn.svg


def test_words_that_find_no_room_are_refused() -> None:
    long = LoadChart(ROWS, MARKS, 5400, "load " * 60, ("psi", "lb"), "Steer axle")

    with pytest.raises(ValueError, match=r"does not fit|do not fit"):
        load_chart(long)


PAIR = tuple(
    TireBox(f"{side} {place}", "3.6 years", "12/32 in")
    for side, place in (("right", "outer"), ("right", "inner"), ("left", "inner"), ("left", "outer"))
)
SINGLE = (
    TireBox("right", "11.0 years", "2/32 in", "REPLACE"),
    TireBox("left", "______ years", "______ /32 in"),
)
VIEW = TireMap((TireColumn("steer", SINGLE), TireColumn("drive", PAIR), TireColumn("tag", SINGLE)), "Tires")


def test_every_tire_has_a_box_and_only_those_that_ask_for_something_a_heavy_one() -> None:
    svg = tire_map(VIEW).svg
    widths = re.findall(r'<rect[^>]*stroke-width="([^"]+)"', svg)

    assert sorted(widths) == ["0.8"] * 6 + ["2.4"] * 2


def test_every_word_of_the_map_is_drawn() -> None:
    svg = tire_map(VIEW).svg

    for column in VIEW.columns:
        assert f">{column.axle}</text>" in svg
        for tire in column.tires:
            assert all(
                f">{words}</text>" in svg
                for words in (tire.position, tire.age, tire.tread, tire.call)
                if words
            )


def test_a_spare_stands_apart_past_the_end_of_the_line() -> None:
    spare = TireColumn("spare", (TireBox("spare", "2.9 years", "13/32 in"),), is_spare=True)
    one = TireMap((TireColumn("steer", SINGLE),), "Tires")
    svg = tire_map(TireMap((*one.columns, spare), "Tires")).svg

    lowest = [float(y) for y in re.findall(r'<rect[^>]* y="([^"]+)"', svg)]
    assert min(lowest[:2]) < lowest[2] < max(lowest[:2])


def test_six_axles_find_room_beside_one_another() -> None:
    view = TireMap(tuple(TireColumn(f"axle {number}", PAIR) for number in range(6)), "Tires")

    assert tire_map(view).width_mm == 177.0
