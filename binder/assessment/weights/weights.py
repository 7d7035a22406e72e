"""Weights in every state of the trip as it is walked: each load beside its rating, and what is left."""

from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from types import MappingProxyType
from typing import NamedTuple, TypeAlias

from binder.assessment.ledger import (
    Fact,
    Figure,
    Finding,
    Input,
    Key,
    Ledger,
    Phrase,
    Place,
    all_known,
    room_or_over,
)
from binder.assessment.supplies.walk import SupplyWalk, WalkedMoment, walked_trip
from binder.assessment.weights import kinds
from binder.assessment.weights.at_the_hose import assess_hose
from binder.assessment.weights.kinds import RatedKinds
from binder.assessment.weights.loads import AxleLoad, StateLoads
from binder.assessment.weights.resting import is_combination, weighed_total
from binder.assessment.weights.states import TankName, TripState, ticket_of, trip_states
from binder.assessment.weights.tickets import find_ticket_doubts
from binder.calculations.bounds import is_at_least
from binder.models.load import Profile
from binder.models.rig import AxleWeights, ScaleTicket
from binder.models.vehicles import Axle
from binder.quantities import Quantity, number_in, registry


class _InState(NamedTuple):
    """A load in one state, at its most and at its least."""

    state: StateLoads
    load: Quantity | None
    least: Quantity | None
    inputs: tuple[Input, ...]


class _Weighed(NamedTuple):
    """One thing that has a load in each state and one rating: an axle, a vehicle, the combination."""

    kinds: RatedKinds
    subject: tuple[str, ...]
    rating: Quantity | None
    place: Place
    loads: tuple["_InState", ...]
    is_rating_expected: bool = True

    @property
    def rating_input(self) -> Input:
        return Input(self.kinds.rating, self.rating, self.place)

    def load_key(self, state: StateLoads) -> Key:
        return self.kinds.load.of(*self.subject, state.state.key)


_Volumes: TypeAlias = Mapping[TankName, Quantity | None]


def walked_states(profile: Profile, walk: SupplyWalk) -> tuple[TripState, ...]:
    """States of the trip in order, each stop with what the tanks hold there as far as the walk knows it."""
    frugal = walked_trip(profile, is_frugal=True, rates=walk.rates)
    names = {(item.vehicle, item.words): name for name, item in walk.tanks.tanks.items()}
    found = {
        most.key.replace(".", "_"): (_volumes(most, names), _volumes(least, names))
        for most, least in zip(walk.moments, frugal.moments, strict=True)
    }
    return tuple(
        _walked(state, *found[state.key]) if state.key in found else state for state in trip_states(profile)
    )


def _walked(state: TripState, walked: _Volumes, others: _Volumes) -> TripState:
    return state._replace(volumes=MappingProxyType({**state.volumes, **walked}), others=others)


def _volumes(item: WalkedMoment, names: Mapping[TankName, str]) -> _Volumes:
    levels = {place: item.moment.held[name].level for place, name in names.items()}
    return {
        place: None if level is None else registry.Quantity(level, "gallon")
        for place, level in levels.items()
    }


def assess_weights(profile: Profile, on: date, states: tuple[StateLoads, ...], ledger: Ledger) -> None:
    """Enter load and margin of every axle, vehicle and the combination in every state."""
    hose = assess_hose(profile.rig, states[-1], ledger)
    for thing in (*_axles(profile, states), *_vehicles(profile, states), _combination(profile, states)):
        for one in thing.loads:
            _enter(thing, one, ledger)
        _enter_heaviest(thing, hose, ledger)
    find_ticket_doubts(profile, on, ledger)
    _enter_ends(profile, states, ledger)
    _find_uneven_ends(profile, states, ledger)


def _axles(profile: Profile, states: tuple[StateLoads, ...]) -> Iterator[_Weighed]:
    for vehicle, entry in profile.rig.vehicles.items():
        ticket = ticket_of(profile.rig, vehicle)
        for name, axle in entry.axles.items():
            reading = ticket.weights[vehicle].axles.get(name) if ticket else None
            loads = []
            for state in states:
                load = state.vehicles[vehicle].axles[name]
                inputs = tuple(_axle_inputs(vehicle, state, load, ticket, reading))
                loads.append(_InState(state, load.load, load.least, inputs))
            place = Place("rig.yaml", ("vehicles", vehicle, "axles", name, "rating"))
            yield _Weighed(kinds.AXLE, (vehicle, name), axle.rating, place, tuple(loads))


