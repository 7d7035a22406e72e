"""Page "The water question": what each fill of the fresh tanks costs in weight, and gives in days."""

from collections.abc import Iterator

from binder.assessment.assess import Assessment
from binder.assessment.ledger import FigureKind
from binder.assessment.supplies import sitting_out_kinds as kinds
from binder.assessment.supplies.water_question import FILLS
from binder.cards.blocks import Block, Heading, Note, small_table
from binder.cards.rig_words import words_of
from binder.wording.words import begun

_INTRO = (
    "Leave with full, part or empty fresh tanks? Water is days of staying put, and weight on the axles. "
    "Everything else is as it is at departure; without a trip, everything full. Part is a common part fill "
    "(practice, no source). Gray and black end by their room at the start of the trip."
)
_NEVER_ALONE = (
    'The line "this state alone asks for" is no fill: tires are filled to card 3, which holds in every state '
    "of the trip. It shows what the water costs in pressure."
)
_Wanted = tuple[tuple[str, FigureKind], ...]
_WATER: _Wanted = (
    ("fresh water", kinds.FILL_VOLUME),
    ("its weight", kinds.FILL_WEIGHT),
    ("fresh water lasts", kinds.FILL_DAYS),
    ("first of fresh, gray and black ends", kinds.FILL_STAY),
)
_AXLE: _Wanted = (
    ("load", kinds.AXLE_LOAD),
    ("left under its rating", kinds.AXLE_MARGIN),
    ("heavier wheel end", kinds.HEAVIER_END),
    ("tires: this state alone asks for", kinds.SET_POINT),
)
_TOTAL: _Wanted = (("weight", kinds.TOTAL_LOAD), ("left under its rating", kinds.TOTAL_MARGIN))
_COMBINATION: _Wanted = (
    ("weight", kinds.COMBINATION_LOAD),
    ("left under its rating", kinds.COMBINATION_MARGIN),
)


def water_blocks(assessment: Assessment) -> tuple[Block, ...]:
    """The water question; nothing where the rig has no fresh tank that is known."""
    if assessment.known(kinds.FILL_VOLUME.of(FILLS[0])) is None:
        return ()
    return (Heading("The water question"), Note(_INTRO), *_water(assessment), *_rig(assessment))


def _water(assessment: Assessment) -> Iterator[Block]:
    words = words_of(assessment)
    yield from small_table("The water", ("", *FILLS), _rows(assessment, "", _WATER))
    # Not a row: words among numbers would set the numbers to the left.
    found = [(fill, words.value(assessment.known(kinds.FILL_ENDS_FIRST.of(fill)), "")) for fill in FILLS]
    told = "; ".join(f"{fill}: {names}" for fill, names in found if names)
    if told:
        yield Note(f"Which of them ends first. {begun(told)}.")


def _rig(assessment: Assessment) -> Iterator[Block]:
    # One table: its columns line up, and a rig of two changing vehicles stays on one page.
    rows: list[tuple[str, ...]] = []
    for name, vehicle in assessment.rig.vehicles.items():
        for axle in vehicle.axles:
            rows += _rows(assessment, f"{name} {axle}, ", _AXLE, name, axle)
        rows += _rows(assessment, f"{name} whole, ", _TOTAL, name)
    rows += _rows(assessment, "whole rig, ", _COMBINATION)
    yield from small_table("On axles and ratings", ("", *FILLS), rows)
    yield Note(_NEVER_ALONE)


def _rows(assessment: Assessment, whose: str, wanted: _Wanted, *subject: str) -> Iterator[tuple[str, ...]]:
    """Rows of one thing, a column for each fill; none where it does not change with the water."""
    words = words_of(assessment)
    for name, kind in wanted:
        figures = [assessment.known(kind.of(*subject, fill)) for fill in FILLS]
        if all(figures):
            yield (f"{whose}{name}", *(words.value(figure) for figure in figures))
