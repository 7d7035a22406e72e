"""The real printings of both demos, made once a session, and what their pages were made from."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, fields, is_dataclass
from functools import cached_property
from typing import Any

import pypdfium2 as pdfium

from binder.assessment.assess import Assessment
from binder.cards.blocks import BinderDocument, Card, Drawing, Page, Part, Reason, Side
from binder.cards.codes import part_title
from binder.rendering.html import CONTENTS
from tests import paper_checks as paper

RIGS = ("larkspur", "kestrel")
"""Demos that are printed; the others are only worded, which takes a tenth of the time."""

WORDED = ("sandpiper", "tamarack")
EFFECTIVE = "2026-05-25"
LARGEST_CODE = 29 * 72 / 25.4
"""Side in points of the largest code a card has room for."""
PDFS = ("binder.pdf", "cards.pdf", "desk.pdf", "sheets.pdf", "test_sheet.pdf")

_UNSEEN = {
    "kind",
    "kinds",
    "mark",
    "alternative",
    "shape",
    "fitment",
    "figures",
    "family",
    "side",
    "parts",
    "desk",
}
"""Fields that say how to draw, what is read aloud, or what holds other pages: not printed as words."""


@dataclass(frozen=True, repr=False)
class Sheet:
    """One page as read back: its text in the order it is drawn, and its glyphs."""

    page: pdfium.PdfPage

    @cached_property
    def text(self) -> str:
        """Words with single spaces."""
        return paper.text(self.page)

    @cached_property
    def glyphs(self) -> list[paper.Glyph]:
        """Every character that leaves ink."""
        return paper.glyphs(self.page)

    @cached_property
    def codes(self) -> list[paper.Area]:
        """Squares of QR codes with their quiet zones; the frame of a card may be square too, and larger."""
        squares = [area for area in paper.codes(self.page) if area.right - area.left < LARGEST_CODE]
        return [area for area in squares if not any(area != o and area.is_inside(o) for o in squares)]


@dataclass(frozen=True, repr=False)
class Printing:
    """One demo, printed: bytes of each file, the record, and the view models it was made from."""

    rig: str
    files: dict[str, bytes]
    record: dict[str, Any]
    assessment: Assessment
    cards: tuple[Card, ...]
    document: BinderDocument

    @cached_property
    def pages(self) -> dict[str, list[Sheet]]:
        """Pages of each PDF."""
        return {name: [Sheet(page) for page in paper.pages(self.files[name])] for name in PDFS}

    @property
    def sides(self) -> list[tuple[Card, int, Side]]:
        """Sides of all cards in order, each with its card and its number from 1."""
        return [(card, number, side) for card in self.cards for number, side in enumerate(card.sides, 1)]

    @cached_property
    def parts(self) -> list[tuple[Part, list[Sheet]]]:
        """Parts of the binder and of the desk with the pages each takes, by what stands at their feet."""
        binder, desk = self.pages["binder.pdf"][self.front_pages :], self.pages["desk.pdf"][1:]
        return [*self._dealt(self.document.parts, binder), *self._dealt(self.document.desk, desk)]

    def _dealt(self, parts: tuple[Part, ...], sheets: list[Sheet]) -> Iterator[tuple[Part, list[Sheet]]]:
        left = sheets
        for part in parts:
            count = int(foot_of(left[0], part_title(part))[1])
            numbers = [foot_of(sheet, part_title(part)) for sheet in left[:count]]
            assert numbers == [(str(number), str(count)) for number in range(1, count + 1)]
            yield part, left[:count]
            left = left[count:]
        assert not left, f"{len(left)} pages belong to no part"

    @cached_property
    def front_pages(self) -> int:
        """How many pages the cover and the list of parts take."""
        cover = self.pages["binder.pdf"]
        covers = int(foot_of(cover[0], self.document.title)[1])
        return covers + int(foot_of(cover[covers], CONTENTS)[1])


def foot_of(sheet: Sheet, title: str) -> tuple[str, str]:
    """Number and count of pages at the foot of a page of this part."""
    found = re.search(rf"effective {EFFECTIVE} {re.escape(title)}, page (\d+) of (\d+)", sheet.text)
    assert found, f"{title} does not stand at the foot: ...{sheet.text[-150:]}"
    return found[1], found[2]


def strings(value: object) -> Iterator[str]:
    """Every string of a view model that a reader is to see, in reading order."""
    if isinstance(value, str):
        if value:
            yield value
    elif isinstance(value, tuple):
        for item in value:
            yield from strings(item)
    elif isinstance(value, Reason):
        yield from strings((value.name, value.text, value.origin))
    elif is_dataclass(value) and not isinstance(value, Drawing):
        for field in fields(value):
            is_file = field.name == "name" and isinstance(value, Card | Page)
            if field.name not in _UNSEEN and not is_file:
                yield from strings(getattr(value, field.name))


def said_by_side(card: Card, number: int) -> tuple[str, ...]:
    """Every string of one side of a card, with its title bar and its foot."""
    first = (card.wrong_as_soon_as, card.target) if number == 1 else ()
    return (
        *strings(card.sides[number - 1]),
        card.title,
        card.id,
        card.rig,
        card.code,
        card.effective,
        *first,
    )