def _axle_inputs(
    vehicle: str, state: StateLoads, load: AxleLoad, ticket: ScaleTicket | None, reading: AxleWeights | None
) -> Iterator[Input]:
    if ticket and reading:
        weighed = reading.axle
        if weighed is None and reading.left is not None and reading.right is not None:
            weighed = reading.left + reading.right
        yield Input(kinds.ON_THE_SCALE, weighed, Phrase(kinds.TICKET_OF, {"on": ticket.on}))
    yield from _change_inputs(vehicle, state)
    yield Input(kinds.KNOWN_BY, kinds.WEIGHED[load.weighed], load.rule)


def _change_inputs(vehicle: str, state: StateLoads) -> Iterator[Input]:
    for change in state.changes.get(vehicle, ()):
        if change.weight.m:
            kind = kinds.CHANGE_SOMEWHERE if change.at is None else kinds.CHANGE
            yield Input(kind, change.weight, facts={"what": change.what, "at": change.at})


def _vehicles(profile: Profile, states: tuple[StateLoads, ...]) -> Iterator[_Weighed]:
    for vehicle, entry in profile.rig.vehicles.items():
        loads = tuple(
            _InState(state, load.total, load.least, _total_inputs(profile, vehicle, state))
            for state in states
            for load in (state.vehicles[vehicle],)
        )
        rating, place = entry.label.gross_vehicle_weight_rating, _label_place(vehicle, "vehicle")
        # A camper's label may give none.
        is_expected = bool(entry.axles) or "gross_vehicle_weight_rating" in entry.label.model_fields_set
        yield _Weighed(kinds.TOTAL, (vehicle,), rating, place, loads, is_expected)


def _label_place(vehicle: str, of: str) -> Place:
    return Place("rig.yaml", ("vehicles", vehicle, "label", f"gross_{of}_weight_rating"))


def _total_inputs(profile: Profile, vehicle: str, state: StateLoads) -> tuple[Input, ...]:
    axles = tuple(state.vehicles[vehicle].axles)
    if axles:
        return (Input(kinds.SUM_OF_AXLES, axles),)
    # Without axles it was weighed whole, and all that differs is told here.
    ticket = ticket_of(profile.rig, vehicle)
    origin = Phrase(kinds.TICKET_OF, {"on": ticket.on}) if ticket else Phrase(kinds.NEVER_WEIGHED_ITSELF)
    weighed = Input(kinds.ON_THE_SCALE, weighed_total(ticket, vehicle), origin)
    return (weighed, *_change_inputs(vehicle, state))


def _combination(profile: Profile, states: tuple[StateLoads, ...]) -> _Weighed:
    first, vehicle = next(iter(profile.rig.vehicles.items()))
    label, rating = vehicle.label, vehicle.label.gross_combination_weight_rating
    inputs = (Input(kinds.SUM_OF_VEHICLES, tuple(profile.rig.vehicles)),)
    loads = tuple(_InState(one, one.combination, one.least_combination, inputs) for one in states)
    place = _label_place(first, "combination")
    is_expected = is_combination(profile.rig) or label.is_blank("gross_combination_weight_rating")
    return _Weighed(kinds.COMBINATION, (), rating, place, loads, is_expected)


def _enter(thing: _Weighed, found: _InState, ledger: Ledger) -> None:
    state, load, _, inputs = found
    key = thing.load_key(state)
    ledger.enter(Figure(key, load, inputs, "weighed" if state.state.as_the_ticket else ""))
    margin = None if load is None or thing.rating is None else thing.rating - load
    given = (thing.rating_input, Input(kinds.LOAD_INPUT, load, key))
    margin_key = thing.kinds.margin.of(*key.subject)
    ledger.enter(Figure(margin_key, margin, given, slack=_room(margin, kinds.ITS_RATING)))


def _room(margin: Quantity | None, limit: str) -> Phrase | None:
    return room_or_over(margin, kinds.ROOM_UNDER, kinds.ROOM_OVER, limit=limit)


def _enter_heaviest(thing: _Weighed, hose: Phrase, ledger: Ledger) -> None:
    if thing.rating is None and thing.is_rating_expected:
        place: dict[str, Fact] = {"place": thing.rating_input.origin}
        ledger.find(Finding(thing.kinds.unrated, thing.kinds.unrated.of(*thing.subject), place))
    ledger.find(*_verdict(thing, hose))
    known = [(state, load) for state, load, *_ in thing.loads if load is not None]
    if not known:
        return
    state, load = max(known, key=lambda pair: number_in(pair[1], "pound"))
    key, moment = thing.kinds.heaviest.of(*thing.subject), {"moment": state.state.title, **_reached(thing)}
    given = (Input(kinds.LOAD_THEN, load, thing.load_key(state)), thing.rating_input)
    if len(known) == len(thing.loads):
        margin = None if thing.rating is None else thing.rating - load
        ledger.enter(Figure(key, load, given, "known", moment, _room(margin, kinds.ITS_RATING)))
    else:
        # The heaviest of the moments that are known may not be the heaviest of all.
        ledger.enter(Figure(key, None, given, facts=moment))


