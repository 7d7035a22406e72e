"""Page "How each number was found": every figure with its kind, rule, inputs and sources."""

from collections.abc import Iterator
from itertools import groupby

from binder.assessment.assessment import Assessment
from binder.assessment.procedure_numbers import all_procedure_constants, procedure_reason
from binder.cards.axle_words import display_of
from binder.cards.blocks import Block, Note, Page, Table
from binder.cards.display import Display
from binder.cards.figure_text import value_text
from binder.cards.printed_figures import Entry, Told, printed_entries

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
_CELLS = "fill_at"


def numbers(assessment: Assessment) -> Page:
    """Make the page of how each number was found."""
    blocks = (*_figures(assessment), *_constants(assessment))
    return Page("numbers", "How each number was found", _INTRO, blocks)


def _figures(assessment: Assessment) -> Iterator[Block]:
    display = display_of(assessment)
    for subject, entries in groupby(printed_entries(assessment), key=lambda entry: entry.subject):
        yield Table(_HEADERS, tuple(_row(entry, display) for entry in entries), small=True, caption=subject)
        if subject in _LEFT_TO_PAGES:
            yield Note(_LEFT_TO_PAGES[subject])


def _row(entry: Entry, display: Display) -> tuple[str, str]:
    first = entry.first
    rule = f"{_sentence(first.kind)} {_sentence(first.rule)} From: {first.source}."
    if entry.name == _CELLS:
        decided = ", ".join(f"{item.name} {item.text}" for item in first.inputs)
        return entry.name, f"{rule} {'; '.join(_cells(entry, display))}. The first: ({decided})."
    return entry.name, f"{rule} {' '.join(_values(entry, display))}"


def _cells(entry: Entry, display: Display) -> Iterator[str]:
    """Cells of the tables over tire temperature: whose, temperature, value."""
    unit = display.measure("temperature").word
    for told in entry.figures:
        axle, _, cell = told.whose.rpartition(".")
        value = "none" if told.figure.value is None else value_text(told.figure, display)
        yield f"{axle} at {cell.replace('minus_', '-')} {unit} {value}"


def _values(entry: Entry, display: Display) -> Iterator[str]:
    """Each value with what decided it, those that read alike told once."""
    alike: dict[str, list[str]] = {}
    for number, told in enumerate(entry.figures):
        is_worked = number == 0 or entry.subject in _ALL_WORKED
        alike.setdefault(_decided(told, display, is_worked=is_worked), []).append(told.whose)
    for text, owners in alike.items():
        whose = ", ".join(owner for owner in owners if owner)
        yield _sentence(f"{whose}: {text}" if whose else text, capital=False)


def _decided(told: Told, display: Display, *, is_worked: bool) -> str:
    figure = told.figure
    inputs = ", ".join(f"{item.name} {item.text}" for item in figure.inputs) if is_worked else ""
    value = "none" if figure.value is None else value_text(figure, display)
    slack = figure.slack
    # A margin's slack says the margin again, in words: once is enough.
    said = slack if slack.startswith(f"{value} ") else "; ".join(text for text in (value, slack) if text)
    return said + (f" ({inputs})" if inputs else "")


def _sentence(words: str, *, capital: bool = True) -> str:
    whole = words[:1].upper() + words[1:] if capital else words
    return whole if not whole or whole.endswith((".", "!", "?")) else f"{whole}."


def _constants(assessment: Assessment) -> Iterator[Block]:
    rows = tuple(
        (constant.name, text, procedure_reason(constant.name, assessment.rig.units), constant.source)
        for constant, text in all_procedure_constants(assessment.rig.units)
    )
    yield Table(
        ("number", "value", "why", "source"), rows, small=True, caption="Fixed numbers of the procedures"
    )
