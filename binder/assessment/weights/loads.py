"""Axle and wheel-end loads of every vehicle in every state: scale ticket plus differences by statics."""

from collections.abc import Iterable
from typing import Literal, NamedTuple, TypeAlias

from binder.assessment.ledger import Phrase, all_known
from binder.assessment.weights import kinds
from binder.assessment.weights.resting import (
    CARRIED,
    CARRYING,
    ON_A_DOLLY,
    PlacedChange,
    Resting,
    Supports,
    carrying_coupling,
    ends_of,
    lever_arms,
    resting_changes,
    supports_of,
    weighed_total,
)
from binder.assessment.weights.states import TankName, TripState, levels_ticket_of, ticket_levels, ticket_of
from binder.calculations.weights.axle_loads import (
    DistributionEffect,
    HeavierEnd,
    LoadChange,
    WheelEnds,
    distribution_effect,
    heavier_end,
    heavier_end_assumed,
    total_load,
)
from binder.models.rig import Aboard, AxleWeights, Coupling, Rig, ScaleTicket
from binder.models.trip import Person
from binder.models.vehicles import Axle
from binder.quantities import Quantity, number_in, registry
from binder.reference.constants import DENSITIES

Weighed: TypeAlias = Literal["ends", "axle", "nothing"]
_POUND = registry.Unit("pound")
_ZERO = registry.Quantity(0.0, _POUND)
_CENTER = registry.Quantity(0.0, "inch")
_ONE = registry.Quantity(1.0, "inch")
# Practice: how much heavier than half the axle an unweighed end may be.
_ALLOWANCE_FIRST = registry.Quantity(10.0, "percent")
_ALLOWANCE_OTHER = registry.Quantity(15.0, "percent")


class AxleLoad(NamedTuple):
    """One axle in one state. ``load`` None: not weighed; ``end`` then is half the rating.

    ``rule`` says what the heavier end follows from, ``side`` which it is.
    """

    load: Quantity | None
    end: Quantity | None
    side: Literal["left", "right", "both", "either"]
    weighed: Weighed
    rule: Phrase

    @property
    def is_side_known(self) -> bool:
        """One of its ends was found to be the heavier one."""
        return self.side in {"left", "right"}


class VehicleLoad(NamedTuple):
    """One vehicle in one state.

    ``down`` is its load on the coupling with bars off, which ratings are held against, and what of it is
    not on its ticket is ``down_change``; ``on_the_road`` what its own axles carry: all of it less what
    stands on the vehicle ahead in this state. None: not known.
    """

    axles: dict[str, AxleLoad]
    total: Quantity | None
    down: Quantity | None
    down_change: Quantity
    on_the_road: Quantity | None


class StateLoads(NamedTuple):
    """Every vehicle in one state, and the weight of the combination on the ground."""

    state: TripState
    vehicles: dict[str, VehicleLoad]
    combination: Quantity | None
    changes: dict[str, tuple[PlacedChange, ...]]


def loads_in_states(rig: Rig, states: Iterable[TripState]) -> tuple[StateLoads, ...]:
    """Loads of every vehicle in every state."""
    scale = _Scale(
        rig,
        {name: supports_of(rig, name) for name in rig.vehicles},
        {name: ticket_of(rig, name) for name in rig.vehicles},
        ticket_levels(rig),
    )
    return tuple(_state_loads(scale, state) for state in states)


class _Scale(NamedTuple):
    """What all states start from: where each vehicle stands, and what its ticket says."""

    rig: Rig
    supports: dict[str, Supports]
    tickets: dict[str, ScaleTicket | None]
    levels: dict[TankName, Quantity | None]

    def was_coupled(self, coupling: Coupling) -> bool:
        """The vehicle ahead was weighed with what is behind it or on it."""
        ticket = self.tickets[coupling.ahead]
        return bool(ticket and ticket.state.coupled)


def _state_loads(scale: _Scale, state: TripState) -> StateLoads:
    rig = scale.rig
    vehicles: dict[str, VehicleLoad] = {}
    changes: dict[str, tuple[PlacedChange, ...]] = {}
    for name in reversed(rig.vehicles):
        own = list(_differences(scale, name, state))
        resting = [] if state.as_the_ticket else _resting(scale, name, vehicles, changes)
        changes[name] = (*own, *(resting or ()))
        vehicles[name] = _vehicle_load(scale, name, None if resting is None else [*own, *resting], state)
    on_the_road = all_known(load.on_the_road for load in vehicles.values())
    combination = None if on_the_road is None else sum(on_the_road, start=_ZERO)
    return StateLoads(state, {name: vehicles[name] for name in rig.vehicles}, combination, changes)


