"""What each tire loses a month, and which loses more than its mates.

Cold readings are brought to one temperature and elevation by the gas law. Air added, or another instrument,
begins a new *level*: only readings of one level are set against each other. The fall is the middle of the
slopes of all pairs of readings within a level, weighed by the time between them: Sen's estimator, in the form
of Hirsch and others for series in groups, with Scholz's weights. A few wild readings do not move it.

A wrong temperature moves all tires of one walk around the rig alike, and the sun those of one side: what a
walk did to all, and to each side as far as they clearly differ, is taken off before the slopes are told.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property
from itertools import combinations
from math import sqrt
from statistics import fmean, median
from typing import NamedTuple, TypeAlias

from binder.calculations.tires.gas_law import TireState, pressure_after
from binder.quantities import Pressure, Quantity, number_in, registry

DAYS_A_MONTH = 365.25 / 12

REFERENCE = TireState(registry.Quantity(68.0, "degree_Fahrenheit"), registry.Quantity(0.0, "foot"))
"""Temperature and elevation that readings are brought to; any other would do, since only falls are told."""


@dataclass(frozen=True)
class ColdReading:
    """A cold reading of one tire; ``level``: readings of another are not set against it.

    ``state`` is as near to the tire's own temperature and elevation as is known.
    """

    moment: datetime
    pressure: Pressure
    state: TireState
    level: str = ""

    @cached_property
    def at_reference(self) -> Pressure:
        """What the tire would read at the reference."""
        return pressure_after(self.pressure, self.state, REFERENCE)


class TireLoss(NamedTuple):
    """What one tire loses a month, by itself and over its mates, each with its standard error.

    None where too few readings say anything; ``loses_more``: clearly more than its mates.
    """

    readings: int
    loss: Pressure | None = None
    error: Pressure | None = None
    excess: Pressure | None = None
    excess_error: Pressure | None = None
    loses_more: bool = False


FEWEST, SHORTEST, NAMED_FROM = 6, 28, 84
"""Readings, and days from first to last, that a fall is told from; days from which a tire is named."""

CLEAR = registry.Quantity(0.85, "psi")
"""What a tire loses a month over its mates before it is named: by what ``tests.log.leaks`` tells."""

_CLEAR_ERRORS = 1.5  # And so many standard errors, where readings are few or far off their line: as above.
_ROUNDS = 8  # By then the slopes stand still.
_ONE_WALK = 0.25  # Days that a walk around the rig lasts at most.
_OF_NORMAL = 1.4826  # Standard deviations in a median deviation, of normal errors.


class _Point(NamedTuple):
    """A reading in days and psi at the reference; ``walk`` counts the walks around the rig."""

    day: float
    psi: float
    level: str
    walk: int = 0


_Series: TypeAlias = Mapping[str, Sequence[_Point]]


class _Fall(NamedTuple):
    """psi a day, and the readings about their lines: how far each is off, and how far they reach in time."""

    psi: float
    residuals: list[float]
    levels: int
    reach: float


def pressure_losses(
    readings: Mapping[str, Sequence[ColdReading]], sides: Mapping[str, str]
) -> dict[str, TireLoss]:
    """What each tire of a vehicle loses a month, and whether it clearly loses more than its mates.

    Args:
        readings: of each tire of one vehicle, by its position; a few a week, a year at most.
        sides: the side of the vehicle each position is on.
    Returns: The losses by position [pressure].
    Sources: SEN1968; HIRSCH1982; SCHOLZ1978; gas law; USSA1976; practice (what is clear).

    >>> from datetime import timedelta
    >>> def read(fall):
    ...     day, state = datetime(2026, 3, 1), TireState(q(50, "degF"), q(0, "foot"))
    ...     return [
    ...         ColdReading(day + timedelta(weeks=n), q(100 - fall * n, "psi"), state) for n in range(14)
    ...     ]
    >>> tires = {"steer left": read(0.5), "steer right": read(0.1)}
    >>> losses = pressure_losses(tires, {"steer left": "left", "steer right": "right"})
    >>> f"{losses['steer left'].excess:.2f}", [name for name, one in losses.items() if one.loses_more]
    ('1.80 psi', ['steer left'])
    """
    series = _on_walks({name: sorted(map(_at_reference, every)) for name, every in readings.items()})
    told = {name: every for name, every in series.items() if _tells(every)}
    falls = _falls(told, sides)
    walks = {(one.walk, sides.get(name)) for name, every in told.items() for one in every}
    deviation = _deviation(falls.values(), len(walks))
    errors = {name: deviation / sqrt(fall.reach) for name, fall in falls.items()}
    losses = {name: TireLoss(len(every)) for name, every in readings.items()}
    for name, fall in falls.items():
        losses[name] = losses[name]._replace(loss=_a_month(fall.psi), error=_a_month(errors[name]))
        excess = _excess(name, falls, sides)
        if excess is not None:
            mates = [errors[one] ** 2 for one in errors if one != name]
            error = sqrt(errors[name] ** 2 + fmean(mates) / len(mates))
            is_long = told[name][-1].day - told[name][0].day >= NAMED_FROM
            is_clear = excess >= _CLEAR_ERRORS * error and _a_month(excess) >= CLEAR
            losses[name] = losses[name]._replace(
                excess=_a_month(excess), excess_error=_a_month(error), loses_more=is_long and is_clear
            )
    return losses


def _at_reference(reading: ColdReading) -> _Point:
    psi = number_in(reading.at_reference, "psi")
    return _Point(reading.moment.timestamp() / 86400, psi, reading.level)


def _a_month(psi_a_day: float) -> Quantity:
    return registry.Quantity(psi_a_day * DAYS_A_MONTH, "psi")


def _on_walks(series: _Series) -> dict[str, list[_Point]]:
    """Number the walks around the rig: a new one begins where the one before can no longer last."""
    walks: dict[float, int] = {}
    begin, number = float("-inf"), 0
    for day in sorted({point.day for every in series.values() for point in every}):
        if day - begin > _ONE_WALK:
            begin, number = day, number + 1
        walks[day] = number
    return {
        name: [point._replace(walk=walks[point.day]) for point in every] for name, every in series.items()
    }


def _tells(points: Sequence[_Point]) -> bool:
    levels = _by_level(points)
    days = [point.day for level in levels for point in level]
    return len(days) >= FEWEST and max(days) - min(days) >= SHORTEST


def _by_level(points: Iterable[_Point]) -> list[list[_Point]]:
    """Readings of each level that has two or more, on different walks."""
    levels: dict[str, list[_Point]] = {}
    for point in points:
        levels.setdefault(point.level, []).append(point)
    return [level for level in levels.values() if len({point.day for point in level}) > 1]


def _falls(series: _Series, sides: Mapping[str, str]) -> dict[str, _Fall]:
    """The fall of each tire, what a walk did to its mates too taken off; told anew until nothing changes."""
    common: dict[tuple[int, str], float] = {}
    falls: dict[str, _Fall] = {}
    for _ in range(_ROUNDS):
        off: dict[int, dict[str, list[float]]] = {}
        for name, every in series.items():
            side = sides.get(name, "")
            taken_off = [one._replace(psi=one.psi - common.get((one.walk, side), 0.0)) for one in every]
            falls[name] = _fall(taken_off)
            for walk, psi in _off_line(every, taken_off, falls[name].psi):
                off.setdefault(walk, {}).setdefault(side, []).append(psi)
        deviation = _deviation(falls.values(), len(common))
        common = {
            (walk, side): psi
            for walk, by_side in off.items()
            for side, psi in _common(by_side, deviation).items()
        }
    return falls


def _common(off: Mapping[str, Sequence[float]], deviation: float) -> dict[str, float]:
    """What a walk did to all tires of each side; the sides are told apart as far as they clearly differ."""
    every = [psi for psis in off.values() for psi in psis]
    if len(every) == 1:
        # What is off with one tire alone may be its own.
        return {}
    middle = fmean(every)
    found: dict[str, float] = {}
    for side, psis in off.items():
        others = [psi for one, held in off.items() if one != side for psi in held]
        apart = fmean(psis) - fmean(others) if others else 0.0
        chance = deviation**2 * (1 / len(psis) + 1 / len(others)) if others else 0.0
        share = max(0.0, 1 - chance / apart**2) if apart else 0.0
        found[side] = middle + share * (fmean(psis) - middle)
    return found


def _fall(points: Sequence[_Point]) -> _Fall:
    levels = _by_level(points)
    slope = _weighted_median(
        ((other.psi - one.psi) / (other.day - one.day), abs(other.day - one.day))
        for level in levels
        for one, other in combinations(level, 2)
        if other.day != one.day
    )
    residuals, reach = [], 0.0
    for level in levels:
        line = median(point.psi - slope * point.day for point in level)
        residuals += [point.psi - slope * point.day - line for point in level]
        middle = fmean(point.day for point in level)
        reach += sum((point.day - middle) ** 2 for point in level)
    return _Fall(-slope, residuals, len(levels), reach)


def _weighted_median(slopes: Iterable[tuple[float, float]]) -> float:
    """The slope below and above which half of the weight lies."""
    rising = sorted(slopes)
    half, weight = sum(one for _, one in rising) / 2, 0.0
    for slope, one in rising:
        weight += one
        if weight >= half:
            return slope
    raise ValueError("there is no pair of readings")


def _off_line(every: Iterable[_Point], taken_off: Iterable[_Point], fall: float) -> list[tuple[int, float]]:
    """How far each reading, as it was read, is off its level's line."""
    about: dict[str, list[float]] = {}
    for point in taken_off:
        about.setdefault(point.level, []).append(point.psi + fall * point.day)
    lines = {level: median(psis) for level, psis in about.items()}
    return [(one.walk, one.psi + fall * one.day - lines[one.level]) for one in every]


def _excess(name: str, falls: Mapping[str, _Fall], sides: Mapping[str, str]) -> float | None:
    """What a tire loses over the middle of its mates: of all, and of its own side, whichever is less."""
    mates = [one for one in falls if one != name]
    beside = [one for one in mates if sides.get(one) == sides.get(name)]
    middles = [median(falls[one].psi for one in group) for group in (mates, beside) if group]
    return falls[name].psi - max(middles) if middles else None


def _deviation(falls: Iterable[_Fall], common: int) -> float:
    """Standard deviation of a reading about its line, of all tires together."""
    every = list(falls)
    residuals = [abs(one) for fall in every for one in fall.residuals]
    if not residuals:
        return 0.0
    free = max(1, len(residuals) - common - sum(fall.levels + 1 for fall in every))
    return _OF_NORMAL * median(residuals) * sqrt(len(residuals) / free)
