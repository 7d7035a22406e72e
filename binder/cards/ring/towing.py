"""Card 7, Towing this rig: what its people do first, and what the wrecker's driver asks, drawn too."""

from collections.abc import Iterator, Sequence

from binder.assessment.assess import Assessment
from binder.assessment.body.kinds import OVERHANG_ANGLE
from binder.assessment.body.strangers import winched
from binder.assessment.ledger import Figure, FigureKind, all_known
from binder.assessment.weights.kinds import AXLE, AXLE_ALONE, TOTAL, TOTAL_ALONE
from binder.cards.blocks import Big, Blank, Block, Card, Heading, Line, Picture
from binder.cards.marks import WRECKER, marks_for_wrecker
from binder.cards.procedures.lines import said_card
from binder.cards.procedures.reading import card_words
from binder.cards.rig_words import words_of
from binder.cards.ring.marked_plan import marked_plan
from binder.models.equipment import Spot
from binder.models.rig import Rig
from binder.models.vehicles import Size, Vehicle
from binder.quantities import Quantity
from binder.wording.measures import LOAD, SIZE
from binder.wording.numbers import BLANK
from binder.wording.words import begun


def towing(assessment: Assessment) -> Card:
    """Make the card for the wrecker."""
    computed = {
        "vehicles": tuple(_vehicles(assessment)),
    }
    return said_card(card_words("towing"), assessment, computed, _figures(assessment))


def _figures(assessment: Assessment) -> dict[str, Figure]:
    """The figures it prints, each by what it is."""
    found: dict[str, Figure | None] = {}
    for name, vehicle, ends in winched(assessment.rig):
        found |= {f"{name}, {axle}": _alone(assessment, name, axle) for axle in vehicle.axles}
        angles = {end: assessment.known(OVERHANG_ANGLE.of(name, end)) for end in ends}
        found |= {f"{name}, {end} overhang": angle for end, angle in angles.items()}
    return {name: figure for name, figure in found.items() if figure}


def _alone(assessment: Assessment, vehicle: str, axle: str = "") -> Figure | None:
    """What an axle, or all of them, carries with nothing on the coupling; if nothing presses, as towing."""
    subject = (vehicle, axle) if axle else (vehicle,)
    kinds: tuple[FigureKind, FigureKind] = (
        (AXLE_ALONE, AXLE.heaviest) if axle else (TOTAL_ALONE, TOTAL.heaviest)
    )
    return next((figure for kind in kinds if (figure := assessment.known(kind.of(*subject)))), None)


def _vehicles(assessment: Assessment) -> Iterator[Block]:
    """Each vehicle by itself: its sizes, then its points, drawn and in words."""
    for name, vehicle, ends in winched(assessment.rig):
        loaded = ", ".join(_load_of(assessment.rig, name))
        alone = f"with {loaded}" if loaded else "alone" if ends[0] == "front" else ""
        yield Heading(f"{begun(name)} {alone}".strip())
        yield from _sizes(assessment, name, vehicle, ends)
        yield from _drawn(assessment, name, vehicle)
        yield from _told(vehicle, is_towing=ends[0] == "front")


def _sizes(assessment: Assessment, name: str, vehicle: Vehicle, ends: tuple[str, ...]) -> Iterator[Block]:
    words, total = words_of(assessment), _alone(assessment, name)
    on_it = _load_of(assessment.rig, name)
    heights = all_known(_height(one.size) for one in (vehicle, *on_it.values()))
    yield Big("Height", words.text(max(heights) if heights else None, SIZE), "", 24)
    yield Big("Length", words.text(vehicle.size.overall_length, SIZE), "", 24)
    each = "this and each axle rounded up by itself" if total and total.quantity is not None else ""
    yield Big("Weight", words.text(total.quantity if total else None, LOAD), each, 24)
    for end in ends:
        overhang = words.text(getattr(vehicle.size, f"{end}_overhang"), SIZE)
        angle = words.value(assessment.known(OVERHANG_ANGLE.of(name, end)), f"{BLANK}\u00b0")
        yield Line(f"{begun(end)} overhang {overhang}", f"RAMP {angle} OR LESS")


def _height(size: Size) -> Quantity | None:
    raised = size.height_measured.raised if size.height_measured else None
    return max((one for one in (size.overall_height, raised) if one is not None), default=None)


def _load_of(rig: Rig, vehicle: str) -> dict[str, Vehicle]:
    """What stands on a vehicle, by its name; all but its height is measured on the vehicle with it on."""
    on_it = (one.behind for one in rig.couplings if one.ahead == vehicle and one.how == "carried")
    return {name: rig.vehicles[name] for name in on_it}


_NUMBERS, _SLIM = 2, 2.0
"""Axles whose loads have room in the drawing, on a vehicle so many times as long as wide; else in words."""


def _drawn(assessment: Assessment, name: str, vehicle: Vehicle) -> Iterator[Block]:
    """The vehicle from above with the load of each axle; where it cannot be drawn, the loads in words."""
    words = words_of(assessment)
    marks = tuple(marks_for_wrecker(vehicle))
    loads = {
        (name, at): (words.number(figure.quantity, LOAD), words.unit(LOAD))
        for at, axle in enumerate(vehicle.axles)
        if _has_room(vehicle) and (figure := _alone(assessment, name, axle)) and figure.quantity is not None
    }
    drawing = tuple(marked_plan(assessment, {name: marks}, begun(name), loads))
    yield from drawing
    if len(loads) < len(vehicle.axles) or not any(isinstance(block, Picture) for block in drawing):
        yield from _loads(assessment, name, vehicle)


def _has_room(vehicle: Vehicle) -> bool:
    length, width = vehicle.size.overall_length, vehicle.size.overall_width
    is_long = length is not None and width is not None and length >= _SLIM * width
    return is_long and len(vehicle.axles) <= _NUMBERS


def _loads(assessment: Assessment, name: str, vehicle: Vehicle) -> Iterator[Block]:
    words = words_of(assessment)
    for axle in vehicle.axles:
        figure = _alone(assessment, name, axle)
        yield Line(f"{begun(axle)} axle", words.text(figure.quantity if figure else None, LOAD))


def _told(vehicle: Vehicle, *, is_towing: bool) -> Iterator[Block]:
    """Each kind of point in words; a blank where there is none noted."""
    has = vehicle.equipment
    for challenge, (_, entry) in WRECKER.items():
        if is_towing or entry == "jacking_points":
            listed: Sequence[Spot] = getattr(has, entry) or ()
            yield Line(challenge, "; ".join(spot.place for spot in listed)) if listed else Blank(challenge)
    if vehicle.brakes and vehicle.brakes.service == "air":
        yield Line("Air in", has.air_port.place) if has.air_port else Blank("Air in: where, which fitting")
