"""The owner's own words: put in the place of a card's lines, added to them, or a card by themselves."""

from collections.abc import Iterator
from typing import TypeVar

from binder import templates_folder
from binder.cards.procedures.conditions import CONDITION_NAMES
from binder.cards.procedures.facts import FACT_NAMES
from binder.cards.procedures.reading import card_words
from binder.models.fields import Field
from binder.models.load import Profile
from binder.models.procedures import (
    KINDS,
    CardReason,
    CardWords,
    Conditional,
    Entry,
    Group,
    LineWords,
    OwnCard,
    OwnLine,
    OwnSide,
    SideWords,
    Wording,
)

OWN = "owner's own line"
"""What a reason names as its source where the owner wrote the line."""

LEGEND, OWN_CARD = "*\u00a0Owner's own words.", "Owner's own card."
"""What stands in the use line of a side where a line, or the whole card, is the owner's own."""

_WordsT = TypeVar("_WordsT", bound=Conditional)


class ChangedEntry(Entry):
    """A line in the owner's own words; ``was`` is the line it takes the place of, where it does."""

    was: Entry | None = None
    after: str = ""
    is_left_out: bool = False


def changed_cards() -> tuple[str, ...]:
    """Name the cards whose lines an owner may change; the day sheets are made from the plan."""
    return tuple(sorted(file.stem for file in (templates_folder() / "procedures").glob("*.yaml")))


def with_own_words(words: CardWords, profile: Profile) -> CardWords:
    """Put the owner's own words for a card in their places."""
    own = [one.words.lines for one in profile.own_cards if one.words.card == words.card]
    if not own:
        return words
    sides = [
        side.model_copy(update={"groups": [_changed(group, own[0]) for group in side.groups]})
        for side in words.sides
    ]
    return words.model_copy(update={"sides": sides})


def _changed(group: Group, lines: list[OwnLine]) -> Group:
    entries = list(group.lines)
    for line in lines:
        at = next((at for at, one in enumerate(entries) if one.name == (line.after or line.name)), None)
        if at is None:
            continue
        if line.after:
            entries.insert(_behind(entries, at), _merged(Entry.model_construct(source=OWN), line))
        else:
            entries[at] = _merged(entries[at], line, was=entries[at])
    return group.model_copy(update={"lines": entries})


def _behind(entries: list[Entry], at: int) -> int:
    """Where a line is added: behind those that were added there before, and what hangs on them."""
    ahead, place = {entries[at].name}, at + 1
    while place < len(entries) and getattr(entries[place], "after", "") in ahead - {""}:
        ahead.add(entries[place].name)
        place += 1
    return place


def _merged(entry: Entry, line: OwnLine, was: Entry | None = None) -> ChangedEntry:
    said = {name: getattr(line, name) for name in line.model_fields_set - {"off"}}
    return ChangedEntry.model_construct(**(dict(entry) | said), was=was, is_left_out=line.off)


def own_cards(profile: Profile) -> Iterator[tuple[OwnCard, CardWords]]:
    """Give the owner's own cards as the words of cards, by their numbers."""
    files = [one for one in profile.own_cards if one.words.sides]
    for one in sorted(files, key=lambda file: file.words.number or 0):
        yield one.words, _as_card(one.words)


def _as_card(own: OwnCard) -> CardWords:
    why = CardReason.model_construct(name="This card", reason="In its owner's own words.", source=OWN)
    return CardWords.model_construct(
        card=own.card,
        number=str(own.number),
        family=own.family,
        title=own.title,
        wrong_as_soon_as=own.wrong_as_soon_as,
        sides=[_as_side(side) for side in own.sides],
        reasons=[why],
    )


def _as_side(side: OwnSide) -> SideWords:
    lines = [[_as(Entry, line, source=OWN) for line in group.lines] for group in side.groups]
    groups = [_as(Group, group, lines=made) for group, made in zip(side.groups, lines, strict=True)]
    use = [_as(Wording, one, text=f"{OWN_CARD} {one.text}") for one in side.use]
    return _as(SideWords, side, groups=groups, use=[*use, Wording(text=OWN_CARD)])


def _as(kind: type[_WordsT], words: Conditional, **changed: object) -> _WordsT:
    return kind.model_construct(**(dict(words) | changed))


def lines_of(card: str) -> dict[str, Entry]:
    """Give the lines of a card of the ring by their names."""
    groups = (group for side in card_words(card).sides for group in side.groups)
    return {entry.name: entry for group in groups for entry in group.lines if entry.name}


def kind_of(entry: Entry) -> str:
    """Say what a line is."""
    return next(kind for kind in KINDS if getattr(entry, kind))


def said_of(line: LineWords) -> str:
    """Give what an owner wrote of a line, for reading back."""
    said = [line.challenge, line.answer, line.step, line.box, *line.below, line.ruled, line.note, line.detail]
    if line.killer:
        said.append("killer")
    if line.if_not:
        said.append(f"if not: {line.if_not}")
    is_off = isinstance(line, OwnLine) and line.off
    return "left out" if is_off else ": ".join(one for one in said if one) or "other conditions"


def what_may_be_named() -> Iterator[Field]:
    """List the lines that a file of the owner's own words may name, and all conditions and facts."""
    for card in changed_cards():
        for name, line in lines_of(card).items():
            kind = kind_of(line)
            said = f"{getattr(line, kind)}: {line.answer}".rstrip(": ")
            yield _nameable(f"{card}, line {name}", f"a {kind}", said)
    conditions, facts = ", ".join(sorted(CONDITION_NAMES)), ", ".join(sorted(FACT_NAMES))
    yield _nameable("conditions, for when and unless", "one of these", conditions)
    yield _nameable("facts, in {braces}", "one of these", facts)


def _nameable(path: str, form: str, meaning: str) -> Field:
    return Field("what cards/NAME.yaml may name", path, form, meaning, "", "", is_needed=False)
