"""Axle and wheel-end loads of every vehicle in every state: scale ticket plus differences by statics."""

from collections.abc import Iterable
from typing import Literal, NamedTuple, TypeAlias

from binder.assessment.ledger import Phrase, all_known
from binder.assessment.weights import kinds
from binder.assessment.weights.bars import NO_BARS, Moved, moved_by_bars
from binder.assessment.weights.resting import (
    CARRIED,
    CARRYING,
    ON_A_DOLLY,
    Bounds,
    PlacedChange,
    Resting,
    Supports,
    carrying_coupling,
    coupling_span,
    ends_of,
    resting_changes,
    span_of,
    sum_of,
    supports_of,
    weighed_total,
)
from binder.assessment.weights.states import (
    TankName,
    TripState,
    gallons_in,
    levels_ticket_of,
    ticket_levels,
    ticket_of,
)
from binder.assessment.weights.terms import Term, Worked, terms_on, worst_end
from binder.calculations.weights.axle_loads import WheelEnds, heavier_end_assumed, total_load
from binder.models.rig import Aboard, AxleWeights, Coupling, Rig, ScaleTicket
from binder.models.trip import Person
from binder.models.vehicles import Axle
from binder.quantities import Quantity, number_in, registry
from binder.reference.constants import DENSITIES

Weighed: TypeAlias = Literal["ends", "axle", "nothing"]
_POUND = registry.Unit("pound")
_ZERO = registry.Quantity(0.0, _POUND)
_CENTER = registry.Quantity(0.0, "inch")
_NOTHING = Bounds(0.0, 0.0)
WITH_A_WEIGHT = {"tow bar", "fifth wheel", "gooseneck"}
"""Couplings whose bar or head hangs on the vehicle ahead; a ball mount was in its receiver on the scale,
unless its weight is asked for."""
# Practice: how much heavier than half the axle an unweighed end may be.
_ALLOWANCE_FIRST = registry.Quantity(10.0, "percent")
_ALLOWANCE_OTHER = registry.Quantity(15.0, "percent")


class AxleLoad(NamedTuple):
    """One axle in one state. ``load`` None: not weighed; ``end`` then is half the rating.

    ``rule`` says what the heavier end follows from, ``side`` which it is; ``least`` is the least it can
    carry, where a place or a level is not known and ``load`` is the most; ``worked`` how both were found.
    """

    load: Quantity | None
    end: Quantity | None
    side: Literal["left", "right", "both", "either"]
    weighed: Weighed
    rule: Phrase
    least: Quantity | None = None
    worked: Worked | None = None

    @property
    def is_side_known(self) -> bool:
        """One of its ends was found to be the heavier one."""
        return self.side in {"left", "right"}


class VehicleLoad(NamedTuple):
    """One vehicle in one state.

    ``down`` is its load on the coupling with bars off, which ratings are held against, and what of it is
    not on its ticket is ``down_change``; ``on_the_road`` what its own axles carry: all of it less what
    stands on the vehicle ahead in this state. None: not known. ``least`` is the least of its total,
    ``down_least`` that of its down load.
    """

    axles: dict[str, AxleLoad]
    total: Quantity | None
    down: Quantity | None
    down_least: Quantity | None
    down_change: Bounds | None
    on_the_road: Quantity | None
    least: Quantity | None

    @property
    def spread(self) -> Quantity:
        """How much less than its total it may weigh."""
        return _ZERO if self.total is None or self.least is None else self.total - self.least


class StateLoads(NamedTuple):
    """Every vehicle in one state, and the weight of the combination on the ground."""

    state: TripState
    vehicles: dict[str, VehicleLoad]
    combination: Quantity | None
    changes: dict[str, tuple[PlacedChange, ...]]

    @property
    def least_combination(self) -> Quantity | None:
        """The least the combination can weigh: what is not known is left out of it."""
        if self.combination is None:
            return None
        return total_load(self.combination, [-1 * one.spread for one in self.vehicles.values()])


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

    def was_coupled(self, coupling: Coupling) -> bool | None:
        """The vehicle ahead was weighed with what is behind it or on it; None: its ticket does not say."""
        ticket = self.tickets[coupling.ahead]
        return ticket.state.coupled if ticket else False


def _state_loads(scale: _Scale, state: TripState) -> StateLoads:
    rig = scale.rig
    vehicles: dict[str, VehicleLoad] = {}
    changes: dict[str, tuple[PlacedChange, ...] | None] = {}
    for name in reversed(rig.vehicles):
        own = all_known(_differences(scale, name, state))
        resting = [] if state.as_the_ticket else _resting(scale, name, vehicles, changes)
        found = None if own is None or resting is None else [*own, *resting]
        changes[name] = None if found is None else tuple(found)
        vehicles[name] = _vehicle_load(scale, name, found, state)
    on_the_road = all_known(load.on_the_road for load in vehicles.values())
    combination = None if on_the_road is None else sum(on_the_road, start=_ZERO)
    known = {name: made or () for name, made in changes.items()}
    return StateLoads(state, {name: vehicles[name] for name in rig.vehicles}, combination, known)


