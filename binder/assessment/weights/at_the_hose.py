"""What is allowed at the hose where a dump of the plan was closed: fresh water, every other tank full."""

from collections.abc import Iterator
from types import MappingProxyType

from binder.assessment.ledger import Figure, Ledger, Phrase
from binder.assessment.weights import kinds
from binder.assessment.weights.loads import StateLoads, loads_in_states
from binder.assessment.weights.resting import is_combination
from binder.calculations.bounds import is_at_least
from binder.models.rig import Rig
from binder.quantities import Quantity, number_in, registry


def assess_hose(rig: Rig, everything_full: StateLoads, ledger: Ledger) -> Phrase:
    """Enter the most fresh water that keeps every rating with all else full, and say it."""
    if _is_within(rig, everything_full):
        return Phrase(kinds.KEEP_TO_THE_PLAN)
    most = _most_fresh(rig, everything_full)
    ledger.enter(Figure(kinds.FRESH_AT_MOST.of(), most))
    return Phrase(kinds.KEEP_TO_THE_PLAN if most is None else kinds.FRESH_AT_THE_HOSE, {"fresh": most})


def _most_fresh(rig: Rig, full: StateLoads) -> Quantity | None:
    """Whole gallons of the fresh tanks together, each filled to the same share; None: not even without."""
    fresh = {
        (vehicle, name): full.state.volumes[vehicle, name]
        for vehicle, entry in rig.vehicles.items()
        for name, tank in entry.tanks.items()
        if tank.holds == "fresh water"
    }
    known = {name: number_in(volume, "gallon") for name, volume in fresh.items() if volume is not None}
    whole = sum(known.values())

    def is_within(gallons: int) -> bool:
        filled = {name: registry.Quantity(one * gallons / whole, "gallon") for name, one in known.items()}
        volumes = MappingProxyType({**full.state.volumes, **filled})
        return _is_within(rig, *loads_in_states(rig, [full.state._replace(volumes=volumes)]))

    if not whole or len(known) < len(fresh) or not is_within(0):
        return None
    least, most = 0, int(whole) + 1
    while most - least > 1:
        middle = (least + most) // 2
        least, most = (middle, most) if is_within(middle) else (least, middle)
    return registry.Quantity(float(least), "gallon")


def _is_within(rig: Rig, loads: StateLoads) -> bool:
    """No rating is passed; a load or a rating that is not known may be."""
    return all(
        load is not None and rating is not None and is_at_least(rating, load)
        for load, rating in _rated(rig, loads)
    )


def _rated(rig: Rig, loads: StateLoads) -> Iterator[tuple[Quantity | None, Quantity | None]]:
    """Every load that is to have a rating, and the rating."""
    if is_combination(rig):
        yield loads.combination, next(iter(rig.vehicles.values())).label.gross_combination_weight_rating
    for name, vehicle in rig.vehicles.items():
        found = loads.vehicles[name]
        if vehicle.axles:
            yield found.total, vehicle.label.gross_vehicle_weight_rating
        for axle_name, axle in vehicle.axles.items():
            yield found.axles[axle_name].load, axle.rating
