from datetime import datetime
from zoneinfo import ZoneInfo

import pytest

from binder.calculations.travel import BreakRule, Stretch, StretchTimes, day_times
from binder.quantities import Quantity, registry

q = registry.Quantity
PACIFIC = "America/Los_Angeles"
MOUNTAIN = "America/Boise"
START = datetime(2026, 6, 1, 9, 0, tzinfo=ZoneInfo(PACIFIC))


def leg(hours: float | None, miles: float | None, stay: float | None = None, zone: str = PACIFIC) -> Stretch:
    def known(value: float | None, unit: str) -> Quantity | None:
        return None if value is None else q(value, unit)

    return Stretch(known(hours, "hour"), known(miles, "mile"), known(stay, "minute"), zone)


def arrivals(times: tuple[StretchTimes, ...]) -> list[str | None]:
    return [item.arrival.strftime("%H:%M %Z") if item.arrival else None for item in times]


def breaks_after(item: StretchTimes) -> list[float]:
    return [float(stop.after_driving.to("minute").m) for stop in item.breaks]


def test_a_short_leg_needs_no_break_and_the_zone_changes_at_its_end() -> None:
    times = day_times(START, [leg(1.25, 72, zone=MOUNTAIN)], BreakRule())

    assert arrivals(times) == ["11:15 MDT"]
    assert times[0].breaks == ()


def test_a_leg_that_ends_where_the_break_is_due_needs_none_on_the_road() -> None:
    times = day_times(START, [leg(2, 96)], BreakRule())

    assert arrivals(times) == ["11:00 PDT"]


@pytest.mark.parametrize(
    ("hours", "miles", "after"),
    [(3, 120, [120.0]), (2.5, 150, [100.0]), (5, 220, [120.0, 240.0]), (3, None, [120.0])],
)
def test_a_break_falls_after_two_hours_or_a_hundred_miles_whichever_is_first(
    hours: float, miles: float | None, after: list[float]
) -> None:
    times = day_times(START, [leg(hours, miles)], BreakRule())

    assert breaks_after(times[0]) == pytest.approx(after)


def test_a_stay_counts_as_a_break_and_a_short_one_does_not() -> None:
    long_stay = day_times(START, [leg(1.5, 60, 45), leg(1, 50)], BreakRule())
    short_stay = day_times(START, [leg(1.5, 60, 10), leg(1, 50)], BreakRule())

    assert breaks_after(long_stay[1]) == []
    assert breaks_after(short_stay[1]) == pytest.approx([30.0])
    assert arrivals(long_stay) == ["10:30 PDT", "12:15 PDT"]
    assert arrivals(short_stay) == ["10:30 PDT", "11:55 PDT"]


def test_a_break_that_fell_due_at_a_stop_without_a_stay_is_taken_before_going_on() -> None:
    times = day_times(START, [leg(2, 96), leg(1, 50)], BreakRule())

    assert breaks_after(times[1]) == pytest.approx([0.0])
    assert arrivals(times) == ["11:00 PDT", "12:15 PDT"]


def test_no_time_is_known_after_a_leg_whose_driving_is_not() -> None:
    times = day_times(START, [leg(1, 50), leg(None, 50), leg(1, 50)], BreakRule())

    assert arrivals(times) == ["10:00 PDT", None, None]
    assert [item.departure is None for item in times] == [False, False, True]


def test_driving_through_the_change_of_clocks_takes_its_true_time() -> None:
    """On 2026-03-08 the clock goes from 02:00 to 03:00."""
    night = datetime(2026, 3, 8, 1, 0, tzinfo=ZoneInfo(PACIFIC))

    assert arrivals(day_times(night, [leg(1.5, 60)], BreakRule())) == ["03:30 PDT"]


def test_a_departure_without_a_zone_is_refused() -> None:
    with pytest.raises(ValueError, match="needs a time zone"):
        day_times(datetime(2026, 6, 1, 9, 0), [leg(1, 50)], BreakRule())  # noqa: DTZ001 - it is the case.


def test_a_rule_that_never_ends_is_refused() -> None:
    with pytest.raises(ValueError, match="more than zero"):
        day_times(START, [leg(1, 50)], BreakRule(after_driving=q(0, "hour")))
