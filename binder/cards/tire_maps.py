"""Maps of the mounted tires as seen from above: where each stands, how old it is, and its tread."""

from collections.abc import Iterator
from itertools import groupby

from binder.assessment.assessment import Assessment
from binder.assessment.tires.axle import TireAxle, rolling_tire_axles
from binder.assessment.tires.register import SPARE, positions_of
from binder.cards.axle_words import display_of
from binder.cards.blocks import Block, Heading, Note, Picture
from binder.cards.drawings import TireBox, TireColumn, TireMap
from binder.cards.figure_text import age_text, tread_text

_CALLS = {"do not drive": "REPLACE", "attention": "INSPECT", "missing": "READ IT"}
_GRADES = tuple(_CALLS)


def tire_map_blocks(assessment: Assessment) -> Iterator[Block]:
    """Make a map for each vehicle on wheels."""
    several = len(assessment.rig.vehicles) > 1
    shown: set[str] = set()
    for name, group in groupby(rolling_tire_axles(assessment.rig, ()), key=lambda axle: axle.vehicle_name):
        axles = tuple(group)
        columns = (*(_column(assessment, axle) for axle in axles), *_spares(assessment, axles, shown))
        yield Heading(f"Where each tire is: {name}" if several else "Where each tire is")
        yield Picture(TireMap(columns, _alternative(name, columns)))
    yield Note(
        "Front at the left, right side above. Under each position: age on the last day this must hold, and "
        "least tread. A heavy frame and a word say what a tire asks for."
    )


def _spares(assessment: Assessment, axles: tuple[TireAxle, ...], shown: set[str]) -> Iterator[TireColumn]:
    """The spares of the tires on these axles, once where vehicles share them."""
    boxes = []
    for name in dict.fromkeys(axle.axle.tires for axle in axles):
        tires = assessment.rig.tires.get(name or "")
        if name is None or tires is None or name in shown:
            continue
        shown.add(name)
        boxes += [
            _tire(assessment, f"tires.{name}.{position}", position)
            for position in tires.mounted
            if position.startswith(SPARE)
        ]
    if boxes:
        yield TireColumn(SPARE, tuple(boxes), is_spare=True)


def _column(assessment: Assessment, axle: TireAxle) -> TireColumn:
    positions = reversed(positions_of(axle))
    return TireColumn(axle.axle_name, tuple(_box(assessment, axle, position) for position in positions))


def _box(assessment: Assessment, axle: TireAxle, position: str) -> TireBox:
    return _tire(assessment, f"{axle.key}.{position}", position.removeprefix(f"{axle.axle_name} "))


def _tire(assessment: Assessment, start: str, position: str) -> TireBox:
    key = start.replace(" ", "_")
    tread = tread_text(assessment.quantity(f"{key}.tread"), display_of(assessment))
    grades = {found.grade for found in assessment.findings if found.key.startswith(f"{key}.")}
    call = next((_CALLS[grade] for grade in _GRADES if grade in grades), "")
    return TireBox(position, age_text(assessment.quantity(f"{key}.age")), tread, call)


def _alternative(vehicle: str, columns: tuple[TireColumn, ...]) -> str:
    told = "; ".join(
        f"{column.axle} {tire.position}: {tire.age}, {tire.tread}{f', {tire.call}' if tire.call else ''}"
        for column in columns
        for tire in column.tires
    )
    return f"Tires of the {vehicle} as seen from above. {told}."
