"""Page "Scale worksheet": how to weigh this rig, with boxes, and the lines to type the figures into."""

from collections.abc import Iterator

from binder.assessment.assessment import Assessment
from binder.assessment.coupling_loads import coupling_key
from binder.assessment.supports import CARRYING
from binder.cards.as_written import as_written
from binder.cards.axle_words import display_of
from binder.cards.blocks import Block, Heading, Note, Page, Step, Table
from binder.cards.display import BLANK
from binder.models.rig import Coupling
from binder.models.vehicles import Vehicle

_INTRO = (
    "A public truck scale gives axles; pads, or one side of the rig on the platform, give wheel ends, and "
    "those decide tire pressures. Follow the scale's master; nobody walks on the platform (practice)."
)
_PEOPLE = 3
"""Rows for people and heavy things aboard."""


def scale_worksheet(assessment: Assessment) -> Page:
    """Make the worksheet for weighing this rig.

    Args:
        assessment: the rig on its trip.

    Returns:
        Steps, boxes for each axle and wheel end, sums to compare, and the entry of the profile.

    Sources:
        practice; 49 CFR 571.3 (axle, wheel and combination ratings).

    Example:
        >>> from datetime import date
        >>> from pathlib import Path
        >>> from binder.assessment.assess import assess
        >>> from binder.models.load import load_profile
        >>> assessment = assess(load_profile(Path("profiles/kestrel")), date(2026, 6, 1))
        >>> [block.text for block in scale_worksheet(assessment).blocks if block.kind == "heading"]
        ['Before the platform', 'Into rig.yaml, under scale_tickets']
    """
    weighed = {name: vehicle for name, vehicle in assessment.rig.vehicles.items() if vehicle.axles}
    carrying = [item for item in assessment.rig.couplings if item.how in CARRYING]
    blocks = (
        Heading("Before the platform"),
        *_preparation(weighed, carrying),
        *_noted(weighed),
        *_axles(assessment, weighed),
        *(block for coupling in carrying for block in _down_load(assessment, coupling)),
        *_ends(weighed),
        Heading("Into rig.yaml, under scale_tickets"),
        *(Note(entry_text(name, vehicle)) for name, vehicle in weighed.items()),
    )
    return Page("scale_worksheet", "Scale worksheet", _INTRO, blocks)


def _preparation(weighed: dict[str, Vehicle], carrying: list[Coupling]) -> Iterator[Block]:
    steps = ["Load the rig as it travels: people, pets, food, tools, cargo."]
    if any(vehicle.equipment.slide for vehicle in weighed.values()):
        steps.append("Slides IN.")
    if any(vehicle.suspension == "air" for vehicle in weighed.values()):
        steps.append("Air suspension AT RIDE HEIGHT, engine running until it stands level.")
    steps.append("Read every tank; write its level below.")
    if len(weighed) > 1:
        steps.append("Weigh each vehicle apart: it stands level and nothing of the other rests on it.")
    if carrying:
        steps.append("Weigh the towing vehicle once more with the trailer coupled, its axles alone.")
    steps.append("Each axle in the middle of its platform, brakes released, the driver in the seat.")
    yield from (Step(text, str(number)) for number, text in enumerate(steps, 1))


def _noted(weighed: dict[str, Vehicle]) -> Iterator[Block]:
    yield Table(
        ("noted", "written"),
        (("date", BLANK), ("scale, place", BLANK), ("division of the scale", BLANK), ("outside air", BLANK)),
        small=True,
        caption="Noted first",
    )
    tanks = tuple(
        (f"{name}, {tank_name}", as_written(tank.capacity), BLANK)
        for name, vehicle in weighed.items()
        for tank_name, tank in vehicle.tanks.items()
    )
    if tanks:
        yield Table(("tank", "holds", "level now"), tanks, small=True, caption="Levels")
    yield Table(
        ("aboard", "weight", "behind the first axle", "left or right"),
        ((BLANK, BLANK, BLANK, BLANK),) * _PEOPLE,
        small=True,
        caption="People and heavy things aboard",
    )


