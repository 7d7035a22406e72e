"""The ledger: every number and every piece of bad news as values; ``wording`` makes their text.

A *kind* of figure or finding is declared once, in the table ``kinds.py`` of its topic. What is entered
holds its kind, its subject (vehicle, axle, state, day ...) and raw quantities, and its inputs as other
entries or as places of the owner's files.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date, datetime, time
from types import MappingProxyType
from typing import Literal, NamedTuple, TypeAlias, TypeVar

from binder.quantities import Quantity, is_quantity
from binder.reference.constants import ProcedureConstant

Basis: TypeAlias = Literal["measured", "stated by a maker", "table", "calculated", "assumed"]
Grade: TypeAlias = Literal["do not drive", "not cleared", "attention", "missing"]
GRADES: tuple[Grade, ...] = ("do not drive", "not cleared", "attention", "missing")
"""The one that matters most first.

*Do not drive*: what is known passes a limit. *Not cleared*: whether it does cannot be said, for something is
blank or only assumed."""

Subject: TypeAlias = tuple[str | int, ...]
_Of = TypeVar("_Of")
ByCase: TypeAlias = _Of | Mapping[str, _Of]
"""One for all figures of a kind, or one for each of its cases; the case without a name is any other."""


def of_case(texts: ByCase[_Of], case: str) -> _Of:
    """What a kind has for one case."""
    if isinstance(texts, Mapping):
        return texts[case] if case in texts else texts[""]
    return texts


OF_THOSE_KNOWN = "of those known"
"""The case of a figure taken over several things one of which is not known: the card says so beside it."""
NO_FACTS: Mapping[str, "Fact"] = MappingProxyType({})


@dataclass(frozen=True, eq=False)
class FigureKind:
    """One kind of figure. All texts are format strings; a field names a fact and how it is measured.

    ``key`` names the parts of the subject: ``tires.{vehicle}.{axle}.set_point``. ``measure`` says how the
    value is printed and which way it is rounded: ``pressure up``. ``unknown_makes_it`` says where a blank may
    move the value where rounding does not say that. ``rule``, ``sources`` and ``basis`` may
    differ by case.
    """

    key: str
    measure: str
    rule: ByCase[str] = ""
    sources: ByCase[str] = ""
    basis: ByCase[Basis] = "calculated"
    cautions: ByCase[tuple[str, ...]] = ()
    unknown_makes_it: Literal["", "higher", "lower", "either"] = ""

    def by_rule(self, rule: ByCase[str], cautions: ByCase[tuple[str, ...]] = ()) -> "FigureKind":
        """This kind with its sentences, which stand after all that is short."""
        return replace(self, rule=rule, cautions=cautions)

    def of(self, *subject: str | int) -> "Key":
        """The key of this kind of figure for one subject."""
        return Key(self, subject)


@dataclass(frozen=True, eq=False)
class FindingKind:
    """One kind of finding: its grade, its place among those that matter most, and its sentences.

    ``text`` is what is so, ``helps`` what to do; ``key`` names the parts of its subject where it is about no
    figure; ``card`` is the number of the card, or the name of the page, it belongs on.
    ``brief`` says what is so where the card itself says of what; ``path`` where to type what is missing.
    """

    grade: ByCase[Grade]
    order: int
    text: ByCase[str] = ""
    helps: ByCase[str] = ""
    key: str = ""
    card: str = ""
    brief: ByCase[str] = ""
    path: ByCase[str] = ""

    def at(self, path: ByCase[str]) -> "FindingKind":
        """This kind with the file and path where what is missing is to be typed."""
        return replace(self, path=path)

    @property
    def may_forbid(self) -> bool:
        """In one of its cases it says not to drive."""
        grades = self.grade.values() if isinstance(self.grade, Mapping) else (self.grade,)
        return "do not drive" in grades

    def says(self, text: ByCase[str], helps: ByCase[str], brief: ByCase[str] = "") -> "FindingKind":
        """This kind with its sentences, which stand after all that is short."""
        return replace(self, text=text, helps=helps, brief=brief)

    def of(self, *subject: str | int) -> "Key":
        """The key of this kind of finding for one subject."""
        return Key(self, subject)


class Key(NamedTuple):
    """What a figure or finding is found by: its kind, and the thing it is of. No text, on purpose."""

    kind: FigureKind | FindingKind
    subject: Subject = ()


class Place(NamedTuple):
    """A place in the owner's files: the file, and the path in it."""

    file: Literal["rig.yaml", "trip plan"]
    path: tuple[str | int, ...] = ()


class Phrase(NamedTuple):
    """A format string of a table of kinds, with the facts it is to be filled with."""

    text: str
    facts: Mapping[str, "Fact"] = NO_FACTS


