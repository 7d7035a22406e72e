"""How far the rear corner swings out of line when a rig pulls away with the wheel hard over."""

from math import hypot, pi, tan
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

    Returns:
        The radius [length]. A cut stated for the inner wheel makes it too small, which makes the
        swing too large: the safe side.

    Raises:
        ValueError: the cut is not between 0 and 90 degrees.

    Sources:
        geometry.

    Example:
        >>> cut = registry.Quantity(pi / 4, "")
        >>> f"{turning_radius_of_rear_axle(registry.Quantity(300, 'inch'), cut):.0f}"
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

    Returns:
        The swing [length].

    Raises:
        ValueError: the cut is not between 0 and 90 degrees.

    Sources:
        geometry.

    Example:
        >>> body = TurningBody(
        ...     registry.Quantity(300, "inch"),
        ...     registry.Quantity(300, "inch"),
        ...     registry.Quantity(200, "inch"),
        ...     registry.Quantity(pi / 4, ""),
        ... )
        >>> f"{tail_swing(body):.0f}"
        '100 inch'
    """
    radius = turning_radius_of_rear_axle(body.wheelbase, body.wheel_cut)
    side = float((radius + body.width / 2).to("inch").magnitude)
    overhang = float(body.rear_overhang.to("inch").magnitude)
    return registry.Quantity(hypot(side, overhang) - side, "inch")
