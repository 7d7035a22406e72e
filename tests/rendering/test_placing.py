from typing import get_args

import pytest

from binder.cards.blocks import (
    Big,
    Block,
    Drawing,
    Heading,
    Line,
    Note,
    Picture,
    Side,
    Table,
    ValueRow,
    ValueTable,
)
from binder.cards.drawings import MarginBar, MarginBars, PlanView, Thing, Vehicle, View
from binder.rendering.drawings.drawers import DRAWERS
from binder.rendering.paper import PAPERS
from binder.rendering.placing import (
    GAP,
    PlacedBig,
    PlacedHeading,
    PlacedLine,
    PlacedTable,
    PlacedValues,
    TickGrid,
    placed_blocks,
    placed_line,
    placed_on_page,
    placed_side,
)
from binder.rendering.typeface import pieces, row_count, text_width

WIDTH = PAPERS["letter"].card.line_width


def one(block: Block) -> object:
    return next(placed_blocks([block], WIDTH))


def test_an_answer_stands_beside_its_challenge_down_to_the_least_gap() -> None:
    needed = text_width("Chocks", 13) + GAP + text_width("4 IN", 13, "Bold")

    assert not placed_line(Line("Chocks", "4 IN"), needed).two_rows
    assert placed_line(Line("Chocks", "4 IN"), needed - 0.01).two_rows


def test_a_consequence_goes_below_where_it_has_no_room() -> None:
    line = Line("Chocks", "4 IN", consequence="DO NOT MOVE")

    assert placed_line(line, 300).aside
    assert not placed_line(line, 130).aside
    assert placed_line(line, 130).consequence == "if not: DO NOT MOVE"


def test_ticked_lines_in_a_row_share_a_grid_and_only_the_first_is_numbered() -> None:
    line = Line("Doors", "LOCKED", ticks=3)
    placed = list(placed_blocks([line, line, Heading("Round"), line], WIDTH))

    assert [type(block) for block in placed] == [TickGrid, PlacedHeading, TickGrid]
    grids = [block for block in placed if isinstance(block, TickGrid)]
    assert [(len(grid.lines), grid.columns, grid.numbered) for grid in grids] == [
        (2, ("1", "2", "3"), True),
        (1, ("1", "2", "3"), False),
    ]


def test_a_consequence_said_by_a_heading_ends_with_its_group() -> None:
    line = Line("Doors", "LOCKED", consequence="OK TO GO")
    heading, first, _, after = placed_blocks([Heading("Round"), line, Note("n"), line], WIDTH)

    assert isinstance(heading, PlacedHeading)
    assert isinstance(first, PlacedLine)
    assert isinstance(after, PlacedLine)
    said = (heading.consequence, first.consequence, after.consequence)
    assert said == ("if not: OK TO GO", "", "if not: OK TO GO")


@pytest.mark.parametrize(
    ("cells", "on_card", "on_page"),
    [
        (("11,048 lb", "952 lb"), "right", "right"),
        (("105", "\u2013"), "right", "right"),
        (("6.4 %", "-310 lb"), "right", "right"),
        (("105", "cold morning"), "right", "left"),
        (("2026", "week 14"), "right", "left"),
        (("-", "\u2013"), "left", "left"),
    ],
)
def test_columns_of_numbers_stand_at_the_right(cells: tuple[str, str], on_card: str, on_page: str) -> None:
    rows = tuple(("x", cell) for cell in cells)
    placed, small = one(Table(("Axle", "value"), rows)), one(Table(("Axle", "value"), rows, small=True))

    assert isinstance(placed, PlacedTable)
    assert isinstance(small, PlacedTable)
    assert placed.aligns == ("left", on_card)
    assert small.aligns == ("left", on_page)


def test_a_small_table_keeps_short_cells_on_a_row_and_few_rows_on_a_page() -> None:
    rows = (("Steer", "12 ft 8 in", "a sentence that is long enough to be broken"),)
    placed, long = (one(Table(("Axle", "value", "why"), rows * count, small=True)) for count in (1, 17))

    assert isinstance(placed, PlacedTable)
    assert isinstance(long, PlacedTable)
    assert placed.classes == ("left kept", "left kept", "left")
    assert (placed.is_whole, long.is_whole) == (True, False)


def test_every_view_has_who_draws_it() -> None:
    assert set(DRAWERS) == set(get_args(View))


