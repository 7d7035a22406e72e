"""A load table as stairs, with an axle's load and pressures upon it; and the mounted tires from above."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from binder.cards.blocks import Drawing
from binder.cards.drawings import ChartMark, LoadChart, TireBox, TireMap
from binder.rendering.drawings.svg import GRAY, POINTS_PER_MM, Box, Text, circle, drawing, line, rectangle

_LEFT, _RIGHT, _ROW, _LEAST, _MOST = 44.0, 34.0, 12.0, 104.0, 300.0
"""Points: room at the left, at the right, a row of words, the least and the most height of the stairs."""

_APART = 9.5
"""Points from one load to the next, so that every one is written beside the stairs."""

_DASHES = {"row": "5 3", "label": "1.5 2.5", "set-point": "", "cap": ""}
_WIDTHS = {"row": 0.9, "label": 1.4, "set-point": 1.4, "cap": 2.6}
"""Marks are told apart by their words and by dashes, dots and weight: never by color."""

_DOT = 3.2


@dataclass(frozen=True)
class _Scale:
    """From the chart's units to points."""

    chart: LoadChart
    top: float

    @property
    def right(self) -> float:
        return self.chart.width_mm * POINTS_PER_MM - _RIGHT

    @property
    def bottom(self) -> float:
        return self.top + self._height

    @property
    def _height(self) -> float:
        """High enough for the two loads that lie nearest to one another, if that is not too high."""
        loads = sorted(row.load for row in self.chart.rows)
        steps = [above - below for below, above in pairwise(loads) if above > below]
        if not steps:
            return _LEAST
        return min(max(_LEAST, 12 + _APART * self._range / min(steps)), _MOST)

    @property
    def _range(self) -> float:
        loads = [row.load for row in self.chart.rows] + [self.chart.load]
        return max(loads) - min(loads) or 1.0

    def x(self, pressure: float) -> float:
        found = [row.pressure for row in self.chart.rows] + [mark.pressure for mark in self.chart.marks]
        least, most = min(found), max(found)
        return _LEFT + 8 + (pressure - least) / (most - least or 1.0) * (self.right - _LEFT - 16)

    def y(self, load: float) -> float:
        least = min([row.load for row in self.chart.rows] + [self.chart.load])
        return self.bottom - 6 - (load - least) / self._range * (self._height - 12)


def load_chart(chart: LoadChart) -> Drawing:
    """Draw what a tire carries at each pressure, the load it has, and the pressures that bind."""
    placed = _placed_marks(chart)
    levels = 1 + max((level for _, level in placed), default=0)
    scale = _Scale(chart, levels * _ROW + 4)
    y = scale.y(chart.load)
    # Gray between two black edges: alone it has no contrast to the paper.
    load = [line((_LEFT, y), (scale.right, y), width=w, color=c) for w, c in ((4.0, "#000"), (2.6, GRAY))]
    shapes = [*load, *_stairs(chart, scale)]
    texts = _axis_words(chart, scale)
    for mark, level in placed:
        x, base = scale.x(mark.pressure), (levels - level) * _ROW - 2
        width, dash = _WIDTHS[mark.kinds[-1]], _DASHES[mark.kinds[-1]]
        shapes.append(line((x, base + 3), (x, scale.bottom), width=width, dash=dash))
        texts.append(_mark_text(mark, x, base, scale))
    shapes += _rings(chart, scale)
    height = (scale.bottom + 2 * _ROW + 8) / POINTS_PER_MM
    return drawing(shapes, texts, (chart.width_mm, height), chart.alternative)


def _mark_text(mark: ChartMark, x: float, base: float, scale: _Scale) -> Text:
    """The words of a mark over it, moved inward at both ends of the chart."""
    text = Text(mark.words, x, base, is_bold="set-point" in mark.kinds, anchor="middle")
    left, right = text.box.left, text.box.right
    if right > scale.right + _RIGHT:
        return text.moved(right=scale.right + _RIGHT - right)
    return text.moved(right=max(0.0, _LEFT - left))


