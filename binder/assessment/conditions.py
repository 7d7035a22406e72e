"""Conditions on a rig: small named predicates that decide what it needs and which lines its cards carry."""

from collections.abc import Callable, Iterator
from typing import TypeAlias

from binder.assessment.weights.resting import CARRIED
from binder.models.rig import Rig
from binder.models.vehicles import Contents, Tank, Vehicle

Condition: TypeAlias = Callable[[Rig], bool]


def always(_rig: Rig) -> bool:
    """Hold for every rig."""
    return True


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


def is_coupled(rig: Rig) -> bool:
    """Hold where something is towed."""
    return bool(towed(rig))


def coupled_by(*ways: str) -> Condition:
    """Hold where one of the rig's couplings is made in one of several ways."""
    return lambda rig: any(coupling.how in ways for coupling in rig.couplings)


def _air_brakes(rig: Rig) -> bool:
    brakes = driven(rig)[1].brakes
    return brakes is not None and brakes.service == "air"


def _duals(rig: Rig) -> bool:
    axles = (axle for vehicle in rig.vehicles.values() for axle in vehicle.axles.values())
    return any(axle.fitment == "dual" for axle in axles)


def _distribution(rig: Rig) -> bool:
    return any(coupling.distribution is not None for coupling in rig.couplings)


def _supplemental_brake(rig: Rig) -> bool:
    return any(vehicle.towing is not None and vehicle.towing.supplemental_brake for _, vehicle in towed(rig))


def _breakaway(rig: Rig) -> bool:
    return any(vehicle.towing is not None and vehicle.towing.breakaway for _, vehicle in towed(rig))


def _breakaway_not_known(rig: Rig) -> bool:
    return any(vehicle.towing is None or vehicle.towing.breakaway is None for _, vehicle in towed(rig))


def _supplemental_brake_not_known(rig: Rig) -> bool:
    return any(
        vehicle.towing is None or vehicle.towing.supplemental_brake is None for _, vehicle in towed(rig)
    )


AIR_BRAKES: Condition = _air_brakes
DUALS: Condition = _duals
DISTRIBUTION: Condition = _distribution
SUPPLEMENTAL_BRAKE: Condition = _supplemental_brake
SUPPLEMENTAL_BRAKE_NOT_KNOWN: Condition = _supplemental_brake_not_known
BREAKAWAY: Condition = _breakaway
BREAKAWAY_NOT_KNOWN: Condition = _breakaway_not_known
