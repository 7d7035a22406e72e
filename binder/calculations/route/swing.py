"""How far a rear corner swings out of line when the rig pulls away with the wheel hard over."""

from math import cos, hypot, pi, sin, tan
from typing import NamedTuple

from binder.quantities import Angle, Length, Quantity, checks_dimensions, registry


class TurningBody(NamedTuple):
    """What decides the swing of one vehicle.

    ``wheelbase`` from the steer axle to the axle it turns about; ``rear_overhang`` from that axle
    to the rear; ``width`` over the body without mirrors; ``wheel_cut`` of the steered wheels.
    """

    wheelbase: Length
    rear_overhang: Length
    width: Length
    wheel_cut: Angle


@checks_dimensions
def turning_radius_of_rear_axle(wheelbase: Length, wheel_cut: Angle) -> Length:
    """Radius of the middle of the rear axle: R = L / tan(cut).

    Args:
        wheelbase: L [length].
        wheel_cut: of a wheel in the middle of the steer axle [angle].
    Returns: The radius [length]. A cut stated for the inner wheel makes it too small, which makes the swing
        too large: the safe side.
    Raises: ValueError: the cut is not between 0 and 90 degrees.
    Sources: geometry.

    >>> f"{turning_radius_of_rear_axle(q(300, 'inch'), q(pi / 4, '')):.0f}"
    '300 inch'
    """
    cut = float(wheel_cut.to("").magnitude)
    if not 0 < cut < pi / 2:
        raise ValueError(f"a wheel cut lies between 0 and 90 degrees, not at {cut * 180 / pi:.0f}")
    radius: Quantity = wheelbase / tan(cut)
    return radius


@checks_dimensions
def tail_swing(body: TurningBody) -> Length:
    """Swing of the outer rear corner past the line the rig's side stood on.

    From a standing start with the wheels already turned, the rig rotates about one point: on the
    line of the rear axle, R = L / tan(cut) from its middle. The outer side stands at r = R + W/2
    from that point, and the outer rear corner, an overhang O behind the axle, at sqrt(r^2 + O^2).
    The corner comes abreast of the point while the rig turns, so that it swings out by

        swing = sqrt(r^2 + O^2) - r.

    Args:
        body: wheelbase L, rear overhang O, width W and wheel cut.
    Returns: The swing [length].
    Raises: ValueError: the cut is not between 0 and 90 degrees.
    Sources: geometry.

    >>> f"{tail_swing(TurningBody(q(300, 'inch'), q(300, 'inch'), q(200, 'inch'), q(pi / 4, ''))):.0f}"
    '100 inch'
    """
    radius = turning_radius_of_rear_axle(body.wheelbase, body.wheel_cut)
    side = float((radius + body.width / 2).to("inch").magnitude)
    overhang = float(body.rear_overhang.to("inch").magnitude)
    return registry.Quantity(hypot(side, overhang) - side, "inch")


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
    Returns: The swing [length].
    Raises: ValueError: the cut is not between 0 and 90 degrees, or the axles are not behind the coupling.
    Sources: geometry.

    >>> towing = TowingBody(q(172, "inch"), q(40 * pi / 180, ""), q(-2, "inch"))
    >>> f"{trailer_tail_swing(towing, TrailerBody(q(300, 'inch'), q(90, 'inch'), q(96, 'inch'))):.0f}"
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
