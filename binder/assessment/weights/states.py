"""The states of a trip: which tanks hold what, and who and what is aboard, from the plan."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from types import MappingProxyType
from typing import NamedTuple

from binder.assessment.ledger import Phrase
from binder.assessment.spares.stock import spare_cargo
from binder.assessment.weights import kinds
from binder.models.base import LevelValue
from binder.models.load import Profile
from binder.models.rig import Aboard, Rig, ScaleTicket
from binder.models.trip import Person, Stop
from binder.models.vehicles import Tank
from binder.quantities import Quantity, number_in, registry

_NOTHING = registry.Quantity(0.0, "gallon")

TankName = tuple[str, str]


class TripState(NamedTuple):
    """One state: volumes by vehicle and tank (None: not known), and the people and cargo aboard.

    ``as_the_ticket`` is true for the state the rig was weighed in: people and cargo are the ticket's.
    ``is_reached`` is false for what stays on paper beside a trip, which neither passes nor meets it.
    ``others`` are volumes that may be instead, where the plan does not say what was used before.
    """

    key: str
    title: Phrase
    volumes: Mapping[TankName, Quantity | None]
    people: tuple[Person | Aboard, ...] = ()
    cargo: tuple[Aboard, ...] = ()
    as_the_ticket: bool = False
    is_reached: bool = True
    place: str = ""
    others: Mapping[TankName, Quantity | None] = MappingProxyType({})

    def gallons(self, name: TankName, tank: Tank) -> tuple[float, float] | None:
        """What a tank holds in it at the least and at the most."""
        found = gallons_in(self.volumes.get(name), tank)
        other = gallons_in(self.others[name], tank) if name in self.others else found
        return (min(*found, *other), max(*found, *other)) if found and other else None


@dataclass
class _Walk:
    rig: Rig
    volumes: dict[TankName, Quantity | None] = field(default_factory=dict)

    def set_levels(self, levels: Mapping[str, Mapping[str, LevelValue]]) -> None:
        for vehicle, tanks in levels.items():
            for name, level in tanks.items():
                self.volumes[vehicle, name] = volume_of(self.rig.vehicles[vehicle].tanks[name], level)


def full_volume(tank: Tank) -> Quantity | None:
    """Volume a tank holds when full: for propane the usable part, else the capacity."""
    return (tank.usable or tank.capacity) if tank.holds == "propane" else tank.capacity


def volume_of(tank: Tank, level: LevelValue) -> Quantity | None:
    """Volume of a level as written: a volume, or a share of the full tank."""
    if level.volume is not None:
        return level.volume
    if level.share == 0:
        return _NOTHING
    if tank.holds == "propane" and tank.usable is None:
        return None  # A share of what may be filled, which is not known.
    full = full_volume(tank)
    return None if full is None or level.share is None else full * level.share


def gallons_in(volume: Quantity | None, tank: Tank) -> tuple[float, float] | None:
    """What a tank holds at the least and at the most: a level that is not known is any from empty to full."""
    if volume is not None:
        gallons = number_in(volume, "gallon")
        return gallons, gallons
    full = full_volume(tank)
    return None if full is None else (0.0, number_in(full, "gallon"))


def ticket_of(rig: Rig, vehicle: str) -> ScaleTicket | None:
    """Latest scale ticket that weighed a vehicle as it is now; one of before a change is put aside."""
    ticket = latest_ticket(rig, vehicle)
    return None if ticket is None or changed_since(rig, vehicle, ticket) else ticket


def latest_ticket(rig: Rig, vehicle: str) -> ScaleTicket | None:
    """Latest scale ticket of a vehicle, whatever has changed since."""
    tickets = [ticket for ticket in rig.scale_tickets if vehicle in ticket.weights]
    return max(tickets, key=lambda ticket: ticket.on, default=None)


def changed_since(rig: Rig, vehicle: str, ticket: ScaleTicket) -> tuple[str, date] | None:
    """What of a vehicle is newer than a ticket, and since when: it, its wheels or what may have joined it."""
    entry = rig.vehicles[vehicle]
    wheels = {axle.wheels: rig.wheels.get(axle.wheels or "") for axle in entry.axles.values()}
    parts: list[tuple[str, date | None]] = [(vehicle, entry.since)]
    parts += [(name, one.since) for name, one in wheels.items() if name and one]
    if ticket.state.coupled is not False:
        parts += [(one.how, one.since) for one in rig.couplings if vehicle in {one.ahead, one.behind}]
    return next(((name, since) for name, since in parts if since and since > ticket.on), None)


def levels_ticket_of(rig: Rig, vehicle: str) -> ScaleTicket | None:
    """Ticket that says how full a vehicle was and who was in it: its own, else that of what carries it."""
    own = ticket_of(rig, vehicle)
    beneath = next((one.ahead for one in rig.couplings if one.behind == vehicle and one.how == "carried"), "")
    ticket = ticket_of(rig, beneath)
    return ticket if own is None and ticket and ticket.state.coupled else own


def ticket_levels(rig: Rig) -> dict[TankName, Quantity | None]:
    """Volumes in every tank as each vehicle's own ticket states them."""
    volumes: dict[TankName, Quantity | None] = {}
    for vehicle, entry in rig.vehicles.items():
        ticket = levels_ticket_of(rig, vehicle)
        stated = ticket.levels.get(vehicle, {}) if ticket else {}
        for name, tank in entry.tanks.items():
            volumes[vehicle, name] = volume_of(tank, stated[name]) if name in stated else None
    return volumes


