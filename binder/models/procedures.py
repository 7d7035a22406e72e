"""The words of cards as they are written: those that come with the program, and the owner's own."""

from typing import Annotated, Generic, Literal, Self, TypeAlias, TypeVar

from annotated_types import MinLen
from pydantic import BeforeValidator, Field, PlainValidator, model_validator

from binder.models.base import Count, Form, SpacedRecord, Text, Truth, entry, needed, written_problem

KINDS = ("challenge", "step", "box", "ruled", "note", "computed")
"""What a line may be: the first key it is written with."""

FIRST_NUMBER, LAST_NUMBER = 13, 99
"""Numbers of the owner's own cards: those before are of the ring."""

IfNot: TypeAlias = Literal["do not move", "fix before moving", "go", "nothing"]


def _as_list(value: object) -> object:
    return [value] if isinstance(value, str) else value


def _as_wordings(value: object) -> object:
    listed = [value] if isinstance(value, str) else value
    if not isinstance(listed, list):
        return value
    return [{"text": one} if isinstance(one, str) else one for one in listed]


def _one_or_list(words: str, example: str, of: str) -> Form:
    several = {"type": "array", "items": {"type": sorted({"string", of})}}
    return Form(words, example, {"anyOf": [{"type": "string"}, several]})


_NAMES = _one_or_list("a name, or a list of them", "[slides, propane]", "string")
Names: TypeAlias = Annotated[list[Text], BeforeValidator(_as_list), _NAMES]


class Conditional(SpacedRecord):
    """What is printed only where all conditions under ``when`` hold and none under ``unless``."""

    when: Names = entry("conditions of which all must hold, or it is not printed", like="slides", default=[])
    unless: Names = entry("conditions of which none may hold, or it is not printed", like="towed", default=[])


class Wording(Conditional):
    """One of several wordings."""

    text: Text = needed("what is printed; facts stand in braces", like="{chocks} STOWED")


_WORDINGS = _one_or_list("words, or a list of them with conditions", "Read, then do.", "object")
Wordings: TypeAlias = Annotated[list[Wording], BeforeValidator(_as_wordings), _WORDINGS]


class LineWords(Conditional):
    """One line of a group, of any kind."""

    name: Text = entry("what this line is called in these files; each has its own", like="cords", default="")
    challenge: Text = entry(
        "the words on the thing, at the left; its answer beside it", like="Chocks, counted", default=""
    )
    answer: Text = entry("what must be seen, at the right", like="{chocks} STOWED", default="")
    detail: Text = entry("small print under a challenge", like="raised: to maneuver", default="")
    step: Text = entry("one command, in place of a challenge", like="Shut the propane valve.", default="")
    numbered: Truth = entry("a step with a number", default=True)
    indented: Truth = entry("a step under the condition before it", default=False)
    box: Text = entry("the question of a frame, in place of a challenge", like="Smoke?", default="")
    signal: Literal["DANGER", "WARNING", "CAUTION", "NOTICE"] | None = entry("the word over a box")
    below: list[Text] = entry("lines in a box, under its question", like="[Everybody out.]", default=[])
    ruled: Text = entry("the name of a line to fill in by hand", like="Towed by", default="")
    note: Text = entry("a sentence in small print", like="The key is in the bay.", default="")
    killer: Truth = entry("no going without it; such lines come first in their group", default=False)
    if_not: IfNot | None = entry("what follows where it is not so", like="fix before moving")
    reason: Text = entry("why, printed beside the card", like="One was lost on the way.", default="")


def _whole(line: LineWords) -> None:
    known = [kind for kind in KINDS if kind in type(line).model_fields]
    kinds = [kind for kind in known if getattr(line, kind)]
    if len(kinds) != 1:
        raise written_problem(f"a line is one of: {', '.join(known)}")
    if bool(line.answer) != bool(line.challenge):
        raise written_problem("a challenge and its answer belong together")
    if not line.name and kinds != ["computed"]:
        raise written_problem("a line needs a name of its own, like 'name: chocks'")


class Entry(LineWords):
    """A line of a card that comes with the program: some are computed, some rest on a source."""

    computed: Text = ""
    source: Text = "practice"

    @model_validator(mode="after")
    def _is_one_thing(self) -> Self:
        _whole(self)
        return self


class OwnEntry(LineWords):
    """A line of a card of the owner's own."""

    @model_validator(mode="after")
    def _is_one_thing(self) -> Self:
        _whole(self)
        return self


class OwnLine(LineWords):
    """What is different on a card of the ring: a line of another wording, left out, or added."""

    name: Text = needed("a line of the card, or a new name for a line of your own", like="cords")
    after: Text = entry("for a line of your own: the line it stands after", like="cords", default="")
    off: Truth = entry("for a line of the card: it is not printed", default=False)