def _reached(thing: _Weighed) -> dict[str, Fact]:
    """The heaviest of the states that are reached, and what that is at the least."""
    reached = [one for one in thing.loads if one.state.state.is_reached]
    ends = {"reached": [one.load for one in reached], "least": [one.least for one in reached]}
    return {name: max(all_known(loads) or (), default=None) for name, loads in ends.items()}


def _verdict(thing: _Weighed, hose: Phrase) -> Iterator[Finding]:
    """What passes the rating in a state that is reached forbids; what stays on paper asks for attention.

    Where a place or level is not known, the least it can be must pass it to forbid.
    """
    rating, key = thing.rating, thing.kinds.heaviest.of(*thing.subject)
    if rating is None:
        return
    reached = [one for one in thing.loads if one.state.state.is_reached]
    surely, perhaps = _most_over(rating, reached, is_sure=True), _most_over(rating, reached, is_sure=False)
    on_paper = _most_over(rating, thing.loads, is_sure=False)
    unknown = [one.state.state.title for one in reached if one.load is None]
    if surely:
        yield Finding(thing.kinds.over, key, surely)
    elif perhaps:
        yield Finding(thing.kinds.over, key, perhaps, "assumed")
    elif unknown:
        if thing.is_rating_expected:
            yield Finding(thing.kinds.unknown, key, {"moment": unknown[0]})
    elif on_paper:
        room = rating - max(load for _, load, *_ in reached if load is not None)
        yield Finding(thing.kinds.over, key, {**on_paper, "room": room, "hose": hose}, "not reached")


def _most_over(rating: Quantity, loads: Iterable[_InState], *, is_sure: bool) -> dict[str, Fact]:
    """By how much and when the most, or the least, that something can weigh is over its rating."""
    weights = [(one.least if is_sure else one.load, one.state.state.title) for one in loads]
    over = [(load - rating, title) for load, title in weights if load and not is_at_least(rating, load)]
    more, moment = max(over, key=lambda pair: number_in(pair[0], "pound"), default=(None, None))
    return {} if more is None else {"over": more, "moment": moment}


def _enter_ends(profile: Profile, states: tuple[StateLoads, ...], ledger: Ledger) -> None:
    """The heavier wheel end of every axle in every state; no published limit compares left and right."""
    for state in states:
        for vehicle, entry in profile.rig.vehicles.items():
            for name, axle in entry.axles.items():
                load = state.vehicles[vehicle].axles[name]
                half = None if axle.rating is None else axle.rating / 2
                given = (Input(kinds.HALF_RATING_INPUT, half),)
                facts: dict[str, Fact] = {"side": load.side, "by": load.rule}
                key = kinds.HEAVIER_END.of(vehicle, name, state.state.key)
                slack = _end_slack(load, half)
                # What is taken where nothing was weighed is no load.
                end = None if load.weighed == "nothing" else load.end
                ledger.enter(Figure(key, end, given, load.weighed, facts, slack))


def _end_slack(load: AxleLoad, half: Quantity | None) -> Phrase | None:
    if load.end is None or half is None or load.weighed == "nothing":
        return None
    return _room(half - load.end, kinds.HALF_RATING)


def _find_uneven_ends(profile: Profile, states: tuple[StateLoads, ...], ledger: Ledger) -> None:
    for vehicle, entry in profile.rig.vehicles.items():
        for name, axle in entry.axles.items():
            loads = ((state.vehicles[vehicle].axles[name], state.state.title) for state in states)
            over = [
                (more, load, title) for load, title in loads if (more := _over_half(axle, load)) is not None
            ]
            if over:
                more, load, title = max(over, key=lambda found: number_in(found[0], "pound"))
                facts: dict[str, Fact] = {"side": load.side, "more": more, "moment": title}
                case = "weighed" if load.is_side_known else ""
                ledger.find(Finding(kinds.UNEVEN_ENDS, kinds.UNEVEN_ENDS.of(vehicle, name), facts, case))


def _over_half(axle: Axle, load: AxleLoad) -> Quantity | None:
    if load.end is None or axle.rating is None or load.weighed == "nothing":
        return None
    if load.load is not None and not is_at_least(axle.rating, load.load):
        return None  # The axle itself is over its rating, and that is told.
    half: Quantity = axle.rating / 2
    return None if is_at_least(half, load.end) else load.end - half
