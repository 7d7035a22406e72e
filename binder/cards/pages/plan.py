"""The plan view of a rig as data: vehicles to scale, axles with set-points, places numbered for the walk."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import NamedTuple

from binder.assessment.assess import Assessment
from binder.assessment.coupling.kinds import COMBINATION_LENGTH
from binder.assessment.tires import kinds
from binder.assessment.weights.resting import CARRIED, ON_A_DOLLY, carrier_of
from binder.cards.drawings import Axle, Coupling, PlanView, Shape, Thing, Vehicle
from binder.cards.marks import marks_for_fire, marks_for_wrecker, things_at, together
from binder.cards.pages.plan_places import Body, Place, millimeters, places
from binder.cards.rig_words import known_limit, words_of
from binder.models import rig as rig_models
from binder.models import vehicles as vehicle_models
from binder.quantities import Quantity, registry
from binder.wording.measures import FILL, SIZE

_SHAPES: dict[str, Shape] = {"motorhome": "motorhome", "car": "car", "pickup": "pickup"}
_KINDS = {
    "tow bar": "bar",
    "ball": "tongue",
    "dolly": "kingpin",
    "fifth wheel": "kingpin",
    "gooseneck": "kingpin",
}
_SIZE = re.compile(r"(\d{3})/(\d{2}) ?Z?R(\d{2}(?:\.\d)?)")
_TIRE = (700.0, 230.0)
"""Diameter and width in millimeters drawn for a tire whose size says neither: own choice, drawing only."""

_TRACK = 0.83
"""Track drawn where none is noted, in parts of the width: own choice, drawing only."""

_SCALE_BAR = {
    "us": (registry.Quantity(10, "foot"), "10 ft"),
    "metric": (registry.Quantity(3, "meter"), "3 m"),
}
_WIDTH = 177.0
"""Millimeters of the drawing: the text of an A4 page is 177.8 wide, of a letter page 183.4."""


@dataclass(frozen=True)
class Plan:
    """The drawing, where all it needs is known, its numbered places, and what is not known."""

    view: PlanView | None
    numbered: tuple[tuple[str, Place], ...]
    lacking: tuple[str, ...]
    assumed: tuple[str, ...]


class Outlined(NamedTuple):
    """Some vehicles laid out for a drawing, what is carried apart; or what that lacks."""

    lacking: tuple[str, ...]
    vehicles: tuple[Vehicle, ...] = ()
    bodies: tuple[Body, ...] = ()
    carried: tuple[Body, ...] = ()

    @property
    def every_body(self) -> tuple[Body, ...]:
        """What is drawn, and what is carried in the outlines of it."""
        return (*self.bodies, *self.carried)


def outlines(assessment: Assessment, drawn: dict[str, vehicle_models.Vehicle]) -> Outlined:
    """Lay out vehicles, each behind the one before."""
    lacking = tuple(_lacking(assessment, drawn))
    if lacking or not drawn:
        return Outlined(lacking)
    bodies = tuple(_bodies(assessment, drawn))
    pairs = zip(drawn, bodies, strict=True)
    vehicles = tuple(_vehicle(assessment, name, body, bodies) for name, body in pairs)
    return Outlined((), vehicles, bodies, tuple(_carried(assessment, drawn, bodies)))


def plan(assessment: Assessment) -> Plan:
    """Lay out the plan view of a rig."""
    rig = assessment.rig
    drawn = {name: entry for name, entry in rig.vehicles.items() if not carrier_of(rig, name)}
    outlined = outlines(assessment, drawn)
    vehicles, bodies = outlined.vehicles, outlined.bodies
    found = [place for body in outlined.every_body for place in places(body)]
    found += _joints(assessment, drawn, bodies)
    numbered = tuple((str(number), place) for number, place in enumerate(_walk(found), start=1))
    if not vehicles:
        return Plan(None, numbered, outlined.lacking, ())
    bar, bar_label = _SCALE_BAR[assessment.rig.units]
    marked = (
        replace(thing, label=mark.label, is_bold=mark.is_bold)
        for body in outlined.every_body
        for mark in (*marks_for_fire(body.vehicle), *marks_for_wrecker(body.vehicle))
        for thing in things_at(body, mark.spot)
    )
    things = tuple(together((*(place.thing(number) for number, place in numbered), *marked)))
    view = PlanView(
        vehicles,
        things,
        _overall(assessment),
        millimeters(bar),
        bar_label,
        _alternative(vehicles, things),
        _WIDTH,
    )
    return Plan(view, numbered, (), tuple(_assumed(rig, drawn)))


def _lacking(assessment: Assessment, drawn: dict[str, vehicle_models.Vehicle]) -> Iterator[str]:
    for name, vehicle in drawn.items():
        if vehicle.size.overall_length is None:
            yield f"length of the {name}"
        if vehicle.size.overall_width is None:
            yield f"width of the {name}"
        if not vehicle.axle_places:
            yield f"place of an axle of the {name}"
    for name in list(drawn)[1:]:
        coupling = _coupling_of(assessment, name)
        if coupling is None or coupling.at is None or _at_behind(coupling) is None:
            yield f"place of the coupling ahead of the {name}"
        elif coupling.how == "tow bar" and coupling.length is None:
            yield f"length of the {coupling.how}"


def _coupling_of(assessment: Assessment, behind: str) -> rig_models.Coupling | None:
    return next((item for item in assessment.rig.couplings if item.behind == behind), None)


def _at_behind(coupling: rig_models.Coupling) -> Quantity | None:
    """Where the joint is in the vehicle behind: a car stands on its dolly with its first axle."""
    return registry.Quantity(0.0, "inch") if coupling.how == ON_A_DOLLY else coupling.at_behind


def _carried(
    assessment: Assessment, drawn: dict[str, vehicle_models.Vehicle], bodies: tuple[Body, ...]
) -> Iterator[Body]:
    """What is carried, in the outline of what carries it: it has its doors and bays, and no outline."""
    numbers = {name: number for number, name in enumerate(drawn)}
    for name, vehicle in assessment.rig.vehicles.items():
        coupling = carrier_of(assessment.rig, name)
        number = numbers.get(coupling.ahead, len(bodies)) if coupling else len(bodies)
        if coupling is not None and coupling.at is not None and number < len(bodies):
            beneath = bodies[number]
            origin = beneath.behind_front(coupling.at)
            yield Body(number, vehicle, beneath.length, beneath.width, origin, beneath.is_last)


def _bodies(assessment: Assessment, drawn: dict[str, vehicle_models.Vehicle]) -> Iterator[Body]:
    for number, (name, vehicle) in enumerate(drawn.items()):
        length, width = vehicle.size.overall_length, vehicle.size.overall_width
        if length is None or width is None or not vehicle.axle_places:
            continue
        overhang = _overhang(assessment, name, vehicle, millimeters(length))
        is_last = number == len(drawn) - 1
        yield Body(number, vehicle, millimeters(length), millimeters(width), overhang, is_last)


def _overhang(assessment: Assessment, name: str, vehicle: vehicle_models.Vehicle, length: float) -> float:
    """Front to first axle: as noted, else from the rear overhang, the base plate, or in the middle."""
    size, last = vehicle.size, max(millimeters(at) for at in vehicle.axle_places)
    if size.front_overhang is not None:
        return millimeters(size.front_overhang)
    if size.rear_overhang is not None:
        return length - last - millimeters(size.rear_overhang)
    coupling = _coupling_of(assessment, name)
    if coupling and coupling.how == "tow bar" and coupling.at_behind is not None:
        return -millimeters(coupling.at_behind)
    return (length - last) / 2


def _assumed(rig: rig_models.Rig, drawn: dict[str, vehicle_models.Vehicle]) -> Iterator[str]:
    for name, vehicle in drawn.items():
        if vehicle.size.front_overhang is None:
            yield f"The front overhang of the {name} is not noted: its axles are drawn about where they are."
        if any(axle.track is None for axle in vehicle.axles.values()):
            yield f"A track of the {name} is not noted: its tires are drawn about where they are."
    for coupling in rig.couplings:
        if coupling.how == CARRIED:
            yield f"The {coupling.behind} stands on the {coupling.ahead} and is not drawn."


def _joints(
    assessment: Assessment, drawn: dict[str, vehicle_models.Vehicle], bodies: tuple[Body, ...]
) -> Iterator[Place]:
    """Where vehicles are joined, in the middle of the rig, reached on the left side of the walk."""
    numbers = {name: number for number, name in enumerate(drawn)}
    for item in assessment.rig.couplings:
        number = numbers.get(item.ahead, len(bodies))
        if number < len(bodies) and item.at is not None and item.how != CARRIED:
            body = bodies[number]
            where, parts = f"{item.ahead} to {item.behind}", tuple(item.parts)
            position = body.behind_front(item.at)
            yield Place(number, item.how, "left", position, body.width / 2, where, "", parts)


def _walk(found: list[Place]) -> list[Place]:
    """Once round from the entry door: its side to the front, the left side, the rear, and back to it."""
    around = sorted(found, key=_turn)
    door = next((number for number, place in enumerate(around) if place.name == "entry door"), 0)
    return [*around[door:], *around[:door]]


def _turn(place: Place) -> tuple[int, int, float]:
    if place.side == "left":
        return (2, place.vehicle, place.position)
    if place.side == "right":
        return (4, -place.vehicle, -place.position)
    return (1 if place.side == "front" else 3, 0, 0.0)


def _vehicle(assessment: Assessment, name: str, body: Body, bodies: tuple[Body, ...]) -> Vehicle:
    entry, places = body.vehicle, body.vehicle.axle_places
    axles = tuple(
        _axle(assessment, name, axle_name, millimeters(at - places[0]))
        for axle_name, at in zip(entry.axles, places, strict=True)
    )
    return Vehicle(
        f"{name} {words_of(assessment).text(entry.size.overall_length, SIZE)}",
        _SHAPES.get(entry.kind, "trailer"),
        body.length,
        body.width,
        body.overhang,
        axles,
        _coupling(assessment, name, body, bodies),
    )


def _axle(assessment: Assessment, vehicle: str, name: str, position: float) -> Axle:
    entry, words = assessment.rig.vehicles[vehicle], words_of(assessment)
    axle, drives = entry.axles[name], list(entry.axles)
    point = kinds.SET_POINT.of(vehicle, name)
    pressure, cap = assessment.quantity(point), known_limit(assessment, point)
    tires = assessment.rig.tires.get(axle.tires or "")
    diameter, width = _tire_size((tires.size or "") if tires else "")
    track = None if axle.track is None else millimeters(axle.track)
    body_width = entry.size.overall_width
    if track is None:
        track = _TRACK * millimeters(body_width) if body_width is not None else 0.0
    is_tag = axle.fitment == "single" and drives.index(name) > 1 and entry.kind == "motorhome"
    return Axle(
        position,
        track,
        "tag" if is_tag else axle.fitment,
        "?" if pressure is None else words.fill(pressure, cap),
        words.unit(FILL),
        diameter,
        width,
    )


def _tire_size(size: str) -> tuple[float, float]:
    match = _SIZE.search(size)
    if match is None:
        return _TIRE
    width, aspect, rim = (float(part) for part in match.groups())
    # Rim diameter in inches, section height in percent of the width: the notation of metric sizes.
    return rim * 25.4 + 2 * width * aspect / 100, width


def _coupling(assessment: Assessment, name: str, body: Body, bodies: tuple[Body, ...]) -> Coupling | None:
    found = _coupling_of(assessment, name)
    at_behind = _at_behind(found) if found else None
    if found is None or body.number == 0 or found.at is None or at_behind is None:
        return None
    own = body.behind_front(at_behind)
    if found.how == "tow bar" and found.length is not None:
        own -= millimeters(found.length)
    kind = _KINDS[found.how]
    ahead = bodies[body.number - 1].behind_front(found.at)
    return Coupling("bar" if kind == "bar" else "tongue" if kind == "tongue" else "kingpin", ahead, own)


def _overall(assessment: Assessment) -> str:
    length = assessment.quantity(COMBINATION_LENGTH.of())
    return f"{words_of(assessment).text(length, SIZE)} over all"


def _alternative(vehicles: tuple[Vehicle, ...], things: tuple[Thing, ...]) -> str:
    axles = "; ".join(
        f"{vehicle.name}: {', '.join(f'{axle.set_point} {axle.unit}' for axle in vehicle.axles)}"
        for vehicle in vehicles
    )
    walk = "; ".join(f"{thing.walk} {thing.label}, {thing.side}".strip() for thing in things)
    return (
        f"The rig from above, to scale, front at the left. Set-points front to rear: {axles}. Places: {walk}."
    )
