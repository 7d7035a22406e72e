"""What stands on what: supports of each vehicle, and how a load moves to them."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import NamedTuple, Protocol, TypeAlias

from binder.assessment.ledger import Phrase, all_known
from binder.assessment.weights import kinds
from binder.calculations.weights.axle_loads import WheelEnds, support_shares
from binder.models.rig import AxleWeights, Coupling, Rig, ScaleTicket
from binder.models.vehicles import Axle, Vehicle
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


def lever_arms(
    coupling: Coupling, ahead: Supports, behind: Supports
) -> tuple[Quantity, Quantity, Quantity] | None:
    """Ball to the trailer's axles, rear axle to the ball, and wheelbase, where all their places are known."""
    places = all_known((ahead.first, ahead.second, coupling.at, behind.first, behind.second))
    if places is None:
        return None
    first, rear, at, ball, axles = places
    return axles - ball, at - rear, rear - first


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


CARRIED, ON_A_DOLLY = "carried", "dolly"
_CENTER = registry.Quantity(0.0, "inch")


class PlacedChange(NamedTuple):
    """What differs from the ticket: a weight (less than zero: taken away) at a place."""

    what: str | Phrase
    weight: Quantity
    at: Quantity | None
    left: Quantity | None


class Resting(NamedTuple):
    """One vehicle that rests on another: how it is joined, what its ticket says, and what has changed.

    ``down`` is what it presses on its coupling, None where nobody knows, ``down_change`` what of it is not
    on its ticket. ``allowances`` say how much heavier than half an axle an end of it may be.
    """

    coupling: Coupling
    vehicle: Vehicle
    ticket: ScaleTicket | None
    down: Quantity | None
    down_change: Quantity
    changes: tuple[PlacedChange, ...]
    allowances: dict[str, Quantity]

    @property
    def readings(self) -> dict[str, AxleWeights]:
        """Its axles on the scale."""
        weights = self.ticket.weights.get(self.coupling.behind) if self.ticket else None
        return weights.axles if weights else {}


def resting_changes(resting: Resting, *, was_coupled: bool) -> list[PlacedChange] | None:
    """What a vehicle puts on the one it rests on, that is not on the ticket of that one."""
    return _RULES[resting.coupling.how](resting, was_coupled=was_coupled)


class _Rule(Protocol):
    """What a vehicle joined in one way puts on the one ahead."""

    def __call__(self, resting: Resting, /, *, was_coupled: bool) -> list[PlacedChange] | None: ...


def _nothing(_resting: Resting, /, *, was_coupled: bool) -> list[PlacedChange] | None:
    del was_coupled
    return []


def _on_its_coupler(resting: Resting, /, *, was_coupled: bool) -> list[PlacedChange] | None:
    down = resting.down_change if was_coupled else resting.down
    if down is None:
        return None
    what = Phrase(kinds.DOWN_LOAD_OF, {"behind": resting.coupling.behind})
    return [PlacedChange(what, down, resting.coupling.at, _CENTER)] if down.m else []


def _on_its_first_axle(resting: Resting, /, *, was_coupled: bool) -> list[PlacedChange] | None:
    """A car on a dolly stands there with its first axle, and its changes reach the dolly through it."""
    name, coupling = next(iter(resting.vehicle.axles)), resting.coupling
    base = [] if was_coupled else _axle(resting, name)
    if base is None or resting.down is None:
        return None
    what = Phrase(kinds.CHANGE_ON_AXLE, {"name": name, "behind": coupling.behind})
    changed = [PlacedChange(what, resting.down_change, _CENTER, None)] if resting.down_change.m else []
    return _moved([*base, *changed], coupling.at)


def _all_of_it(resting: Resting, /, *, was_coupled: bool) -> list[PlacedChange] | None:
    """A car on a trailer or a camper on a bed: its weight where it stands, and each of its changes."""
    base = [] if was_coupled else _own_weight(resting)
    return None if base is None else _moved([*base, *resting.changes], resting.coupling.at)


