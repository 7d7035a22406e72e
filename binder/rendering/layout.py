"""What fits on a side of a card, and what flows on to the next: decided from measured text.

A group (a heading and what stands below it) stays together; one that is longer than a side is broken between
its lines, and named again on the next. A text that is longer than a side is broken between its words. What no
side can hold is one word that is wider than its row.
"""

from bisect import bisect_left
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from math import ceil, floor
from typing import TypeAlias

from binder.cards.blocks import (
    Aside,
    Big,
    Blank,
    Block,
    Box,
    Card,
    Continued,
    End,
    Heading,
    Line,
    Listing,
    Note,
    Ranking,
    RoadLine,
    Side,
    Step,
    Table,
    ValueTable,
)
from binder.rendering.columns import narrow_tables
from binder.rendering.heights import Height, height_of, stacked
from binder.rendering.paper import NORMAL, Paper, TypeSize
from binder.rendering.placing import SMALL, footers, placed_on_card, wrong_text
from binder.rendering.typeface import row_count, text_width

_Blocks: TypeAlias = tuple[Block, ...]

BETWEEN = 6.0
"""Points that are least between the last line of a side and its foot."""

TITLE, _TITLE_ROW, _BAR = 17.0, 23.0, 6.6
"""Points of a title, of its rows, and of its rule with what is free above it."""

NUMBER = 46.0
"""Points at the right of a title that are left to the card's number: it may be that of a tenth day."""

_CODED, _CODE = 70.0, 57.0
"""Points that a code takes from the width of the foot, and the foot's height beside it."""

_SPREAD, _MOST_APART = 0.9, 54.0
"""Share of what is free on a side that sets the lines of a road apart, and the most points between two."""

_ROUNDING = 0.5
"""Points by which a side is taken lower than it is."""


def laid_out(card: Card, paper: Paper) -> Card:
    """Give a card the sides it needs."""
    ruler = Ruler(card, paper)
    every = [ruler.prepared(side) for side in card.sides]
    sides: list[Side] = []
    carried: _Blocks = ()
    moved: _Blocks = ()
    for at, side in enumerate(every):
        following = every[at + 1] if at + 1 < len(every) else None
        first = len(sides) + 1
        blocks, asides = ruler.chosen(side, carried, first, None if following else moved)
        moved += asides
        pages = list(ruler.flow(blocks, side, first))
        if following and len(pages) > 1:
            rest = tuple(block for page in pages[1:] for block in page)
            if ruler.takes_in(following, rest, first + 1, len(pages) - 1):
                pages = pages[:1]
            else:
                rest = ()
            carried = rest
        else:
            carried = ()
        sides += [
            replace(side, blocks=ruler.spread(page, side, at), shorter=())
            for at, page in enumerate(pages, first)
        ]
    return replace(card, sides=tuple(sides))


