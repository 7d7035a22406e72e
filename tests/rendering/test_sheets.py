"""Fronts and backs are compared after turning the sheet in space, as a printer turns it."""

import io
import re
from typing import Any

import numpy as np
import pikepdf
import pypdfium2
import pytest
import weasyprint
from numpy.typing import NDArray

from binder.rendering.paper import PaperName
from binder.rendering.sheets import CORNER_OF_FAMILY, Flip, Printer, imposed_sheets

MM = 72 / 25.4
SIZES: dict[PaperName, str] = {"letter": "5.5in 8.5in", "a4": "148mm 210mm"}
CARDS: dict[PaperName, tuple[float, float]] = {"letter": (139.7, 215.9), "a4": (148.0, 210.0)}
SHEETS: dict[PaperName, tuple[float, float]] = {"letter": (279.4, 215.9), "a4": (297.0, 210.0)}

Point = NDArray[np.float64]


def cards_pdf(paper: PaperName, sides: tuple[int, ...]) -> bytes:
    """Cards with two words on each side, at places that no turn or mirror maps to one another."""
    words = "".join(
        f"<section><b style='left:30mm;top:20mm'>lower{card}{side}</b>"
        f"<b style='left:80mm;top:150mm'>upper{card}{side}</b></section>"
        for card, count in enumerate(sides)
        for side in range(count)
    )
    style = f"""@page {{ size: {SIZES[paper]}; margin: 0 }} b {{ position: absolute }}
        section {{ break-after: page; position: relative; height: 200mm }}
        section:last-child {{ break-after: auto }}"""
    pdf = weasyprint.HTML(string=f"<html lang=en-US><style>{style}</style>{words}").write_pdf()
    assert isinstance(pdf, bytes)
    return pdf


def word_places(pdf: bytes, page: int) -> dict[str, Point]:
    """Middle of the first and of the last letter of each word, in mm from the lower left corner."""
    text = pypdfium2.PdfDocument(pdf)[page].get_textpage()
    places = {}
    for match in re.finditer(r"\w+", text.get_text_range()):
        for name, at in (("start", match.start()), ("end", match.end() - 1)):
            left, bottom, right, top = text.get_charbox(at)
            places[f"{match[0]} {name}"] = np.array([left + right, bottom + top]) / 2 / MM
    return places


def seen_through(back: Point, paper: PaperName, flip: Flip) -> Point:
    """The point of the front that lies on a point of the back.

    The sheet is turned by half a turn in space about the line through its middle that is parallel
    to the edge it is bound on; Rodrigues' formula for half a turn is 2 a a^T - 1.
    """
    width, height = SHEETS[paper]
    long_edge = np.array([1.0, 0, 0]) if width > height else np.array([0, 1.0, 0])
    short_edge = np.array([0, 1.0, 0]) if width > height else np.array([1.0, 0, 0])
    axis = long_edge if flip == "long" else short_edge
    turn = 2 * np.outer(axis, axis) - np.eye(3)
    middle = np.array([width / 2, height / 2, 0])
    turned = turn @ (np.array([*back, 0]) - middle) + middle
    return np.asarray(turned[:2])


def card_left(card: int, paper: PaperName) -> float:
    return SHEETS[paper][0] / 2 - (CARDS[paper][0] if card % 2 == 0 else 0)


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("flip", ["long", "short"])
def test_a_back_lies_behind_its_front_and_reads_upright_when_turned_like_a_page(
    paper: PaperName, flip: Flip
) -> None:
    sides = (2, 2, 1, 2)
    cards = cards_pdf(paper, sides)

    sheets = imposed_sheets(cards, paper, Printer(flip), sides, ("", "", "", ""))

    width = CARDS[paper][0]
    for card, count in enumerate(sides):
        left, sheet = card_left(card, paper), card // 2
        own = word_places(cards, sum(sides[:card]))
        front = word_places(sheets, 2 * sheet)
        for name, place in own.items():
            assert front[name] == pytest.approx(place + np.array([left, 0]), abs=0.1)
        if count == 2:
            own = word_places(cards, sum(sides[:card]) + 1)
            back = word_places(sheets, 2 * sheet + 1)
            for name, place in own.items():
                # Seen through the card from its front, its back is mirrored left to right.
                through = np.array([left + width - place[0], place[1]])
                assert seen_through(back[name], paper, flip) == pytest.approx(through, abs=0.1)