def _differences(scale: _Scale, name: str, state: TripState) -> Iterable[PlacedChange]:
    if state.as_the_ticket:
        return
    ticket, weighed = levels_ticket_of(scale.rig, name), scale.levels
    for tank_name, tank in scale.rig.vehicles[name].tanks.items():
        now = state.volumes.get((name, tank_name))
        before = weighed.get((name, tank_name))
        if now is None or (before is not None and now == before):
            continue
        # A level the ticket does not state is taken as empty then: nothing is left out of the load.
        gallons = number_in(now, "gallon") - (number_in(before, "gallon") if before is not None else 0.0)
        weight = gallons * number_in(DENSITIES[tank.holds].quantity, "pound / gallon")
        yield PlacedChange(tank_name, registry.Quantity(weight, _POUND), tank.at, tank.left)
    yield from _added(state.people, name, 1)
    yield from _added((ticket.aboard or []) if ticket else [], name, -1)
    yield from _added(state.cargo, name, 1)


def _added(entries: Iterable[Person | Aboard], vehicle: str, sign: int) -> Iterable[PlacedChange]:
    for entry in entries:
        if entry.vehicle == vehicle and entry.weight is not None:
            what = entry.who if isinstance(entry, Person) else entry.what
            weight = entry.weight if sign > 0 else entry.weight * sign
            yield PlacedChange(what, weight, entry.at, entry.left)


def _resting(
    scale: _Scale, name: str, vehicles: dict[str, VehicleLoad], changes: dict[str, tuple[PlacedChange, ...]]
) -> list[PlacedChange] | None:
    """What stands on a vehicle from all that is joined to it; None where one of them is not known."""
    found: list[PlacedChange] = []
    for coupling in (one for one in scale.rig.couplings if one.ahead == name):
        was_coupled, behind = scale.was_coupled(coupling), vehicles[coupling.behind]
        if coupling.weight is not None and not was_coupled:
            found.append(PlacedChange(coupling.how, coupling.weight, coupling.at, _CENTER))
        vehicle = scale.rig.vehicles[coupling.behind]
        first = next(iter(vehicle.axles), "")
        resting = Resting(
            coupling,
            vehicle,
            scale.tickets[coupling.behind],
            behind.down,
            behind.down_change,
            changes[coupling.behind],
            {axle: _allowance(entry, is_first=axle == first) for axle, entry in vehicle.axles.items()},
        )
        more = resting_changes(resting, was_coupled=was_coupled)
        if more is None:
            return None
        found += more
    return found


def _vehicle_load(
    scale: _Scale, name: str, differences: list[PlacedChange] | None, state: TripState
) -> VehicleLoad:
    rig, supports, ticket = scale.rig, scale.supports[name], scale.tickets[name]
    distribution = {} if state.as_the_ticket else _distribution(scale, name)
    readings = ticket.weights[name].axles if ticket else {}
    axles = {}
    for axle_name, axle in rig.vehicles[name].axles.items():
        changes = None if differences is None else _changes_on(supports, axle_name, differences)
        if changes is not None and axle_name in distribution:
            changes.append(LoadChange(distribution[axle_name], _CENTER))
        allowance = _allowance(axle, is_first=axle_name == supports.first_axle)
        axles[axle_name] = _axle_load(axle, readings.get(axle_name), changes, allowance)
    # Bars move weight onto a trailer's axles, and none into the trailer.
    added = {} if carrying_coupling(rig, name) else distribution
    total = None if differences is None else _total(scale, name, differences, added)
    down, change = _down(scale, name, differences, axles, total)
    on_the_road = _on_the_road(scale, name, state, (total, down, distribution))
    return VehicleLoad(axles, total, down, change, on_the_road)


def _down(
    scale: _Scale,
    name: str,
    differences: list[PlacedChange] | None,
    axles: dict[str, AxleLoad],
    total: Quantity | None,
) -> tuple[Quantity | None, Quantity]:
    """What a vehicle puts on the one ahead or beneath it, and what of that is not on its ticket."""
    how = next((one.how for one in scale.rig.couplings if one.behind == name), "")
    supports, moved = scale.supports[name], differences or []
    if how == CARRIED:
        return total, _ZERO
    if how == ON_A_DOLLY:
        first = supports.first_axle
        found = _changes_on(supports, first, moved)
        return axles[first].load, total_load(_ZERO, (change.load for change in found or []))
    if how not in CARRYING:
        return _ZERO, _ZERO
    change = _down_change(supports, moved)
    weighed = None if differences is None else supports.down_load_weighed
    return None if weighed is None else weighed + change, change


def _down_change(supports: Supports, differences: list[PlacedChange]) -> Quantity:
    down = _ZERO
    for difference in differences:
        share = supports.coupler_share(difference.at)
        down = down + difference.weight * (_share_anywhere(difference) if share is None else share)
    return down


def _share_anywhere(difference: PlacedChange) -> float:
    """Its place is not known: what is added counts whole on every support, what is removed on none."""
    return 1.0 if difference.weight.m > 0 else 0.0