@dataclass(frozen=True)
class Ruler:
    """What a side of one card holds."""

    card: Card
    paper: Paper

    def prepared(self, side: Side) -> Side:
        """Part the tables that are too wide."""
        made: dict[int, _Blocks] = {}

        def each(blocks: _Blocks) -> _Blocks:
            return tuple(one for block in blocks for one in made.setdefault(id(block), self._made(block)))

        shorter = side.shorter if self.is_for_two_sides else ()
        return replace(side, blocks=each(side.blocks), shorter=tuple(map(each, shorter)))

    def _made(self, block: Block) -> _Blocks:
        return tuple(narrow_tables(block, self.width)) if isinstance(block, Table) else (block,)

    @property
    def width(self) -> float:
        """Points of a line."""
        return self.paper.card.line_width

    @property
    def size(self) -> TypeSize:
        """The size of its type."""
        return self.paper.card.size

    @property
    def is_for_two_sides(self) -> bool:
        """Large type takes the sides it needs: it spares no words, and no side takes in another's rest."""
        return self.size is NORMAL

    def fits(self, blocks: _Blocks, side: Side, number: int) -> bool:
        """Whether a side has room."""
        return self.excess(blocks, side, number) <= 0

    def excess(self, blocks: _Blocks, side: Side, number: int) -> float:
        """Points by which a side is too long."""
        foot = foot_of(self.card, number, self.width, self.size, has_killers=_has_killers(blocks))
        face = self.paper.card
        room = face.height - face.top - face.bottom - BETWEEN - _ROUNDING - foot.body
        bar = bar_height(self.card, side, number, self.width)
        return face_height(blocks, side.use, self.width, self.size, bar) - room

    def spread(self, blocks: _Blocks, side: Side, number: int) -> _Blocks:
        """Set the lines of a road apart by the miles between them, as far as the side has room."""
        lines = [(at, one) for at, one in enumerate(blocks) if isinstance(one, RoadLine)]
        placed = [(at, one.along) for at, one in lines if one.along is not None]
        apart = {at: max(far - before, 0.0) for (_, before), (at, far) in pairwise(placed)}
        room, whole = -self.excess(blocks, side, number) * _SPREAD, sum(apart.values())
        if room <= 0 or not whole:
            return blocks
        return tuple(
            replace(one, gap=floor(min(_MOST_APART, room * apart[at] / whole) * 10) / 10)
            if isinstance(one, RoadLine) and at in apart
            else one
            for at, one in enumerate(blocks)
        )

    def chosen(
        self, side: Side, carried: _Blocks, number: int, moved: _Blocks | None
    ) -> tuple[_Blocks, _Blocks]:
        """Take the fullest wording that has room, and what is moved to the last side instead."""

        def whole(blocks: _Blocks) -> _Blocks:
            return carried + (blocks if moved is None else _before_end(blocks, moved))

        asides = tuple(one for one in side.blocks if isinstance(one, Aside)) if moved is None else ()
        least = tuple(block for block in side.blocks if block not in asides)
        choices = [
            (side.blocks, ()),
            *([(least, asides)] if asides else []),
            *((one, ()) for one in side.shorter),
        ]
        for blocks, gone in choices:
            if self.fits(whole(blocks), side, number):
                return whole(blocks), gone
        return whole(least), asides

    def takes_in(self, side: Side, rest: _Blocks, number: int, sides: int) -> bool:
        """Tell whether a side takes in what the one before it has no room for, with no side more.

        One that goes on with the side before it may stand with its rest on ``sides``.
        """
        if not self.is_for_two_sides:
            return False
        together = min(self._count(rest + blocks, side, number) for blocks in (side.blocks, *side.shorter))
        alone = min(self._count(blocks, side, number) for blocks in (side.blocks, *side.shorter))
        return together <= alone + (sides if side.goes_on else 0)

    def _count(self, blocks: _Blocks, side: Side, number: int) -> int:
        return sum(1 for _ in self.flow(blocks, side, number))

    def flow(self, blocks: _Blocks, side: Side, number: int) -> Iterator[_Blocks]:
        """Deal blocks to as many sides as they need."""
        if self.fits(blocks, side, number):
            yield blocks
            return
        page: _Blocks = ()
        for group in _groups(blocks):
            if self.fits((*page, *group), side, number):
                page += group
            elif page and self.fits(group, side, number + 1):
                yield page
                page, number = group, number + 1
            else:
                *full, page = self._broken(group, page, side, number)
                yield from full
                number += len(full)
        yield page

    def _broken(self, group: _Blocks, page: _Blocks, side: Side, number: int) -> Iterator[_Blocks]:
        """Break a group that is longer than a side."""
        again: _Blocks = (Continued(group[0].text),) if isinstance(group[0], Heading) else ()
        waiting = list(_runs(group))
        while waiting:
            run = waiting.pop(0)
            if self.fits((*page, *run), side, number):
                page += run
                continue
            is_bare = page in {(), again}
            begun, rest = self._cut(run, page, side, number, must=is_bare)
            page += begun
            if rest:
                yield page
                page, number = again, number + 1
                waiting.insert(0, rest)
        yield page

    def _cut(
        self, run: _Blocks, page: _Blocks, side: Side, number: int, *, must: bool
    ) -> tuple[_Blocks, _Blocks]:
        """Split what stays together into what has room on a side and what has none."""
        whole = next(
            (at for at in range(len(run)) if not self.fits((*page, *run[: at + 1]), side, number)), 0
        )
        block, before = run[whole], run[:whole]
        parts = _parts(block)
        if parts is not None:
            count, cut = parts
            most = bisect_left(
                range(1, count), x=True,
                key=lambda kept: not self.fits((*page, *before, *cut(kept)[0]), side, number),
            )  # fmt: skip
            if most or (must and count > 1 and not before):
                head, tail = cut(max(most, 1))
                return (*before, *head), (*tail, *run[whole + 1 :])
        if before and not isinstance(before[-1], Heading):
            return before, run[whole:]
        if must:  # Nothing can be split: it is told as unfit.
            return run[: whole + 1], run[whole + 1 :]
        return (), run


def _groups(blocks: _Blocks) -> Iterator[_Blocks]:
    """Headings with the lines below them; what has no heading stands alone."""
    group: list[Block] = []
    for run in _runs(blocks):
        belongs = isinstance(run[0], Line | Step | Blank | Big) and group and isinstance(group[0], Heading)
        if group and not belongs:
            yield tuple(group)
            group = []
        group += run
    if group:
        yield tuple(group)


def _runs(blocks: _Blocks) -> Iterator[_Blocks]:
    """What stays together: a heading and its first line, a condition and its steps, notes and the end."""
    run: list[Block] = []
    for block in blocks:
        hangs_on = isinstance(block, Note | End) or (isinstance(block, Step) and block.indent)
        if run and not hangs_on and not _leads(run[-1], block):
            yield tuple(run)
            run = []
        run.append(block)
    if run:
        yield tuple(run)


