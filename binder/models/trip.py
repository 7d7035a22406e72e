"""The trip plan and the private file."""

import re
from dataclasses import dataclass
from typing import Annotated, Literal, TypeAlias
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from pydantic import Field, PlainValidator

from binder.models.base import (
    Latitude,
    Level,
    Longitude,
    Moment,
    Record,
    ShareOf,
    ShareOfValue,
    SpacedRecord,
    Text,
    Truth,
    written_problem,
)
from binder.models.rig import Aboard
from binder.quantities import (
    TEMPERATURE,
    VOLUME_RATE,
    Current,
    Duration,
    Elevation,
    FuelUse,
    Length,
    Mass,
    Place,
    QuantityError,
    RatioOfTimes,
    Share,
    Speed,
    StoreTime,
    Temperature,
    VolumeRate,
)

_AREAS = {
    "A": "America/Halifax",
    "E": "America/New_York",
    "C": "America/Chicago",
    "M": "America/Denver",
    "P": "America/Los_Angeles",
    "AK": "America/Anchorage",
    "H": "Pacific/Honolulu",
}
"""The area of the zone that short letters are commonly meant for."""
_SHORT_ZONE = re.compile(r"(AK|[AECMPH])(?:[SD]?T|ST[0-9][A-Z]DT)")


def _time_zone(value: object) -> str:
    """Read a zone by its area: short letters and hours from Greenwich do not tell of daylight saving."""
    text = str(value)
    if short := _SHORT_ZONE.fullmatch(text.upper()):
        arizona = ", in Arizona 'America/Phoenix'" if short[1] == "M" else ""
        raise written_problem(f"'{text}' is not an area; write '{_AREAS[short[1]]}'{arizona}")
    try:
        if "/" in text and not text.startswith("Etc/"):
            return ZoneInfo(text).key
    except (ZoneInfoNotFoundError, ValueError, OSError):
        pass
    raise written_problem(f"'{text}' is not a time zone; write it like 'America/Los_Angeles'")


class Person(Record):
    """One of the crew, by role; names belong in private.yaml."""

    who: Text
    weight: Mass | None = None
    at: Place | None = None
    left: Place | None = None
    vehicle: Text = Field(alias="in")


@dataclass(frozen=True)
class PropaneUseValue:
    """Propane a day: one rate, or rates by the night's low (None: whatever the low)."""

    rates: tuple[tuple[Temperature | None, VolumeRate], ...]


def _propane_use(value: object) -> PropaneUseValue:
    try:
        if not isinstance(value, dict):
            return PropaneUseValue(((None, VOLUME_RATE.read(value)),))
        return PropaneUseValue(
            tuple((TEMPERATURE.read(low), VOLUME_RATE.read(rate)) for low, rate in value.items())
        )
    except QuantityError as error:
        text = f"{error}; or by the night's low: '{{50 degF: 0.9 gal/day, 20 degF: 3.5 gal/day}}'"
        raise written_problem(text) from error


PropaneUse: TypeAlias = Annotated[PropaneUseValue, PlainValidator(_propane_use)]


def _share_of_water(value: object) -> ShareOfValue:
    match = re.fullmatch(r"([0-9]+(?:\.[0-9]+)?) ?% of water", str(value))
    share = float(match[1]) / 100 if match else -1.0
    if not 0 <= share <= 1:
        raise written_problem(f"'{value}' is not a share of the water; write it like '20 % of water'")
    return ShareOfValue(share, "water")


class Use(SpacedRecord):
    """What the crew and the rig use, from their own log.

    ``black`` is the share of the water that goes down the toilet, the rest goes to the gray tank.
    ``battery`` is what the house battery gives in a day without hookups, what the sun brings taken off.
    """

    water: VolumeRate | None = None
    black: Annotated[ShareOfValue, PlainValidator(_share_of_water)] | None = None
    propane: PropaneUse | None = None
    battery: Current | None = None
    diesel: FuelUse | None = None
    gasoline: FuelUse | None = None
    exhaust_fluid: ShareOf | None = None
    generator: RatioOfTimes | None = None


class Lasts(Record):
    """What no tank holds: for how many days it is aboard."""

    food: StoreTime | None = None
    medicine: StoreTime | None = None


class WindLimits(Record):
    """The wind the owner parks at; without it the usual figures are printed, marked as practice."""

    sustained: Speed | None = None
    gusts: Speed | None = None


class Rules(Record):
    """The owner's own limits."""

    longest_day: Duration | None = None
    arrive_before: Literal["sunset", "dusk"] | None = None
    reserve: dict[str, Level] = {}
    clearance: Length | None = None
    wind: WindLimits = WindLimits.blank()


class Stop(Record):
    """A place on the route. ``levels`` are those on leaving it, as the plan states them."""

    place: Text
    latitude: Latitude | None = None
    longitude: Longitude | None = None
    elevation: Elevation | None = None
    elevation_from: Text | None = None
    time_zone: Annotated[str, PlainValidator(_time_zone)] | None = None
    kind: Literal["fuel", "rest", "site", "start"] | None = None
    stay: Duration | None = None
    fill: list[Text] = []
    dump: Truth = False
    levels: dict[str, dict[str, Level]] = {}
    arriving: dict[str, dict[str, Level]] = {}


class Clearance(Record):
    """A posted clearance; empty where the figure is not known."""

    what: Text
    posted: Length | None = None


class PostedLimit(Record):
    """What is posted at one place beside its height: weight, width, length, or ground clearance needed."""

    what: Text
    weight: Mass | None = None
    width: Length | None = None
    length: Length | None = None
    ground_clearance: Length | None = None


class Grade(Record):
    """A long grade as posted; ``goes`` is the way this trip takes it.

    ``begins_after`` is the distance from the start of its leg, ``top`` the elevation of its higher end.
    """

    what: Text
    goes: Literal["down", "up"] = "down"
    begins_after: Length | None = None
    top: Elevation | None = None
    length: Length | None = None
    slope: Share | None = None
    posted_truck_speed: Speed | None = None
    test_brakes_at: Text | None = None


class Tunnel(Record):
    """A tunnel, and what its operator says of propane."""

    what: Text
    propane: Text | None = None


class Leg(Record):
    """One stretch between two stops."""

    distance: Length | None = None
    driving: Duration | None = None
    to: Stop
    clearances: list[Clearance] = []
    limits: list[PostedLimit] = []
    grades: list[Grade] = []
    tunnels: list[Tunnel] = []


class Night(Record):
    """The night after the day's last leg."""

    hookups: Literal["none", "electric", "full"] | None = None
    low: Temperature | None = None
    high: Temperature | None = None
    gate: Text | None = None
    phone: Text | None = None


class TravelDay(Record):
    """One travel day."""

    leave: Moment
    origin: Stop | None = Field(default=None, alias="from")
    legs: list[Leg] = Field(min_length=1)
    night: Night | None = None


class Trip(Record):
    """The whole plan."""

    name: Text
    invented: Truth = False
    crew: list[Person] = []
    cargo: list[Aboard] = []
    levels_at_start: dict[str, dict[str, Level]] = {}
    use: Use = Use.blank()
    lasts: Lasts = Lasts.blank()
    rules: Rules = Rules.blank()
    days: list[TravelDay] = Field(min_length=1)


class Contact(Record):
    """Someone to call."""

    who: Text
    phone: Text | None = None
    note: Text | None = None


class Private(Record):
    """What is printed only in a set that asks for it."""

    contacts: list[Contact] = []
    medical: list[Text] = []
    policies: list[Text] = []
