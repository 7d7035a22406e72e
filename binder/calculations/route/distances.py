"""Distances on the road: under a bridge, to the vehicle ahead, to the warning devices, over the earth."""

from math import asin, atan2, ceil, cos, degrees, radians, sin, sqrt
from typing import Literal, NamedTuple, TypeAlias

from binder.quantities import Angle, Length, Quantity, Speed, Time, checks_dimensions, registry

# What is written in feet and compared in meters never comes back to the last binary digit.
_NOTHING = 1e-9


class ClearanceRoom(NamedTuple):
    """Room under a posted figure, negative when there is too little; ``passes``: the margin is kept."""

    room: Length
    passes: bool


@checks_dimensions
def height_under_way(at_ride_height: Length, raised: Length | None) -> Length:
    """Height that counts: the higher of ride height and raised.

    Args:
        at_ride_height: overall height at ride height [length].
        raised: overall height with the suspension raised, None where there is none [length].
    Returns: The higher of the two [length].
    Sources: practice (a bag may stand raised at a low bridge).

    >>> f"{height_under_way(q(152, 'inch'), q(155, 'inch')):.0f}"
    '155 inch'
    """
    return at_ride_height if raised is None else max(at_ride_height, raised)


@checks_dimensions
def room_under(posted: Length, height: Length, margin: Length) -> ClearanceRoom:
    """Room of the rig under a posted clearance.

    Args:
        posted: the posted figure [length].
        height: overall height of the rig [length].
        margin: the owner's margin [length].
    Returns: The room [length], and whether it is enough.
    Sources: arithmetic; practice (the margin).

    >>> found = room_under(q(163, "inch"), q(152, "inch"), q(6, "inch"))
    >>> f"{found.room:.0f} {found.passes}"
    '11 inch True'
    """
    room: Quantity = (posted - height).to("inch")
    return ClearanceRoom(room, bool((room - margin).to("meter").magnitude >= -_NOTHING))


@checks_dimensions
def overhang_angle(clearance: Length, overhang: Length) -> Angle:
    """Steepest ramp whose foot an overhang passes without scraping: tan(angle) = clearance / overhang.

    The line runs from where the nearest tire stands to the end of the overhang, as low as its lowest thing
    anywhere. One that touches the tire ahead of where it stands is a little steeper: the safe side.

    Args:
        clearance: under the lowest thing of the overhang, on level ground [length].
        overhang: from the middle of the axle to the bumper [length].
    Returns: The angle to level ground [angle]. True for a ramp longer than the overhang, at ride height.
    Raises: ValueError: there is no overhang.
    Sources: geometry.

    >>> f"{degrees(float(overhang_angle(q(88, 'inch'), q(88, 'inch')).m)):.0f}"
    '45'
    """
    if overhang.magnitude <= 0:
        raise ValueError("an overhang is longer than nothing")
    sides = (float(side.to("inch").magnitude) for side in (clearance, overhang))
    return registry.Quantity(atan2(*sides), "")


LENGTH_OF_A_SECOND = registry.Quantity(10.0, "foot")  # W38, section 2.7.1.
FASTER_SPEED = registry.Quantity(40.0, "mile_per_hour")  # W38, section 2.7.1.
ADDED_WHEN_FASTER = registry.Quantity(1.0, "second")  # W38, section 2.7.1.


@checks_dimensions
def following_gap(combination_length: Length, speed: Speed) -> Time:
    """Least gap to the vehicle ahead: a second for each 10 ft, and one more at 40 mph and over.

    Args:
        combination_length: of all vehicles coupled [length].
        speed: of the combination [speed].
    Returns: The gap [time], not rounded; good road and clear weather only.
    Sources: W38 (commercial driver's manual, section 2.7.1).

    >>> f"{following_gap(q(40, 'foot'), q(55, 'mph')):.0f}"
    '5 second'
    """
    seconds: Quantity = (combination_length / LENGTH_OF_A_SECOND).to("") * registry.Quantity(1.0, "second")
    return seconds + ADDED_WHEN_FASTER if speed >= FASTER_SPEED else seconds


Road: TypeAlias = Literal["two-way", "divided"]

PACE = registry.Quantity(2.5, "foot")  # practice: an ordinary step.


class WarningDevice(NamedTuple):
    """One device: how far off, and whether ahead of the first vehicle or behind the last one."""

    distance: Length
    side: Literal["ahead", "behind"]


# 49 CFR 392.22(b)(1) for a two-way road, (b)(2)(v) for a divided or one-way road, in feet.
_PLACES: dict[Road, tuple[tuple[float, Literal["ahead", "behind"]], ...]] = {
    "two-way": ((10.0, "behind"), (100.0, "behind"), (100.0, "ahead")),
    "divided": ((10.0, "behind"), (100.0, "behind"), (200.0, "behind")),
}


def warning_devices(road: Road) -> tuple[WarningDevice, ...]:
    """Places of the three warning devices.

    Args:
        road: with traffic both ways, or divided or one-way [name].
    Returns: The devices; those behind are counted from the rear of the last vehicle [length].
    Sources: 49 CFR 392.22 ((b)(1), (b)(2)(v)).

    >>> [f"{device.distance:.0f} {device.side}" for device in warning_devices("divided")]
    ['10 foot behind', '100 foot behind', '200 foot behind']
    """
    return tuple(WarningDevice(registry.Quantity(feet, "foot"), side) for feet, side in _PLACES[road])


@checks_dimensions
def paces(distance: Length, pace: Length) -> int:
    """Steps that cover at least a distance.

    Args:
        distance: to walk [length].
        pace: one step, more than zero [length].
    Returns: The whole number of steps.
    Raises: ValueError: the pace is not more than zero.
    Sources: arithmetic.

    >>> paces(q(100, "foot"), PACE)
    40
    """
    if pace.magnitude <= 0:
        raise ValueError("a pace must be longer than nothing")
    return ceil(float((distance / pace).to("").magnitude) - 1e-9)


_MINUTES_A_DEGREE = 60.0
_MINUTE_OF_ARC = registry.Quantity(1852.0, "meter")
"""By the definition of the nautical mile; the true minute varies from 1,843 m to 1,862 m with latitude."""


def great_circle(start: tuple[float, float], end: tuple[float, float]) -> Length:
    """Great-circle distance between two places on a sphere whose minute of arc is a nautical mile.

    Args:
        start: latitude and longitude in degrees, north and east positive.
        end: the same of the other place.
    Returns: The distance [length], within about half a percent of that over the true earth.
    Sources: textbook (haversine formula).

    >>> f"{great_circle((45.0, -118.0), (46.0, -118.0)).to('mile'):.1f}"
    '69.0 mile'
    """
    (latitude, longitude), (to_latitude, to_longitude) = (
        (radians(place[0]), radians(place[1])) for place in (start, end)
    )
    along = sin((to_latitude - latitude) / 2) ** 2
    across = cos(latitude) * cos(to_latitude) * sin((to_longitude - longitude) / 2) ** 2
    minutes = degrees(2 * asin(min(1.0, sqrt(along + across)))) * _MINUTES_A_DEGREE
    distance: Quantity = _MINUTE_OF_ARC * minutes
    return distance
