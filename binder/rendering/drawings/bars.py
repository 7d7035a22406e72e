"""Bars: load against rating, days left of each resource, and tanks along a trip."""

from itertools import count, pairwise, takewhile

from binder.cards.blocks import Drawing
from binder.cards.drawings import MarginBar, MarginBars, TankStrip, TankStrips
from binder.rendering.drawings.svg import GRAY, POINTS_PER_MM, Box, Text, drawing, line, polygon, rectangle

_MARGIN_ROW = 50.0
"""Height of a row in points: name, bar, loads and a gap."""

_BAR_TOP, _BAR_BOTTOM = 19.0, 31.0
"""The bar within its row."""

_HATCH = 4.0
"""Points between the lines of the hatching: told apart from gray at arm's length."""


_GAP = 8.0
"""Points between words that stand beside each other."""


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
        top = number * _MARGIN_ROW
        shapes += _margin_bar(row, scale, top)
        texts += _margin_words(row, scale, top, width)
    height = len(chart.rows) * _MARGIN_ROW - 1
    return drawing(shapes, texts, (chart.width_mm, height / POINTS_PER_MM), chart.alternative)


def _margin_bar(row: MarginBar, scale: float, top: float) -> list[str]:
    upper, lower, mark, end = top + _BAR_TOP, top + _BAR_BOTTOM, 1 + scale, 1 + row.share * scale
    shapes = [
        rectangle(Box(1, upper, min(end, mark), lower), GRAY, 0.8),
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


def _margin_words(row: MarginBar, scale: float, top: float, width: float) -> list[Text]:
    mark = 1 + scale
    margin = Text(row.margin, width, top + 13, 13, is_bold=True, anchor="end")
    name = Text(row.name, 0, top + 13, 13, is_bold=True).fitted(width - margin.width - _GAP)
    load, rating = Text(row.load, 0, top + 42), Text(row.rating, mark - 4, top + 42, anchor="end")
    if rating.box.left < load.width + _GAP:
        # A load many times its rating leaves no room before the mark: both stand behind it.
        load = load.moved(right=min(mark + 4, width - load.width - rating.width - _GAP))
        rating = Text(row.rating, load.box.right + _GAP, top + 42)
    return [name, margin, load, rating]


_HEAD = 14.0
"""Points over the strips for the names of the days."""

_STRIP_ROW, _HIGH = 32.0, 26.0
"""Points of a row, and of its strip from empty to full."""

_BEFORE_STRIP = 8.0
"""Points between the words at the left and the strips."""

_ROOM = 3.0
"""Points kept between two names of days."""


def tank_strips(chart: TankStrips) -> Drawing:
    """Draw what each tank holds along a trip; the moments stand at equal distances."""
    width = chart.width_mm * POINTS_PER_MM - 1
    texts: list[Text] = []
    for number, row in enumerate(chart.rows):
        base = _HEAD + number * _STRIP_ROW
        texts += [Text(row.name, 0, base + 11, is_bold=True), Text(row.words, 0, base + 23)]
    left = max((text.width for text in texts), default=0.0) + _BEFORE_STRIP
    count = max((len(row.shares) for row in chart.rows), default=2)
    step = (width - left) / max(count - 1, 1)
    bottom = _HEAD + len(chart.rows) * _STRIP_ROW
    shapes = []
    for number, row in enumerate(chart.rows):
        shapes += _strip(row, _HEAD + number * _STRIP_ROW, (left, width), step)
    for moment, name in chart.days:
        at = left + moment * step
        shapes.append(line((at, _HEAD - 3), (at, bottom - (_STRIP_ROW - _HIGH)), width=0.5, dash="1 2"))
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
