"""Sunset and sunrise against the times of the US Naval Observatory, and against a second library.

The printed times are whole minutes; the library's own error is under a minute. Tolerance: 60 seconds.
The second library is PyEphem, which computes from the planetary theory VSOP87, not from the almanac's
short formulas that astral uses.
"""

import csv
import math
from datetime import UTC, date, datetime, timedelta, timezone
from pathlib import Path

import ephem
import pytest

from binder.assessment.route.days import trip_days
from binder.calculations.route.times import Coordinates, evening, morning
from binder.models.load import load_profile
from tests.demos import PROFILES
from tests.published.kinds import check

ZONES = {
    "Bluffton OH": "America/New_York",
    "Defiance OH": "America/New_York",
    "Golden CO": "America/Denver",
}
TOLERANCE = timedelta(seconds=60)
SUNSET, DUSK = 0.833, 6.0
"""Degrees of the sun's middle under the horizon: half its disk and refraction; end of civil twilight."""
ROWS = list(
    csv.DictReader((Path(__file__).parent / "sun_times_usno.csv").read_text(encoding="utf-8").splitlines())
)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['place']}-{row['date']}")
@check("S-SKYFIELD-TEST; S-PVLIB-TEST", "published")
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


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['place']}-{row['date']}")
@check("S-SKYFIELD-TEST; S-PVLIB-TEST", "published")
def test_sunrise_is_the_published_one(row: dict[str, str]) -> None:
    day = date.fromisoformat(row["date"])
    risen = morning(Coordinates(float(row["lat"]), float(row["lon_east"])), day, ZONES[row["place"]])

    offset = timezone(timedelta(hours=float(row["utc_offset_h"])))
    printed = datetime.fromisoformat(f"{row['date']}T{row['sunrise_local']}").replace(tzinfo=offset)
    assert risen is not None
    assert abs(risen - printed) <= TOLERANCE


@pytest.mark.parametrize("name", ["larkspur", "kestrel", "tamarack", "sandpiper"])
@check("LIB-EPHEM", "library")
def test_every_sunrise_of_the_demo_trips_is_the_second_library_s(name: str) -> None:
    days = trip_days(load_profile(PROFILES / name))
    compared = 0
    for day in days:
        if day.start is None or day.start.latitude is None or day.start.longitude is None:
            continue
        assert day.zone_at_start is not None
        place = Coordinates(day.start.latitude, day.start.longitude)
        risen = morning(place, day.plan.leave.date(), day.zone_at_start)
        assert risen is not None
        observer = ephem.Observer()
        observer.lat, observer.lon = math.radians(place.latitude), math.radians(place.longitude)
        observer.pressure, observer.horizon = 0, math.radians(-SUNSET)
        observer.date = ephem.Date(risen.replace(hour=12, minute=0).astimezone(UTC).replace(tzinfo=None))
        wanted: datetime = observer.previous_rising(ephem.Sun(), use_center=True).datetime()
        assert abs(risen - wanted.replace(tzinfo=UTC)) <= TOLERANCE
        compared += 1
    assert compared == len(days)


def setting_by_the_second_library(place: Coordinates, noon: datetime, angle: float) -> datetime:
    """First moment after noon at which the sun's middle is this far under a flat horizon, without air."""
    observer = ephem.Observer()
    observer.lat, observer.lon = math.radians(place.latitude), math.radians(place.longitude)
    observer.pressure, observer.horizon = 0, math.radians(-angle)
    observer.date = ephem.Date(noon.astimezone(UTC).replace(tzinfo=None))
    found: datetime = observer.next_setting(ephem.Sun(), use_center=True).datetime()
    return found.replace(tzinfo=UTC)


@pytest.mark.parametrize("name", ["larkspur", "kestrel", "tamarack", "sandpiper"])
@check("LIB-EPHEM", "library")
def test_every_evening_of_the_demo_trips_is_the_second_library_s(name: str) -> None:
    trip = load_profile(PROFILES / name).trip
    assert trip is not None
    zone = ""
    for day in trip.days:
        stop = day.legs[-1].to
        zone = stop.time_zone or zone
        assert stop.latitude is not None
        assert stop.longitude is not None
        place = Coordinates(stop.latitude, stop.longitude)
        found = evening(place, day.leave.date(), zone)
        assert found.sunset is not None
        assert found.dusk is not None
        noon = found.sunset.replace(hour=12, minute=0)

        for moment, angle in ((found.sunset, SUNSET), (found.dusk, DUSK)):
            assert abs(moment - setting_by_the_second_library(place, noon, angle)) <= TOLERANCE
