"""What service falls due by a day: by date, distance or running hours, whichever comes first."""

import calendar
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from math import floor
from typing import Literal, NamedTuple, TypeAlias

from binder.calculations.bounds import is_at_least
from binder.quantities import Length, Quantity, Time, checks_dimensions, registry

_WHOLE = 1e-6  # of a month: nearer is a whole month.
_MONTHS_A_YEAR = 12


@checks_dimensions
def date_after(start: date, time: Time) -> date:
    """Date a time after a start; whole months and years run by the calendar.

    Args:
        start: the first day [date].
        time: how long after; part days are left off, so that the date is never too late [time].
    Returns: The date; where the month has no such day, its last.
    Raises: OverflowError: the date lies beyond the calendar; ValueError: the time is below zero.
    Sources: arithmetic.

    >>> date_after(date(2026, 8, 31), q(6, "month"))
    datetime.date(2027, 2, 28)
    >>> date_after(date(2026, 8, 31), q(90, "day"))
    datetime.date(2026, 11, 29)
    """
    months = float(time.to("month").m)
    if months < 0:
        raise ValueError(f"{time} is before the start")
    whole = round(months)
    if not whole or abs(months - whole) > _WHOLE:
        return start + timedelta(days=floor(float(time.to("day").m) + _WHOLE))
    years, month = divmod(start.month - 1 + whole, _MONTHS_A_YEAR)
    year = start.year + years
    if year > date.max.year:
        raise OverflowError(f"{time} after {start} lies beyond the calendar")
    return date(year, month + 1, min(start.day, calendar.monthrange(year, month + 1)[1]))


DueBy: TypeAlias = Literal["date", "distance", "running hours"]


@dataclass(frozen=True)
class ServiceInterval:
    """How often: by the calendar, by the odometer, by the hour meter; None where it does not count."""

    time: Time | None = None
    distance: Length | None = None
    running: Time | None = None

    def __post_init__(self) -> None:
        parts = [part for part in (self.time, self.distance, self.running) if part is not None]
        if any(part.magnitude <= 0 for part in parts):
            raise ValueError("an interval must be more than zero")


class Meters(NamedTuple):
    """A day and what the meters read on it; None where it was not read."""

    day: date | None = None
    odometer: Length | None = None
    running: Time | None = None


class Due(NamedTuple):
    """When one interval ends, and how much is left of it on the day; below zero where it is over.

    ``at`` is a date, or a reading of the meter; both are None where a reading is missing.
    """

    by: DueBy
    at: date | Quantity | None
    left: Quantity | None

    @property
    def is_due(self) -> bool | None:
        """Whether it is due on the day; on its last day it is. None where that is not known."""
        return None if self.left is None else bool(self.left.magnitude <= 0)


class ServiceDue(NamedTuple):
    """Every interval of one item on a day."""

    dues: tuple[Due, ...]

    @property
    def is_due(self) -> bool | None:
        """True where any interval is over; None where none is, but one is not known."""
        states = [due.is_due for due in self.dues]
        if True in states:
            return True
        return None if None in states or not states else False


def service_due(interval: ServiceInterval, last: Meters, on: Meters) -> ServiceDue:
    """What of a service item falls due by a day.

    Args:
        interval: how often [time, length].
        last: when it was last done.
        on: the day, such as the trip's last, with the meters as they will stand then.
    Returns: One entry for each interval the item has.
    Sources: stated (the intervals); arithmetic.

    >>> oil = ServiceInterval(time=q(12, "month"), distance=q(7500, "mile"))
    >>> last = Meters(date(2026, 4, 2), q(60_900, "mile"))
    >>> found = service_due(oil, last, Meters(date(2026, 6, 6), q(68_500, "mile")))
    >>> found.is_due, [due.by for due in found.dues if due.is_due]
    (True, ['distance'])
    """
    return ServiceDue(tuple(_dues(interval, last, on)))


def _dues(interval: ServiceInterval, last: Meters, on: Meters) -> Iterator[Due]:
    if interval.time is not None:
        yield _by_date(interval.time, last.day, on.day)
    if interval.distance is not None:
        yield _by_meter("distance", interval.distance, last.odometer, on.odometer)
    if interval.running is not None:
        yield _by_meter("running hours", interval.running, last.running, on.running)


def _by_date(time: Time, last: date | None, on: date | None) -> Due:
    if last is None:
        return Due("date", None, None)
    ends = date_after(last, time)
    return Due("date", ends, None if on is None else registry.Quantity(float((ends - on).days), "day"))


def _by_meter(by: DueBy, every: Quantity, last: Quantity | None, on: Quantity | None) -> Due:
    if last is None:
        return Due(by, None, None)
    ends = last + every
    if on is None:
        return Due(by, ends, None)
    # Readings in miles and kilometers that are one differ in the last bits.
    return Due(by, ends, ends * 0 if is_at_least(on, ends) and is_at_least(ends, on) else ends - on)
