"""How blocks stand on paper: one row or two, which column is aligned how, which lines share a grid.

Decided here from measured text widths, so that templates only loop and test truth.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import chain, groupby, takewhile
from typing import TypeAlias

from binder.cards.blocks import (
    Bands,
    Big,
    Block,
    Card,
    Consequence,
    Continued,
    Heading,
    Line,
    Picture,
    RoadLine,
    Side,
    Step,
    Table,
    ValueTable,
)
from binder.rendering.columns import (
    Align,
    alignments,
    column_widths,
    has_room_for_large,
    has_room_for_names,
    kept_columns,
    narrow_tables,
    placed_bands,
    value_widths,
)
from binder.rendering.drawings.drawers import drawn
from binder.rendering.paper import NORMAL, TypeSize
from binder.rendering.typeface import text_width

HEADING, ACTED_ON, SMALL = 14, 13, 9
"""Sizes in points of a group's heading, of what is acted on, and of what explains it."""

WRONG = "Reprint if"
"""What leads in when a card has become wrong."""

_BIG_SIZES = (40, 32, 24)

GAP = 10
"""Least distance in points between a challenge and its answer, so that they read as two."""

TICK_CELL = 23.5
"""Width in points of a tick cell: 8.3 mm, over the 8 mm that a gloved hand with a grease pencil needs."""

ROAD = 52.0
"""Points that the road and its miles take from the width of a line."""

CELL_PADDING = 11.2
"""Points of padding and rule left and right, together, of a line inside a grid."""

IF_NOT = "if not: "
"""What leads a consequence in, so that nobody reads it as a part of the challenge."""

CONTINUED = ", continued"
"""What ends the heading of a group that began on the side before."""

_LARGE_ROWS = 3
"""A value table of so few rows sets its values in 32 points, a longer one in 24."""

_LONG, _WHOLE_ROWS = 120, 16
"""Characters of a cell and rows of a small table that is not broken over pages: under half a page."""


@dataclass(frozen=True)
class PlacedLine:
    """A line and how it stands.

    ``two_rows``: the answer goes below its challenge. ``consequence`` is led in and final, empty
    where the heading above says it for the whole group; ``aside``: it has room beside the
    challenge, else it goes below with the detail.
    """

    line: Line
    two_rows: bool
    consequence: str
    aside: bool
    kind: str = "line"


@dataclass(frozen=True)
class PlacedRoadLine(PlacedLine):
    """A line beside a day's road."""

    line: RoadLine
    kind: str = "road_line"


@dataclass(frozen=True)
class TickGrid:
    """Lines with tick cells, one column a stop; ``numbered`` on the first grid of a side."""

    lines: tuple[PlacedLine, ...]
    columns: tuple[str, ...]
    numbered: bool
    kind: str = "tick_grid"

    def width_of_lines(self, width: float) -> float:
        """Points left to a line beside the cells."""
        return width - len(self.columns) * TICK_CELL - CELL_PADDING


@dataclass(frozen=True)
class PlacedHeading:
    """A group heading; ``consequence``, led in, holds for every line below that says no other."""

    text: str
    consequence: str
    is_grave: bool
    kind: str = "heading"


@dataclass(frozen=True)
class PlacedBig:
    """A large value; ``two_rows`` where it has no room beside its name, ``points`` less where it is long."""

    big: Big
    two_rows: bool
    points: int
    kind: str = "big"


@dataclass(frozen=True)
class PlacedTable:
    """A table with the alignment of each column.

    ``classes`` adds to it whether a column's short cells stay on one row; ``is_whole``: a page break
    goes before the table, not through it. ``widths`` of its columns where they are measured.
    """

    table: Table
    aligns: tuple[Align, ...]
    classes: tuple[str, ...]
    is_whole: bool
    widths: tuple[float, ...] = ()
    kind: str = "table"


@dataclass(frozen=True)
class PlacedValues:
    """A value table; ``large`` where its values are set in 32 points.

    ``is_name_above``: a name has a row of its own, where a word of one has no room beside the figures.
    """

    table: ValueTable
    large: bool
    widths: tuple[float, ...]
    is_name_above: bool
    kind: str = "value_table"


@dataclass(frozen=True)
class PlacedBands(PlacedValues):
    """Bands of what a gauge reads; where names stand above them, ``widths`` has none of the names."""

    table: Bands
    kind: str = "bands"


