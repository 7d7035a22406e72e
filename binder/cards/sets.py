"""Sets: which cards and pages are handed to whom, and what of ``private.yaml`` each asks for."""

from collections.abc import Iterable
from dataclasses import replace
from functools import cache
from typing import Literal

from pydantic import BaseModel, ConfigDict, TypeAdapter

from binder import templates_folder
from binder.cards.blocks import BinderDocument, Card, Page, Part
from binder.models.located_yaml import located_yaml


class PrintingSet(BaseModel):
    """One set of the table: None for parts means all that the rig has."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    name: str = ""
    title: str
    for_whom: str
    cards: tuple[str, ...] | None = None
    pages: tuple[str, ...] | None = None
    desk: bool = False
    private: tuple[Literal["contacts", "medical", "policies", "nights"], ...] = ()

    def holds(self, part: Part) -> bool:
        """Whether a part belongs to the set, by the name of what makes it."""
        if isinstance(part, Card) and part.sets is not None:
            return self.name in {EVERYTHING, *part.sets}
        listed = self.cards if isinstance(part, Card) else self.pages
        return listed is None or part.name in listed


@cache
def sets() -> dict[str, PrintingSet]:
    """The table of sets, by their names."""
    table = located_yaml("sets.yaml", (templates_folder() / "sets.yaml").read_text(encoding="utf-8")).data
    read = TypeAdapter(dict[str, PrintingSet]).validate_python(table)
    return {name: one.model_copy(update={"name": name}) for name, one in read.items()}


def printed_in(name: str, document: BinderDocument, public: Iterable[Part]) -> BinderDocument:
    """Keep of a binder what a set holds, each part marked with the set, and as private where it is so.

    ``public`` are the parts as they are without ``private.yaml``: a part that is none of them says what
    is nobody else's business.
    """
    one = sets()[name]
    codes = {part.code for part in public}
    parts = tuple(_marked(part, one, codes) for part in document.parts if one.holds(part))
    return replace(document, set_title=one.title, parts=parts, desk=document.desk if one.desk else ())


def _marked(part: Card | Page, one: PrintingSet, public: set[str]) -> Card | Page:
    return replace(part, set_title=one.title if part.code in public else f"{one.title}, {PRIVATE}")


EVERYTHING = "everything"
"""The set that has all there is."""

PRIVATE = "private"
"""Stands in the foot of a part that says more than the same part of another set."""


def longest_title() -> str:
    """What may stand in the foot of a part at the most."""
    return max((f"{one.title}, {PRIVATE}" for one in sets().values()), key=len)