def _axles(assessment: Assessment, weighed: dict[str, Vehicle]) -> Iterator[Block]:
    display, rows = display_of(assessment), []
    for name, vehicle in weighed.items():
        for axle, entry in vehicle.axles.items():
            rows.append((f"{name}, {axle}", BLANK, display.text(entry.rating, "weight", "down")))
        rating = display.text(vehicle.label.gross_vehicle_weight_rating, "weight", "down")
        rows += [
            (f"{name}, its axles together", BLANK, "-"),
            (f"{name}, whole on one platform", BLANK, rating),
        ]
    caption = "Axle by axle" if len(weighed) == 1 else "Axle by axle, each vehicle apart"
    yield Table(("axle", "weight", "rated"), tuple(rows), small=True, caption=caption)


def _down_load(assessment: Assessment, coupling: Coupling) -> Iterator[Block]:
    """What the trailer presses on the coupling: on a pad, or as a difference of the towing vehicle."""
    ahead = assessment.rig.vehicles[coupling.ahead]
    first, *others = ahead.axles
    headers = ("weighed", first, *others, "all axles")
    empty = (BLANK,) * (len(others) + 2)
    bars = coupling.distribution is not None
    rows = [("coupled, bars off" if bars else "coupled", *empty), ("apart, from above", *empty)]
    rows.append(("difference: all axles is the down load", *empty))
    if bars:
        rows.append(("coupled, bars on", *empty))
    caption = f"{coupling.ahead.capitalize()} with the {coupling.behind} coupled"
    yield Table(headers, tuple(rows), small=True, caption=caption)
    factor = assessment.known(f"{coupling_key(coupling)}.couple_arm")
    if bars and factor is not None:
        yield Note(
            f"Couple of the bars: the {first} axle with bars on, less the same with bars off, times "
            f"{display_of(assessment).text(factor.quantity, 'inches', 'nearest')}; enter it under couple."
        )


def _ends(weighed: dict[str, Vehicle]) -> Iterator[Block]:
    rows = tuple(
        (f"{name}, {axle}", *(BLANK,) * 4) for name, vehicle in weighed.items() for axle in vehicle.axles
    )
    yield Table(
        ("axle", "left end", "right end", "left + right", "axle, from above"),
        rows,
        small=True,
        caption="Wheel end by wheel end",
    )
    yield Note(
        "Left and right make the axle within one division of the scale; the axles make the whole. If not, a "
        "wheel stood on an edge or on a slope: weigh again. One side on the platform reads true only where "
        "the ground beside it is level with it (practice)."
    )


def entry_text(name: str, vehicle: Vehicle) -> str:
    """Entry of one vehicle under ``scale_tickets`` with its own names, every figure a blank.

    Args:
        name: of the vehicle.
        vehicle: as the profile has it.

    Returns:
        The text; typed as it stands on any number of lines, blanks filled, it is the entry.

    Sources:
        Own file shape.

    Example:
        >>> axles = {"front": {"at": "0 in", "fitment": "single"}}
        >>> car = Vehicle.model_validate({"kind": "car", "axles": axles})
        >>> entry_text("car", car).splitlines()[0][:76]
        '- {on: ____, division: ____, weights: {car: {front: {left: ____, right: ____'
    """
    axles = ", ".join(f"{axle}: {{left: ____, right: ____, axle: ____}}" for axle in vehicle.axles)
    tanks = ", ".join(f"{tank}: ____" for tank in vehicle.tanks)
    levels = f"levels: {{{name}: {{{tanks}}}}}, " if tanks else ""
    return (
        f"- {{on: ____, division: ____, weights: {{{name}: {{{axles}, total: ____}}}}, "
        f"aboard: [{{what: ____, weight: ____, at: ____, left: ____, in: {name}}}], "
        f"{levels}state: {{slides: ____, ride_height: ____, coupled: false}}}}"
    )
