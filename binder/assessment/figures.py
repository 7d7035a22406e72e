"""A figure: one number or statement with everything a person needs to trust it."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Literal, NamedTuple, TypeAlias

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
class Ledger:
    """All figures by key and all findings, filled once by the assessment and only read after."""

    figures: dict[str, Figure] = field(default_factory=dict)
    findings: list[Finding] = field(default_factory=list)

    def add(self, figure: Figure) -> Figure:
        """Enter a figure under its key; a key entered twice is a bug."""
        if figure.key in self.figures:
            raise KeyError(f"figure {figure.key} entered twice")
        self.figures[figure.key] = figure
        return figure

    def find(self, finding: Finding) -> None:
        """Enter a finding once."""
        if finding not in self.findings:
            self.findings.append(finding)

    def starting_with(self, start: str) -> Iterator[Figure]:
        """Yield the figures whose key is, or begins with, the given start."""
        for key, figure in self.figures.items():
            if key.startswith(start):
                yield figure
