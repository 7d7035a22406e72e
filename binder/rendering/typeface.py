"""The bundled typeface: how wide and how tall a text is in it, and which characters it has.

Why: whether a line's answer fits beside its challenge is decided before the page is laid out, so that an
answer can be placed at the right edge without ever touching its challenge. Figures have no descenders;
boxes as tall as the whole typeface would keep a number and its unit apart where nothing is between them.
"""

import re
from functools import cache
from typing import Literal, TypeAlias

from fontTools.ttLib import TTFont

from binder import templates_folder

Weight: TypeAlias = Literal["Regular", "Bold"]


@cache
def _face(weight: Weight) -> tuple[int, dict[int, int]]:
    with TTFont(templates_folder() / "fonts" / f"B612-{weight}.ttf") as font:
        advances = font["hmtx"].metrics
        widths = {code: advances[glyph][0] for code, glyph in font.getBestCmap().items()}
        return font["head"].unitsPerEm, widths


def text_width(text: str, points: float, weight: Weight = "Regular") -> float:
    """Measure a text set on one row."""
    units, widths = _face(weight)
    return sum(widths[ord(letter)] for letter in text) * points / units


_SPACES = re.compile(r"[ \t\n]+")
_WITHIN_WORDS = re.compile(r"(?<=[^\W\d_][-/])(?=[^\W\d_])")
"""Between letters a row may break after a hyphen or a slash: Unicode Standard Annex 14, classes HY, SY."""


def pieces(text: str) -> list[str]:
    """Take a text apart wherever a row may be broken."""
    return [piece for word in _SPACES.split(text) for piece in _WITHIN_WORDS.split(word) if piece]


_KERNING = 0.002
"""Ems a letter that kerning, which is not read, can set a text wider: 0.0019 measured in a sentence."""


def _set_width(text: str, points: float, weight: Weight) -> float:
    return text_width(text, points, weight) + _KERNING * points * len(text)


def row_count(text: str, points: float, width: float, weight: Weight = "Regular") -> int:
    """Count the rows a text takes when it is broken between words, within them only where it must be."""
    rows, used, space = 1, 0.0, _set_width(" ", points, weight)
    words = [
        part
        for word in _SPACES.split(text)
        for part in ([word] if _set_width(word, points, weight) <= width else _WITHIN_WORDS.split(word))
    ]
    for word in words:
        wide = _set_width(word, points, weight)
        if used and used + space + wide > width:
            rows, used = rows + 1, wide
        else:
            used += wide + (space if used else 0)
    return rows


def missing_letters(text: str) -> str:
    """Find the characters the typeface does not have."""
    have = _face("Regular")[1].keys() & _face("Bold")[1].keys()
    return "".join(sorted({letter for letter in text if ord(letter) not in have and not letter.isspace()}))


@cache
def _outlines(weight: Weight) -> tuple[int, dict[int, tuple[int, int]]]:
    """Units of one size, and the lowest and the highest point of each character."""
    with TTFont(templates_folder() / "fonts" / f"B612-{weight}.ttf") as font:
        glyphs = {code: font["glyf"][name] for code, name in font.getBestCmap().items()}
        reach = {
            code: (getattr(glyph, "yMin", 0), getattr(glyph, "yMax", 0)) for code, glyph in glyphs.items()
        }
        return font["head"].unitsPerEm, reach


def letter_heights(text: str, points: float, weight: Weight = "Regular") -> tuple[float, float]:
    """Measure how far the letters of a text reach from their line."""
    units, reach = _outlines(weight)
    lowest = min((reach[ord(letter)][0] for letter in text), default=0)
    highest = max((reach[ord(letter)][1] for letter in text), default=0)
    return highest * points / units, max(0.0, -lowest * points / units)
