"""What a stranger must find on a vehicle, and where it is drawn: a way out, a shut-off, a jacking point."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import NamedTuple

from binder.cards.drawings import Thing
from binder.cards.pages.plan_places import Body, named_place, places
from binder.models.equipment import Spot
from binder.models.vehicles import Vehicle


class Mark(NamedTuple):
    """What is drawn at a place of a vehicle."""

    label: str
    spot: Spot
    is_bold: bool = False


WRECKER = {
    "Jack here": ("jack", "jacking_points"),
    "Lift here": ("lift", "lift_points"),
    "Pull here": ("tow eye", "tow_eyes"),
}
"""What a wrecker's driver asks for: on its line, on the drawing, and where it is noted."""


def marks_for_fire(vehicle: Vehicle) -> Iterator[Mark]:
    """Ways out, extinguishers, and what stops gas and current."""
    has = vehicle.equipment
    yield from (Mark("EXIT", way, is_bold=True) for way in has.exits or [])
    yield from (Mark("extinguisher", one) for one in has.extinguishers or [])
    for stop in has.shut_offs or []:
        yield Mark(f"{stop.stops or 'shut'} OFF", stop)
    if not any(stop.stops == "propane" for stop in has.shut_offs or []):
        for tank in vehicle.tanks.values():
            if tank.holds == "propane" and tank.valve:
                yield Mark("propane valve", Spot(place=tank.valve))


def marks_for_wrecker(vehicle: Vehicle) -> Iterator[Mark]:
    """Where it is jacked, lifted and pulled, and where it takes air."""
    has = vehicle.equipment
    for label, entry in WRECKER.values():
        yield from (Mark(label, spot) for spot in getattr(has, entry) or ())
    if has.air_port:
        yield Mark("air", has.air_port)


def things_at(body: Body, spot: Spot) -> tuple[Thing, ...]:
    """Where a spot is drawn: as measured, else at the door or bay that its words name; nowhere if neither."""
    if spot.at is None or spot.side is None:
        place = named_place(spot.place, places(body))
        return (place.thing(""),) if place else ()
    position = min(max(body.behind_front(spot.at), 0.0), body.length)
    if spot.side == "front" and body.number == 0:
        return (Thing(body.number, "front", "", position, position),)
    if spot.side == "rear" and body.is_last:
        return (Thing(body.number, "rear", "", position, body.length - position),)
    if spot.side in {"front", "rear"}:
        return (Thing(body.number, "left", "", position, body.width / 2),)
    sides = ("left", "right") if spot.side == "both" else (spot.side,)
    return tuple(
        Thing(body.number, "left" if side == "left" else "right", "", position, 0.0) for side in sides
    )


def together(things: Iterable[Thing]) -> Iterator[Thing]:
    """Several things at one place have one label."""
    groups: dict[object, list[Thing]] = {}
    for thing in things:
        groups.setdefault((thing.vehicle, thing.side, round(thing.position), round(thing.inward)), []).append(
            thing
        )
    for same in groups.values():
        label = ", ".join(dict.fromkeys(thing.label for thing in same))
        yield replace(same[0], label=label, is_bold=any(thing.is_bold for thing in same))
