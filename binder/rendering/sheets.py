"""Sheets for an office printer: two cards on a landscape sheet, one cut, backs behind their fronts."""

import io
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, TypeAlias

import pikepdf

from binder.rendering.paper import PAPERS, POINTS_PER_MM, PaperName

Flip: TypeAlias = Literal["long", "short"]

CORNER_OF_FAMILY = {"drive": "right", "stop": "left", "help": "both"}
"""Which top corner is cut off a card, so that a thumb finds the family in the dark: own convention."""

_SHEETS = {name: (paper.height, paper.width) for name, paper in PAPERS.items()}
"""Width and height of the sheet lying on its side."""

_CARDS = {name: (paper.card.width, paper.card.height) for name, paper in PAPERS.items()}

_CORNERS = {"": (), "left": ("left",), "right": ("right",), "both": ("left", "right")}

_SIZE_TOLERANCE = 0.5 * POINTS_PER_MM
"""A card page that differs by more is of another format: own choice."""

_UNPRINTABLE = 4.3 * POINTS_PER_MM
"""Printers leave 1/6 inch (4.2 mm) white along the edges of a sheet: usual for laser printers."""

_CORNER_LEG = 9 * POINTS_PER_MM
"""Legs of the corner cut. The safe area begins 5 mm from both edges, its corner lies on a cut of
10 mm: 9 mm touches no text and is the most that printers with a white edge can show of it."""

_HAIRLINE = 0.25
"""Width of cut lines in points: thin enough to cut away, thick enough to print."""


@dataclass(frozen=True)
class _Place:
    """Where a side lies on the sheet: its lower left corner, and whether it is turned half round."""

    left: float
    bottom: float
    is_turned: bool = False


def imposed_sheets(
    cards_pdf: bytes, paper: PaperName, flip: Flip, sides_per_card: tuple[int, ...], corners: tuple[str, ...]
) -> bytes:
    """Set finished card sides two to a sheet, odd pages the fronts, even pages the backs.

    The sheet lies on its side (landscape), so its long edges are at top and bottom. A printer told
    to "flip on the long edge" turns the sheet about a long edge, that is about a *horizontal* axis:
    the point (x, y) of the front has behind it the back's point (x, H - y). A card of width w and
    height h at (x, y) then needs its back at (x, H - y - h), and turned half round, because a hand
    turns a card like a page, about its *vertical* axis. "Flip on the short edge" turns the sheet
    about a vertical axis: the point (x, y) has (W - x, y) behind it, the back belongs at
    (W - x - w, y), upright. (For sheets that stand upright the two words change places.)

    The file asks for printing at true size and for the flip it was made for.
    """
    with pikepdf.open(io.BytesIO(cards_pdf)) as cards, pikepdf.new() as sheets:
        _check(cards, paper, sides_per_card, corners)
        leaves = list(_leaves(cards, sheets, sides_per_card, corners))
        for first in range(0, len(leaves), 2):
            pair = [side for side, _ in leaves[first : first + 2]]
            fronts = {place: side[0] for place, side in zip(_fronts(paper), pair, strict=False)}
            backs = {
                _behind(place, paper, flip): side[1]
                for place, side in zip(_fronts(paper), pair, strict=False)
                if len(side) > 1
            }
            _add_page(
                sheets, paper, fronts, _marks(paper, tuple(corner for _, corner in leaves[first : first + 2]))
            )
            _add_page(sheets, paper, backs, "")
        _describe(sheets, cards, paper, flip)
        file = io.BytesIO()
        sheets.save(file, deterministic_id=True, min_version="1.7")
    return file.getvalue()


def _check(
    cards: pikepdf.Pdf, paper: PaperName, sides_per_card: tuple[int, ...], corners: tuple[str, ...]
) -> None:
    if not sides_per_card or min(sides_per_card) < 1 or sum(sides_per_card) != len(cards.pages):
        raise ValueError(f"{len(cards.pages)} pages are not the sides of cards with {sides_per_card} sides")
    if len(corners) != len(sides_per_card) or set(corners) - set(_CORNERS):
        raise ValueError(f"{corners} are not the corners of {len(sides_per_card)} cards")
    for number, page in enumerate(cards.pages, start=1):
        left, bottom, right, top = (float(edge) for edge in page.mediabox)
        size = (right - left, top - bottom)
        if any(abs(a - b) > _SIZE_TOLERANCE for a, b in zip(size, _CARDS[paper], strict=True)):
            raise ValueError(f"page {number} is {size[0]:.1f} x {size[1]:.1f} pt, no card side for {paper}")


