"""Drawings as SVG, measured in points and printed at true size, in black, white and light gray.

Why attributes instead of styles: the page's CSS does not reach inline SVG in WeasyPrint.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from html import escape
from typing import Literal, TypeAlias

from binder.cards.blocks import Drawing
from binder.rendering.typeface import (
    Weight,
    cut_to,
    letter_heights,
    missing_letters,
    needs_second_face,
    text_width,
)

FAMILY = "Binder Sans"
"""Private name of the bundled typeface, as the styles declare it."""

_BOTH = f"{FAMILY}, Binder Sans More"
"""The same, and the one that stands in for letters it lacks."""

Size: TypeAlias = Literal[8, 9, 13, 14, 17, 24]
Anchor: TypeAlias = Literal["start", "middle", "end"]
Point: TypeAlias = tuple[float, float]

POINTS_PER_MM = 72 / 25.4
"""A point is 1/72 inch, an inch 25.4 mm: exact."""

HAIRLINE = 0.5
OUTLINE = 1.4
GRAY = "#d0d0d0"
"""Light enough for black text upon it at 7:1 and more; 3:1 is left to black outlines."""


@dataclass(frozen=True)
class Box:
    """A rectangle, y downward."""

    left: float
    top: float
    right: float
    bottom: float

    def overlaps(self, other: "Box", gap: float = 0.0) -> bool:
        """Say whether two boxes come nearer to one another than a gap."""
        return (
            self.left - gap < other.right
            and other.left - gap < self.right
            and self.top - gap < other.bottom
            and other.top - gap < self.bottom
        )


@dataclass(frozen=True)
class Text:
    """One row of text, placed by a point of its base line.

    Letters the typeface lacks are refused: another typeface would stand in for it.
    """

    text: str
    x: float
    y: float
    size: Size = 9
    is_bold: bool = False
    anchor: Anchor = "start"

    def __post_init__(self) -> None:
        """Refuse letters that cannot be printed."""
        if missing := missing_letters(self.text):
            raise ValueError(f"{self.text!r} has letters the typeface lacks: {missing!r}")

    @property
    def _weight(self) -> Weight:
        return "Bold" if self.is_bold else "Regular"

    @property
    def width(self) -> float:
        """Width in points."""
        return text_width(self.text, self.size, self._weight)

    @property
    def box(self) -> Box:
        """The rectangle no other text may enter: advance widths across, outlines up and down."""
        left = self.x - self.width * {"start": 0.0, "middle": 0.5, "end": 1.0}[self.anchor]
        above, below = letter_heights(self.text, self.size, self._weight)
        return Box(left, self.y - above, left + self.width, self.y + below)

    def moved(self, right: float = 0, down: float = 0) -> "Text":
        """The same text at another place."""
        return replace(self, x=self.x + right, y=self.y + down)

    def fitted(self, width: float) -> "Text":
        """The same text, cut to a width with an ellipsis where it is longer."""
        return replace(self, text=cut_to(self.text, width, self.size, self._weight))

    @property
    def svg(self) -> str:
        """The text element."""
        weight = "bold" if self.is_bold else "normal"
        family = _BOTH if needs_second_face(self.text) else FAMILY
        return (
            f'<text x="{_n(self.x)}" y="{_n(self.y)}" font-family="{family}" font-size="{self.size}"'
            f' font-weight="{weight}" text-anchor="{self.anchor}">{escape(self.text, quote=False)}</text>'
        )


def _n(value: float) -> str:
    return f"{round(value, 2) + 0.0:g}" if abs(value) < 1000 else f"{value:.2f}"  # noqa: PLR2004 - digits of :g.


def line(*points: Point, width: float = HAIRLINE, dash: str = "", color: str = "#000") -> str:
    """Draw a line through points."""
    path = " ".join(f"{_n(x)},{_n(y)}" for x, y in points)
    dashes = f' stroke-dasharray="{dash}"' if dash else ""
    return f'<polyline points="{path}" fill="none" stroke="{color}" stroke-width="{_n(width)}"{dashes}/>'


def polygon(*points: Point, fill: str = "none", width: float = OUTLINE) -> str:
    """Draw a closed outline through points."""
    path = " ".join(f"{_n(x)},{_n(y)}" for x, y in points)
    return f'<polygon points="{path}" fill="{fill}" stroke="#000" stroke-width="{_n(width)}"/>'


def rectangle(
    box: Box, fill: str = "none", width: float = OUTLINE, radius: float = 0.0, dash: str = ""
) -> str:
    """Draw a rectangle."""
    outline = f' stroke="#000" stroke-width="{_n(width)}"' if width else ""
    outline += f' stroke-dasharray="{dash}"' if dash else ""
    return (
        f'<rect x="{_n(box.left)}" y="{_n(box.top)}" width="{_n(box.right - box.left)}"'
        f' height="{_n(box.bottom - box.top)}" rx="{_n(radius)}" fill="{fill}"{outline}/>'
    )


def circle(middle: Point, radius: float, fill: str = "#fff", width: float = 0.8) -> str:
    """Draw a circle."""
    place = f'cx="{_n(middle[0])}" cy="{_n(middle[1])}" r="{_n(radius)}"'
    return f'<circle {place} fill="{fill}" stroke="#000" stroke-width="{_n(width)}"/>'


def measured(start: Point, end: Point) -> str:
    """Draw a level line with a tick at both ends, to stand for a length."""
    ticks = [line((x, y - 3), (x, y + 3), width=0.8) for x, y in (start, end)]
    return "".join([line(start, end), *ticks])


def drawing(
    shapes: Iterable[str], texts: Iterable[Text], size_mm: tuple[float, float], alternative: str
) -> Drawing:
    """Put shapes and the texts upon them together."""
    width, height = (side * POINTS_PER_MM for side in size_mm)
    texts = [text for text in texts if text.text]
    fault = _fault(texts, Box(0, 0, width, height))
    if fault:
        raise ValueError(fault)
    body = "".join([*shapes, *(text.svg for text in texts)])
    title = f"<title>{escape(alternative, quote=False)}</title>"
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{size_mm[0]:.3f}mm" height="{size_mm[1]:.3f}mm"'
        f' viewBox="0 0 {width:.3f} {height:.3f}">{title}{body}</svg>'
    )
    return Drawing(svg, alternative, *size_mm)


def _fault(texts: list[Text], frame: Box) -> str:
    slack = 0.01  # Of a point: rounding of sums, far below what a printer can show.
    for number, text in enumerate(texts):
        box = text.box
        if min(box.left, box.top, frame.right - box.right, frame.bottom - box.bottom) < -slack:
            return f"{text.text!r} does not fit the drawing; shorten it or widen the drawing"
        for other in texts[:number]:
            if box.overlaps(other.box, gap=-slack):
                return f"{text.text!r} and {other.text!r} do not fit beside one another"
    return ""
