"""Weights in every state of the trip: each load beside its rating, with the margin that is left."""

from collections.abc import Iterator
from datetime import date
from typing import NamedTuple

from binder.assessment.figures import Figure, Finding, Input, Ledger
from binder.assessment.weights.loads import AxleLoad, StateLoads
from binder.assessment.weights.resting import PlacedChange, is_combination, weighed_total
from binder.assessment.weights.states import levels_ticket_of, ticket_of
from binder.assessment.weights.tickets import ticket_doubts
from binder.assessment.wording import Wording
from binder.calculations.bounds import is_at_least
from binder.models.load import Profile
from binder.models.vehicles import Axle
from binder.quantities import Quantity, number_in

_LABELS = ("Weigh again after a change; vehicle labels come first.",)


class _Weighed(NamedTuple):
    """One thing that has a load in each state and one rating: an axle, a vehicle, the combination."""

    wording: Wording
    key: str
    name: str
    rating: Quantity | None
    rating_name: str
    rating_origin: str
    loads: tuple[tuple[StateLoads, Quantity | None, tuple[Input, ...]], ...]
    order: int = 1
    is_rating_expected: bool = True


def assess_weights(profile: Profile, on: date, states: tuple[StateLoads, ...], ledger: Ledger) -> None:
    """Enter load and margin of every axle, vehicle and the combination in every state."""
    wording = Wording(profile.rig.units)
    for thing in (*_axles(profile, states), *_vehicles(profile, states), _combination(profile, states)):
        for state, load, inputs in thing.loads:
            _enter(thing, state, load, inputs, ledger)
        _enter_heaviest(thing, ledger)
    for name in profile.rig.vehicles:
        _find_ticket_findings(profile, name, on, ledger)
    _enter_ends(profile, states, wording, ledger)


def _axles(profile: Profile, states: tuple[StateLoads, ...]) -> Iterator[_Weighed]:
    for vehicle, entry in profile.rig.vehicles.items():
        for axle_name, axle in entry.axles.items():
            loads = []
            for state in states:
                load = state.vehicles[vehicle].axles[axle_name]
                loads.append((state, load.load, _axle_inputs(profile, vehicle, axle_name, state, load)))
            yield _Weighed(
                Wording(profile.rig.units),
                f"weights.{vehicle}.{axle_name}".replace(" ", "_"),
                f"{vehicle}, {axle_name}",
                axle.rating,
                "gross axle weight rating",
                f"rig.yaml vehicles.{vehicle}.axles.{axle_name}.rating",
                tuple(loads),
            )


def _axle_inputs(
    profile: Profile, vehicle: str, axle: str, state: StateLoads, load: AxleLoad
) -> tuple[Input, ...]:
    wording = Wording(profile.rig.units)
    ticket = ticket_of(profile.rig, vehicle)
    reading = ticket.weights[vehicle].axles.get(axle) if ticket else None
    inputs = []
    if ticket and reading:
        weighed = reading.axle
        if weighed is None and reading.left is not None and reading.right is not None:
            weighed = reading.left + reading.right
        text = wording.weight(weighed, "nearest") if weighed is not None else "not known"
        inputs.append(Input("on the scale", text, f"ticket of {ticket.on}"))
    inputs += _change_inputs(vehicle, state, wording)
    inputs.append(Input("known by", load.knowledge, load.rule))
    return tuple(inputs)


def _change_inputs(vehicle: str, state: StateLoads, wording: Wording) -> Iterator[Input]:
    for change in state.changes.get(vehicle, ()):
        if change.weight.m:
            text = wording.weight(change.weight, "nearest")
            yield Input(change.what, text, _difference_words(change, wording))


def _difference_words(change: PlacedChange, wording: Wording) -> str:
    if change.at is None:
        return "difference to the ticket; its place is not known: all of it counts where it is added"
    return f"difference to the ticket, at {wording.length(change.at, 'nearest')} from the first axle"


def _vehicles(profile: Profile, states: tuple[StateLoads, ...]) -> Iterator[_Weighed]:
    for vehicle, entry in profile.rig.vehicles.items():
        loads = []
        for state in states:
            total = state.vehicles[vehicle].total
            loads.append((state, total, _total_inputs(profile, vehicle, state)))
        yield _Weighed(
            Wording(profile.rig.units),
            f"weights.{vehicle}.total".replace(" ", "_"),
            f"{vehicle}, total",
            entry.label.gross_vehicle_weight_rating,
            "gross vehicle weight rating",
            f"rig.yaml vehicles.{vehicle}.label.gross_vehicle_weight_rating",
            tuple(loads),
            is_rating_expected=bool(entry.axles),
        )


