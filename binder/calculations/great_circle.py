"""Shortest way over the earth between two places: no road is shorter."""

from math import asin, cos, degrees, radians, sin, sqrt

from binder.quantities import Length, Quantity, registry

_MINUTES_A_DEGREE = 60.0
_MINUTE_OF_ARC = registry.Quantity(1852.0, "meter")
"""By the definition of the nautical mile; the true minute varies from 1,843 m to 1,862 m with latitude."""


def great_circle(start: tuple[float, float], end: tuple[float, float]) -> Length:
    """Great-circle distance between two places on a sphere whose minute of arc is a nautical mile.

    Args:
        start: latitude and longitude in degrees, north and east positive.
        end: the same of the other place.

    Returns:
        The distance [length], within about half a percent of that over the true earth.

    Sources:
        textbook (haversine formula).

    Example:
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