def test_one_sided_cards_have_blank_backs_and_an_odd_card_an_empty_neighbor() -> None:
    sheets = imposed_sheets(
        cards_pdf("letter", (1, 2, 1)), "letter", Printer("short"), (1, 2, 1), ("", "", "")
    )

    words = [{name[5:].split()[0] for name in word_places(sheets, page)} for page in range(4)]

    assert words == [{"00", "10"}, {"11"}, {"20"}, set()]
    assert max(place[0] for place in word_places(sheets, 2).values()) < 279.4 / 2


def lines_on(pdf: bytes, page: int) -> list[tuple[float, float, float, float]]:
    """The marks on a page, in mm."""
    with pikepdf.open(io.BytesIO(pdf)) as document:
        content = document.pages[page].Contents.read_bytes().decode()
    number = r"([\d.]+)"
    found = re.findall(rf"{number} {number} m {number} {number} l S", content)
    return [tuple(float(value) / MM for value in line) for line in found]  # type: ignore[misc] # Four each.


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_fronts_are_marked_backs_have_the_cut_line_alone_and_no_mark_is_in_a_safe_area(
    paper: PaperName,
) -> None:
    corners = tuple(CORNER_OF_FAMILY[family] for family in ("help", "drive", "stop"))

    sheets = imposed_sheets(cards_pdf(paper, (2, 2, 2)), paper, Printer(), (2, 2, 2), corners)

    (width, height), card = SHEETS[paper], CARDS[paper][0]
    assert [len(lines_on(sheets, page)) for page in range(4)] == [3 + 3, 3, 3 + 1, 3]
    for line in [line for page in range(4) for line in lines_on(sheets, page)]:
        for share in np.linspace(0, 1, 50):
            x, y = (np.array(line[:2]) * (1 - share) + np.array(line[2:]) * share).tolist()
            from_edge = min(abs(x - width / 2), abs(x - width / 2 + card), abs(x - width / 2 - card))
            assert from_edge < 5 or height - y < 5
    diagonals = sorted(line[0] - width / 2 for line in lines_on(sheets, 0) if line[0] != line[2])
    assert diagonals == pytest.approx([-card, 0, card], abs=0.001)


def test_same_cards_make_same_bytes_without_dates() -> None:
    cards = cards_pdf("letter", (2, 1))

    first = imposed_sheets(cards, "letter", Printer("short"), (2, 1), ("left", "both"))
    second = imposed_sheets(cards, "letter", Printer("short"), (2, 1), ("left", "both"))

    assert first == second
    assert b"CreationDate" not in first
    assert b"ModDate" not in first


@pytest.mark.parametrize("flip", ["long", "short"])
def test_the_file_is_sound_and_asks_for_true_size_and_its_flip(flip: Flip) -> None:
    sheets = imposed_sheets(cards_pdf("a4", (2, 1)), "a4", Printer(flip), (2, 1), ("left", "both"))

    with pikepdf.open(io.BytesIO(sheets)) as document:
        preferences = document.Root.ViewerPreferences
        assert document.check_pdf_syntax() == []
        assert str(document.docinfo["/Title"]) == f"Cards, two to an A4 sheet, turned on the {flip} edge"
        assert str(document.Root.Lang) == "en-US"
        assert str(preferences.PrintScaling) == "/None"
        assert str(preferences.Duplex) == f"/DuplexFlip{flip.capitalize()}Edge"
        assert [float(edge) for edge in document.pages[0].mediabox][2:] == pytest.approx(
            [297 * MM, 210 * MM], abs=0.01
        )


