import gc
import io
import re
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import outloud
import pikepdf
import pytest
from hypothesis import given, settings
from hypothesis import strategies as some
from pypdfium2 import PdfPage

from binder.cards.blocks import Block, Card, Drawing, Heading, Line, Listing, Page, Side, Table
from binder.rendering.html import binder_parts, ring_html
from binder.rendering.paper import PAPERS, SAFE_AREA, PaperName
from binder.rendering.pdf import CardsDoNotFit, RenderingFault, render
from tests import paper_checks as paper
from tests.rendering.synthetic_cards import BINDER, RING, TIRES
from tests.rendering.whole_binder import binder_pdf

SIZES = {8, 9, 13, 14, 16, 17, 24, 32, 40}
SIDES = [side for card in RING for side in card.sides]


@pytest.fixture(scope="module", params=["letter", "a4"])
def name(request: pytest.FixtureRequest) -> PaperName:
    chosen: PaperName = request.param
    return chosen


@pytest.fixture(scope="module")
def ring(name: PaperName) -> bytes:
    return render(ring_html(RING, name), len(SIDES)).content


@pytest.fixture(scope="module")
def bound(name: PaperName) -> bytes:
    return binder_pdf(BINDER, name)


def strings(value: object) -> Iterator[str]:
    """Every string that a reader of a block is to see."""
    if isinstance(value, Drawing):
        return
    if isinstance(value, str):
        yield value
    elif isinstance(value, tuple):
        for item in value:
            yield from strings(item)
    elif hasattr(value, "__dataclass_fields__"):
        for key in value.__dataclass_fields__:
            if key != "kind":
                yield from strings(getattr(value, key))


def one_card(*blocks: Block, title: str = "Leaving", number: str = "1") -> Card:
    return Card(number, "leaving", title, (Side("Read, then do.", blocks),), "a bay is added.")


def test_every_kind_of_block_is_tried() -> None:
    kinds = {block.kind for side in SIDES for block in side.blocks}

    assert kinds == {
        "heading", "line", "step", "box", "value_table", "table", "note", "big", "blank", "drawing", "end",
    }  # fmt: skip


def test_a_side_is_a_page_of_its_true_size(ring: bytes, name: PaperName) -> None:
    card = PAPERS[name].card
    sizes = [page.get_size() for page in paper.pages(ring)]

    assert len(sizes) == len(SIDES)
    assert all(size == pytest.approx((card.width, card.height), abs=0.01) for size in sizes)


def test_every_string_of_a_side_is_on_its_page(ring: bytes) -> None:
    for page, side in zip(paper.pages(ring), SIDES, strict=True):
        printed = paper.text(page)
        assert [item for item in strings(side) if item not in printed] == []


def test_every_string_of_the_binder_is_in_it(bound: bytes) -> None:
    printed = " ".join(paper.text(page) for page in paper.pages(bound))

    wanted = [item for item in strings(replace(BINDER, parts=())) if item]
    wanted += [item for card in RING for item in strings((card.sides, card.reasons, card.title))]
    assert [item for item in wanted if item not in printed] == []


def test_nothing_is_outside_the_safe_area(ring: bytes) -> None:
    assert [paper.outside_safe_area(page, SAFE_AREA) for page in paper.pages(ring)] == [[]] * len(SIDES)


@pytest.mark.parametrize("rig", ["Grandmother's summer house on ten wheels", "word " * 80, "x" * 300])
def test_a_foot_of_the_binder_stays_in_the_safe_area_whatever_the_rig_is_called(
    rig: str, name: PaperName
) -> None:
    _, *parts = binder_parts(replace(BINDER, rig=rig, parts=RING[:3]), name)

    for part in parts:
        for page in paper.pages(render(part.html).content):
            assert paper.outside_safe_area(page, SAFE_AREA) == []
            printed = paper.text(page)
            assert printed.count("\u2026") == (len(rig) > 100)
            assert BINDER.effective in printed
            assert "page 1 of" in printed


@pytest.mark.parametrize("letters", range(1, 12))
def test_a_row_of_a_listing_that_is_too_long_goes_on_in_the_next(letters: int, name: PaperName) -> None:
    row = "    " + " ".join(["n" * letters] * 60) + ":"
    page = Page("listed", "Listed", "", (Listing(("- on: ____", row)),))
    _, part = binder_parts(replace(BINDER, parts=(page,)), name)

    assert "".join(row.split()) in "".join(
        paper.text(one) for one in paper.pages(render(part.html).content)
    ).replace(" ", "")


def test_nothing_is_printed_over_anything(ring: bytes, bound: bytes) -> None:
    for page in [*paper.pages(ring), *paper.pages(bound)]:
        assert paper.overlapping_glyphs(page) == []
        for code in paper.codes(page):
            assert [glyph for glyph in paper.glyphs(page) if glyph.area.overlaps(code)] == []


def test_a_code_stands_on_the_first_side_of_a_card_with_a_target(ring: bytes) -> None:
    shown = [bool(paper.codes(page)) for page in paper.pages(ring)]

    assert shown == [bool(card.target) and number == 0 for card in RING for number in range(len(card.sides))]


def test_type_has_a_closed_set_of_sizes(ring: bytes, bound: bytes) -> None:
    whole = [page for page in paper.pages(bound) if "side 1 of" not in paper.text(page)]
    used = {points for page in [*paper.pages(ring), *whole] for points in paper.font_sizes(page)}

    assert used <= SIZES


