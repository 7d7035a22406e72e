"""What is entered in the ledger, told: every text of a figure and of a finding, finished."""

from collections.abc import Mapping
from typing import NamedTuple

from binder.assessment.ledger import ByCase, Fact, Figure, Finding, Input
from binder.assessment.measures import System
from binder.wording.sentences import key_text, sentence


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


def told(figure: Figure, units: System) -> Told:
    """Write every text of a figure."""
    kind, facts = figure.kind, figure.facts
    cautions = kind.cautions if isinstance(kind.cautions, tuple) else kind.cautions[figure.case]
    return Told(
        key_text(figure.key),
        sentence(_of_case(kind.rule, figure.case), facts, units),
        _of_case(kind.sources, figure.case),
        tuple(_told_input(one, facts, units) for one in figure.inputs),
        tuple(sentence(caution, facts, units) for caution in cautions),
        "" if figure.slack is None else sentence(figure.slack, facts, units),
    )


def told_finding(finding: Finding, units: System) -> ToldFinding:
    """Write what is so and what to do."""
    kind, facts = finding.kind, finding.facts
    return ToldFinding(
        key_text(finding.about),
        sentence(_of_case(kind.text, finding.case), facts, units),
        sentence(_of_case(kind.helps, finding.case), facts, units),
    )


def _told_input(given: Input, facts: Mapping[str, Fact], units: System) -> ToldInput:
    kind = given.kind
    known = {**facts, **given.facts, "value": given.value, "origin": given.origin}
    return ToldInput(*(sentence(text, known, units) for text in (kind.name, kind.text, kind.origin)))


def _of_case(texts: ByCase, case: str) -> str:
    return texts if isinstance(texts, str) else texts[case]