def _on_the_road(
    scale: _Scale,
    name: str,
    state: TripState,
    weights: tuple[Quantity | None, Quantity | None, dict[str, Quantity]],
) -> Quantity | None:
    total, down, distribution = weights
    coupling = next((one for one in scale.rig.couplings if one.behind == name), None)
    if coupling is None or (state.as_the_ticket and not scale.was_coupled(coupling)):
        return total
    if coupling.how == CARRIED:
        return _ZERO
    if total is None or down is None:
        return None
    # Bars move weight back onto a trailer's own axles; what they move ahead stays with the vehicle ahead.
    moved = sum(distribution.values(), start=_ZERO) if coupling.how in CARRYING else _ZERO
    on_the_road: Quantity = total - down + moved
    return on_the_road


def _total(
    scale: _Scale, name: str, differences: list[PlacedChange], distribution: dict[str, Quantity]
) -> Quantity | None:
    """What the vehicle weighs: its axles and its down load as weighed, and all that differs."""
    supports, ticket = scale.supports[name], scale.tickets[name]
    start = supports.down_load_weighed if supports.axles else weighed_total(ticket, name)
    readings = ticket.weights[name].axles if ticket else {}
    weighed = all_known(_weighed(readings.get(axle)) for axle in supports.axles)
    if start is None or weighed is None:
        return None
    return total_load(start, [*weighed, *(change.weight for change in differences), *distribution.values()])


def _weighed(reading: AxleWeights | None) -> Quantity | None:
    if reading is None:
        return None
    ends = ends_of(reading)
    return ends.axle if ends else reading.axle


def _changes_on(supports: Supports, axle: str, differences: list[PlacedChange]) -> list[LoadChange] | None:
    """What the differences put on one axle; None where statics cannot tell."""
    changes = []
    for difference in differences:
        if difference.weight.m == 0:
            continue
        is_anywhere = difference.at is None and supports.group
        share = _share_anywhere(difference) if is_anywhere else supports.share(axle, difference.at)
        if share is None:
            return None
        if share:
            moved = registry.Quantity(number_in(difference.weight, "pound") * share, _POUND)
            changes.append(LoadChange(moved, difference.left))
    return changes


def _axle_load(
    axle: Axle, reading: AxleWeights | None, changes: list[LoadChange] | None, allowance: Quantity
) -> AxleLoad:
    ends = ends_of(reading) if reading is not None else None
    if ends is not None and changes is not None:
        load = total_load(ends.axle, (change.load for change in changes))
        worst = _worst_end(ends, changes, axle.track)
        return AxleLoad(load, worst.load, worst.side, "ends", Phrase(kinds.END_BY[worst.rule]))
    if reading is None or reading.axle is None or changes is None:
        half_rating = None if axle.rating is None else axle.rating / 2
        return AxleLoad(None, half_rating, "either", "nothing", Phrase(kinds.HALF_RATING))
    load = total_load(reading.axle, (change.load for change in changes))
    end = heavier_end_assumed(load, allowance)
    return AxleLoad(load, end, "either", "axle", Phrase(kinds.HALF_AND_MORE, {"allowance": allowance}))


def _allowance(axle: Axle, *, is_first: bool) -> Quantity:
    if axle.heavier_end_allowance is not None:
        return axle.heavier_end_allowance
    return _ALLOWANCE_FIRST if is_first else _ALLOWANCE_OTHER


def _worst_end(ends: WheelEnds, changes: list[LoadChange], track: Quantity | None) -> HeavierEnd:
    if track is not None:
        return heavier_end(ends, changes, track)
    # Without the track no change has a known lateral place.
    return heavier_end(ends, [LoadChange(change.load, None) for change in changes], _ONE)


def _distribution(scale: _Scale, name: str) -> dict[str, Quantity]:
    """What weight-distribution bars add to each axle of this vehicle."""
    supports = scale.supports[name]
    for coupling in scale.rig.couplings:
        couple = coupling.distribution.couple if coupling.distribution else None
        if couple is None or scale.was_coupled(coupling) or name not in {coupling.ahead, coupling.behind}:
            continue
        effect = _bars(scale, coupling, couple)
        if effect is None:
            continue
        if name == coupling.behind:
            return {axle: effect.trailer * share for axle, share in supports.group.items()}
        return {supports.first_axle: effect.front} | {
            axle: effect.rear * share for axle, share in supports.group.items()
        }
    return {}


def _bars(scale: _Scale, coupling: Coupling, couple: Quantity) -> DistributionEffect | None:
    """What the bars move; None where a place it follows from is not known."""
    arms = lever_arms(coupling, scale.supports[coupling.ahead], scale.supports[coupling.behind])
    return distribution_effect(couple, *arms) if arms else None
