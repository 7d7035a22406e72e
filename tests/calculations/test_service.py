from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.calculations.service import Meters, ServiceDue, ServiceInterval, date_after, service_due
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


OIL = ServiceInterval(q(12, "month"), q(7500, "mile"), q(150, "hour"))
LAST = Meters(date(2025, 6, 6), q(60_000, "mile"), q(200, "hour"))


def due(day: date | None, miles: float | None, hours: float | None, last: Meters = LAST) -> ServiceDue:
    on = Meters(day, None if miles is None else q(miles, "mile"), None if hours is None else q(hours, "hour"))
    return service_due(OIL, last, on)


@pytest.mark.parametrize(
    ("day", "miles", "hours", "by"),
    [
        (date(2026, 6, 5), 67_499, 349, []),
        (date(2026, 6, 6), 67_499, 349, ["date"]),
        (date(2026, 6, 5), 67_500, 349, ["distance"]),
        (date(2026, 6, 5), 67_499, 350, ["running hours"]),
        (date(2027, 1, 1), 70_000, 400, ["date", "distance", "running hours"]),
    ],
)
def test_whichever_comes_first_is_due_on_its_last_day(
    day: date, miles: float, hours: float, by: list[str]
) -> None:
    found = due(day, miles, hours)

    assert [item.by for item in found.dues if item.is_due] == by
    assert found.is_due is bool(by)


def test_a_meter_that_was_not_read_is_not_known_to_be_fine() -> None:
    assert due(date(2026, 1, 1), 61_000, None).is_due is None
    assert due(None, 61_000, 201).is_due is None
    assert due(date(2026, 1, 1), 61_000, 201, Meters(date(2025, 6, 6), None, q(200, "hour"))).is_due is None


def test_what_is_known_to_be_due_is_due_whatever_else_is_not_known() -> None:
    assert due(date(2026, 7, 1), None, None).is_due is True


def test_an_item_without_intervals_is_not_known() -> None:
    found = service_due(ServiceInterval(), LAST, LAST)

    assert found.dues == ()
    assert found.is_due is None


def test_a_reading_in_kilometers_is_due_at_the_same_place() -> None:
    on = Meters(odometer=q(67_500 * 1.609344, "kilometer"))
    found = service_due(ServiceInterval(distance=q(7500, "mile")), LAST, on)

    assert found.is_due is True


@given(st.floats(0, 20_000))
def test_what_is_left_and_driven_make_the_interval(miles: float) -> None:
    found = due(date(2025, 6, 6), 60_000 + miles, 200).dues[1]

    assert found.left is not None
    assert float(found.left.to("mile").m) + miles == pytest.approx(7500)
    assert found.is_due is (miles >= 7500 or found.left.magnitude == 0)


def test_an_interval_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="more than zero"):
        ServiceInterval(distance=q(0, "mile"))
