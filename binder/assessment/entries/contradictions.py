"""What a vehicle's own measures contradict: lengths that do not add up, a tank outside the body."""

from collections.abc import Iterator
from datetime import UTC
from itertools import pairwise
from zoneinfo import ZoneInfo

from binder.assessment.entries import kinds
from binder.assessment.entries.names import name_problems, stop_levels
from binder.assessment.route.days import trip_days
from binder.assessment.tires.axle import tire_axles
from binder.assessment.tires.register import doubts_of
from binder.assessment.weights.resting import CARRIED, CARRYING, ON_A_DOLLY, share_total
from binder.assessment.weights.states import volume_of
from binder.calculations.tires.load_tables import Doubt
from binder.models.load import Profile
from binder.models.located_yaml import Located
from binder.models.rig import AxleWeights, Coupling, VehicleWeights
from binder.models.vehicles import Vehicle
from binder.problems import InputProblems, Path, Problem
from binder.quantities import Quantity, number_in, registry

LENGTHS_APART = registry.Quantity(6.0, "inch")  # Practice: more is no slip of a tape, but of a digit.
_MOTOR_VEHICLES = {"motorhome", "pickup", "car"}


def body_problems(profile: Profile) -> Iterator[Problem]:
    """Contradictions between the measures of each vehicle."""
    for name, vehicle in profile.rig.vehicles.items():
        yield from _length(profile.rig_places, name, vehicle)
        yield from _axles_beyond(profile.rig_places, name, vehicle)
        yield from _tanks(profile.rig_places, name, vehicle)
    yield from _people(profile)


def length_apart(vehicle: Vehicle) -> Quantity | None:
    """How far overhangs and wheelbase together are from the overall length."""
    size = vehicle.size
    front, rear, whole = size.front_overhang, size.rear_overhang, size.overall_length
    places = vehicle.axle_places
    if vehicle.kind not in _MOTOR_VEHICLES or front is None or rear is None or whole is None or not places:
        return None
    apart: Quantity = (front + places[-1] + rear - whole).to("inch")
    return apart


def _length(places: Located, name: str, vehicle: Vehicle) -> Iterator[Problem]:
    apart = length_apart(vehicle)
    if apart is not None and abs(apart) > LENGTHS_APART:
        text = kinds.LENGTHS_OVER if apart.m > 0 else kinds.LENGTHS_UNDER
        path: Path = ("vehicles", name, "size", "overall_length")
        yield places.problem(path, text.format(apart=f"{abs(apart.m):.0f}"))


_NOTHING = registry.Quantity(0.0, "foot")
_LONGEST, _STANDS_OUT = registry.Quantity(100.0, "foot"), registry.Quantity(10.0, "foot")
"""Practice: no vehicle is as long; what hangs on a rack stands out less."""


def _axles_beyond(places: Located, name: str, vehicle: Vehicle) -> Iterator[Problem]:
    whole, axles = vehicle.size.overall_length, vehicle.axle_places
    if vehicle.kind in _MOTOR_VEHICLES and whole is not None and axles and axles[-1] > whole:
        text = kinds.LAST_AXLE_BEYOND.format(behind=f"{number_in(axles[-1], 'inch'):.0f}")
        yield places.problem(("vehicles", name, "size", "overall_length"), text)


def _tanks(places: Located, name: str, vehicle: Vehicle) -> Iterator[Problem]:
    for tank_name, tank in vehicle.tanks.items():
        path: Path = ("vehicles", name, "tanks", tank_name)
        if tank.usable is not None and tank.capacity is not None and tank.usable > tank.capacity:
            text = kinds.USABLE_OVER.format(capacity=f"{tank.capacity:g~P}")
            yield places.problem((*path, "usable"), text)
        if _is_outside_along(vehicle, tank.at):
            yield places.problem((*path, "at"), kinds.OUTSIDE_ALONG)
        if _is_outside_across(vehicle, tank.left):
            yield places.problem((*path, "left"), kinds.OUTSIDE_ACROSS)


