"""What a printing in hand says otherwise than one of today would: which parts, what moved, and why."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from functools import cache
from typing import NamedTuple, TypeAlias

from binder.assessment.assess import Assessment
from binder.assessment.ledger import Figure, Phrase
from binder.cards.assessed import assessed
from binder.cards.blocks import BinderDocument, Card, Page, Part
from binder.cards.codes import part_title
from binder.models.located_yaml import Plain
from binder.models.log_entries import Entry
from binder.printed.coded import COVER_TITLE, Coded, codes_of, parts_of, public_document
from binder.printed.record import InHand, Printed, Printing, Shown
from binder.printed.touched import (
    LOG,
    Touched,
    entries_now,
    entries_then,
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


Days: TypeAlias = Callable[[date], Assessment]
"""The same rig assessed for any day."""


def by_day(assessment: Assessment) -> Days:
    """Assess a rig for other days, for each once."""
    profile, states = assessment.profile, assessment.states
    return cache(lambda day: assessment if day == assessment.on else assessed(profile, day, states))


def differences(
    assessment: Assessment,
    printed: Printed,
    name: str,
    days: Days | None = None,
    public: BinderDocument | None = None,
) -> Differences:
    """Compare a set in hand with what would be printed of it today; ``public`` is that where it is made."""
    document = public or public_document(assessment, name)
    now, in_hand = codes_of(document), printed.in_hand(name)
    parts, figures = parts_of(document), {key_text(one.key): one for one in assessment.ledger.entered}
    why = _Why(assessment, name, parts, days or by_day(assessment))
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
    idle = why.idle(printings, {one for found in every for one in found.because}, now)
    return Differences(name, assessment.profile.trip_name, tuple(every), idle, len(now))


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
    """What moved a part: each change is taken back by itself, and the part is coded again."""

    def __init__(self, assessment: Assessment, name: str, parts: Mapping[str, Part], days: Days) -> None:
        self._profile, self._on, self._name, self._parts = assessment.profile, assessment.on, name, parts
        self._days, self._now = days, _Said(entries_now(assessment.profile), assessment.profile.log)
        self._coded: list[tuple[_Said, date, Coded]] = []
        self._changes: dict[int, tuple[_Said, tuple[_Change, ...]]] = {}

    def told(self, found: Difference, printing: Printing, now: str) -> Difference:
        """Say which entries make a part differ, and whether its day or a newer binder does without them."""
        was, name = found.was.code if found.was else "", found.name
        then, changes = self._changed(printing)
        is_same_day = printing.date == self._on
        if is_same_day and len(changes) == 1:
            # What one change made differ is what differs.
            return replace(found, because=(changes[0].entry,))
        back = ((one.entry, self._codes(one.taken_back)) for one in changes)
        because = tuple(entry for entry, codes in back if codes.is_read and codes.code(name) != now)
        before = self._codes(then).code(name) if changes and not is_same_day else now
        by_date = before != was and not is_same_day
        is_known = is_log(then.log, printing.log)
        by_program = before != was and (
            not changes if is_same_day else is_known and self._codes(then, printing.date).code(name) != was
        )
        # Several may make it so only together.
        every = tuple(one.entry for one in changes) if not by_date and not by_program else ()
        return replace(
            found, because=because or every, by_date=by_date and not by_program, by_program=by_program
        )

    def idle(
        self, printings: Iterable[Printing], moving: set[Touched], today: Mapping[str, str]
    ) -> tuple[Touched, ...]:
        """What was changed and moves no part; ``moving`` is known to."""
        changes = (change for one in printings for change in self._changed(one)[1])
        return tuple(
            dict.fromkeys(
                one.entry
                for one in changes
                if one.entry not in moving and self._codes(one.taken_back).every == today
            )
        )

    def _changed(self, printing: Printing) -> tuple["_Said", tuple["_Change", ...]]:
        if id(printing) not in self._changes:
            profile = self._profile
            then = _Said(entries_then(printing.files, profile), log_before(profile, printing.log))
            changes = (*touched(then.files, profile), *log_touched(profile, printing.log))
            self._changes[id(printing)] = (
                then,
                tuple(_Change(one, self._taken_back(then, one)) for one in changes),
            )
        return self._changes[id(printing)]

    def _taken_back(self, then: "_Said", one: Touched) -> "_Said":
        if one.file == LOG:
            return self._now._replace(log=then.log)
        return self._now._replace(files=taken_back(then.files, self._now.files, one))

    def _codes(self, said: "_Said", on: date | None = None) -> Coded:
        """Codes of the parts as files and log would make them on a day; nothing where they cannot be read."""
        day = on or self._on
        known = next((codes for tried, at, codes in self._coded if at == day and tried == said), None)
        if known is None:
            known = Coded(self._assessed(said, day), self._name, self._parts)
            self._coded.append((said, day, known))
        return known

    def _assessed(self, said: "_Said", day: date) -> Assessment | None:
        if said == self._now:
            return self._days(day)
        profile = with_entries(self._profile, said.files)
        return assessed(replace(profile, log=said.log), day) if profile else None


class _Said(NamedTuple):
    """What an owner's files say, and the log."""

    files: Mapping[str, Plain]
    log: tuple[Entry, ...]


class _Change(NamedTuple):
    """An entry that was changed, and all that is said but for it."""

    entry: Touched
    taken_back: _Said


def void_since(found: Difference, name: str, on: date, days: Days) -> date | None:
    """The day from which a part of a set in hand is not so any more, as far as it can be told."""
    if found.because or found.printed is None or found.was is None:
        return max((one.since for one in found.because if one.since), default=None)
    was, like = found.was.code, {found.name: found.part} if found.part else {}

    def is_void(day: date) -> bool:
        return Coded(days(day), name, like).code(found.name) != was

    first, last = found.printed, on
    if is_void(first):
        return None
    # What a day makes void it mostly does by a day that is told: that a thing is due, or a trip is over.
    told = _days_told(days(first), days(on))
    likely = sorted({day + timedelta(days=after) for day in told for after in (0, 1)})
    while last - first > timedelta(days=1):
        inside = [day for day in likely if first < day < last]
        middle = inside[len(inside) // 2] if inside else first + (last - first) / 2
        first, last = (first, middle) if is_void(middle) else (middle, last)
    return last


def _days_told(then: Assessment, now: Assessment) -> Iterator[date]:
    """Days that are named by what is told on one of two days alone."""
    before = {one.key: one for one in then.ledger.entered}
    for figure in now.ledger.entered:
        if figure != before.get(figure.key):
            yield from _days_in(figure)
    for finding in now.findings:
        if finding not in then.findings:
            yield from _days_in(finding.facts)


def _days_in(told: object) -> Iterator[date]:
    if isinstance(told, date) and not isinstance(told, datetime):
        yield told
    elif isinstance(told, Figure | Phrase):
        yield from _days_in(told.facts)
        yield from _days_in(told.value) if isinstance(told, Figure) else ()
    elif isinstance(told, Mapping):
        for one in told.values():
            yield from _days_in(one)
