"""Readings over time: a line for each thing that was read, with marks and dashes, and its name at its end."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import cycle, islice
from typing import NamedTuple

from binder.cards.blocks import Drawing
from binder.cards.drawings import Readings, ReadLine, ReadPoint
from binder.rendering.drawings.flags import spread
from binder.rendering.drawings.svg import (
    POINTS_PER_MM,
    Box,
    Point,
    Text,
    circle,
    drawing,
    line,
    polygon,
    rectangle,
)

_LEFT, _TOP, _FOOT = 46.0, 10.0, 18.0
"""Points: room for the values at the left, over the scale, and for the days below."""

_SAMPLE, _GAP, _ROW = 26.0, 5.0, 12.0
"""Points: of a line's sample beside its name, between words and lines, and from a name to the next."""

_MARK = 2.4
_GRID = "#b0b0b0"
_HEAVY, _LEVEL = 1.9, 2.6
"""Points: of the line that is named, and of what the readings are held against."""


def _square(at: Point) -> str:
    x, y = at
    return rectangle(Box(x - _MARK, y - _MARK, x + _MARK, y + _MARK), "#fff", 0.9)


def _triangle(at: Point) -> str:
    x, y = at
    return polygon(
        (x - _MARK, y + _MARK), (x + _MARK, y + _MARK), (x, y - 1.2 * _MARK), fill="#000", width=0.9
    )


_STYLES: tuple[tuple[str, Callable[[Point], str]], ...] = (
    ("", lambda at: circle(at, _MARK, "#000")),
    ("5 3", lambda at: circle(at, _MARK, "#fff")),
    ("1.5 2", _square),
    ("8 2 1.5 2", _triangle),
)
"""Dash and mark of each line: in black and white alone none is taken for another."""


@dataclass(frozen=True)
class _Scale:
    """From days and values to points."""

    chart: Readings
    right: float

    @property
    def bottom(self) -> float:
        return self.chart.height_mm * POINTS_PER_MM - _FOOT

    @cached_property
    def span(self) -> tuple[float, float]:
        """The first and the last day."""
        days = [point.day for one in self.chart.lines for point in one.points]
        days += [day for day, _ in self.chart.days]
        return min(days), max(days)

    def x(self, day: float) -> float:
        first, last = self.span
        return _LEFT + 6 + (day - first) / (last - first or 1.0) * (self.right - _LEFT - 12)

    def y(self, value: float) -> float:
        values = [at for at, _ in self.chart.values]
        least, most = min(values), max(values)
        return self.bottom - (value - least) / (most - least or 1.0) * (self.bottom - _TOP)

    def at(self, point: ReadPoint) -> Point:
        return self.x(point.day), self.y(point.value)


def readings(chart: Readings) -> Drawing:
    """Draw readings over time; a break in a line is where something else was read, or changed."""
    width = chart.width_mm * POINTS_PER_MM
    names = [one.name for one in chart.lines] + ([chart.level[1]] if chart.level else [])
    widest = max(Text(name, 0, 0, is_bold=True).width for name in names)
    scale = _Scale(chart, width - widest - _SAMPLE - 3 * _GAP)
    shapes = list(_grid(scale))
    if chart.level:
        y = scale.y(chart.level[0])
        shapes.append(line((_LEFT, y), (scale.right, y), width=_LEVEL))
    styles = list(islice(cycle(_STYLES), len(chart.lines)))
    for one, (dash, mark) in zip(chart.lines, styles, strict=True):
        shapes += _line(one, dash, mark, scale)
    added = [point for one in chart.lines for point in one.points if point.is_after_air]
    shapes += [shape for point in added for shape in _plus(scale.at(point))]
    keys, texts = _names(scale, styles)
    size = (chart.width_mm, chart.height_mm)
    return drawing([*shapes, *keys], [*texts, *_words(scale)], size, chart.alternative)


def _grid(scale: _Scale) -> Iterator[str]:
    for value, _ in scale.chart.values:
        yield line((_LEFT, scale.y(value)), (scale.right, scale.y(value)), color=_GRID)
    for day, _ in scale.chart.days:
        yield line((scale.x(day), scale.bottom), (scale.x(day), scale.bottom + 3), width=0.8)
    yield line((_LEFT, _TOP), (_LEFT, scale.bottom), (scale.right, scale.bottom), width=0.8)


def _width(one: ReadLine) -> float:
    """Width of a line; none where its marks stand alone."""
    if all(point.begins for point in one.points):
        return 0.0
    return _HEAVY if one.is_heavy else 1.1


def _line(one: ReadLine, dash: str, mark: Callable[[Point], str], scale: _Scale) -> Iterator[str]:
    parts: list[list[Point]] = []
    for point in one.points:
        if point.begins or not parts:
            parts.append([])
        parts[-1].append(scale.at(point))
    yield from (line(*part, width=_width(one), dash=dash) for part in parts if len(part) > 1)
    yield from (mark(at) for part in parts for at in part)


def _plus(at: Point) -> Iterator[str]:
    """A plus over the reading that followed air, clear of whatever is there."""
    x, y = at[0], at[1] - 9
    yield circle((x, y), 4.4)
    yield line((x - 2.8, y), (x + 2.8, y), width=1.4)
    yield line((x, y - 2.8), (x, y + 2.8), width=1.4)


class _Key(NamedTuple):
    """A name beside the end of its line, and how that is drawn."""

    y: float
    name: str
    width: float
    dash: str = ""
    mark: Callable[[Point], str] | None = None


def _names(scale: _Scale, styles: list[tuple[str, Callable[[Point], str]]]) -> tuple[list[str], list[Text]]:
    """Beside the end of each line its name, with a piece of it; the level's among them."""
    chart, shapes, texts = scale.chart, [], []
    keys = [
        _Key(scale.y(max(one.points, key=lambda point: point.day).value), one.name, _width(one), dash, mark)
        for one, (dash, mark) in zip(chart.lines, styles, strict=True)
    ]
    if chart.level:
        value, name = chart.level
        keys.append(_Key(scale.y(value), name, _LEVEL))
    keys.sort(key=lambda one: one.y)
    limits = [(_TOP, scale.bottom)] * len(keys)
    places = spread([one.y for one in keys], lambda i, j: _ROW * (j - i), limits)
    start = scale.right + _GAP
    for one, y in zip(keys, places, strict=True):
        if one.width:
            shapes.append(line((start, y), (start + _SAMPLE, y), width=one.width, dash=one.dash))
        shapes += [one.mark((start + _SAMPLE / 2, y))] if one.mark else []
        texts.append(Text(one.name, start + _SAMPLE + _GAP, y + 3, is_bold=one.width == _HEAVY))
    return shapes, texts


def _words(scale: _Scale) -> Iterator[Text]:
    for value, words in scale.chart.values:
        yield Text(words, _LEFT - 4, scale.y(value) + 3, anchor="end")
    free = 0.0
    for day, words in scale.chart.days:
        text = Text(words, scale.x(day), scale.bottom + 13, anchor="middle")
        if text.box.left >= free:
            yield text
            free = text.box.right + _GAP
