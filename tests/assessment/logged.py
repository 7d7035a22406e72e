"""Demo rigs with entries of a log made for one question."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import UTC, datetime, timedelta

from binder.assessment.assess import assess
from binder.log.identity import id_of_content
from binder.models.load import Profile, load_profile
from binder.models.log_entries import KINDS, Entry
from tests.by_key import ByKey
from tests.demos import PROFILES

FIRST = datetime(2026, 4, 1, 8, tzinfo=UTC)
TAKEN = datetime(2026, 5, 25, 12, tzinfo=UTC)


def logged(kind: str, day: float = 0, *, clock_off: bool = False, **written: str) -> Entry:
    """An entry so many days after the first of April; one of a clock that is off is of years before."""
    at = FIRST + timedelta(days=day) - timedelta(days=3000 if clock_off else 0)
    own_id = id_of_content([kind, str(day), *(f"{name}={text}" for name, text in written.items())])
    KINDS[kind].model_validate(written)
    return Entry(own_id, at, kind, written, taken=TAKEN)


def larkspur(entries: Iterable[Entry]) -> Profile:
    """The demo with a log."""
    ordered = sorted(entries, key=lambda one: (one.at, one.id))
    return replace(load_profile(PROFILES / "larkspur"), log=tuple(ordered))


def by_key(profile: Profile) -> ByKey:
    return ByKey(assess(profile, TAKEN.date()))
