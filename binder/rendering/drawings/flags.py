"""Where labels go: on stems like flags, in rows, so that no label and no stem meets another."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeAlias

Limits: TypeAlias = Sequence[tuple[float, float]]
Apart: TypeAlias = Callable[[int, int], float]

_BETWEEN_LABELS = 7.0
"""Points between two labels of one row."""

_BESIDE_STEM = 2.5
"""Points between a label and a stem that passes it."""

_MOST_ROWS = 8
"""Steps of the longest stairs that are tried: 16 labels a side in one valley of them."""

_ROW_COST = 14.0
"""Points of displacement a row less is worth: about its height, own choice."""

_HALVINGS = 14
"""Makes the least displacement exact to a fraction of a point."""


@dataclass(frozen=True)
class Flag:
    """A label to be placed: where its stem should stand, and how far it reaches left and right of it.

    A label that flies to the left instead reaches as far, the other way round.
    """

    wanted: float
    left: float
    right: float

    @property
    def mirrored(self) -> "Flag":
        """The flag that flies the other way."""
        return Flag(self.wanted, self.right, self.left)


@dataclass(frozen=True)
class PlacedFlag:
    """Where a label's stem stands, its row (0 is nearest to the thing), whether it flies to the left."""

    stem: float
    row: int
    is_mirrored: bool = False


def spread(wanted: Sequence[float], apart: Apart, limits: Limits) -> list[float]:
    """Move points along a line as little as possible until they are far enough apart.

    The greatest displacement is made as small as can be; then each point is put as near to where
    it should be as the ones before it allow.
    """
    too_little, enough = 0.0, 1.0 + max((limit[1] - limit[0] for limit in limits), default=0.0)
    enough += max(
        (max(low - x, x - high, 0) for x, (low, high) in zip(wanted, limits, strict=True)), default=0
    )
    best = _within(wanted, apart, limits, too_little)
    if best is not None:
        return best
    best = _within(wanted, apart, limits, enough)
    if best is None:
        raise ValueError(f"no room for {len(wanted)} labels beside one another")
    for _ in range(_HALVINGS):
        slack = (too_little + enough) / 2
        places = _within(wanted, apart, limits, slack)
        best, too_little, enough = (best, slack, enough) if places is None else (places, too_little, slack)
    return best


def _within(wanted: Sequence[float], apart: Apart, limits: Limits, slack: float) -> list[float] | None:
    """Places none of which is displaced by more than the slack, or None."""
    count = len(wanted)
    highest = [0.0] * count
    for i in reversed(range(count)):
        after = [highest[j] - apart(i, j) for j in range(i + 1, count)]
        highest[i] = min([limits[i][1], wanted[i] + slack, *after])
    places: list[float] = []
    for i in range(count):
        before = [places[j] + apart(j, i) for j in range(i)]
        lowest = max([limits[i][0], wanted[i] - slack, *before])
        if lowest > highest[i] + 1e-9:
            return None
        places.append(min(max(wanted[i], lowest), max(highest[i], lowest)))
    return places


def flag_rows(flags: Sequence[Flag], width: float) -> list[PlacedFlag]:
    """Place labels in rows over what they label.

    A stem passes all rows nearer than its label's own, so a label may stand over another's stem only
    in a farther row than the other's. Stairs keep to that: falling to the right where labels fly to
    the right, rising where they fly to the left. Of all ways to fly the first few to the left and
    the others to the right, in stairs of some number of steps, the one that takes the least height
    and displacement is kept.
    """
    if not flags:
        return []
    tries = []
    for turned in range(len(flags) + 1):
        flying = [flag.mirrored if i < turned else flag for i, flag in enumerate(flags)]
        for steps in range(1, min(_MOST_ROWS, len(flags)) + 1):
            rows = [i % steps if i < turned else (len(flags) - 1 - i) % steps for i in range(len(flags))]
            stems = _stems(flying, rows, width)
            if stems is not None:
                lowest = _lowest_rows(flying, rows, stems)
                tries.append([PlacedFlag(stems[i], lowest[i], i < turned) for i in range(len(flags))])
    if not tries:
        raise ValueError(f"no room for {len(flags)} labels; shorten them or widen the drawing")
    return min(tries, key=lambda placed: _cost(flags, placed))


def _stems(flags: Sequence[Flag], rows: Sequence[int], width: float) -> list[float] | None:
    def apart(i: int, j: int) -> float:
        if rows[j] == rows[i]:
            return flags[i].right + flags[j].left + _BETWEEN_LABELS
        passed = flags[i].right if rows[j] > rows[i] else flags[j].left
        return passed + _BESIDE_STEM

    limits = [(flag.left, width - flag.right) for flag in flags]
    try:
        return spread([flag.wanted for flag in flags], apart, limits)
    except ValueError:
        return None


def _lowest_rows(flags: Sequence[Flag], rows: Sequence[int], stems: Sequence[float]) -> list[int]:
    """The nearest row each label can take where the stems stand, keeping who stands over whom."""
    ends = [(stem - flag.left, stem + flag.right) for stem, flag in zip(stems, flags, strict=True)]
    lowest: dict[int, int] = {}
    for i in sorted(range(len(flags)), key=lambda i: rows[i]):
        near = [
            lowest[j]
            for j in lowest
            if rows[j] < rows[i]
            and ends[j][0] - _BETWEEN_LABELS < ends[i][1]
            and ends[i][0] - _BETWEEN_LABELS < ends[j][1]
        ]
        lowest[i] = 1 + max(near, default=-1)
    return [lowest[i] for i in range(len(flags))]


def _cost(flags: Sequence[Flag], placed: Sequence[PlacedFlag]) -> float:
    moved = [abs(place.stem - flag.wanted) for flag, place in zip(flags, placed, strict=True)]
    return _ROW_COST * max(place.row for place in placed) + max(moved) / 2 + sum(moved) / len(moved)
