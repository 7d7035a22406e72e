"""Sunset against the times of the US Naval Observatory, as two libraries' tests carry them.

The printed times are whole minutes; the library's own error is under a minute. Tolerance: 60 seconds.
"""

import csv
from datetime import date, datetime, timedelta, timezone
from pathlib import Path

import pytest

from binder.calculations.daylight import Coordinates, evening

ZONES = {
    "Bluffton OH": "America/New_York",
    "Defiance OH": "America/New_York",
    "Golden CO": "America/Denver",
}
TOLERANCE = timedelta(seconds=60)
ROWS = list(
    csv.DictReader((Path(__file__).parent / "sun_times_usno.csv").read_text(encoding="utf-8").splitlines())
)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['place']}-{row['date']}")
def test_sunset_is_the_published_one(row: dict[str, str]) -> None:
    day = date.fromisoformat(row["date"])
    found = evening(Coordinates(float(row["lat"]), float(row["lon_east"])), day, ZONES[row["place"]])

    pairs = [(found.sunset, row["sunset_local"]), (found.dusk, row["civil_dusk_local"])]
    compared = [(moment, printed) for moment, printed in pairs if printed]
    assert compared
    for moment, printed in compared:
        assert moment is not None
        offset = timezone(timedelta(hours=float(row["utc_offset_h"])))
        wanted = datetime.fromisoformat(f"{row['date']}T{printed}").replace(tzinfo=offset)
        assert abs(moment - wanted) <= TOLERANCE
