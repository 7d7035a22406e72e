"""How wide a text is, from the advance widths of the typeface itself.

Why: whether a line's answer fits beside its challenge is decided before the page is laid out, so that
an answer can be placed at the right edge without ever touching its challenge.
"""

from functools import cache
from typing import Literal, TypeAlias

from fontTools.ttLib import TTFont

from binder.rendering.folder import templates_folder

Weight: TypeAlias = Literal["Regular", "Bold"]


@cache
def _face(weight: Weight) -> tuple[int, dict[int, int]]:
    with TTFont(templates_folder() / "fonts" / f"B612-{weight}.ttf") as font:
        advances = font["hmtx"].metrics
        widths = {code: advances[glyph][0] for code, glyph in font.getBestCmap().items()}
        return font["head"].unitsPerEm, widths


def text_width(text: str, points: float, weight: Weight = "Regular") -> float:
    """Measure a text set on one row.

    Args:
        text: what is set.
        points: size of the type, in points.
        weight: of the typeface.

    Returns:
        The width in points, without kerning (which in this typeface moves a pair by a twentieth of
        the size at most, and nearly always tightens it).

    Raises:
        KeyError: the typeface has no such character.

    Sources:
        Table hmtx of the bundled font files.

    Example:
        >>> text_width("105", 26) == text_width("501", 13) * 2
        True
    """
    units, widths = _face(weight)
    return sum(widths[ord(letter)] for letter in text) * points / units


def row_count(text: str, points: float, width: float, weight: Weight = "Regular") -> int:
    """Count the rows a text takes when it is broken between words.

    Args:
        text: what is set.
        points: size of the type, in points.
        width: of the column, in points.
        weight: of the typeface.

    Returns:
        The number of rows, at least one.

    Sources:
        First-fit breaking, as browsers and WeasyPrint do it.

    Example:
        >>> row_count("one two three", 9, 1000), row_count("one two three", 9, 20)
        (1, 3)
    """
    rows, used, space = 1, 0.0, text_width(" ", points, weight)
    for word in text.split():
        wide = text_width(word, points, weight)
        if used and used + space + wide > width:
            rows, used = rows + 1, wide
        else:
            used += wide + (space if used else 0)
    return rows


def missing_letters(text: str) -> str:
    """Find the characters the typeface does not have.

    Args:
        text: what is to be printed.

    Returns:
        Each missing character once, in order; empty where there is none.

    Sources:
        Table cmap of the bundled font files.

    Example:
        >>> missing_letters("24 °F: go"), missing_letters("end \u25a0")
        ('', '■')
    """
    have = _face("Regular")[1].keys() & _face("Bold")[1].keys()
    return "".join(sorted({letter for letter in text if ord(letter) not in have and not letter.isspace()}))
