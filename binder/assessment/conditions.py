"""Conditions on a rig: small named predicates that decide which lines its cards carry and what it needs."""

from collections.abc import Callable, Iterator
from typing import TypeAlias

from binder.assessment.weights.resting import CARRIED
from binder.models.rig import Coupling, Rig
from binder.models.vehicles import Contents, Tank, Vehicle

Condition: TypeAlias = Callable[[Rig], bool]

ON_A_HITCH = ("ball", "fifth wheel", "gooseneck")
"""Ways of coupling that carry part of a trailer's weight on the vehicle ahead."""


def always(_rig: Rig) -> bool:
    """Hold for every rig."""
    return True


def every(*conditions: Condition) -> Condition:
    """Hold where all of several conditions hold."""
    return lambda rig: all(condition(rig) for condition in conditions)


def either(*conditions: Condition) -> Condition:
    """Hold where at least one of several conditions holds."""
    return lambda rig: any(condition(rig) for condition in conditions)


def never(condition: Condition) -> Condition:
    """Hold where another condition does not."""
    return lambda rig: not condition(rig)


def equipped(*names: str) -> Condition:
    """Hold where some vehicle of the rig has one of several pieces of equipment."""
    return lambda rig: any(_has(vehicle, name) for vehicle in rig.vehicles.values() for name in names)


def _has(vehicle: Vehicle, name: str) -> bool:
    found = getattr(vehicle.equipment, name)
    return found is not None and found is not False


def holds(*contents: Contents) -> Condition:
    """Hold where some tank of the rig holds one of several things."""
    return lambda rig: any(tank.holds in contents for tank in tanks(rig))


def tanks(rig: Rig) -> Iterator[Tank]:
    """Yield every tank of every vehicle."""
    for vehicle in rig.vehicles.values():
        yield from vehicle.tanks.values()


def driven(rig: Rig) -> tuple[str, Vehicle]:
    """Find the vehicle that drives: the one that is behind no other."""
    behind = {coupling.behind for coupling in rig.couplings}
    leading = [(name, vehicle) for name, vehicle in rig.vehicles.items() if name not in behind]
    return next(
        (pair for pair in leading if pair[1].kind in {"motorhome", "pickup", "car"}),
        next(iter(leading or rig.vehicles.items())),
    )


def towed(rig: Rig) -> tuple[tuple[str, Vehicle], ...]:
    """List the vehicles that are towed, dollies among them; what another one carries is not."""
    names = [coupling.behind for coupling in rig.couplings if coupling.how != CARRIED]
    return tuple((name, rig.vehicles[name]) for name in names if name in rig.vehicles)


def carried(rig: Rig) -> tuple[tuple[str, Vehicle], ...]:
    """List the vehicles that another one carries: a camper on its bed, a car on its trailer."""
    names = [coupling.behind for coupling in rig.couplings if coupling.how == CARRIED]
    return tuple((name, rig.vehicles[name]) for name in names if name in rig.vehicles)


def first_coupling(rig: Rig) -> Coupling | None:
    """Give the coupling behind the vehicle that drives, if there is one."""
    return next(iter(rig.couplings), None)


def is_coupled(rig: Rig) -> bool:
    """Hold where something is towed."""
    return bool(towed(rig))


def coupled_by(*ways: str) -> Condition:
    """Hold where one of the rig's couplings is made in one of several ways."""
    return lambda rig: any(coupling.how in ways for coupling in rig.couplings)


def _air_brakes(rig: Rig) -> bool:
    brakes = driven(rig)[1].brakes
    return brakes is not None and brakes.service == "air"


def _hydraulic_brakes(rig: Rig) -> bool:
    brakes = driven(rig)[1].brakes
    return brakes is not None and brakes.service == "hydraulic"


def _retarder(rig: Rig) -> bool:
    brakes = driven(rig)[1].brakes
    return brakes is not None and brakes.retarder is not None and brakes.retarder.magnitude > 0


def _exhaust_brake(rig: Rig) -> bool:
    brakes = driven(rig)[1].brakes
    return brakes is not None and bool(brakes.exhaust_brake)


def _air_suspension(rig: Rig) -> bool:
    return any(vehicle.suspension == "air" for vehicle in rig.vehicles.values())


def _duals(rig: Rig) -> bool:
    axles = (axle for vehicle in rig.vehicles.values() for axle in vehicle.axles.values())
    return any(axle.fitment == "dual" for axle in axles)


def _electric_brakes(rig: Rig) -> bool:
    return any(
        vehicle.brakes is not None and vehicle.brakes.service == "electric" for _, vehicle in towed(rig)
    )


def _distribution(rig: Rig) -> bool:
    return any(coupling.distribution is not None for coupling in rig.couplings)


def _tag_axle(rig: Rig) -> bool:
    """The vehicle that drives has an axle behind its drive axle."""
    _first, *others = driven(rig)[1].axles or ("",)
    return len(others) > 1


def _generator(rig: Rig) -> bool:
    return any(vehicle.generator is not None for vehicle in rig.vehicles.values())


def _towed_car(rig: Rig) -> bool:
    return any(vehicle.kind in {"car", "pickup"} for _, vehicle in towed(rig))


def _supplemental_brake(rig: Rig) -> bool:
    return any(vehicle.towing is not None and vehicle.towing.supplemental_brake for _, vehicle in towed(rig))


def _breakaway(rig: Rig) -> bool:
    return any(vehicle.towing is not None and vehicle.towing.breakaway for _, vehicle in towed(rig))


def _lamp_in_cab(rig: Rig) -> bool:
    return any(vehicle.towing is not None and vehicle.towing.brake_lamp_in_cab for _, vehicle in towed(rig))


AIR_BRAKES: Condition = _air_brakes
HYDRAULIC_BRAKES: Condition = _hydraulic_brakes
RETARDER: Condition = _retarder
EXHAUST_BRAKE: Condition = _exhaust_brake
AIR_SUSPENSION: Condition = _air_suspension
DUALS: Condition = _duals
ELECTRIC_BRAKES: Condition = _electric_brakes
DISTRIBUTION: Condition = _distribution
TAG_AXLE: Condition = _tag_axle
GENERATOR: Condition = _generator
TOWED_CAR: Condition = _towed_car
SUPPLEMENTAL_BRAKE: Condition = _supplemental_brake
BREAKAWAY: Condition = _breakaway
LAMP_IN_CAB: Condition = _lamp_in_cab