def test_a_picture_is_drawn_and_one_without_room_says_so() -> None:
    row = MarginBar("Steer", 0.9, "900 lb", "1,000 lb", "100 lb left")
    coach = Vehicle("coach", "motorhome", 11600, 2560, 1000, ())
    far = Thing(0, "right", "entry door", position=90000)

    drawn = one(Picture(MarginBars((row,), "Steer: 100 lb left")))
    refused = one(Picture(PlanView((coach,), (far,), "38 ft", 3048, "10 ft", "the coach")))

    assert isinstance(drawn, Drawing)
    assert drawn.alternative == "Steer: 100 lb left"
    assert isinstance(refused, Note)
    assert "outside the drawing" in refused.text


def test_a_plan_view_with_too_much_on_it_is_drawn_with_the_walk_alone() -> None:
    coach = Vehicle("coach", "motorhome", 11600, 2560, 1000, ())
    door = Thing(0, "right", "entry door", position=3000, walk="1")
    far = Thing(0, "right", "jack", position=90000)

    view = one(Picture(PlanView((coach,), (door, far), "38 ft", 3048, "10 ft", "the coach")))

    assert isinstance(view, Drawing)
    assert "entry door" in view.svg
    assert "jack" not in view.svg


@pytest.mark.parametrize(("count", "large"), [(3, True), (4, False)])
def test_a_short_value_table_is_set_large(count: int, large: bool) -> None:  # noqa: FBT001 - a table's column.
    placed = one(ValueTable("", ("cold fill",), (ValueRow("Steer", "", "105", ()),) * count))

    assert isinstance(placed, PlacedValues)
    assert placed.large is large


def test_a_name_stands_above_figures_that_leave_its_longest_word_no_room() -> None:
    headers = ("cold fill", "leave up to", "low alarm", "run flat")
    rows = [ValueRow(name, "", "______", ("______",) * 3) for name in ("Drive", "Grandmother's house")]

    placed = [one(ValueTable("", headers, (row,))) for row in rows]

    assert [table.is_name_above for table in placed if isinstance(table, PlacedValues)] == [False, True]


def test_a_large_value_goes_below_a_name_it_has_no_room_beside() -> None:
    beside, below = (
        one(Big("Height", "12 ft 8 in", points=40)),
        one(Big("Height" * 5, "12 ft 8 in", points=40)),
    )

    assert isinstance(beside, PlacedBig)
    assert isinstance(below, PlacedBig)
    assert (beside.two_rows, below.two_rows) == (False, True)


def test_the_bar_at_the_left_is_explained_where_there_is_one() -> None:
    assert placed_side(Side("", (Line("A", "B", killer=True),)), 1, 1, WIDTH).has_killers
    assert not placed_side(Side("", (Line("A", "B"),)), 1, 1, WIDTH).has_killers


def test_rows_are_counted_as_they_break() -> None:
    width = text_width("one two", 9) + 0.2

    assert row_count("one two one two", 9, width) == 2
    assert row_count("one two one two", 9, width - 0.2) == 4


def test_a_row_does_not_begin_with_what_divides_or_closes() -> None:
    width = text_width("one / two", 9) + 0.5

    assert row_count("one / two", 9, width) == 1
    assert row_count("one / two / six", 9, width) == 2
    assert row_count("one two two /", 9, text_width("one two two", 9) + 0.5) == 2


def test_a_table_wider_than_its_page_stands_in_parts_each_with_its_row_heads() -> None:
    """A quantity is not broken within its cell: eight of them have no room beside a place."""
    heads = ("expected", *(f"tank number {number}, gal" for number in range(1, 9)))
    table = Table(heads, (("reaching Žďár nad Sázavou", *["100.5 · 100 %"] * 8),), small=True)
    parts = [one for one in placed_on_page([table], 504) if isinstance(one, PlacedTable)]

    assert [len(one.table.headers) for one in parts] == [6, 4]
    assert {one.table.rows[0][0] for one in parts} == {"reaching Žďár nad Sázavou"}
    assert all(sum(one.widths) <= 504 + 1e-6 for one in parts)


def test_no_word_of_a_page_s_table_is_parted_where_all_have_room() -> None:
    """A long text beside them took so much that "km/h" stood on two rows, and a page grew to two."""
    cells = ("coach tires", "75 mph (120 km/h)", "read cold, with the engine off, on level ground " * 3)
    table = Table(("tires", "speed", "how"), (cells,), small=True)
    (placed,) = placed_on_page([table], 160, is_measured=True)
    assert isinstance(placed, PlacedTable)

    for cell, width in zip(cells, placed.widths, strict=True):
        assert max(text_width(word, 9) for word in pieces(cell)) <= width
