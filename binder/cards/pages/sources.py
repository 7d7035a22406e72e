"""The page of sources, and of what comes before them."""

from collections.abc import Iterator

from binder.assessment.assess import Assessment
from binder.cards.blocks import Block, Heading, Note, Page, small_table
from binder.cards.procedures.reading import sources_of_pages
from binder.cards.rig_words import words_of
from binder.wording.record import origin_words, sources_of
from binder.wording.words import all_procedure_constants, procedure_reason, style_of

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
    intro = "What the numbers rest on, and what comes before them."
    blocks = (Heading("Cautions"), *map(Note, _CAUTIONS), *_list(assessment), *_constants(assessment))
    return Page("sources", "Sources and cautions", intro, blocks)


def _list(assessment: Assessment) -> Iterator[Block]:
    words = words_of(assessment)
    named = [words.sources(figure) for figure in assessment.ledger.entered]
    named += [constant.source for constant, _ in all_procedure_constants(style_of(assessment))]
    named += sources_of_pages()
    found = {entry.id: entry for text in dict.fromkeys(named) for entry in sources_of(text)}
    grades = {entry.grade for entry in found.values()}
    meant = ((grade, words) for grade, words in _GRADES if grade in grades)
    yield from small_table("Grades", ("grade", "what it means"), meant)
    # Numbered sources and regulations first, then words.
    ordered = sorted(found.items(), key=lambda item: (item[0][:1].islower(), item[0]))
    rows = ((entry.id, entry.title, entry.grade) for _, entry in ordered)
    yield from small_table("Sources", ("source", "title", "grade"), rows)


def _constants(assessment: Assessment) -> Iterator[Block]:
    rows = (
        (one.name, text, procedure_reason(one.name, assessment.rig.units), origin_words(one.source))
        for one, text in all_procedure_constants(style_of(assessment))
    )
    headers = ("number", "value", "why", "source")
    yield from small_table("Fixed numbers of the procedures", headers, rows)
