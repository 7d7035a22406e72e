"""Charts of the load tables: each axle's load and pressures on what its tires carry."""

from collections.abc import Iterator

from binder.assessment.assess import Assessment
from binder.assessment.ledger import FigureKind
from binder.assessment.tires import kinds
from binder.assessment.tires.axle import TireAxle
from binder.cards.axle_words import words_of
from binder.cards.blocks import Block, Heading, Picture
from binder.cards.drawings import ChartMark, ChartRow, LoadChart, MarkKind
from binder.quantities import Quantity
from binder.wording.meanings import LOAD, PRESSURE, RATING
from binder.wording.words import Words

_MARKED: tuple[tuple[MarkKind, FigureKind], ...] = (
    ("row", kinds.ROW_PRESSURE),
    ("label", kinds.LABEL_PRESSURE),
    ("set-point", kinds.SET_POINT),
    ("cap", kinds.CAP),
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
    words, load = words_of(assessment), assessment.known(kinds.LOAD_PER_TIRE.of(*axle.subject))
    if axle.table is None or load is None or load.quantity is None:
        return None
    marks = tuple(_marks(assessment, axle, words))
    slack = words.slack(assessment.known(kinds.SET_POINT.of(*axle.subject)))
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
