"""The ring in large type says what the normal one says, larger, on the sides it needs."""

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date
from functools import cache
from pathlib import Path
from shutil import copytree
from tempfile import TemporaryDirectory

import pytest
from click.testing import CliRunner
from pypdfium2 import PdfPage

from binder import cli
from binder.cards.blocks import Big, Card, Line, Picture, Side, Step, ValueTable
from binder.printing.build import BuildOptions, build, printable_cards, read_and_assess
from binder.rendering.drawings.drawers import drawn
from binder.rendering.html import ring_html
from binder.rendering.layout import laid_out
from binder.rendering.paper import LARGE, NORMAL, PAPERS, SAFE_AREA, PaperName, TypeSize, paper_in
from binder.rendering.pdf import render
from binder.rendering.unfit import unfit
from tests import paper_checks as paper
from tests.demos import PROFILES
from tests.paper.printings import strings
from tests.rendering.synthetic_cards import RING
from tests.rendering.test_layout import differences
from tests.unknown.made_up_rigs import made_up, written

ON = date(2026, 6, 1)
SMALLEST, LINES = 11.0, 16.0
LAID_OUT = (9, 13, 14, 17, 24, 26, 32, 40)
"""Sizes that cards are laid out in, before they are drawn larger."""


@dataclass(frozen=True)
class Printed:
    """A ring in one type: its cards, and the characters of each card with their sizes."""

    cards: tuple[Card, ...]
    pages: tuple[bytes, ...]

    @property
    def sheets(self) -> Iterator[tuple[Card, list[PdfPage]]]:
        """Each card with its pages."""
        for card, content in zip(self.cards, self.pages, strict=True):
            yield card, list(paper.pages(content))


def printed(cards: tuple[Card, ...], name: PaperName, size: TypeSize) -> Printed:
    pdfs = (render(ring_html([card], name, size=size), len(card.sides)).content for card in cards)
    return Printed(cards, tuple(pdfs))


@cache
def demo(name: str) -> dict[str, Printed]:
    """The ring of a demo in both types."""
    assessment = read_and_assess(PROFILES / name, BuildOptions(ON))
    both = {size.name: (printable_cards(assessment, size.name), size) for size in (NORMAL, LARGE)}
    return {key: printed(cards, assessment.rig.paper, size) for key, (cards, size) in both.items()}


@pytest.fixture(scope="module", params=["larkspur", "tamarack"])
def rings(request: pytest.FixtureRequest) -> dict[str, Printed]:
    """Both rings of a demo, of half letter and of A5 cards."""
    return demo(request.param)


def words(card: Card) -> Counter[str]:
    """Words of a card's blocks and of what they draw."""
    blocks = [block for side in card.sides for block in side.blocks]
    said = [text for block in blocks if not isinstance(block, Picture) for text in strings(block)]
    # Where a side has no room a line is said in the small print of another.
    return Counter(word.strip(".,:;").casefold() for text in said for word in text.split())


def labels(card: Card, width: float) -> Counter[str]:
    pictures = [block for side in card.sides for block in side.blocks if isinstance(block, Picture)]
    svgs = [getattr(drawn(picture, width), "svg", "") for picture in pictures]
    return Counter("".join(text for svg in svgs for text in re.findall(">([^<]+)</text>", svg)))


def sizes_of(text: str, pages: list[PdfPage]) -> list[float]:
    """The least size of a text's characters, wherever it stands."""
    wanted, found = "".join(text.split()), []
    for page in pages:
        glyphs = paper.glyphs(page)
        letters = "".join(glyph.letter for glyph in glyphs)
        starts = [match.start() for match in re.finditer(re.escape(wanted), letters)] if wanted else []
        found += [min(glyph.points for glyph in glyphs[at : at + len(wanted)]) for at in starts]
    return found


def test_a_large_card_has_the_code_of_the_normal_one_and_at_least_its_sides(
    rings: dict[str, Printed],
) -> None:
    normal, large = rings["normal"].cards, rings["large"].cards

    assert [(one.id, one.code, one.target) for one in normal] == [
        (one.id, one.code, one.target) for one in large
    ]
    assert sum(len(one.sides) for one in large) > sum(len(one.sides) for one in normal)
    assert all(len(more.sides) >= len(one.sides) for one, more in zip(normal, large, strict=True))


