"""The map of tires: a box each, heavy where it asks for something, words that do not collide."""

import re

from binder.cards.drawings import TireBox, TireColumn, TireMap
from binder.rendering.tire_maps import tire_map

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
