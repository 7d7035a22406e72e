"""View models to HTML: each part of the ring, the binder and the desk by itself, from the same partials."""

import re
import traceback
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, fields, is_dataclass
from functools import cache, partial
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup, escape

from binder import templates_folder
from binder.cards.blocks import BinderDocument, Card, Drawing, Page, Part, ProcedurePage, StayingPart, Table
from binder.cards.codes import part_key, part_title
from binder.rendering.columns import column_widths
from binder.rendering.drawings.offset_scale import crosses, scales
from binder.rendering.layout import beside_title, foot_width, is_told_below
from binder.rendering.marks import new_lines, placed_page_blocks
from binder.rendering.paper import NORMAL, PAPERS, Paper, PaperName, TypeSize, paper_in
from binder.rendering.parts.part import PartHtml
from binder.rendering.placing import (
    WRONG,
    FooterRow,
    PlacedBlock,
    PlacedSide,
    footers,
    placed_side,
    wrong_text,
)
from binder.rendering.typeface import cut_to, missing_letters, text_width, unparted

_BREAKS = re.compile(r"(?<=[/#?&=.:@;,+-])(?=[^/#?&=.:@;,+-])")
_DATE = re.compile(r"^\d{4}-\d{2}-\d{2}$")

_DOT = " \u00b7 "
_NUMBERED = ", page 99 of 99"
_FOOT_POINTS, _FOOT_ROWS = 8.0, 1.7
"""Two rows stand in a page's foot, less what is lost where one ends; a name that takes more is cut."""

_LISTED = ("part", "pages", "code", "from", "replaced on")
"""Heads of the columns of a list of parts."""

COVER = "cover"
CONTENTS, DESK, TEST_SHEET = "In force", "For the desk", "Test sheet"
"""Titles of the binder's list of parts, of the desk's, its first page, and of a printer's test sheet."""


class TemplateFault(Exception):
    """A template failed; the text lists every template frame, outermost first."""


class NotInTypeface(Exception):
    """The typeface lacks characters that are to be printed; the text names card and characters."""


@dataclass(frozen=True)
class PlacedCard:
    """A card ready for its layout."""

    card: Card
    sides: tuple[PlacedSide, ...]
    target: Markup
    wrong: str
    footers: tuple[tuple[FooterRow, ...], ...]
    beside_titles: tuple[tuple[str, bool], ...]
    """What is told beside the title of each side, and whether it goes below for want of room."""


@dataclass(frozen=True)
class PlacedPage:
    """A page of the binder ready for its layout."""

    page: Page
    blocks: tuple[PlacedBlock, ...]
    is_procedure: bool


def ring_html(cards: Sequence[Card], paper: PaperName, size: TypeSize = NORMAL) -> str:
    """Write cards of the ring: each side one page at true size."""
    _refuse_missing_letters(cards)
    format_ = paper_in(paper, size)
    placed = [_placed_card(card, format_) for card in cards]
    rig = next((card.rig for card in cards if card.rig), "")
    values = {"title": f"Cards of {rig}" if rig else "Cards", "cards": placed}
    date = max((card.effective for card in cards), default="")
    return _filled("layouts/ring.html", format_.card.name, date, values)


def ring_parts(cards: Iterable[Card], paper: PaperName, size: TypeSize = NORMAL) -> Iterator[PartHtml]:
    """The ring, a part for each card."""
    for card in cards:
        html, new = ring_html([card], paper, size=size), new_lines(card, PAPERS[paper])
        yield PartHtml(f"card-{card.id}", tuple(_sides_named(card)), html, len(card.sides), new)


def _sides_named(card: Card) -> Iterator[str]:
    yield f"{card.id} {card.title}"
    yield from (f"{card.id} {card.title}, continued" for _ in card.sides[1:])


def binder_parts(document: BinderDocument, paper: PaperName) -> Iterator[PartHtml]:
    """The binder without its list of parts, which is written when it is known how many pages each takes."""
    _refuse_missing_letters([document])
    if document.has_cover:
        framed = _framed(document, paper, document.title, "", document.set_title)
        cover = _filled("layouts/cover.html", paper, document.effective, framed)
        yield PartHtml(COVER, (document.title,), cover)
    yield from (_part(part, document, paper) for part in document.parts)


def slip_parts(document: BinderDocument, paper: PaperName) -> Iterator[PartHtml]:
    """What takes the place of what, where only that is printed which changed."""
    if document.slip:
        yield _part(document.slip, document, paper)


def desk_parts(document: BinderDocument, paper: PaperName) -> Iterator[PartHtml]:
    """What stays on the desk, without its list of parts."""
    yield from (_part(page, document, paper) for page in document.desk)