_One: TypeAlias = "Quantity | float | str | date | time | Key | Place | Phrase | ProcedureConstant | None"
Fact: TypeAlias = "_One | tuple[_One, ...]"
Value: TypeAlias = Quantity | float | str | date | datetime | Phrase | None


def room_or_over(margin: Quantity | None, room: str, over: str, **facts: Fact) -> Phrase | None:
    """What a margin leaves, or by how much it is over."""
    if margin is None:
        return None
    return (
        Phrase(over, {"over": -1 * margin, **facts})
        if margin.m < 0
        else Phrase(room, {"room": margin, **facts})
    )


def all_known(values: Iterable[_Of | None]) -> list[_Of] | None:
    """All of some values, None where one of them is not known."""
    listed = list(values)
    known = [value for value in listed if value is not None]
    return known if len(known) == len(listed) else None


@dataclass(frozen=True, eq=False)
class InputKind:
    """How an input is told: its name, its value, and where it is from; all format strings."""

    name: str
    text: str = "{value}"
    origin: str = "{origin}"


class Input(NamedTuple):
    """One input that decided a figure; ``origin`` is another figure or a place in the owner's files."""

    kind: InputKind
    value: Fact = None
    origin: Key | Place | Phrase | None = None
    facts: Mapping[str, Fact] = NO_FACTS


class Figure(NamedTuple):
    """One result. ``value`` None means: not known, or no value may be printed; the rule says why.

    ``case`` picks among the texts of the kind, ``facts`` fill them; ``slack`` is what a person wants beside a
    safety number ("310 lb more before the next row"); ``cautions`` are its own, after those of its kind.
    """

    key: Key
    value: Value
    inputs: tuple[Input, ...] = ()
    case: str = ""
    facts: Mapping[str, Fact] = NO_FACTS
    slack: Phrase | None = None
    cautions: tuple[Phrase, ...] = ()

    @property
    def kind(self) -> FigureKind:
        """What kind of figure it is."""
        kind = self.key.kind
        assert isinstance(kind, FigureKind)  # noqa: S101 - a figure is entered under the key of a figure.
        return kind

    @property
    def basis(self) -> Basis:
        """What the value rests on."""
        return of_case(self.kind.basis, self.case)

    @property
    def quantity(self) -> Quantity | None:
        """The value where it is a quantity, None where it is not known or something else."""
        return self.value if is_quantity(self.value) else None

    def given(self, kind: InputKind) -> Input | None:
        """The input of one kind, None where it has none."""
        return next((one for one in self.inputs if one.kind is kind), None)


class Finding(NamedTuple):
    """The input is right and the answer is bad, or something is not known.

    ``about`` is the figure it belongs to, or its own key where it belongs to none.
    """

    kind: FindingKind
    about: Key
    facts: Mapping[str, Fact] = NO_FACTS
    case: str = ""

    @property
    def grade(self) -> Grade:
        """How grave it is."""
        return of_case(self.kind.grade, self.case)


@dataclass
class Ledger:
    """All figures by kind and subject and all findings, filled once by the assessment and only read after."""

    by_kind: dict[FigureKind, dict[Subject, Figure]] = field(default_factory=dict)
    entered: list[Figure] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)

    def enter(self, figure: Figure) -> Figure:
        """Enter a figure under its key; a key entered twice is a bug."""
        of_kind = self.by_kind.setdefault(figure.kind, {})
        if figure.key.subject in of_kind:
            raise KeyError(f"{figure.kind.key} of {figure.key.subject} entered twice")
        of_kind[figure.key.subject] = figure
        self.entered.append(figure)
        return figure

    def find(self, *findings: Finding) -> None:
        """Enter each finding once."""
        for finding in findings:
            if finding not in self.findings:
                self.findings.append(finding)

    def of_kind(self, kind: FigureKind, *start: str | int) -> Iterator[Figure]:
        """Figures of one kind in the order they were entered, of the subjects that begin with some names."""
        for subject, figure in self.by_kind.get(kind, {}).items():
            if subject[: len(start)] == start:
                yield figure

    def known(self, key: Key) -> Figure | None:
        """The figure entered under a key, or None where there is none."""
        return self.by_kind.get(key.kind, {}).get(key.subject) if isinstance(key.kind, FigureKind) else None

    def figure(self, key: Key) -> Figure:
        """The figure entered under a key; a key that is not there is a bug."""
        figure = self.known(key)
        if figure is None:
            raise KeyError(f"{key.kind.key} of {key.subject}")
        return figure

    def quantity(self, key: Key) -> Quantity | None:
        """The quantity entered under a key, None where it is not known or something else."""
        figure = self.known(key)
        return figure.quantity if figure else None
