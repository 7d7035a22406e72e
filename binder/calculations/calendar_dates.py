"""Dates a stated time after another, by the calendar where the time is in whole months."""

import calendar
from datetime import date, timedelta
from math import floor

from binder.quantities import Time, checks_dimensions

_WHOLE = 1e-6  # of a month: nearer is a whole month.
_MONTHS_A_YEAR = 12


@checks_dimensions
def date_after(start: date, time: Time) -> date:
    """Date a time after a start; whole months and years run by the calendar.

    Args:
        start: the first day [date].
        time: how long after; part days are left off, so that the date is never too late [time].

    Returns:
        The date; where the month has no such day, its last.

    Raises:
        OverflowError: the date lies beyond the calendar.
        ValueError: the time is below zero.

    Sources:
        arithmetic.

    Example:
        >>> from binder.quantities import registry
        >>> date_after(date(2026, 8, 31), registry.Quantity(6, "month"))
        datetime.date(2027, 2, 28)
        >>> date_after(date(2026, 8, 31), registry.Quantity(90, "day"))
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
