"""Where what is carried lies, what each bay holds, and what came aboard after the weighing.

That is cargo like any other, with a weight and a place.
"""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from binder.models.rig import Aboard, Rig, ScaleTicket
from binder.models.spares import Carried
from binder.models.vehicles import Bay
from binder.quantities import Quantity, registry

_NOTHING = registry.Quantity(0.0, "pound")


class BayLoad(NamedTuple):
    """One bay with what is noted in it; ``unweighed`` are entries that have no weight."""

    vehicle: str
    name: str
    bay: Bay
    load: Quantity
    unweighed: int

    @property
    def subject(self) -> tuple[str, str]:
        """What its figures are of."""
        return self.vehicle, self.name


def vehicle_of(rig: Rig, item: Carried) -> str:
    """Find the vehicle an entry lies in."""
    if item.vehicle is not None:
        return item.vehicle
    having = [name for name, vehicle in rig.vehicles.items() if item.place in vehicle.bays]
    if len(having) == 1:
        return having[0]
    return next(iter(rig.vehicles)) if len(rig.vehicles) == 1 else ""


def bay_of(rig: Rig, item: Carried) -> Bay | None:
    """Find the bay an entry lies in."""
    vehicle = rig.vehicles.get(vehicle_of(rig, item))
    return vehicle.bays.get(item.place or "") if vehicle else None


def bay_loads(rig: Rig) -> tuple[BayLoad, ...]:
    """Add up what is noted in each bay, whether it is on a scale ticket or not."""
    return tuple(_bay_loads(rig))


def _bay_loads(rig: Rig) -> Iterator[BayLoad]:
    for vehicle, entry in rig.vehicles.items():
        for name, bay in entry.bays.items():
            held = [
                item
                for item in (*rig.spares, *rig.tools)
                if item.place == name and vehicle_of(rig, item) == vehicle
            ]
            weights = [item.weight for item in held if item.weight is not None]
            if weights:
                load = sum((weight.to("pound") for weight in weights), start=_NOTHING)
                yield BayLoad(vehicle, name, bay, load, len(held) - len(weights))


def is_on_ticket(item: Carried, ticket: ScaleTicket | None) -> bool:
    """Tell whether an entry was aboard when its vehicle was weighed."""
    return ticket is not None and item.since is not None and item.since < ticket.on


def spare_cargo(rig: Rig, tickets: Mapping[str, ScaleTicket | None]) -> tuple[Aboard, ...]:
    """List what is carried with a weight and is on no scale ticket, as cargo of its vehicle."""
    found = []
    for item in (*rig.spares, *rig.tools):
        vehicle = vehicle_of(rig, item)
        if item.weight is None or not vehicle or is_on_ticket(item, tickets.get(vehicle)):
            continue
        bay = bay_of(rig, item)
        at, left = (bay.at, bay.left) if bay else (None, None)
        found.append(
            Aboard.model_construct(what=item.what, weight=item.weight, at=at, left=left, vehicle=vehicle)
        )
    return tuple(found)
