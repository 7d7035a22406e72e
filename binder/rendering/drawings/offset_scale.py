"""A sheet that shows where a printer lays its backs: scales on the front, crosses behind their zeros."""

from collections.abc import Iterator

from binder.cards.blocks import Drawing
from binder.rendering.drawings.svg import OUTLINE, POINTS_PER_MM, Point, Text, drawing, line, measured
from binder.rendering.paper import Paper

_FARTHEST = 10
"""Millimeters that a scale tells to either side; more is no offset but another paper."""

_NAMED = 5
"""Every so many millimeters a tick is long; the last of them has its number."""

_APART = 60.0
"""Points of either scale from the middle of its half of the sheet."""

_FEED = 60.0
"""Points from the foot of the sheet up to the length that a rule is held against."""


def _level(paper: Paper) -> Iterator[Point]:
    """Zeros of the level scales; where they are, so they are from the back, however the sheet is turned."""
    yield from ((paper.height * half - _APART, paper.width / 2) for half in (0.25, 0.75))


def _upright(paper: Paper) -> Iterator[Point]:
    yield from ((paper.height * half + _APART, paper.width / 2) for half in (0.25, 0.75))


def scales(paper: Paper, alternative: str) -> Drawing:
    """Draw the front: a level and an upright scale on each half, and a length of 100 mm."""
    shapes, texts = [], []
    for x, y in _level(paper):
        for at in range(-_FARTHEST, _FARTHEST + 1):
            place = x + at * POINTS_PER_MM
            shapes.append(line((place, y - _tick(at)), (place, y + _tick(at))))
            texts += [Text(f"{at:+d}", place, y + 24, 13, anchor="middle")] if abs(at) == _FARTHEST else []
    for x, y in _upright(paper):
        for at in range(-_FARTHEST, _FARTHEST + 1):
            place = y - at * POINTS_PER_MM
            shapes.append(line((x - _tick(at), place), (x + _tick(at), place)))
            texts += [Text(f"{at:+d}", x + 14, place + 5, 13)] if abs(at) == _FARTHEST else []
    start = (paper.height - 100 * POINTS_PER_MM) / 2
    foot = paper.width - _FEED
    shapes.append(measured((start, foot), (start + 100 * POINTS_PER_MM, foot)))
    return drawing(shapes, texts, _size(paper), alternative)


def _tick(at: int) -> float:
    """Half a tick in points: zero is the longest."""
    return 3.0 if at % _NAMED else 7.0 if at else 11.0


def crosses(paper: Paper, alternative: str) -> Drawing:
    """Draw the back: a cross behind each zero, longer than the scales."""
    reach = (_FARTHEST + 3) * POINTS_PER_MM
    zeros = [*_level(paper), *_upright(paper)]
    shapes = [line((x - reach, y), (x + reach, y), width=OUTLINE) for x, y in zeros]
    shapes += [line((x, y - reach), (x, y + reach), width=OUTLINE) for x, y in zeros]
    return drawing(shapes, [], _size(paper), alternative)


def _size(paper: Paper) -> tuple[float, float]:
    return paper.height / POINTS_PER_MM, paper.width / POINTS_PER_MM
