"""The bundled typeface: how wide and how tall a text is in it, and which characters it has.

Why: whether a line's answer fits beside its challenge is decided before the page is laid out, so that an
answer can be placed at the right edge without ever touching its challenge. Figures have no descenders;
boxes as tall as the whole typeface would keep a number and its unit apart where nothing is between them.
"""

import json
import re
from functools import cache, lru_cache
from math import fsum
from typing import Literal, NamedTuple, TypeAlias
from unicodedata import category

from binder import templates_folder

Weight: TypeAlias = Literal["Regular", "Bold"]

_FACES = ("B612", "NotoSans")
"""The typeface, and the one that stands in for each letter it lacks."""


_JOINER = "\u2060"
"""Between two letters it says that no row may break there; it is not seen, and has no width."""


class _Face(NamedTuple):
    """How wide each character of a face is, and its lowest and highest point, in parts of the size."""

    widths: dict[int, float]
    reach: dict[int, tuple[float, float]]


@cache
def _face(weight: Weight, name: str = _FACES[0]) -> _Face:
    """Read what is kept beside a face, for reading the face itself takes a tenth of what `check` may take."""
    kept = json.loads((templates_folder() / "fonts" / f"{name}-{weight}.json").read_text("utf-8"))
    units, letters = kept["units_per_em"], kept["letters"]
    return _Face(
        {code: width / units for code, width, _, _ in letters} | {ord(_JOINER): 0.0},
        {code: (lowest / units, highest / units) for code, _, lowest, highest in letters},
    )


@cache
def _widths(weight: Weight) -> dict[int, float]:
    return _face(weight, _FACES[1]).widths | _face(weight).widths


@lru_cache(50_000)
def text_width(text: str, points: float, weight: Weight = "Regular") -> float:
    """Measure a text set on one row, each character in the first face that has it."""
    # Not ``sum``: from Python 3.12 on it adds otherwise, and a hundredth of a point is another byte on paper.
    widths = _face(weight).widths
    try:
        return fsum([widths[ord(letter)] for letter in text]) * points
    except KeyError:
        # Few texts need the second face, and reading it takes time.
        widths = _widths(weight)
        return fsum([widths[ord(letter)] for letter in text]) * points


def cut_to(text: str, width: float, points: float, weight: Weight = "Regular") -> str:
    """Give a text whole, or with an ellipsis where it is longer than a width."""
    while text_width(text, points, weight) > width and len(text) > 1:
        text = text.removesuffix("\u2026")[:-1].rstrip() + "\u2026"
    return text


def needs_second_face(text: str) -> bool:
    """Tell whether a text has letters that the typeface itself lacks."""
    return any(ord(letter) not in _face("Regular").widths for letter in text)


_SPACES = re.compile(r"[ \t\n]++(?![/!?)\]},.:;])")
"""Where a row may end: not before what closes or divides, even after a space (UAX 14, rule LB13)."""

_WITHIN_WORDS = re.compile(r"(?<=[^\W\d_][-/])(?=[^\W\d_])")
"""Between letters a row may break after a hyphen or a slash: Unicode Standard Annex 14, classes HY, SY."""


def pieces(text: str) -> list[str]:
    """Take a text apart wherever a row may be broken."""
    return [piece for word in _SPACES.split(unparted(text)) for piece in _WITHIN_WORDS.split(word) if piece]


_KERNING = 0.002
"""Ems a letter that kerning, which is not read, can set a text wider: 0.0019 measured in a sentence."""


def _set_width(text: str, points: float, weight: Weight) -> float:
    return text_width(text, points, weight) + _KERNING * points * len(text)


_UNITS = (
    r"psi|kPa|bar|lb|kg|mi|km|km/h|mph|ft|in|cm|mm|m|gal|L|kW|kWh|Ah|V|W|lb\u00b7in|kg\u00b7cm|ft\u00b7lb|N\u00b7m"
    r"|h|min|s|days?|months?|years?|\u00b0F|\u00b0C|%"
)
_NUMBER_AND_UNIT = re.compile(rf"(?<=\d) (?=(?:{_UNITS})(?![\w/\u00b7]))")


def unparted(text: str) -> str:
    """Keep each number on one row with its unit, by a space that is no place to break, and the unit whole.

    >>> unparted("fresh 75 gal, 1 ft 6 in").replace("\u00a0", "_")
    'fresh 75_gal, 1_ft 6_in'
    >>> len(unparted("km/h"))
    5
    """
    return _NUMBER_AND_UNIT.sub("\u00a0", text).replace("km/h", f"km/{_JOINER}h")


@lru_cache(10_000)
def row_count(text: str, points: float, width: float, weight: Weight = "Regular") -> int:
    """Count the rows a text takes when it is broken between words, within them only where it must be."""
    rows, used, space = 1, 0.0, _set_width(" ", points, weight)
    words = [
        part
        for word in _SPACES.split(unparted(text))
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
    """Find the characters that neither face has; a line break is none."""
    letters = set(text) - {"\n"}
    lacking = {letter for letter in letters if ord(letter) not in _face("Regular").widths}
    # What a face has in the private range is its own affair: to an owner it means something else.
    private = {letter for letter in letters if category(letter) == "Co"}
    return "".join(sorted(private | {letter for letter in lacking if ord(letter) not in _widths("Regular")}))


def letter_heights(text: str, points: float, weight: Weight = "Regular") -> tuple[float, float]:
    """Measure how far the letters of a text reach from their line."""
    reach = _face(weight).reach
    if any(ord(letter) not in reach for letter in text):
        reach = _face(weight, _FACES[1]).reach | reach
    lowest = min((reach[ord(letter)][0] for letter in text), default=0.0)
    highest = max((reach[ord(letter)][1] for letter in text), default=0.0)
    return highest * points, max(0.0, -lowest * points)
