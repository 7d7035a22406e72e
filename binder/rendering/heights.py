"""How high a block stands on a card: measured texts, and the distances that the style sheets set.

Why: what fits on a side is decided before anything is typeset, so that ``check`` can tell it too. The
numbers are those of ``templates/css``; a test compares the heights with the boxes WeasyPrint lays out.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any

from binder.cards.blocks import Aside, Blank, Box, Drawing, End, Listing, Note, Step
from binder.rendering.columns import (
    ACTED_ON,
    BAND_GAP,
    CELL_GAP,
    GO,
    MARKED,
    NAME_GAP,
    SMALL,
    VALUE_GAP,
    banded,
)
from binder.rendering.paper import POINTS_PER_MM
from binder.rendering.placing import (
    ROAD,
    PlacedBands,
    PlacedBig,
    PlacedBlock,
    PlacedHeading,
    PlacedLine,
    PlacedRoadLine,
    PlacedTable,
    PlacedValues,
    TickGrid,
)
from binder.rendering.typeface import Weight, row_count

GROUP = 14.0
"""Points of group headings; of what is acted on and of what explains it: columns.py."""

ROW, SMALL_ROW, GROUP_ROW = 18.0, 12.0, 19.0
"""Points from a row to the next, by the size of its type."""

_HAIR, _FRAME = 0.5, 1.6
_BIG_ROWS = {24: 32.0, 32: 42.0, 40: 52.0}
_BESIDE = {24: (13.0, 37.0), 32: (21.0, 48.0), 40: (29.0, 59.0)}
"""Points above the name beside a large value, and of the least height of both."""

_BAND_PADDING, _BAND_RULE = 4.0, 0.8

_VALUE_ROWS = {False: 34.0, True: 42.0}
_BOX_BORDERS = {"": 1.6, "DANGER": 3.0, "WARNING": 1.6, "CAUTION": 0.8, "NOTICE": 0.8}
_BOX_WORDS = {"": 0.0, "DANGER": 19.6, "WARNING": 19.6, "CAUTION": 18.8, "NOTICE": 12.0}
"""Points of a box's frame, and of its signal word with the rule below it."""


@dataclass(frozen=True)
class Text:
    """A text, its type, and the width of the row it stands on."""

    text: str
    points: float
    width: float
    weight: Weight = "Regular"

    @property
    def rows(self) -> int:
        """Rows it takes; none where it is empty."""
        return row_count(self.text, self.points, self.width, self.weight) if self.text else 0


@dataclass
class Height:
    """Points of a block, of the distances it keeps above and below, and its texts."""

    body: float = 0.0
    above: float = 0.0
    below: float = 0.0
    texts: list[Text] = field(default_factory=list)

    def set_rows(
        self, text: str, points: float, row: float, width: float, weight: Weight = "Regular"
    ) -> None:
        """Set a text below what is set so far."""
        said = Text(text, points, width, weight)
        self.texts.append(said)
        self.body += row * said.rows


def stacked(heights: Iterable[Height]) -> float:
    """Add up blocks one below the other: of two distances that meet the larger is kept."""
    total, before = 0.0, 0.0
    for one in heights:
        total += max(before, one.above) + one.body
        before = one.below
    return total + before


def height_of(placed: PlacedBlock, width: float) -> Height:
    """Measure a placed block in a column."""
    measure: Callable[[Any, float], Height] = _MEASURES[type(placed)]
    return measure(placed, width)


def _heading(placed: PlacedHeading, width: float) -> Height:
    found = Height(above=9)
    found.set_rows(placed.text, GROUP, GROUP_ROW, width, "Bold")
    return found


def _note(note: Note, width: float) -> Height:
    found = Height(0.0, 6, 6)
    found.set_rows(note.text, SMALL, SMALL_ROW, width)
    return found


def _listing(listing: Listing, _width: float) -> Height:
    return Height(SMALL_ROW * len(listing.lines), 6, 6)


def _drawing(drawing: Drawing, _width: float) -> Height:
    return Height(drawing.height_mm * POINTS_PER_MM, 8, 4)


