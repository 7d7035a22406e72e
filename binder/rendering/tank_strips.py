"""Tanks along a trip: a strip each, filled as high as the tank is, with its reserve dashed."""

from itertools import pairwise

from binder.cards.blocks import Drawing
from binder.cards.drawings import TankStrip, TankStrips
from binder.rendering.drawing import GRAY, POINTS_PER_MM, Box, Text, drawing, line, polygon, rectangle

_HEAD = 14.0
"""Points over the strips for the names of the days."""

_ROW, _HIGH = 32.0, 26.0
"""Points of a row, and of its strip from empty to full."""

_GAP = 8.0
"""Points between the words at the left and the strips."""

_ROOM = 3.0
"""Points kept between two names of days."""


def tank_strips(chart: TankStrips) -> Drawing:
    """Draw what each tank holds along a trip; the moments stand at equal distances."""
    width = chart.width_mm * POINTS_PER_MM - 1
    texts: list[Text] = []
    for number, row in enumerate(chart.rows):
        base = _HEAD + number * _ROW
        texts += [Text(row.name, 0, base + 11, is_bold=True), Text(row.words, 0, base + 23)]
    left = max((text.width for text in texts), default=0.0) + _GAP
    count = max((len(row.shares) for row in chart.rows), default=2)
    step = (width - left) / max(count - 1, 1)
    bottom = _HEAD + len(chart.rows) * _ROW
    shapes = []
    for number, row in enumerate(chart.rows):
        shapes += _strip(row, _HEAD + number * _ROW, (left, width), step)
    for moment, name in chart.days:
        at = left + moment * step
        shapes.append(line((at, _HEAD - 3), (at, bottom - (_ROW - _HIGH)), width=0.5, dash="1 2"))
        texts += _day(name, at + 2, texts, width)
    return drawing(shapes, texts, (chart.width_mm, bottom / POINTS_PER_MM), chart.alternative)


def _day(name: str, at: float, texts: list[Text], width: float) -> list[Text]:
    """Name a day where there is room: on a long trip not every one."""
    text = Text(name, at, _HEAD - 5, 8)
    room = Box(text.box.left - _ROOM, text.box.top, text.box.right + _ROOM, text.box.bottom)
    is_free = text.box.right <= width and not any(room.overlaps(other.box) for other in texts)
    return [text] if is_free else []


def _strip(row: TankStrip, top: float, ends: tuple[float, float], step: float) -> list[str]:
    left, right = ends
    low = top + _HIGH
    shapes = []
    for number, (first, second) in enumerate(pairwise(row.shares)):
        if first is None or second is None:
            continue
        start, end = left + number * step, left + (number + 1) * step
        heights = (low - first * _HIGH, low - second * _HIGH)
        shapes.append(
            polygon((start, low), (start, heights[0]), (end, heights[1]), (end, low), fill=GRAY, width=0)
        )
        shapes.append(line((start, heights[0]), (end, heights[1]), width=1.4))
    if row.reserve is not None:
        level = low - row.reserve * _HIGH
        shapes.append(line((left, level), (right, level), width=0.8, dash="4 2"))
    return [*shapes, rectangle(Box(left, top, right, low), width=0.5)]
