"""How blocks stand on paper: one row or two, which column is aligned how, which lines share a grid.

Decided here from measured text widths, so that templates only loop and test truth.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import groupby
from typing import Literal, TypeAlias

from binder.cards.blocks import Block, Line, Side, Table, ValueTable
from binder.rendering.text_width import text_width

Align: TypeAlias = Literal["left", "right"]

ACTED_ON, SMALL = 13, 9
"""Sizes in points of what is acted on and of what explains it."""

GAP = 12
"""Least distance in points between a challenge and its answer, so that they read as two."""

TICK_CELL = 23.5
"""Width in points of a tick cell: 8.3 mm, over the 8 mm that a gloved hand with a grease pencil needs."""

CELL_PADDING = 12
"""Points of padding left and right, together, of a line inside a grid."""

_LARGE_ROWS = 3
"""A value table of so few rows sets its values in 32 points, a longer one in 24."""

_NUMBER = re.compile(r"^[-+−–—]?[\d.,/:]*\d[\d.,/:]*( ?[^\d\s]{1,5})?$|^[–—-]?$")


@dataclass(frozen=True)
class PlacedLine:
    """A line and how it stands.

    ``two_rows``: the answer goes below its challenge; ``aside``: the consequence has room beside
    the challenge, else it goes below with the detail.
    """

    line: Line
    two_rows: bool
    aside: bool
    kind: str = "line"


@dataclass(frozen=True)
class TickGrid:
    """Lines with tick cells, one column a stop; ``numbered`` on the first grid of a side."""

    lines: tuple[PlacedLine, ...]
    columns: tuple[str, ...]
    numbered: bool
    kind: str = "tick_grid"


@dataclass(frozen=True)
class PlacedTable:
    """A table with the alignment of each column."""

    table: Table
    aligns: tuple[Align, ...]
    kind: str = "table"


@dataclass(frozen=True)
class PlacedValues:
    """A value table; ``large`` where its values are set in 32 points."""

    table: ValueTable
    large: bool
    kind: str = "value_table"


PlacedBlock: TypeAlias = Block | PlacedLine | TickGrid | PlacedTable | PlacedValues


@dataclass(frozen=True)
class PlacedSide:
    """A side ready for its template; ``explains`` where it has consequences to explain."""

    use: str
    blocks: tuple[PlacedBlock, ...]
    number: int
    count: int
    explains: bool


def placed_side(side: Side, number: int, count: int, width: float) -> PlacedSide:
    """Place a side's blocks.

    Args:
        side: the view model.
        number: of the side, from 1.
        count: of the card's sides.
        width: the lines are set in, in points.

    Returns:
        The side, ready for its template.

    Sources:
        Own typography.

    Example:
        >>> placed_side(Side("Read, then do.", (Line("Chocks", "IN"),)), 1, 1, 333).blocks[0].two_rows
        False
    """
    explains = any(isinstance(block, Line) and block.consequence for block in side.blocks)
    return PlacedSide(side.use, tuple(placed_blocks(side.blocks, width)), number, count, explains)


def placed_blocks(blocks: Iterable[Block], width: float) -> Iterator[PlacedBlock]:
    """Place blocks in a column.

    Args:
        blocks: in reading order.
        width: of the column, in points.

    Returns:
        Each block as it stands; neighbors with equally many tick cells share a grid.

    Sources:
        Own typography.

    Example:
        >>> [block.kind for block in placed_blocks([Line("A", "B", ticks=4), Line("C", "D", ticks=4)], 333)]
        ['tick_grid']
    """
    numbered = False
    for ticks, group in groupby(blocks, lambda block: block.ticks if isinstance(block, Line) else 0):
        if ticks:
            room = width - ticks * TICK_CELL - CELL_PADDING
            lines = tuple(placed_line(line, room) for line in group if isinstance(line, Line))
            yield TickGrid(lines, tuple(str(stop) for stop in range(1, ticks + 1)), not numbered)
            numbered = True
        else:
            yield from (_placed(block, width) for block in group)


def _placed(block: Block, width: float) -> PlacedBlock:
    if isinstance(block, Line):
        return placed_line(block, width)
    if isinstance(block, Table):
        return PlacedTable(block, tuple(_alignments(block)))
    if isinstance(block, ValueTable):
        return PlacedValues(block, len(block.rows) <= _LARGE_ROWS)
    return block


def placed_line(line: Line, width: float) -> PlacedLine:
    """Decide whether a line's answer, and its consequence, stand beside its challenge.

    Args:
        line: the view model.
        width: it is set in, in points.

    Returns:
        The line as it stands.

    Sources:
        Own typography; widths from the font files.

    Example:
        >>> placed_line(Line("Cord", "IN", consequence="do not move"), 333).aside
        True
    """
    challenge = text_width(line.challenge, ACTED_ON) + GAP
    answer = text_width(line.answer, ACTED_ON, "Bold")
    beside = GAP + text_width(line.consequence, SMALL, "Bold")
    two_rows = challenge + answer > width
    aside = bool(line.consequence) and challenge + beside + (0 if two_rows else answer) <= width
    return PlacedLine(line, two_rows, aside)


def _alignments(table: Table) -> Iterator[Align]:
    for column in range(len(table.headers)):
        cells = [row[column] for row in table.rows if column < len(row)]
        yield "right" if column and cells and all(_NUMBER.match(cell) for cell in cells) else "left"
