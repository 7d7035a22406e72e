"""Every string of every view model is on its page, where it belongs, and each page is declared."""

import io
import re
from collections.abc import Iterator

import pikepdf
import pytest

from binder.cards.blocks import Block, Drawing, Line, Page, Picture, Step
from binder.cards.codes import part_title
from binder.rendering.html import CONTENTS, DESK
from binder.rendering.paper import PAPERS
from tests.paper.printings import EFFECTIVE, PDFS, Printing, Sheet, said_by_side, strings

_ABOVE = 3
"""Points by which the letters of an answer may rise over the first letter of its challenge."""


def unspaced(text: str) -> str:
    """Text without spaces and hyphens: a line end adds the one and hides the other."""
    return re.sub(r"[\s\x02\u00ad\ufffe-]", "", text)


def test_every_string_of_a_side_is_on_that_side(printing: Printing) -> None:
    for (card, number, _), sheet in zip(printing.sides, printing.pages["cards.pdf"], strict=True):
        said = [text.removeprefix("Reprint if ") for text in said_by_side(card, number)]
        assert [text for text in said if unspaced(text) not in unspaced(sheet.text)] == []


def test_every_side_says_how_it_is_used(printing: Printing) -> None:
    for (card, number, _), sheet in zip(printing.sides, printing.pages["cards.pdf"], strict=True):
        said = [text for text in (card.sides[number - 1].use, card.sides[number - 1].goes_on) if text]
        assert said, f"side {number} of card {card.id}"
        assert [text for text in said if unspaced(text) not in unspaced(sheet.text)] == []


def test_every_string_of_a_part_of_the_binder_is_on_its_own_pages(printing: Printing) -> None:
    for part, sheets in printing.parts:
        printed = unspaced(" ".join(sheet.text for sheet in sheets))
        assert [text for text in strings(part) if unspaced(text) not in printed] == []


def test_a_line_of_a_page_stands_on_one_page_with_what_is_said_beside_it(printing: Printing) -> None:
    parted = []
    for part, sheets in printing.parts:
        lines = [block for block in part.blocks if isinstance(block, Line)] if isinstance(part, Page) else []
        texts = [unspaced(sheet.text) for sheet in sheets]
        parted += [
            line.challenge
            for line in lines
            if not any(unspaced(line.challenge) in one and unspaced(line.detail) in one for one in texts)
        ]

    assert parted == []


def test_the_cover_says_what_is_bad_and_what_is_missing(printing: Printing) -> None:
    document = printing.document
    front = " ".join(sheet.text for sheet in printing.pages["binder.pdf"][: printing.front_pages])
    # A running foot stands between two pages; a list that goes on over it is read without.
    front = re.sub(r" \S+ \u00b7 from \S+ [A-Za-z ]+, page \d+ of \d+|\u2022", "", front)
    said = list(strings(document))

    assert document.missing
    assert document.invented in said
    assert [text for text in said if unspaced(text) not in unspaced(front)] == []


def test_a_list_that_is_empty_says_none(printing: Printing) -> None:
    first = printing.pages["binder.pdf"][0].text

    assert ("Do not drive None." in first) == (not printing.document.do_not_drive)


def tops(sheet: Sheet, text: str) -> Iterator[float]:
    """Height on the page of the first letter, each time the text stands there."""
    glyphs = [glyph for glyph in sheet.glyphs if unspaced(glyph.letter)]
    letters = "".join(glyph.letter for glyph in glyphs)
    for found in re.finditer(f"(?={re.escape(unspaced(text))})", letters):
        yield glyphs[found.start()].area.top


def heights(sheet: Sheet, blocks: tuple[Block, ...]) -> Iterator[tuple[Block, float]]:
    """Height of each block on the page, each the highest that is below the block before."""
    above = sheet.page.get_height()
    for block in blocks:
        first = next(strings(block), "")
        if not first or isinstance(block, Picture | Drawing):
            continue
        above = max((top for top in tops(sheet, first) if top < above - 1), default=-1.0)
        yield block, above


def test_blocks_stand_one_under_the_other_in_their_order(printing: Printing) -> None:
    for (card, number, side), sheet in zip(printing.sides, printing.pages["cards.pdf"], strict=True):
        lost = [next(strings(block)) for block, top in heights(sheet, side.blocks) if top < 0]
        assert lost == [], f"card {card.id}, side {number}"


def answers(block: Block) -> tuple[str, ...]:
    """What stands beside or right below the first words of a block."""
    if isinstance(block, Line):
        return (block.answer, block.detail)
    return ("", block.detail) if isinstance(block, Step) else ()


