"""Length of the whole combination, coupled."""

from collections.abc import Iterator

from binder.assessment.coupling import kinds
from binder.assessment.ledger import Figure, Finding, Input, Ledger, Phrase, Place
from binder.assessment.weights.resting import CARRIED, ON_A_DOLLY, carrier_of
from binder.models.load import Profile
from binder.models.rig import Coupling
from binder.models.vehicles import Vehicle
from binder.quantities import Quantity, is_quantity

_OVER_THE_BED = frozenset({"fifth wheel", "gooseneck", ON_A_DOLLY})


def assess_combination_length(profile: Profile, ledger: Ledger) -> None:
    """Enter the length of the combination, and find what is missing for it."""
    key, parts = kinds.COMBINATION_LENGTH.of(), tuple(_parts(profile))
    for part in parts:
        if part.value is None:
            facts = {**part.facts, "origin": part.origin}
            told = {"what": Phrase(part.kind.name, facts), "origin": Phrase(part.kind.origin, facts)}
            ledger.find(Finding(kinds.LENGTH_MISSING, key, told))
    known = tuple(part for part in parts if part.value is not None)
    lengths = [part.value for part in known if is_quantity(part.value)]
    value = sum(lengths[1:], start=lengths[0]) if len(known) == len(parts) else None
    ledger.enter(Figure(key, value, known))


def _parts(profile: Profile) -> Iterator[Input]:
    vehicles, couplings = profile.rig.vehicles, profile.rig.couplings
    over_bed = {item.behind: item for item in couplings if item.how in _OVER_THE_BED}
    shortened = {item.ahead: item for item in over_bed.values()}
    for name, vehicle in vehicles.items():
        if carrier_of(profile.rig, name):
            continue  # What carries it is measured with it on.
        if name in shortened:
            yield from _front_to_pin(name, vehicle, shortened[name])
        elif name in over_bed:
            yield from _pin_to_rear(name, vehicle, over_bed[name])
        else:
            length, facts = vehicle.size.overall_length, {"vehicle": name}
            yield Input(kinds.VEHICLE_LENGTH, length, _place(name, "size", "overall_length"), facts)
    for number, item in enumerate(couplings, start=1):
        if item.how not in {*_OVER_THE_BED, CARRIED} and (item.length is not None or item.how != "ball"):
            yield Input(kinds.COUPLING_LENGTH, item.length, facts={"how": item.how, "number": number})


def _front_to_pin(name: str, vehicle: Vehicle, coupling: Coupling) -> Iterator[Input]:
    facts, place = {"vehicle": name}, _place(name, "size", "front_overhang")
    yield Input(kinds.FRONT_OVERHANG, vehicle.size.front_overhang, place, facts)
    joint = kinds.FIRST_AXLE_PLACE if coupling.how == ON_A_DOLLY else kinds.PIN_PLACE
    yield Input(joint, coupling.at, facts=facts)


def _pin_to_rear(name: str, vehicle: Vehicle, coupling: Coupling) -> Iterator[Input]:
    facts, behind = {"vehicle": name}, coupling.at_behind
    ahead: Quantity | None = None if behind is None else -1 * behind
    if coupling.how != ON_A_DOLLY:
        yield Input(kinds.PIN_TO_FIRST_AXLE, ahead, facts=facts)
    last = max((axle.at for axle in vehicle.axles.values()), default=None)
    yield Input(kinds.FIRST_TO_LAST_AXLE, last, _place(name, "axles"), facts)
    place = _place(name, "size", "rear_overhang")
    yield Input(kinds.REAR_OVERHANG, vehicle.size.rear_overhang, place, facts)


def _place(vehicle: str, *path: str) -> Place:
    return Place("rig.yaml", ("vehicles", vehicle, *path))
