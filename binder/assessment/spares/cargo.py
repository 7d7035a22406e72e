"""Spares and tools that came aboard after the weighing: cargo like any other, with a weight and a place."""

from collections.abc import Mapping

from binder.assessment.spares.places import bay_of, vehicle_of
from binder.models.rig import Aboard, Rig, ScaleTicket
from binder.models.spares import Carried


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
