"""Names in the input that lead nowhere: vehicles, axles, tanks, tires, wheels, and what belongs aboard."""

from collections.abc import Iterator
from difflib import get_close_matches

from binder.assessment.entries import kinds
from binder.assessment.spares.stock import wanted_spares
from binder.assessment.tires.axle import positions_of, tire_axles
from binder.models.load import Profile
from binder.models.located_yaml import Located
from binder.models.rig import ScaleTicket
from binder.models.trip import Stop, Trip
from binder.problems import Path, Problem
from binder.quantities import registry
from binder.reference.spares import spare_rules

_LIFETIME = registry.Quantity(100.0, "year")


def name_problems(profile: Profile) -> Iterator[Problem]:
    """Names in the profile that lead nowhere."""
    rig, places = profile.rig, profile.rig_places
    vehicles = list(rig.vehicles)
    for name, vehicle in rig.vehicles.items():
        for axle_name, axle in vehicle.axles.items():
            base: Path = ("vehicles", name, "axles", axle_name)
            yield from _known(places, (*base, "tires"), axle.tires, list(rig.tires))
            yield from _known(places, (*base, "wheels"), axle.wheels, list(rig.wheels))
    for number, coupling in enumerate(rig.couplings):
        yield from _known(places, ("couplings", number, "ahead"), coupling.ahead, vehicles)
        yield from _known(places, ("couplings", number, "behind"), coupling.behind, vehicles)
    for number, ticket in enumerate(rig.scale_tickets):
        yield from _ticket_names(profile, number, ticket)
    yield from _service_names(profile)
    yield from _mounted_names(profile)
    yield from _spare_names(profile)
    yield from _trip_names(profile)


def _known(
    places: Located, path: Path, name: str | None, known: list[str], *, at_key: bool = False
) -> Iterator[Problem]:
    if name is None or name in known:
        return
    there_are = kinds.THERE_ARE.format(names=", ".join(known)) if known else kinds.THERE_ARE_NONE
    hint = _near(name, known) or there_are
    yield places.problem(path, kinds.NOT_DESCRIBED.format(name=name), at_key=at_key, hint=hint)


def _near(name: str, known: list[str]) -> str:
    """Ask whether a name much like it was meant."""
    near = get_close_matches(name, known, n=1, cutoff=0.6)
    return kinds.DID_YOU_MEAN.format(near=near[0]) if near else ""


def _ticket_names(profile: Profile, number: int, ticket: ScaleTicket) -> Iterator[Problem]:
    rig, places = profile.rig, profile.rig_places
    base: Path = ("scale_tickets", number)
    for vehicle, weights in ticket.weights.items():
        yield from _known(places, (*base, "weights", vehicle), vehicle, list(rig.vehicles), at_key=True)
        axles = list(rig.vehicles[vehicle].axles) if vehicle in rig.vehicles else list(weights.axles)
        for axle in weights.axles:
            yield from _known(places, (*base, "weights", vehicle, axle), axle, axles, at_key=True)
    yield from _level_names(profile, places, (*base, "levels"), ticket.levels)
    for place, someone in enumerate(ticket.aboard or []):
        yield from _known(places, (*base, "aboard", place, "in"), someone.vehicle, list(rig.vehicles))


def _level_names(
    profile: Profile, places: Located, base: Path, levels: dict[str, dict[str, object]] | object
) -> Iterator[Problem]:
    if not isinstance(levels, dict):
        return
    for vehicle, tanks in levels.items():
        yield from _known(places, (*base, vehicle), vehicle, list(profile.rig.vehicles), at_key=True)
        if vehicle in profile.rig.vehicles:
            for tank in tanks:
                known = list(profile.rig.vehicles[vehicle].tanks)
                yield from _known(places, (*base, vehicle, tank), tank, known, at_key=True)


def _service_names(profile: Profile) -> Iterator[Problem]:
    rig, places = profile.rig, profile.rig_places
    for number, entry in enumerate(rig.service):
        yield from _known(places, ("service", number, "in"), entry.vehicle, list(rig.vehicles))
        for place, part in enumerate(entry.intervals):
            if part.quantity.magnitude == 0 or (part.time is not None and part.time > _LIFETIME):
                yield places.problem(("service", number, "every", place), kinds.INTERVAL)
    for number, reading in enumerate(rig.readings):
        yield from _known(places, ("readings", number, "in"), reading.vehicle, list(rig.vehicles))


def _spare_names(profile: Profile) -> Iterator[Problem]:
    """Find entries of spares and tools whose ``is``, ``for`` or ``in`` leads nowhere."""
    rig, places = profile.rig, profile.rig_places
    vehicles = list(rig.vehicles)
    own = [name for want in wanted_spares(rig) for name in sorted(want.names)]
    rules = list(dict.fromkeys([*own, *(rule.name for rule in spare_rules())]))
    for entry, listed in (("spares", rig.spares), ("tools", rig.tools)):
        for number, item in enumerate(listed):
            named = item.names.casefold() if item.names else None
            if named is not None and named not in rules:
                text, hint = kinds.NOT_IN_LIST.format(name=named), _near(named, rules)
                yield places.problem((entry, number, "is"), text, hint=hint or kinds.NOT_IN_LIST_HINT)
            yield from _known(places, (entry, number, "for"), item.serves, vehicles)
            yield from _known(places, (entry, number, "in"), item.vehicle, vehicles)


def _mounted_names(profile: Profile) -> Iterator[Problem]:
    axles = tire_axles(profile.rig, ())
    for name, tires in profile.rig.tires.items():
        known = [
            position.name for axle in axles if axle.axle.tires == name for position in positions_of(axle)
        ]
        for position in tires.mounted:
            if position != "spare":
                path: Path = ("tires", name, "mounted", position)
                yield from _known(profile.rig_places, path, position, known, at_key=True)


def _trip_names(profile: Profile) -> Iterator[Problem]:
    trip, places = profile.trip, profile.trip_places
    if trip is None or places is None:
        return
    vehicles = list(profile.rig.vehicles)
    aboard = [("crew", number, someone.vehicle) for number, someone in enumerate(trip.crew)]
    aboard += [("cargo", number, something.vehicle) for number, something in enumerate(trip.cargo)]
    for entry, number, vehicle in aboard:
        yield from _known(places, (entry, number, "in"), vehicle, vehicles)
    yield from _level_names(profile, places, ("levels_at_start",), trip.levels_at_start)
    for path, levels in stop_levels(profile):
        yield from _level_names(profile, places, path, levels)
    tanks = [tank for vehicle in profile.rig.vehicles.values() for tank in vehicle.tanks.items()]
    names = list(dict.fromkeys([*(name for name, _ in tanks), *(tank.holds for _, tank in tanks)]))
    for path, stop in _stops(trip):
        for number, name in enumerate(stop.fill):
            yield from _known(places, (*path, "fill", number), name, names)


def _stops(trip: Trip) -> Iterator[tuple[Path, Stop]]:
    for number, day in enumerate(trip.days):
        if day.origin:
            yield ("days", number, "from"), day.origin
        for place, leg in enumerate(day.legs):
            yield ("days", number, "legs", place, "to"), leg.to


def stop_levels(profile: Profile) -> Iterator[tuple[Path, dict[str, dict[str, object]] | object]]:
    """Levels the plan states at its stops, each with its place."""
    for path, stop in _stops(profile.trip) if profile.trip else ():
        yield (*path, "arriving"), stop.arriving
        yield (*path, "levels"), stop.levels