def _differences(scale: _Scale, name: str, state: TripState) -> Iterable[PlacedChange | None]:
    """What differs from the ticket; None for what may differ by any weight."""
    if state.as_the_ticket:
        return
    ticket, weighed = levels_ticket_of(scale.rig, name), scale.levels
    for tank_name, tank in scale.rig.vehicles[name].tanks.items():
        now = state.gallons((name, tank_name), tank)
        before = gallons_in(weighed.get((name, tank_name)), tank)
        if now is None or before is None:
            yield None
        elif now != before or now[0] != now[1]:
            density = number_in(DENSITIES[tank.holds].quantity, "pound / gallon")
            least, most = (
                registry.Quantity(gallons * density, _POUND)
                for gallons in (now[0] - before[1], now[1] - before[0])
            )
            is_known = now[0] == now[1] and before[0] == before[1]
            yield PlacedChange(tank_name, most, tank.at, tank.left, None if is_known else least)
    yield from _added(state.people, name, 1)
    yield from _added((ticket.aboard or []) if ticket else [], name, -1)
    yield from _added(state.cargo, name, 1)


def _added(entries: Iterable[Person | Aboard], vehicle: str, sign: int) -> Iterable[PlacedChange | None]:
    for entry in entries:
        if entry.vehicle == vehicle and entry.weight is None:
            yield None
        elif entry.vehicle == vehicle and entry.weight is not None:
            what = entry.who if isinstance(entry, Person) else entry.what
            weight = entry.weight if sign > 0 else entry.weight * sign
            yield PlacedChange(what, weight, entry.at, entry.left)


