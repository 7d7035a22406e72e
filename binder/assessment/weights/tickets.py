"""Whether a scale ticket is fit to set the label aside, and what is missing where it is not."""

from collections.abc import Iterator
from datetime import date, timedelta

from binder.assessment.route.days import last_day
from binder.assessment.weights.states import full_volume, levels_ticket_of, loaded_cargo
from binder.models.load import Profile
from binder.models.rig import ScaleTicket
from binder.models.vehicles import Vehicle
from binder.quantities import Quantity, registry

_OLDEST = timedelta(days=365)  # Practice: a year.
_UNPLACED_CARGO = registry.Quantity(300.0, "pound")  # Practice.


def ticket_doubts(profile: Profile, vehicle: str, on: date) -> list[str]:
    """Reasons why a vehicle's ticket is not fit to set its label pressures aside."""
    ticket = levels_ticket_of(profile.rig, vehicle)
    if ticket is None:
        return ["it was never weighed"]
    entry = profile.rig.vehicles[vehicle]
    doubts = list(_state_doubts(ticket, vehicle, entry))
    if last_day(profile, on)[0] - ticket.on > _OLDEST:
        doubts.append(f"the ticket of {ticket.on} is more than a year old")
    if ticket.on > last_day(profile, on)[0]:
        doubts.append(f"the ticket of {ticket.on} is from after the trip")
    doubts += _changed_tires(profile, ticket, entry)
    for name in (vehicle, *_resting_on(profile, vehicle)):
        doubts += _unknown_weights(profile, name)
    unplaced = _unplaced_cargo(profile, vehicle)
    if unplaced > _UNPLACED_CARGO:
        doubts.append("cargo loaded since the ticket has no place in the plan")
    return doubts


def _state_doubts(ticket: ScaleTicket, vehicle: str, entry: Vehicle) -> Iterator[str]:
    if entry.equipment.slide is not None and ticket.state.slides != "in":
        yield "slides were not in, or the ticket does not say"
    if entry.suspension == "air" and not ticket.state.ride_height:
        yield "it did not stand at ride height, or the ticket does not say"
    unsaid = [name for name in entry.tanks if name not in ticket.levels.get(vehicle, {})]
    if unsaid:
        yield f"the ticket does not say how full these were: {', '.join(unsaid)}"
    if ticket.aboard is None:
        yield "the ticket does not say who was aboard"


def _changed_tires(profile: Profile, ticket: ScaleTicket, entry: Vehicle) -> list[str]:
    for axle_name, axle in entry.axles.items():
        tires = profile.rig.tires.get(axle.tires or "")
        for position, tire in (tires.mounted if tires else {}).items():
            if position.startswith(axle_name) and tire.mounted_on and tire.mounted_on > ticket.on:
                return [f"the tire at {position} was mounted after the weighing"]
    return []


def _resting_on(profile: Profile, vehicle: str) -> Iterator[str]:
    """Vehicles that press on this one, directly or through another: what they hold is felt here."""
    for coupling in profile.rig.couplings:
        if coupling.ahead == vehicle and coupling.how != "tow bar":
            yield coupling.behind
            yield from _resting_on(profile, coupling.behind)


def _unplaced_cargo(profile: Profile, vehicle: str) -> Quantity:
    unplaced = [
        one.weight
        for one in loaded_cargo(profile)
        if one.vehicle == vehicle and one.at is None and one.weight is not None
    ]
    return sum(unplaced, start=registry.Quantity(0.0, "pound"))


def _unknown_weights(profile: Profile, vehicle: str) -> Iterator[str]:
    """What is aboard by the plan and cannot be counted."""
    trip = profile.trip
    crew = [one.who for one in trip.crew if one.vehicle == vehicle and one.weight is None] if trip else []
    cargo = [one.what for one in trip.cargo if one.vehicle == vehicle and one.weight is None] if trip else []
    if crew or cargo:
        yield f"the plan does not say what these weigh: {', '.join([*crew, *cargo])}"
    tanks = profile.rig.vehicles[vehicle].tanks
    unknown = [name for name, tank in tanks.items() if full_volume(tank) is None]
    if unknown:
        yield f"the capacity of these is not known, so full they count for nothing: {', '.join(unknown)}"