PlacedBlock: TypeAlias = (
    Block | PlacedHeading | PlacedLine | PlacedBig | TickGrid | PlacedTable | PlacedValues
)


@dataclass(frozen=True)
class FooterRow:
    """A row of a side's footer; what stands at its right goes below where it has no room beside the rest."""

    left: str
    right: str
    is_below: bool


def footers(
    card: Card, number: int, count: int, width: float, size: TypeSize = NORMAL
) -> tuple[FooterRow, ...]:
    """Set what a side is, and what printing it belongs to."""
    side = f"side {number} of {count}" + (CONTINUED if number < count else "")
    printing = (
        f"code {card.code}" if card.code else "",
        f"effective {card.effective}" if card.effective else "",
    )
    whose = (card.rig, card.set_title)
    rows = ((f"{card.id} {card.title}", side), (_dotted(whose), _dotted(printing)))
    used = [sum(text_width(text, size.footer) for text in row) + GAP for row in rows]
    return tuple(FooterRow(*row, wide > width) for row, wide in zip(rows, used, strict=True))


def _dotted(parts: Iterable[str]) -> str:
    return " \u00b7 ".join(part for part in parts if part)


def wrong_text(card: Card) -> str:
    """Say when a card becomes wrong; nothing where it does not say."""
    wrong = card.wrong_as_soon_as.strip()
    if wrong.lower().startswith(WRONG.lower()):
        wrong = wrong[len(WRONG) :].lstrip(" :")
    return f"{WRONG} {wrong}" if wrong else ""


@dataclass(frozen=True)
class PlacedSide:
    """A side ready for its template; ``has_killers`` where the bar at the left must be explained."""

    use: str
    blocks: tuple[PlacedBlock, ...]
    number: int
    count: int
    has_killers: bool


def placed_side(side: Side, number: int, count: int, width: float, size: TypeSize = NORMAL) -> PlacedSide:
    """Place a side's blocks."""
    has_killers = any(isinstance(block, Line | Step) and block.killer for block in side.blocks)
    blocks = tuple(placed_on_card(side.blocks, width, size))
    return PlacedSide(side.use, blocks, number, count, has_killers)


def placed_on_card(blocks: Iterable[Block], width: float, size: TypeSize = NORMAL) -> Iterator[PlacedBlock]:
    """Place blocks in the column of a card, the columns of their tables measured."""
    for placed in placed_blocks(blocks, width, size):
        if isinstance(placed, PlacedTable):
            yield replace(placed, widths=column_widths(placed.table, width))
        else:
            yield placed


def placed_on_page(
    blocks: Iterable[Block], width: float, *, is_measured: bool = False
) -> Iterator[PlacedBlock]:
    """Place blocks in the column of a page; a table that has no room there stands in parts.

    Columns are measured of parts, and where asked of all that are not written in: WeasyPrint would try each
    letter of each cell, which takes a quarter of all its time.
    """
    made = [tuple(narrow_tables(one, width)) if isinstance(one, Table) else (one,) for one in blocks]
    parted = {id(part) for parts in made if len(parts) > 1 for part in parts}
    for placed in placed_blocks(chain.from_iterable(made), width):
        if isinstance(placed, PlacedTable) and id(placed.table) in parted:
            yield replace(placed, widths=column_widths(placed.table, width))
        elif isinstance(placed, PlacedTable) and is_measured and not placed.table.to_fill:
            yield replace(placed, widths=column_widths(placed.table, width, may_part_words=True))
        else:
            yield placed


def placed_blocks(blocks: Iterable[Block], width: float, size: TypeSize = NORMAL) -> Iterator[PlacedBlock]:
    """Place blocks in a column."""
    numbered = False
    for ticks, group in groupby(
        _with_defaults(tuple(blocks), width), lambda pair: getattr(pair[0], "ticks", 0)
    ):
        if ticks:
            # One cell is ticked off once: it is no stop that would be numbered.
            stops = tuple(str(stop) for stop in range(1, ticks + 1))
            grid = TickGrid((), stops, not numbered and ticks > 1)
            room = grid.width_of_lines(width)
            lines = tuple(placed_line(line, room, above) for line, above in group if isinstance(line, Line))
            yield replace(grid, lines=lines)
            numbered = True
        else:
            yield from (_placed(block, width, default, size) for block, default in group)


