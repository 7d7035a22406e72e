"""Spares used and bought by the log: what is left of what the profile notes, and what it does not list."""

from collections.abc import Iterator, Sequence
from datetime import date
from typing import NamedTuple, cast

from binder.assessment.spares.stock import Amount, amount_of, is_volume
from binder.models.load import Profile
from binder.models.log_entries import Entry, Spare, words_of_name
from binder.models.rig import Carried, Rig
from binder.quantities import VOLUME


class Change(NamedTuple):
    """What an entry of the log changed: in its own words, and by how much in those of the profile.

    ``item`` is the place among the spares of the profile; None where none has such a name.
    """

    what: str
    word: str
    amount: str
    on: date
    item: int | None = None
    by: float = 0.0


class Inventory(NamedTuple):
    """The rig with what is left of its spares, those spares as the profile notes them, and each change."""

    rig: Rig
    noted: Sequence[Carried]
    changes: tuple[Change, ...] = ()

    def of(self, item: Carried) -> list[Change]:
        """Changes of one entry of the spares."""
        return [one for one in self.changes if one.item is not None and self.rig.spares[one.item] is item]

    def as_noted(self, item: Carried) -> Carried:
        """An entry of the spares as the profile has it."""
        return next((old for new, old in zip(self.rig.spares, self.noted, strict=True) if new is item), item)

    @property
    def unlisted(self) -> list[Change]:
        """Changes of what is listed under no such name."""
        return [one for one in self.changes if one.item is None]

    def lacking(self, item: Carried) -> str:
        """How much of an entry was used and not bought again; empty where nothing is."""
        by = -sum(one.by for one in self.of(item))
        return Amount(round(by, 3), amount_of(item.quantity or "1").unit).text if by > 0 else ""


def inventory(profile: Profile) -> Inventory:
    """Take off what was used since it was noted, and add what was bought."""
    spares = list(profile.rig.spares)
    changes = [one for entry in profile.logged("spare") for one in _changes(entry, spares)]
    if not changes:
        return Inventory(profile.rig, profile.rig.spares)
    return Inventory(profile.rig.model_copy(update={"spares": spares}), profile.rig.spares, tuple(changes))


def _changes(entry: Entry, spares: list[Carried]) -> Iterator[Change]:
    said = cast("Spare", entry.said)
    is_used, found = said.change == "used", _meant(said, spares)
    change = Change(said.what, said.change, said.quantity or "1", entry.at.date())
    if not found or (len(found) > 1 and not is_used):
        yield change
        return
    # Used, of several: nobody knows of which, so of each.
    for at in found:
        item = spares[at]
        if _is_since(entry, item, is_used=is_used) and (is_used or item.quantity is not None):
            held = amount_of(item.quantity or "1")
            number = _in_unit(change.amount, held)
            by = -min(held.number, number) if is_used else number
            left = Amount(round(held.number + by, 3), held.unit)
            spares[at] = item.model_copy(update={"quantity": left.text})
            yield change._replace(item=at, by=by)


def _is_since(entry: Entry, item: Carried, *, is_used: bool) -> bool:
    """Tell whether it was changed since it came aboard; by an unsure clock only what was used is."""
    if item.since is None:
        return True
    return is_used if entry.is_clock_unsure else entry.at.date() >= item.since


def _in_unit(text: str, held: Amount) -> float:
    """A number in the unit of what is held; of another measure all that is held where it was used."""
    of_volume = is_volume(f"1 {held.unit}")
    if of_volume and is_volume(text):
        return float((VOLUME.read(text) / VOLUME.read(f"1 {held.unit}")).to("").magnitude)
    return held.number if of_volume or is_volume(text) else amount_of(text).number


def _meant(said: Spare, spares: Sequence[Carried]) -> list[int]:
    """Places of the entries that are meant: by the same words, else by all words of one in the other."""
    words = words_of_name(said.what)
    fitting = [
        (at, words_of_name(one.names or one.what), words_of_name(one.what))
        for at, one in enumerate(spares)
        if said.vehicle is None or one.serves is None or one.serves == said.vehicle
    ]
    same = [at for at, named, listed in fitting if words in {named, listed}]
    return same or [at for at, _, listed in fitting if words and (words <= listed or listed <= words)]
