"""What the vehicle that drives weighs alone, with nothing behind it: a wrecker lifts it so."""

from collections.abc import Iterable

from binder.assessment.conditions import driven
from binder.assessment.ledger import Fact, Figure, Key, Ledger
from binder.assessment.weights import kinds
from binder.assessment.weights.loads import StateLoads, loads_in_states
from binder.assessment.weights.resting import CARRYING
from binder.assessment.weights.states import ticket_of
from binder.models.load import Profile
from binder.models.rig import Coupling, Rig
from binder.quantities import Quantity, number_in


def assess_alone(profile: Profile, states: tuple[StateLoads, ...], ledger: Ledger) -> None:
    """Enter its loads with nothing on its coupling; where nothing presses there they are those of towing."""
    name, vehicle = driven(profile.rig)
    if not any(one.ahead == name and one.how in CARRYING for one in profile.rig.couplings):
        return
    ticket = ticket_of(profile.rig, name)
    # What pressed, or may have pressed, on its coupling on the scale cannot be taken out of what was read.
    was_alone = ticket is None or ticket.state.coupled is False
    alone = loads_in_states(_apart(profile.rig), [one.state for one in states]) if was_alone else ()
    for axle in vehicle.axles:
        loads = ((one.vehicles[name].axles[axle].load, one) for one in alone)
        _enter(kinds.AXLE_ALONE.of(name, axle), loads, ledger)
    _enter(kinds.TOTAL_ALONE.of(name), ((one.vehicles[name].total, one) for one in alone), ledger)


def _apart(rig: Rig) -> Rig:
    """The same vehicles with nothing on a coupling; a bar or hitch with a weight stays where it hangs."""
    return rig.model_copy(update={"couplings": [_freed(one) for one in rig.couplings if not _is_mount(one)]})


def _is_mount(one: Coupling) -> bool:
    """A ball mount was in its receiver on the scale, unless its weight is asked for."""
    return one.how == "ball" and one.weight is None and not one.is_blank("weight")


def _freed(one: Coupling) -> Coupling:
    return one.model_copy(update={"how": "tow bar"}) if one.how in CARRYING else one


def _enter(key: Key, loads: Iterable[tuple[Quantity | None, StateLoads]], ledger: Ledger) -> None:
    every = list(loads)
    known = [(load, one) for load, one in every if load is not None]
    if not known or len(known) < len(every):
        ledger.enter(Figure(key, None, case="unknown"))
        return
    load, state = max(known, key=lambda pair: number_in(pair[0], "pound"))
    facts: dict[str, Fact] = {"moment": state.state.title}
    ledger.enter(Figure(key, load, facts=facts))
