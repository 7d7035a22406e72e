"""Fills of the log: what was used from one full tank to the next, and what of that cannot be so."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence
from statistics import median
from typing import NamedTuple, cast

from binder.assessment.supplies import rate_kinds
from binder.assessment.supplies.tanks import SupplyTank
from binder.models.log_entries import Entry, Fill
from binder.quantities import number_in

_SHORTEST = 50.0
"""Miles, practice: on less, where a nozzle stops decides the figure; the fills on the way are added."""
_OVER_FULL = 1.05  # Practice: a pump and a gauge of capacity agree no better.
_FAR_BETTER = 1.25  # Practice: so much better than the others, or twice that than the plan: one is missing.


class _Filled(NamedTuple):
    """One fill in miles and gallons; ``odometer`` is None where it was not noted or cannot be right."""

    entry: Entry
    gallons: float
    is_full: bool
    odometer: float | None


class Interval(NamedTuple):
    """From one full tank to the next; ``doubt`` is why it does not count, a case of the doubts."""

    begins: float
    ends: float
    gallons: float
    fills: int
    entry: Entry
    doubt: str = ""

    @property
    def use(self) -> float:
        """Gallons a mile."""
        return self.gallons / (self.ends - self.begins)


class Fills(NamedTuple):
    """What the log says of one tank; ``is_whole``: each fill has its place among the others."""

    intervals: tuple[Interval, ...]
    is_whole: bool = True

    @property
    def sure(self) -> list[Interval]:
        """Those that count."""
        return [one for one in self.intervals if not one.doubt]


def fills_of(
    entries: Iterable[Entry], tank: SupplyTank, span: tuple[float, float], planned: float | None
) -> Fills:
    """Gather what was used of a tank; ``span`` is the least and the most gallons a mile that can be."""
    named = (tank.vehicle, tank.words)
    fills = [
        _filled(one) for one in entries if (one.written.get("vehicle"), one.written.get("tank")) == named
    ]
    full = None if tank.tank.capacity is None else number_in(tank.tank.capacity, "gallon")
    ordered, is_whole = _in_order(fills)
    every = [_doubted(one, span, full) for one in _intervals(ordered)]
    return Fills(tuple(_without_odd(every, planned)), is_whole)


def _filled(entry: Entry) -> _Filled:
    fill = cast("Fill", entry.said)
    odometer = None if fill.odometer is None else number_in(fill.odometer, "mile")
    return _Filled(entry, number_in(fill.amount, "gallon"), fill.full is True, odometer)


def rising(values: Sequence[float | None]) -> frozenset[int]:
    """Places of the longest run of readings that never falls: one that is not among them cannot be right."""
    ends: list[int] = []  # Of each length the run that ends lowest, by the place of its last.
    before: dict[int, int] = {}
    for place, value in enumerate(values):
        if value is None:
            continue
        length = bisect_right(ends, value, key=lambda at: cast("float", values[at]))
        before[place] = ends[length - 1] if length else -1
        ends[length : length + 1] = [place]
    found, here = set[int](), ends[-1] if ends else -1
    while here >= 0:
        found.add(here)
        here = before[here]
    return frozenset(found)


def _in_order(fills: list[_Filled]) -> tuple[list[_Filled], bool]:
    """Fills in the order of the road; one of an unsure clock stands where its odometer puts it."""
    sure = [one for one in fills if not one.entry.is_clock_unsure]
    known = rising([one.odometer for one in sure])
    ordered = [one if at in known else one._replace(odometer=None) for at, one in enumerate(sure)]
    unsure = [one for one in fills if one.entry.is_clock_unsure]
    for one in unsure:
        if one.odometer is not None:
            read = [(held.odometer, at) for at, held in enumerate(ordered) if held.odometer is not None]
            after = bisect_left(read, (one.odometer, -1))
            ordered.insert(read[after][1] if after < len(read) else len(ordered), one)
    return ordered, all(one.odometer is not None for one in unsure)


def _intervals(ordered: list[_Filled]) -> Iterator[Interval]:
    """Each full tank ends an interval and begins the next; all that went in on the way is added."""
    begins: float | None = None
    taken: list[_Filled] = []
    for one in ordered:
        taken.append(one)
        if not one.is_full or one.odometer is None:
            continue
        if begins is not None and one.odometer - begins < _SHORTEST:
            continue
        if begins is not None:
            gallons = sum(fill.gallons for fill in taken)
            yield Interval(begins, one.odometer, gallons, len(taken), one.entry)
        begins, taken = one.odometer, []


def _doubted(interval: Interval, span: tuple[float, float], full: float | None) -> Interval:
    least, most = span
    if full is not None and interval.gallons > _OVER_FULL * full * interval.fills:
        return interval._replace(doubt=rate_kinds.TOO_MUCH)
    if not least <= interval.use <= most:
        return interval._replace(doubt=rate_kinds.NO_ENGINE)
    return interval


def _without_odd(every: list[Interval], planned: float | None) -> Iterator[Interval]:
    """Doubt what is far better than its like: a fill that was not entered looks so."""
    uses = [one.use for one in every if not one.doubt]
    least = 0.0 if len(uses) < rate_kinds.FEWEST else median(uses) / _FAR_BETTER
    if planned is not None:
        least = max(least, planned / (2 * _FAR_BETTER))
    for one in every:
        yield one._replace(doubt=rate_kinds.ONE_MISSING) if not one.doubt and one.use < least else one
