"""What is wrong with the owner's own words that the form of their file does not show."""

from collections.abc import Iterable, Iterator, Mapping

from binder.cards.procedures.own_words import changed_cards, kind_of, lines_of
from binder.cards.procedures.reading import mappings, misnamed, near_hint
from binder.cards.sets import sets
from binder.models.located_yaml import Located, Plain
from binder.problems import Path, Problem

_DAY_SHEET = "day_sheet"
_ABOUT_PLACE = {"name", "after", "off"}
_OF_KIND: Mapping[str, tuple[str, ...]] = {
    "challenge": ("challenge", "answer", "detail", "killer", "if not"),
    "step": ("step", "numbered", "indented"),
    "box": ("box", "below", "signal"),
    "ruled": ("ruled",),
    "note": ("note",),
}
"""What can be said of a line, by what it is."""

_LONGEST: Mapping[str, int] = (
    dict.fromkeys(("name", "card"), 40)
    | dict.fromkeys(("title", "heading", "challenge", "answer", "end", "ruled"), 60)
    | dict.fromkeys(("step", "box", "below", "detail", "wrong as soon as"), 160)
    | dict.fromkeys(("use", "note", "reason"), 400)
)
"""Letters of a text, by its key; a word that is too wide for its place is told by the layout."""

_MOST_TICKS = 6


def own_problems(files: Iterable[Located]) -> Iterator[Problem]:
    """Tell what is wrong with the words of each file, as far as it can be read."""
    first: dict[tuple[str, str], str] = {}
    for located in files:
        data = located.data
        if isinstance(data, dict):
            yield from misnamed(located)
            yield from _too_long(located)
            yield from _card_problems(located, data)
            yield from _set_problems(located, data.get("sets"))
            for key in ("card", "number"):
                value = data.get(key)
                if isinstance(value, str) and first.setdefault((key, value), located.file) != located.file:
                    text = f"{key} '{value}' stands in {first[key, value]}, too; one file holds it"
                    yield located.problem((key,), text)


def _too_long(located: Located) -> Iterator[Problem]:
    """Tell texts that no place on a card is meant for."""
    for path, entry in mappings(located.data):
        for key, value in entry.items():
            longest = _LONGEST.get(key if key != "text" else str(path[-2]), 0)
            listed = enumerate(value) if isinstance(value, list) else [(-1, value)]
            for at, text in listed:
                if longest and isinstance(text, str) and len(text) > longest:
                    place = (*path, key) if at < 0 else (*path, key, at)
                    said = f"this has {len(text)} letters; '{key}' has room for {longest}; shorten it"
                    yield located.problem(place, said)
        if str(entry.get("ticks", "0")).isdecimal() and int(str(entry.get("ticks", "0"))[:9]) > _MOST_TICKS:
            text = f"there is room for {_MOST_TICKS} columns of boxes, like 'ticks: 4'"
            yield located.problem((*path, "ticks"), text)


def _card_problems(located: Located, data: dict[str, Plain]) -> Iterator[Problem]:
    card, known, lines = data.get("card"), changed_cards(), data.get("lines")
    if card in known and isinstance(lines, list):
        yield from _line_problems(located, lines, str(card))
    elif isinstance(card, str) and lines and card not in known:
        hint = near_hint(card, known) or f"the cards with lines to change are: {', '.join(known)}"
        text = f"there is no card '{card}' whose lines can be changed"
        yield located.problem(("card",), text, hint=hint)
    elif data.get("sides") and card in (*known, _DAY_SHEET):
        text = f"'{card}' is a card of the ring; name yours otherwise, or change that one by its 'lines'"
        yield located.problem(("card",), text)


def _line_problems(located: Located, lines: list[Plain], card: str) -> Iterator[Problem]:
    entries, own = lines_of(card), set[str]()
    for at, line in enumerate(lines):
        said = {key: one for key, one in line.items() if one is not None} if isinstance(line, dict) else {}
        path: Path = ("lines", at)
        if not isinstance(name := said.get("name"), str):
            continue  # The form of the file tells it.
        if "after" in said:
            known = {*entries, *own}
            yield from _added(located, path, said, known)
            own.add(name)
            if name in entries:
                text = f"'{name}' is a line of this card, and is not moved; give your own another name"
                yield located.problem((*path, "name"), text)
        elif name in entries:
            yield from _changed(located, path, said, kind_of(entries[name]))
        else:
            hint = near_hint(name, entries) or "a line of your own says where it stands, like 'after: chocks'"
            yield located.problem((*path, "name"), f"there is no line '{name}' on card {card}", hint=hint)


def _added(located: Located, path: Path, line: Mapping[str, Plain], known: set[str]) -> Iterator[Problem]:
    after, kinds = line["after"], [kind for kind in _OF_KIND if line.get(kind)]
    if isinstance(after, str) and after not in known:
        hint = near_hint(after, known) or "a line of your own stands below the one it follows"
        text = f"there is no line '{after}' on the card, or above this one"
        yield located.problem((*path, "after"), text, hint=hint)
    if "off" in line:
        text = "a line of your own is left out by deleting it here"
        yield located.problem((*path, "off"), text, at_key=True)
    if len(kinds) != 1:
        text = f"a line of your own is one of: {', '.join(_OF_KIND)}"
        hint = "write it like 'challenge: Hatch' with 'answer: LOCKED'"
        yield located.problem((*path, "name"), text, hint=hint)
    elif kinds == ["challenge"] and not line.get("answer"):
        text = "a challenge needs its answer, like 'answer: LOCKED'"
        yield located.problem((*path, "challenge"), text, at_key=True)
    else:
        yield from _strange(located, path, line, kinds[0])


def _changed(located: Located, path: Path, line: Mapping[str, Plain], kind: str) -> Iterator[Problem]:
    name, said = line["name"], sorted(set(line) - _ABOUT_PLACE)
    if str(line.get("off", "")).lower() in {"yes", "true"}:
        if said:
            text = f"'{name}' is off, so nothing else can be said of it; take out {', '.join(said)}"
            yield located.problem((*path, "off"), text)
    elif not said:
        text = f"nothing is different for '{name}'; write what is, like 'answer: LOCKED', or 'off: yes'"
        yield located.problem((*path, "name"), text)
    else:
        yield from _strange(located, path, line, kind)


def _strange(located: Located, path: Path, line: Mapping[str, Plain], kind: str) -> Iterator[Problem]:
    """Tell what cannot be said of a line of this kind, and what says nothing."""
    known = _OF_KIND[kind]
    for key, value in line.items():
        if key in known and value == "" and key in {kind, "answer"}:
            yield located.problem((*path, key), f"this {key} says nothing; write it, or leave '{key}' out")
        elif key not in known and any(key in others for others in _OF_KIND.values()):
            text = f"'{line['name']}' is a {kind}, which has no '{key}'; it has: {', '.join(known)}"
            yield located.problem((*path, key), text, at_key=True)


def _set_problems(located: Located, given: Plain) -> Iterator[Problem]:
    names = [given] if isinstance(given, str) else given if isinstance(given, list) else []
    for at, name in enumerate(names):
        if isinstance(name, str) and name not in sets():
            path: Path = ("sets", at) if isinstance(given, list) else ("sets",)
            hint = near_hint(name, sets()) or f"the sets are: {', '.join(sets())}"
            yield located.problem(path, f"there is no set '{name}'", hint=hint)
