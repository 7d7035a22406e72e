"""What stands on what: supports of each vehicle, and how a load moves to them."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from typing import NamedTuple, Protocol, TypeAlias

from binder.assessment.ledger import Phrase, all_known
from binder.assessment.weights import kinds
from binder.calculations.weights.axle_loads import SupportShares, WheelEnds, support_shares
from binder.models.rig import AxleWeights, Coupling, Rig, ScaleTicket
from binder.models.vehicles import Axle, Vehicle
from binder.quantities import Quantity, number_in, registry

_ZERO = registry.Quantity(0.0, "pound")
_CENTER = registry.Quantity(0.0, "inch")
CARRIED, ON_A_DOLLY = "carried", "dolly"
Span: TypeAlias = tuple[Quantity, Quantity]
CARRYING = {"ball", "fifth wheel", "gooseneck"}
"""Couplings that carry part of a trailer's weight."""


@dataclass(frozen=True)
class Supports:
    """Two supports and how the axles of the second share its load.

    ``first_axle`` is empty where the first support is the coupler of a trailer. ``group`` is empty
    where how its axles share is not known: then statics says nothing of any change.
    ``down_load_weighed`` is None where nobody weighed what the trailer presses on its coupling. ``span`` is
    where a thing can lie whose place nobody noted.
    """

    axles: tuple[str, ...]
    first_axle: str
    first: Quantity | None
    second: Quantity | None
    group: dict[str, float] = field(default_factory=dict)
    down_load_weighed: Quantity | None = _ZERO
    span: Span | None = None

    def on_axle(self, axle: str, change: "PlacedChange") -> "Bounds | None":
        """What a change puts on one axle, at the least and at the most."""
        parts = self.parts_on(axle, change)
        return None if parts is None else _bounds(parts)

    def parts_on(self, axle: str, change: "PlacedChange") -> "list[Part] | None":
        """What a change puts on one axle for each weight and place it may have; None: statics cannot tell."""
        if not self.group:
            return None
        if axle == self.first_axle:
            return self._parts(change, lambda one: one.first)
        return self._parts(change, lambda one: one.second * self.group.get(axle, 0.0))

    def on_coupler(self, change: "PlacedChange") -> "Bounds | None":
        """What a change puts on the coupler; nothing where the first support is an axle."""
        parts = [] if self.first_axle else self._parts(change, lambda one: one.first)
        return None if parts is None else _bounds(parts)

    def _parts(self, change: "PlacedChange", share: Callable[[SupportShares], float]) -> "list[Part] | None":
        if change.weight.m == 0 and change.least is None:
            return []
        places = change.places or self.span
        if self.first is None or self.second is None or places is None:
            return None
        # Both weight and share lie between two ends, so the product is greatest and least at the ends.
        ends = places[:1] if places[0] is places[1] else places
        shares = [(place, share(support_shares(place, self.first, self.second))) for place in ends]
        return [Part(weight, place, part) for weight in change.weights for place, part in shares]


class Part(NamedTuple):
    """A weight, the place it counts at, and its share on a support."""

    weight: Quantity
    at: Quantity
    share: float

    @property
    def pounds(self) -> float:
        """What it puts on the support."""
        return number_in(self.weight, "pound") * self.share


def _bounds(parts: "list[Part]") -> "Bounds":
    pounds = [part.pounds for part in parts] or [0.0]
    return Bounds(min(pounds), max(pounds))


class Bounds(NamedTuple):
    """What something puts on a support in pounds, at the least and at the most."""

    least: float
    most: float


def sum_of(bounds: Iterable[Bounds]) -> Bounds:
    """What several put on a support together."""
    held = list(bounds)
    return Bounds(sum(one.least for one in held), sum(one.most for one in held))


def carrying_coupling(rig: Rig, vehicle: str) -> Coupling | None:
    """Coupling by which a vehicle presses on the one ahead, where it does."""
    return next((one for one in rig.couplings if one.behind == vehicle and one.how in CARRYING), None)


