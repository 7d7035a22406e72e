"""No digit on paper without an origin.

Every digit is read out of the PDFs. First each must belong to a string of the card or page it stands
on, or to what frames it: page, side, card, contents, code, date. Then every number of those strings,
with its unit, must be a figure of the record, rounded; or stand in the record's texts, the profile, the
plan or a cited constant; or be one of the few numbers that ``origins.py`` lists with their reasons.
"""

import re
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import replace
from itertools import pairwise

import pytest

from binder.cards.blocks import Bands, Block, Card, Line, Page, Picture, Side, Step, Table
from binder.cards.codes import part_title
from binder.cards.drawings import PlanView
from binder.rendering.html import CONTENTS, DESK, ring_html
from binder.rendering.pdf import render
from tests import paper_checks as paper
from tests.paper.number_words import numbers_of
from tests.paper.origins import WALK, Origins, said_by, without_sources
from tests.paper.printings import EFFECTIVE, Printing, Sheet, said_by_side, strings
from tests.paper.reckoned import workings_of


@pytest.fixture(scope="module")
def origins(printing: Printing) -> Origins:
    """All that the printing may show."""
    return Origins(printing)


def digits(texts: Iterable[str]) -> Counter[str]:
    """Every run of digits."""
    return Counter(run for text in texts for run in re.findall(r"\d+", text))


def framed(card: Card, number: int) -> Counter[str]:
    """Digits of one side of a card: what it says, its title and foot, and the heads of tick columns."""
    said = digits(said_by_side(card, number))
    foot = (card.id, card.title, f"side {number} of {len(card.sides)}")
    ticks = max(
        (block.ticks for block in card.sides[number - 1].blocks if isinstance(block, Line)), default=0
    )
    return said + digits(foot) + digits(str(stop) for stop in range(1, ticks + 1))


def unexplained(origins: Origins, part: object) -> list[tuple[str, str]]:
    """Numbers of a view model that come from nowhere, each with the string it stands in.

    What stands on the page of workings and is redone there from the numbers beside it is their result.
    """
    redone: set[str] = set()
    if isinstance(part, Page) and part.name == "workings":
        redone = {text for one in workings_of(part) for text in one.redone}
    return [
        (number.words, said.text)
        for said in said_by(part)
        if said.text not in redone
        for number in numbers_of(without_sources(said.text), said.unit)
        if not origins.explain(number)
    ]


def test_every_digit_of_a_side_belongs_to_it(printing: Printing) -> None:
    for (card, number, _), sheet in zip(printing.sides, printing.pages["cards.pdf"], strict=True):
        assert digits([sheet.text]) == framed(card, number), f"card {card.id}, side {number}"


def test_every_digit_of_a_sheet_belongs_to_its_cards(printing: Printing) -> None:
    """Digit by digit: on a turned page the reader gives the words of a drawing back to front."""

    def single(name: str) -> Counter[str]:
        return Counter(letter for sheet in printing.pages[name] for letter in sheet.text if letter.isdigit())

    assert single("sheets.pdf") == single("cards.pdf") != Counter()


def running(sheets: list[Sheet], title: str, code: str = "") -> Counter[str]:
    """Digits of the running feet of the pages of a part."""
    count = len(sheets)
    feet = (f"{code} {EFFECTIVE} {title} {number} {count}" for number in range(1, count + 1))
    return digits(feet)


def heads(page: Page) -> Counter[str]:
    """Digits in heads of tables, which are printed again where a table goes on over a page."""
    return digits(header for block in page.blocks if isinstance(block, Table) for header in block.headers)


def test_every_digit_of_the_binder_belongs_to_its_part(printing: Printing) -> None:
    for part, sheets in printing.parts:
        printed = digits(sheet.text for sheet in sheets)
        if isinstance(part, Card):
            wanted = digits(strings(part.reasons)) + running(sheets, part_title(part), part.code)
            wanted += sum((framed(part, number) for number in range(1, len(part.sides) + 1)), Counter[str]())
            assert printed == wanted, part.title
        else:
            wanted = digits(strings(replace(part, code=""))) + running(sheets, part.title, part.code)
            assert wanted - printed == Counter(), part.title
            assert set(printed - wanted) <= set(heads(part)), part.title


def test_every_digit_of_cover_and_lists_belongs_there(printing: Printing) -> None:
    front = printing.pages["binder.pdf"][: printing.front_pages]
    lists = (("binder.pdf", CONTENTS, printing.document.parts), ("desk.pdf", DESK, printing.document.desk))
    wanted = digits(strings(printing.document)) + running(front[:-1], printing.document.title)
    for _, title, parts in lists:
        rows = [(part, sheets) for part, sheets in printing.parts if part in parts]
        wanted += running(front[-1:], title)
        wanted += digits(f"{part_title(part)} {len(sheets)} {part.code} {EFFECTIVE}" for part, sheets in rows)

    printed = [*front, printing.pages["desk.pdf"][0]]
    assert digits(sheet.text for sheet in printed) == wanted


