"""View models to HTML: each part of the ring, the binder and the desk by itself, from the same partials."""

import re
import traceback
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, fields, is_dataclass
from functools import cache
from typing import Any, TypeAlias

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup, escape

from binder import templates_folder
from binder.cards.blocks import BinderDocument, Card, Drawing, Page, Part, ProcedurePage
from binder.rendering.layout import foot_width
from binder.rendering.paper import PAPERS, Paper, PaperName
from binder.rendering.parts import PartHtml
from binder.rendering.placing import (
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
from binder.rendering.typeface import missing_letters, unparted

Coder: TypeAlias = Callable[[str], Drawing]

_BREAKS = re.compile(r"(?<=[/#?&=.:@;,+-])(?=[^/#?&=.:@;,+-])")
_DATE = re.compile(r"^\d{4}-\d{2}-\d{2}$")

CONTENTS, DESK = "In force", "For the desk"
"""Titles of the binder's list of parts and of the desk's, which is its first page."""


class TemplateFault(Exception):  # noqa: N818 - a fault of a template, named so.
    """A template failed; the text lists every template frame, outermost first."""


class NotInTypeface(Exception):  # noqa: N818 - the name says what is wrong.
    """The typeface lacks characters that are to be printed; the text names card and characters."""


@dataclass(frozen=True)
class PlacedCard:
    """A card ready for its layout."""

    card: Card
    sides: tuple[PlacedSide, ...]
    code: Drawing | None
    target: Markup
    wrong: str
    footers: tuple[tuple[FooterRow, ...], ...]


@dataclass(frozen=True)
class PlacedPage:
    """A page of the binder ready for its layout."""

    page: Page
    blocks: tuple[PlacedBlock, ...]
    is_procedure: bool


def ring_html(cards: Sequence[Card], paper: PaperName, coder: Coder = qr_svg) -> str:
    """Write cards of the ring: each side one page at true size."""
    _refuse_missing_letters(cards)
    placed = [_placed_card(card, PAPERS[paper], coder) for card in cards]
    rig = next((card.rig for card in cards if card.rig), "")
    values = {"title": f"Cards of {rig}" if rig else "Cards", "cards": placed}
    date = max((card.effective for card in cards), default="")
    return _filled("layouts/ring.html", PAPERS[paper].card.name, date, values)


def ring_parts(cards: Iterable[Card], paper: PaperName) -> list[PartHtml]:
    """The ring, a part for each card."""
    return [
        PartHtml(f"card-{card.id}", tuple(_sides_named(card)), ring_html([card], paper), len(card.sides))
        for card in cards
    ]


def _sides_named(card: Card) -> Iterator[str]:
    yield f"{card.id} {card.title}"
    yield from (f"{card.id} {card.title}, continued" for _ in card.sides[1:])


def binder_parts(document: BinderDocument, paper: PaperName, coder: Coder = qr_svg) -> list[PartHtml]:
    """The binder without its list of parts, which is written when it is known how many pages each takes."""
    _refuse_missing_letters([document])
    cover = _filled(
        "layouts/cover.html",
        paper,
        document.effective,
        _framed(document, document.title, "", document.set_title),
    )
    parts = [_part(part, document, paper, coder) for part in document.parts]
    return [PartHtml("cover", (document.title,), cover), *parts]


def desk_parts(document: BinderDocument, paper: PaperName) -> list[PartHtml]:
    """What stays on the desk, without its list of parts."""
    return [_part(page, document, paper, qr_svg) for page in document.desk]


def _part(part: Part, document: BinderDocument, paper: PaperName, coder: Coder) -> PartHtml:
    _refuse_missing_letters([part])
    format_, title = PAPERS[paper], part_title(part)
    values = _framed(document, title, part.code, part.set_title)
    if isinstance(part, Card):
        values |= {"placed": _placed_card(part, format_, coder)}
        html = _filled("layouts/binder_card.html", paper, document.effective, values)
    else:
        values |= {"placed": _placed_page(part, format_)}
        html = _filled("layouts/binder_page.html", paper, document.effective, values)
    return PartHtml(part_name(part), (title,), html)


def contents_part(
    document: BinderDocument, paper: PaperName, title: str, listed: Iterable[tuple[Part, int]]
) -> PartHtml:
    """List what is in force: each part with how many pages it takes, its code and its date."""
    rows = [(part_name(part), part_title(part), pages, part.code) for part, pages in listed]
    values = _framed(document, title, "", document.set_title) | {"rows": rows, "is_first": title == DESK}
    return PartHtml("contents", (title,), _filled("layouts/contents.html", paper, document.effective, values))


def part_title(part: Part) -> str:
    """What a part is called in the list, in its foot and in the bookmarks."""
    return f"{part.id} {part.title}" if isinstance(part, Card) else part.title


def part_name(part: Part) -> str:
    """What a link to a part names."""
    return f"card-{part.id}" if isinstance(part, Card) else f"page-{part.name}"


def _framed(document: BinderDocument, part: str, code: str, set_title: str = "") -> dict[str, Any]:
    named = [document.rig, set_title, f"code {code}" if code else "", f"effective {document.effective}"]
    return {
        "title": f"{document.rig}, {document.title}",
        "document": document,
        "part": part,
        "foot": " \u00b7 ".join(text for text in named if text),
    }


def _placed_page(page: Page, paper: Paper) -> PlacedPage:
    is_procedure = isinstance(page, ProcedurePage)
    width = paper.card.line_width if is_procedure else paper.text_width
    return PlacedPage(page, tuple(placed_on_page(page.blocks, width)), is_procedure)


def _placed_card(card: Card, paper: Paper, coder: Coder) -> PlacedCard:
    count = len(card.sides)
    sides = tuple(
        placed_side(side, number, count, paper.card.line_width) for number, side in enumerate(card.sides, 1)
    )
    code = coder(card.target) if card.target else None
    wrong = wrong_text(card).removeprefix(WRONG).lstrip()
    width = paper.card.line_width
    rows = tuple(footers(card, side.number, count, foot_width(card, side.number, width)) for side in sides)
    return PlacedCard(card, sides, code, _breakable(card.target), wrong, rows)


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
