"""What the owner's own words take away from what a card stops: for the list of what asks for attention."""

from collections.abc import Iterator
from pathlib import PurePath

from binder.assessment.assess import Assessment
from binder.assessment.entries.own_words import OwnChange
from binder.cards.procedures.lines import applies, if_not, named, stops
from binder.cards.procedures.reading import card_words
from binder.models.load import OwnCardFile
from binder.models.procedures import Entry, Group, OwnLine

_GRAVEST_FIRST = ("do not move", "fix before moving", "go", "nothing")


def changes_of_weight(assessment: Assessment, printed: set[str]) -> Iterator[OwnChange]:
    """Tell, on the cards that are printed, each line that stops less, and each killer line worded anew."""
    for file in assessment.profile.own_cards:
        if file.words.lines and file.words.card in printed:
            yield from _of_card(file, assessment)


def _of_card(file: OwnCardFile, assessment: Assessment) -> Iterator[OwnChange]:
    words, name = card_words(file.words.card), "/".join(PurePath(file.places.file).parts[-2:])
    sides = [side for side in words.sides if applies(side, assessment)]
    groups = [group for side in sides for group in side.groups if applies(group, assessment)]
    entries = {entry.name: (entry, group) for group in groups for entry in group.lines}
    for at, line in enumerate(file.words.lines):
        entry, group = entries.get(line.name, (None, None))
        if entry and group and not line.after and applies(entry, assessment):
            where = f"{name}, line {file.places.keys['lines', at, 'name'].line}"
            card, said = f"{words.number} {words.title}", named(entry, assessment)
            if how := _how(entry, group, line):
                yield OwnChange((words.card, line.name), card, said, how, where)


def _how(entry: Entry, group: Group, line: OwnLine) -> str:
    """In which way a line says less than it did; nothing where it does not."""
    said = line.model_fields_set
    if line.off:
        return "left out" if stops(entry, group) else ""
    changed = {name: getattr(line, name) for name in said & {"killer", "if_not"}}
    now = entry.model_copy(update=changed)
    is_weaker = entry.killer and not now.killer
    if entry.challenge:
        is_weaker |= _GRAVEST_FIRST.index(if_not(now, group)) > _GRAVEST_FIRST.index(if_not(entry, group))
    if is_weaker or (stops(entry, group) and said & {"when", "unless"}):
        return "weaker"
    return "reworded" if entry.killer and said & {"challenge", "answer"} else ""
