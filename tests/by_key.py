"""Figures and findings by the text of their keys, and in words, for tests that ask as a reader would."""

from collections.abc import Callable
from datetime import date
from functools import cached_property
from typing import NamedTuple

from binder.assessment.assess import Assessment
from binder.assessment.ledger import Basis, Figure, Finding, Grade, Ledger, Phrase, Value
from binder.models.load import Profile
from binder.models.rig import Rig
from binder.quantities import Quantity, is_quantity
from binder.wording.measures import Style
from binder.wording.sentences import ToldInput, key_text
from binder.wording.words import Words


class ReadFigure(NamedTuple):
    """A figure in words; a value that is a phrase is written, any other stays a value."""

    key: str
    value: Value
    kind: Basis
    rule: str
    source: str
    inputs: tuple[ToldInput, ...]
    cautions: tuple[str, ...]
    slack: str

    @property
    def quantity(self) -> Quantity | None:
        return self.value if is_quantity(self.value) else None


class ReadFinding(NamedTuple):
    """A finding in words."""

    grade: Grade
    order: int
    key: str
    text: str
    what_helps: str


class ByKey:
    """What an assessment entered."""

    def __init__(self, assessment: Assessment) -> None:
        self.assessment = assessment
        self._words = Words(Style(assessment.rig.units))

    @property
    def profile(self) -> Profile:
        return self.assessment.profile

    @property
    def rig(self) -> Rig:
        return self.assessment.rig

    @property
    def keys(self) -> list[str]:
        return list(self._entered)

    @property
    def figures(self) -> dict[str, ReadFigure]:
        return {key: self._read(figure) for key, figure in self._entered.items()}

    @cached_property
    def findings(self) -> list[ReadFinding]:
        """All findings in the order they matter."""
        return [self._read_finding(one) for one in self.assessment.findings]

    def figure(self, key: str) -> ReadFigure:
        return self._read(self._entered[key])

    def known(self, key: str) -> ReadFigure | None:
        return self.figure(key) if key in self._entered else None

    def quantity(self, key: str) -> Quantity | None:
        return self._entered[key].quantity if key in self._entered else None

    @cached_property
    def _entered(self) -> dict[str, Figure]:
        return {key_text(figure.key): figure for figure in self.assessment.ledger.entered}

    def _read(self, figure: Figure) -> ReadFigure:
        said, value = self._words.told(figure), figure.value
        if isinstance(value, Phrase):
            value = self._words.said(value, figure.facts)
        return ReadFigure(
            said.key, value, figure.basis, said.rule, said.sources, said.inputs, said.cautions, said.slack
        )

    def _read_finding(self, finding: Finding) -> ReadFinding:
        said = self._words.found(finding)
        return ReadFinding(finding.grade, finding.kind.order, said.key, said.text, said.helps)


def entered_by(
    profile: Profile,
    on: date,
    *topics: Callable[[Profile, date, Ledger], None],
    before: tuple[Figure, ...] = (),
) -> ByKey:
    """What some topics alone enter of a profile, beside what was entered before them."""
    ledger = Ledger()
    for figure in before:
        ledger.enter(figure)
    for topic in topics:
        topic(profile, on, ledger)
    return ByKey(Assessment(profile, on, ledger))
