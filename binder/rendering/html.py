"""View models to HTML: the ring and the binder, each from the same card partials."""

import re
import traceback
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, fields, is_dataclass
from functools import cache
from typing import Any, TypeAlias

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup, escape

from binder import templates_folder
from binder.cards.blocks import BinderDocument, Card, Drawing, Page, Reason
from binder.rendering.layout import foot_width
from binder.rendering.paper import PAPERS, Paper, PaperName
from binder.rendering.placing import (
    SMALL,
    WRONG,
    FooterRow,
    PlacedBlock,
    PlacedSide,
    footers,
    placed_on_page,
    placed_side,
    wrong_text,
)
from binder.rendering.qr import qr_svg
from binder.rendering.typeface import missing_letters, row_count

Coder: TypeAlias = Callable[[str], Drawing]

_BREAKS = re.compile(r"(?<=[/#?&=.:@;,+-])(?=[^/#?&=.:@;,+-])")
_DATE = re.compile(r"^\d{4}-\d{2}-\d{2}$")

_ROW, _BETWEEN = 12, 6
"""Points of a row of 9-point text, and between two reasons beside a card."""


class TemplateFault(Exception):  # noqa: N818 - a fault of a template, named so.
    """A template failed; the text lists every template frame, outermost first."""


class NotInTypeface(Exception):  # noqa: N818 - the name says what is wrong.
    """The typeface lacks characters that are to be printed; the text names card and characters."""


@dataclass(frozen=True)
class PlacedCard:
    """A card ready for its layout."""

    card: Card
    sides: tuple[PlacedSide, ...]
    reasons: tuple[tuple[Reason, ...], ...]
    code: Drawing | None
    target: Markup
    wrong: str
    footers: tuple[tuple[FooterRow, ...], ...]
    is_card: bool = True


@dataclass(frozen=True)
class PlacedPage:
    """A page of the binder ready for its layout."""

    page: Page
    blocks: tuple[PlacedBlock, ...]
    is_card: bool = False


def ring_html(cards: Sequence[Card], paper: PaperName, coder: Coder = qr_svg) -> str:
    """Write the ring: each side of each card one page at true size."""
    _refuse_missing_letters(cards)
    format_ = PAPERS[paper]
    placed = [_placed_card(card, format_, coder) for card in cards]
    rig = next((card.rig for card in cards if card.rig), "")
    values = {"title": f"Cards of {rig}" if rig else "Cards", "cards": placed}
    return _filled(
        "layouts/ring.html", format_.card.name, max((c.effective for c in cards), default=""), values
    )


def binder_html(document: BinderDocument, paper: PaperName, coder: Coder = qr_svg) -> str:
    """Write the binder: cover, contents, and each part on pages of its own."""
    _refuse_missing_letters([document, *document.parts])
    format_ = PAPERS[paper]
    parts = [
        _placed_card(part, format_, coder)
        if isinstance(part, Card)
        else PlacedPage(part, tuple(placed_on_page(part.blocks, format_.text_width)))
        for part in document.parts
    ]
    values = {"title": f"{document.rig}, {document.title}", "document": document, "parts": parts}
    return _filled("layouts/binder.html", paper, document.effective, values)


def _placed_card(card: Card, paper: Paper, coder: Coder) -> PlacedCard:
    count = len(card.sides)
    sides = tuple(
        placed_side(side, number, count, paper.card.line_width) for number, side in enumerate(card.sides, 1)
    )
    code = coder(card.target) if card.target else None
    wrong = wrong_text(card).removeprefix(WRONG).lstrip()
    shares = reasons_by_side(card.reasons, count, paper)
    width = paper.card.line_width
    rows = tuple(footers(card, side.number, count, foot_width(card, side.number, width)) for side in sides)
    return PlacedCard(card, sides, shares, code, _breakable(card.target), wrong, rows)


def reasons_by_side(reasons: tuple[Reason, ...], sides: int, paper: Paper) -> tuple[tuple[Reason, ...], ...]:
    """Deal a card's reasons to its sides in order, as many as a side's column holds."""
    shares: list[list[Reason]] = [[] for _ in range(sides)]
    side, room = 0, paper.column_height
    for reason in reasons:
        needed = _reason_height(reason, paper.column_width)
        if needed > room and side < sides - 1:
            side, room = side + 1, paper.column_height
        room -= needed
        shares[side].append(reason)
    return tuple(tuple(share) for share in shares)


def _reason_height(reason: Reason, width: float) -> float:
    rows = sum(row_count(text, SMALL, width, "Bold") for text in (reason.name, reason.text, reason.source))
    return rows * _ROW + _BETWEEN


def _breakable(target: str) -> Markup:
    """Let an address wrap after its own marks, adding no character to it."""
    return Markup("<wbr>").join(escape(part) for part in _BREAKS.split(target))


@cache
def _environment() -> Environment:
    return Environment(
        loader=FileSystemLoader(templates_folder()),
        undefined=StrictUndefined,
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def _filled(template: str, format_: str, date: str, values: dict[str, Any]) -> str:
    created = date if _DATE.match(date) else ""
    try:
        return _environment().get_template(template).render(format=format_, created=created, **values)
    except Exception as fault:
        raise TemplateFault("\n".join(_frames(fault))) from fault


def _frames(fault: Exception) -> Iterator[str]:
    yield f"{type(fault).__name__}: {fault}"
    folder = str(templates_folder())
    for frame in traceback.extract_tb(fault.__traceback__):
        if frame.filename.startswith(folder):
            yield f"  in templates{frame.filename[len(folder) :]}, line {frame.lineno}: {frame.line}"


def _refuse_missing_letters(parts: Iterable[object]) -> None:
    lacking = [
        f"{getattr(part, 'title', part)}: {' '.join(letters)}"
        for part in parts
        if (letters := missing_letters("".join(_texts(part, skip=("parts",)))))
    ]
    if lacking:
        raise NotInTypeface("the typeface lacks characters of " + "; ".join(lacking))


def _texts(value: object, skip: tuple[str, ...] = ()) -> Iterator[str]:
    """Walk every string of a view model that is set in the page's own type."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, tuple):
        for item in value:
            yield from _texts(item)
    elif is_dataclass(value) and not isinstance(value, Drawing):
        for field in fields(value):
            if field.name not in skip:
                yield from _texts(getattr(value, field.name))