def span_of(vehicle: Vehicle) -> Span | None:
    """From the front of a vehicle to its rear, or beyond both; None where its size is not known."""
    size, length = vehicle.size, vehicle.size.overall_length
    places = vehicle.axle_places
    if vehicle.axles and not places:
        return None
    last = max(places, default=_CENTER)
    rear = length if size.rear_overhang is None else last + size.rear_overhang
    front = None if length is None else last - length
    if size.front_overhang is not None:
        front = -1 * size.front_overhang
    return None if front is None or rear is None else (front, rear)


_BEYOND = registry.Quantity(60.0, "inch")
"""Practice: no receiver or ball mount reaches farther behind its vehicle."""


def coupling_span(vehicle: Vehicle) -> Span | None:
    """Where a coupling can be whose place nobody noted: it may stand out behind."""
    span = span_of(vehicle)
    return None if span is None else (span[0], span[1] + _BEYOND)


def supports_of(rig: Rig, vehicle: str) -> Supports:
    """Supports of a vehicle of the rig."""
    axles, span = rig.vehicles[vehicle].axles, span_of(rig.vehicles[vehicle])
    coupling = carrying_coupling(rig, vehicle)
    if coupling:
        group = _group_shares(axles, is_trailer=True)
        center = _center(axles, group)
        return Supports(tuple(axles), "", coupling.at_behind, center, group, coupling.down_load, span)
    if not axles:
        return Supports((), "", None, None)
    first = next(iter(axles))
    others = {name: axle for name, axle in axles.items() if name != first}
    if not others:
        return Supports(tuple(axles), first, axles[first].at, None)
    group = _group_shares(others, is_trailer=False)
    return Supports(tuple(axles), first, axles[first].at, _center(others, group), group, span=span)


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


def _center(axles: dict[str, Axle], group: dict[str, float]) -> Quantity | None:
    """Where a group carries what is added; None where nobody has said how it shares, or where it stands."""
    places = all_known(axles[name].at for name in group)
    if not places:
        return None
    return sum((at * share for at, share in zip(places, group.values(), strict=True)), start=_CENTER)


class PlacedChange(NamedTuple):
    """What differs from the ticket: a weight (less than zero: taken away) at a place.

    ``least`` is the least it may be where ``weight`` is only the most; ``within`` is where it lies when its
    place is not known, None: anywhere on the vehicle.
    """

    what: str | Phrase
    weight: Quantity
    at: Quantity | None
    left: Quantity | None
    least: Quantity | None = None
    within: Span | None = None

    @property
    def weights(self) -> tuple[Quantity, ...]:
        """The most it may weigh and the least."""
        return (self.weight,) if self.least is None else (self.weight, self.least)

    @property
    def places(self) -> Span | None:
        """Where it may lie."""
        return self.within if self.at is None else (self.at, self.at)


class Resting(NamedTuple):
    """One vehicle that rests on another: how it is joined, what its ticket says, and what has changed.

    ``down`` is what it presses on its coupling, None where nobody knows, ``down_change`` what of it is not
    on its ticket. ``allowances`` say how much heavier than half an axle an end of it may be, ``span`` where
    on the vehicle ahead the coupling can be.
    """

    coupling: Coupling
    vehicle: Vehicle
    ticket: ScaleTicket | None
    down: Quantity | None
    down_least: Quantity | None
    down_change: Bounds | None
    changes: tuple[PlacedChange, ...] | None
    allowances: dict[str, Quantity]
    span: Span | None

    @property
    def readings(self) -> dict[str, AxleWeights]:
        """Its axles on the scale."""
        weights = self.ticket.weights.get(self.coupling.behind) if self.ticket else None
        return weights.axles if weights else {}


