"""Format strings filled with facts: the one way in which a value becomes a word.

A field of a format string names a fact and, after a colon, how it is written: ``{margin:weight down}``. A
fact that is not known is written as such.
"""

from collections.abc import Callable, Iterator, Mapping
from datetime import date, datetime, time
from functools import cache
from string import Formatter
from types import MappingProxyType
from typing import NamedTuple

from binder.assessment.ledger import Fact, Figure, Finding, Input, Key, Phrase, Place, of_case
from binder.quantities import is_quantity
from binder.reference.constants import ProcedureConstant
from binder.wording.measures import Rounding, Style
from binder.wording.numbers import QUANTITY_MEASURES, named, quantity_text, share_text

NOT_KNOWN = "not known"
_NOON = 12  # Hours.


def sentence(phrase: Phrase | str, facts: Mapping[str, Fact], style: Style) -> str:
    """Fill a format string; a phrase brings facts of its own beside those of what it stands in."""
    if isinstance(phrase, Phrase):
        return phrase.text.format_map(_Words({**facts, **phrase.facts}, style))
    return phrase.format_map(_Words(facts, style))


def key_text(key: Key) -> str:
    """Write a key: the form of its kind with the subject's names, blanks and points taken out of them."""
    names = iter(key.subject)
    return key.kind.key.format_map(_KeyParts(names))


def place_text(place: Place) -> str:
    """Write a place in the owner's files: ``rig.yaml vehicles.coach.axles.steer.rating``."""
    path = ".".join(str(part) for part in place.path)
    joint = ", " if place.file == "trip plan" else " "
    return f"{place.file}{joint}{path}" if path else place.file


def as_sentence(words: str, *, capital: bool = True) -> str:
    """Begin words with a capital and end them with a point, where they do not yet."""
    whole = words[:1].upper() + words[1:] if capital else words
    return whole if not whole or whole.endswith((".", "!", "?")) else f"{whole}."


def known_measures() -> frozenset[str]:
    """Names that may stand after the colon of a field, without their direction."""
    return QUANTITY_MEASURES | {*_NUMBERS, *_MOMENTS, *_PLAIN, *_JOINED}


class _KeyParts(Mapping[str, str]):
    """Parts of a subject in the order they stand in the form of a key."""

    def __init__(self, names: Iterator[str | int]) -> None:
        self._names = names

    def __getitem__(self, _: str) -> str:
        name = next(self._names)
        if isinstance(name, int):
            return str(name) if name >= 0 else f"minus_{-name}"
        return name.replace(" ", "_").replace(".", "")

    def __iter__(self) -> Iterator[str]:
        return iter(())

    def __len__(self) -> int:
        return 0


class _Words(Mapping[str, "_Word"]):
    def __init__(self, facts: Mapping[str, Fact], style: Style) -> None:
        self._facts, self._style = facts, style

    def __getitem__(self, name: str) -> "_Word":
        return _Word(self._facts[name], self._facts, self._style)

    def __iter__(self) -> Iterator[str]:
        return iter(self._facts)

    def __len__(self) -> int:
        return len(self._facts)


class _Word:
    """One fact, written as the field that names it asks for."""

    def __init__(self, fact: Fact, facts: Mapping[str, Fact], style: Style) -> None:
        self._fact, self._facts, self._style = fact, facts, style

    def __format__(self, measure: str) -> str:
        return fact_text(self._fact, measure, self._facts, self._style)


def fact_text(fact: Fact, measure: str, facts: Mapping[str, Fact], style: Style) -> str:  # noqa: PLR0911 - a kind of fact each.
    """Write one fact by a measure; a fact that is not known as such."""
    if fact is None:
        return NOT_KNOWN
    if is_quantity(fact):
        return quantity_text(fact, measure, style)
    if isinstance(fact, Phrase):
        # Where a kind has moments, a phrase may stand for one: the sun that does not set.
        return _PLAIN.get(measure, str)(sentence(fact, facts, style))
    if isinstance(fact, Key):
        return key_text(fact)
    if isinstance(fact, Place):
        return place_text(fact)
    if isinstance(fact, ProcedureConstant):
        return style.amount(fact).text
    if isinstance(fact, tuple):
        return _JOINED[measure or "list"]([fact_text(one, "", facts, style) for one in fact])  # type: ignore[arg-type]
    if isinstance(fact, date | time):
        return _MOMENTS[measure or "date"](fact, style)  # type: ignore[arg-type] # Each is asked for by its own kind.
    if isinstance(fact, int | float) and measure:
        name, rounding = named(measure)
        return _NUMBERS[name](fact, rounding)
    return _PLAIN[measure or "text"](f"{fact:g}" if isinstance(fact, float) else str(fact))