def _blank(blank: Blank, width: float) -> Height:
    found = Height(9 + 0.6)
    found.set_rows(blank.name, ACTED_ON, ROW, width)
    return found


def _end(end: End, width: float) -> Height:
    found = Height(above=12)
    found.set_rows(end.text, ACTED_ON, ROW, width - 15, "Bold")
    return found


def _line(placed: PlacedLine, width: float, *, in_grid: bool = False) -> Height:
    line = placed.line
    found = Height(0.0 if in_grid else 1.5 + _HAIR)
    found.set_rows(line.challenge, ACTED_ON, ROW, width)
    if placed.two_rows:
        found.set_rows(line.answer, ACTED_ON, ROW, width, "Bold")
    below = placed.consequence if placed.consequence and not placed.aside else ""
    detail = " · ".join(part for part in (line.detail, below.replace(" ", "\u00a0")) if part)
    if detail:
        found.set_rows(detail, SMALL, SMALL_ROW, width)
        found.body += -2 if in_grid else 1
    return found


def _road_line(placed: PlacedRoadLine, width: float) -> Height:
    found = _line(placed, width - ROAD)
    # It may reach into the margin at its left.
    found.texts.append(Text(placed.line.mile, SMALL, ROAD))
    found.above = placed.line.gap
    return found


def _grid(grid: TickGrid, width: float) -> Height:
    found = Height(0.6 + (SMALL_ROW + 1 + 0.6 if grid.numbered else 0.0))
    for placed in grid.lines:
        row = _line(placed, grid.width_of_lines(width), in_grid=True)
        found.texts += row.texts
        found.body += max(ROW, row.body) + 4.8 + 0.6
    return found


def _step(step: Step, width: float) -> Height:
    left = 24.0
    if step.indent:
        left = 24.5 + (32 if step.number else 10)
    found = Height(3.0)
    found.set_rows(step.text, ACTED_ON, ROW, width - left)
    if step.detail:
        found.set_rows(step.detail, SMALL, SMALL_ROW, width - left)
        found.body += 1
    return found


def _box(box: Box, width: float) -> Height:
    border = _BOX_BORDERS[box.word]
    found = Height(2 * border + 13 + _BOX_WORDS[box.word], 12, 4)
    inner = width - 2 * (border + 9)
    found.set_rows(box.title, ACTED_ON, ROW, inner, "Bold")
    for line in box.lines:
        found.set_rows(line, ACTED_ON, ROW, inner)
    return found


def _big(placed: PlacedBig, width: float) -> Height:
    big, found = placed.big, Height(_HAIR)
    if placed.two_rows:
        found.body += 11
        found.set_rows(big.name, ACTED_ON, ROW, width)
        found.set_rows(big.detail, SMALL, SMALL_ROW, width)
        found.set_rows(big.value, placed.points, _BIG_ROWS[placed.points], width, "Bold")
        return found
    above, least = _BESIDE[placed.points]
    found.body += above + 3
    found.set_rows(big.name, ACTED_ON, ROW, width)
    found.set_rows(big.detail, SMALL, SMALL_ROW, width)
    found.body = max(found.body, least)
    return found


def _caption(text: str, width: float) -> Height:
    found = Height()
    if text:
        found.body += 11
        found.set_rows(text, GROUP, GROUP_ROW, width, "Bold")
    return found


def _values(placed: PlacedValues, _width: float) -> Height:
    names = sum(placed.widths) if placed.is_name_above else placed.widths[0]
    found = _caption(placed.table.caption, sum(placed.widths))
    headers = [
        Text(text, SMALL, wide - VALUE_GAP)
        for text, wide in zip(placed.table.headers, placed.widths[1:], strict=True)
    ]
    found.texts += headers
    found.body += 8.8 + SMALL_ROW * max((one.rows for one in headers), default=1)
    for row in placed.table.rows:
        name = Height(6.0)
        name.set_rows(row.name, ACTED_ON, ROW, names, "Bold")
        if row.detail:
            name.set_rows(row.detail, SMALL, SMALL_ROW, names)
            name.body -= 2
        found.texts += name.texts
        figures = _VALUE_ROWS[placed.large]
        found.body += (figures + name.body if placed.is_name_above else max(figures, name.body)) + 0.8
    return found


