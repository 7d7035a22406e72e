"""The drawing of a load table: stairs, a ring where the load is carried, words that do not collide."""

import re

import pytest

from binder.cards.drawings import ChartMark, ChartRow, LoadChart
from binder.rendering.load_charts import load_chart

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


def test_words_that_find_no_room_are_refused() -> None:
    long = LoadChart(ROWS, MARKS, 5400, "load " * 60, ("psi", "lb"), "Steer axle")

    with pytest.raises(ValueError, match=r"does not fit|do not fit"):
        load_chart(long)