def test_every_word_of_the_normal_card_stands_on_the_large_one(rings: dict[str, Printed]) -> None:
    normal, large = rings["normal"].cards, rings["large"].cards

    assert sum(words(card).total() for card in normal) > 1500
    for one, more in zip(normal, large, strict=True):
        assert words(one) - words(more) == Counter(), one.title
        # A drawing that has no room on the normal card stands on the large one all the same.
        assert labels(one, 340) - labels(more, 340 / LARGE.scale) == Counter(), one.title
        assert {(side.use, side.goes_on) for side in one.sides} == {
            (side.use, side.goes_on) for side in more.sides
        }


def test_every_string_of_a_large_side_is_on_its_page(rings: dict[str, Printed]) -> None:
    for card, pages in rings["large"].sheets:
        for side, page in zip(card.sides, pages, strict=True):
            said = "".join(paper.text(page).split())
            blocks = [block for block in side.blocks if not isinstance(block, Picture)]
            texts = [side.use, side.goes_on, *(text for block in blocks for text in strings(block))]
            assert [text for text in texts if "".join(text.split()) not in said] == []


def test_lines_are_of_16_points_and_no_text_is_under_11(rings: dict[str, Printed]) -> None:
    asked = 0
    for card, pages in rings["large"].sheets:
        used = {size for page in pages for size in paper.font_sizes(page)}
        laid_out_in = {round(size / LARGE.scale, 2) for size in used}
        assert {min(LAID_OUT, key=lambda one: abs(one - size)) - size for size in laid_out_in} <= {0.0}
        assert min(used) >= SMALLEST
        for block in (block for side in card.sides for block in side.blocks):
            acted_on = [block.challenge, block.answer] if isinstance(block, Line) else []
            for text in [*acted_on, *([block.text] if isinstance(block, Step) else [])]:
                asked += 1
                assert max(sizes_of(text, pages), default=LINES) >= LINES - 0.01, text
    assert asked > 200


def test_what_decides_keeps_its_size_or_grows(rings: dict[str, Printed]) -> None:
    asked = 0
    for (card, before), (_, after) in zip(rings["normal"].sheets, rings["large"].sheets, strict=True):
        blocks = [block for side in card.sides for block in side.blocks]
        values = [block.value for block in blocks if isinstance(block, Big)]
        values += [row.value for block in blocks if isinstance(block, ValueTable) for row in block.rows]
        for value in values:
            asked += 1
            assert max(sizes_of(value, after)) >= max(sizes_of(value, before)), (card.title, value)
    assert asked > 10


def test_nothing_of_a_large_card_is_clipped_or_printed_over_anything(rings: dict[str, Printed]) -> None:
    for card, pages in rings["large"].sheets:
        for page in pages:
            assert paper.outside_safe_area(page, SAFE_AREA) == [], card.title
            assert paper.overlapping_glyphs(page) == [], card.title


@pytest.mark.parametrize("name", PAPERS)
def test_heights_of_large_cards_are_those_that_are_typeset(name: PaperName) -> None:
    cards = tuple(laid_out(one, paper_in(name, LARGE)) for one in RING)

    assert differences(cards, name, LARGE) == []


@pytest.mark.parametrize("name", PAPERS)
def test_a_long_title_goes_round_the_number_of_its_card(name: PaperName) -> None:
    lines = tuple(Line(f"Item {number}", "IN") for number in range(40))
    titles = (
        "Coupling and uncoupling",
        "Day 10, Thu 2026-06-04",
        "A title of sixty letters, which is all that it may ever have",
    )
    cards = tuple(Card("5.10", "made", title, (Side("", lines),), "a wheel is changed.") for title in titles)
    for size in (NORMAL, LARGE):
        laid = tuple(laid_out(one, paper_in(name, size)) for one in cards)
        assert differences(laid, name, size) == []
        for _, pages in printed(laid, name, size).sheets:
            assert [paper.overlapping_glyphs(page) for page in pages] == [[]] * len(pages)