def _part(part: Part, document: BinderDocument, paper: PaperName) -> PartHtml:
    _refuse_missing_letters([part])
    format_, title = PAPERS[paper], part_title(part)
    values = _framed(document, paper, title, part.code, part.set_title)
    if isinstance(part, Card):
        values |= {"placed": _placed_card(part, format_)}
        html = _filled("layouts/binder_card.html", paper, document.effective, values)
    else:
        values |= {"placed": _placed_page(part, format_)}
        html = _filled("layouts/binder_page.html", paper, document.effective, values)
    return PartHtml(part_key(part), (title,), html, new_lines=new_lines(part, format_))


def contents_part(
    document: BinderDocument, paper: PaperName, title: str, listed: Iterable[tuple[Part | StayingPart, int]]
) -> PartHtml:
    """List what is in force: each part with how many pages it takes, its code and its date."""
    rows = [
        ("", part.title, part.pages, part.code, part.effective)
        if isinstance(part, StayingPart)
        else (part_key(part), part_title(part), pages, part.code, document.effective)
        for part, pages in listed
    ]
    cells = tuple((part, str(pages), code, day, "") for _, part, pages, code, day in rows)
    widths = column_widths(Table(_LISTED, cells, small=True), PAPERS[paper].text_width, may_part_words=True)
    framed = _framed(document, paper, title, "", document.set_title)
    values = framed | {"rows": rows, "headers": _LISTED, "widths": widths, "is_first": title == DESK}
    return PartHtml("contents", (title,), _filled("layouts/contents.html", paper, document.effective, values))


def test_sheet(document: BinderDocument, paper: PaperName, flip: str) -> PartHtml:
    """One sheet that is printed on both sides, and shows where the printer lays its backs."""
    drawn = {"scales": partial(scales, PAPERS[paper]), "crosses": partial(crosses, PAPERS[paper])}
    values = {"title": TEST_SHEET, "flip": flip, **drawn}
    written = _filled("layouts/test_sheet.html", f"{paper}_sheet", document.effective, values)
    return PartHtml("test_sheet", (TEST_SHEET,), written, 2)


def _framed(
    document: BinderDocument, paper: PaperName, part: str, code: str, set_title: str = ""
) -> dict[str, Any]:
    rest = [set_title, f"code {code}" if code else "", f"effective\u00a0{document.effective}"]
    said = _DOT.join(text for text in rest if text)
    taken = text_width(f"{_DOT}{said}{part}{_NUMBERED}", _FOOT_POINTS)
    rig = cut_to(document.rig, _FOOT_ROWS * PAPERS[paper].text_width - taken, _FOOT_POINTS)
    return {
        "title": f"{document.rig}, {document.title}",
        "document": document,
        "part": part,
        "foot": f"{rig}{_DOT}{said}",
    }


def _placed_page(page: Page, paper: Paper) -> PlacedPage:
    return PlacedPage(page, placed_page_blocks(page, paper), isinstance(page, ProcedurePage))


def _placed_card(card: Card, paper: Paper) -> PlacedCard:
    count, width, size = len(card.sides), paper.card.line_width, paper.card.size
    sides = tuple(placed_side(side, at, count, width, size) for at, side in enumerate(card.sides, 1))
    wrong = wrong_text(card).removeprefix(WRONG).lstrip()
    wide = [foot_width(card, side.number, width) for side in sides]
    rows = tuple(footers(card, at, count, room, size) for at, room in enumerate(wide, 1))
    told = [beside_title(side, at) for at, side in enumerate(card.sides, 1)]
    beside = tuple((text, is_told_below(card, text, width)) for text in told)
    return PlacedCard(card, sides, _breakable(card.target), wrong, rows, beside)


def _breakable(target: str) -> Markup:
    """Let an address wrap after its own marks, adding no character to it."""
    return Markup("<wbr/>").join(escape(part) for part in _BREAKS.split(target))


@cache
def _environment() -> Environment:
    return Environment(
        loader=FileSystemLoader(templates_folder()),
        undefined=StrictUndefined,
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        finalize=_finalized,
    )


def _finalized(value: object) -> object:
    """Keep numbers with their units, wherever a text is set; what is marked up already stays as it is."""
    return unparted(value) if isinstance(value, str) and not isinstance(value, Markup) else value


def _filled(template: str, format_: str, date: str, values: dict[str, Any]) -> str:
    created = f"{date}T00:00:00Z" if _DATE.match(date) else ""
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
        if (letters := missing_letters("".join(_texts(part, skip=("parts", "desk")))))
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
