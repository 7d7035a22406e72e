"""Tires drawn: where each stands with its age, and what one carries at each pressure."""

from collections.abc import Iterator
from itertools import groupby

from binder.assessment.assess import Assessment
from binder.assessment.ledger import GRADES, FigureKind, Key
from binder.assessment.tires import kinds as tires_kinds
from binder.assessment.tires import register_kinds as kinds
from binder.assessment.tires.axle import (
    SPARE,
    Position,
    TireAxle,
    is_spare,
    positions_of,
    rolling_tire_axles,
)
from binder.cards.blocks import Block, Heading, Note, Picture
from binder.cards.drawings import ChartMark, ChartRow, LoadChart, MarkKind, TireBox, TireColumn, TireMap
from binder.cards.rig_words import words_of
from binder.quantities import Quantity
from binder.wording.measures import AGE, LOAD, PRESSURE, RATING, TREAD
from binder.wording.words import Words

_CALLS = {"do not drive": "REPLACE", "not cleared": "READ IT", "attention": "INSPECT", "missing": "READ IT"}


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


_MARKED: tuple[tuple[MarkKind, FigureKind], ...] = (
    ("row", tires_kinds.ROW_PRESSURE),
    ("label", tires_kinds.LABEL_PRESSURE),
    ("set-point", tires_kinds.SET_POINT),
    ("cap", tires_kinds.CAP),
)


def load_chart_blocks(assessment: Assessment) -> Iterator[Block]:
    """Make a chart for each axle whose tires have a typed load table."""
    for vehicle, entry in assessment.rig.vehicles.items():
        for name in entry.axles:
            axle = TireAxle(assessment.rig, vehicle, name, ())
            chart = _chart(assessment, axle)
            if chart is not None:
                yield Heading(f"{axle.name[:1].upper()}{axle.name[1:]}: one tire on its load table")
                yield Picture(chart)


def _chart(assessment: Assessment, axle: TireAxle) -> LoadChart | None:
    words, load = words_of(assessment), assessment.known(tires_kinds.LOAD_PER_TIRE.of(*axle.subject))
    if axle.table is None or load is None or load.quantity is None:
        return None
    marks = tuple(_marks(assessment, axle, words))
    slack = words.slack(assessment.known(tires_kinds.SET_POINT.of(*axle.subject)))
    said = ", ".join(text for text in (f"load {words.value(load)}", slack) if text)
    rows = tuple(_row(row.pressure, row.load, words) for row in axle.table.rows)
    axis_words = (f"cold, {words.unit(PRESSURE)}", words.unit(RATING))
    told = "; ".join([said, *(mark.words for mark in marks)])
    alternative = f"What one tire of {axle.name} carries at each cold pressure. {told}."
    return LoadChart(rows, marks, words.drawn(load.quantity, LOAD), said, axis_words, alternative)


def _row(pressure: Quantity, load: Quantity, words: Words) -> ChartRow:
    return ChartRow(
        words.drawn(pressure, PRESSURE),
        words.drawn(load, RATING),
        words.number(pressure, PRESSURE),
        words.number(load, RATING),
    )


def _marks(assessment: Assessment, axle: TireAxle, words: Words) -> Iterator[ChartMark]:
    """One mark for each pressure, named by all that it is: row, label, set-point, cap."""
    named: dict[str, list[MarkKind]] = {}
    pressures: dict[str, Quantity] = {}
    for name, kind in _MARKED:
        figure = assessment.known(kind.of(*axle.subject))
        if figure is not None and figure.quantity is not None:
            text = words.value(figure)
            named.setdefault(text, []).append(name)
            pressures[text] = figure.quantity
    for text, found in named.items():
        yield ChartMark(tuple(found), words.drawn(pressures[text], PRESSURE), f"{', '.join(found)} {text}")