@pytest.mark.parametrize("name", PAPERS)
def test_style_sheets_hold_the_measures_of_large_cards(name: PaperName, root: Path) -> None:
    card = paper_in(name, LARGE).card
    style = (root / "templates" / "css" / "formats" / f"{card.name}.css").read_text("utf-8")
    left = (card.width - card.line_width) / 2

    assert f"transform: scale({LARGE.scale:.6f})" in style
    assert f"--value: {LARGE.value:.0f}pt; --footer: {LARGE.footer:.0f}pt;" in style
    assert f"--footer-row: {LARGE.footer_row:.0f}pt" in style
    for measure, stated in (
        (card.line_width, r"\.face \{.* width: ([\d.]+)pt"),
        (card.line_width, r"\.foot \{.* width: ([\d.]+)pt"),
        (left, r"\.foot \{.* left: ([\d.]+)pt"),
        (card.top, r"\.face \{ margin: ([\d.]+)pt"),
        (card.bottom, r"\.foot \{.* bottom: ([\d.]+)pt"),
    ):
        assert float(re.search(stated, style)[1]) == pytest.approx(measure, abs=0.01)  # type: ignore[index] # It is there.


@pytest.mark.parametrize("seed", range(6))
def test_a_made_up_rig_fits_in_large_type(seed: int) -> None:
    with TemporaryDirectory() as work:
        folder = written(Path(work) / "rig", *made_up(seed))
        assessment = read_and_assess(folder, BuildOptions(ON, "trip"))
        cards = printable_cards(assessment, "large")
    name = assessment.rig.paper
    longest = max(cards, key=lambda card: len(card.sides))

    assert list(unfit(cards, paper_in(name, LARGE))) == []
    for _, pages in printed((longest,), name, LARGE).sheets:
        assert [paper.overlapping_glyphs(page) for page in pages] == [[]] * len(longest.sides)


def test_a_word_that_is_too_wide_for_large_type_alone_is_told_as_one_that_is_for_any(tmp_path: Path) -> None:
    folder = copytree(PROFILES / "kestrel", tmp_path / "rig")
    (folder / "cards").mkdir()
    word = "W" * 23
    own = f"card: leaving\nlines:\n  - {{name: glass, answer: {word}}}\n"
    (folder / "cards" / "leaving.yaml").write_text(own, "utf-8")

    normal = CliRunner().invoke(cli.main, ["check", str(folder)])
    large = CliRunner().invoke(cli.main, ["check", str(folder), "--type", "large"])
    assert normal.exit_code in {0, 1, 3}
    assert large.exit_code == 2
    assert (
        f"cards/leaving.yaml:3:27: error: lines[1].answer: '{word}' is too long for its place" in large.output
    )


def test_a_sentence_that_names_make_too_long_is_told_at_a_name(tmp_path: Path) -> None:
    folder = Path(copytree(PROFILES / "larkspur", tmp_path / "rig"))
    (folder / "printed.yaml").unlink(missing_ok=True)
    long = " of grandmother with everything in it" * 3
    text = (folder / "rig.yaml").read_text("utf-8")
    axles = re.sub(r"\b(steer|drive)(?=:| (left|right))", rf"\1{long}", text)
    (folder / "rig.yaml").write_text(axles, "utf-8")

    told = CliRunner().invoke(cli.main, ["check", str(folder), "--type", "large"])

    assert told.exit_code == 2
    line = text.splitlines().index("      steer:") + 1
    assert f"rig.yaml:{line}:7: error: vehicles.coach.axles.steer{long}: 'Reprint if steer of" in told.output


def test_large_type_is_written_beside_the_normal_set_and_changes_the_ring_alone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    options = BuildOptions(ON, set="mechanic")
    rig = PROFILES / "kestrel"

    normal, large = build(rig, options).out, build(rig, replace(options, type_size="large")).out
    files = {file.name: file.read_bytes() for file in normal.iterdir()}
    assert large == normal.with_name("mechanic-large")
    assert {file.name for file in large.iterdir()} == set(files)
    assert {name for name in files if (large / name).read_bytes() != files[name]} == {
        "cards.pdf",
        "sheets.pdf",
        "numbers.json",
    }