def _is_outside_along(vehicle: Vehicle, at: Quantity | None, beyond: Quantity = _NOTHING) -> bool:
    """Outside by more than what may stand out, or farther from the first axle than any vehicle is long."""
    front, rear = vehicle.size.front_overhang, vehicle.size.rear_overhang
    if at is None:
        return False
    if abs(at) > _LONGEST:
        return True
    if vehicle.kind not in _MOTOR_VEHICLES:
        return False
    places = vehicle.axle_places
    is_behind = rear is not None and bool(places) and at > places[-1] + rear + beyond
    return bool((front is not None and at < -1 * front - beyond) or is_behind)


def _is_outside_across(vehicle: Vehicle, left: Quantity | None) -> bool:
    width = vehicle.size.overall_width
    return bool(left is not None and width is not None and abs(left) > width / 2)


def _people(profile: Profile) -> Iterator[Problem]:
    trip, places = profile.trip, profile.trip_places
    if trip is None or places is None:
        return
    for number, person in enumerate(trip.crew):
        vehicle = profile.rig.vehicles[person.vehicle]
        text = kinds.OUTSIDE.format(vehicle=person.vehicle)
        if _is_outside_along(vehicle, person.at):
            yield places.problem(("crew", number, "at"), text)
        if _is_outside_across(vehicle, person.left):
            yield places.problem(("crew", number, "left"), text)
    for number, thing in enumerate(trip.cargo):
        if _is_outside_along(profile.rig.vehicles[thing.vehicle], thing.at, _STANDS_OUT):
            yield places.problem(("cargo", number, "at"), kinds.OUTSIDE.format(vehicle=thing.vehicle))


_ON_WHEELS = {"motorhome", "pickup", "car"}
_SAME = 1e-6
"""Shares that people write as percents make a whole within this."""


def joined_problems(profile: Profile) -> Iterator[Problem]:
    """Contradictions between vehicles, their axles and what joins them."""
    for name, vehicle in profile.rig.vehicles.items():
        yield from _axles(profile, name, vehicle)
        yield from _shares(profile, name, vehicle)
    for number, coupling in enumerate(profile.rig.couplings):
        if {coupling.ahead, coupling.behind} <= set(profile.rig.vehicles):
            yield from _order(profile, number, coupling)
            yield from _way(profile, number, coupling)


def _axles(profile: Profile, name: str, vehicle: Vehicle) -> Iterator[Problem]:
    places, path = profile.rig_places, ("vehicles", name, "axles")
    if vehicle.kind != "camper":
        if not vehicle.axles:
            yield places.problem(path, kinds.NO_AXLE, at_key=True)
        if vehicle.center_of_gravity is not None:
            stated: Path = ("vehicles", name, "center_of_gravity")
            yield places.problem(stated, kinds.NOT_STATED, at_key=True)
        return
    if vehicle.axles:
        yield places.problem(path, kinds.CAMPER_AXLES, at_key=True)
    if not any(one.behind == name and one.how == CARRIED for one in profile.rig.couplings):
        text = kinds.NOT_CARRIED.format(vehicle=name)
        yield places.problem(("vehicles", name), text, at_key=True, hint=kinds.JOIN.format())


def _shares(profile: Profile, name: str, vehicle: Vehicle) -> Iterator[Problem]:
    """Weight that no axle of a group takes, or that more than the whole of it takes."""
    is_trailer = any(one.behind == name and one.how in CARRYING for one in profile.rig.couplings)
    axles = list(vehicle.axles.items())
    if not is_trailer and axles and axles[0][1].carries is not None:
        path: Path = ("vehicles", name, "axles", axles[0][0], "carries")
        yield profile.rig_places.problem(path, kinds.FIRST_CARRIES)
    stated, has_rest = share_total(dict(axles if is_trailer else axles[1:]))
    if stated is None or (has_rest and stated <= 1 + _SAME) or abs(stated - 1) <= _SAME:
        return
    path = ("vehicles", name, "axles", next(key for key, axle in axles[::-1] if axle.carries is not None))
    text = kinds.SHARES.format(stated=f"{stated:.0%}")
    yield profile.rig_places.problem((*path, "carries"), text, hint=kinds.SHARES_HINT)


