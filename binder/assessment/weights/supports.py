"""What a vehicle stands on: its first axle or its coupler, and the group of its other axles."""

from dataclasses import dataclass, field

from binder.calculations.weights.axle_loads import support_shares
from binder.models.rig import Coupling, Rig
from binder.models.vehicles import Axle
from binder.quantities import Quantity, registry

_ZERO = registry.Quantity(0.0, "pound")
CARRYING = {"ball", "fifth wheel", "gooseneck"}
"""Couplings that carry part of a trailer's weight."""


@dataclass(frozen=True)
class Supports:
    """Two supports and how the axles of the second share its load.

    ``first_axle`` is empty where the first support is the coupler of a trailer. ``group`` is empty
    where how its axles share is not known: then statics says nothing of any change.
    ``down_load_weighed`` is None where nobody weighed what the trailer presses on its coupling.
    """

    axles: tuple[str, ...]
    first_axle: str
    first: Quantity | None
    second: Quantity | None
    group: dict[str, float] = field(default_factory=dict)
    down_load_weighed: Quantity | None = _ZERO

    def share(self, axle: str, at: Quantity | None) -> float | None:
        """Share of a weight that one axle takes."""
        if self.first is None or self.second is None or at is None or not self.group:
            return None
        shares = support_shares(at, self.first, self.second)
        return shares.first if axle == self.first_axle else shares.second * self.group.get(axle, 0.0)

    def coupler_share(self, at: Quantity | None) -> float | None:
        """Share of a weight that the coupler takes; none where the first support is an axle."""
        if self.first_axle:
            return 0.0
        if self.first is None or self.second is None or at is None:
            return None
        return support_shares(at, self.first, self.second).first


def carrying_coupling(rig: Rig, vehicle: str) -> Coupling | None:
    """Coupling by which a vehicle presses on the one ahead, where it does."""
    return next((one for one in rig.couplings if one.behind == vehicle and one.how in CARRYING), None)


def supports_of(rig: Rig, vehicle: str) -> Supports:
    """Supports of a vehicle of the rig."""
    axles = rig.vehicles[vehicle].axles
    coupling = carrying_coupling(rig, vehicle)
    if coupling:
        group = _group_shares(axles, is_trailer=True)
        center = _center(axles, group) if group else None
        return Supports(tuple(axles), "", coupling.at_behind, center, group, coupling.down_load)
    if not axles:
        return Supports((), "", None, None)
    first = next(iter(axles))
    others = {name: axle for name, axle in axles.items() if name != first}
    if not others:
        return Supports(tuple(axles), first, axles[first].at, None)
    group = _group_shares(others, is_trailer=False)
    return Supports(tuple(axles), first, axles[first].at, _center(others, group) if group else None, group)


def _group_shares(axles: dict[str, Axle], *, is_trailer: bool) -> dict[str, float]:
    """How the axles of a group share an added weight; empty where nobody has said."""
    if len(axles) == 1:
        return dict.fromkeys(axles, 1.0)
    # An air-loaded axle carries what its air pressure makes it carry, whatever is added.
    shares = {name: 0.0 for name, axle in axles.items() if axle.carries == "air"}
    stated = {
        name: float(axle.carries.to("").m)
        for name, axle in axles.items()
        if axle.carries is not None and axle.carries != "air"
    }
    rest = [name for name in axles if name not in shares and name not in stated]
    if len(rest) > 1 and not (is_trailer and all(axle.equalized for axle in axles.values())):
        return {}
    if len(rest) == 1 and not shares and not stated:
        return {}
    left_over = 1 - sum(stated.values())
    shares |= stated | dict.fromkeys(rest, left_over / max(len(rest), 1))
    return {name: shares[name] for name in axles}


def share_total(axles: dict[str, Axle]) -> tuple[float | None, bool]:
    """Shares that are stated for the axles of a group, and whether one is left to take the rest."""
    stated = [axle.carries for axle in axles.values() if axle.carries is not None]
    # One axle shares with none.
    if len(axles) <= 1 or not stated:
        return None, True
    shares = [0.0 if carries == "air" else float(carries.to("").m) for carries in stated]
    return sum(shares), len(stated) < len(axles)


def _center(axles: dict[str, Axle], group: dict[str, float]) -> Quantity:
    zero = registry.Quantity(0.0, "inch")
    return sum((axles[name].at * share for name, share in group.items()), start=zero)
