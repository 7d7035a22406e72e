"""Invented logs, and a demo rig assessed with one."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from functools import cache
from random import Random

from binder.assessment.assess import Assessment, assess
from binder.models.load import Profile, load_profile
from binder.models.log_entries import Entry, Written
from tests.assessment.edited_demos import ON
from tests.by_key import ByKey
from tests.demos import PROFILES

START = datetime(2026, 1, 5, 7, tzinfo=UTC)
COACH = {
    "steer left": 105.0, "steer right": 105.0, "drive left outer": 95.0, "drive left inner": 95.0,
    "drive right inner": 95.0, "drive right outer": 95.0,
}  # fmt: skip
COLD: dict[str, Written] = {"state": "cold", "by": "gauge", "ambient": "68 degF", "elevation": "0 ft"}


@cache
def larkspur() -> Profile:
    return load_profile(PROFILES / "larkspur")


def assessed_with(*log: Entry, profile: Profile | None = None, on: date = ON) -> Assessment:
    ordered = tuple(sorted(log, key=lambda one: (one.at.timestamp(), one.id)))
    return assess(replace(profile or larkspur(), log=ordered), on)


def by_key(*log: Entry, profile: Profile | None = None) -> ByKey:
    return ByKey(assessed_with(*log, profile=profile))


def entry(kind: str, day: float, said: Mapping[str, Written], own_id: str = "", who: str = "Ann") -> Entry:
    at = START + timedelta(days=day)
    return Entry(own_id or f"{kind} {day} {said.get('position')}", at, kind, dict(said), who, taken=at)


def tire(position: str, day: float, **said: Written) -> Entry:
    return entry("tire", day, {"position": position, "vehicle": "coach", **said})


def walks(
    weeks: int = 16, leak: float = 2.0, leaking: str = "drive left inner", *, seed: int = 1, **said: Written
) -> list[Entry]:
    """Weekly cold readings of the coach: one tire loses so many psi a month more, all lose a half."""
    chance, found = Random(seed), []  # noqa: S311 - invented readings.
    for week in range(weeks):
        for number, (position, fill) in enumerate(COACH.items()):
            rate = 0.5 + (leak if position == leaking else 0.0)
            psi = fill - rate * week * 7 / 30.4375 + chance.gauss(0, 0.3)
            day = week * 7 + number / 1440
            found.append(tire(position, day, **{**COLD, "pressure": f"{psi:.1f} psi", **said}))
    return found


def without(log: list[Entry], *names: str) -> list[Entry]:
    """The same readings with some fields left out."""
    return [
        one._replace(written={name: value for name, value in one.written.items() if name not in names})
        for one in log
    ]