def test_only_the_bundled_fonts_are_embedded(ring: bytes, bound: bytes) -> None:
    assert paper.embedded_fonts(ring) | paper.embedded_fonts(bound) == {"Binder-Sans", "Binder-Sans-Bold"}


def test_a_checker_for_readers_aloud_finds_no_error(ring: bytes, bound: bytes, tmp_path: Path) -> None:
    for number, pdf in enumerate((ring, bound)):
        file = tmp_path / f"{number}.pdf"
        file.write_bytes(pdf)
        result = outloud.check(str(file))
        assert result.error is None
        assert [item.message for item in result.findings if item.severity == "error"] == []


def test_a_card_breaks_its_lines_in_the_binder_as_in_the_ring(ring: bytes, bound: bytes) -> None:
    first_of_tires = next(page for page in paper.pages(ring) if "Driven below" in paper.text(page))
    in_binder = next(page for page in paper.pages(bound) if "Driven below" in paper.text(page))

    def height(page: PdfPage, start: str) -> float:
        glyphs = paper.glyphs(page)
        word = "".join(glyph.letter for glyph in glyphs)
        return glyphs[word.index(start)].area.bottom

    places = ("Everymorning", "Towedcar", "Drivenbelow", "Hottire")
    steps = [
        [height(page, a) - height(page, b) for a, b in pairwise(places)]
        for page in (first_of_tires, in_binder)
    ]
    ratios = [one / other for one, other in zip(*reversed(steps), strict=True)]
    assert ratios == pytest.approx([ratios[0]] * len(ratios), rel=1e-3)
    assert 0.5 < ratios[0] < 0.7


def test_the_same_cards_give_the_same_bytes(ring: bytes, bound: bytes, name: PaperName) -> None:
    assert render(ring_html(RING, name)).content == ring
    assert binder_pdf(BINDER, name) == bound


def test_dates_come_from_the_cards_only(ring: bytes) -> None:
    with pikepdf.open(io.BytesIO(ring)) as document:
        assert str(document.docinfo["/CreationDate"]).startswith("D:20260601")

    undated = render(ring_html([replace(TIRES, effective="")], "letter")).content
    with pikepdf.open(io.BytesIO(undated)) as document:
        assert "/CreationDate" not in document.docinfo


def test_overflow_is_reported_in_points_and_lines_for_all_cards_at_once() -> None:
    long = one_card(*[Line("Chocks", "IN")] * 30)
    wide = one_card(Table(("A", "B"), (("x" * 60, "y"),)), title="Other", number="9")

    with pytest.raises(CardsDoNotFit) as caught:
        render(ring_html([long, TIRES, wide], "letter"), 4)

    text = str(caught.value).splitlines()
    assert len(text) == 2
    points, lines = map(
        int,
        re.fullmatch(r"card 1 Leaving, side 1: (\d+) pt too long, (\d+) lines of 18 pt", text[0]).groups(),  # type: ignore[union-attr]
    )
    assert 18 * (lines - 1) < points <= 18 * lines
    assert re.fullmatch(r"card 9 Other, side 1: \d+ pt too wide", text[1])


def test_one_line_less_is_one_line_less_of_overflow() -> None:
    def points(count: int) -> int:
        with pytest.raises(CardsDoNotFit) as caught:
            render(ring_html([one_card(*[Line("Chocks", "IN")] * count)], "letter"))
        return int(re.findall(r"(\d+) pt too long", str(caught.value))[0])

    assert points(31) - points(30) in (20, 21)  # Row, padding and hairline: 20 pt.


def test_a_wrong_count_of_sides_is_refused() -> None:
    with pytest.raises(RenderingFault, match="2 pages for 3 sides"):
        render(ring_html([TIRES], "letter"), 3)


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ('<p style="ink: red">x</p>', "unknown property"),
        ('<img src="https://example.com/x.png" alt="x"/>', "is not one of the bundled styles and fonts"),
        ('<img src="../../../etc/hosts.css" alt="x"/>', "Failed to load image"),
        ('<p style="font-family: serif">x</p>', "was used"),
    ],
)
def test_nothing_goes_wrong_in_silence(wrong: str, said: str) -> None:
    written = ring_html([one_card(Heading("Here"))], "letter").replace("Here</h2>", f"Here</h2>{wrong}")

    with pytest.raises(RenderingFault, match=said):
        render(written)


def test_garbage_collection_is_as_it_was(ring: bytes) -> None:
    before = gc.get_threshold()
    render(ring_html([one_card(Heading("A"))], "letter"))

    assert ring
    assert gc.get_threshold() == before


words = some.text(some.sampled_from("aemnorst WAVTYfijl.,0581"), min_size=1, max_size=70).map(
    lambda text: " ".join(text.split()) or "x"
)


@settings(max_examples=15, deadline=None)
@given(rows=some.lists(some.tuples(words, words, some.sampled_from((0, 0, 4))), min_size=1, max_size=5))
def test_an_answer_never_touches_its_challenge(rows: list[tuple[str, str, int]]) -> None:
    lines = [
        Line(" ".join(re.findall(".{1,14}", challenge)), " ".join(re.findall(".{1,14}", answer)),
             consequence="FIX FIRST", killer=bool(ticks), ticks=ticks)
        for challenge, answer, ticks in rows
    ]  # fmt: skip
    page = next(paper.pages(render(ring_html([one_card(*lines)], "letter"), 1).content))

    assert paper.overlapping_glyphs(page) == []
    assert all(paper.text(page).count(word) for line in lines for word in line.answer.split())
