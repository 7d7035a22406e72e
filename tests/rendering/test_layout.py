from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from weasyprint import HTML
from weasyprint.text.fonts import FontConfiguration

from binder.cards.blocks import (
    Aside,
    Bands,
    Block,
    Box,
    Card,
    Continued,
    End,
    Heading,
    Line,
    Note,
    Ranking,
    RoadLine,
    Side,
    Step,
    Table,
    ValueRow,
    ValueTable,
)
from binder.cards.ring.order import ring
from binder.printing.build import BuildOptions, read_and_assess
from binder.rendering import pdf
from binder.rendering.html import ring_html
from binder.rendering.layout import bar_height, beside_title, face_height, foot_of, laid_out
from binder.rendering.paper import NORMAL, PAPERS, PaperName, TypeSize, paper_in
from binder.rendering.placing import PlacedBands, placed_on_card
from binder.rendering.unfit import unfit
from tests.printings import printed_trips
from tests.rendering.synthetic_cards import RING

LETTER = PAPERS["letter"]
ON = date(2026, 6, 1)
HIGHER, LOWER = 3.0, 0.35
"""Points by which a measured height may be over, and under, the one that is typeset."""


ROW_MORE = 12.5


def card(*sides: Side, **more: Any) -> Card:
    return Card("1", "leaving", "Leaving", sides, "a bay is added.", **more)


def groups(count: int, lines: int = 4) -> tuple[Block, ...]:
    found: list[Block] = []
    for group in range(count):
        found.append(Heading(f"Group {group}"))
        found += [Line(f"Item {group}.{at}", "IN") for at in range(lines)]
    return tuple(found)


def bands(*names: str, detail: str = "5,744 lb each, 31 lb to next row") -> Bands:
    others = ("84 or\u00a0less", "85 to\u00a0104", "to\u00a0110", "over 110")
    actions = ("add no air, call tire service", "to the big number", "psi", "never warm")
    rows = tuple(ValueRow(name, detail, "105", others) for name in names)
    return Bands("", ("FLAT", "ADD", "GO", "OVER"), rows, actions=actions)


def part_of(box: Any, name: str) -> Any:
    for child in getattr(box, "children", ()):
        if child.element is not None and child.element.get("class") == name:
            return child
        if (inner := part_of(child, name)) is not None:
            return inner
    return None


def typeset(cards: tuple[Card, ...], paper: PaperName, size: TypeSize = NORMAL) -> list[tuple[float, float]]:
    """Heights of face and foot of each side, in points, as WeasyPrint lays them out."""
    source = HTML(string=ring_html(cards, paper, size=size), base_url=pdf._BASE, url_fetcher=pdf._fetcher())
    document, top = source.render(FontConfiguration()), paper_in(paper, size).card.top
    boxes = [(part_of(page._page_box, "face"), part_of(page._page_box, "foot")) for page in document.pages]
    return [(face.margin_height() * 0.75 - top, foot.margin_height() * 0.75) for face, foot in boxes]


def measured(cards: tuple[Card, ...], paper: PaperName, size: TypeSize = NORMAL) -> list[tuple[float, float]]:
    width = paper_in(paper, size).card.line_width
    found = []
    for one in cards:
        for number, side in enumerate(one.sides, 1):
            killers = any(isinstance(block, Line | Step) and block.killer for block in side.blocks)
            foot, bar = (
                foot_of(one, number, width, size, has_killers=killers),
                bar_height(one, side, number, width),
            )
            found.append((face_height(side.blocks, side.use, width, size, bar), foot.body))
    return found


def differences(cards: tuple[Card, ...], paper: PaperName, size: TypeSize = NORMAL) -> list[str]:
    names = [f"{one.id} {one.title}, side {at}" for one in cards for at in range(1, len(one.sides) + 1)]
    return [
        f"{name}: {what} {guess - real:+.2f}"
        for name, real_pair, guess_pair in zip(
            names, typeset(cards, paper, size), measured(cards, paper, size), strict=True
        )
        for what, real, guess in zip(("face", "foot"), real_pair, guess_pair, strict=True)
        # A text that ends within a hundredth of its row's width is measured as a row more.
        if not -LOWER <= guess - real <= (ROW_MORE if what == "foot" else HIGHER)
    ]


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_heights_are_those_that_are_typeset_for_every_kind_of_block(paper: PaperName) -> None:
    assert differences(tuple(laid_out(one, PAPERS[paper]) for one in RING), paper) == []


