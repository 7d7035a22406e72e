"""When the sun sets at a place, told apart from days on which it does not."""

from collections.abc import Callable, Iterator
from datetime import date, datetime, timedelta
from typing import Literal, NamedTuple, TypeAlias
from zoneinfo import ZoneInfo

from astral import Observer
from astral.sun import dusk, elevation, noon, sunset

from binder.quantities import Quantity, registry

SunState: TypeAlias = Literal["sets", "does not set", "does not rise"]

# The sun is down when its middle is this far under the horizon: half its disk and refraction.
_HORIZON = -0.833  # LIB-SUN; degrees, the usual definition of sunset.


class Coordinates(NamedTuple):
    """A place on the earth in degrees, north and east positive."""

    latitude: float
    longitude: float


class Evening(NamedTuple):
    """How the day's light ends: sunset and the end of civil twilight, in the place's own zone.

    ``sunset`` is None where the sun does not set or does not rise; ``dusk`` is None there, and
    where the night stays brighter than civil twilight.
    """

    state: SunState
    sunset: datetime | None
    dusk: datetime | None


def evening(place: Coordinates, day: date, zone: str) -> Evening:
    """End of daylight at a place.

    The library is asked with the place's zone and for the days around, and the answer is the first
    sunset after the day's solar noon: asked in UTC, it gives an American place the evening before.

    Args:
        place: latitude and longitude in degrees.
        day: the local date [date].
        zone: time zone of the place, such as ``America/Boise`` [name].

    Returns:
        Sunset and dusk, or that the sun does not set or does not rise that day; a flat horizon at
        the place's own level: mountains take the sun earlier.

    Raises:
        ZoneInfoNotFoundError: there is no such zone.

    Sources:
        LIB-SUN (astral; within a minute of published times, see tests/published).

    Example:
        >>> golden = Coordinates(39.742476, -105.1786)
        >>> evening(golden, date(2015, 1, 2), "America/Denver").sunset.strftime("%H:%M")
        '16:47'
        >>> evening(Coordinates(71.29, -156.79), date(2026, 6, 21), "America/Anchorage").state
        'does not set'
    """
    observer, local = Observer(place.latitude, place.longitude), ZoneInfo(zone)
    middle: datetime = noon(observer, day, local)
    setting = _first_after(middle, _asked(sunset, observer, middle))
    if setting is None:
        risen = elevation(observer, middle) > _HORIZON
        return Evening("does not set" if risen else "does not rise", None, None)
    return Evening("sets", setting, _first_after(middle, _asked(dusk, observer, middle)))


def _asked(event: Callable[..., datetime], observer: Observer, middle: datetime) -> Iterator[datetime]:
    for days in (-1, 0, 1):
        try:
            yield event(observer, date=middle.date() + timedelta(days=days), tzinfo=middle.tzinfo)
        except ValueError:
            # The library raises where the sun does not reach the angle on that date.
            continue


def _first_after(middle: datetime, moments: Iterator[datetime]) -> datetime | None:
    day_long = timedelta(days=1)
    return min((moment for moment in moments if middle <= moment < middle + day_long), default=None)


def time_between(earlier: datetime, later: datetime) -> Quantity:
    """Time from one moment to another, across zones.

    Args:
        earlier: with its zone [time of day].
        later: with its zone [time of day].

    Returns:
        The time [time], negative when the first is the later.

    Raises:
        ValueError: one of them has no zone.

    Sources:
        arithmetic.

    Example:
        >>> from datetime import UTC
        >>> noon_there = datetime(2026, 6, 1, 12, 0, tzinfo=UTC)
        >>> f"{time_between(noon_there, datetime(2026, 6, 1, 14, 30, tzinfo=UTC)):.0f}"
        '150 minute'
    """
    if earlier.tzinfo is None or later.tzinfo is None:
        raise ValueError("a moment without a zone cannot be compared across zones")
    # Through UTC: Python compares two moments of one zone by the wall clock, an hour off in spring.
    seconds = later.timestamp() - earlier.timestamp()
    return registry.Quantity(seconds / 60, "minute")
