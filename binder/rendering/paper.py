"""Paper: what a page of the binder and a card of the ring measure.

The measures stand in ``templates/css/formats`` too; a test holds the two together.
"""

from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal, TypeAlias

PaperName: TypeAlias = Literal["letter", "a4"]

POINTS_PER_MM = 72 / 25.4
"""A point is 1/72 inch (ISO 32000-1, 8.3.2.3), an inch 25.4 mm."""

SAFE_AREA = 5 * POINTS_PER_MM
"""Nothing is printed nearer to a card's edge, so that film and a slanted cut leave it whole."""


@dataclass(frozen=True)
class CardFormat:
    """A card of the ring, in points: its sides, and the width its lines are set in."""

    name: str
    width: float
    height: float
    line_width: float


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
