"""What a printing in hand says otherwise than one of today would: which parts, what moved, and why."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from functools import cache, partial
from typing import TypeAlias

from binder.assessment.assess import Assessment
from binder.assessment.ledger import Figure
from binder.cards.assessed import assessed
from binder.cards.blocks import BinderDocument, Card, Page, Part
from binder.cards.codes import cover_code, part_key, part_title
from binder.cards.order import binder_document, ring
from binder.cards.sets import printed_in
from binder.models.load import Profile
from binder.models.located_yaml import Plain
from binder.models.log_entries import Entry
from binder.printed.record import InHand, Printed, Printing, Shown
from binder.printed.touched import (
    LOG,
    Touched,
    entries,
    files_of,
    is_log,
    log_before,
    log_touched,
    taken_back,
    touched,
    with_entries,
)
from binder.wording.record import figure_name, plain_value, worse_side
from binder.wording.sentences import key_text
from binder.wording.words import Words, style_of

COVER, COVER_TITLE = "cover", "Cover"
_Said: TypeAlias = tuple[Mapping[str, Plain], tuple[Entry, ...]]
"""What an owner's files say, and the log."""

_OF_AGES = frozenset({"tire_register", "service_due"})
"""Pages that say how old things are and when they are due, which every day changes; no other may age."""


@dataclass(frozen=True)
class Moved:
    """A figure that was printed and is another now; ``is_safe``: the printed one asks for no less."""

    name: str
    was: str
    now: str
    is_safe: bool


@dataclass(frozen=True)
class Difference:
    """A part that is not as it is in hand: ``was`` None where it is new, ``now`` empty where it is gone.

    ``because`` are the entries any one of which makes it so; ``by_date``: the day alone does, ``by_program``:
    a newer binder says it otherwise.
    """

    name: str
    title: str
    was: InHand | None
    printed: date | None
    now: str
    moved: tuple[Moved, ...] = ()
    because: tuple[Touched, ...] = ()
    by_date: bool = False
    by_program: bool = False
    part: Part | None = None

    @property
    def is_aged(self) -> bool:
        """A page of ages that only tells others than it did, which its own date says."""
        is_of_ages = isinstance(self.part, Page) and self.part.name in _OF_AGES
        return is_of_ages and self.by_date and not self.by_program and not self.because

    @property
    def is_void(self) -> bool:
        """What is in hand is not to be acted from.

        Figures that all moved to the safe side are not enough: a line without one may have changed with them.
        """
        return self.was is not None and not self.is_aged


@dataclass(frozen=True)
class Differences:
    """What differs of one set, and what was touched and moved nothing."""

    set: str
    trip: str
    every: tuple[Difference, ...]
    idle: tuple[Touched, ...] = ()
    count: int = 0

    @property
    def due(self) -> tuple[Difference, ...]:
        """Those that are worth printing: a page that only aged is not."""
        return tuple(one for one in self.every if not one.is_aged)


def parts_of(document: BinderDocument) -> dict[str, Part]:
    """Parts of a printing that have a code, by their keys."""
    return {part_key(part): part for part in (*document.parts, *document.desk)}


def codes_of(document: BinderDocument) -> dict[str, str]:
    """Codes of all parts, the cover's too."""
    return {COVER: cover_code(document)} | {key: part.code for key, part in parts_of(document).items()}


def public_document(assessment: Assessment, name: str) -> BinderDocument:
    """A set as it is without anything private, its cards not laid out."""
    plain = assessment._replace(profile=replace(assessment.profile, private=None))
    document = binder_document(plain, ring(plain))
    return printed_in(name, document, document.parts)


def figures_shown(part: Part) -> tuple[str, ...]:
    """Keys of the figures on a part."""
    return tuple(sorted(set(part.figures))) if isinstance(part, Card) else ()


def shown(assessment: Assessment) -> dict[str, Shown]:
    """Every figure as it would be printed, by its key."""
    words = Words(style_of(assessment))
    return {key_text(one.key): _shown(one, words) for one in assessment.ledger.entered}


def _shown(figure: Figure, words: Words) -> Shown:
    value, _ = plain_value(figure, words.style)
    return Shown(words.value(figure, ""), str(value) if isinstance(value, float | int) else "")


def differences(assessment: Assessment, printed: Printed, name: str) -> Differences:
    """Compare a set in hand with what would be printed of it today."""
    document = public_document(assessment, name)
    now, in_hand = codes_of(document), printed.in_hand(name)
    parts, figures = parts_of(document), {key_text(one.key): one for one in assessment.ledger.entered}
    why = _Why(assessment, name, now)
    every = []
    for key in dict.fromkeys((*now, *in_hand)):
        one, was = in_hand.get(key, (None, None))
        if was is not None and was.code == now.get(key):
            continue
        part = parts.get(key)
        title = was.title if was else part_title(part) if part else COVER_TITLE
        found = Difference(key, title, was, one.date if one else None, now.get(key, ""), part=part)
        if one is not None and was is not None:
            moved = tuple(moved_figures(one, was, figures, assessment))
            found = replace(why.told(found, one, now.get(key, "")), moved=moved)
        every.append(found)
    printings = {id(one): one for one, _ in in_hand.values()}.values()
    return Differences(name, assessment.profile.trip_name, tuple(every), why.idle(printings), len(now))


