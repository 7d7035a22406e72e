"""Charts of the load tables: each axle's load and pressures on what its tires carry."""

from collections.abc import Iterator

from binder.assessment.assessment import Assessment
from binder.assessment.measures import Measure
from binder.assessment.tires.axle import TireAxle
from binder.cards.axle_words import display_of
from binder.cards.blocks import Block, Heading, Picture
from binder.cards.display import Display
from binder.cards.drawings import ChartMark, ChartRow, LoadChart, MarkKind
from binder.quantities import Quantity

_MARKED: tuple[tuple[MarkKind, str], ...] = (
    ("row", "row_pressure"),
    ("label", "label_pressure"),
    ("set-point", "set_point"),
    ("cap", "cap"),
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
    display, load = display_of(assessment), assessment.quantity(f"{axle.key}.load_per_tire")
    if axle.table is None or load is None:
        return None
    marks = tuple(_marks(assessment, axle, display))
    words = f"load {display.text(load, 'weight', 'up')}"
    point = assessment.known(f"{axle.key}.set_point")
    if point is not None and point.slack:
        words = f"{words}, {point.slack}"
    rows = tuple(_row(row.pressure, row.load, display) for row in axle.table.rows)
    axis_words = (f"cold, {display.measure('pressure').word}", display.measure("weight").word)
    told = "; ".join([words, *(mark.words for mark in marks)])
    alternative = f"What one tire of {axle.name} carries at each cold pressure. {told}."
    return LoadChart(rows, marks, _number(load, display, "weight"), words, axis_words, alternative)


def _row(pressure: Quantity, load: Quantity, display: Display) -> ChartRow:
    return ChartRow(
        _number(pressure, display, "pressure"),
        _number(load, display, "weight"),
        display.number(pressure, "pressure", "nearest"),
        display.number(load, "weight", "down"),
    )


def _marks(assessment: Assessment, axle: TireAxle, display: Display) -> Iterator[ChartMark]:
    """One mark for each pressure, named by all that it is: row, label, set-point, cap."""
    kinds: dict[str, list[MarkKind]] = {}
    pressures: dict[str, Quantity] = {}
    for kind, entry in _MARKED:
        pressure = assessment.quantity(f"{axle.key}.{entry}")
        if pressure is not None:
            text = display.text(pressure, "pressure", "down" if kind == "cap" else "up")
            kinds.setdefault(text, []).append(kind)
            pressures[text] = pressure
    for text, found in kinds.items():
        yield ChartMark(
            tuple(found), _number(pressures[text], display, "pressure"), f"{', '.join(found)} {text}"
        )


def _number(quantity: Quantity, display: Display, measure: Measure) -> float:
    return float(quantity.to(display.measure(measure).unit).magnitude)
