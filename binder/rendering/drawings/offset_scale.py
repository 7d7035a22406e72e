"""A sheet that shows where a printer lays its backs: scales on the front, crosses behind their zeros."""

from collections.abc import Iterator

from binder.cards.blocks import Drawing
from binder.rendering.drawings.svg import OUTLINE, POINTS_PER_MM, Text, drawing, line, measured
from binder.rendering.paper import Paper

_FARTHEST = 10
"""Millimeters that a scale tells to either side; more is no offset but another paper."""

_NAMED = 5
"""Every so many millimeters a tick is long, and has its number."""

_HUNDRED = 100 * POINTS_PER_MM
"""A length to hold a rule against."""

_ALONG, _DOWN = (1.0, 0.0), (0.0, -1.0)
"""Which way a scale counts up: to the right, and up the sheet."""


def _middles(paper: Paper) -> Iterator[tuple[float, float]]:
    """The middle of each half of a sheet that lies on its side: the same points however it is turned."""
    yield from ((paper.height * share, paper.width / 2) for share in (0.25, 0.75))


def scales(paper: Paper, alternative: str) -> Drawing:
    """Draw the front: a level and an upright scale at each point, and a length to measure."""
    shapes, texts = [], []
    for x, y in _middles(paper):
        for right, down in (_ALONG, _DOWN):
            for at in range(-_FARTHEST, _FARTHEST + 1):
                tick = 3.0 if at % _NAMED else 6.0
                place = (x + right * at * POINTS_PER_MM, y + down * at * POINTS_PER_MM)
                shapes.append(line(_off(place, right, down, -tick), _off(place, right, down, tick)))
                if at and not at % _NAMED:
                    beyond = _off(place, right, down, 18.0)
                    texts.append(Text(f"{at:+d}", beyond[0], beyond[1] + 4, 13, anchor="middle"))
            ends = [(x + right * far, y + down * far) for far in (-_REACH, _REACH)]
            shapes.append(line(*ends))
    start = paper.height / 2 - _HUNDRED / 2
    shapes.append(measured((start, paper.width - 60), (start + _HUNDRED, paper.width - 60)))
    return drawing(shapes, texts, _size(paper), alternative)


_REACH = _FARTHEST * POINTS_PER_MM


def _off(place: tuple[float, float], right: float, down: float, by: float) -> tuple[float, float]:
    """A point beside a scale: below a level one, to the right of an upright one."""
    return place[0] - down * by, place[1] + right * by


def crosses(paper: Paper, alternative: str) -> Drawing:
    """Draw the back: at each point two lines, longer than the scales."""
    reach = _REACH + 4 * POINTS_PER_MM
    shapes = [
        line((x - right * reach, y - down * reach), (x + right * reach, y + down * reach), width=OUTLINE)
        for x, y in _middles(paper)
        for right, down in (_ALONG, _DOWN)
    ]
    return drawing(shapes, [], _size(paper), alternative)


def _size(paper: Paper) -> tuple[float, float]:
    return paper.height / POINTS_PER_MM, paper.width / POINTS_PER_MM
