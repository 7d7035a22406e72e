from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

import pytest

from binder.calculations.daylight import Coordinates, evening, time_between

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
