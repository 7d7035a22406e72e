"""Bars in the outer margin: beside the lines that are new, drawn over pages that are laid out once."""

from collections.abc import Callable
from dataclasses import replace
from functools import cache

import pytest

from binder.cards.blocks import Card, Note, Page, Part, Table
from binder.cards.order import binder_document
from binder.printing.build import BuildOptions, printable_cards, read_and_assess
from binder.rendering.html import binder_parts, desk_parts, ring_parts
from binder.rendering.marks import lines
from binder.rendering.paper import PAPERS, TYPE_SIZES
from binder.rendering.parts.joining import JoinedPart, joined
from binder.rendering.parts.part import Bar, PartHtml, RenderedPdf
from binder.rendering.pdf import render
from tests import paper_checks as paper
from tests.demos import PROFILES
from tests.printed.folders import ON
from tests.rendering.synthetic_cards import BINDER, PAGE, RING

LETTER = PAPERS["letter"]
LONG = Page("notes", "Notes", "", (Note("Row after row of what is told. " * 300), Note("Last.")))
TO_FILL = Page("readings", "Readings", "", (Table(("tire", "set", "read"), (("left", "105", ""),)),))
NOTHING_IN_HAND: frozenset[str] = frozenset()


def on_a_card(card: Card) -> PartHtml:
    return next(ring_parts([card], "letter"))


def in_the_binder(part: Part) -> PartHtml:
    return list(binder_parts(replace(BINDER, parts=(part,)), "letter"))[-1]


@cache
def laid_out(html: str) -> RenderedPdf:
    return render(html)


def drawn(part: PartHtml) -> bytes:
    return joined("One", [JoinedPart(part.name, ("One",), laid_out(part.html), part.new_lines)]).content


def beside(pdf: bytes, bar: Bar) -> str:
    """Read what stands on the page at the left of a bar."""
    page = list(paper.pages(pdf))[bar.page].get_textpage()
    return str(page.get_text_bounded(0, bar.bottom, bar.left, bar.top))


def is_black(pdf: bytes, bar: Bar) -> bool:
    page = list(paper.pages(pdf))[bar.page]
    picture, (_, height) = page.render(scale=2, grayscale=True).to_numpy(), page.get_size()
    rows = slice(int(2 * (height - bar.top)) + 2, int(2 * (height - bar.bottom)) - 1)
    inked = picture[rows, int(bar.left + bar.right)]
    return bool(len(inked)) and bool((inked < 40).all())


@pytest.mark.parametrize("written", [on_a_card, in_the_binder])
@pytest.mark.parametrize("card", RING, ids=lambda card: card.name)
def test_the_bar_of_a_new_line_stands_beside_it(card: Card, written: Callable[[Card], PartHtml]) -> None:
    every, plain = lines(replace(card, wrong_as_soon_as=""), LETTER), written(card)
    for code, said in every.items():
        part = written(replace(card, in_hand=frozenset(every) - {code}))
        bars = [bar for bar in laid_out(part.html).bars if bar.line in part.new_lines]
        assert (len(bars), part.html) == (1, plain.html)
        words = beside(laid_out(part.html).content, bars[0]).split()
        # A drawing is said in other words than stand in it.
        assert said == "Plan of the rig with set-points" or set(said.split()) <= set(words), (said, words)
        assert is_black(drawn(part), bars[0])
        assert not is_black(drawn(plain), bars[0])


def test_a_row_that_is_written_in_has_its_bar_too() -> None:
    part = in_the_binder(replace(TO_FILL, in_hand=NOTHING_IN_HAND))
    (bar,) = laid_out(part.html).bars

    assert is_black(drawn(part), bar)


def test_a_line_broken_over_pages_has_a_bar_on_each() -> None:
    part = in_the_binder(replace(LONG, in_hand=NOTHING_IN_HAND))
    pdf = laid_out(part.html)

    assert sorted((bar.line, bar.page) for bar in pdf.bars) == [(0, 0), (0, 1), (1, 1)]
    assert all(is_black(drawn(part), bar) for bar in pdf.bars)


def test_nothing_is_drawn_where_nothing_is_compared() -> None:
    part = in_the_binder(PAGE)

    assert laid_out(part.html).bars
    assert part.new_lines == frozenset()


@pytest.mark.parametrize("rig", ["larkspur", "kestrel", "tamarack", "sandpiper"])
def test_every_line_of_a_printing_can_have_a_bar(rig: str) -> None:
    assessment = read_and_assess(PROFILES / rig, BuildOptions(ON))
    whole = binder_document(assessment, printable_cards(assessment))
    parts = tuple(replace(part, in_hand=NOTHING_IN_HAND) for part in whole.parts)
    desk = tuple(replace(page, in_hand=NOTHING_IN_HAND) for page in whole.desk)
    document, name = replace(whole, parts=parts, desk=desk), assessment.rig.paper
    cards = [part for part in parts if isinstance(part, Card)]
    large = [replace(card, in_hand=NOTHING_IN_HAND) for card in printable_cards(assessment, "large")]
    written = [
        *binder_parts(document, name),
        *desk_parts(document, name),
        *ring_parts(cards, name),
        *ring_parts(large, name, TYPE_SIZES["large"]),
    ]

    assert len(written) > 40
    for part in written:
        assert part.new_lines == frozenset(range(part.html.count('data-line=""'))), part.name
