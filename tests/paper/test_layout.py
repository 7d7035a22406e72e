"""What CARDS asks of type and place, measured on the real pages: sizes, fonts, edges, overlaps."""

import io
import re
from collections import Counter
from collections.abc import Iterator

import pikepdf
import pytest

from binder.cards.blocks import (
    Big,
    Blank,
    Block,
    Box,
    Card,
    End,
    Heading,
    Line,
    Page,
    Picture,
    Step,
    Table,
    ValueTable,
)
from binder.rendering.paper import SAFE_AREA
from tests import paper_checks as paper
from tests.paper.printings import Printing, Sheet, strings

SIZES = {8, 9, 13, 14, 16, 17, 24, 32, 40}
"""The closed set of sizes in points: acted on 13 and more, 9 for reasons, 8 for footers."""

ACTED_ON = 13


def unspaced(text: str) -> str:
    return "".join(text.split())


def sizes_of(sheet: Sheet, text: str) -> Iterator[float]:
    """Smallest size of type each time a text stands on a page."""
    letters, wanted = "".join(glyph.letter for glyph in sheet.glyphs), unspaced(text)
    start = letters.find(wanted)
    while start >= 0:
        yield min(glyph.points for glyph in sheet.glyphs[start : start + len(wanted)])
        start = letters.find(wanted, start + 1)


def acted_on(block: Block) -> Iterator[str]:
    """What a hand or an eye acts on in a block: names, answers, commands, values."""
    if isinstance(block, Line):
        yield from strings((block.challenge, block.answer))
    elif isinstance(block, ValueTable):
        yield from (text for row in block.rows for text in strings((row.name, row.value, row.others)))
    elif isinstance(block, Table):
        yield from () if block.small else strings(block.rows)
    elif isinstance(block, Heading | Step | End):
        yield block.text
    elif isinstance(block, Box):
        yield from strings((block.word, block.title, block.lines))
    elif isinstance(block, Big):
        yield from strings((block.name, block.value))
    elif isinstance(block, Blank):
        yield block.name


def test_type_has_a_closed_set_of_sizes(printing: Printing) -> None:
    cards = [sheet for part, sheets in printing.parts if isinstance(part, Card) for sheet in sheets]
    used = {
        glyph.points
        for sheets in printing.pages.values()
        for sheet in sheets
        if sheet not in cards  # In the binder a card's sides are reduced.
        for glyph in sheet.glyphs
    }

    assert used - SIZES == set()
    assert {8, 9, 13, 17, 24} <= used


def test_nothing_that_is_acted_on_is_below_13_points(printing: Printing) -> None:
    for (card, number, side), sheet in zip(printing.sides, printing.pages["cards.pdf"], strict=True):
        small = [
            text
            for block in side.blocks
            for text in acted_on(block)
            if max(sizes_of(sheet, text), default=0) < ACTED_ON
        ]
        assert small == [], f"card {card.id}, side {number}"


def test_only_the_bundled_fonts_are_embedded(printing: Printing) -> None:
    for name in printing.pages:
        assert paper.embedded_fonts(printing.files[name]) == {"Binder-Sans", "Binder-Sans-Bold"}


def test_nothing_is_nearer_than_5_mm_to_the_edge_of_a_card(printing: Printing) -> None:
    for (card, number, _), sheet in zip(printing.sides, printing.pages["cards.pdf"], strict=True):
        assert paper.outside_safe_area(sheet.page, SAFE_AREA) == [], f"card {card.id}, side {number}"


@pytest.mark.parametrize("name", ["binder.pdf", "desk.pdf"])
def test_nothing_is_nearer_than_5_mm_to_the_edge_of_a_page(printing: Printing, name: str) -> None:
    for number, sheet in enumerate(printing.pages[name], 1):
        assert paper.outside_safe_area(sheet.page, SAFE_AREA) == [], f"page {number}"


@pytest.mark.parametrize("name", ["cards.pdf", "binder.pdf", "desk.pdf", "sheets.pdf", "test_sheet.pdf"])
def test_no_letter_is_printed_over_another(printing: Printing, name: str) -> None:
    for number, sheet in enumerate(printing.pages[name], 1):
        assert paper.overlapping_glyphs(sheet.page) == [], f"page {number}"


