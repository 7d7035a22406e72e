"""The slope of readings in levels, against its published definition."""

from collections.abc import Sequence
from itertools import combinations
from random import Random

import pytest

from binder.calculations.tires.leaks import _fall, _Point
from tests.published.kinds import check


def points(seed: int, levels: Sequence[int]) -> list[_Point]:
    chance = Random(seed)  # noqa: S311 - a test.
    sizes = [(str(number), size) for number, size in enumerate(levels)]
    return [
        _Point(chance.uniform(0, 100), chance.gauss(90, 5), level)
        for level, size in sizes
        for _ in range(size)
    ]


def disorder(every: Sequence[_Point], slope: float) -> float:
    """Sum of the absolute differences of residuals within levels: least with this slope."""
    pairs = ((one, other) for one, other in combinations(every, 2) if one.level == other.level)
    return sum(abs((other.psi - one.psi) - slope * (other.day - one.day)) for one, other in pairs)


@check("SCHOLZ1978", "derived")
@pytest.mark.parametrize("seed", range(20))
def test_no_other_slope_leaves_residuals_less_apart(seed: int) -> None:
    every = points(seed, (3 + seed % 5, 2 + seed % 7))
    found = -_fall(every).psi
    others = [(two.psi - one.psi) / (two.day - one.day) for one, two in combinations(every, 2)]

    assert disorder(every, found) <= min(disorder(every, slope) for slope in others) + 1e-9
