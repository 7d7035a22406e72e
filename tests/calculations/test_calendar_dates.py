from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.calculations.calendar_dates import date_after
from binder.quantities import registry

q = registry.Quantity


@pytest.mark.parametrize(
    ("start", "time", "unit", "ends"),
    [
        (date(2024, 2, 29), 1, "year", date(2025, 2, 28)),
        (date(2024, 2, 29), 4, "year", date(2028, 2, 29)),
        (date(2025, 12, 31), 2, "month", date(2026, 2, 28)),
        (date(2025, 1, 1), 12, "month", date(2026, 1, 1)),
        (date(2025, 1, 1), 4, "week", date(2025, 1, 29)),
        (date(2025, 1, 1), 36, "hour", date(2025, 1, 2)),
        (date(2025, 1, 1), 0, "day", date(2025, 1, 1)),
    ],
)
def test_date_is_counted_by_the_calendar(start: date, time: float, unit: str, ends: date) -> None:
    assert date_after(start, q(time, unit)) == ends


# 2100, which has no leap day, lies beyond the last of these.
@given(st.dates(date(1990, 1, 1), date(2079, 12, 31)), st.integers(0, 240))
def test_whole_months_are_within_three_days_of_their_mean_length(start: date, months: int) -> None:
    mean = timedelta(days=months * 365.25 / 12)

    assert abs(date_after(start, q(months, "month")) - start - mean) < timedelta(days=3)


def test_a_time_before_the_start_is_refused() -> None:
    with pytest.raises(ValueError, match="before the start"):
        date_after(date(2025, 1, 1), q(-1, "day"))


def test_a_date_beyond_the_calendar_is_refused() -> None:
    with pytest.raises(OverflowError):
        date_after(date(9999, 1, 1), q(2, "year"))
