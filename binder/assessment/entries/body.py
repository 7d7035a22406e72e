"""What a vehicle's own measures contradict: lengths that do not add up, a tank outside the body."""

from collections.abc import Iterator

from binder.assessment.entries import kinds
from binder.models.load import Profile
from binder.models.located_yaml import Located
from binder.models.vehicles import Vehicle
from binder.problems import Path, Problem
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
    if vehicle.kind not in _MOTOR_VEHICLES or front is None or rear is None or whole is None:
        return None
    last = list(vehicle.axles.values())[-1]
    apart: Quantity = (front + last.at + rear - whole).to("inch")
    return apart


def _length(places: Located, name: str, vehicle: Vehicle) -> Iterator[Problem]:
    apart = length_apart(vehicle)
    if apart is not None and abs(apart) > LENGTHS_APART:
        text = kinds.LENGTHS_OVER if apart.m > 0 else kinds.LENGTHS_UNDER
        path: Path = ("vehicles", name, "size", "overall_length")
        yield places.problem(path, text.format(apart=f"{abs(apart.m):.0f}"))


def _axles_beyond(places: Located, name: str, vehicle: Vehicle) -> Iterator[Problem]:
    whole, axles = vehicle.size.overall_length, list(vehicle.axles.values())
    if vehicle.kind in _MOTOR_VEHICLES and whole is not None and axles and axles[-1].at > whole:
        text = kinds.LAST_AXLE_BEYOND.format(behind=f"{number_in(axles[-1].at, 'inch'):.0f}")
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


def _is_outside_along(vehicle: Vehicle, at: Quantity | None) -> bool:
    front, rear = vehicle.size.front_overhang, vehicle.size.rear_overhang
    if at is None or vehicle.kind not in _MOTOR_VEHICLES:
        return False
    last = list(vehicle.axles.values())[-1].at
    return bool((front is not None and at < -1 * front) or (rear is not None and at > last + rear))


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