def _resting(
    scale: _Scale,
    name: str,
    vehicles: dict[str, VehicleLoad],
    changes: dict[str, tuple[PlacedChange, ...] | None],
) -> list[PlacedChange] | None:
    """What stands on a vehicle from all that is joined to it; None where one of them is not known."""
    found: list[PlacedChange] = []
    for coupling in (one for one in scale.rig.couplings if one.ahead == name):
        was_coupled, behind = scale.was_coupled(coupling), vehicles[coupling.behind]
        span = coupling_span(scale.rig.vehicles[name])
        is_asked = coupling.how in WITH_A_WEIGHT or coupling.is_blank("weight")
        if coupling.weight is None and not was_coupled and is_asked:
            return None
        if coupling.weight is not None and not was_coupled:
            least = _ZERO if was_coupled is None else None
            found.append(PlacedChange(coupling.how, coupling.weight, coupling.at, _CENTER, least, span))
        vehicle = scale.rig.vehicles[coupling.behind]
        first = next(iter(vehicle.axles), "")
        resting = Resting(
            coupling,
            vehicle,
            scale.tickets[coupling.behind],
            behind.down,
            behind.down_least,
            behind.down_change,
            changes[coupling.behind],
            {axle: _allowance(entry, is_first=axle == first) for axle, entry in vehicle.axles.items()},
            span if coupling.how in CARRYING else span_of(scale.rig.vehicles[name]),
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
    bars = NO_BARS if state.as_the_ticket else _distribution(scale, name)
    if bars is None:
        bars, differences = NO_BARS, None
    readings = ticket.weights[name].axles if ticket else {}
    axles = {}
    for axle_name, axle in rig.vehicles[name].axles.items():
        changes = None if differences is None else terms_on(supports, axle_name, differences)
        if changes is not None and axle_name in bars.axles:
            changes.append(Term(Phrase(kinds.BARS), bars.axles[axle_name], _CENTER))
        allowance = _allowance(axle, is_first=axle_name == supports.first_axle)
        axles[axle_name] = _axle_load(axle, readings.get(axle_name), changes, allowance)
    # Bars move weight onto a trailer's axles, and none into the trailer.
    added = _NOTHING if carrying_coupling(rig, name) else bars.total
    total = None if differences is None else _total(scale, name, differences, added.most)
    spread = sum(number_in(c.weight - c.least, "pound") for c in differences or () if c.least is not None)
    spread += added.most - added.least
    least = None if total is None else total - registry.Quantity(spread, _POUND)
    down, down_least, change = _down(scale, name, differences, axles, (total, least))
    on_the_road = _on_the_road(scale, name, state, (total, down, bars.total.most))
    return VehicleLoad(axles, total, down, down_least, change, on_the_road, least)


def _down(
    scale: _Scale,
    name: str,
    differences: list[PlacedChange] | None,
    axles: dict[str, AxleLoad],
    total: tuple[Quantity | None, Quantity | None],
) -> tuple[Quantity | None, Quantity | None, Bounds | None]:
    """What a vehicle puts on the one ahead or beneath it, at the most and least, and what is no ticket's."""
    how = next((one.how for one in scale.rig.couplings if one.behind == name), "")
    supports, moved = scale.supports[name], differences or []
    if how == CARRIED:
        return *total, _NOTHING
    if how == ON_A_DOLLY:
        first = axles[supports.first_axle]
        found = terms_on(supports, supports.first_axle, moved)
        shares = None if found is None else sum_of(change.load for change in found)
        return first.load, first.least, shares
    if how not in CARRYING:
        return _ZERO, _ZERO, _NOTHING
    on_coupler = all_known(supports.on_coupler(one) for one in moved)
    weighed = supports.down_load_weighed
    if differences is None or on_coupler is None or weighed is None:
        return None, None, None if differences is None or on_coupler is None else sum_of(on_coupler)
    change = sum_of(on_coupler)
    most, least = (weighed + registry.Quantity(pounds, _POUND) for pounds in (change.most, change.least))
    return most, least, change


def _on_the_road(
    scale: _Scale,
    name: str,
    state: TripState,
    weights: tuple[Quantity | None, Quantity | None, float],
) -> Quantity | None:
    total, down, by_bars = weights
    coupling = next((one for one in scale.rig.couplings if one.behind == name), None)
    if coupling is None or (state.as_the_ticket and not scale.was_coupled(coupling)):
        return total
    if coupling.how == CARRIED:
        return _ZERO
    if total is None or down is None:
        return None
    # Bars move weight back onto a trailer's own axles; what they move ahead stays with the vehicle ahead.
    moved = registry.Quantity(by_bars, _POUND) if coupling.how in CARRYING else _ZERO
    on_the_road: Quantity = total - down + moved
    return on_the_road


def _total(scale: _Scale, name: str, differences: list[PlacedChange], by_bars: float) -> Quantity | None:
    """What the vehicle weighs: its axles and its down load as weighed, and all that differs."""
    supports, ticket = scale.supports[name], scale.tickets[name]
    start = supports.down_load_weighed if supports.axles else weighed_total(ticket, name)
    readings = ticket.weights[name].axles if ticket else {}
    weighed = all_known(_weighed(readings.get(axle)) for axle in supports.axles)
    if start is None or weighed is None:
        return None
    moved = registry.Quantity(by_bars, _POUND)
    return total_load(start, [*weighed, *(change.weight for change in differences), moved])


def _weighed(reading: AxleWeights | None) -> Quantity | None:
    if reading is None:
        return None
    ends = ends_of(reading)
    return ends.axle if ends else reading.axle


def _axle_load(
    axle: Axle, reading: AxleWeights | None, changes: list[Term] | None, allowance: Quantity
) -> AxleLoad:
    ends = ends_of(reading) if reading is not None else None
    weighed = ends.axle if ends else reading.axle if reading else None
    if weighed is None or changes is None:
        half_rating = None if axle.rating is None else axle.rating / 2
        return AxleLoad(None, half_rating, "either", "nothing", Phrase(kinds.HALF_RATING))
    change = sum_of(one.load for one in changes)
    load, least = (weighed + registry.Quantity(pounds, _POUND) for pounds in (change.most, change.least))
    if ends is not None:
        worked = worst_end(weighed, ends, changes, axle.track)
        rule = Phrase(kinds.END_BY[worked.end.rule])
        return AxleLoad(load, worked.end.load, worked.end.side, "ends", rule, least, worked)
    # Either end may be the heavier one, so that what lies off center may come on top of the allowance.
    half = heavier_end_assumed(weighed, allowance)
    worked = worst_end(weighed, WheelEnds(half, half), changes, axle.track)
    rule = Phrase(kinds.HALF_AND_MORE, {"allowance": allowance})
    return AxleLoad(load, worked.end.load, "either", "axle", rule, least, worked)


def _allowance(axle: Axle, *, is_first: bool) -> Quantity:
    if axle.heavier_end_allowance is not None:
        return axle.heavier_end_allowance
    return _ALLOWANCE_FIRST if is_first else _ALLOWANCE_OTHER


def _distribution(scale: _Scale, name: str) -> Moved | None:
    """What the bars move on a vehicle; None where a place it follows from is not known."""
    for coupling in scale.rig.couplings:
        was_coupled = scale.was_coupled(coupling)
        if coupling.distribution and not was_coupled and name in {coupling.ahead, coupling.behind}:
            return moved_by_bars(coupling, name, scale.supports, is_sure=was_coupled is False)
    return NO_BARS
