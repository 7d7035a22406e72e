"""``printed.yaml`` of a rig: what was printed, by set and part; written by ``binder printed`` alone."""

from collections.abc import Iterable, Iterator, Mapping
from datetime import date, datetime
from pathlib import Path
from typing import Literal, NamedTuple

from pydantic import BaseModel, ConfigDict, Field

from binder.models.located_yaml import own_yaml, written_yaml
from binder.printed import FILE
from binder.problems import InputProblems, Problem

_HEAD = """# What is printed and in hand, written by 'binder printed'. It holds nothing private: keep it with
# rig.yaml, under version control. 'binder changes' compares it with what would be printed today.
"""


_NOT_OURS = "this is not as 'binder printed' wrote it; restore the file, or delete it and print everything"


class _Record(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class Shown(NamedTuple):
    """A figure as it was printed, and its bare number; empty where it is none."""

    text: str
    number: str = ""


class InHand(_Record):
    """A part that was printed: its title, code and pages, the figures on it, and codes of its lines.

    ``says_private``: it was printed with something private, of which nothing stands here.
    """

    title: str
    code: str
    pages: int = 0
    says_private: bool = False
    figures: tuple[str, ...] = ()
    lines: str = ""

    @property
    def line_codes(self) -> frozenset[str]:
        """Codes of what its lines said."""
        return frozenset(self.lines.split())


class LogThen(_Record):
    """The log as it was: when it took the last entry that counts, and a code of all that did."""

    until: datetime
    code: str


class Printing(_Record):
    """One printing of a set: its parts still in hand, their figures, and the texts they were made from."""

    date: date
    set: str
    trip: str = ""
    parts: dict[str, InHand]
    figures: dict[str, Shown] = Field(default_factory=dict)
    files: dict[str, str] = Field(default_factory=dict)
    log: LogThen | None = None


class Superseded(_Record):
    """A part that was in hand once."""

    set: str
    title: str
    code: str
    until: date


class Printed(_Record):
    """All that is in hand of a rig, and what was."""

    version: Literal["1"] = "1"
    printings: tuple[Printing, ...] = ()
    superseded: tuple[Superseded, ...] = ()

    def sets(self) -> list[str]:
        """Sets that were printed, in order of their last printing."""
        return list(dict.fromkeys(one.set for one in reversed(self.printings)))

    def in_hand(self, name: str) -> dict[str, tuple[Printing, InHand]]:
        """Parts of a set in hand, each with the printing it is of."""
        return {
            part: (one, held) for one in self.printings if one.set == name for part, held in one.parts.items()
        }

    def trip(self, name: str) -> str:
        """The trip that a set was last printed for."""
        return next((one.trip for one in reversed(self.printings) if one.set == name), "")


class Made(_Record):
    """A printing that lies in a folder; ``gone`` are the parts it takes out, None: all that it has not."""

    printing: Printing
    gone: tuple[str, ...] | None = None


def printed_of(folder: Path) -> Printed:
    """Read what is in hand of a rig; nothing where nothing was recorded."""
    file = folder / FILE
    if not file.exists():
        return Printed()
    try:
        return Printed.model_validate(own_yaml(file.read_text("utf-8")))
    except ValueError as fault:
        raise InputProblems([Problem(str(file), None, "", _NOT_OURS)]) from fault


def recorded(folder: Path, name: str | None) -> Printed:
    """The same, refused where nothing, or nothing of the set that is named, was recorded."""
    printed = printed_of(folder)
    if not printed.printings or (name and name not in printed.sets()):
        what = f"of the set {name} " if name else ""
        text = f"nothing {what}is recorded as printed; build it, print it, then type 'binder printed"
        raise InputProblems([Problem(str(folder / FILE), None, "", f"{text} {folder}'")])
    return printed


def with_printing(printed: Printed, made: Made) -> Printed:
    """What is in hand once a printing is: it takes the place of the parts it has."""
    new = made.printing
    printings, superseded = [], list(printed.superseded)
    for one in printed.printings:
        kept = one.parts if one.set != new.set else dict(_kept(one.parts, made))
        for name in one.parts.keys() - kept.keys():
            old, now = one.parts[name], new.parts.get(name)
            if now is None or now.code != old.code:
                superseded.append(Superseded(set=one.set, title=old.title, code=old.code, until=new.date))
        if kept:
            shown = {key for part in kept.values() for key in part.figures}
            figures = {key: value for key, value in one.figures.items() if key in shown}
            printings.append(one.model_copy(update={"parts": kept, "figures": figures}))
    return Printed(
        printings=(*printings, new),
        superseded=tuple(sorted(superseded, key=lambda one: (one.until, one.title))),
    )


def _kept(parts: Mapping[str, InHand], made: Made) -> Iterator[tuple[str, InHand]]:
    for name, part in parts.items():
        is_gone = name in made.gone if made.gone is not None else True
        if name not in made.printing.parts and not is_gone:
            yield name, part


def text_of(printed: Printed) -> str:
    """The text of the file."""
    return _HEAD + written_yaml(printed.model_dump(mode="json", exclude_defaults=True) | {"version": "1"})


def shown_on(parts: Iterable[InHand], figures: Mapping[str, Shown]) -> dict[str, Shown]:
    """The figures of some parts, each once."""
    keys = sorted({key for part in parts for key in part.figures})
    return {key: figures[key] for key in keys if key in figures}