def _leaves(
    cards: pikepdf.Pdf, sheets: pikepdf.Pdf, sides_per_card: tuple[int, ...], corners: tuple[str, ...]
) -> Iterator[tuple[list[pikepdf.Object], str]]:
    """Two sides to a leaf, with the corner that is cut off it; the last of a card may have one."""
    pages = iter(cards.pages)
    for count, corner in zip(sides_per_card, corners, strict=True):
        sides = [sheets.copy_foreign(next(pages).as_form_xobject()) for _ in range(count)]
        yield from ((sides[first : first + 2], corner) for first in range(0, count, 2))


def _fronts(paper: PaperName) -> tuple[_Place, _Place]:
    """Left and right of the cut, which is the middle of the sheet."""
    middle, bottom = _SHEETS[paper][0] / 2, (_SHEETS[paper][1] - _CARDS[paper][1]) / 2
    return _Place(middle - _CARDS[paper][0], bottom), _Place(middle, bottom)


def _behind(front: _Place, paper: PaperName, flip: Flip) -> _Place:
    (sheet_width, sheet_height), (width, height) = _SHEETS[paper], _CARDS[paper]
    if flip == "long":
        return _Place(front.left, sheet_height - front.bottom - height, is_turned=True)
    return _Place(sheet_width - front.left - width, front.bottom)


def _add_page(sheets: pikepdf.Pdf, paper: PaperName, sides: dict[_Place, pikepdf.Object], marks: str) -> None:
    page = sheets.add_blank_page(page_size=_SHEETS[paper])
    content = [marks] if marks else []
    for number, (place, side) in enumerate(sides.items(), start=1):
        # Without a name of ours pikepdf draws lots for one, and no two files would be the same.
        name = page.add_resource(side, pikepdf.Name.XObject, pikepdf.Name(f"/Side{number}"))
        content.append(f"q {_matrix(place, paper)} cm {name} Do Q")
    page.Contents = sheets.make_stream("\n".join(content).encode("ascii"))


def _matrix(place: _Place, paper: PaperName) -> str:
    width, height = _CARDS[paper]
    if place.is_turned:
        return f"-1 0 0 -1 {place.left + width:.4f} {place.bottom + height:.4f}"
    return f"1 0 0 1 {place.left:.4f} {place.bottom:.4f}"


def _marks(paper: PaperName, corners: tuple[str, ...]) -> str:
    """Lines to cut along: dashes down the middle between two solid ends, and the corners."""
    width, height = _SHEETS[paper]
    middle, end = width / 2, _UNPRINTABLE + 5 * POINTS_PER_MM
    lines = [
        f"q {_HAIRLINE} w 0 G",
        _line((middle, _UNPRINTABLE), (middle, end)),
        _line((middle, height - _UNPRINTABLE), (middle, height - end)),
    ]
    for place, corner in zip(_fronts(paper), corners, strict=False):
        top = place.bottom + _CARDS[paper][1]
        for side in _CORNERS[corner]:
            outer, inward = (place.left, 1) if side == "left" else (place.left + _CARDS[paper][0], -1)
            lines.append(_line((outer, top - _CORNER_LEG), (outer + inward * _CORNER_LEG, top)))
    lines += ["[2 4] 0 d", _line((middle, end + 4), (middle, height - end - 4)), "Q"]
    return "\n".join(lines)


def _line(start: tuple[float, float], end: tuple[float, float]) -> str:
    return f"{start[0]:.4f} {start[1]:.4f} m {end[0]:.4f} {end[1]:.4f} l S"


def _describe(sheets: pikepdf.Pdf, cards: pikepdf.Pdf, paper: PaperName, flip: Flip) -> None:
    name = {"letter": "a Letter", "a4": "an A4"}[paper]
    sheets.docinfo[pikepdf.Name.Title] = f"Cards, two to {name} sheet, turned on the {flip} edge"
    sheets.Root.Lang = str(cards.Root.get("/Lang", "en"))
    sheets.Root.ViewerPreferences = pikepdf.Dictionary(
        DisplayDocTitle=True,
        PrintScaling=pikepdf.Name("/None"),
        Duplex=pikepdf.Name(f"/DuplexFlip{flip.capitalize()}Edge"),
    )
