"""What a weight at a place puts on each of two supports, and on the heavier wheel end of an axle."""

from collections.abc import Iterable
from typing import Literal, NamedTuple, TypeAlias

from binder.quantities import Length, Mass, Quantity, Share, Torque, checks_dimensions, number_in, registry

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
    Returns: The shares; behind the second support the first is lifted and its share negative.
    Raises: ValueError: both supports stand at one place.
    Sources: statics: rear + w x / L, front + w (L - x) / L; worked example W15.

    >>> shares = support_shares(q(179.8, "inch"), q(0, "inch"), q(208, "inch"))
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
    Returns: What is added to front, rear and trailer axles [mass].
    Sources: statics: front + M (a + r) / (a L), rear - M (a + L + r) / (a L), trailer + M / a.

    >>> couple = q(26250, "inch * pound_force")
    >>> effect = distribution_effect(couple, q(222, "inch"), q(66, "inch"), q(145, "inch"))
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
    Returns: The arm a L / (a + r): the couple is the front axle's gain times it [length].
    Sources: statics, as ``distribution_effect`` solved for the couple.

    >>> f"{couple_arm(q(222, 'inch'), q(66, 'inch'), q(145, 'inch')):.2f}"
    '111.77 inch'
    """
    a, r = ball_to_trailer_axles, ball_behind_rear_axle
    arm: Quantity = (a * wheelbase / (a + r)).to(a.units)
    return arm


Side: TypeAlias = Literal["left", "right", "both"]
EndRule: TypeAlias = Literal["ratio kept", "lateral statics"]

# Plain pounds inside, and the unit looked up once: all of this is worked out for every axle in every
# state of a trip.
_POUND = registry.Unit("pound")


class WheelEnds(NamedTuple):
    """Load on the two wheel ends of an axle."""

    left: Mass
    right: Mass

    @property
    def axle(self) -> Mass:
        """Load of the whole axle [mass]."""
        return total_load(self.left, [self.right])

    @property
    def heavier(self) -> Side:
        """The side that carries more."""
        left, right = number_in(self.left, "pound"), number_in(self.right, "pound")
        return "both" if left == right else "left" if left > right else "right"


class LoadChange(NamedTuple):
    """What a change puts on this axle: less than zero where it takes away.

    ``place``: from the center line, positive to the left; None where it is not known.
    """

    load: Mass
    place: Length | None


class HeavierEnd(NamedTuple):
    """The heavier wheel end: its load, its side and the rule that gave the larger load."""

    load: Mass
    side: Side
    rule: EndRule


@checks_dimensions
def ends_by_ratio(weighed: WheelEnds, axle: Mass) -> WheelEnds:
    """Wheel ends of an axle at another load, the weighed left and right shares kept.

    Args:
        weighed: wheel ends on the scale ticket.
        axle: load of the axle in the state wanted [mass].
    Returns: The wheel ends then.
    Sources: practice; alone it is a row too low when off-center tanks fill (measured here).

    >>> f"{ends_by_ratio(WheelEnds(q(8420, 'pound'), q(8060, 'pound')), q(17896, 'pound')).left:.0f}"
    '9143 pound'
    """
    left, right, total = (number_in(load, "pound") for load in (*weighed, axle))
    share = left / (left + right)
    return WheelEnds(registry.Quantity(total * share, _POUND), registry.Quantity(total * (1 - share), _POUND))


def left_share(place: Length, track: Length) -> float:
    """Share of a load on the left wheel end.

    Args:
        place: from the center line, positive to the left [length].
        track: between the wheels' centers [length].
    Returns: 1/2 + place / track, over one where it lies outside the left wheel.
    Sources: statics: w (1/2 + y / track) to the left.

    >>> left_share(q(19, "inch"), q(76, "inch"))
    0.75
    """
    return 0.5 + number_in(place, "meter") / number_in(track, "meter")


@checks_dimensions
def ends_by_lateral_statics(weighed: WheelEnds, changes: Iterable[LoadChange], track: Length) -> WheelEnds:
    """Wheel ends after changes, each split by how far from the center line it lies.

    Why: where the place is not known, what is added goes to the heavier end and what is removed comes
    off the lighter one. Neither makes the heavier end too light.

    Args:
        weighed: wheel ends on the scale ticket.
        changes: what each tank, bay and slide puts on this axle.
        track: between the wheels' centers, of duals between the pairs' [length].
    Returns: The wheel ends then.
    Sources: statics: w (1/2 + y / track) to the left.

    >>> ends = WheelEnds(q(1000, "pound"), q(1000, "pound"))
    >>> tank = LoadChange(q(100, "pound"), q(19, "inch"))
    >>> f"{ends_by_lateral_statics(ends, [tank], q(76, 'inch')).left:.0f}"
    '1075 pound'
    """
    left, right = number_in(weighed.left, "pound"), number_in(weighed.right, "pound")
    added = removed = 0.0
    for change in changes:
        load = number_in(change.load, "pound")
        if change.place is None:
            added, removed = added + max(load, 0.0), removed + min(load, 0.0)
            continue
        share = left_share(change.place, track)
        left, right = left + load * share, right + load * (1 - share)
    if left >= right:
        left, right = left + added, right + removed
    else:
        left, right = left + removed, right + added
    return WheelEnds(registry.Quantity(left, _POUND), registry.Quantity(right, _POUND))


def total_load(start: Mass, loads: Iterable[Mass]) -> Mass:
    """Sum of loads.

    Args:
        start: what they are added to [mass].
        loads: to add; less than zero where they take away [mass].
    Returns: The sum [mass].
    Sources: arithmetic.

    >>> f"{total_load(q(1000, 'pound'), [q(-20, 'pound')]):.0f}"
    '980 pound'
    """
    pounds = number_in(start, "pound") + sum(number_in(load, "pound") for load in loads)
    return registry.Quantity(pounds, _POUND)


@checks_dimensions
def heavier_end(weighed: WheelEnds, changes: Iterable[LoadChange], track: Length) -> HeavierEnd:
    """Heavier wheel end of a weighed axle after changes: the worse of both rules.

    Args:
        weighed: wheel ends on the scale ticket.
        changes: what each tank, bay and slide puts on this axle.
        track: between the wheels' centers [length].
    Returns: The larger load [mass], its side, and the rule that gave it.
    Sources: statics; practice.

    >>> ends = WheelEnds(q(1000, "pound"), q(900, "pound"))
    >>> heavier_end(ends, [LoadChange(q(190, "pound"), None)], q(76, "inch")).rule
    'lateral statics'
    """
    changes = tuple(changes)
    axle = total_load(weighed.axle, (change.load for change in changes))
    by_ratio = ends_by_ratio(weighed, axle)
    by_statics = ends_by_lateral_statics(weighed, changes, track)
    candidates: list[HeavierEnd] = [
        HeavierEnd(max(by_ratio, key=_pounds), by_ratio.heavier, "ratio kept"),
        HeavierEnd(max(by_statics, key=_pounds), by_statics.heavier, "lateral statics"),
    ]
    return max(candidates, key=lambda candidate: _pounds(candidate.load))


def _pounds(load: Quantity) -> float:
    return number_in(load, "pound")


@checks_dimensions
def heavier_end_assumed(axle: Mass, allowance: Share) -> Mass:
    """Heavier wheel end where only the axle was weighed.

    Args:
        axle: weighed [mass].
        allowance: over half the axle; 10 % on a front axle, 15 % on any other [dimensionless].
    Returns: Half the axle and the allowance [mass].
    Sources: practice, printed as assumed.

    >>> f"{heavier_end_assumed(q(4000, 'pound'), q(15, 'percent')):.0f}"
    '2300 pound'
    """
    return registry.Quantity(number_in(axle, "pound") / 2 * (1 + number_in(allowance, "")), _POUND)