_RULES: dict[str, _Rule] = {
    **dict.fromkeys(CARRYING, _on_its_coupler),
    "tow bar": _nothing,
    ON_A_DOLLY: _on_its_first_axle,
    CARRIED: _all_of_it,
}


def _own_weight(resting: Resting) -> list[PlacedChange] | None:
    if not resting.vehicle.axles:
        total, place = (
            weighed_total(resting.ticket, resting.coupling.behind),
            resting.vehicle.center_of_gravity,
        )
        if total is None:
            return None
        at, left = (place.at, place.left) if place else (None, None)
        return [PlacedChange(resting.coupling.behind, total, at, left)]
    axles = all_known(_axle(resting, name) for name in resting.vehicle.axles)
    return None if axles is None else [change for axle in axles for change in axle]


def _axle(resting: Resting, name: str) -> list[PlacedChange] | None:
    """A weighed axle at its place; where its ends were not weighed, the allowance may stand on one side."""
    axle, reading = resting.vehicle.axles[name], resting.readings.get(name)
    facts = {"name": name, "behind": resting.coupling.behind}
    what = Phrase(kinds.AXLE_OF, facts)
    ends = ends_of(reading) if reading else None
    if ends is not None and axle.track is not None:
        left: Quantity = axle.track / 2 * float(((ends.left - ends.right) / ends.axle).to("").m)
        return [PlacedChange(what, ends.axle, axle.at, left)]
    whole = ends.axle if ends else reading.axle if reading else None
    if whole is None:
        return None
    share = float(resting.allowances[name].to("").m)
    # Half the axle and the allowance on the heavier end: the rest of it lies in the middle.
    return [
        PlacedChange(what, whole * (1 - share), axle.at, _CENTER),
        PlacedChange(Phrase(kinds.HEAVIER_END_OF_AXLE, facts), whole * share, axle.at, None),
    ]


def _moved(changes: list[PlacedChange], origin: Quantity | None) -> list[PlacedChange]:
    """The same in the frame of what carries it; a place in a frame that has no place is not known."""
    return [
        change._replace(at=None if change.at is None or origin is None else change.at + origin)
        for change in changes
    ]


def weighed_total(ticket: ScaleTicket | None, vehicle: str) -> Quantity | None:
    """Weight of a vehicle without axles as read on the scale."""
    weights = ticket.weights.get(vehicle) if ticket else None
    return weights.total if weights else None


def ends_of(reading: AxleWeights) -> WheelEnds | None:
    """Both wheel ends as read; where one of them and the axle were read, the other is the rest."""
    left, right, axle = reading.left, reading.right, reading.axle
    if left is not None and right is not None:
        return WheelEnds(left, right)
    if axle is not None and left is not None:
        return WheelEnds(left, axle - left)
    if axle is not None and right is not None:
        return WheelEnds(axle - right, right)
    return None


_Rolling: TypeAlias = Iterator[tuple[str, Vehicle, str, Axle]]


def carrier_of(rig: Rig, vehicle: str) -> Coupling | None:
    """The coupling by which a vehicle is carried whole, where it is."""
    return next((one for one in rig.couplings if one.behind == vehicle and one.how == CARRIED), None)


def is_combination(rig: Rig) -> bool:
    """Tell whether more than one vehicle of a rig is on the road."""
    return len(rig.vehicles) - sum(one.how == CARRIED for one in rig.couplings) > 1


def rolling_axles(rig: Rig) -> _Rolling:
    """Axles whose tires are on the road: none of what is carried, not the first of what is on a dolly."""
    carried = {one.behind for one in rig.couplings if one.how == CARRIED}
    on_a_dolly = {one.behind for one in rig.couplings if one.how == ON_A_DOLLY}
    for name, vehicle in rig.vehicles.items():
        if name in carried:
            continue
        for number, (axle_name, axle) in enumerate(vehicle.axles.items()):
            if number or name not in on_a_dolly:
                yield name, vehicle, axle_name, axle
