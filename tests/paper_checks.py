"""What a test can hold a PDF to: read back from its bytes, by a renderer that is not ours."""

import ctypes
import io
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import pikepdf
import pypdfium2 as pdfium

raw: Any = pdfium.raw
"""The library's own functions, which its types do not list."""

_TOUCH = 0.12
"""Points two glyph boxes may share before they count as printed over each other."""


_KERNING = 0.15
"""Share of the size by which neighbors of one word may be drawn together (f and t, W and A)."""


@dataclass(frozen=True)
class Area:
    """A rectangle on the page in points, from its lower left corner."""

    left: float
    bottom: float
    right: float
    top: float

    def overlaps(self, other: "Area", forgiven: float = _TOUCH) -> bool:
        """Tell whether two rectangles share more than a forgiven strip."""
        return (
            min(self.right, other.right) - max(self.left, other.left) > forgiven
            and min(self.top, other.top) - max(self.bottom, other.bottom) > forgiven
        )

    def is_inside(self, other: "Area") -> bool:
        """Tell whether the other rectangle holds this one."""
        return (
            self.left >= other.left
            and self.right <= other.right
            and self.bottom >= other.bottom
            and self.top <= other.top
        )


@dataclass(frozen=True)
class Glyph:
    """A printed character: its place in the reading order, where its ink is, its size in points."""

    letter: str
    area: Area
    points: float
    order: int


def pages(pdf: bytes) -> Iterator[pdfium.PdfPage]:
    """Open each page."""
    yield from pdfium.PdfDocument(pdf)


def text(page: pdfium.PdfPage) -> str:
    """Read a page's text with single spaces, words broken at a row's end put apart."""
    return " ".join(page.get_textpage().get_text_bounded().split())


def glyphs(page: pdfium.PdfPage) -> list[Glyph]:
    """Read every character that leaves ink, with its tight box."""
    textpage = page.get_textpage()
    found = []
    for index in range(textpage.count_chars()):
        letter = chr(raw.FPDFText_GetUnicode(textpage, index))
        if letter.isspace() or raw.FPDFText_IsGenerated(textpage, index) == 1:
            continue
        area = Area(*textpage.get_charbox(index, loose=False))
        if area.right > area.left and area.top > area.bottom:
            found.append(Glyph(letter, area, _points(textpage, index), index))
    return found


def _points(textpage: pdfium.PdfTextPage, index: int) -> float:
    """Size as printed: the font's size times the scale of the text's own matrix."""
    matrix = raw.FS_MATRIX()
    raw.FPDFText_GetMatrix(textpage, index, ctypes.byref(matrix))
    scale = float((matrix.a**2 + matrix.b**2) ** 0.5)
    return round(float(raw.FPDFText_GetFontSize(textpage, index)) * scale, 2)


def overlapping_glyphs(page: pdfium.PdfPage) -> list[tuple[Glyph, Glyph]]:
    """Find every two characters that are printed over each other."""
    waiting: list[Glyph] = []
    found = []
    for glyph in sorted(glyphs(page), key=lambda item: item.area.left):
        waiting = [other for other in waiting if other.area.right > glyph.area.left]
        found += [
            (other, glyph) for other in waiting if other.area.overlaps(glyph.area, _forgiven(other, glyph))
        ]
        waiting.append(glyph)
    return found


def _forgiven(one: Glyph, other: Glyph) -> float:
    # On a turned page the reader may put a gap between two letters of a word.
    are_neighbors = abs(one.order - other.order) in {1, 2} and one.points == other.points
    return _KERNING * one.points if are_neighbors else _TOUCH


def outside_safe_area(page: pdfium.PdfPage, margin: float) -> list[Area]:
    """Find ink nearer to the page's edge than the margin, in points."""
    width, height = page.get_size()
    safe = Area(margin, margin, width - margin, height - margin)
    inked = [glyph.area for glyph in glyphs(page)] + drawn_boxes(page)
    return [area for area in inked if not area.is_inside(safe)]


def font_sizes(page: pdfium.PdfPage) -> set[float]:
    """Collect the sizes of type on a page, in points."""
    return {glyph.points for glyph in glyphs(page)}


def drawn_boxes(page: pdfium.PdfPage) -> list[Area]:
    """Collect the bounds of every drawn path and image, in points."""
    return [
        Area(*item.get_bounds())
        for item in page.get_objects(max_depth=8)
        if item.type in (raw.FPDF_PAGEOBJ_PATH, raw.FPDF_PAGEOBJ_IMAGE)
    ]


def codes(page: pdfium.PdfPage, side: float = 40) -> list[Area]:
    """Collect the drawn boxes that are square and as large as a QR code, in points."""
    return [
        box
        for box in drawn_boxes(page)
        if box.right - box.left >= side and abs((box.right - box.left) - (box.top - box.bottom)) < 1
    ]


def embedded_fonts(pdf: bytes) -> set[str]:
    """Name every font of a PDF, without the prefix that marks a subset.

    Raises ``AssertionError`` where a font's file is not embedded.
    """
    names = set()
    with pikepdf.open(io.BytesIO(pdf)) as document:
        for item in document.objects:
            if isinstance(item, pikepdf.Dictionary) and item.get("/Type") == "/FontDescriptor":
                name = str(item["/FontName"]).lstrip("/")
                assert any(f"/FontFile{kind}" in item for kind in ("", "2", "3")), f"{name} is not embedded"
                names.add(name.split("+")[-1])
    return names


def is_in_order(page: pdfium.PdfPage, *texts: str) -> bool:
    """Tell whether the texts stand on the page in this order."""
    places = [text(page).find(item) for item in texts]
    return min(places) >= 0 and all(first < second for first, second in pairwise(places))
