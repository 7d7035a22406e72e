"""Paper: what a page of the binder and a card of the ring measure.

The measures stand in ``templates/css/formats`` too; a test holds the two together.
"""

from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Literal, TypeAlias

PaperName: TypeAlias = Literal["letter", "a4"]

POINTS_PER_MM = 72 / 25.4
"""A point is 1/72 inch (ISO 32000-1, 8.3.2.3), an inch 25.4 mm."""

SAFE_AREA = 5 * POINTS_PER_MM
"""Nothing is printed nearer to a card's edge, so that film and a slanted cut leave it whole."""


TypeName: TypeAlias = Literal["normal", "large"]


@dataclass(frozen=True)
class TypeSize:
    """How large a card is set: all by one factor; a value of a table, and the foot, before it is applied.

    Why: a card that is set larger is one that is laid out on less paper, and then drawn larger.
    """

    name: TypeName
    scale: float
    value: float
    footer: float
    footer_row: float


NORMAL = TypeSize("normal", 1.0, 24.0, 8.0, 10.5)
LARGE = TypeSize("large", 16 / 13, 26.0, 9.0, 12.0)
"""13 pt becomes 16 pt, 9 pt 11; a value that has room for 32 pt beside lines of 13 pt keeps them, as 26."""

TYPE_SIZES = MappingProxyType({"normal": NORMAL, "large": LARGE})


@dataclass(frozen=True)
class CardFormat:
    """A card of the ring, in points of its type: its sides, the width of its lines, and what stays free."""

    name: str
    width: float
    height: float
    line_width: float
    top: float = 24.0
    bottom: float = 22.0
    size: TypeSize = NORMAL


@dataclass(frozen=True)
class Paper:
    """A page of the binder, in points, and the card that goes two on it.

    ``text_width`` is between its margins, the hole side's being 22 mm.
    """

    name: PaperName
    width: float
    height: float
    card: CardFormat
    text_width: float


PAPERS = MappingProxyType(
    {
        "letter": Paper("letter", 612.0, 792.0, CardFormat("half_letter", 396.0, 612.0, 333.6), 520),
        "a4": Paper(
            "a4",
            210 * POINTS_PER_MM,
            297 * POINTS_PER_MM,
            CardFormat("a5", 148 * POINTS_PER_MM, 210 * POINTS_PER_MM, 340),
            504,
        ),
    }
)
"""Letter and half letter: ANSI/ASME Y14.1, size A; A4 and A5: ISO 216."""


def paper_in(name: PaperName, size: TypeSize) -> Paper:
    """Give a paper for cards of a type: the larger the type, the less of it there is to lay out on."""
    paper = PAPERS[name]
    if size is NORMAL:
        return paper
    card, scale = paper.card, size.scale
    width, height, lines = (one / scale for one in (card.width, card.height, card.line_width))
    name_of_both = f"{card.name}_{size.name}"
    free = (card.top / scale, card.bottom / scale)
    return replace(paper, card=CardFormat(name_of_both, width, height, lines, *free, size))