def _order(profile: Profile, number: int, coupling: Coupling) -> Iterator[Problem]:
    places, vehicles = profile.rig_places, list(profile.rig.vehicles)
    path: Path = ("couplings", number, "behind")
    if coupling.ahead == coupling.behind:
        yield places.problem(path, kinds.BEHIND_ITSELF.format(behind=coupling.behind))
        return
    # What is carried stands right after what carries it, and the list goes on behind it.
    carried = {
        one.behind
        for one in profile.rig.couplings
        if one.how == CARRIED and one.ahead == coupling.ahead and one is not coupling
    }
    rest = [name for name in vehicles if name not in carried]
    if coupling.behind in carried or rest.index(coupling.behind) != rest.index(coupling.ahead) + 1:
        text = kinds.NOT_FOLLOWING.format(behind=coupling.behind, ahead=coupling.ahead)
        yield places.problem(path, text, hint=kinds.NOT_FOLLOWING_HINT)
    if any(other.behind == coupling.behind for other in profile.rig.couplings[:number]):
        yield places.problem(path, kinds.ALREADY_BEHIND.format(behind=coupling.behind))


def _way(profile: Profile, number: int, coupling: Coupling) -> Iterator[Problem]:
    places, base = profile.rig_places, ("couplings", number)
    ahead, behind = profile.rig.vehicles[coupling.ahead], profile.rig.vehicles[coupling.behind]
    if any(one.behind == coupling.ahead and one.how == CARRIED for one in profile.rig.couplings):
        text = kinds.JOINED_TO_CARRIED.format(ahead=coupling.ahead)
        yield places.problem((*base, "ahead"), text)
    if behind.kind == "camper" and coupling.how != CARRIED:
        yield places.problem((*base, "how"), kinds.CAMPER_HOW, hint=kinds.JOIN.format())
    if coupling.how == ON_A_DOLLY:
        if ahead.kind != "dolly":
            text = kinds.NO_DOLLY.format(ahead=coupling.ahead)
            yield places.problem((*base, "how"), text, hint=kinds.NO_DOLLY_HINT)
        if behind.kind not in _ON_WHEELS or len(behind.axles) <= 1:
            text = kinds.NO_FRONT_AXLE.format(behind=coupling.behind)
            yield places.problem((*base, "behind"), text)
    if coupling.how in {ON_A_DOLLY, CARRIED}:
        yield from _not_measured(profile, number, coupling)
    at_behind = coupling.at_behind
    if coupling.how in CARRYING and at_behind is not None and at_behind.m >= 0:
        yield places.problem((*base, "at_behind"), kinds.COUPLER_AHEAD)
    if coupling.distribution is not None and coupling.how != "ball":
        text = kinds.SPRING_BARS.format(how=coupling.how)
        yield places.problem((*base, "distribution"), text, at_key=True)


def _not_measured(profile: Profile, number: int, coupling: Coupling) -> Iterator[Problem]:
    """What rests by its own weight has no measured down load, and its place is one number."""
    for field, text in kinds.NOT_MEASURED.items():
        if getattr(coupling, field) is not None:
            yield profile.rig_places.problem(("couplings", number, field), text, at_key=True)


ASSUMED_DIVISION = registry.Quantity(20.0, "pound")
"""The step of a scale whose ticket does not tell it."""


def refuse_contradictions(profile: Profile) -> None:
    """Raise every contradiction of a profile at once."""
    problems = [*name_problems(profile), *joined_problems(profile), *_empty_rows(profile)]
    if not problems:
        problems = [
            *_axle_places(profile),
            *_levels(profile),
            *_tickets(profile),
            *_tables(profile),
            *_times(profile),
            *_departures(profile),
            *body_problems(profile),
        ]
    if problems:
        raise InputProblems(problems, profile.sources)


def _departures(profile: Profile) -> Iterator[Problem]:
    """A departure in the hour that daylight saving leaves out."""
    for day in trip_days(profile):
        if day.zone_at_start is None or profile.trip_places is None:
            continue
        leave = day.plan.leave.replace(tzinfo=ZoneInfo(day.zone_at_start))
        if leave.astimezone(UTC).astimezone(leave.tzinfo).replace(tzinfo=None) != day.plan.leave:
            text = kinds.NO_SUCH_HOUR.format(time=f"{day.plan.leave:%H:%M}", zone=day.zone_at_start)
            yield profile.trip_places.problem(("days", day.number - 1, "leave"), text)


