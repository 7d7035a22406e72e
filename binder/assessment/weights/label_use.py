"""What people, fresh water and a tongue take out of a label's capacity, by the arithmetic of the labels."""

from collections.abc import Iterator
from typing import NamedTuple

from binder.assessment.coupling import kinds as coupling_kinds
from binder.assessment.ledger import Figure, Finding, Input, Ledger, Phrase, Place
from binder.assessment.weights import kinds
from binder.assessment.weights.resting import CARRIED
from binder.assessment.weights.states import full_volume
from binder.calculations.weights.labels_and_law import (
    CapacityUse,
    cargo_carrying_capacity_left,
    occupant_and_cargo_capacity_left,
)
from binder.models.load import Profile
from binder.models.vehicles import Vehicle
from binder.quantities import Quantity, registry
from binder.reference.procedure_constants import PROCEDURE_CONSTANTS


class _Counted(NamedTuple):
    """What a label's arithmetic takes out of its capacity; None: not known."""

    capacity: Quantity
    people: int | None
    fresh_water: Quantity | None
    tongue_load: Quantity | None

    @property
    def use(self) -> CapacityUse | None:
        """What is used and left; None where one of them is not known."""
        if self.people is None or self.fresh_water is None or self.tongue_load is None:
            return None
        return occupant_and_cargo_capacity_left(
            self.capacity, self.people, self.fresh_water, self.tongue_load
        )


def assess_label_use(profile: Profile, ledger: Ledger) -> None:
    """Enter what is used of, and left of, the capacity each label states."""
    for name, vehicle in profile.rig.vehicles.items():
        label, water = vehicle.label, _fresh_water(vehicle)
        water_input = Input(kinds.FRESH_WATER, water, Place("rig.yaml", ("vehicles", name, "tanks")))
        if label.occupant_and_cargo_carrying_capacity is not None:
            people, tongue = _people(profile, name), _tongue_load(profile, name, ledger)
            counted = _Counted(label.occupant_and_cargo_carrying_capacity, people, water, tongue)
            inputs = [Input(kinds.PEOPLE, people)]
            if water is None or water.magnitude:
                inputs.append(water_input)
            if tongue is None or tongue.magnitude:
                resting = {"resting": tuple(_resting(profile, name))}
                inputs.append(Input(kinds.RESTING, tongue, facts=resting))
            _enter(name, counted.use, tuple(inputs), ledger)
        elif label.cargo_carrying_capacity is not None:
            use = (
                None if water is None else cargo_carrying_capacity_left(label.cargo_carrying_capacity, water)
            )
            _enter(name, use, (water_input,), ledger)


def _fresh_water(vehicle: Vehicle) -> Quantity | None:
    total = registry.Quantity(0.0, "gallon")
    for tank in vehicle.tanks.values():
        if tank.holds == "fresh water":
            volume = full_volume(tank)
            if volume is None:
                return None
            total = total + volume
    return total


def _people(profile: Profile, vehicle: str) -> int | None:
    if profile.trip and profile.trip.crew:
        return sum(person.vehicle == vehicle for person in profile.trip.crew)
    return profile.rig.people if vehicle == next(iter(profile.rig.vehicles)) else 0


def _tongue_load(profile: Profile, vehicle: str, ledger: Ledger) -> Quantity | None:
    """All that rests on a vehicle from what is joined to it: tongues, pins, a camper, a car."""
    resting = [item for item in profile.rig.couplings if item.ahead == vehicle and item.how != "tow bar"]
    loads = [ledger.quantity(coupling_kinds.DOWN_LOAD.of(item.ahead, item.behind)) for item in resting]
    known = [load for load in loads if load is not None]
    return sum(known, start=registry.Quantity(0.0, "pound")) if len(known) == len(loads) else None


def _resting(profile: Profile, vehicle: str) -> Iterator[str | Phrase]:
    joined = [item for item in profile.rig.couplings if item.ahead == vehicle]
    carried = [item.behind for item in joined if item.how == CARRIED]
    for name in carried:
        yield Phrase(kinds.CARRIED_ON_IT, {"carried": name})
    if len(carried) < len(joined) or not carried:
        yield kinds.ON_THE_COUPLING


def _enter(vehicle: str, use: CapacityUse | None, inputs: tuple[Input, ...], ledger: Ledger) -> None:
    counted = {what: PROCEDURE_CONSTANTS[f"label {what}"] for what in ("person", "water")}
    used, left = (use.used, use.left) if use else (None, None)
    ledger.enter(Figure(kinds.LABEL_USED.of(vehicle), used, inputs, facts=counted))
    slack = None if left is None else Phrase(kinds.LEFT_FOR_CARGO, {"left": left})
    key = kinds.LABEL_LEFT.of(vehicle)
    ledger.enter(Figure(key, left, inputs, slack=slack))
    if left is not None and left.magnitude < 0:
        ledger.find(Finding(kinds.OVER_LABEL, key, {"over": left * -1}))
