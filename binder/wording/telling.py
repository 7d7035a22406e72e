"""What is entered in the ledger, told: every text of a figure and of a finding, finished."""

from collections.abc import Mapping
from functools import cache
from string import Formatter
from typing import NamedTuple

from binder.assessment.ledger import Fact, Figure, Finding, Input, Key, Phrase, of_case
from binder.wording.measures import System
from binder.wording.sentences import as_sentence, key_text, sentence


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


def told(figure: Figure, units: System) -> Told:
    """Write every text of a figure."""
    kind, case = figure.kind, figure.case
    facts = figure_facts(figure)
    cautions: tuple[Phrase | str, ...] = (*of_case(kind.cautions, case), *figure.cautions)
    return Told(
        key_text(figure.key),
        sentence(of_case(kind.rule, case), facts, units),
        sentence(of_case(kind.sources, case), facts, units),
        tuple(told_input(one, facts, units) for one in figure.inputs),
        tuple(sentence(caution, facts, units) for caution in cautions),
        "" if figure.slack is None else sentence(figure.slack, facts, units),
    )


def told_finding(finding: Finding, units: System) -> ToldFinding:
    """Write what is so and what to do, each as a sentence."""
    kind, facts = finding.kind, {**subject_facts(finding.about), **finding.facts}
    text, helps, brief = (
        sentence(of_case(texts, finding.case), facts, units)
        for texts in (kind.text, kind.helps, kind.brief or kind.text)
    )
    return ToldFinding(key_text(finding.about), as_sentence(text), as_sentence(helps), brief)


def told_input(given: Input, facts: Mapping[str, Fact], units: System) -> ToldInput:
    """Write name, value and origin of an input."""
    kind = given.kind
    known = {**facts, **given.facts, "value": given.value, "origin": given.origin}
    return ToldInput(*(sentence(text, known, units) for text in (kind.name, kind.text, kind.origin)))


def figure_facts(figure: Figure) -> dict[str, Fact]:
    """What the sentences of a figure may name: its subject's parts, its value and its facts."""
    return {**subject_facts(figure.key), "value": figure.value, **figure.facts}


def subject_facts(key: Key) -> dict[str, Fact]:
    """The parts of a subject by the names the kind gives them, for its sentences to name."""
    return dict(zip(_parts(key.kind.key), key.subject, strict=True))


@cache
def _parts(form: str) -> tuple[str, ...]:
    return tuple(name for _, name, _, _ in Formatter().parse(form) if name)
