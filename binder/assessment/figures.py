"""A figure: one number or statement with everything a person needs to trust it."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Literal, NamedTuple, TypeAlias

from binder.assessment import ledger
from binder.quantities import Quantity, is_quantity

Kind: TypeAlias = Literal["measured", "stated by a maker", "table", "calculated", "assumed"]
Value: TypeAlias = Quantity | float | str | date | datetime | None
Grade: TypeAlias = Literal["do not drive", "attention", "missing"]


class Input(NamedTuple):
    """One input that decided a figure: its name, its value as text, and where it came from."""

    name: str
    text: str
    origin: str


class Figure(NamedTuple):
    """One result. ``value`` None means: not known, or no value may be printed; the rule says why.

    ``slack`` is what a person wants beside a safety number, in words ("310 lb more before the
    next row"). ``source`` names entries of the bibliography (binder/reference/sources.py).
    """

    key: str
    value: Value
    kind: Kind
    rule: str
    source: str
    inputs: tuple[Input, ...] = ()
    cautions: tuple[str, ...] = ()
    slack: str = ""

    @property
    def quantity(self) -> Quantity | None:
        """The value where it is a quantity, None where it is not known or something else."""
        return self.value if is_quantity(self.value) else None


class Finding(NamedTuple):
    """The input is right and the answer is bad, or something is not known.

    ``order`` is the place in the list of ten findings that matter most (1 first).
    """

    grade: Grade
    order: int
    key: str
    text: str
    what_helps: str = ""


@dataclass
class Ledger(ledger.Ledger):
    """The ledger in between: what is entered as values is also told, for those that still read text."""

    units: Literal["us", "metric"] = "us"
    figures: dict[str, Figure] = field(default_factory=dict)
    findings: list[Finding] = field(default_factory=list)  # type: ignore[assignment]
    reported: list[ledger.Finding] = field(default_factory=list)

    def enter(self, figure: ledger.Figure) -> ledger.Figure:
        """Enter a figure as a value, and told."""
        from binder.wording.telling import told  # noqa: PLC0415

        super().enter(figure)
        text = told(figure, self.units)
        value = figure.value
        if isinstance(value, ledger.Phrase):
            from binder.wording.sentences import sentence  # noqa: PLC0415

            value = sentence(value, figure.facts, self.units)
        inputs = tuple(Input(*one) for one in text.inputs)
        self.add(
            Figure(text.key, value, figure.basis, text.rule, text.sources, inputs, text.cautions, text.slack)
        )
        return figure

    def report(self, finding: ledger.Finding) -> None:
        """Enter a finding as values, and told."""
        from binder.wording.telling import told_finding  # noqa: PLC0415

        if finding not in self.reported:
            self.reported.append(finding)
        text = told_finding(finding, self.units)
        self.find(Finding(finding.grade, finding.kind.order, text.key, text.text, text.helps))

    def add(self, figure: Figure) -> Figure:
        """Enter a figure under its key; a key entered twice is a bug."""
        if figure.key in self.figures:
            raise KeyError(f"figure {figure.key} entered twice")
        self.figures[figure.key] = figure
        return figure

    def find(self, finding: Finding) -> None:  # type: ignore[override]
        """Enter a finding once."""
        if finding not in self.findings:
            self.findings.append(finding)

    def starting_with(self, start: str) -> Iterator[Figure]:
        """Yield the figures whose key is, or begins with, the given start."""
        for key, figure in self.figures.items():
            if key.startswith(start):
                yield figure
