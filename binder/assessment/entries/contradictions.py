"""What the input says that cannot be: names that lead nowhere, sums that do not add up, tables that fall.

These are problems, not findings: nothing is computed from them and nothing is written.
"""

from collections.abc import Iterator
from difflib import get_close_matches
from itertools import pairwise

from binder.assessment.entries.body import body_problems
from binder.assessment.entries.joined import joined_problems
from binder.assessment.entries.spares import spare_problems
from binder.assessment.tires.axle import tire_axles
from binder.assessment.tires.register import doubts_of, positions_of
from binder.assessment.weights.states import volume_of
from binder.calculations.tires.load_curves import Doubt
from binder.models.load import Profile
from binder.models.located_yaml import Located
from binder.models.rig import AxleWeights, ScaleTicket, VehicleWeights
from binder.problems import InputProblems, Path, Problem
from binder.quantities import Quantity, registry

_LIFETIME = registry.Quantity(100.0, "year")
_DIVISION = registry.Quantity(20.0, "pound")


def refuse_contradictions(profile: Profile) -> None:
    """Raise every contradiction of a profile at once."""
    problems = [*_names(profile), *joined_problems(profile), *_empty_rows(profile)]
    if not problems:
        problems = [
            *_axle_places(profile),
            *_levels(profile),
            *_tickets(profile),
            *_tables(profile),
            *_times(profile),
            *body_problems(profile),
        ]
    if problems:
        raise InputProblems(problems, profile.sources)


def _names(profile: Profile) -> Iterator[Problem]:
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
    yield from spare_problems(profile)
    yield from _trip_names(profile)


def _known(
    places: Located, path: Path, name: str | None, known: list[str], *, at_key: bool = False
) -> Iterator[Problem]:
    if name is None or name in known:
        return
    near = get_close_matches(name, known, n=1, cutoff=0.6)
    hint = f"did you mean '{near[0]}'?" if near else ""
    if not near:
        hint = f"there are: {', '.join(known)}" if known else "there are none in this file"
    yield places.problem(path, f"'{name}' is not described in rig.yaml", at_key=at_key, hint=hint)


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
        for place, part in enumerate(entry.every):
            if part.quantity.magnitude == 0 or (part.time is not None and part.time > _LIFETIME):
                text = "an interval is more than nothing and under 100 years; leave it out if it is not known"
                yield places.problem(("service", number, "every", place), text)
    for number, reading in enumerate(rig.readings):
        yield from _known(places, ("readings", number, "in"), reading.vehicle, list(rig.vehicles))


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
    for path, levels in _stop_levels(profile):
        yield from _level_names(profile, places, path, levels)


def _stop_levels(profile: Profile) -> Iterator[tuple[Path, dict[str, dict[str, object]] | object]]:
    for number, travel_day in enumerate(profile.trip.days if profile.trip else []):
        if travel_day.origin:
            yield ("days", number, "from", "levels"), travel_day.origin.levels
        for place, leg in enumerate(travel_day.legs):
            base: Path = ("days", number, "legs", place, "to")
            yield (*base, "arriving"), leg.to.arriving
            yield (*base, "levels"), leg.to.levels


def _axle_places(profile: Profile) -> Iterator[Problem]:
    for name, vehicle in profile.rig.vehicles.items():
        for (ahead_name, ahead), (axle_name, axle) in pairwise(vehicle.axles.items()):
            if axle.at <= ahead.at:
                path: Path = ("vehicles", name, "axles", axle_name, "at")
                text = f"this axle is not behind '{ahead_name}'; axles stand front to rear"
                yield profile.rig_places.problem(path, text)
        first_name, first = next(iter(vehicle.axles.items()), (None, None))
        if first is not None and first.at.m != 0:
            path = ("vehicles", name, "axles", str(first_name), "at")
            yield profile.rig_places.problem(path, "the first axle is where measuring starts; write '0 in'")


def _levels(profile: Profile) -> Iterator[Problem]:
    rig = profile.rig
    stated: list[tuple[Located, Path, object]] = [
        (profile.rig_places, ("scale_tickets", number, "levels"), ticket.levels)
        for number, ticket in enumerate(rig.scale_tickets)
    ]
    if profile.trip and profile.trip_places:
        stated.append((profile.trip_places, ("levels_at_start",), profile.trip.levels_at_start))
        stated += [(profile.trip_places, path, levels) for path, levels in _stop_levels(profile)]
    for places, base, levels in stated:
        if not isinstance(levels, dict):
            continue
        for vehicle, tanks in levels.items():
            for name, level in tanks.items():
                tank = rig.vehicles[vehicle].tanks[name]
                volume = volume_of(tank, level)
                if volume is not None and tank.capacity is not None and volume > tank.capacity:
                    text = f"'{level.written}' is more than the tank holds ({tank.capacity:g~P})"
                    yield places.problem((*base, vehicle, name), text)


