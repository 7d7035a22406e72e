"""Where to set out warning triangles, seen from above and to scale along the road."""

from dataclasses import dataclass

from binder.cards.blocks import Drawing
from binder.cards.drawings import WarningDevice, WarningDevices, WarningRoad
from binder.rendering.drawings.svg import GRAY, POINTS_PER_MM, Box, Text, drawing, line, polygon, rectangle

_LANE = 26.0
"""Width of a lane in points; only the direction along the road is to scale, and the drawing's
words give every distance."""

_SHOULDER = 20.0
_ABOVE = 52.0
"""Points over the shoulder: heading, distances and paces."""

_HIGH = _ABOVE + _SHOULDER + 2 * _LANE + 36
"""One road with its words, in points."""

_ROOM = 34.0
"""Points left free at either end of the road for the words at the farthest triangle."""

_TRIANGLE = 11.0
"""Side of a triangle in points."""


@dataclass(frozen=True)
class _Road:
    """A road placed on paper: its top edge, and where along it the rear of the rig stands."""

    top: float
    rear: float
    scale: float
    width: float

    def along(self, behind_rear: float) -> float:
        """Where something behind the rear lies, in points."""
        return self.rear + behind_rear * self.scale

    @property
    def shoulder(self) -> float:
        """Middle of the shoulder."""
        return self.top + _ABOVE + _SHOULDER / 2

    @property
    def lanes(self) -> float:
        """Line between shoulder and lanes."""
        return self.top + _ABOVE + _SHOULDER


def warning_devices(view: WarningDevices) -> Drawing:
    """Draw the rig on the shoulder and the triangles around it, for each kind of road.

    The rig faces left and stands on the right shoulder, which lies at the top, as in the plan view.
    """
    width = view.width_mm * POINTS_PER_MM
    length = sum(view.vehicle_lengths) + view.coupling_gap * (len(view.vehicle_lengths) - 1)
    places = [device.behind_rear for road in view.roads for device in road.devices]
    ahead, behind = max([length, *(-place for place in places)]), max([0.0, *places])
    scale = (width - 2 * _ROOM) / (ahead + behind)
    shapes: list[str] = []
    texts: list[Text] = []
    for number, road in enumerate(view.roads):
        placed = _Road(number * _HIGH, _ROOM + ahead * scale, scale, width)
        shapes += [*_surface(placed, road), *_rig(placed, view)]
        texts += _words(placed, road)
        for device in road.devices:
            shapes += _triangle(placed, device)
    height = len(view.roads) * _HIGH
    return drawing(shapes, texts, (view.width_mm, height / POINTS_PER_MM), view.alternative)


def _surface(placed: _Road, road: WarningRoad) -> list[str]:
    """Shoulder, lanes and the way traffic goes in them."""
    lanes, middle, bottom = placed.lanes, placed.lanes + _LANE, placed.lanes + 2 * _LANE
    shapes = [
        rectangle(Box(0, lanes - _SHOULDER, placed.width, lanes), "#ececec", 0),
        line((0, lanes), (placed.width, lanes), width=1.2),
    ]
    if road.kind == "two-way":
        shapes += [line((0, middle + gap), (placed.width, middle + gap), width=0.8) for gap in (-1.2, 1.2)]
        shapes.append(line((0, bottom), (placed.width, bottom), width=1.2))
    else:
        shapes.append(line((0, middle), (placed.width, middle), width=0.8, dash="9 7"))
        shapes.append(rectangle(Box(0, bottom, placed.width, bottom + 7), GRAY, 0))
        shapes.append(line((0, bottom), (placed.width, bottom), width=1.2))
    opposite = 1 if road.kind == "two-way" else -1
    for lane, out in ((lanes + _LANE / 2, -1), (lanes + 1.5 * _LANE, opposite)):
        shapes += [shape for part in (0.2, 0.8) for shape in _arrow((placed.width * part, lane), out)]
    return shapes


def _arrow(middle: tuple[float, float], out: int) -> list[str]:
    x, y = middle
    tip = x + out * 16
    return [
        line((x - out * 16, y), (tip - out * 6, y), width=1.6),
        polygon((tip, y), (tip - out * 7, y - 4), (tip - out * 7, y + 4), fill="#000", width=0.1),
    ]


def _rig(placed: _Road, view: WarningDevices) -> list[str]:
    """The vehicles from the rear forward, and the line to count from."""
    shapes, rear = [], placed.rear
    for length in reversed(view.vehicle_lengths):
        front = rear - length * placed.scale
        shapes.append(rectangle(Box(front, placed.shoulder - 6, rear, placed.shoulder + 6), "#fff", 1.4, 2))
        if length is not view.vehicle_lengths[0]:
            joint = front - view.coupling_gap * placed.scale
            shapes.append(line((joint, placed.shoulder), (front, placed.shoulder), width=1.6))
        rear = front - view.coupling_gap * placed.scale
    line_end = placed.lanes + 2 * _LANE + 10
    return [*shapes, line((placed.rear, placed.shoulder - 9), (placed.rear, line_end), width=1.0, dash="3 2")]


def _triangle(placed: _Road, device: WarningDevice) -> list[str]:
    x, half, base = placed.along(device.behind_rear), _TRIANGLE / 2, placed.shoulder + _TRIANGLE * 0.43
    top = base - _TRIANGLE * 0.87
    stem = line((x, top - 2), (x, placed.top + _ABOVE - 3))
    return [polygon((x, top), (x - half, base), (x + half, base), fill="#fff", width=2.2), stem]


def _words(placed: _Road, road: WarningRoad) -> list[Text]:
    texts = [Text(road.title, 0, placed.top + 14, 14, is_bold=True)]
    for device in road.devices:
        x, base = placed.along(device.behind_rear), placed.top + _ABOVE - 16
        texts.append(Text(device.distance, x, base, 13, is_bold=True, anchor="middle"))
        texts.append(Text(device.paces, x, base + 11, 9, anchor="middle"))
    down = placed.lanes + 2 * _LANE + 19
    return [*texts, Text(road.count_from, placed.rear, down, 9, anchor="middle")]