def moved_figures(
    printing: Printing, was: InHand, figures: Mapping[str, Figure], assessment: Assessment
) -> Iterator[Moved]:
    """Tell which figures of a part that was printed are others now."""
    words = Words(style_of(assessment))
    for key in was.figures:
        old, figure = printing.figures.get(key), figures.get(key)
        if old is None or figure is None:
            continue
        new = _shown(figure, words)
        if new.text != old.text:
            yield Moved(figure_name(figure.key), old.text, new.text, _is_safe(old, new, figure))


def _is_safe(old: Shown, new: Shown, figure: Figure) -> bool:
    """Tell whether what is printed asks for at least what is needed now."""
    if not old.number or not new.number:
        return False
    rise = float(new.number) - float(old.number)
    return (
        rise < 0 if worse_side(figure.kind) == "higher" else rise > 0 and worse_side(figure.kind) == "lower"
    )


class _Why:
    """What moved a part: each change is taken back by itself, and the parts are coded again."""

    def __init__(self, assessment: Assessment, name: str, today: dict[str, str]) -> None:
        self._assessment, self._name, self._today = assessment, name, today
        self._now = entries(files_of(assessment.profile))
        self._log = assessment.profile.log
        self._coded: list[tuple[_Said, dict[str, str]]] = [((self._now, self._log), today)]
        self._tried: dict[int, list[tuple[Touched, dict[str, str]]]] = {}
        self._before: dict[int, dict[str, str]] = {}
        self._on_its_day: dict[int, dict[str, str]] = {}

    def told(self, found: Difference, printing: Printing, now: str) -> Difference:
        """Say which entries make a part differ, and whether its day or a newer binder does without them."""
        was = found.was.code if found.was else ""
        tried = self._try(printing)
        because = tuple(one for one, codes in tried if codes and codes.get(found.name, "") != now)
        is_same_day = printing.date == self._assessment.on
        is_moved_without = self._before[id(printing)].get(found.name, "") != was
        by_date = not is_same_day and is_moved_without
        is_known = is_log(self._log_before(printing), printing.log)
        by_program = is_moved_without and (
            not tried if is_same_day else is_known and self._then(printing, found.name) != was
        )
        # Several may make it so only together.
        every = tuple(one for one, _ in tried) if not by_date and not by_program else ()
        return replace(
            found, because=because or every, by_date=by_date and not by_program, by_program=by_program
        )

    def _then(self, printing: Printing, name: str) -> str:
        """The code of a part as the files and the day of its printing would make it now."""
        if id(printing) not in self._on_its_day:
            profile = self._profile((entries(printing.files), self._log_before(printing)))
            self._on_its_day[id(printing)] = codes_on(profile, self._name, printing.date)
        return self._on_its_day[id(printing)].get(name, "")

    def idle(self, printings: Iterable[Printing]) -> tuple[Touched, ...]:
        """What was changed and moves no part."""
        tried = [pair for one in printings for pair in self._try(one)]
        moving = {one for one, codes in tried if codes != self._today}
        return tuple(dict.fromkeys(one for one, _ in tried if one not in moving))

    def _try(self, printing: Printing) -> list[tuple[Touched, dict[str, str]]]:
        if id(printing) not in self._tried:
            profile, was, log = self._assessment.profile, entries(printing.files), self._log_before(printing)
            changes = touched(was, profile) + log_touched(profile, printing.log)
            self._before[id(printing)] = self._today
            if changes and printing.date != self._assessment.on:
                self._before[id(printing)] = self._codes((was, log))
            elif len(changes) == 1:
                # What one change made differ is what differs.
                self._coded.append(((was, log), {key: one.code for key, one in printing.parts.items()}))
            self._tried[id(printing)] = [
                (
                    one,
                    self._codes(
                        (self._now, log) if one.file == LOG else (taken_back(was, self._now, one), self._log)
                    ),
                )
                for one in changes
            ]
        return self._tried[id(printing)]

    def _codes(self, said: _Said) -> dict[str, str]:
        """Codes of all parts as files and log would make them; nothing where they cannot be read."""
        known = next((codes for tried, codes in self._coded if tried == said), None)
        if known is None:
            known = codes_on(self._profile(said), self._name, self._assessment.on)
            self._coded.append((said, known))
        return known

    def _profile(self, said: _Said) -> Profile | None:
        files, log = said
        profile = with_entries(self._assessment.profile, files)
        return replace(profile, log=log) if profile else None

    def _log_before(self, printing: Printing) -> tuple[Entry, ...]:
        return log_before(self._assessment.profile, printing.log)


def codes_on(profile: Profile | None, name: str, on: date) -> dict[str, str]:
    """Codes of all parts of a set on a day."""
    return codes_of(public_document(assessed(profile, on), name)) if profile else {}


def codes_by_day(assessment: Assessment, name: str) -> Callable[[date], Mapping[str, str]]:
    """Codes of all parts of a set on any day, each day made once."""
    return cache(partial(codes_on, assessment.profile, name))


def void_since(found: Difference, on: date, codes: Callable[[date], Mapping[str, str]]) -> date | None:
    """The day from which a part in hand is not so any more, as far as it can be told."""
    if found.because or found.printed is None or found.was is None:
        return max((one.since for one in found.because if one.since), default=None)
    first, last = found.printed, on
    if codes(first).get(found.name) != found.was.code:
        return None
    while last - first > timedelta(days=1):
        middle = first + (last - first) / 2
        first, last = (middle, last) if codes(middle).get(found.name) == found.was.code else (first, middle)
    return last
