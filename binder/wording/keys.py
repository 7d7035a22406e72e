"""Keys taken apart: whose a number is, under which name it stands, and which numbers are found alike."""

import re
from collections.abc import Iterable
from dataclasses import dataclass

from binder.assessment.ledger import Figure, Key
from binder.wording.measures import System
from binder.wording.sentences import Told, key_text, told

_CELL = re.compile(r"(?P<start>.+)\.(?P<name>fill_at)\.(?P<cell>.+)")
_WATER = re.compile(r"(?P<start>water\.[^.]+(?:\.[^.]+)?)\.(?P<cell>full|part|empty)\.(?P<name>[^.]+)")
_STAY = re.compile(
    r"(?P<start>sitting_out)\.(?P<cell>.+)\.(?P<name>days|ends_first|ends_next|hours|full|half|quarter)"
)
_TIRE = re.compile(r"(?P<start>tires\.[^.]+\.[^.]+)\.(?P<cell>[^.]+)\.(?P<name>made|age|tread)")
_DAY = re.compile(r"(?P<start>route\.day_\d+(?:\.leg_\d+)?)\.(?P<name>.+)")
_AXLE = re.compile(r"(?P<start>(?:tires|weights)\.[^.]+\.[^.]+)\.(?P<name>.+)")
_WHOLE = re.compile(r"(?P<start>weights\.combination)\.(?P<name>.+)")
_DEVICE = re.compile(r"(?P<start>rig\.warning_devices\..+)\.(?P<name>distance|paces)")
_ANY = re.compile(r"(?P<start>[^.]+(?:\.[^.]+(?=\.))?)\.(?P<name>.+)")
_SHAPES = (_CELL, _WATER, _STAY, _TIRE, _DAY, _WHOLE, _AXLE, _DEVICE, _ANY)
"""The narrowest shape first."""


@dataclass(frozen=True)
class Owned:
    """A figure with the words that tell it from others of its entry."""

    whose: str
    figure: Figure
    told: Told

    @property
    def axle(self) -> str:
        """Whose it is, without the last part: of a cell the axle."""
        return self.whose.rpartition(".")[0]


@dataclass(frozen=True)
class Entry:
    """Figures of one name that are found by one rule, from sources of one kind."""

    topic: str
    name: str
    figures: tuple[Owned, ...]


def entries_of(figures: Iterable[Figure], units: System) -> tuple[Entry, ...]:
    """Group figures that are found alike, topics and names in the order they first stand in."""
    groups: dict[tuple[str, ...], list[Owned]] = {}
    for figure in figures:
        words = told(figure, units)
        topic, name, whose = _taken_apart(words.key)
        place = (topic, name, figure.basis, words.rule, words.sources)
        groups.setdefault(place, []).append(Owned(whose, figure, words))
    entries = [Entry(place[0], place[1], tuple(owned)) for place, owned in groups.items()]
    topics = list(dict.fromkeys(entry.topic for entry in entries))
    names = list(dict.fromkeys((entry.topic, entry.name) for entry in entries))
    return tuple(
        sorted(entries, key=lambda entry: (topics.index(entry.topic), names.index((entry.topic, entry.name))))
    )


def subject_text(key: Key) -> str:
    """Whose number it is, in words, without its topic and its name."""
    words = ", ".join(part.replace("_", " ") for part in key_text(key).split(".")[1:3])
    return f"{words[:1].upper()}{words[1:]}"


def _taken_apart(key: str) -> tuple[str, str, str]:
    """Topic, name, and whose it is."""
    match = next((found for shape in _SHAPES if (found := shape.fullmatch(key))), None)
    if match is None:
        return key, key, ""
    topic, _, rest = match["start"].partition(".")
    cell = match.groupdict().get("cell", "")
    return topic, match["name"], ".".join(part for part in (rest, cell) if part)
