"""The mounted tires of a vehicle as seen from above, each with its age and tread."""

from binder.cards.blocks import Drawing
from binder.cards.drawings import TireBox, TireMap
from binder.rendering.drawing import POINTS_PER_MM, Box, Text, drawing, line, rectangle

_WIDEST, _HIGH, _ROW = 92.0, 40.0, 11.5
"""Points: the widest box of a tire, its height, and a row of words in it."""

_GAP, _BETWEEN, _HEAD = 3.0, 16.0, 16.0
"""Points between the tires of a pair, between the sides of the rig, and of an axle's name."""


def tire_map(view: TireMap) -> Drawing:
    """Draw the tires of one vehicle, an axle a column."""
    room = view.width_mm * POINTS_PER_MM / len(view.columns)
    wide = min(_WIDEST, room - 8)
    most = max(len(column.tires) for column in view.columns)
    height = _HEAD + most * (_HIGH + _GAP) + _BETWEEN + 2
    shapes: list[str] = []
    texts: list[Text] = []
    middle = _HEAD + (height - _HEAD) / 2
    rolling = sum(not column.is_spare for column in view.columns)
    shapes.append(line((4, middle), (room * (rolling - 1) + wide + 4, middle), width=0.8))
    for number, column in enumerate(view.columns):
        left, half = 2 + number * room, len(column.tires) // 2
        texts.append(Text(column.axle, left, _HEAD - 5, is_bold=True))
        # Spares stand on no side: one block about the middle, past the end of the line.
        between = 0.0 if column.is_spare else _BETWEEN
        top = middle - between / 2 - len(column.tires) / 2 * (_HIGH + _GAP)
        for place, tire in enumerate(column.tires):
            edge = top + place * (_HIGH + _GAP) + (between if place >= half else 0)
            box = Box(left, edge, left + wide, edge + _HIGH)
            shapes.append(rectangle(box, width=2.4 if tire.call else 0.8, radius=6))
            texts += _words(tire, box)
    return drawing(shapes, texts, (view.width_mm, height / POINTS_PER_MM), view.alternative)


def _words(tire: TireBox, box: Box) -> list[Text]:
    left, top = box.left + 6, box.top + _ROW
    words = [
        Text(tire.position, left, top),
        Text(tire.age, left, top + _ROW, is_bold=True),
        Text(tire.tread, left, top + 2 * _ROW, is_bold=True),
    ]
    if tire.call:
        words.append(Text(tire.call, box.right - 5, top, is_bold=True, anchor="end"))
    return words
