"""Where to set out warning triangles, seen from above and to scale along the road, with the steps to each."""

from binder.cards.blocks import Drawing
from binder.cards.drawings import WarningDevices
from binder.rendering.drawings.svg import GRAY, POINTS_PER_MM, Box, Text, drawing, line, polygon, rectangle

_NAMES = 98.0
"""Points at the left for the name of a road and where steps are counted from."""

_ROOM = 16.0
"""Points left free at either end of the road, for half a number at its last triangle."""

_HIGH, _NUMBERS, _SHOULDER = 28.0, 11.0, 12.0
"""Points of one road, down to the foot of its numbers, and of its shoulder below them."""

_TRIANGLE = 9.0
"""Side of a triangle in points."""


def warning_devices(view: WarningDevices) -> Drawing:
    """Draw the rig on the shoulder and the triangles around it, for each kind of road.

    The rig faces left, as in the plan view, and the lane runs below the line.
    """
    width = view.width_mm * POINTS_PER_MM
    length = sum(view.vehicle_lengths) + view.coupling_gap * (len(view.vehicle_lengths) - 1)
    places = [device.behind_rear for road in view.roads for device in road.devices]
    ahead, behind = max([length, *(-place for place in places)]), max([0.0, *places])
    scale = (width - _NAMES - 2 * _ROOM) / (ahead + behind)
    rear = _NAMES + _ROOM + ahead * scale
    shapes: list[str] = []
    texts: list[Text] = []
    for number, road in enumerate(view.roads):
        top = number * _HIGH
        edge = top + _NUMBERS + _SHOULDER + 3
        shapes.append(line((_NAMES, edge), (width, edge), width=1.4))
        shapes += _rig(view, rear, scale, edge - _SHOULDER / 2 - 1)
        texts += [Text(road.title, 0, top + _NUMBERS, 13, is_bold=True), Text(road.count_from, 0, edge - 3)]
        for device in road.devices:
            x = rear + device.behind_rear * scale
            shapes.append(_triangle(x, edge - 2))
            texts.append(_steps(device.paces, x, top + _NUMBERS, width))
    return drawing(shapes, texts, (view.width_mm, len(view.roads) * _HIGH / POINTS_PER_MM), view.alternative)


def _rig(view: WarningDevices, rear: float, scale: float, middle: float) -> list[str]:
    """The vehicles from the rear forward."""
    shapes = []
    for length in reversed(view.vehicle_lengths):
        front = rear - length * scale
        shapes.append(rectangle(Box(front, middle - 4.5, rear, middle + 4.5), GRAY, 1.0, 1))
        rear = front - view.coupling_gap * scale
    return shapes


def _triangle(x: float, base: float) -> str:
    half, top = _TRIANGLE / 2, base - _TRIANGLE * 0.87
    return polygon((x, top), (x - half, base), (x + half, base), fill="#fff", width=1.8)


def _steps(words: str, x: float, base: float, width: float) -> Text:
    """The steps over a triangle, moved inward at both ends of the road."""
    text = Text(words, x, base, 13, is_bold=True, anchor="middle")
    inward = max(0.0, _NAMES - text.box.left) - max(0.0, text.box.right - width)
    return text.moved(right=inward)