def _total_inputs(profile: Profile, vehicle: str, state: StateLoads) -> tuple[Input, ...]:
    axles = ", ".join(state.vehicles[vehicle].axles)
    if axles:
        return (Input("sum of", axles, f"weights.{vehicle}"),)
    # Without axles it was weighed whole, and all that differs is told here.
    wording, ticket = Wording(profile.rig.units), ticket_of(profile.rig, vehicle)
    weighed = weighed_total(ticket, vehicle)
    text = "not known" if weighed is None else wording.weight(weighed, "nearest")
    return (
        Input("on the scale", text, f"ticket of {ticket.on}" if ticket else "never weighed by itself"),
        *_change_inputs(vehicle, state, wording),
    )


def _combination(profile: Profile, states: tuple[StateLoads, ...]) -> _Weighed:
    first = next(iter(profile.rig.vehicles))
    label = profile.rig.vehicles[first].label
    inputs = (Input("sum of", ", ".join(profile.rig.vehicles), "weights, totals on the ground"),)
    return _Weighed(
        Wording(profile.rig.units),
        "weights.combination",
        "combination",
        label.gross_combination_weight_rating,
        "gross combination weight rating",
        f"rig.yaml vehicles.{first}.label.gross_combination_weight_rating",
        tuple((state, state.combination, inputs) for state in states),
        order=4,
        is_rating_expected=is_combination(profile.rig),
    )


def _enter(
    thing: _Weighed, state: StateLoads, load: Quantity | None, inputs: tuple[Input, ...], ledger: Ledger
) -> None:
    wording = thing.wording
    key = f"{thing.key}.{state.state.key}"
    is_weighed = state.state.as_the_ticket
    rule = "As read on the scale." if is_weighed else "Scale ticket and every difference, moved by statics."
    ledger.add(
        Figure(
            f"{key}.load", load, "measured" if is_weighed else "calculated", rule, "statics", inputs, _LABELS
        )
    )
    margin = None if load is None or thing.rating is None else thing.rating - load
    ledger.add(
        Figure(
            f"{key}.margin",
            margin,
            "calculated",
            f"The {thing.rating_name} less the load.",
            "49 CFR 571.3",
            (_rating_input(thing), Input("load", _or_blank(load, wording, "up"), f"{key}.load")),
            _LABELS,
            _room(margin, "its rating", wording),
        )
    )


def _room(margin: Quantity | None, limit: str, wording: Wording) -> str:
    if margin is None:
        return ""
    if margin.m < 0:
        over: Quantity = margin * -1
        return f"{wording.weight(over, 'up')} over {limit}"
    return f"{wording.weight(margin, 'down')} under {limit}"


def _rating_input(thing: _Weighed) -> Input:
    return Input(thing.rating_name, _or_blank(thing.rating, thing.wording, "down"), thing.rating_origin)


def _or_blank(value: Quantity | None, wording: Wording, rounding: str) -> str:
    if value is None:
        return "not known"
    return wording.weight(value, "up" if rounding == "up" else "down")


def _enter_heaviest(thing: _Weighed, ledger: Ledger) -> None:
    if thing.rating is None and thing.is_rating_expected:
        text = f"{thing.name}: {thing.rating_name} not known"
        ledger.find(Finding("missing", thing.order, thing.key, text, "read the label"))
    known = [(state, load) for state, load, _ in thing.loads if load is not None]
    if not known:
        return
    state, load = max(known, key=lambda pair: number_in(pair[1], "pound"))
    margin = None if thing.rating is None else thing.rating - load
    key = f"{thing.key}.heaviest.load"
    there = Input("load then", _or_blank(load, thing.wording, "up"), f"{thing.key}.{state.state.key}.load")
    slack, given = _room(margin, "its rating", thing.wording), (there, _rating_input(thing))
    if len(known) == len(thing.loads):
        rule = f"Its heaviest moment: {state.state.title}."
        ledger.add(Figure(key, load, "calculated", rule, "statics", given, _LABELS, slack))
    else:
        # The heaviest of the moments that are known may not be the heaviest of all.
        rule = f"Its load is not known in every state of the trip; at least that of: {state.state.title}."
        ledger.add(Figure(key, None, "calculated", rule, "statics", given, _LABELS))
    if thing.rating is not None and not is_at_least(thing.rating, load):
        over = thing.wording.weight(load - thing.rating, "up")
        text = f"{thing.name}: {over} over its {thing.rating_name} ({state.state.title})"
        helps = "take weight off, carry less water, or move it to another axle with margin"
        ledger.find(Finding("do not drive", thing.order, key, text, helps))