def trip_states(profile: Profile) -> tuple[TripState, ...]:
    """States of the trip in order: as weighed, departure, each stop arriving and leaving, everything full."""
    rig, trip = profile.rig, profile.trip
    weighed = ticket_levels(rig)
    is_parked = trip is None
    scale = TripState("as_weighed", Phrase(kinds.AS_WEIGHED), _frozen(weighed), as_the_ticket=True)
    states = [scale._replace(is_reached=is_parked)]
    full = {
        (vehicle, name): full_volume(tank)
        for vehicle, entry in rig.vehicles.items()
        for name, tank in entry.tanks.items()
    }
    people = _people(profile)
    cargo = loaded_cargo(profile)
    if trip:
        walk = _Walk(rig, dict.fromkeys(full))
        walk.set_levels(trip.levels_at_start)
        states.append(TripState("departure", Phrase(kinds.DEPARTURE), _frozen(walk.volumes), people, cargo))
        for key, title, stop, levels in _stops(profile):
            walk.set_levels(levels)
            states.append(TripState(key, title, _frozen(walk.volumes), people, cargo, place=stop.place))
    title = Phrase(kinds.EVERYTHING_FULL)
    states.append(TripState("everything_full", title, _frozen(full), people, cargo, is_reached=is_parked))
    return tuple(states)


def loaded_cargo(profile: Profile) -> tuple[Aboard, ...]:
    """List what is aboard on the trip and was not on the scale: the plan's cargo, and spares since."""
    rig, trip = profile.rig, profile.trip
    tickets = {name: levels_ticket_of(rig, name) for name in rig.vehicles}
    return (*(trip.cargo if trip else ()), *spare_cargo(rig, tickets))


def _people(profile: Profile) -> tuple[Person | Aboard, ...]:
    if profile.trip and profile.trip.crew:
        return tuple(profile.trip.crew)
    weighed = [ticket_of(profile.rig, vehicle) for vehicle in profile.rig.vehicles]
    tickets = {id(ticket): ticket for ticket in weighed if ticket}
    return tuple(someone for ticket in tickets.values() for someone in ticket.aboard or [])


def _stops(profile: Profile) -> list[tuple[str, Phrase, Stop, Mapping[str, Mapping[str, LevelValue]]]]:
    stops: list[tuple[str, Phrase, Stop, Mapping[str, Mapping[str, LevelValue]]]] = []
    for number, travel_day in enumerate(profile.trip.days if profile.trip else [], start=1):
        if travel_day.origin and travel_day.origin.levels:
            start = travel_day.origin
            stops.append((f"day_{number}_start", _title(kinds.LEAVING, number, start), start, start.levels))
        for place, leg in enumerate(travel_day.legs, start=1):
            key, stop = f"day_{number}_stop_{place}", leg.to
            stops.append((f"{key}_arriving", _title(kinds.ARRIVING, number, stop), stop, stop.arriving))
            stops.append((f"{key}_leaving", _title(kinds.LEAVING, number, stop), stop, stop.levels))
    return stops


def _title(form: str, day: int, stop: Stop) -> Phrase:
    return Phrase(form, {"day": day, "place": stop.place})


def _frozen(volumes: Mapping[TankName, Quantity | None]) -> Mapping[TankName, Quantity | None]:
    return MappingProxyType(dict(volumes))