def _placed_marks(chart: LoadChart) -> list[tuple[ChartMark, int]]:
    """Give each mark a row of its own where its words would run into those of another."""
    scale = _Scale(chart, 0.0)
    placed: list[tuple[ChartMark, int]] = []
    for mark in chart.marks:
        own = _mark_text(mark, scale.x(mark.pressure), 0.0, scale).box
        taken = {
            level
            for other, level in placed
            if own.overlaps(_mark_text(other, scale.x(other.pressure), 0.0, scale).box, gap=6)
        }
        placed.append((mark, min(level for level in range(len(chart.marks)) if level not in taken)))
    return placed


def _stairs(chart: LoadChart, scale: _Scale) -> list[str]:
    """A tire carries the load of a row from its pressure up to that of the next."""
    points = []
    for number, row in enumerate(chart.rows):
        points.append((scale.x(row.pressure), scale.y(row.load)))
        following = chart.rows[number + 1 : number + 2]
        if following:
            points.append((scale.x(following[0].pressure), scale.y(row.load)))
    axis = line((_LEFT, scale.top), (_LEFT, scale.bottom), (scale.right, scale.bottom), width=0.8)
    return [axis, line(*points, width=1.2)]


def _rings(chart: LoadChart, scale: _Scale) -> list[str]:
    """A ring where the row meets the load, a full one where the set-point does."""
    y = scale.y(chart.load)
    return [
        circle((scale.x(mark.pressure), y), _DOT, "#000" if "set-point" in mark.kinds else "#fff", 1.0)
        for mark in chart.marks
        if not {"row", "set-point"}.isdisjoint(mark.kinds)
    ]


def _axis_words(chart: LoadChart, scale: _Scale) -> list[Text]:
    pressures, loads = chart.axis_words
    below = _apart(
        Text(row.pressure_text, scale.x(row.pressure), scale.bottom + _ROW, anchor="middle")
        for row in chart.rows
    )
    last = scale.bottom + 2 * _ROW + 4
    ends = [Text(pressures, _LEFT, last), Text(chart.load_words, scale.right, last, anchor="end")]
    beside = _apart(
        Text(row.load_text, _LEFT - 4, scale.y(row.load) + 3, anchor="end") for row in reversed(chart.rows)
    )
    return [*below, *beside, *ends, Text(loads, _LEFT - 4, scale.top - 4, anchor="end")]


def _apart(texts: Iterable[Text]) -> list[Text]:
    """Those that have room: the others are in the table, which stands below."""
    kept: list[Text] = []
    for text in texts:
        if not any(text.box.overlaps(other.box, gap=1) for other in kept):
            kept.append(text)
    return kept


_WIDEST, _HIGH, _WORD_ROW = 92.0, 40.0, 11.5
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
        texts.append(Text(column.axle, left, _HEAD - 5, is_bold=True).fitted(room - 4))
        # Spares stand on no side: one block about the middle, past the end of the line.
        between = 0.0 if column.is_spare else _BETWEEN
        top = middle - between / 2 - len(column.tires) / 2 * (_HIGH + _GAP)
        for place, tire in enumerate(column.tires):
            edge = top + place * (_HIGH + _GAP) + (between if place >= half else 0)
            box = Box(left, edge, left + wide, edge + _HIGH)
            shapes.append(rectangle(box, width=2.4 if tire.call else 0.8, radius=6))
            texts += _tire_words(tire, box)
    return drawing(shapes, texts, (view.width_mm, height / POINTS_PER_MM), view.alternative)


def _tire_words(tire: TireBox, box: Box) -> list[Text]:
    left, top = box.left + 6, box.top + _WORD_ROW
    room = box.right - 5 - left
    words = [
        Text(tire.position, left, top).fitted(room),
        Text(tire.age, left, top + _WORD_ROW, is_bold=True).fitted(room),
        Text(tire.tread, left, top + 2 * _WORD_ROW, is_bold=True).fitted(room),
    ]
    if tire.call:
        # What to do goes before what it is: it stands where there is room, else in place of the tread.
        call = Text(tire.call, box.right - 5, top, is_bold=True, anchor="end")
        rows = [row for row, word in enumerate(words) if word.width + call.width + 4 <= room]
        if rows:
            words.append(call.moved(down=rows[0] * _WORD_ROW))
        else:
            words[2] = Text(tire.call, left, top + 2 * _WORD_ROW, is_bold=True).fitted(room)
    return words