def clock_text(moment: datetime | time, style: Style) -> str:
    """Write a time of day with its zone's short name."""
    zone = moment.tzname()
    half = f"{moment.hour % 12 or 12}:{moment:%M} {'am' if moment.hour < _NOON else 'pm'}"
    return (half if style.clock == "12 h" else f"{moment:%H:%M}") + (f" {zone}" if zone else "")


_NUMBERS: Mapping[str, Callable[[float, Rounding], str]] = MappingProxyType(
    {
        "count": lambda number, _: f"{number:,.0f}",
        "number": lambda number, _: f"{number:g}",
        "text": lambda number, _: f"{number:g}",
        "tenths": lambda number, _: f"{number:.1f}",
        "share": lambda number, _: f"{number:.0%}",
        "percent": share_text,
    }
)
_MOMENTS: Mapping[str, Callable[[datetime, Style], str]] = MappingProxyType(
    {
        "date": lambda moment, _: moment.isoformat(),
        "day": lambda moment, _: f"{moment:%a %Y-%m-%d}",
        "clock": clock_text,
        "moment": lambda moment, style: f"{moment:%a %Y-%m-%d} {clock_text(moment, style)}",
    }
)
_PLAIN: Mapping[str, Callable[[str], str]] = MappingProxyType(
    {
        "text": str,
        "town": lambda text: text.partition(",")[0],
        "capital": lambda text: text[:1].upper() + text[1:],
        "small": lambda text: text[:1].lower() + text[1:],
    }
)
_JOINED: Mapping[str, Callable[[list[str]], str]] = MappingProxyType(
    {
        "list": ", ".join,
        "and": " and ".join,
        "parts": "; ".join,
        "sum": "".join,
        "range": lambda ends: " to ".join(dict.fromkeys(ends)),
        "sentences": " ".join,
    }
)


class ToldInput(NamedTuple):
    """One input in words."""

    name: str
    text: str
    origin: str


class Told(NamedTuple):
    """One figure in words; its value stays a value, for ``value_text`` to write."""

    key: str
    rule: str
    sources: str
    inputs: tuple[ToldInput, ...]
    cautions: tuple[str, ...]
    slack: str


class ToldFinding(NamedTuple):
    """One finding in words: what is so, and what to do."""

    key: str
    text: str
    helps: str
    brief: str
    path: str


def told(figure: Figure, style: Style) -> Told:
    """Write every text of a figure."""
    facts = figure_facts(figure)
    return Told(
        key_text(figure.key),
        rule_text(figure, style),
        sources_text(figure, style),
        tuple(told_input(one, facts, style) for one in figure.inputs),
        caution_texts(figure, style),
        slack_text(figure, style),
    )


def rule_text(figure: Figure, style: Style) -> str:
    """Write how a figure is found."""
    return sentence(of_case(figure.kind.rule, figure.case), figure_facts(figure), style)


def sources_text(figure: Figure, style: Style) -> str:
    """Write what a figure rests on."""
    return sentence(of_case(figure.kind.sources, figure.case), figure_facts(figure), style)


def caution_texts(figure: Figure, style: Style) -> tuple[str, ...]:
    """Write what to mind of a figure."""
    cautions: tuple[Phrase | str, ...] = (*of_case(figure.kind.cautions, figure.case), *figure.cautions)
    facts = figure_facts(figure)
    return tuple(sentence(caution, facts, style) for caution in cautions)


def slack_text(figure: Figure, style: Style) -> str:
    """Write what is left beside a figure; nothing where it says nothing."""
    return "" if figure.slack is None else sentence(figure.slack, figure_facts(figure), style)


def told_finding(finding: Finding, style: Style) -> ToldFinding:
    """Write what is so and what to do, each as a sentence."""
    kind, facts = finding.kind, {**subject_facts(finding.about), **finding.facts}
    text, helps, brief, path = (
        sentence(of_case(texts, finding.case), facts, style)
        for texts in (kind.text, kind.helps, kind.brief or kind.text, kind.path)
    )
    return ToldFinding(key_text(finding.about), as_sentence(text), as_sentence(helps), brief, path)


def told_input(given: Input, facts: Mapping[str, Fact], style: Style) -> ToldInput:
    """Write name, value and origin of an input."""
    kind = given.kind
    known = {**facts, **given.facts, "value": given.value, "origin": given.origin}
    return ToldInput(*(sentence(text, known, style) for text in (kind.name, kind.text, kind.origin)))


def figure_facts(figure: Figure) -> dict[str, Fact]:
    """What the sentences of a figure may name: its subject's parts, its value and its facts."""
    return {**subject_facts(figure.key), "value": figure.value, **figure.facts}


def subject_facts(key: Key) -> dict[str, Fact]:
    """The parts of a subject by the names the kind gives them, for its sentences to name."""
    return dict(zip(_parts(key.kind.key), key.subject, strict=True))


@cache
def _parts(form: str) -> tuple[str, ...]:
    return tuple(name for _, name, _, _ in Formatter().parse(form) if name)
