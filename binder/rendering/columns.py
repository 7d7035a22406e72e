"""How wide the columns of a card's tables are, and which tables have more columns than a side is wide."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Literal, TypeAlias

from binder.cards.blocks import Bands, Table, ValueTable
from binder.rendering.typeface import Weight, pieces, row_count, text_width

Align: TypeAlias = Literal["left", "right"]

_NUMBER = re.compile(r"^[-+\u2212\u2013\u2014]?[\d.,/:]*\d[\d.,/:]*( ?[^\d\s]{1,5})?$|^[-\u2013\u2014]?$")

_DIGIT = re.compile(r"\d")

BAND_END = 5.0
"""Points of a black band at the left of its first cell and at the right of its last."""

GO = 2
"""Place among the bands of the one from whose value on nothing is done."""

CELL_GAP, VALUE_GAP = 9.0, 8.0
"""Points at the left of a cell but the first of a row, and of a cell of a value table."""

NAME_GAP, BAND_GAP = 4.8, 6.8
"""Points of padding and rule left and right, together, of a name beside bands and of a band."""

HEADER_WIDTH = 44.4
"""Points in which the headers of a value table break."""

ACTED_ON, SMALL, MARKED = 13.0, 9.0, 24.0
_NAME_LEAST = 96.0
"""Points left to the names of a value table whose values are set large."""

_BESIDE_BANDS = 108.0
"""Points that names beside bands have before the bands take room for whole cells."""

_DETAIL_ROWS = {True: 4, False: 5}
"""Rows of a name's detail that stand beside large bands and others; names with more stand above them."""

_SHORT, _SHORT_HEAD = 16, 25
"""Characters of a cell, and of a row's head, kept on one row in a small table: a quantity, a name."""

_SPARE = 0.5
"""Points by which a cell is wider than its text, lest rounding break it."""


Broken: TypeAlias = Literal["nowhere", "between words", "anywhere"]
"""Where a cell may be broken."""


def column_widths(table: Table, width: float, *, may_part_words: bool = False) -> tuple[float, ...]:
    """Give each column its longest word, and what is left over by the length of its cells.

    On a page a word is parted where words have no room: what is so long there is an address.
    """
    least, most = _needed(table, "between words"), _needed(table, "nowhere")
    if sum(most) <= width:
        return tuple(one * width / sum(most) for one in most)
    if may_part_words and sum(least) > width:
        least = _needed(table, "anywhere")
        if sum(least) > width:
            return tuple(one * width / sum(least) for one in least)
    share = (width - sum(least)) / (sum(most) - sum(least)) if sum(most) > sum(least) else 0.0
    return tuple(low + max(0.0, share) * (high - low) for low, high in zip(least, most, strict=True))


def kept_columns(table: Table) -> tuple[bool, ...]:
    """Tell which columns of a small table keep each of their short cells on one row."""
    rooms = (_SHORT_HEAD, *[_SHORT] * (len(table.headers) - 1))
    return tuple(
        table.small and all(len(row[column]) <= room for row in table.rows if column < len(row))
        for column, room in enumerate(rooms)
    )


def _needed(table: Table, broken: Broken) -> list[float]:
    points, bold = (SMALL, "Regular") if table.small else (ACTED_ON, "Bold")
    needed, kept = [], kept_columns(table)
    for column, header in enumerate(table.headers):
        weight: Weight = "Bold" if column and bold == "Bold" else "Regular"
        at_most: Broken = "nowhere" if kept[column] else broken
        cells = [_wide(row[column], points, weight, at_most) for row in table.rows if column < len(row)]
        if column <= 1:
            size = MARKED if column else points
            cells += [_wide(table.rows[at][column], size, "Bold", at_most) for at in table.marked]
        head: Broken = "nowhere" if broken == "nowhere" else "between words"
        widest = max([_wide(header, SMALL, "Regular", head), *cells])
        needed.append(widest + _SPARE + (CELL_GAP if column else 0.0) + banded(table, column))
    return needed


def banded(table: Table, column: int) -> float:
    """Points that the first and the last column keep from the ends of a black band."""
    return BAND_END if table.marked and column in {0, len(table.headers) - 1} else 0.0


def _wide(text: str, points: float, weight: Weight, broken: Broken) -> float:
    parts = [text]
    if broken == "between words":
        parts = pieces(text)
    elif broken == "anywhere":
        parts = list(text)
    return max((text_width(part, points, weight) for part in parts), default=0.0)