@pytest.mark.parametrize("marked", [(0,), (1, 2), (0, 1, 2)])
@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_heights_of_marked_rows_are_those_that_are_typeset(paper: PaperName, marked: tuple[int, ...]) -> None:
    rows = (
        ("house battery", "14 h", "2", "0 h"),
        ("a tank with a name that is far longer than its column is wide", "2.5", "5", ""),
        ("propane", "______", "26.5", "6.5"),
    )
    block = Ranking(("left in it, days", "today", "full", "quarter"), rows, first=marked)

    assert differences((laid_out(card(Side("", (block, Line("Last", "IN")))), PAPERS[paper]),), paper) == []


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize(
    ("block", "large", "above"),
    [
        (bands("Steer", "Drive, pairs", "Towed car"), True, False),
        (bands("Steer", "Drive", "Tag", "Front", "Rear"), False, False),
        (bands("Steer", detail="the fitted tires cannot carry what is asked of them " * 3), False, True),
        (bands("Vorderachsenlenkungsgestell"), False, True),
    ],
)
def test_heights_of_bands_are_those_that_are_typeset(
    block: Bands,
    large: bool,  # noqa: FBT001 - a table's column.
    above: bool,  # noqa: FBT001 - a table's column.
    paper: PaperName,
) -> None:
    (placed,) = placed_on_card((block,), PAPERS[paper].card.line_width)

    assert isinstance(placed, PlacedBands)
    assert (placed.large, placed.is_name_above) == (large, above)
    assert differences((laid_out(card(Side("", (block, Line("Last", "IN")))), PAPERS[paper]),), paper) == []


@pytest.mark.parametrize(
    ("rig", "trip"), [pytest.param(rig, trip, id=f"{rig.name}-{trip}") for rig, trip in printed_trips()]
)
def test_heights_are_those_that_are_typeset_for_every_rig(rig: Path, trip: str | None) -> None:
    assessment = read_and_assess(rig, BuildOptions(ON, trip))
    paper = assessment.rig.paper
    cards = tuple(laid_out(one, PAPERS[paper]) for one in ring(assessment))

    assert list(unfit(cards, PAPERS[paper])) == []
    assert differences(cards, paper) == []


def test_groups_flow_on_to_as_many_sides_as_they_need_and_none_is_broken() -> None:
    sides = laid_out(card(Side("Read, then do.", groups(20))), LETTER).sides

    assert len(sides) > 3
    assert tuple(block for side in sides for block in side.blocks) == groups(20)
    assert all(isinstance(side.blocks[0], Heading) for side in sides)


def test_a_group_longer_than_a_side_is_named_again() -> None:
    sides = laid_out(card(Side("", groups(1, 60))), LETTER).sides

    assert [type(side.blocks[0]) for side in sides] == [Heading, Continued, Continued]
    assert sum(isinstance(block, Line) for side in sides for block in side.blocks) == 60


def test_what_the_front_has_no_room_for_begins_the_back_where_it_has_room() -> None:
    front, back = laid_out(card(Side("", groups(6)), Side("", (Line("Last", "IN"),))), LETTER).sides

    assert isinstance(back.blocks[0], Heading)
    assert (*front.blocks, *back.blocks) == (*groups(6), Line("Last", "IN"))


def test_a_side_that_goes_on_takes_in_a_rest_that_fills_a_side_of_its_own() -> None:
    sides = laid_out(card(Side("", groups(9)), Side("", groups(1), goes_on="read, then do")), LETTER).sides
    apart = laid_out(card(Side("", groups(9)), Side("Read this aloud.", groups(1))), LETTER).sides

    assert [side.goes_on for side in sides] == ["", "read, then do", "read, then do"]
    assert [side.use for side in apart] == ["", "", "", "Read this aloud."]


@pytest.mark.parametrize(
    ("number", "goes_on", "told"),
    [
        (1, "", ""),
        (2, "", "continued"),
        (1, "do, then confirm", "do, then confirm"),
        (2, "do, then confirm", "continued: do, then confirm"),
    ],
)
def test_beside_its_title_a_side_says_that_it_goes_on_and_how_it_is_used(
    number: int, goes_on: str, told: str
) -> None:
    assert beside_title(Side("", (), goes_on=goes_on), number) == told