def _bands(placed: PlacedBands, _width: float) -> Height:
    found, bands = Height(above=6, below=6), placed.table
    *names, flat, add, go, over = placed.widths
    name_width = (names[0] if names else sum(placed.widths)) - NAME_GAP
    inner = [wide - BAND_GAP for wide in (flat, add, go, over)]
    heads = [Height(_BAND_PADDING) for _ in inner]
    for head, header, action, wide in zip(heads, bands.headers, bands.actions, inner, strict=True):
        head.set_rows(header, ACTED_ON, ROW, wide, "Bold")
        head.set_rows(action, SMALL, SMALL_ROW, wide)
    found.body = _BAND_RULE
    _set_beside(found, heads)
    for row in bands.rows:
        name, cells = Height(_BAND_PADDING), [Height(_BAND_PADDING) for _ in inner]
        name.set_rows(row.name, ACTED_ON, ROW, name_width, "Bold")
        name.set_rows(row.detail, SMALL, SMALL_ROW, name_width)
        cells[GO].body += _VALUE_ROWS[placed.large]
        for at, (cell, wide) in enumerate(zip(cells, inner, strict=True)):
            cell.set_rows(row.others[at], ACTED_ON, ROW, wide, "Bold" if at == GO else "Regular")
        if placed.is_name_above:
            _set_beside(found, [name])
        _set_beside(found, cells if placed.is_name_above else [name, *cells])
    return found


def _set_beside(found: Height, cells: list[Height]) -> None:
    """Set cells beside each other, and a rule below them."""
    found.texts += [text for cell in cells for text in cell.texts]
    found.body += _BAND_RULE + max(cell.body for cell in cells)


def _table(placed: PlacedTable, _width: float) -> Height:
    table, small = placed.table, placed.table.small
    found = _caption(table.caption, sum(placed.widths))
    found.above = 6
    rooms = tuple(
        wide - (CELL_GAP if at else 0.0) - banded(table, at) for at, wide in enumerate(placed.widths)
    )
    found.body += 8.5 + SMALL_ROW * _row(table.headers, rooms, found, SMALL)
    for at, row in enumerate(table.rows):
        if at in table.marked:
            name, value, *others = row
            heads = Height(), Height()
            heads[0].set_rows(name, ACTED_ON, ROW, rooms[0], "Bold")
            heads[1].set_rows(value, MARKED, _BIG_ROWS[24], rooms[1], "Bold")
            found.texts += [*heads[0].texts, *heads[1].texts]
            rest = ROW * _row(("", *others), (0.0, *rooms[2:]), found, ACTED_ON)
            found.body += _HAIR + max(rest, *(head.body for head in heads))
        elif small:
            found.body += 4.5 + SMALL_ROW * _row(row, rooms, found, SMALL)
        else:
            found.body += _HAIR + ROW * _row(row, rooms, found, ACTED_ON)
    return found


def _row(cells: Iterable[str], rooms: tuple[float, ...], found: Height, points: float) -> int:
    """Rows of the cell that has most."""
    weight: Weight = "Bold" if points == ACTED_ON else "Regular"
    texts = [
        Text(cell, points, room, weight if at else "Regular")
        for at, (cell, room) in enumerate(zip(cells, rooms, strict=True))
    ]
    found.texts += texts
    return max([1, *(one.rows for one in texts)])


_MEASURES: Mapping[type, Callable[[Any, float], Height]] = MappingProxyType(
    {
        PlacedLine: _line,
        PlacedRoadLine: _road_line,
        PlacedHeading: _heading,
        TickGrid: _grid,
        PlacedBig: _big,
        PlacedValues: _values,
        PlacedBands: _bands,
        PlacedTable: _table,
        Step: _step,
        Box: _box,
        Note: _note,
        Aside: _note,
        Listing: _listing,
        Drawing: _drawing,
        Blank: _blank,
        End: _end,
    }
)
