"""Triangles are read back from the SVG and measured."""

from xml.etree import ElementTree as ET

import pytest

from binder.cards.drawings import WarningDevice, WarningDevices, WarningRoad
from binder.rendering.drawings.warning_devices import warning_devices

SVG = "{http://www.w3.org/2000/svg}"
FOOT = 304.8
LENGTHS = (38 * FOOT, 14 * FOOT)


def device(feet: float, words: str = "") -> WarningDevice:
    return WarningDevice(feet * FOOT, words or f"{abs(feet) / 2.5:g}")


TWO_WAY = WarningRoad("Two-way", "count from here", (device(-157), device(10), device(100)))
DIVIDED = WarningRoad("Divided", "from here too", (device(10), device(100), device(200)))


def tree(*roads: WarningRoad) -> ET.Element:
    drawing = warning_devices(WarningDevices(roads, LENGTHS, 5 * FOOT, "where triangles stand"))
    return ET.fromstring(drawing.svg)  # noqa: S314 - our own text.


def triangles(root: ET.Element) -> list[float]:
    """Where triangles stand along the road."""
    return [float(shape.attrib["points"].split(",")[0]) for shape in root.iter(f"{SVG}polygon")]


@pytest.mark.parametrize("road", [TWO_WAY, DIVIDED])
def test_triangles_stand_to_scale_from_the_rear_of_the_last_vehicle(road: WarningRoad) -> None:
    root = tree(road)

    last, first = [box.attrib for box in root.iter(f"{SVG}rect")]
    scale, rear = float(first["width"]) / LENGTHS[0], float(last["x"]) + float(last["width"])
    places = [(place - rear) / scale / FOOT for place in triangles(root)]
    assert places == pytest.approx([behind.behind_rear / FOOT for behind in road.devices], abs=0.5)
    assert float(first["x"]) < float(last["x"])


def test_every_word_is_drawn_and_roads_stand_one_under_the_other() -> None:
    root = tree(TWO_WAY, DIVIDED)

    rows = {text.text: float(text.attrib["y"]) for text in root.iter(f"{SVG}text")}
    for road in (TWO_WAY, DIVIDED):
        assert {road.title, road.count_from, *(one.paces for one in road.devices)} <= rows.keys()
    assert rows["Two-way"] == rows["62.8"] < rows["Divided"] == rows["80"]


def test_steps_stay_on_the_road_where_their_triangle_is_at_its_end() -> None:
    root = tree(WarningRoad("Two-way", "", (device(-157, "40 past the front"), device(200, "200 steps"))))

    texts = {text.text: text.attrib for text in root.iter(f"{SVG}text")}
    assert float(texts["40 past the front"]["x"]) > triangles(root)[0] + 20
    assert float(texts["200 steps"]["x"]) < triangles(root)[1] - 5


def test_words_that_meet_are_refused() -> None:
    near = WarningRoad("Divided", "", (device(10, "10 feet behind"), device(30)))

    with pytest.raises(ValueError, match="do not fit beside one another"):
        tree(near)
