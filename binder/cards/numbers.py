"""Page "How each number was found": every figure with its kind, rule, inputs and sources."""

from collections.abc import Iterator
from itertools import groupby

from binder.assessment.assessment import Assessment
from binder.assessment.figures import Figure
from binder.assessment.procedure_numbers import all_procedure_constants
from binder.cards.axle_words import display_of
from binder.cards.blocks import Block, Note, Page, Table
from binder.cards.display import Display
from binder.cards.figure_text import value_text
from binder.cards.printed_figures import Entry, names_told, printed_entries

_INTRO = (
    "Kinds: measured; stated by a maker; table; calculated; assumed. Sources are listed at the end. Loads and needs "
    "are rounded up, ratings, margins and times left down."
)
_HEADERS = ("number", "value", "kind, rule, and what decided it", "source")


def numbers(assessment: Assessment) -> Page:
    """Make the page of how each number was found.

    Args:
        assessment: the rig on its trip.

    Returns:
        The page.

    Sources:
        Each figure's own.

    Example:
        >>> from datetime import date
        >>> from pathlib import Path
        >>> from binder.assessment.assess import assess
        >>> from binder.models.load import load_profile
        >>> page = numbers(assess(load_profile(Path("profiles/larkspur")), date(2026, 6, 1)))
        >>> page.blocks[0].caption
        'tires.coach.steer'
    """
    blocks = (*_figures(assessment), *_constants(assessment))
    return Page("numbers", "How each number was found", _INTRO, blocks)


def _figures(assessment: Assessment) -> Iterator[Block]:
    display = display_of(assessment)
    for section, entries in groupby(printed_entries(assessment), key=lambda entry: entry.section):
        rows = tuple(_row(entry, display) for entry in entries)
        yield Table(_HEADERS, rows, small=True, caption=section)
    yield Note(
        "Loads and margins in the other states of the trip stand on the page of weights; each is found as at departure."
    )


def _row(entry: Entry, display: Display) -> tuple[str, ...]:
    first = entry.figures[0]
    if len(entry.figures) == 1 and not entry.name.startswith("each"):
        inputs = "; ".join(f"{item.name} {item.text}" for item in first.inputs)
        how = _sentences(
            f"{first.kind}. {_sentence(first.rule)}", inputs, first.slack and f"slack: {first.slack}"
        )
        return entry.name, value_text(first, display), how, first.source
    values = "; ".join(
        f"{name} {_value_or_dash(figure, display)}"
        for name, figure in zip(names_told(entry), entry.figures, strict=True)
    )
    return entry.name, "see right", _sentences(f"{first.kind}. {_sentence(first.rule)}", values), first.source


def _value_or_dash(figure: Figure, display: Display) -> str:
    return "-" if figure.value is None else value_text(figure, display)


def _sentence(rule: str) -> str:
    words = rule[:1].upper() + rule[1:]
    return words if not words or words.endswith((".", "!", "?")) else f"{words}."


def _sentences(*parts: str) -> str:
    return " ".join(_sentence(part) for part in parts if part)


def _constants(assessment: Assessment) -> Iterator[Block]:
    rows = tuple(
        (constant.name, text, constant.reason, constant.source)
        for constant, text in all_procedure_constants(assessment.rig.units)
    )
    yield Table(
        ("number", "value", "why", "source"), rows, small=True, caption="Fixed numbers of the procedures"
    )
