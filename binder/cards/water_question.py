"""Page "The water question": what each fill of the fresh tanks costs in weight, and gives in days."""

from collections.abc import Iterator

from binder.assessment.assessment import Assessment
from binder.assessment.supplies.water_question import FILLS
from binder.cards.axle_words import display_of
from binder.cards.blocks import Block, Note, Page, Table
from binder.cards.figure_text import value_text

_INTRO = (
    "Leave with full, part or empty fresh tanks? Water is days of staying put, and weight on the axles. "
    "Everything else is as it is at departure; without a trip, everything full. Part is a common part fill "
    "(practice, no source). Gray and black end by their room at the start of the trip."
)
_NEVER_ALONE = (
    'The line "this state alone asks for" is no fill: tires are filled to card 3, which holds in every state '
    "of the trip. It shows what the water costs in pressure."
)
_WATER = (
    ("fresh water", "volume"),
    ("its weight", "weight"),
    ("fresh water lasts", "days"),
    ("first of fresh, gray and black ends", "stay"),
)
_AXLE = (
    ("load", "load"),
    ("left under its rating", "margin"),
    ("heavier wheel end", "heavier_end"),
    ("tires: this state alone asks for", "set_point"),
)
_WHOLE = (("weight", "load"), ("left under its rating", "margin"))


def water_question(assessment: Assessment) -> Page | None:
    """Make the page of the water question."""
    if assessment.known("water.fresh.full.volume") is None:
        return None
    return Page("water_question", "The water question", _INTRO, (*_water(assessment), *_rig(assessment)))


def _water(assessment: Assessment) -> Iterator[Block]:
    rows = _rows(assessment, "water.fresh", _WATER)
    yield Table(("", *FILLS), tuple(rows), small=True, caption="The water")
    # Not a row: words among numbers would set the numbers to the left.
    found = [(fill, assessment.known(f"water.fresh.{fill}.ends_first")) for fill in FILLS]
    told = "; ".join(f"{fill}: {figure.value}" for fill, figure in found if figure and figure.value)
    if told:
        yield Note(f"Which of them ends first. {told[:1].upper()}{told[1:]}.")


def _rig(assessment: Assessment) -> Iterator[Block]:
    # One table: its columns line up, and a rig of two changing vehicles stays on one page.
    rows: list[tuple[str, ...]] = []
    for name, vehicle in assessment.rig.vehicles.items():
        for axle in vehicle.axles:
            rows += _named(assessment, f"{name} {axle}", f"water.{name}.{axle}", _AXLE)
        rows += _named(assessment, f"{name} whole", f"water.{name}.total", _WHOLE)
    rows += _named(assessment, "whole rig", "water.combination", _WHOLE)
    if rows:
        yield Table(("", *FILLS), tuple(rows), small=True, caption="On axles and ratings")
    yield Note(_NEVER_ALONE)


def _named(
    assessment: Assessment, name: str, start: str, wanted: tuple[tuple[str, str], ...]
) -> Iterator[tuple[str, ...]]:
    for cells in _rows(assessment, start.replace(" ", "_"), wanted):
        yield (f"{name}, {cells[0]}", *cells[1:])


def _rows(
    assessment: Assessment, start: str, wanted: tuple[tuple[str, str], ...]
) -> Iterator[tuple[str, ...]]:
    """Rows of one thing, a column for each fill; none where it does not change with the water."""
    display = display_of(assessment)
    for words, last in wanted:
        figures = [assessment.known(f"{start}.{fill}.{last}") for fill in FILLS]
        known = [value_text(figure, display) for figure in figures if figure is not None]
        if len(known) == len(FILLS):
            yield (words, *known)