_LineT = TypeVar("_LineT", bound=LineWords)


class _GroupOf(Conditional, Generic[_LineT]):
    name: Text = needed("what this group is called in these files", like="walk")
    heading: Wordings = entry("printed above the group", like="Walk, from the door", default=[])
    ticks: Count = entry("columns of boxes to tick, one for each stop", default=0)
    killers_first: Truth = entry("killer lines come first in the group", default=True)
    if_not: IfNot | None = entry("what follows for lines that say no other", like="nothing")
    lines: Annotated[list[_LineT], MinLen(1)] = needed("the lines between two pauses, nine at the most")


class Group(_GroupOf[Entry]):
    """The lines between two pause points."""


class OwnGroup(_GroupOf[OwnEntry]):
    """A group of a card of the owner's own."""


_GroupT = TypeVar("_GroupT", Group, OwnGroup)


class _SideOf(Conditional, Generic[_GroupT]):
    use: Wordings = entry("how the side is used, under its title", like="Read, then do.", default=[])
    groups: Annotated[list[_GroupT], MinLen(1)] = needed("the groups of the side, in print order")
    end: Text = entry("the call that ends the card", like="Boat: complete", default="")


class SideWords(_SideOf[Group]):
    """One side of a card: how it is used, its groups in print order, and the call that ends it.

    One that ``goes_on`` with the side before takes in the rest of it; how it is used stands beside its title.
    """

    goes_on: Text = ""

    @model_validator(mode="after")
    def _says_how_it_is_used(self) -> Self:
        if bool(self.use) == bool(self.goes_on):
            raise ValueError(
                "say how this side is used: write 'use', or 'goes on' where it goes on with the one before"
            )
        return self


class OwnSide(_SideOf[OwnGroup]):
    """A side of a card of the owner's own."""


class CardReason(Conditional):
    """Why something on the card is so that is not told by one line."""

    name: Text
    reason: Text
    source: Text = "practice"


Family: TypeAlias = Literal["drive", "stop", "help"]


class CardWords(SpacedRecord):
    """The words of one card; ``so`` ends the list of what must not change."""

    card: Text
    number: Text
    family: Family = "help"
    title: Text
    wrong_as_soon_as: Wordings = Field(default_factory=list)
    or_else: Text = ""
    so: Wordings = Field(default_factory=list)
    sides: list[SideWords]
    reasons: list[CardReason] = Field(default_factory=list)


class PageWords(SpacedRecord):
    """The words of a page of the binder: how it is used, and its groups in print order."""

    page: Text
    title: Text
    intro: Wordings = Field(default_factory=list)
    groups: list[Group]


def _own_number(value: object) -> int:
    if isinstance(value, str) and value.isdecimal() and FIRST_NUMBER <= int(value[:3]) <= LAST_NUMBER:
        return int(value)
    text = "is no number of a card of your own; write one from"
    raise written_problem(f"'{value}' {text} {FIRST_NUMBER} to {LAST_NUMBER}, like '{FIRST_NUMBER}'")


_NUMBER = Form("a count", "13", {"type": ["integer", "string"], "minimum": 13, "pattern": "^[0-9]{2}$"})
OwnNumber: TypeAlias = Annotated[int, PlainValidator(_own_number), _NUMBER]


class OwnCard(SpacedRecord):
    """A file of the owner's own words: ``lines`` change a card of the ring, ``sides`` make a card."""

    card: Text = needed("the card of the ring that is changed, or a new name", like="leaving")
    lines: list[OwnLine] = entry("what is different on a card of the ring", default=[])
    number: OwnNumber | None = entry(f"number of a card of your own, {FIRST_NUMBER} or more", like="13")
    title: Text = entry("title of a card of your own", like="Launching the boat", default="")
    family: Family = entry("which corner of it is cut, with the cards of its kind", default="help")
    wrong_as_soon_as: Wordings = entry("what, changed, makes it wrong", like="the ramp", default=[])
    sides: list[OwnSide] = entry("front and back of a card of your own", default=[])
    sets: Names = entry("sets that have it besides everything", like="codriver", default=[])

    @model_validator(mode="after")
    def _is_one_thing(self) -> Self:
        if bool(self.lines) == bool(self.sides):
            text = "a file has 'lines', which change a card of the ring, or 'sides', which make a card"
            raise written_problem(f"{text} of your own")
        new = {"number", "title", "family", "wrong_as_soon_as", "sets"} & self.model_fields_set
        if self.lines and new:
            said = ", ".join(f"'{name.replace('_', ' ')}'" for name in sorted(new))
            raise written_problem(f"{said} cannot be changed on a card of the ring; only its lines can")
        if self.sides and not (self.number and self.title):
            raise written_problem("a card of your own needs a number and a title, like 'number: 13'")
        return self
