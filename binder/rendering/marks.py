"""Which lines of a part are new since it was last printed: each is known by a code of what it says."""

import json
from collections.abc import Iterable, Iterator
from typing import TypeAlias

from binder.cards.blocks import Card, Drawing, Part, ProcedurePage, ValueRow
from binder.cards.codes import as_json, short_code
from binder.rendering.paper import Paper
from binder.rendering.placing import (
    PlacedBig,
    PlacedBlock,
    PlacedHeading,
    PlacedLine,
    PlacedTable,
    PlacedValues,
    TickGrid,
    placed_on_card,
    placed_on_page,
)

_Said: TypeAlias = object


def placed_page_blocks(page: Part, paper: Paper) -> tuple[PlacedBlock, ...]:
    """Place the blocks of a page, of a page of procedure in the width they have on a card."""
    if isinstance(page, Card):
        return ()
    if isinstance(page, ProcedurePage):
        return tuple(placed_on_page(page.blocks, paper.card.line_width))
    is_measured = page.name not in _WITH_WIDTHS
    return tuple(placed_on_page(page.blocks, paper.text_width, is_measured=is_measured))


_WITH_WIDTHS = {"spares_by_place", "supplies_along_trip"}
"""Pages whose style has widths of columns."""


def lines(part: Part, paper: Paper) -> dict[str, str]:
    """Say what every line of a part says, by its code; a heading is no line."""
    first = part.wrong_as_soon_as if isinstance(part, Card) else part.intro
    return {_code(one): " ".join(_words(one)) for one in (first, *_said_by(part, paper)) if one}


def new_lines(part: Part, paper: Paper) -> frozenset[int]:
    """Number the lines that are not among those in hand, as they stand; none where nothing is compared.

    In the HTML each line bears ``data-line``, in the same order.
    """
    in_hand = part.in_hand
    if in_hand is None:
        return frozenset()
    return frozenset(at for at, said in enumerate(_said_by(part, paper)) if _code(said) not in in_hand)


def _said_by(part: Part, paper: Paper) -> Iterator[_Said]:
    if not isinstance(part, Card):
        return _said(placed_page_blocks(part, paper))
    width = paper.card.line_width
    return (said for side in part.sides for said in _said(placed_on_card(side.blocks, width)))


def _said(blocks: Iterable[PlacedBlock]) -> Iterator[_Said]:
    for block in blocks:
        if isinstance(block, TickGrid):
            yield from (one.line for one in block.lines)
        elif isinstance(block, PlacedTable | PlacedValues):
            yield from _rows(block)
        elif not isinstance(block, PlacedHeading):
            yield _of_one(block)


def _of_one(block: PlacedBlock) -> _Said:
    if isinstance(block, PlacedLine):
        return block.line
    return block.big if isinstance(block, PlacedBig) else block


def _rows(placed: PlacedTable | PlacedValues) -> Iterator[_Said]:
    """Each row with the heads of its columns: under another head it says something else."""
    table = placed.table
    yield from ((row, table.headers) for row in table.rows)


def _code(said: _Said) -> str:
    return short_code(json.dumps(as_json(said), ensure_ascii=False, sort_keys=True))


def _words(said: _Said) -> Iterator[str]:
    """What a reader sees of it, the heads of columns left out."""
    if isinstance(said, str):
        yield said
    elif isinstance(said, Drawing):
        yield said.alternative
    elif isinstance(said, ValueRow):
        yield from (said.name, said.value, *said.others)
    elif isinstance(said, tuple):
        cells, *_ = said
        yield from _words(cells) if isinstance(cells, ValueRow) else cells
    else:
        yield from (value for name, value in vars(said).items() if name in _SHOWN and value)


_SHOWN = {"text", "challenge", "answer", "title", "name", "value", "start", "result"}
