"""Maps of the mounted tires as seen from above: where each stands, how old it is, and its tread."""

from collections.abc import Iterator
from itertools import groupby

from binder.assessment.assessment import Assessment
from binder.assessment.ledger import GRADES, Key
from binder.assessment.tires import register_kinds as kinds
from binder.assessment.tires.axle import TireAxle, rolling_tire_axles
from binder.assessment.tires.register import SPARE, Position, is_spare, positions_of
from binder.cards.axle_words import words_of
from binder.cards.blocks import Block, Heading, Note, Picture
from binder.cards.drawings import TireBox, TireColumn, TireMap
from binder.wording.meanings import AGE, TREAD

_CALLS = {"do not drive": "REPLACE", "attention": "INSPECT", "missing": "READ IT"}


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
            _tire(
                assessment, kinds.SPARE_AGE.of(name, position), kinds.SPARE_TREAD.of(name, position), position
            )
            for position in tires.mounted
            if is_spare(position)
        ]
    if boxes:
        yield TireColumn(SPARE, tuple(boxes), is_spare=True)


def _column(assessment: Assessment, axle: TireAxle) -> TireColumn:
    positions = reversed(positions_of(axle))
    return TireColumn(axle.axle_name, tuple(_box(assessment, axle, position) for position in positions))


def _box(assessment: Assessment, axle: TireAxle, position: Position) -> TireBox:
    age, tread = (kind.of(*axle.subject, position.name) for kind in (kinds.AGE, kinds.TREAD))
    return _tire(assessment, age, tread, position.place)


def _tire(assessment: Assessment, age: Key, tread: Key, position: str) -> TireBox:
    words = words_of(assessment)
    grades = {found.grade for found in assessment.findings if found.about in {age, tread}}
    call = next((_CALLS[grade] for grade in GRADES if grade in grades), "")
    old, deep = words.text(assessment.quantity(age), AGE), words.text(assessment.quantity(tread), TREAD)
    return TireBox(position, old, deep, call)


def _alternative(vehicle: str, columns: tuple[TireColumn, ...]) -> str:
    told = "; ".join(
        f"{column.axle} {tire.position}: {tire.age}, {tire.tread}{f', {tire.call}' if tire.call else ''}"
        for column in columns
        for tire in column.tires
    )
    return f"Tires of the {vehicle} as seen from above. {told}."