def test_an_answer_stands_with_its_own_challenge(printing: Printing) -> None:
    asked = 0
    for (_, _, side), sheet in zip(printing.sides, printing.pages["cards.pdf"], strict=True):
        placed = list(heights(sheet, side.blocks))
        floors = [top for _, top in placed[1:]] + [0.0]
        for (block, top), floor in zip(placed, floors, strict=True):
            for text in filter(None, answers(block)):
                asked += 1
                assert any(floor < height <= top + _ABOVE for height in tops(sheet, text)), (block, text)
    assert asked > 60


def test_pages_are_as_many_and_as_large_as_declared(printing: Printing) -> None:
    sides = [card.sides for card in printing.cards]
    form = PAPERS[printing.assessment.rig.paper]
    leaves = sum((len(side) + 1) // 2 for side in sides)
    declared = {"cards.pdf": sum(map(len, sides)), "sheets.pdf": 2 * ((leaves + 1) // 2)}
    sizes = {
        "cards.pdf": (form.card.width, form.card.height),
        "binder.pdf": (form.width, form.height),
        "desk.pdf": (form.width, form.height),
        "sheets.pdf": (form.height, form.width),
    }

    assert [entry["sides"] for entry in printing.record["cards"]] == [len(side) for side in sides]
    assert {name: len(printing.pages[name]) for name in declared} == declared
    for name, size in sizes.items():
        assert all(sheet.page.get_size() == pytest.approx(size, abs=0.01) for sheet in printing.pages[name])


def test_a_sheet_says_what_its_cards_say(printing: Printing) -> None:
    def letters(name: str) -> list[str]:
        return sorted("".join(unspaced(sheet.text) for sheet in printing.pages[name]))

    assert letters("sheets.pdf") == letters("cards.pdf")


def test_the_list_gives_pages_code_and_date_of_each_part(printing: Printing) -> None:
    lists = printing.pages["binder.pdf"][printing.front_pages - 1].text + printing.pages["desk.pdf"][0].text

    for part, sheets in printing.parts:
        row = f"{part_title(part)} {len(sheets)} {part.code} {EFFECTIVE} "
        assert unspaced(row) in unspaced(lists), row


def test_links_of_the_lists_lead_to_the_first_page_of_their_part(printing: Printing) -> None:
    for name, first, parts in (
        ("binder.pdf", printing.front_pages, printing.document.parts),
        ("desk.pdf", 1, printing.document.desk),
    ):
        with pikepdf.open(io.BytesIO(printing.files[name])) as pdf:
            at = {page.obj.objgen: number for number, page in enumerate(pdf.pages)}
            led = [at[one.Dest[0].objgen] for one in pdf.pages[first - 1].Annots]
        counts = [len(sheets) for part, sheets in printing.parts if part in parts]
        assert led == [first + sum(counts[:number]) for number in range(len(counts))]


def test_pages_are_labeled_by_their_part_from_1(printing: Printing) -> None:
    sheets = printing.pages["desk.pdf"]
    labels = [sheet.page.pdf.get_page_label(number) for number, sheet in enumerate(sheets)]
    counted = [(part_title(part), len(of)) for part, of in printing.parts if part in printing.document.desk]

    assert labels == [
        f"{title}, {at}" for title, count in [(DESK, 1), *counted] for at in range(1, count + 1)
    ]


def bookmarks(pdf: bytes) -> list[str]:
    """Titles of the outline, flat."""
    with pikepdf.open(io.BytesIO(pdf)) as document, document.open_outline() as outline:
        return [str(item.title) for item in outline.root]


def test_bookmarks_are_words_a_person_reads(printing: Printing) -> None:
    sides = [
        f"{card.id} {card.title}" + (", continued" if number > 1 else "")
        for card, number, _ in printing.sides
    ]
    document = printing.document
    binder, desk = map(part_title, document.parts), map(part_title, document.desk)

    assert bookmarks(printing.files["cards.pdf"]) == sides
    assert bookmarks(printing.files["binder.pdf"]) == [document.title, CONTENTS, *binder]
    assert bookmarks(printing.files["desk.pdf"]) == [DESK, *desk]


def test_the_record_lists_each_file_by_its_hash(printing: Printing) -> None:
    assert sorted(printing.record["files"]) == sorted(PDFS)
    assert [entry["code"] for entry in printing.record["cards"]] == [card.code for card in printing.cards]
