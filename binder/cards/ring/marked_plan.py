"""Vehicles drawn from above on a card, marked with what a stranger must find: a shut-off, a jacking point."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from itertools import chain
from typing import NamedTuple

from binder.assessment.assess import Assessment
from binder.cards.blocks import Block, Note, Picture
from binder.cards.drawings import PlanView, Thing
from binder.cards.pages.plan import outlines
from binder.cards.pages.plan_places import Body, named_place, places
from binder.models.equipment import Spot
from binder.models.vehicles import Vehicle

_WIDTH = 117.6
"""Millimeters of the drawing: the lines of a half letter card are 117.7 wide, of an A5 card 120."""

_BODY, _BODY_WITH_NUMBERS = 16.0, 22.0
"""Millimeters of its height for the widest vehicle; more where a number stands between the tires."""


class Mark(NamedTuple):
    """What is drawn at a place of a vehicle."""

    label: str
    spot: Spot
    is_bold: bool = False


Marks = Mapping[str, tuple[Mark, ...]]
"""Marks by the name of the vehicle they are on."""

AxleTexts = Mapping[tuple[str, int], tuple[str, str]]
"""Number and unit to be printed at an axle, by its vehicle's name and its place among the axles."""


def marked_plan(
    assessment: Assessment, marks: Marks, title: str, at_axles: AxleTexts | None = None
) -> Iterator[Block]:
    """Draw the vehicles that have marks, and say what is not drawn and why."""
    drawn = _drawn(assessment, marks)
    outlined = outlines(assessment, drawn)
    if outlined.lacking:
        yield Note(f"Not drawn: {', '.join(outlined.lacking)} not noted.")
    if not outlined.vehicles:
        return
    names = {id(vehicle): name for name, vehicle in assessment.rig.vehicles.items()}
    of_body = [(body, marks.get(names[id(body.vehicle)], ())) for body in outlined.every_body]
    things = tuple(_together(chain.from_iterable(_things(body, own) for body, own in of_body)))
    numbers = at_axles or {}
    vehicles = tuple(
        replace(
            vehicle,
            name=vehicle.name if len(drawn) > 1 else "",
            axles=tuple(
                replace(axle, set_point=text, unit=unit)
                for at, axle in enumerate(vehicle.axles)
                for text, unit in (numbers.get((name, at), ("", "")),)
            ),
        )
        for name, vehicle in zip(drawn, outlined.vehicles, strict=True)
    )
    said = ", ".join(f"{thing.label} {thing.side}" for thing in things)
    body = _BODY_WITH_NUMBERS if numbers else _BODY
    alternative = f"{title}, from above, front at the left: {said}."
    yield Picture(PlanView(vehicles, things, "", 0.0, "", alternative, _WIDTH, 13, body))
    lost = [mark for body, own in of_body for mark in own if not _found(body, mark.spot)]
    if lost:
        told = "; ".join(f"{mark.label}, {mark.spot.place}" for mark in lost)
        yield Note(f"Not drawn, for where it is was not measured: {told}.")


def _drawn(assessment: Assessment, marks: Marks) -> dict[str, Vehicle]:
    """From the first vehicle that has marks to the last; what is carried stands on what carries it."""
    rig = assessment.rig
    carriers = {one.behind: one.ahead for one in rig.couplings if one.how == "carried"}
    marked = {carriers.get(name, name) for name, own in marks.items() if own}
    rolling = [name for name in rig.vehicles if name not in carriers]
    ends = [at for at, name in enumerate(rolling) if name in marked]
    return {name: rig.vehicles[name] for name in rolling[min(ends) : max(ends) + 1]} if ends else {}


def _things(body: Body, marks: Iterable[Mark]) -> Iterator[Thing]:
    for mark in marks:
        for thing in _found(body, mark.spot):
            yield replace(thing, label=mark.label, is_bold=mark.is_bold)


def _found(body: Body, spot: Spot) -> tuple[Thing, ...]:
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


def _together(things: Iterable[Thing]) -> Iterator[Thing]:
    """Several things at one place have one label."""
    groups: dict[object, list[Thing]] = {}
    for thing in things:
        groups.setdefault((thing.vehicle, thing.side, round(thing.position), round(thing.inward)), []).append(
            thing
        )
    for same in groups.values():
        label = ", ".join(dict.fromkeys(thing.label for thing in same))
        yield replace(same[0], label=label, is_bold=any(thing.is_bold for thing in same))
