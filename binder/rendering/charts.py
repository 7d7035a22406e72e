"""Bars of load against rating; a load over its rating is told by hatching, a heavy outline and words."""

from itertools import count, takewhile

from binder.cards.blocks import Drawing
from binder.cards.drawings import MarginBar, MarginBars
from binder.rendering.drawing import GRAY, POINTS_PER_MM, Box, Text, drawing, line, rectangle

_ROW = 50.0
"""Height of a row in points: name, bar, loads and a gap."""

_BAR_TOP, _BAR_BOTTOM = 19.0, 31.0
"""The bar within its row."""

_HATCH = 4.0
"""Points between the lines of the hatching: told apart from gray at arm's length."""


def margin_bars(chart: MarginBars) -> Drawing:
    """Draw loads against their ratings, all on one scale of shares.

    Each bar has its rating as a heavy upright mark. What is loaded is gray up to the mark and
    hatched beyond it, in black, so that it is seen without color.
    """
    width = chart.width_mm * POINTS_PER_MM
    full = max([1.0, *(row.share for row in chart.rows)])
    scale = (width - 2) / full
    shapes: list[str] = []
    texts: list[Text] = []
    for number, row in enumerate(chart.rows):
        top = number * _ROW
        shapes += _bar(row, scale, top)
        texts += _words(row, scale, top, width)
    height = len(chart.rows) * _ROW - 1
    return drawing(shapes, texts, (chart.width_mm, height / POINTS_PER_MM), chart.alternative)


def _bar(row: MarginBar, scale: float, top: float) -> list[str]:
    upper, lower, mark, end = top + _BAR_TOP, top + _BAR_BOTTOM, 1 + scale, 1 + row.share * scale
    shapes = [
        rectangle(Box(1, upper, min(end, mark), lower), GRAY, 0),
        rectangle(Box(1, upper, mark, lower), width=0.8),
    ]
    if row.share > 1:
        shapes += _hatched(Box(mark, upper, end, lower))
    if row.is_over:
        shapes.append(rectangle(Box(1, upper, max(end, mark), lower), width=2.0))
    return [*shapes, line((mark, upper), (mark, lower + 12), width=2.4)]


def _hatched(box: Box) -> list[str]:
    """Black diagonals, cut off at the edges of the box."""
    high = box.bottom - box.top
    starts = takewhile(lambda x: x < box.right, (box.left - high + step * _HATCH for step in count()))
    lines = []
    for start in starts:
        # A diagonal rises from (start, bottom) to (start + high, top).
        left, right = max(start, box.left), min(start + high, box.right)
        if right > left:
            lines.append(
                line((left, box.bottom - (left - start)), (right, box.bottom - (right - start)), width=1.4)
            )
    return lines


def _words(row: MarginBar, scale: float, top: float, width: float) -> list[Text]:
    mark = 1 + scale
    name = Text(row.name, 0, top + 13, 13, is_bold=True)
    margin = Text(row.margin, width, top + 13, 13, is_bold=True, anchor="end")
    loads = [Text(row.load, 0, top + 42), Text(row.rating, mark - 4, top + 42, anchor="end")]
    return [name, margin, *loads]