def test_lines_of_a_road_are_never_set_over_each_other() -> None:
    places = [0.0, 329.0, 334.0, 332.0, 357.0]
    road = tuple(RoadLine("Break", "15 min", mile=f"{mile:.0f} mi", along=mile) for mile in places)
    (side,) = laid_out(card(Side("", road)), LETTER).sides
    gaps = [block.gap for block in side.blocks if isinstance(block, RoadLine)]

    assert min(gaps) == 0
    assert max(gaps) > 0


def test_a_shorter_wording_is_taken_ahead_of_a_further_side() -> None:
    short = groups(2)

    assert laid_out(card(Side("", groups(9), (short,))), LETTER).sides == (Side("", short),)
    assert len(laid_out(card(Side("", groups(7), (groups(6),))), LETTER).sides) == 2


def test_a_note_that_may_move_goes_to_the_last_side_before_anything_else_does() -> None:
    note, end = Aside("Tires to 75 mph. " * 60), End("Done")
    front, back = laid_out(
        card(Side("", (note, *groups(4))), Side("", (Line("Last", "IN"), end))), LETTER
    ).sides

    assert front.blocks == groups(4)
    assert back.blocks == (Line("Last", "IN"), note, end)


@pytest.mark.parametrize(
    "block",
    [
        Table(("Day", "miles"), tuple((f"Day {at}", "210") for at in range(90))),
        Ranking(("Day", "miles"), tuple((f"Day {at}", "210") for at in range(90)), first=(0, 50)),
        ValueTable(
            "", ("cold fill",), tuple(ValueRow(f"Axle {at}", "by the label", "80", ()) for at in range(30))
        ),
        bands(*(f"Axle {at}" for at in range(30))),
        Note("The reason is told at length. " * 200),
        Step("Set the brake, then wait. " * 120, "1"),
        Box("Driven flat?", tuple(f"Vehicle {at}: off." for at in range(60))),
        Line("Bridge", "12 ft 6 in", "ask the way " * 400),
    ],
)
def test_a_block_longer_than_a_side_is_split_and_nothing_of_it_is_lost(block: Block) -> None:
    laid = laid_out(card(Side("", (Heading("Long"), block))), LETTER)
    words = " ".join(str(part) for side in laid.sides for part in side.blocks)

    assert len(laid.sides) > 1
    assert list(unfit([laid], LETTER)) == []
    for word in ("miles", "Axle 29", "Vehicle 59"):
        assert (word in str(block)) == (word in words)
    assert words.count("ask the way") == str(block).count("ask the way")
    assert pdf.render(ring_html([laid], "letter"), len(laid.sides)).page_count == len(laid.sides)


def test_a_table_with_too_many_columns_is_set_as_several() -> None:
    headers = ("", *(f"Fuel at station {at}" for at in range(1, 13)))
    laid = laid_out(card(Side("", (Table(headers, (("Odometer", *("" for _ in headers[1:])),)),))), LETTER)
    tables = [block for side in laid.sides for block in side.blocks if isinstance(block, Table)]

    assert len(tables) > 1
    assert [header for table in tables for header in table.headers[1:]] == list(headers[1:])
    assert all(row[0] == "Odometer" for table in tables for row in table.rows)


def test_a_word_wider_than_its_row_is_unfit_by_so_many_characters() -> None:
    word = "x" * 80
    found = list(unfit([laid_out(card(Side("", (Line(word, "IN"),))), LETTER)], LETTER))
    mended = laid_out(card(Side("", (Line(word[: 80 - found[0].over], "IN"),))), LETTER)

    assert [(one.word, one.side) for one in found] == [(word, 1)]
    assert list(unfit([mended], LETTER)) == []
    assert list(unfit([laid_out(card(Side("", (Line(word[: 81 - found[0].over], "IN"),))), LETTER)], LETTER))


@pytest.mark.parametrize("name", ["A rig with a name of thirty-six lett", "Name " * 40])
def test_a_long_name_of_a_rig_leaves_the_code_its_place(name: str) -> None:
    from tests import paper_checks  # noqa: PLC0415 - it loads a renderer.

    named = laid_out(replace(RING[1], rig=name.strip()), LETTER)
    printed = pdf.render(ring_html([named], "letter"), len(named.sides)).content

    for page in paper_checks.pages(printed):
        assert paper_checks.overlapping_glyphs(page) == []
        assert paper_checks.text(page).count(name.strip()) == 1