def _tickets(profile: Profile) -> Iterator[Problem]:
    for number, ticket in enumerate(profile.rig.scale_tickets):
        division = ticket.division or _DIVISION
        for vehicle, weights in ticket.weights.items():
            base: Path = ("scale_tickets", number, "weights", vehicle)
            for axle_name, reading in weights.axles.items():
                yield from _ends(profile, (*base, axle_name), reading, division)
            yield from _sum(profile, base, weights, division)


def _ends(profile: Profile, path: Path, reading: AxleWeights, division: Quantity) -> Iterator[Problem]:
    for side, end in (("left", reading.left), ("right", reading.right)):
        if end is not None and reading.axle is not None and end > reading.axle:
            text = f"this end is more than the axle, which says {reading.axle:,.0f~P}; which is misread?"
            yield profile.rig_places.problem((*path, side), text)
            return
    if reading.left is None or reading.right is None or reading.axle is None:
        return
    both = reading.left + reading.right
    if abs(both - reading.axle) > division:
        text = f"left and right make {both:,.0f~P}, the axle says {reading.axle:,.0f~P}; which is misread?"
        yield profile.rig_places.problem((*path, "axle"), text)


def _sum(profile: Profile, path: Path, weights: VehicleWeights, division: Quantity) -> Iterator[Problem]:
    vehicle = profile.rig.vehicles[str(path[-1])]
    if weights.total is None or not vehicle.axles:
        return
    read = [axle for reading in weights.axles.values() if (axle := _axle(reading)) is not None]
    total = sum(read, start=weights.total * 0)
    # Each axle and the total are read to one division.
    apart, allowed = total - weights.total, division * max(len(read) - 1, 1)
    if len(read) == len(vehicle.axles) and abs(apart) > allowed:
        text = f"the axles make {total:,.0f~P}, the total says {weights.total:,.0f~P}; which is misread?"
        yield profile.rig_places.problem((*path, "total"), text)
    elif apart > allowed:
        text = f"{len(read)} of its axles make {total:,.0f~P}, more than this total; which is misread?"
        yield profile.rig_places.problem((*path, "total"), text)


def _axle(reading: AxleWeights) -> Quantity | None:
    if reading.axle is None and reading.left is not None and reading.right is not None:
        both: Quantity = reading.left + reading.right
        return both
    return reading.axle


def _empty_rows(profile: Profile) -> Iterator[Problem]:
    """A row of no pressure or no load, which no later check could divide by."""
    for name, tires in profile.rig.tires.items():
        for fitment in ("single", "dual"):
            rows = getattr(tires.table, fitment, None) or {}
            if any(pressure.m <= 0 or load.m <= 0 for pressure, load in rows.items()):
                path: Path = ("tires", name, "table", fitment)
                text = "a row of this table has no pressure or no load; read it against the maker's book"
                yield profile.rig_places.problem(path, text, at_key=True)


def _tables(profile: Profile) -> Iterator[Problem]:
    seen: set[Path] = set()
    for axle in tire_axles(profile.rig, ()):
        for doubt in doubts_of(axle):
            path: Path = ("tires", str(axle.axle.tires), "table", axle.axle.fitment)
            if not doubt.is_problem or path in seen:
                continue
            seen.add(path)
            place = "" if doubt.row is None else f" at {doubt.row.pressure:g~P}"
            if doubt.doubt is Doubt.DUAL_SHARE:
                text = (
                    f"the dual load a tire{place} is not 75 to 97 % of the single load; "
                    "is the table per tire, per pair or per axle end?"
                )
            else:
                text = f"the table does not rise{place}; read it against the maker's book"
            yield profile.rig_places.problem(path, text, at_key=True)


def _times(profile: Profile) -> Iterator[Problem]:
    if profile.trip is None or profile.trip_places is None:
        return
    for number, (before, after) in enumerate(pairwise(profile.trip.days), start=1):
        driving = sum(
            (leg.driving for leg in before.legs if leg.driving is not None),
            start=registry.Quantity(0.0, "hour"),
        )
        hours = (after.leave - before.leave).total_seconds() / 3600
        if hours <= driving.to("hour").m:
            began = f"{before.leave:%Y-%m-%d %H:%M}"
            text = f"the day before, from {began} with {driving:g~P} of driving, cannot have ended yet"
            yield profile.trip_places.problem(("days", number, "leave"), text)