def test_every_number_has_an_origin(printing: Printing, origins: Origins) -> None:
    parts = [printing.document, *printing.document.parts, *printing.document.desk]

    assert [found for part in parts for found in unexplained(origins, part)] == []
    assert sum(1 for part in parts for said in said_by(part) for _ in numbers_of(said.text)) > 1000


def test_every_number_of_a_demo_that_is_only_worded_has_an_origin(worded: Printing) -> None:
    origins = Origins(worded)

    assert [
        found
        for part in (*worded.document.parts, *worded.document.desk)
        for found in unexplained(origins, part)
    ] == []
    assert unexplained(origins, worded.document) == []


def test_a_large_value_is_the_set_point_of_its_axle(printing: Printing) -> None:
    """The number that is filled to is checked by its key, not only as some pressure of the record."""
    card = next(card for card in printing.cards if card.name == "tires")
    table = next(block for block in card.sides[0].blocks if isinstance(block, Bands))
    figures = printing.record["figures"]
    own = {key: figure for key, figure in figures.items() if key.startswith("tires.")}
    points = [figure["value"] for key, figure in own.items() if key.endswith(".set_point")]

    assert {float(row.value) for row in table.rows} == set(points)
    for entry, column in (("run_flat_below", 0), ("leave_up_to", 3)):
        values = {figure["value"] for key, figure in figures.items() if key.endswith(f".{entry}")}
        known = [value for value in values if value is not None]
        for row in table.rows:
            printed = re.search(r"[\d.,]+", row.others[column])
            if len(known) < len(values) and printed is None:
                continue  # What nobody read is a line to write on.
            assert printed is not None
            assert min(abs(float(printed[0]) - value) for value in known) < 1


def test_the_bands_of_a_tire_leave_no_reading_without_an_action(printing: Printing) -> None:
    card = next(card for card in printing.cards if card.name == "tires")
    table = next(block for block in card.sides[0].blocks if isinstance(block, Bands))

    for row in table.rows:
        flat, first, last, most, over = (
            int(number) if number.isdigit() else None
            for cell in (*row.others[:2], row.others[2].replace("no\u00a0more", row.value), row.others[3])
            for number in re.findall(r"\d+|_+", cell)
        )
        assert (flat, last) == (first - 1 if first else None, int(row.value) - 1)
        assert over == most


def _between_ones(numbers: list[str]) -> Iterator[list[str]]:
    """Numbers of the steps under each heading of a side, where they begin anew."""
    starts = [place for place, number in enumerate(numbers) if number == "1"] or [0]
    for start, end in pairwise([*starts, len(numbers)]):
        yield numbers[start:end]


def test_steps_and_the_walk_are_counted_without_a_gap(printing: Printing) -> None:
    def counted(numbers: list[str]) -> bool:
        return numbers == [str(number) for number in range(1, len(numbers) + 1)]

    for _, _, side in printing.sides:
        numbers = [block.number for block in side.blocks if isinstance(block, Step) and block.number]
        assert all(counted(under_one_heading) for under_one_heading in _between_ones(numbers))
    blocks: list[Block] = [
        b for part in printing.document.parts if isinstance(part, Page) for b in part.blocks
    ]
    walk = [[row[0] for row in b.rows] for b in blocks if isinstance(b, Table) and b.headers[0] == WALK]
    plan = [
        sorted({thing.walk for thing in block.view.things if thing.walk}, key=int)
        for block in blocks
        if isinstance(block, Picture) and isinstance(block.view, PlanView)
    ]
    assert walk == plan != []
    assert counted(walk[0])


STRAY = [
    "77 psi",
    "12,345 lb",
    "9 ft 1 in",
    "61 h 35 min",
    "03:17",
    "1987-03-04",
    "LT999/99R99",
    "77",
    "card 13",
]


@pytest.mark.parametrize("stray", STRAY)
def test_a_stray_number_in_a_card_is_caught(printing: Printing, origins: Origins, stray: str) -> None:
    card = printing.cards[0]
    side = Side(card.sides[0].use, (*card.sides[0].blocks, Line("Stray", stray)))

    found = unexplained(origins, replace(card, sides=(side, *card.sides[1:])))

    assert [text for _, text in found] == [stray]


def test_a_pressure_is_not_explained_by_a_weight(printing: Printing, origins: Origins) -> None:
    load = next(f["value"] for f in printing.record["figures"].values() if f["unit"] == "lb" and f["value"])
    card = Card("1", "leaving", "Leaving", (Side("", (Line("Tank", f"{load:.0f} psi"),)),), "")

    assert unexplained(origins, card) != []
    assert unexplained(origins, Card("1", "", "", (Side("", (Line("Tank", f"{load:.0f} lb"),)),), "")) == []


def test_a_stray_digit_in_a_template_is_caught(printing: Printing) -> None:
    card = printing.cards[0]
    written = ring_html([card], printing.assessment.rig.paper).replace("Black bar:", "Black bar 7:", 1)

    page = next(paper.pages(render(written, len(card.sides)).content))

    assert digits([paper.text(page)]) - framed(card, 1) == Counter({"7": 1})