def narrow_tables(table: Table, width: float) -> Iterator[Table]:
    """Set the columns that have no room beside the others in a table below, each with its row heads."""
    least = _needed(table, "between words")
    first = 1
    while first < len(least):
        last, used = first + 1, least[0] + least[first]
        while last < len(least) and used + least[last] <= width:
            last, used = last + 1, used + least[last]
        yield _with_columns(table, first, last)
        first = last
    if len(least) <= 1:
        yield table


def _with_columns(table: Table, first: int, last: int) -> Table:
    def kept(cells: Sequence[str]) -> tuple[str, ...]:
        return (*cells[:1], *cells[first:last])

    return replace(table, headers=kept(table.headers), rows=tuple(kept(row) for row in table.rows))


def value_widths(table: ValueTable, width: float, value_points: float) -> tuple[float, ...]:
    """Give each figure what it needs, and the names the rest."""
    columns = [max([0.0, *(text_width(row.value, value_points, "Bold") for row in table.rows)])]
    columns += [
        max([0.0, *(text_width(row.others[at], ACTED_ON, "Bold") for row in table.rows)])
        for at in range(len(table.headers) - 1)
    ]
    figures = [VALUE_GAP + max(HEADER_WIDTH, one + _SPARE) for one in columns]
    return (width - sum(figures), *figures)


def has_room_for_names(table: ValueTable, names: float) -> bool:
    """Tell whether each word of a name has room beside the figures."""
    return all(_wide(row.name, ACTED_ON, "Bold", "between words") <= names for row in table.rows)


def has_room_for_large(table: ValueTable, width: float) -> bool:
    """Tell whether the names keep enough room beside large values."""
    return value_widths(table, width, 32)[0] >= _NAME_LEAST


def _band_widths(bands: Bands, width: float, value_points: float) -> tuple[float, ...]:
    """Give names and bands their longest word, bands whole cells as there is room, and names the rest."""
    names = [_wide(row.name, ACTED_ON, "Bold", "between words") for row in bands.rows]
    names += [_wide(row.detail, SMALL, "Regular", "between words") for row in bands.rows]
    found, whole = [max([0.0, *names]) + NAME_GAP], [0.0]
    for at, (header, action) in enumerate(zip(bands.headers, bands.actions, strict=True)):
        heads = [_wide(header, ACTED_ON, "Bold", "nowhere"), _wide(action, SMALL, "Regular", "between words")]
        cells = [row.others[at] for row in bands.rows]
        weight: Weight = "Bold" if at == GO else "Regular"
        if at == GO:
            heads += [_wide(row.value, value_points, "Bold", "nowhere") for row in bands.rows]
        least = max([*heads, *(_wide(cell, ACTED_ON, weight, "between words") for cell in cells)])
        most = max([least, *(_wide(cell, ACTED_ON, weight, "nowhere") for cell in cells)])
        found.append(least + BAND_GAP + _SPARE)
        whole.append(most - least)
    spare = max(0.0, width - sum(found))
    share = min(1.0, max(0.0, spare - max(0.0, _BESIDE_BANDS - found[0])) / (sum(whole) or 1.0))
    bands_wide = tuple(one + share * more for one, more in zip(found[1:], whole[1:], strict=True))
    return (max(found[0], width - sum(bands_wide)), *bands_wide)


def placed_bands(
    bands: Bands, width: float, points: float, *, may_be_large: bool
) -> tuple[tuple[float, ...], bool, bool]:
    """Give the widths of bands, whether their values are large, and whether names stand above them."""
    for is_large in (True, False) if may_be_large else (False,):
        widths = _band_widths(bands, width, 32 if is_large else points)
        rows = max((row_count(row.detail, SMALL, widths[0] - NAME_GAP) for row in bands.rows), default=0)
        if sum(widths) <= width + _SPARE and rows <= _DETAIL_ROWS[is_large]:
            return widths, is_large, False
    nameless = replace(bands, rows=tuple(replace(row, name="", detail="") for row in bands.rows))
    _, *alone = _band_widths(nameless, width, points)
    return tuple(one * width / sum(alone) for one in alone), False, True


def alignments(table: Table) -> Iterator[Align]:
    """How each column of a table is aligned: numbers that are compared at their right."""
    for column in range(len(table.headers)):
        cells = [row[column] for row in table.rows if column < len(row)]
        numbers = [cell for cell in cells if _NUMBER.match(cell)]
        # On a card the odd word stands among numbers that are compared; on a page words are read.
        are_numbers = len(numbers) == len(cells) or not table.small
        # Dashes alone are no numbers: a column of words may have gaps.
        yield "right" if column and are_numbers and any(map(_DIGIT.search, numbers)) else "left"
