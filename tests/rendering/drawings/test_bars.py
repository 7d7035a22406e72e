"""Bars and strips are read back from their SVG: told apart without color, and no words meet."""

import re
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from binder.cards.drawings import MarginBar, MarginBars, TankStrip, TankStrips
from binder.rendering.drawings.bars import margin_bars, tank_strips

SVG = "{http://www.w3.org/2000/svg}"
WITHIN = MarginBar("Steer axle", 0.9, "load 10,800 lb", "rating 12,000 lb", "1,200 lb left")
OVER = MarginBar("Coach, gross", 1.25, "load 15,000 lb", "rating 12,000 lb", "OVER by 3,000 lb", is_over=True)


def elements(rows: tuple[MarginBar, ...], name: str) -> list[dict[str, str]]:
    svg = margin_bars(MarginBars(rows, "loads")).svg
    return [element.attrib for element in ET.fromstring(svg).iter(f"{SVG}{name}")]  # noqa: S314 - our own text.


def test_a_bar_is_as_long_as_its_share_of_the_rating() -> None:
    load, rating = elements((WITHIN,), "rect")

    assert float(load["width"]) / float(rating["width"]) == pytest.approx(0.9, abs=0.001)


def test_all_bars_are_on_one_scale() -> None:
    first, rating, *_ = elements((WITHIN, OVER), "rect")

    # The longest bar, 1.25 of its rating, takes the whole width but a point on each side.
    assert float(rating["width"]) == pytest.approx((116 * 72 / 25.4 - 2) / 1.25, abs=0.1)
    assert float(first["width"]) / float(rating["width"]) == pytest.approx(0.9, abs=0.001)


def test_what_is_over_the_rating_is_hatched_and_heavily_outlined_and_nothing_else_is() -> None:
    over, within = elements((OVER,), "polyline"), elements((WITHIN,), "polyline")

    mark = float(over[-1]["points"].split(",")[0])
    hatching = [line["points"] for line in over[:-1]]
    assert len(within) == 1
    assert len(hatching) > 10
    assert all(float(point.split(",")[0]) >= mark - 0.01 for points in hatching for point in points.split())
    assert max(float(box.get("stroke-width", 0)) for box in elements((OVER,), "rect")) == 2.0
    assert max(float(box.get("stroke-width", 0)) for box in elements((WITHIN,), "rect")) < 1


@settings(max_examples=50, deadline=None)
@given(shares=st.lists(st.floats(0, 1.4), min_size=1, max_size=6))
def test_no_bar_leaves_the_drawing(shares: list[float]) -> None:
    rows = tuple(
        MarginBar("axle", share, "load", "rating", "left or over", is_over=share > 1) for share in shares
    )

    for box in elements(rows, "rect"):
        assert float(box["width"]) >= 0
        assert float(box["x"]) + float(box["width"]) <= 116 * 72 / 25.4 - 0.9


def test_bars_are_told_apart_without_hue() -> None:
    svg = margin_bars(MarginBars((WITHIN, OVER), "loads")).svg

    colors = {part.split('"')[1] for name in ("fill=", "stroke=") for part in svg.split(name)[1:]}
    assert colors <= {"#000", "#d0d0d0", "#fff", "none"}


def test_a_name_too_long_for_its_row_is_cut_beside_its_margin() -> None:
    long = MarginBar("Drive axle of the coach with all tanks full", 0.5, "load", "rating", "1,200 lb left")

    svg = margin_bars(MarginBars((long,), "loads")).svg

    assert ">Drive axle of the coach\u2026<" in svg or re.search(r">Drive axle of [a-z ]+\u2026<", svg)
    assert ">1,200 lb left<" in svg


@pytest.mark.parametrize("share", [3.0, 14.0, 500.0])
def test_a_load_many_times_its_rating_is_drawn(share: float) -> None:
    over = MarginBar("Steer", share, "load 9,600 lb", "rating 4,000 lb", "5,600 lb over", is_over=True)

    svg = margin_bars(MarginBars((over,), "loads")).svg

    assert ">load 9,600 lb<" in svg
    assert ">rating 4,000 lb<" in svg


def test_the_words_of_a_drawing_are_its_title() -> None:
    drawing = margin_bars(MarginBars((WITHIN,), "Steer axle: 1,200 lb left"))

    assert "<title>Steer axle: 1,200 lb left</title>" in drawing.svg


def test_a_tank_that_is_not_known_at_a_moment_leaves_a_gap() -> None:
    def filled(*shares: float | None) -> int:
        strips = TankStrips((TankStrip("fresh", shares, None, ""),), (), "Fresh water")
        return tank_strips(strips).svg.count("<polygon")

    assert filled(1.0, 0.5, 0.2) == 2
    assert filled(1.0, None, 0.2) == 0


def test_a_long_trip_names_the_days_there_is_room_for() -> None:
    days = tuple((number, f"day {number}") for number in range(100))
    strip = TankStrip("fresh", tuple([0.5] * 100), 0.25, "least 9 gal")

    svg = tank_strips(TankStrips((strip,), days, "Fresh water")).svg

    assert 5 < svg.count(">day ") < 30
    assert 'stroke-dasharray="4 2"' in svg
