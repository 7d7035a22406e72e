"""How far the rear corner of a trailer swings out when the vehicle ahead turns away hard over."""

from math import cos, pi, sin
from typing import NamedTuple

from binder.calculations.tail_swing import turning_radius_of_rear_axle
from binder.quantities import Angle, Length, Quantity, checks_dimensions, registry

_STEPS = 4000  # Of half a turn: the swing changes by less than 0.1 mm when they are doubled.


class TowingBody(NamedTuple):
    """What decides how the coupling moves: steer axle to turning axle, its cut, coupling behind that axle."""

    wheelbase: Length
    wheel_cut: Angle
    coupling_behind_axle: Length


class TrailerBody(NamedTuple):
    """What decides how a trailer follows: coupling to the middle of its axles, overhang behind it, width."""

    coupling_to_axles: Length
    rear_overhang: Length
    width: Length


@checks_dimensions
def trailer_tail_swing(towing: TowingBody, trailer: TrailerBody) -> Length:
    """Swing of a trailer's outer rear corner past the line its side stood on.

    From a standing start, straight, with the wheels hard over: the towing vehicle turns about one point
    abreast of its rear axle, at R = L / tan(cut). Its coupling, h behind that axle, moves on a circle;
    the trailer's wheels, d behind the coupling, roll only along the trailer. With headings t of the
    towing vehicle and p of the trailer,

        dp/dt = (R sin(t - p) - h cos(t - p)) / d.

    The greatest way out of the corner is taken, until both stand at a right angle or half a turn is done.

    Args:
        towing: wheelbase L, wheel cut, coupling behind the axle h (below zero ahead of it).
        trailer: coupling to axles d, overhang O behind the middle of the axles, width W.

    Returns:
        The swing [length].

    Raises:
        ValueError: the cut is not between 0 and 90 degrees, or the axles are not behind the coupling.

    Sources:
        geometry.

    Example:
        >>> def inch(value: float) -> Quantity:
        ...     return registry.Quantity(value, "inch")
        >>> towing = TowingBody(inch(172), registry.Quantity(40 * pi / 180, ""), inch(-2))
        >>> f"{trailer_tail_swing(towing, TrailerBody(inch(300), inch(90), inch(96))):.0f}"
        '6 inch'
    """
    radius = _inches(turning_radius_of_rear_axle(towing.wheelbase, towing.wheel_cut))
    behind, length = _inches(towing.coupling_behind_axle), _inches(trailer.coupling_to_axles)
    overhang, half = _inches(trailer.rear_overhang), _inches(trailer.width) / 2
    if length <= 0:
        raise ValueError("the axles of a trailer are behind its coupling")
    step, own, swing = pi / _STEPS, 0.0, 0.0
    for count in range(_STEPS + 1):
        turned = count * step
        if abs(turned - own) >= pi / 2:
            break
        aside = radius * (1 - cos(turned)) - behind * sin(turned)
        corner = aside - (length + overhang) * sin(own) - half * cos(own)
        swing = max(swing, -half - corner)
        # The middle of the step decides its slope: second order, as fine as the print needs.
        middle = own + step / 2 * _turn(turned, own, (radius, behind, length))
        own += step * _turn(turned + step / 2, middle, (radius, behind, length))
    return registry.Quantity(swing, "inch")


def _turn(turned: float, own: float, sizes: tuple[float, float, float]) -> float:
    radius, behind, length = sizes
    return (radius * sin(turned - own) - behind * cos(turned - own)) / length


def _inches(length: Quantity) -> float:
    return float(length.to("inch").magnitude)
