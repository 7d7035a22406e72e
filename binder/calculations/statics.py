"""Statics of a vehicle on two supports: what a weight at a place puts on each."""

from typing import NamedTuple

from binder.quantities import Length, Mass, Quantity, Torque, checks_dimensions, number_in, registry

_GRAVITY = registry.Quantity(1.0, "standard_gravity")


class SupportShares(NamedTuple):
    """Shares of a weight on the two supports; they sum to one, and one is negative behind an overhang."""

    first: float
    second: float


class DistributionEffect(NamedTuple):
    """What the couple of weight-distribution bars adds to each axle; the three sum to zero."""

    front: Mass
    rear: Mass
    trailer: Mass


@checks_dimensions
def support_shares(at: Length, first: Length, second: Length) -> SupportShares:
    """Shares of a weight on two supports.

    Args:
        at: place of the weight [length].
        first: place of the first support [length].
        second: place of the second support, another one [length].

    Returns:
        The shares; behind the second support the first is lifted and its share negative.

    Raises:
        ValueError: both supports stand at one place.

    Sources:
        statics: rear + w x / L, front + w (L - x) / L; worked example W15.

    Example:
        >>> inch = registry.Quantity
        >>> shares = support_shares(inch(179.8, "inch"), inch(0, "inch"), inch(208, "inch"))
        >>> f"{5000 * shares.first:.1f} {5000 * shares.second:.1f}"
        '677.9 4322.1'
    """
    origin = number_in(first, "meter")
    span = number_in(second, "meter") - origin
    if span == 0:
        raise ValueError("two supports at one place carry no moment")
    second_share = (number_in(at, "meter") - origin) / span
    return SupportShares(1 - second_share, second_share)


@checks_dimensions
def distribution_effect(
    couple: Torque, ball_to_trailer_axles: Length, ball_behind_rear_axle: Length, wheelbase: Length
) -> DistributionEffect:
    """What a weight-distributing coupling moves between the axles.

    Args:
        couple: that the bars apply at the coupler [torque].
        ball_to_trailer_axles: from the ball to the center of the trailer's axles, a [length].
        ball_behind_rear_axle: from the towing vehicle's rear axle to the ball, r [length].
        wheelbase: of the towing vehicle, L [length].

    Returns:
        What is added to front, rear and trailer axles [mass].

    Sources:
        statics: front + M (a + r) / (a L), rear - M (a + L + r) / (a L), trailer + M / a.

    Example:
        >>> inch = registry.Quantity
        >>> couple = registry.Quantity(26250, "inch * pound_force")
        >>> effect = distribution_effect(couple, inch(222, "inch"), inch(66, "inch"), inch(145, "inch"))
        >>> f"{effect.front:.1f} {effect.rear:.1f} {effect.trailer:.1f}"
        '234.9 pound -353.1 pound 118.2 pound'
    """
    weight_length = (couple / _GRAVITY).to("pound * inch")
    a, r, span = ball_to_trailer_axles, ball_behind_rear_axle, wheelbase
    front: Quantity = (weight_length * (a + r) / (a * span)).to("pound")
    rear: Quantity = (-weight_length * (a + span + r) / (a * span)).to("pound")
    trailer: Quantity = (weight_length / a).to("pound")
    return DistributionEffect(front, rear, trailer)


@checks_dimensions
def couple_arm(ball_to_trailer_axles: Length, ball_behind_rear_axle: Length, wheelbase: Length) -> Length:
    """Length that turns what the bars put on the front axle into the couple they apply.

    Args:
        ball_to_trailer_axles: from the ball to the center of the trailer's axles, a [length].
        ball_behind_rear_axle: from the towing vehicle's rear axle to the ball, r [length].
        wheelbase: of the towing vehicle, L [length].

    Returns:
        The arm a L / (a + r): the couple is the front axle's gain times it [length].

    Sources:
        statics, as ``distribution_effect`` solved for the couple.

    Example:
        >>> inch = registry.Quantity
        >>> f"{couple_arm(inch(222, 'inch'), inch(66, 'inch'), inch(145, 'inch')):.2f}"
        '111.77 inch'
    """
    a, r = ball_to_trailer_axles, ball_behind_rear_axle
    arm: Quantity = (a * wheelbase / (a + r)).to(a.units)
    return arm
