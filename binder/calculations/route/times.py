"""When a day's stops are reached across time zones, with breaks and stays; and when the sun sets there."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from typing import Literal, NamedTuple, TypeAlias
from zoneinfo import ZoneInfo

from astral import Observer
from astral.sun import dusk, elevation, noon, sunrise, sunset

from binder.quantities import Length, Quantity, Time, checks_dimensions, number_in, registry, round_up

BREAK_AFTER_DRIVING = registry.Quantity(2.0, "hour")  # W40.
BREAK_AFTER_DISTANCE = registry.Quantity(100.0, "mile")  # W40.
BREAK_LENGTH = registry.Quantity(15.0, "minute")  # practice.

_NOTHING = 1e-9  # of a second or a meter: less is the same moment or place.


class BreakRule(NamedTuple):
    """A break after so much driving or distance, whichever comes first, and how long it is."""

    after_driving: Time = BREAK_AFTER_DRIVING
    after_distance: Length = BREAK_AFTER_DISTANCE
    length: Time = BREAK_LENGTH


class Stretch(NamedTuple):
    """One leg and the stay at its end; None where it is not known. ``zone`` is that of its end."""

    driving: Time | None
    distance: Length | None
    stay: Time | None
    zone: str


class Break(NamedTuple):
    """A break on a leg: how much driving of that leg lies before it."""

    after_driving: Time


class StretchTimes(NamedTuple):
    """Times of one leg, each in the zone of its place; None from where driving is not known."""

    departure: datetime | None
    arrival: datetime | None
    breaks: tuple[Break, ...]


@dataclass
class _Driver:
    """How long and how far the driver has driven since the last break [second, meter]."""

    seconds: float = 0.0
    meters: float = 0.0


def day_times(departure: datetime, stretches: Iterable[Stretch], rule: BreakRule) -> tuple[StretchTimes, ...]:
    """Departure and arrival of each leg of a day.

    A break falls where driving or distance since the last one reaches the rule's, on the road at
    the leg's mean speed, but not at a stop that ends the leg; a stay at least as long as a break
    is one. A leg whose distance is not known is judged by its driving time alone.

    Args:
        departure: with its zone [time of day].
        stretches: the day's legs in order [time, length].
        rule: when a break is due [time, length].
    Returns: The times of each leg.
    Raises: ValueError: the departure has no zone, or a rule's part is not more than zero.
    Sources: W40 (when); practice (how long a break is).

    >>> leg = Stretch(q(3, "hour"), q(150, "mile"), None, "America/Denver")
    >>> start = datetime(2026, 6, 1, 9, 0, tzinfo=ZoneInfo("America/Los_Angeles"))
    >>> day_times(start, [leg], BreakRule())[0].arrival.strftime("%H:%M %Z")
    '13:15 MDT'
    """
    if departure.tzinfo is None:
        raise ValueError("the departure needs a time zone")
    parts = (rule.after_driving, rule.after_distance, rule.length)
    if any(part.magnitude <= 0 for part in parts):
        raise ValueError("every part of the rule for breaks must be more than zero")
    return tuple(_times(departure, stretches, rule))


def _times(departure: datetime, stretches: Iterable[Stretch], rule: BreakRule) -> Iterator[StretchTimes]:
    driver, now, zone = _Driver(), departure.astimezone(UTC), departure.tzinfo
    known = True
    for stretch in stretches:
        start = now.astimezone(zone)
        zone = ZoneInfo(stretch.zone)
        if not known or stretch.driving is None:
            yield StretchTimes(start if known else None, None, ())
            known = False
            continue
        breaks = tuple(_breaks(driver, stretch, rule))
        now += _delta(stretch.driving) + len(breaks) * _delta(rule.length)
        yield StretchTimes(start, now.astimezone(zone), breaks)
        if stretch.stay is not None:
            now += _delta(stretch.stay)
            if stretch.stay >= rule.length:
                driver.seconds = driver.meters = 0.0


def _breaks(driver: _Driver, stretch: Stretch, rule: BreakRule) -> Iterator[Break]:
    """Yield the breaks of one leg and take its driving into the driver's account."""
    left = 0.0 if stretch.driving is None else _base(stretch.driving)
    speed = 0.0 if stretch.distance is None or not left else _base(stretch.distance) / left
    driven = 0.0
    while True:
        due = _base(rule.after_driving) - driver.seconds
        if speed:
            due = min(due, (_base(rule.after_distance) - driver.meters) / speed)
        due = max(due, 0.0)
        if left - due <= _NOTHING:
            driver.seconds += left
            driver.meters += left * speed
            return
        driven += due
        left -= due
        driver.seconds = driver.meters = 0.0
        yield Break(registry.Quantity(driven / 60, "minute"))


def _base(quantity: Quantity) -> float:
    return float(quantity.to_base_units().magnitude)


def _delta(time: Time) -> timedelta:
    return timedelta(seconds=_base(time))


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
    Returns: Sunset and dusk, or that the sun does not set or does not rise that day; a flat horizon at the
        place's own level: mountains take the sun earlier.
    Raises: ZoneInfoNotFoundError: there is no such zone.
    Sources: LIB-SUN (astral; within a minute of published times, see tests/published).

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


def morning(place: Coordinates, day: date, zone: str) -> datetime | None:
    """Sunrise at a place: the last before the day's solar noon, asked as the evening is.

    Args:
        place: latitude and longitude in degrees.
        day: the local date [date].
        zone: time zone of the place, such as ``America/Boise`` [name].
    Returns: Sunrise in the place's zone; None where the sun does not rise or does not set that day.
    Raises: ZoneInfoNotFoundError: there is no such zone.
    Sources: LIB-SUN (astral; within a minute of published times, see tests/published).

    >>> golden = Coordinates(39.742476, -105.1786)
    >>> morning(golden, date(2015, 8, 2), "America/Denver").strftime("%H:%M")
    '06:00'
    """
    observer, local = Observer(place.latitude, place.longitude), ZoneInfo(zone)
    middle: datetime = noon(observer, day, local)
    risen = _asked(sunrise, observer, middle)
    return max((one for one in risen if middle - timedelta(days=1) < one <= middle), default=None)


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
    Returns: The time [time], negative when the first is the later.
    Raises: ValueError: one of them has no zone.
    Sources: arithmetic.

    >>> noon, later = (datetime(2026, 6, 1, hour, 30, tzinfo=UTC) for hour in (12, 15))
    >>> f"{time_between(noon, later):.0f}"
    '180 minute'
    """
    if earlier.tzinfo is None or later.tzinfo is None:
        raise ValueError("a moment without a zone cannot be compared across zones")
    # Through UTC: Python compares two moments of one zone by the wall clock, an hour off in spring.
    seconds = later.timestamp() - earlier.timestamp()
    return registry.Quantity(seconds / 60, "minute")


@checks_dimensions
def whole_minutes(time: Time) -> Time:
    """A time in whole minutes, as it is printed: what is added to a time of day then adds up on paper.

    Args:
        time: any time [time].
    Returns: The next whole minute [time].
    Sources: arithmetic.

    >>> f"{whole_minutes(q(0.33, 'hour')):.0f}"
    '20 minute'
    """
    return registry.Quantity(round_up(number_in(time, "minute"), 1), "minute")