def _leads(block: Block, following: Block) -> bool:
    """Tell whether a block stands right above the next: a heading, what is done before a grade, its top."""
    if isinstance(block, RoadLine) and isinstance(following, RoadLine):
        return block.mark == "before" or block.mark == following.mark == "grade"
    return isinstance(block, Heading)


_Cut: TypeAlias = Callable[[int], tuple[_Blocks, _Blocks]]


def _parts(block: Block) -> tuple[int, _Cut] | None:
    """Count what a block can be split into, and say how it is split after so many."""
    match block:
        case Ranking():
            return len(block.rows), lambda n: (
                (replace(block, rows=block.rows[:n], first=tuple(at for at in block.first if at < n)),),
                (replace(block, rows=block.rows[n:], caption="", first=_after(block.first, n)),),
            )
        case Table():
            return len(block.rows), lambda n: (
                (replace(block, rows=block.rows[:n]),),
                (replace(block, rows=block.rows[n:], caption=""),),
            )
        case ValueTable():
            return len(block.rows), lambda n: (
                (replace(block, rows=block.rows[:n]),),
                (replace(block, rows=block.rows[n:], caption=""),),
            )
        case Box() | Listing():
            return len(block.lines), lambda n: (
                (replace(block, lines=block.lines[:n]),), (replace(block, lines=block.lines[n:]),)
            )  # fmt: skip
        case Note() | Step() | Line():
            return _split_text(block)
        case _:
            return None


def _after(rows: tuple[int, ...], count: int) -> tuple[int, ...]:
    return tuple(at - count for at in rows if at >= count)


def _split_text(block: Note | Step | Line) -> tuple[int, _Cut]:
    words = (block.detail if isinstance(block, Line) else block.text).split(" ")

    def cut(count: int) -> tuple[_Blocks, _Blocks]:
        head, tail = " ".join(words[:count]), " ".join(words[count:])
        if isinstance(block, Line):
            return (replace(block, detail=head),), (Note(tail),)
        if isinstance(block, Step):
            return (replace(block, text=head, detail=""),), (replace(block, text=tail, number=""),)
        return (replace(block, text=head),), (replace(block, text=tail),)

    return len(words), cut


def _before_end(blocks: _Blocks, moved: _Blocks) -> _Blocks:
    at = len(blocks) - (1 if blocks and isinstance(blocks[-1], End) else 0)
    return (*blocks[:at], *moved, *blocks[at:])


def _has_killers(blocks: _Blocks) -> bool:
    return any(isinstance(block, Line | Step) and block.killer for block in blocks)


def beside_title(side: Side, number: int) -> str:
    """Say of a further side that it is one, and how it is used where it goes on with the one before."""
    told = f"continued: {side.goes_on}" if side.goes_on else "continued"
    return told if number > 1 else side.goes_on


def is_told_below(card: Card, told: str, width: float) -> bool:
    """Tell whether a title leaves no room for what is told beside it."""
    used = text_width(f"{card.title} ", TITLE, "Bold") + 4 + text_width(told, SMALL)
    return bool(told) and used > width - NUMBER


def bar_height(card: Card, side: Side, number: int, width: float) -> float:
    """Points of a title with its rule."""
    rows = row_count(card.title, TITLE, width - NUMBER, "Bold")
    below = is_told_below(card, beside_title(side, number), width)
    return _BAR + _TITLE_ROW * rows + (12 if below else 0)


def face_height(
    blocks: _Blocks, use: str, width: float, size: TypeSize = NORMAL, bar: float = _TITLE_ROW + _BAR
) -> float:
    """Points of a side from its title to its last line."""
    said = Height(above=4, below=3) if use else Height()
    said.set_rows(use, SMALL, 12, width)
    placed = placed_on_card(blocks, width, size)
    return bar + stacked([said, *(height_of(one, width) for one in placed)])


def foot_of(card: Card, number: int, width: float, size: TypeSize = NORMAL, *, has_killers: bool) -> Height:
    """Measure the foot of a side; the first has when the card becomes wrong, and its code."""
    is_coded = bool(card.target) and number == 1
    inner, foot = foot_width(card, number, width), Height()
    points, high = size.footer, size.footer_row
    if number == 1:
        foot.set_rows(wrong_text(card), SMALL, 12, inner, "Bold")
        if card.target:
            foot.body += 3 + high * ceil(text_width(card.target, points) / (inner - 20))
    foot.body += 3 + high if has_killers else 0
    foot.body += 9.5
    for row in footers(card, number, max(number, 10), inner, size):
        foot.set_rows(row.left, points, high, inner)
        foot.body += high if row.is_below else 0
    if is_coded:
        foot.body = max(foot.body, _CODE)
    return foot


def foot_width(card: Card, number: int, width: float) -> float:
    """Points that the rows of a foot have; its code stands beside them."""
    return width - (_CODED if card.target and number == 1 else 0)
