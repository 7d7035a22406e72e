"""Where things are found on each vehicle, from what the profile says in numbers or in words."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from binder.cards.drawings import End, Thing
from binder.models.vehicles import Vehicle
from binder.quantities import Quantity

_THIRDS = {"front": 1 / 6, "middle": 1 / 2, "rear": 5 / 6}
"""Where along a vehicle the middle of the third lies that a word names."""

_DOOR = "entry door"


@dataclass(frozen=True)
class Place:
    """A named place on a vehicle: how far behind its front, on which side, how far in, and what is there."""

    vehicle: int
    name: str
    side: End
    position: float
    inward: float
    where: str
    lock: str = ""
    holds: tuple[str, ...] = ()

    def thing(self, walk: str) -> Thing:
        """The place as the plan view draws it."""
        return Thing(self.vehicle, self.side, self.name, self.position, self.inward, walk)


@dataclass(frozen=True)
class Body:
    """A vehicle as it is drawn: millimeters, its front before its first axle."""

    number: int
    vehicle: Vehicle
    length: float
    width: float
    overhang: float
    is_last: bool

    def behind_front(self, at: Quantity) -> float:
        """How far behind the front a place lies that is measured from the first axle."""
        return self.overhang + millimeters(at)


def millimeters(length: Quantity) -> float:
    """A length as drawings take it."""
    return float(length.to("millimeter").magnitude)


def places(body: Body) -> tuple[Place, ...]:
    """All places of a vehicle that can be drawn, each with what is found there."""
    named = [*_door(body), *_bays(body)]
    names = tuple(place.name for place in named)
    contents = tuple(dict.fromkeys(_contents(body.vehicle)))
    found = (
        replace(place, holds=tuple(what for what, where in contents if place.name == _named(where, names)))
        for place in named
    )
    return (*found, *_fillers(body, names))


def _named(where: str, names: tuple[str, ...]) -> str:
    """The place that words name: the longest name in them, since "rear bay" is in "right rear bay"."""
    return max((name for name in names if name in where), key=len, default="")


def named_place(where: str, known: tuple[Place, ...]) -> Place | None:
    """The door or bay that words name, where they name one."""
    name = _named(where, tuple(place.name for place in known))
    return next((place for place in known if place.name == name), None)


def _door(body: Body) -> Iterator[Place]:
    door = body.vehicle.equipment.entry_door
    if door and door.at is not None and door.side:
        side, position, inward = _on_side(body, door.side, body.behind_front(door.at), 0.0)
        yield Place(body.number, _DOOR, side, position, inward, door.side)


def _bays(body: Body) -> Iterator[Place]:
    for name, bay in body.vehicle.bays.items():
        if bay.at is None or bay.side is None:
            continue
        deep = 0.0 if bay.left is None else max(0.0, body.width / 2 - abs(millimeters(bay.left)))
        side, position, inward = _on_side(body, bay.side, body.behind_front(bay.at), deep)
        yield Place(body.number, name, side, position, inward, bay.side, bay.lock or "")


def _on_side(body: Body, side: str, position: float, inward: float) -> tuple[End, float, float]:
    """A place at the rear is at an end of the drawing only on the last vehicle."""
    if side != "rear":
        return ("left" if side == "left" else "right"), min(max(position, 0.0), body.length), inward
    if body.is_last:
        return "rear", body.length, max(0.0, body.length - position)
    return "left", min(max(position, 0.0), body.length), body.width / 2


def _contents(vehicle: Vehicle) -> Iterator[tuple[str, str]]:
    """What is somewhere, and the words that say where."""
    for name, tank in vehicle.tanks.items():
        if tank.filler:
            yield f"{name} filler", tank.filler
        if tank.valve:
            yield f"{name} valve", tank.valve
    equipment = vehicle.equipment
    for what, listed in (
        ("extinguisher", equipment.extinguishers),
        ("exit", equipment.exits),
        ("warning devices", equipment.warning_devices),
        ("vests", equipment.vests),
    ):
        for one in listed or []:
            yield what, one if isinstance(one, str) else one.place
    for stop in equipment.shut_offs or []:
        yield f"{stop.stops} shut-off" if stop.stops else _unnamed(stop.place, vehicle), stop.place
    yield from (("chocks", where) for where in equipment.chock_places or [])
    for name, battery in vehicle.batteries.items():
        if battery.place:
            yield f"{name} batteries", battery.place


def _unnamed(place: str, vehicle: Vehicle) -> str:
    return "shut-off" if place in vehicle.bays else place


def _fillers(body: Body, known: tuple[str, ...]) -> Iterator[Place]:
    """Fillers that words place on a side: in the third they name, else abreast of their tank."""
    for name, tank in body.vehicle.tanks.items():
        words = re.findall(r"[a-z]+", tank.filler or "")
        side: End | None = "left" if "left" in words else "right" if "right" in words else None
        if side is None or _named(tank.filler or "", known):
            continue
        third = next((_THIRDS[word] for word in words if word in _THIRDS), None)
        if third is not None:
            position = third * body.length
        elif tank.at is not None:
            position = body.behind_front(tank.at)
        else:
            continue
        yield Place(body.number, f"{name} filler", side, position, 0.0, tank.filler or "")
