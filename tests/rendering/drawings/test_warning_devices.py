"""Triangles are read back from the SVG and measured."""

from xml.etree import ElementTree as ET

import pytest

from binder.cards.drawings import WarningDevice, WarningDevices, WarningRoad
from binder.rendering.drawings.warning_devices import warning_devices

SVG = "{http://www.w3.org/2000/svg}"
FOOT = 304.8
LENGTHS = (38 * FOOT, 14 * FOOT)


def device(feet: float, words: str = "") -> WarningDevice:
    return WarningDevice(feet * FOOT, words or f"{abs(feet):g} ft", f"{abs(feet) / 2.5:g} paces")


TWO_WAY = WarningRoad("two-way", "Two-way road", "count from here", (device(-157), device(10), device(100)))
DIVIDED = WarningRoad("divided", "Divided road", "count from here", (device(10), device(100), device(200)))


def tree(*roads: WarningRoad) -> ET.Element:
    drawing = warning_devices(WarningDevices(roads, LENGTHS, 5 * FOOT, "where triangles stand"))
    return ET.fromstring(drawing.svg)  # noqa: S314 - our own text.


def triangles(root: ET.Element) -> list[float]:
    """Where triangles stand along the road: the white ones, arrow heads are black."""
    shapes = [shape.attrib for shape in root.iter(f"{SVG}polygon")]
    return [float(shape["points"].split(",")[0]) for shape in shapes if shape["fill"] == "#fff"]


def rear(root: ET.Element) -> float:
    lines = [line.attrib for line in root.iter(f"{SVG}polyline")]
    return float(
        next(line for line in lines if line.get("stroke-dasharray") == "3 2")["points"].split(",")[0]
    )


@pytest.mark.parametrize("road", [TWO_WAY, DIVIDED])
def test_triangles_stand_to_scale_from_the_rear_of_the_last_vehicle(road: WarningRoad) -> None:
    root = tree(road)

    vehicles = [box.attrib for box in root.iter(f"{SVG}rect") if box.attrib["fill"] == "#fff"]
    last, first = vehicles
    scale = float(first["width"]) / LENGTHS[0]
    places = [(place - rear(root)) / scale / FOOT for place in triangles(root)]
    assert places == pytest.approx([behind.behind_rear / FOOT for behind in road.devices], abs=0.3)
    assert float(last["x"]) + float(last["width"]) == pytest.approx(rear(root), abs=0.02)
    assert float(first["x"]) < float(last["x"])


def test_every_word_is_drawn_and_roads_stand_one_under_the_other() -> None:
    root = tree(TWO_WAY, DIVIDED)

    rows = {text.text: float(text.attrib["y"]) for text in root.iter(f"{SVG}text")}
    for road in (TWO_WAY, DIVIDED):
        assert {words for one in road.devices for words in (one.distance, one.paces)} <= rows.keys()
    assert rows["Two-way road"] < rows["157 ft"] < rows["Divided road"] < rows["200 ft"]


def test_traffic_comes_toward_the_rig_only_on_the_two_way_road() -> None:
    ways = []
    for road in (TWO_WAY, DIVIDED):
        heads = [shape.attrib for shape in tree(road).iter(f"{SVG}polygon") if shape.attrib["fill"] == "#000"]
        points = [[float(point.split(",")[0]) for point in head["points"].split()] for head in heads]
        ways.append({tip > base for tip, base, _ in points})

    assert ways == [{True, False}, {False}]


def test_words_that_meet_are_refused() -> None:
    near = WarningRoad(
        "divided", "Divided road", "count from here", (device(10, "10 feet behind"), device(30))
    )

    with pytest.raises(ValueError, match="do not fit beside one another"):
        tree(near)
