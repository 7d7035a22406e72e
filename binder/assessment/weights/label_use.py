"""What people, fresh water and a tongue take out of a label's capacity, by the arithmetic of the labels."""

from typing import NamedTuple

from binder.assessment.coupling.loads import coupling_key
from binder.assessment.figures import Figure, Finding, Input, Ledger
from binder.assessment.known_quantity import known_quantity
from binder.assessment.procedure_numbers import procedure_number
from binder.assessment.weights.resting import CARRIED
from binder.assessment.weights.states import full_volume
from binder.assessment.wording import Wording
from binder.calculations.weights.labels_and_law import (
    CapacityUse,
    cargo_carrying_capacity_left,
    occupant_and_cargo_capacity_left,
)
from binder.models.load import Profile
from binder.models.vehicles import Vehicle
from binder.quantities import Quantity, registry

_SOURCE = "49 CFR 571.110; 49 CFR 571.120; 49 CFR 567.4"
_CAUTION = "What was added since the label was printed counts as cargo; the scale is the better judge."


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
        label = vehicle.label
        water, wording = _fresh_water(vehicle), Wording(profile.rig.units)
        water_input = Input(
            "fresh water, tank full", _volume(water, wording), f"rig.yaml vehicles.{name}.tanks"
        )
        if label.occupant_and_cargo_carrying_capacity is not None:
            people, tongue = _people(profile, name), _tongue_load(profile, name, ledger)
            counted = _Counted(label.occupant_and_cargo_carrying_capacity, people, water, tongue)
            count = "not known" if people is None else str(people)
            inputs = [Input("people", count, "trip plan, crew; rig.yaml people")]
            if water is None or water.magnitude:
                inputs.append(water_input)
            if tongue is None or tongue.magnitude:
                text = "not known" if tongue is None else wording.weight(tongue, "up")
                inputs.append(Input(_resting_words(profile, name), text, "coupling, down_load"))
            _enter(name, counted.use, tuple(inputs), wording, ledger)
        elif label.cargo_carrying_capacity is not None:
            use = (
                None if water is None else cargo_carrying_capacity_left(label.cargo_carrying_capacity, water)
            )
            _enter(name, use, (water_input,), wording, ledger)


def _fresh_water(vehicle: Vehicle) -> Quantity | None:
    total = registry.Quantity(0.0, "gallon")
    for tank in vehicle.tanks.values():
        if tank.holds == "fresh water":
            volume = full_volume(tank)
            if volume is None:
                return None
            total = total + volume
    return total


def _volume(volume: Quantity | None, wording: Wording) -> str:
    return "not known" if volume is None else wording.volume(volume, "up")


def _people(profile: Profile, vehicle: str) -> int | None:
    if profile.trip and profile.trip.crew:
        return sum(person.vehicle == vehicle for person in profile.trip.crew)
    return profile.rig.people if vehicle == next(iter(profile.rig.vehicles)) else 0


def _tongue_load(profile: Profile, vehicle: str, ledger: Ledger) -> Quantity | None:
    """All that rests on a vehicle from what is joined to it: tongues, pins, a camper, a car."""
    resting = [item for item in profile.rig.couplings if item.ahead == vehicle and item.how != "tow bar"]
    loads = [known_quantity(ledger, f"{coupling_key(item)}.down_load") for item in resting]
    known = [load for load in loads if load is not None]
    return sum(known, start=registry.Quantity(0.0, "pound")) if len(known) == len(loads) else None


def _resting_words(profile: Profile, vehicle: str) -> str:
    carried = [item.behind for item in profile.rig.couplings if item.ahead == vehicle and item.how == CARRIED]
    towed = [item for item in profile.rig.couplings if item.ahead == vehicle and item.how != CARRIED]
    words = ["load on the coupling"] if towed or not carried else []
    return " and ".join([*(f"the {name} on it" for name in carried), *words])


def _enter(
    vehicle: str, use: CapacityUse | None, inputs: tuple[Input, ...], wording: Wording, ledger: Ledger
) -> None:
    key = f"weights.{vehicle}.label_capacity".replace(" ", "_")
    person, water = (procedure_number(f"label {what}", wording.units) for what in ("person", "water"))
    rule = f"People at {person} each, fresh water at {water} and the coupling's load, as labels count."
    ledger.add(
        Figure(f"{key}.used", use.used if use else None, "calculated", rule, _SOURCE, inputs, (_CAUTION,))
    )
    slack = f"{wording.weight(use.left, 'down')} left for cargo" if use else ""
    rule = "Capacity on the label less what is taken out of it."
    ledger.add(
        Figure(
            f"{key}.left",
            use.left if use else None,
            "calculated",
            rule,
            _SOURCE,
            inputs,
            (_CAUTION,),
            slack,
        )
    )
    if use and use.left.magnitude < 0:
        over: Quantity = use.left * -1
        text = f"{vehicle}: {wording.weight(over, 'up')} over the capacity on its label, the fresh tank full"
        ledger.find(
            Finding("attention", 1, f"{key}.left", text, "carry less water, or weigh it: the scale decides")
        )