@pytest.mark.parametrize(
    "changed",
    [
        {"sides_per_card": (2, 2)},
        {"sides_per_card": (3, 0)},
        {"corners": ("",)},
        {"corners": ("", "bottom")},
        {"paper": "a4"},
    ],
)
def test_pages_that_are_not_the_cards_are_refused(changed: dict[str, Any]) -> None:
    call = {"paper": "letter", "printer": Printer(), "sides_per_card": (2, 1), "corners": ("", "")} | changed

    with pytest.raises(ValueError, match=r"pages are not|are not the corners|no card side"):
        imposed_sheets(cards_pdf("letter", (2, 1)), **call)


def test_a_card_of_many_sides_is_as_many_leaves_as_it_needs_each_with_its_corner() -> None:
    many = imposed_sheets(cards_pdf("letter", (5,)), "letter", Printer(), (5,), ("left",))
    one_by_one = imposed_sheets(cards_pdf("letter", (2, 2, 1)), "letter", Printer(), (2, 2, 1), ("left",) * 3)

    with pikepdf.open(io.BytesIO(many)) as found, pikepdf.open(io.BytesIO(one_by_one)) as wanted:
        assert len(found.pages) == len(wanted.pages) == 4
        assert [page.Contents.read_bytes() for page in found.pages] == [
            page.Contents.read_bytes() for page in wanted.pages
        ]


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("flip", ["long", "short"])
def test_a_back_that_a_printer_lays_off_is_moved_behind_its_front(paper: PaperName, flip: Flip) -> None:
    """What the printer adds to every back is what the offset takes away, seen through from the front."""
    cards, sides, off = cards_pdf(paper, (2,)), (2,), np.array([1.5, -0.5])

    straight = word_places(imposed_sheets(cards, paper, Printer(flip), sides, ("",)), 1)
    moved = word_places(imposed_sheets(cards, paper, Printer(flip, (1.5, -0.5)), sides, ("",)), 1)

    assert straight
    for name, place in straight.items():
        apart = seen_through(moved[name], paper, flip) - seen_through(place, paper, flip)
        assert apart + off == pytest.approx([0, 0], abs=0.05)


def test_an_offset_moves_the_cut_line_of_the_back_and_nothing_of_a_front() -> None:
    cards = cards_pdf("letter", (2,))

    def drawn(page: int, printer: Printer) -> NDArray[np.uint8]:
        sheets = imposed_sheets(cards, "letter", printer, (2,), ("left",))
        return np.asarray(pypdfium2.PdfDocument(sheets)[page].render(scale=2, grayscale=True).to_numpy())

    assert (drawn(0, Printer()) == drawn(0, Printer("long", (3, 2)))).all()
    middle = [
        int(drawn(1, printer)[40:80].mean(axis=0).argmin())
        for printer in (Printer(), Printer("long", (3, 0)))
    ]
    assert middle[0] - middle[1] == pytest.approx(3 * MM * 2, abs=1)


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_the_mark_of_the_punch_points_from_the_ring_side_over_no_margin_of_a_printer(
    paper: PaperName,
) -> None:
    sheets = imposed_sheets(cards_pdf(paper, (2, 2)), paper, Printer(), (2, 2), ("", ""))

    with pikepdf.open(io.BytesIO(sheets)) as document:
        contents = [page.Contents.read_bytes().decode() for page in document.pages]
    number = r"([\d.]+)"
    found = [re.findall(rf"{number} {number} m {number} [\d.]+ l [\d.]+ [\d.]+ l f", one) for one in contents]
    tips = [tuple(float(value) / MM for value in mark) for mark in found[0]]
    edges = [card_left(card, paper) for card in range(2)]
    assert [round(tip - edge, 1) for (tip, _, _), edge in zip(tips, edges, strict=True)] == [4.3, 4.3]
    assert all(base - tip == pytest.approx(3, abs=0.01) for tip, _, base in tips)
    assert not found[1]
