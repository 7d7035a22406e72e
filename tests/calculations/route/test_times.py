from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

import pytest

from binder.calculations.route.times import (
    BreakRule,
    Coordinates,
    Stretch,
    StretchTimes,
    day_times,
    evening,
    time_between,
)
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


FAIRBANKS = Coordinates(64.84, -147.72)
UTQIAGVIK = Coordinates(71.29, -156.79)
PENDLETON = Coordinates(45.672, -118.789)


def test_the_evening_of_an_american_day_is_that_days_own() -> None:
    found = evening(PENDLETON, date(2026, 6, 1), "America/Los_Angeles")

    assert found.state == "sets"
    assert found.sunset is not None
    assert found.sunset.date() == date(2026, 6, 1)
    assert 20 <= found.sunset.hour < 21


def test_dusk_comes_after_sunset() -> None:
    found = evening(PENDLETON, date(2026, 6, 1), "America/Los_Angeles")

    assert found.sunset is not None
    assert found.dusk is not None
    assert found.sunset < found.dusk


def test_a_sunset_after_midnight_belongs_to_the_day_before() -> None:
    """At Fairbanks in June the clock is so far ahead of the sun that it sets after midnight."""
    found = evening(FAIRBANKS, date(2026, 6, 21), "America/Anchorage")

    assert found.sunset is not None
    assert found.sunset.date() == date(2026, 6, 22)
    assert found.sunset.hour == 0
    assert found.dusk is None


@pytest.mark.parametrize(
    ("day", "state"),
    [(date(2026, 6, 21), "does not set"), (date(2026, 12, 21), "does not rise")],
)
def test_polar_days_and_nights_are_told_apart(day: date, state: str) -> None:
    found = evening(UTQIAGVIK, day, "America/Anchorage")

    assert (found.state, found.sunset, found.dusk) == (state, None, None)


def test_every_day_of_a_year_sets_once_below_the_polar_circle() -> None:
    for ordinal in range(date(2026, 1, 1).toordinal(), date(2027, 1, 1).toordinal()):
        day = date.fromordinal(ordinal)
        found = evening(PENDLETON, day, "America/Los_Angeles")

        assert found.sunset is not None
        assert found.sunset.date() == day


def test_time_between_crosses_the_change_of_clocks() -> None:
    """On 2026-03-08 the clock of Denver goes from 02:00 to 03:00."""
    denver = ZoneInfo("America/Denver")
    before, after = (
        datetime(2026, 3, 8, 1, 0, tzinfo=denver),
        datetime(2026, 3, 8, 4, 0, tzinfo=denver),
    )

    assert float(time_between(before, after).to("hour").m) == pytest.approx(2)


def test_a_moment_without_a_zone_is_refused() -> None:
    with pytest.raises(ValueError, match="without a zone"):
        time_between(datetime(2026, 6, 1, 9, 0), datetime(2026, 6, 1, 9, 0, tzinfo=UTC))  # noqa: DTZ001 - it is the case.