def resting_changes(resting: Resting, *, was_coupled: bool | None) -> list[PlacedChange] | None:
    """What a vehicle puts on the one it rests on, that is not on the ticket of that one."""
    return _RULES[resting.coupling.how](resting, was_coupled=was_coupled)


class _Rule(Protocol):
    """What a vehicle joined in one way puts on the one ahead."""

    def __call__(self, resting: Resting, /, *, was_coupled: bool | None) -> list[PlacedChange] | None: ...


def _nothing(_resting: Resting, /, *, was_coupled: bool | None) -> list[PlacedChange] | None:
    del was_coupled
    return []


def _on_its_coupler(resting: Resting, /, *, was_coupled: bool | None) -> list[PlacedChange] | None:
    whole = [] if was_coupled else [resting.down, resting.down_least]
    part = [] if was_coupled is False else _pounds(resting.down_change)
    possible = all_known([*whole, *part])
    if possible is None or resting.changes is None:
        return None
    most, least = max(possible), min(possible)
    what = Phrase(kinds.DOWN_LOAD_OF, {"behind": resting.coupling.behind})
    change = PlacedChange(what, most, resting.coupling.at, _CENTER, least, resting.span)
    return [change] if most.m or least != most else []


def _pounds(bounds: Bounds | None) -> tuple[Quantity | None, ...]:
    return (None,) if bounds is None else tuple(registry.Quantity(pounds, "pound") for pounds in bounds)


def _on_its_first_axle(resting: Resting, /, *, was_coupled: bool | None) -> list[PlacedChange] | None:
    """A car on a dolly stands there with its first axle, and its changes reach the dolly through it."""
    name, coupling = next(iter(resting.vehicle.axles)), resting.coupling
    base = _unless(_axle(resting, name), was_coupled=was_coupled)
    if base is None or resting.down is None or resting.down_change is None:
        return None
    what = Phrase(kinds.CHANGE_ON_AXLE, {"name": name, "behind": coupling.behind})
    least, most = (registry.Quantity(pounds, "pound") for pounds in resting.down_change)
    changed = [PlacedChange(what, most, _CENTER, None, least)] if any(resting.down_change) else []
    return _moved([*base, *changed], resting)


def _all_of_it(resting: Resting, /, *, was_coupled: bool | None) -> list[PlacedChange] | None:
    """A car on a trailer or a camper on a bed: its weight where it stands, and each of its changes."""
    base = _unless(_own_weight(resting), was_coupled=was_coupled)
    if base is None or resting.changes is None:
        return None
    return _moved([*base, *resting.changes], resting)


def _unless(weighed: list[PlacedChange] | None, *, was_coupled: bool | None) -> list[PlacedChange] | None:
    """What adds to the ticket of what carries it: nothing if it stood on it, perhaps if that is not said."""
    if was_coupled or weighed is None:
        return [] if was_coupled else None
    return [one._replace(least=_ZERO) for one in weighed] if was_coupled is None else weighed


_RULES: dict[str, _Rule] = {
    **dict.fromkeys(CARRYING, _on_its_coupler),
    "tow bar": _nothing,
    ON_A_DOLLY: _on_its_first_axle,
    CARRIED: _all_of_it,
}


def _own_weight(resting: Resting) -> list[PlacedChange] | None:
    if not resting.vehicle.axles:
        total = weighed_total(resting.ticket, resting.coupling.behind)
        place = resting.vehicle.center_of_gravity
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


def _moved(changes: list[PlacedChange], resting: Resting) -> list[PlacedChange]:
    """The same in the frame of what carries it, wherever it may stand on that."""
    at = resting.coupling.at
    origins = resting.span if at is None else (at, at)
    moved = []
    for change in changes:
        span = change.places or span_of(resting.vehicle)
        within = (span[0] + origins[0], span[1] + origins[1]) if span and origins else None
        place = within[0] if within and within[0] == within[1] else None
        moved.append(change._replace(at=place, within=within))
    return moved


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
