"""Marks of the two axes of a chart over time."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime, timedelta
from math import ceil, floor

from binder.assessment.ledger import Fact

_STEPS = (1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0)
_MOST_VALUES = 6
_DIGITS = {"bar": 2, "mpg": 1, "%": 1}
"""Digits after the point, of units of which less than one is told."""


def values_marked(values: list[float], unit: str) -> Iterator[tuple[float, str]]:
    """Whole steps from under the least to over the most, the last with its unit."""
    digits = _DIGITS.get(unit, 0)
    least, most = min(values), max(values)
    steps = (one * 10.0**-digits for one in _STEPS)
    step = next((one for one in steps if (most - least) / one <= _MOST_VALUES - 2), most - least)
    first, last = floor(least / step), ceil(most / step)
    for count in range(first, max(last, first + 1) + 1):
        number = f"{count * step:.{digits}f}"
        yield count * step, f"{number} {unit}" if count == last else number


def days_marked(moments: Sequence[datetime]) -> Iterator[tuple[float, str]]:
    """The first day, and each month's first."""
    first, last = moments[0], moments[-1]
    yield day_number(first), f"{first:%b} {first.day}"
    day = first
    while (day := _next_month(day)) <= last:
        yield day_number(day), f"{day:%b} {day.day}"


def _next_month(day: datetime) -> datetime:
    return (day.replace(day=1, hour=0, minute=0) + timedelta(days=32)).replace(day=1)


def moment_in(facts: Mapping[str, Fact], name: str) -> datetime:
    """A moment among facts, which is entered with what is drawn."""
    moment = facts[name]
    if not isinstance(moment, datetime):
        raise TypeError(f"{name} is no moment: {moment}")
    return moment


def day_number(moment: datetime) -> float:
    """A moment as a number of days."""
    return moment.timestamp() / 86400
