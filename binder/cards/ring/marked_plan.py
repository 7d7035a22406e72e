"""Vehicles drawn from above on a card, marked with what a stranger must find: a shut-off, a jacking point."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from itertools import chain

from binder.assessment.assess import Assessment
from binder.cards.blocks import Block, Note, Picture
from binder.cards.drawings import PlanView, Thing
from binder.cards.marks import Mark, things_at, together
from binder.cards.pages.plan import outlines
from binder.cards.pages.plan_places import Body
from binder.models.vehicles import Vehicle

_WIDTH = 117.6
"""Millimeters of the drawing: the lines of a half letter card are 117.7 wide, of an A5 card 120."""

_BODY, _BODY_WITH_NUMBERS = 16.0, 22.0
"""Millimeters of its height for the widest vehicle; more where a number stands between the tires."""


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
    things = tuple(together(chain.from_iterable(_things(body, own) for body, own in of_body)))
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
    lost = [mark for body, own in of_body for mark in own if not things_at(body, mark.spot)]
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
        for thing in things_at(body, mark.spot):
            yield replace(thing, label=mark.label, is_bold=mark.is_bold)
