"""How wide the columns of a card's tables are, and which tables have more columns than a side is wide."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from binder.cards.blocks import Table, ValueTable
from binder.rendering.typeface import Weight, pieces, text_width

CELL_GAP, VALUE_GAP = 9.0, 8.0
"""Points at the left of a cell but the first of a row, and of a cell of a value table."""

HEADER_WIDTH = 44.4
"""Points in which the headers of a value table break."""

ACTED_ON, SMALL = 13.0, 9.0
_NAME_LEAST = 96.0
"""Points left to the names of a value table whose values are set large."""

_SHORT, _SHORT_HEAD = 16, 25
"""Characters of a cell, and of a row's head, kept on one row in a small table: a quantity, a name."""

_SPARE = 0.5
"""Points by which a cell is wider than its text, lest rounding break it."""


def column_widths(table: Table, width: float) -> tuple[float, ...]:
    """Give each column its longest word, and what is left over by the length of its cells."""
    least, most = _needed(table, whole=False), _needed(table, whole=True)
    if sum(most) <= width:
        return tuple(one * width / sum(most) for one in most)
    share = (width - sum(least)) / (sum(most) - sum(least)) if sum(most) > sum(least) else 0.0
    return tuple(low + max(0.0, share) * (high - low) for low, high in zip(least, most, strict=True))


def kept_columns(table: Table) -> tuple[bool, ...]:
    """Tell which columns of a small table keep each of their short cells on one row."""
    rooms = (_SHORT_HEAD, *[_SHORT] * (len(table.headers) - 1))
    return tuple(
        table.small and all(len(row[column]) <= room for row in table.rows if column < len(row))
        for column, room in enumerate(rooms)
    )


def _needed(table: Table, *, whole: bool) -> list[float]:
    points, bold = (SMALL, "Regular") if table.small else (ACTED_ON, "Bold")
    needed, kept = [], kept_columns(table)
    for column, header in enumerate(table.headers):
        weight: Weight = "Bold" if column and bold == "Bold" else "Regular"
        is_whole = whole or kept[column]
        cells = [
            _wide(row[column], points, weight, whole=is_whole) for row in table.rows if column < len(row)
        ]
        widest = max([_wide(header, SMALL, "Regular", whole=whole), *cells])
        needed.append(widest + _SPARE + (CELL_GAP if column else 0.0))
    return needed


def _wide(text: str, points: float, weight: Weight, *, whole: bool) -> float:
    parts = [text] if whole else pieces(text)
    return max((text_width(part, points, weight) for part in parts), default=0.0)


def narrow_tables(table: Table, width: float) -> Iterator[Table]:
    """Set the columns that have no room beside the others in a table below, each with its row heads."""
    least = _needed(table, whole=False)
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
    return all(_wide(row.name, ACTED_ON, "Bold", whole=False) <= names for row in table.rows)


def has_room_for_large(table: ValueTable, width: float) -> bool:
    """Tell whether the names keep enough room beside large values."""
    return value_widths(table, width, 32)[0] >= _NAME_LEAST