def _axle_places(profile: Profile) -> Iterator[Problem]:
    for name, vehicle in profile.rig.vehicles.items():
        for (ahead_name, ahead), (axle_name, axle) in pairwise(vehicle.axles.items()):
            if ahead.at is not None and axle.at is not None and axle.at <= ahead.at:
                path: Path = ("vehicles", name, "axles", axle_name, "at")
                text = kinds.NOT_BEHIND.format(ahead=ahead_name)
                yield profile.rig_places.problem(path, text)
        first_name, first = next(iter(vehicle.axles.items()), (None, None))
        if first is not None and first.at is not None and first.at.m != 0:
            path = ("vehicles", name, "axles", str(first_name), "at")
            yield profile.rig_places.problem(path, kinds.FIRST_AXLE)


def _levels(profile: Profile) -> Iterator[Problem]:
    rig = profile.rig
    stated: list[tuple[Located, Path, object]] = [
        (profile.rig_places, ("scale_tickets", number, "levels"), ticket.levels)
        for number, ticket in enumerate(rig.scale_tickets)
    ]
    if profile.trip and profile.trip_places:
        stated.append((profile.trip_places, ("levels_at_start",), profile.trip.levels_at_start))
        stated += [(profile.trip_places, path, levels) for path, levels in stop_levels(profile)]
    for places, base, levels in stated:
        if not isinstance(levels, dict):
            continue
        for vehicle, tanks in levels.items():
            for name, level in tanks.items():
                tank = rig.vehicles[vehicle].tanks[name]
                volume = volume_of(tank, level)
                if volume is not None and tank.capacity is not None and volume > tank.capacity:
                    text = kinds.OVER_CAPACITY.format(level=level.written, capacity=f"{tank.capacity:g~P}")
                    yield places.problem((*base, vehicle, name), text)


def _tickets(profile: Profile) -> Iterator[Problem]:
    for number, ticket in enumerate(profile.rig.scale_tickets):
        division = ticket.division or ASSUMED_DIVISION
        for vehicle, weights in ticket.weights.items():
            base: Path = ("scale_tickets", number, "weights", vehicle)
            for axle_name, reading in weights.axles.items():
                yield from _ends(profile, (*base, axle_name), reading, division)
            yield from _sum(profile, base, weights, division)


def _ends(profile: Profile, path: Path, reading: AxleWeights, division: Quantity) -> Iterator[Problem]:
    for side, end in (("left", reading.left), ("right", reading.right)):
        if end is not None and reading.axle is not None and end > reading.axle:
            text = kinds.END_OVER_AXLE.format(axle=f"{reading.axle:,.0f~P}")
            yield profile.rig_places.problem((*path, side), text)
            return
    if reading.left is None or reading.right is None or reading.axle is None:
        return
    both = reading.left + reading.right
    if abs(both - reading.axle) > division:
        text = kinds.ENDS_APART.format(both=f"{both:,.0f~P}", axle=f"{reading.axle:,.0f~P}")
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
        text = kinds.AXLES_APART.format(axles=f"{total:,.0f~P}", total=f"{weights.total:,.0f~P}")
        yield profile.rig_places.problem((*path, "total"), text)
    elif apart > allowed:
        text = kinds.SOME_AXLES_OVER.format(count=len(read), axles=f"{total:,.0f~P}")
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
                yield profile.rig_places.problem(path, kinds.EMPTY_ROW, at_key=True)


def _tables(profile: Profile) -> Iterator[Problem]:
    seen: set[Path] = set()
    for axle in tire_axles(profile.rig, ()):
        for doubt in doubts_of(axle):
            path: Path = ("tires", str(axle.axle.tires), "table", axle.axle.fitment)
            if not doubt.is_problem or path in seen:
                continue
            seen.add(path)
            text = kinds.DUAL_SHARE if doubt.doubt is Doubt.DUAL_SHARE else kinds.FALLS
            at = "" if doubt.row is None else kinds.AT_ROW.format(pressure=f"{doubt.row.pressure:g~P}")
            yield profile.rig_places.problem(path, text.format(at=at), at_key=True)


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
            text = kinds.NOT_ENDED.format(began=f"{before.leave:%Y-%m-%d %H:%M}", driving=f"{driving:g~P}")
            yield profile.trip_places.problem(("days", number, "leave"), text)
