"""What the bars of a weight-distributing coupling move, onto which axle, between which bounds."""

from collections.abc import Mapping
from typing import NamedTuple

from binder.assessment.weights.resting import Bounds, Supports, lever_arms, supports_of
from binder.calculations.weights.axle_loads import DistributionEffect, distribution_effect
from binder.models.rig import Coupling, Distribution, Rig
from binder.quantities import Quantity, number_in, registry

_ZERO = registry.Quantity(0.0, "pound")
_ONE_COUPLE = registry.Quantity(1.0, "foot * pound_force")


class Moved(NamedTuple):
    """What weight-distribution bars add to each axle of a vehicle, and to all of it."""

    axles: dict[str, Bounds]
    total: Bounds


NO_BARS = Moved({}, Bounds(0.0, 0.0))


def moved_by_bars(
    coupling: Coupling, name: str, all_supports: Mapping[str, Supports], *, is_sure: bool
) -> Moved | None:
    """What the bars move on a vehicle of the coupling; None where a place it follows from is not known.

    ``is_sure`` is false where the scale may have read it with them on.
    """
    supports, bars = all_supports[name], coupling.distribution
    effect = _effect(coupling, bars, all_supports) if bars else None
    if bars is None or effect is None:
        return None
    if name == coupling.behind:
        first, others = {}, effect.trailer
    else:
        first, others = {supports.first_axle: effect.front}, effect.rear
    moved = first | {axle: others * share for axle, share in supports.group.items()}
    least_share = 1.0 if is_sure and bars.couple is not None else 0.0
    return Moved(
        {axle: _bounds(load, least_share) for axle, load in moved.items()},
        _bounds(sum(moved.values(), start=_ZERO), least_share),
    )


def couple_and_arms(rig: Rig, name: str) -> tuple[Quantity, tuple[Quantity, Quantity, Quantity]] | None:
    """The couple of a vehicle's bars and its arms: ball to axles, rear axle to ball, wheelbase."""
    for coupling in rig.couplings:
        bars = coupling.distribution
        if bars is not None and bars.couple is not None and name in {coupling.ahead, coupling.behind}:
            arms = lever_arms(coupling, supports_of(rig, coupling.ahead), supports_of(rig, coupling.behind))
            return None if arms is None else (bars.couple, arms)
    return None


def _bounds(load: Quantity, least_share: float) -> Bounds:
    """What bars move; where nobody knows how tight they are, between nothing and all of it."""
    pounds = number_in(load, "pound")
    return Bounds(*sorted((pounds * least_share, pounds)))


def _effect(
    coupling: Coupling, bars: Distribution, supports: Mapping[str, Supports]
) -> DistributionEffect | None:
    """What the bars move, at the most all that the trailer took off the front axle (practice)."""
    arms = lever_arms(coupling, supports[coupling.ahead], supports[coupling.behind])
    if arms is None:
        return None
    if bars.couple is not None:
        return distribution_effect(bars.couple, *arms)
    if coupling.down_load is None:
        return None
    _, overhang, wheelbase = arms
    one = distribution_effect(_ONE_COUPLE, *arms)
    times = number_in(coupling.down_load * overhang / wheelbase, "pound") / number_in(one.front, "pound")
    return DistributionEffect(*(part * times for part in one))
