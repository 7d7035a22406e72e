"""Faults of the log that no repair names: each with who found it, and the card it is told on."""

from collections.abc import Iterator

from binder.assessment.ledger import Fact, Finding, Ledger, Phrase
from binder.assessment.log import kinds
from binder.models.load import Profile
from binder.models.log_entries import Entry

_OF_TIRES, _BEFORE_LEAVING = "3", "1"
"""Cards that tell a fault which was entered on none: of a tire, and of anything else."""


def assess_faults(profile: Profile, ledger: Ledger) -> None:
    """Find each fault that is open."""
    for entry in open_faults(profile):
        ledger.find(_found(entry))


def open_faults(profile: Profile) -> Iterator[Entry]:
    """Give the faults that no repair names."""
    repaired = {entry.written.get("fault") for entry in profile.logged("repair")}
    yield from (one for one in profile.logged("fault") if one.id not in repaired)


def _found(entry: Entry) -> Finding:
    position, vehicle = (entry.written.get(name) for name in ("position", "vehicle"))
    place = kinds.PLACES.get((bool(vehicle), bool(position)))
    facts: dict[str, Fact] = {
        "what": str(entry.written["what"]),
        "found": entry.at.date(),
        "who": Phrase(kinds.BY_WHOM, {"who": entry.who}) if entry.who else "",
        "place": Phrase(place, {"vehicle": str(vehicle), "position": str(position)}) if place else "",
        "clock": kinds.CLOCK_UNSURE if entry.is_clock_unsure else "",
        "card": card_of(entry),
    }
    return Finding(kinds.OPEN_FAULT, kinds.OPEN_FAULT.of(entry.id), facts)


def card_of(entry: Entry) -> str:
    """The card it was entered on; a day sheet is of a day that may be over."""
    if entry.card and "." not in entry.card:
        return entry.card
    return _OF_TIRES if entry.written.get("position") else _BEFORE_LEAVING