@pytest.mark.parametrize("name", ["cards.pdf", "binder.pdf"])
def test_no_letter_stands_in_a_code_or_in_its_quiet_zone(printing: Printing, name: str) -> None:
    coded = 0
    for number, sheet in enumerate(printing.pages[name], 1):
        for code in sheet.codes:
            coded += 1
            assert [glyph for glyph in sheet.glyphs if glyph.area.overlaps(code)] == [], f"page {number}"
    assert coded == len(printing.cards)


def drawings(pdf: bytes) -> dict[int, list[paper.Area]]:
    """Bounds of the drawings on each page, from 0, as the tags of the file state them."""
    found: dict[int, list[paper.Area]] = {}
    with pikepdf.open(io.BytesIO(pdf)) as document:
        numbers = {str(page.objgen): number for number, page in enumerate(document.pages)}
        for item in document.objects:
            if isinstance(item, pikepdf.Dictionary) and item.get("/S") == "/Figure":
                area = paper.Area(*(float(edge) for edge in item.A.BBox))
                found.setdefault(numbers[str(item.Pg.objgen)], []).append(area)
    return found


def is_code(area: paper.Area, sheet: Sheet) -> bool:
    return any(abs(area.left - code.left) + abs(area.top - code.top) < 1 for code in sheet.codes)


def drawn(printing: Printing) -> Iterator[tuple[str, tuple[Block, ...], list[int]]]:
    """What stands on each side of the ring and in each part of the binder: file, blocks, numbers of pages."""
    yield from (("cards.pdf", side.blocks, [at]) for at, (_, _, side) in enumerate(printing.sides))
    number = printing.front_pages
    for part, sheets in printing.parts[: len(printing.document.parts)]:
        blocks = (
            part.blocks if isinstance(part, Page) else tuple(b for side in part.sides for b in side.blocks)
        )
        yield "binder.pdf", blocks, list(range(number, number + len(sheets)))
        number += len(sheets)


def test_a_drawing_holds_its_own_words_and_no_others(printing: Printing) -> None:
    areas = {name: drawings(printing.files[name]) for name in ("cards.pdf", "binder.pdf")}
    worded = 0
    for name, blocks, numbers in drawn(printing):
        words = Counter(
            unspaced("".join(text for b in blocks if isinstance(b, Picture) for text in strings(b)))
        )
        held: Counter[str] = Counter()
        for number in numbers:
            sheet = printing.pages[name][number]
            inside = [area for area in areas[name].get(number, []) if not is_code(area, sheet)]
            held.update(
                glyph.letter for area in inside for glyph in sheet.glyphs if glyph.area.overlaps(area)
            )
        worded += bool(words)
        assert held == words, (name, numbers)
    assert worded >= 2


_PARTED = re.compile(
    r"[^\r\n]*[^\d,.\r\n][^\r\n]*\d\r\n(?:psi|kPa|bar|lb|kg|mi|km|mph|ft|in|gal|L|kW|Ah|h|min|days?|\u00b0[FC]|%)\b[^\r\n]*"
)
"""A row that ends with a number, and the next that begins with its unit; drawings set some alone."""


def test_no_number_of_a_card_is_parted_from_its_unit(printing: Printing) -> None:
    texts = [sheet.page.get_textpage().get_text_range() for sheet in printing.pages["cards.pdf"]]

    assert [found for text in texts for found in _PARTED.findall(text)] == []


def filled_share(sheet: Sheet) -> float:
    """How far down the text of a page reaches, without its foot."""
    foot, height = 45.0, float(sheet.page.get_height())
    lowest: float = min(
        (glyph.area.bottom for glyph in sheet.glyphs if glyph.area.bottom > foot), default=height
    )
    return (height - lowest) / (height - foot)


def test_a_page_is_a_quarter_filled_but_the_last_of_a_part(printing: Printing) -> None:
    for part, sheets in printing.parts:
        assert [filled_share(sheet) for sheet in sheets[:-1] if filled_share(sheet) < 1 / 4] == [], part.title


def test_the_binder_is_no_thicker_than_it_may_be(printing: Printing) -> None:
    assert len(printing.pages["binder.pdf"]) <= {"larkspur": 42}.get(printing.rig, 45)
