"""The trip plan and the private file."""

import re
from dataclasses import dataclass
from typing import Annotated, Literal, TypeAlias
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from pydantic import Field, PlainValidator

from binder.models.base import (
    Form,
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
    as_text,
    entry,
    needed,
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
    written_pattern,
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

    who: Text = needed("by role; names belong in private.yaml", "", "driver")
    weight: Mass | None = entry("weight", "", "190 lb")
    at: Place | None = entry("the seat, from the first axle to the rear", "", "4 in")
    left: Place | None = entry("the seat, from the center line to the left", "", "30 in")
    vehicle: Text = needed("the vehicle they ride in", "", "coach", alias="in")


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


_RATE = as_text("a rate", "0.9 gal/day", written_pattern(VOLUME_RATE)).schema
PropaneUse: TypeAlias = Annotated[
    PropaneUseValue,
    PlainValidator(_propane_use),
    Form(
        "an amount a day, or one for each night's low",
        "0.9 gal/day",
        {"anyOf": [_RATE, {"type": "object", "additionalProperties": _RATE}]},
    ),
]


def _share_of_water(value: object) -> ShareOfValue:
    match = re.fullmatch(r"([0-9]+(?:\.[0-9]+)?) ?% of water", str(value))
    share = float(match[1]) / 100 if match else -1.0
    if not 0 <= share <= 1:
        raise written_problem(f"'{value}' is not a share of the water; write it like '20 % of water'")
    return ShareOfValue(share, "water")


_OF_WATER = as_text("a share of the water", "20 % of water", r"[0-9]+(?:\.[0-9]+)? ?% of water")
_ZONE = as_text("a time zone", "America/Los_Angeles", ".+")


class Use(SpacedRecord):
    """What the crew and the rig use, from their own log.

    ``black`` is the share of the water that goes down the toilet, the rest goes to the gray tank.
    ``battery`` is what the house battery gives in a day without hookups, what the sun brings taken off.
    """

    water: VolumeRate | None = entry("fresh water a day", "your log", "14 gal/day")
    black: Annotated[ShareOfValue, PlainValidator(_share_of_water), _OF_WATER] | None = entry(
        "share of the water that goes down the toilet", "", "20 % of water"
    )
    propane: PropaneUse | None = entry("propane a day, or by the night's low", "your log", "0.9 gal/day")
    battery: Current | None = entry(
        "what the house battery gives a day, less what the sun brings", "its monitor", "60 Ah/day"
    )
    diesel: FuelUse | None = entry("diesel", "your log", "8.0 mpg")
    gasoline: FuelUse | None = entry("gasoline", "your log", "9 mpg")
    exhaust_fluid: ShareOf | None = entry(
        "exhaust fluid, as a share of the fuel", "your log", "2.5 % of diesel"
    )
    generator: RatioOfTimes | None = entry("hours the generator runs a day", "your log", "2 h/day")


class Lasts(Record):
    """What no tank holds: for how many days it is aboard."""

    food: StoreTime | None = entry("for how long food is aboard", "", "6 days")
    medicine: StoreTime | None = entry("for how long medicine is aboard", "", "21 days")


class WindLimits(Record):
    """The wind the owner parks at; without it the usual figures are printed, marked as practice."""

    sustained: Speed | None = entry("you park over this wind", "", "30 mph")
    gusts: Speed | None = entry("you park over these gusts", "", "40 mph")


class Rules(Record):
    """The owner's own limits."""

    longest_day: Duration | None = entry("your longest day of driving", "", "5 h")
    arrive_before: Literal["sunset", "dusk"] | None = entry("by when you stand", "", "sunset")
    reserve: dict[str, Level] = entry("what you never go under, by tank", "", "{diesel: 1/4}", default={})
    clearance: Length | None = entry("what you keep under every posted height", "", "6 in")
    wind: WindLimits = entry("the wind you park at", default=WindLimits.blank())


class Stop(Record):
    """A place on the route. ``levels`` are those on leaving it, as the plan states them."""

    asked = frozenset({"time_zone", "stay"})
    place: Text = needed("its name", "", "Bend")
    latitude: Latitude | None = entry("north is positive", "a map", "43.1245")
    longitude: Longitude | None = entry("west is negative", "a map", "-116.5023")
    elevation: Elevation | None = entry("height above the sea", "a map", "2700 ft")
    elevation_from: Text | None = entry("where you have it from", "", "survey map")
    time_zone: Annotated[str, PlainValidator(_time_zone), _ZONE] | None = entry(
        "its zone, by area and city", "", "America/Los_Angeles"
    )
    kind: Literal["fuel", "rest", "site", "start"] | None = entry("what you do there", "", "fuel")
    stay: Duration | None = entry("how long you stay", "", "45 min")
    fill: list[Text] = entry("tanks you fill there", "", "[fuel, fresh]", default=[])
    dump: Truth = entry("whether you empty the waste tanks", "", "true", default=False)
    levels: dict[str, dict[str, Level]] = entry(
        "levels on leaving, where they are not as they come", "", "{coach: {fresh: full}}", default={}
    )
    arriving: dict[str, dict[str, Level]] = entry(
        "levels on reaching it", "", "{coach: {gray: 4 gal}}", default={}
    )


class Clearance(Record):
    """A posted clearance; empty where the figure is not known."""

    what: Text = needed("what is low", "", "railroad bridge")
    posted: Length | None = entry("the height on the sign", "the sign or the road authority", "14 ft 2 in")
    after: Length | None = entry("from the start of its leg", "a map", "30 mi")


class PostedLimit(Record):
    """What is posted at one place beside its height: weight, width, length, or ground clearance needed."""

    asked = frozenset({"weight", "width", "length", "ground_clearance"})
    what: Text = needed("where it is posted", "", "covered bridge")
    weight: Mass | None = entry("posted weight", "the sign", "20000 lb")
    width: Length | None = entry("posted width", "the sign", "96 in")
    length: Length | None = entry("posted length", "the sign", "45 ft")
    ground_clearance: Length | None = entry("ground clearance it needs", "the sign", "8 in")
    after: Length | None = entry("from the start of its leg", "a map", "30 mi")


class Grade(Record):
    """A long grade as posted; ``goes`` is the way this trip takes it.

    ``begins_after`` is the distance from the start of its leg, ``top`` the elevation of its higher end.
    """

    what: Text = needed("its name", "", "the summit")
    goes: Literal["down", "up"] = entry("the way this trip takes it", "", "down", default="down")
    begins_after: Length | None = entry("from the start of its leg", "a map", "30 mi")
    top: Elevation | None = entry("elevation of its higher end", "a map", "8700 ft")
    length: Length | None = entry("its length", "the sign", "6 mi")
    slope: Share | None = entry("its slope", "the sign", "6 %")
    posted_truck_speed: Speed | None = entry("truck speed", "the sign", "45 mph")
    test_brakes_at: Text | None = entry("where you test the brakes before it", "", "pull-out at the top")


class Tunnel(Record):
    """A tunnel, and what its operator says of propane."""

    what: Text = needed("its name", "", "the tunnel")
    propane: Text | None = entry("what its operator says of propane", "ask the operator", "valve shut")
    largest_cylinder: Mass | None = entry(
        "the most propane one cylinder may hold in it", "ask the operator", "10 lb"
    )
    after: Length | None = entry("from the start of its leg", "a map", "30 mi")


class Leg(Record):
    """One stretch between two stops."""

    distance: Length | None = entry("length of the leg", "a map", "96 mi")
    driving: Duration | None = entry("driving time without stops", "a map", "2 h")
    road: Text | None = entry("its road, as the signs name it", "a map", "I-84 east")
    to: Stop = needed("where it ends")
    clearances: list[Clearance] = entry("every posted height you know of", default=[])
    limits: list[PostedLimit] = entry("what else is posted", default=[])
    grades: list[Grade] = entry("long grades", default=[])
    tunnels: list[Tunnel] = entry("tunnels", default=[])


class Night(Record):
    """The night after the day's last leg."""

    hookups: Literal["none", "electric", "full"] | None = entry("what the site gives", "", "electric")
    low: Temperature | None = entry("lowest temperature of the night", "the forecast", "34 degF")
    high: Temperature | None = entry("highest of the day", "the forecast", "71 degF")
    gate: Text | None = entry("how you get in", "", "open all night")
    phone: Text | None = entry("whom you call there", "", "555 0100")


class TravelDay(Record):
    """One travel day."""

    leave: Moment = needed("by the clock of the place you leave", "", "2026-06-01 09:00")
    origin: Stop | None = entry("where you start; on the first day alone", alias="from")
    legs: Annotated[list[Leg], Field(min_length=1)] = needed("each stretch between two stops")
    night: Night | None = entry("the night after it")


class Trip(Record):
    """The whole plan."""

    name: Text = needed("what you call the trip", "", "High country")
    invented: Truth = entry("true for a demo alone", "", "false", default=False)
    crew: list[Person] = entry("who rides where", default=[])
    cargo: list[Aboard] = entry("what was not aboard on the scale", default=[])
    levels_at_start: dict[str, dict[str, Level]] = entry(
        "how full each tank is", "", "{coach: {fresh: full}}", default={}
    )
    use: Use = entry("what is used, from your own log", default=Use.blank())
    lasts: Lasts = entry("what no tank holds", default=Lasts.blank())
    rules: Rules = entry("your own limits", default=Rules.blank())
    days: Annotated[list[TravelDay], Field(min_length=1)] = needed("each day you drive")


class Contact(Record):
    """Someone to call."""

    who: Text = needed("who it is", "", "Tire service")
    phone: Text | None = entry("number", "", "555 0100")
    note: Text | None = entry("what else", "", "account 12")


class PrivateNight(Record):
    """What of a night of the plan is nobody else's business."""

    place: Text = needed("the place of the night, as the plan names it", "", "Stanley")
    gate: Text | None = entry("code of its gate", "", "ask for it")
    phone: Text | None = entry("number to call there", "", "555 0100")
    booking: Text | None = entry("your booking", "", "A-1")


class Private(Record):
    """What is printed only in a set that asks for it."""

    contacts: list[Contact] = entry("whom to call", default=[])
    medical: list[Text] = entry("what a medic must know, a line each", default=[])
    policies: list[Text] = entry("policy numbers, a line each", default=[])
    nights: list[PrivateNight] = entry("what of a night is nobody else's business", default=[])
