"""Exhaust fluid in a table: use as a band, range, container, fillers, shelf life, freezing, each with why."""

from collections.abc import Iterator

from binder.assessment.assessment import Assessment
from binder.assessment.ledger import Figure, FigureKind, Subject
from binder.assessment.supplies import kinds
from binder.cards.axle_words import words_of
from binder.cards.blocks import Block, Note, Table
from binder.cards.figure_reasons import reason_of
from binder.wording.meanings import LEAST_VOLUME
from binder.wording.numbers import BLANK
from binder.wording.procedure_numbers import procedure_constant, procedure_number
from binder.wording.words import Words

_FIXED = (
    ("exhaust fluid freezes", "freezes at"),
    ("exhaust fluid air", "air to leave in its tank below that"),
    ("exhaust fluid carried", "commonly carried"),
)
_DISTANCES = (
    (kinds.FLUID_RANGE, "range of a full tank"),
    (kinds.CONTAINER_WORTH, "the carried container is worth"),
)
_WRONG = (
    "Blue cap. Wrong fluid in either tank: do not turn the key; have it drained. Keep a clean funnel and "
    "container for it alone: a little fuel or dust spoils it."
)


def exhaust_fluid_tank(assessment: Assessment) -> Subject | None:
    """Find the tank that the figures of the exhaust fluid are of: its vehicle and its name."""
    figure = next(assessment.ledger.of_kind(kinds.CONTAINER_WORTH), None)
    return figure.key.subject if figure else None


def exhaust_fluid_blocks(assessment: Assessment) -> Iterator[Block]:
    """Set the table of the exhaust fluid."""
    tank, words = exhaust_fluid_tank(assessment), words_of(assessment)
    if tank is None:
        return
    rows = [
        (name, text, _why(figure, words))
        for name, text, figure in _rows(assessment, tank, words)
        if figure is not None
    ]
    for name, told in _FIXED:
        constant = procedure_constant(name)
        rows.append((told, procedure_number(name, words.units), f"{constant.reason} {constant.source}."))
    yield Table(("exhaust fluid", "", "why"), tuple(rows), small=True, caption="Exhaust fluid")
    yield Note(_WRONG)


def _rows(assessment: Assessment, tank: Subject, words: Words) -> Iterator[tuple[str, str, Figure | None]]:
    def own(kind: FigureKind) -> Figure | None:
        return assessment.known(kind.of(*tank))

    low, high = (assessment.quantity(kind.of(*tank)) for kind in (kinds.USE_LOW, kinds.USE_HIGH))
    most = words.text(high, kinds.USE_HIGH.measure)
    band = most if low == high else f"{words.text(low, LEAST_VOLUME)} to {most}"
    yield "used on this trip", band, own(kinds.USE_HIGH)
    for kind, name in _DISTANCES:
        yield name, words.text(assessment.quantity(kind.of(*tank)), kind.measure), own(kind)
    yield "topped up", words.value(own(kinds.TOP_UP)), own(kinds.TOP_UP)
    life, ends = own(kinds.SHELF_LIFE), own(kinds.SHELF_LIFE_ENDS)
    yield "keeps, stored that warm", words.value(life, f"{BLANK} months"), life
    yield "the container's date", words.value(ends), ends


def _why(figure: Figure, words: Words) -> str:
    reason = reason_of("", words.told(figure))
    return f"{reason.text} {reason.source}."
