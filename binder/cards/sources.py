"""Page of sources and cautions: every publication behind a printed number, and what comes before it."""

from collections.abc import Iterator

from binder.assessment.assessment import Assessment
from binder.assessment.source_list import sources_of
from binder.cards.blocks import Block, Heading, Note, Page, Table
from binder.cards.numbers import printed_entries
from binder.wording.procedure_numbers import all_procedure_constants

_GRADES = (
    ("A", "regulation, standard, handbook, or a maker's own text"),
    ("B", "trade press, catalog, library"),
    ("C", "a secondary page: confirm before relying on it"),
    ("textbook", "geometry, statics, gas law: no publication needed"),
    ("practice", "common practice, no source"),
    ("stated", "what a maker states on a label, a part or in a book, or the owner in the profile"),
    ("memory", "remembered, not read: confirm before use"),
    ("measured", "measured on the reference tables"),
)
_CAUTIONS = (
    "Vehicle labels, makers' manuals and local law come first, before anything in this binder.",
    "Repairs to brakes, propane, steering, welds and coupling belong to qualified people.",
    "Never fill a tire over the least limit of tire, wheel and valve. Never bleed a hot tire.",
    "A tire driven below its run-flat line gets no air on the vehicle: stand clear, call a tire service.",
    "Federal texts were read in a 2015 copy; laws change and states differ: current local law comes first.",
    "Weights hold for the scale ticket and the levels stated; weigh again after a change.",
    "Heights hold for the day and state they were measured in.",
    "A blank is not known. Fill it in by hand, from the label, the part or its manual; never from a guess.",
)


def sources(assessment: Assessment) -> Page:
    """Make the page of sources and cautions."""
    blocks: tuple[Block, ...] = (
        Heading("Cautions"),
        *(Note(text) for text in _CAUTIONS),
        *_list(assessment),
    )
    return Page(
        "sources", "Sources and cautions", "What the numbers rest on, and what comes before them.", blocks
    )


def _list(assessment: Assessment) -> Iterator[Block]:
    named = [entry.figures[0].told.sources for entry in printed_entries(assessment)]
    named += [constant.source for constant, _ in all_procedure_constants(assessment.rig.units)]
    found = {entry.id: entry for text in dict.fromkeys(named) for entry in sources_of(text)}
    grades = {entry.grade for entry in found.values()}
    meant = tuple((grade, words) for grade, words in _GRADES if grade in grades)
    yield Table(("grade", "what it means"), meant, small=True, caption="Grades")
    rows = tuple((entry.id, entry.title, entry.grade) for _, entry in sorted(found.items(), key=_order))
    yield Table(("source", "title", "grade"), rows, small=True, caption="Sources")


def _order(item: tuple[str, object]) -> tuple[bool, str]:
    """Numbered sources and regulations first, then words."""
    name = item[0]
    return name[:1].islower(), name
