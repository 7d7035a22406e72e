"""Which figures stand on paper, and how those found by one rule share an entry of the numbers page."""

import re
from dataclasses import dataclass

from binder.assessment.assessment import Assessment
from binder.assessment.figures import Figure
from binder.assessment.weights.states import trip_states

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
"""Keys taken apart, the narrowest shape first: whose number it is, its name, and where in a row of cells."""

_SUMMED = {"departure", "everything_full", "heaviest"}
"""States whose loads are explained one by one; the others follow the same rule."""


@dataclass(frozen=True)
class Told:
    """A figure with the words that tell it from others of its entry."""

    whose: str
    figure: Figure


@dataclass(frozen=True)
class Entry:
    """Figures of one name that are found by one rule, from sources of one kind."""

    subject: str
    name: str
    figures: tuple[Told, ...]

    @property
    def first(self) -> Figure:
        """The figure whose rule, kind and source stand for all."""
        return self.figures[0].figure


def printed_entries(assessment: Assessment) -> tuple[Entry, ...]:
    """Group the figures for the numbers page."""
    groups: dict[tuple[str, ...], list[Told]] = {}
    skipped = {state.key for state in trip_states(assessment.profile)} - _SUMMED
    for figure in assessment.ledger.figures.values():
        if not _is_left_to_summary(figure.key, skipped):
            subject, name, whose = _taken_apart(figure.key)
            place = (subject, name, figure.kind, figure.rule, figure.source)
            groups.setdefault(place, []).append(Told(whose, figure))
    entries = [Entry(place[0], place[1], tuple(told)) for place, told in groups.items()]
    subjects = list(dict.fromkeys(entry.subject for entry in entries))
    names = list(dict.fromkeys((entry.subject, entry.name) for entry in entries))
    return tuple(
        sorted(
            entries,
            key=lambda entry: (subjects.index(entry.subject), names.index((entry.subject, entry.name))),
        )
    )


def _is_left_to_summary(key: str, skipped: set[str]) -> bool:
    parts = key.split(".")
    if parts[0] == "supplies":
        return any(part.startswith("day_") for part in parts)
    return parts[0] == "weights" and any(part in skipped for part in parts)


def _taken_apart(key: str) -> tuple[str, str, str]:
    """Subject, name, and whose it is."""
    match = next((found for shape in _SHAPES if (found := shape.fullmatch(key))), None)
    if match is None:
        return key, key, ""
    subject, _, rest = match["start"].partition(".")
    cell = match.groupdict().get("cell", "")
    return subject, match["name"], ".".join(part for part in (rest, cell) if part)