def _find_ticket_findings(profile: Profile, vehicle: str, on: date, ledger: Ledger) -> None:
    key = f"weights.{vehicle}".replace(" ", "_")
    if levels_ticket_of(profile.rig, vehicle) is None:
        how = (
            "each wheel end, loaded for travel"
            if profile.rig.vehicles[vehicle].axles
            else "or its pickup with it"
        )
        ledger.find(
            Finding(
                "missing",
                6,
                key,
                f"{vehicle}: no scale ticket",
                f"weigh it, {how}",
            )
        )
        return
    for doubt in ticket_doubts(profile, vehicle, on):
        ledger.find(Finding("attention", 6, key, f"{vehicle}: {doubt}", "weigh it again, in travel state"))


def _enter_ends(profile: Profile, states: tuple[StateLoads, ...], wording: Wording, ledger: Ledger) -> None:
    """The heavier wheel end of every axle in every state; no published limit compares left and right."""
    for state in states:
        for vehicle, entry in profile.rig.vehicles.items():
            for axle_name, axle in entry.axles.items():
                load = state.vehicles[vehicle].axles[axle_name]
                key = f"weights.{vehicle}.{axle_name}.{state.state.key}.heavier_end".replace(" ", "_")
                half = None if axle.rating is None else axle.rating / 2
                slack = _end_slack(load, half, wording)
                ledger.add(
                    Figure(
                        key,
                        load.end,
                        "calculated" if load.knowledge == "wheel ends weighed" else "assumed",
                        f"The heavier wheel end ({load.side}), by {load.rule}.",
                        "statics; practice",
                        (
                            Input(
                                "half the axle's rating",
                                _or_blank(half, wording, "down"),
                                f"{vehicle}, {axle_name}",
                            ),
                        ),
                        slack=slack,
                    )
                )
    _find_uneven_ends(profile, states, wording, ledger)


def _end_slack(load: AxleLoad, half: Quantity | None, wording: Wording) -> str:
    if load.end is None or half is None or load.knowledge == "not weighed":
        return ""
    return _room(half - load.end, "half the axle's rating", wording)


def _find_uneven_ends(
    profile: Profile, states: tuple[StateLoads, ...], wording: Wording, ledger: Ledger
) -> None:
    for vehicle, entry in profile.rig.vehicles.items():
        for axle_name, axle in entry.axles.items():
            over = list(_over_half(axle, vehicle, axle_name, states))
            if not over:
                continue
            excess, side, title = max(over, key=lambda found: number_in(found[0], "pound"))
            more = wording.weight(excess, "up")
            ledger.find(
                Finding(
                    "attention",
                    1,
                    f"weights.{vehicle}.{axle_name}".replace(" ", "_"),
                    f"{vehicle}, {axle_name}: the heavier end ({_side(side)}) carries {more} more than half"
                    f" the axle's rating ({title})",
                    "move weight to the other side"
                    if side in {"left", "right"}
                    else "weigh each wheel end, or leave weight",
                )
            )


def _side(side: str) -> str:
    return side if side in {"left", "right"} else "assumed: only the axle was weighed"


def _over_half(
    axle: Axle, vehicle: str, axle_name: str, states: tuple[StateLoads, ...]
) -> Iterator[tuple[Quantity, str, str]]:
    for state in states:
        load = state.vehicles[vehicle].axles[axle_name]
        if load.end is None or axle.rating is None or load.knowledge == "not weighed":
            continue
        if load.load is not None and not is_at_least(axle.rating, load.load):
            continue  # The axle itself is over its rating, and that is told.
        if not is_at_least(axle.rating / 2, load.end):
            yield load.end - axle.rating / 2, load.side, state.state.title