def _with_defaults(blocks: tuple[Block, ...], width: float) -> Iterator[tuple[Block, Consequence]]:
    """Pair each heading, and each line of its group, with the consequence the heading says for all."""
    default: Consequence = ""
    for position, block in enumerate(blocks):
        if isinstance(block, Heading):
            group = takewhile(lambda other: isinstance(other, Line), blocks[position + 1 :])
            default = _default([line for line in group if isinstance(line, Line)])
            if default and not _has_room_for(block, default, width):
                default = ""
        elif not isinstance(block, Line):
            default = ""
        yield block, default


def _has_room_for(heading: Heading, default: Consequence, width: float) -> bool:
    name = text_width(heading_text(heading), HEADING, "Bold")
    return name + GAP + text_width(f"{IF_NOT}{default}", SMALL, "Bold") <= width


def heading_text(heading: Heading) -> str:
    """Name a group, and tell where it began on the side before."""
    return heading.text + (CONTINUED if isinstance(heading, Continued) else "")


def _default(lines: list[Line]) -> Consequence:
    """Choose the most frequent consequence of a group; none where a line of it has none.

    A killer line says its own, unless the whole group says the same.
    """
    said: list[Consequence] = [line.consequence for line in lines]
    if not said or not all(said):
        return ""
    usual: list[Consequence] = [line.consequence for line in lines if not line.killer] or said
    return max(usual, key=usual.count)


def _placed(block: Block, width: float, default: Consequence, size: TypeSize) -> PlacedBlock:
    if isinstance(block, Heading):
        return PlacedHeading(
            heading_text(block), f"{IF_NOT}{default}" if default else "", default == "DO NOT MOVE"
        )
    if isinstance(block, Line):
        return _road_line(block, width) if isinstance(block, RoadLine) else placed_line(block, width, default)
    if isinstance(block, Table):
        return _placed_table(block)
    if isinstance(block, ValueTable):
        return _placed_values(block, width, size.value)
    if isinstance(block, Picture):
        return drawn(block, width)
    return _placed_big(block, width) if isinstance(block, Big) else block


def _road_line(line: RoadLine, width: float) -> PlacedRoadLine:
    beside = placed_line(line, width - ROAD)
    return PlacedRoadLine(line, beside.two_rows, beside.consequence, beside.aside)


def _placed_values(table: ValueTable, width: float, points: float) -> PlacedValues:
    """Set the values in 32 points where few names have room beside them."""
    is_few = len(table.rows) <= _LARGE_ROWS
    if not isinstance(table, Bands):
        is_large = is_few and has_room_for_large(table, width)
        widths = value_widths(table, width, 32 if is_large else points)
        return PlacedValues(table, is_large, widths, not has_room_for_names(table, widths[0]))
    widths, is_large, is_name_above = placed_bands(table, width, points, may_be_large=is_few)
    return PlacedBands(table, is_large, widths, is_name_above)


def _placed_big(big: Big, width: float) -> PlacedBig:
    name = max(text_width(big.name, ACTED_ON), text_width(big.detail, SMALL))
    sizes = [points for points in _BIG_SIZES if points <= big.points]
    points = next((one for one in sizes if text_width(big.value, one, "Bold") <= width), sizes[-1])
    return PlacedBig(big, name + GAP + text_width(big.value, points, "Bold") > width, points)


def placed_line(line: Line, width: float, default: Consequence = "") -> PlacedLine:
    """Decide whether a line's answer, and its consequence, stand beside its challenge."""
    challenge = text_width(line.challenge, ACTED_ON) + GAP
    answer = text_width(line.answer, ACTED_ON, "Bold")
    said = f"{IF_NOT}{line.consequence}" if line.consequence != default else ""
    beside = challenge + GAP + text_width(said, SMALL, "Bold")
    two_rows = challenge + answer > width
    return PlacedLine(line, two_rows, said, bool(said) and beside + (0 if two_rows else answer) <= width)


def _placed_table(table: Table) -> PlacedTable:
    aligns = tuple(alignments(table))
    kept = zip(aligns, kept_columns(table), strict=True)
    classes = tuple(f"{align} kept" if keeps else align for align, keeps in kept)
    is_low = len(table.rows) <= _WHOLE_ROWS and all(len(cell) <= _LONG for row in table.rows for cell in row)
    return PlacedTable(table, aligns, classes, table.small and is_low)
