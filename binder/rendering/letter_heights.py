"""How far a text reaches above and below its line, from the outlines of the typeface itself.

Why: figures have no descenders; boxes as tall as the whole typeface would keep a number and its unit
apart where nothing is between them.
"""

from functools import cache

from fontTools.ttLib import TTFont

from binder.rendering.text_width import Weight
from binder.templates_folder import templates_folder


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
