"""Spares and tools that came aboard after the weighing: cargo like any other, with a weight and a place."""

from collections.abc import Mapping

from binder.assessment.spare_places import bay_of, vehicle_of
from binder.models.rig import Aboard, Rig, ScaleTicket
from binder.models.spares import Carried


def is_on_ticket(item: Carried, ticket: ScaleTicket | None) -> bool:
    """Tell whether an entry was aboard when its vehicle was weighed.

    Args:
        item: of the rig's spares or tools.
        ticket: the latest of its vehicle, None where it was never weighed.

    Returns:
        True where it came aboard before the day of the ticket. Without a day it is taken as not weighed:
        the load is then rather too high than too low.

    Sources:
        Design.

    Example:
        >>> is_on_ticket(Carried(what="wire", since="2026-01-01"), None)
        False
    """
    return ticket is not None and item.since is not None and item.since < ticket.on


def spare_cargo(rig: Rig, tickets: Mapping[str, ScaleTicket | None]) -> tuple[Aboard, ...]:
    """List what is carried with a weight and is on no scale ticket, as cargo of its vehicle.

    Args:
        rig: the profile.
        tickets: the latest of each vehicle [ticket].

    Returns:
        The cargo, each at the middle of its bay; without a place where its place is no bay.

    Sources:
        profile.

    Example:
        >>> from binder.models.rig import Rig
        >>> coach = {"kind": "motorhome", "axles": {}, "bays": {"box": {"at": "90 in"}}}
        >>> oil = {"what": "oil", "place": "box", "weight": "8 lb"}
        >>> written = {"name": "x", "units": "us", "paper": "letter", "vehicles": {"coach": coach}}
        >>> found = spare_cargo(Rig.model_validate(written | {"spares": [oil]}), {"coach": None})
        >>> [f"{one.what} {one.at:.0f}" for one in found]
        ['oil 90 inch']
    """
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
