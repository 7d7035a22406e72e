"""Sheets for an office printer: two cards on a landscape sheet, one cut, backs behind their fronts."""

import io
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, NamedTuple, TypeAlias

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

_PUNCH_DOWN, _PUNCH_LONG, _PUNCH_HALF = 30 * POINTS_PER_MM, 3 * POINTS_PER_MM, 1.8 * POINTS_PER_MM
"""The mark of the punch: how far below the top it points to the film beside the card, and its size."""

_HAIRLINE = 0.25
"""Width of cut lines in points: thin enough to cut away, thick enough to print."""


class Printer(NamedTuple):
    """How a printer turns the sheet, and how many millimeters right of and above its fronts it lays backs."""

    flip: Flip = "long"
    offset: tuple[float, float] = (0.0, 0.0)

    @property
    def shift(self) -> tuple[float, float]:
        """Points by which a back is moved, as it lies on its own page, to lie behind its front.

        Seen through the sheet from the front, a back that was turned about the long edge is upside
        down, one turned about the short edge mirrored.
        """
        right, up = (millimeters * POINTS_PER_MM for millimeters in self.offset)
        return (-right, up) if self.flip == "long" else (right, -up)


@dataclass(frozen=True)
class _Place:
    """Where a side lies on the sheet: its lower left corner, and whether it is turned half round."""

    left: float
    bottom: float
    is_turned: bool = False


def imposed_sheets(
    cards_pdf: bytes,
    paper: PaperName,
    printer: Printer,
    sides_per_card: tuple[int, ...],
    corners: tuple[str, ...],
) -> bytes:
    """Set finished card sides two to a sheet, odd pages the fronts, even pages the backs.

    The sheet lies on its side (landscape), so its long edges are at top and bottom. A printer told
    to "flip on the long edge" turns the sheet about a long edge, that is about a *horizontal* axis:
    the point (x, y) of the front has behind it the back's point (x, H - y). A card of width w and
    height h at (x, y) then needs its back at (x, H - y - h), and turned half round, because a hand
    turns a card like a page, about its *vertical* axis. "Flip on the short edge" turns the sheet
    about a vertical axis: the point (x, y) has (W - x, y) behind it, the back belongs at
    (W - x - w, y), upright. (For sheets that stand upright the two words change places.) Backs are
    moved by what the test sheet told of the printer, their cut line with them.

    The file asks for printing at true size and for the flip it was made for.
    """
    with pikepdf.open(io.BytesIO(cards_pdf)) as cards, pikepdf.new() as sheets:
        _check(cards, paper, sides_per_card, corners)
        leaves = list(_leaves(cards, sheets, sides_per_card, corners))
        for first in range(0, len(leaves), 2):
            pair = [side for side, _ in leaves[first : first + 2]]
            fronts = {place: side[0] for place, side in zip(_fronts(paper), pair, strict=False)}
            backs = {
                _behind(place, paper, printer): side[1]
                for place, side in zip(_fronts(paper), pair, strict=False)
                if len(side) > 1
            }
            _add_page(
                sheets, paper, fronts, _marks(paper, tuple(corner for _, corner in leaves[first : first + 2]))
            )
            _add_page(sheets, paper, backs, _cut_line(paper, printer.shift))
        _describe(sheets, cards, paper, printer.flip)
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


def _behind(front: _Place, paper: PaperName, printer: Printer) -> _Place:
    (sheet_width, sheet_height), (width, height) = _SHEETS[paper], _CARDS[paper]
    right, up = printer.shift
    if printer.flip == "long":
        return _Place(front.left + right, sheet_height - front.bottom - height + up, is_turned=True)
    return _Place(sheet_width - front.left - width + right, front.bottom + up)


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


def _cut_line(paper: PaperName, shift: tuple[float, float] = (0.0, 0.0)) -> str:
    """The line to cut along: dashes down the middle between two solid ends."""
    width, height = _SHEETS[paper]
    middle, end = width / 2, _UNPRINTABLE + 5 * POINTS_PER_MM
    lines = [
        f"q 1 0 0 1 {shift[0]:.4f} {shift[1]:.4f} cm {_HAIRLINE} w 0 G",
        _line((middle, _UNPRINTABLE), (middle, end)),
        _line((middle, height - _UNPRINTABLE), (middle, height - end)),
        "[2 4] 0 d",
        _line((middle, end + 4), (middle, height - end - 4)),
        "Q",
    ]
    return "\n".join(lines)


def _marks(paper: PaperName, corners: tuple[str, ...]) -> str:
    """What a front is cut and punched by: the cut line, the corners, and where the ring goes."""
    lines = [_cut_line(paper), f"q {_HAIRLINE} w 0 G 0 g"]
    for place, corner in zip(_fronts(paper), corners, strict=False):
        top = place.bottom + _CARDS[paper][1]
        for side in _CORNERS[corner]:
            outer, inward = (place.left, 1) if side == "left" else (place.left + _CARDS[paper][0], -1)
            lines.append(_line((outer, top - _CORNER_LEG), (outer + inward * _CORNER_LEG, top)))
        lines.append(_punch_mark(place.left + _UNPRINTABLE, top - _PUNCH_DOWN))
    return "\n".join([*lines, "Q"])


def _punch_mark(tip: float, level: float) -> str:
    """A triangle that points from the card to the film beside it."""
    base = tip + _PUNCH_LONG
    low, high = level - _PUNCH_HALF, level + _PUNCH_HALF
    return f"{tip:.4f} {level:.4f} m {base:.4f} {low:.4f} l {base:.4f} {high:.4f} l f"


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
