"""Pages of how each number was found, and of the sources they rest on."""

from collections.abc import Iterator
from itertools import groupby

from binder.assessment.assess import Assessment
from binder.assessment.ledger import Figure
from binder.assessment.supplies import kinds as supplies
from binder.assessment.tires import kinds as tires
from binder.assessment.weights import kinds as weights
from binder.assessment.weights.states import trip_states
from binder.cards.blocks import Block, Heading, Note, Page, small_table
from binder.cards.procedures.reading import sources_of_pages
from binder.cards.rig_words import words_of
from binder.wording.measures import TEMPERATURE
from binder.wording.record import Entry, Owned, entries_of, origin_words, sources_of
from binder.wording.sentences import as_sentence, is_said_in
from binder.wording.words import Words, all_procedure_constants, procedure_reason, style_of

_INTRO = (
    "Each entry: kind (measured, stated by a maker, table, calculated, assumed), rule, sources, then whose "
    "number, its value, its slack, and (what decided it): for tires, weights and couplings each, for the "
    "rest the first of those found alike. A number's key is its subject, whose it is and its name, with "
    "points between; 'binder explain' and the key works any of them out. Loads and needs are rounded up; "
    "ratings, margins and time left down."
)
_ALL_WORKED = {"tires", "weights", "coupling"}
"""Subjects whose every number is worked out on paper: what a tire, an axle or a coupling is held against."""

_LEFT_TO_PAGES = {
    "weights": "Loads and margins in the other states of the trip stand on the page of weights; each is "
    "found as at departure.",
    "supplies": "Levels at each stop stand on the page of supplies: as the plan states them, else what the "
    "tank held before, and what was filled, used, dumped and spilled since (trip plan; arithmetic).",
}
_HEADERS = ("name", "how it was found")
_SUMMED = {"departure", "everything_full", "heaviest"}
"""States whose loads are explained one by one; the others follow the same rule."""


def numbers(assessment: Assessment) -> Page:
    """Make the page of how each number was found."""
    blocks = (*_figures(assessment), *_constants(assessment))
    return Page("numbers", "How each number was found", _INTRO, blocks)


def _figures(assessment: Assessment) -> Iterator[Block]:
    words = words_of(assessment)
    for topic, several in groupby(printed_entries(assessment), key=lambda entry: entry.topic):
        notes = [_LEFT_TO_PAGES[topic]] if topic in _LEFT_TO_PAGES else []
        yield from small_table(topic, _HEADERS, (_row(entry, words) for entry in several), *notes)


def printed_entries(assessment: Assessment) -> tuple[Entry, ...]:
    """What stands on the page, numbers that are found alike together."""
    return entries_of(_printed(assessment), style_of(assessment))


def _printed(assessment: Assessment) -> Iterator[Figure]:
    """Figures that no page of their own tells: not the levels of each stop, nor the loads of most states."""
    told_alike = {state.key for state in trip_states(assessment.profile)} - _SUMMED
    for figure in assessment.ledger.entered:
        is_load = figure.kind in weights.IN_STATE and not told_alike.isdisjoint(figure.key.subject)
        if not is_load and figure.kind not in supplies.OF_A_DAY:
            yield figure


def _row(entry: Entry, words: Words) -> tuple[str, str]:
    first = entry.figures[0]
    origin = origin_words(first.told.sources)
    rule = f"{as_sentence(first.figure.basis)} {as_sentence(first.told.rule)} From: {origin}."
    if first.figure.kind is tires.FILL_AT:
        decided = _inputs(first)
        return entry.name, f"{rule} {'; '.join(_cells(entry, words))}. The first: ({decided})."
    return entry.name, f"{rule} {' '.join(_values(entry, words))}"


def _inputs(owned: Owned) -> str:
    return ", ".join(f"{item.name} {item.text}" for item in owned.told.inputs)


def _cells(entry: Entry, words: Words) -> Iterator[str]:
    """Cells of the tables over tire temperature: whose, temperature, value."""
    unit = words.unit(TEMPERATURE)
    for owned in entry.figures:
        value = words.value(owned.figure, "none")
        yield f"{owned.axle} at {owned.figure.key.subject[-1]} {unit} {value}"


def _values(entry: Entry, words: Words) -> Iterator[str]:
    """Each value with what decided it, those that read alike told once."""
    alike: dict[str, list[str]] = {}
    for number, owned in enumerate(entry.figures):
        is_worked = number == 0 or entry.topic in _ALL_WORKED
        alike.setdefault(_decided(owned, words, is_worked=is_worked), []).append(owned.whose)
    for text, owners in alike.items():
        whose = ", ".join(owner for owner in owners if owner)
        yield as_sentence(f"{whose}: {text}" if whose else text, capital=False)


def _decided(owned: Owned, words: Words, *, is_worked: bool) -> str:
    value, slack = words.value(owned.figure, "none"), owned.told.slack
    # A margin's slack says the margin again, in words: once is enough.
    said = slack if is_said_in(value, slack) else "; ".join(text for text in (value, slack) if text)
    inputs = _inputs(owned) if is_worked else ""
    return said + (f" ({inputs})" if inputs else "")


def _constants(assessment: Assessment) -> Iterator[Block]:
    rows = (
        (one.name, text, procedure_reason(one.name, assessment.rig.units), origin_words(one.source))
        for one, text in all_procedure_constants(assessment.rig.units)
    )
    headers = ("number", "value", "why", "source")
    yield from small_table("Fixed numbers of the procedures", headers, rows)


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
    blocks = (Heading("Cautions"), *map(Note, _CAUTIONS), *_list(assessment))
    return Page("sources", "Sources and cautions", intro, blocks)


def _list(assessment: Assessment) -> Iterator[Block]:
    named = [entry.figures[0].told.sources for entry in printed_entries(assessment)]
    named += [constant.source for constant, _ in all_procedure_constants(assessment.rig.units)]
    named += sources_of_pages()
    found = {entry.id: entry for text in dict.fromkeys(named) for entry in sources_of(text)}
    grades = {entry.grade for entry in found.values()}
    meant = ((grade, words) for grade, words in _GRADES if grade in grades)
    yield from small_table("Grades", ("grade", "what it means"), meant)
    # Numbered sources and regulations first, then words.
    ordered = sorted(found.items(), key=lambda item: (item[0][:1].islower(), item[0]))
    rows = ((entry.id, entry.title, entry.grade) for _, entry in ordered)
    yield from small_table("Sources", ("source", "title", "grade"), rows)
