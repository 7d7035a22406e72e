"""A time of day tells its day where that is not the day that was left on."""

from datetime import UTC, datetime

from binder.wording.measures import Style
from binder.wording.words import Words


def test_a_time_past_midnight_prints_its_day() -> None:
    left = datetime(2026, 6, 1, 21, 0, tzinfo=UTC)

    clock = Words(Style("metric", "kPa", "24 h")).clock
    assert clock(datetime(2026, 6, 2, 0, 40, tzinfo=UTC), left) == "Tue 00:40 UTC"
    assert clock(datetime(2026, 6, 1, 23, 40, tzinfo=UTC), left) == "23:40 UTC"
