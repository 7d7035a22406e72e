"""A printing reads of a tire's day two, of long ago the last, and says the same as with all readings."""

import sqlite3
from collections.abc import Iterable
from contextlib import closing
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path
from random import Random

import pytest

from binder.log import store
from binder.log.identity import new_id
from binder.log.in_force import in_force
from binder.log.store import add, entries_in, entries_to_print
from binder.models.load import LOG
from binder.models.log_entries import Entry, Written
from binder.wording.record import assessment_record
from tests.assessment.log.logs import assessed_with

NOON = datetime(2026, 5, 20, 12, tzinfo=UTC)
TAKEN = NOON + timedelta(days=2)
INNER = {"position": "drive left inner", "vehicle": "coach"}


def entry(at: datetime, kind: str, said: dict[str, Written], corrects: str = "") -> Entry:
    return Entry(new_id(at), at, kind, said, "Ann", corrects=corrects, taken=TAKEN)


def readings(count: int = 9, at: datetime = NOON, **said: Written) -> list[Entry]:
    """So many of one tire, a minute between them."""
    return [
        entry(
            at + timedelta(minutes=minute),
            "tire",
            {**INNER, "pressure": f"{95 - minute / 10:.1f} psi", "state": "cold", "by": "sensor", **said},
        )
        for minute in range(count)
    ]


def read(folder: Path, *entries: Entry) -> list[Entry]:
    """What a printing reads of a log of these, which it took in another order."""
    mixed = list(entries)
    Random(3).shuffle(mixed)  # noqa: S311 - the same order each time; nothing is secret.
    corrections = [one for one in mixed if one.corrects]
    add(folder, [*(one for one in mixed if not one.corrects), *corrections])
    return sorted(entries_to_print(folder), key=lambda one: (one.at, one.id))


def test_of_a_day_full_of_readings_the_first_and_the_last_are_read(tmp_path: Path) -> None:
    first, *_, last = many = readings(9)

    assert read(tmp_path, *many) == [first._replace(unread=7), last]
    assert sorted(entries_in(tmp_path)) == sorted(many)


def test_a_few_readings_of_a_day_are_all_read(tmp_path: Path) -> None:
    few = readings(4)

    assert read(tmp_path, *few) == few


@pytest.mark.parametrize(
    "said",
    [
        {"position": "drive left outer"},
        {"by": "gauge"},
        {"state": "hot"},
        {"tread": "9/32 in"},
        {"vehicle": "car"},
    ],
)
def test_readings_of_another_sort_are_counted_by_themselves(tmp_path: Path, said: dict[str, Written]) -> None:
    many, others = readings(6), readings(3, NOON + timedelta(minutes=2, seconds=30), **said)
    found = read(tmp_path, *many, *others)

    assert [one for one in found if one in others] == others
    assert [one.unread for one in found if one not in others] == [4, 0]


@pytest.mark.parametrize("hours", [-50, -1, 0, 1, 50])
@pytest.mark.parametrize(
    ("kind", "said"),
    [
        ("air", {**INNER, "before": "90 psi", "after": "95 psi"}),
        ("air", {"position": "drive left inner", "before": "90 psi", "after": "95 psi"}),
        ("repair", {"what": "a new valve"}),
    ],
)
def test_beside_air_and_repairs_a_day_is_read_whole(
    tmp_path: Path, kind: str, said: dict[str, Written], hours: int
) -> None:
    other = entry(NOON + timedelta(hours=hours, minutes=3), kind, said)
    many = readings(9)

    assert [one for one in read(tmp_path, *many, other) if one.kind == "tire"] == many


def test_air_of_another_tire_leaves_a_day_as_it_is(tmp_path: Path) -> None:
    air = entry(NOON, "air", {"position": "steer left", "before": "90 psi", "after": "95 psi"})

    assert len(read(tmp_path, *readings(9), air)) == 3


@pytest.mark.parametrize("corrected", range(6))
def test_a_day_of_which_a_reading_was_corrected_is_read_whole(tmp_path: Path, corrected: int) -> None:
    many = readings(6)
    slip = entry(TAKEN, "withdrawal", {"why": "another tire"}, corrects=many[corrected].id)

    assert read(tmp_path, *many, slip) == [*many, slip]


@pytest.mark.parametrize("days", [-3 * 365, 3, 400])
def test_a_day_that_can_hardly_be_right_is_read_whole(tmp_path: Path, days: int) -> None:
    many = readings(9, NOON + timedelta(days=days))

    assert read(tmp_path, *many) == many


def test_a_day_of_which_one_moment_can_hardly_be_right_is_read_whole(tmp_path: Path) -> None:
    many = readings(9, TAKEN + timedelta(days=1, minutes=-4))

    assert read(tmp_path, *many) == many


def months(chance: Random) -> Iterable[Entry]:
    """Months of a monitor's readings, with all that makes one differ from the next."""
    zones = [UTC, timezone(timedelta(hours=-7)), timezone(timedelta(hours=9))]
    days = [chance.randrange(260) for _ in range(40)]
    found: list[Entry] = []
    for number in range(1500):
        at = NOON - timedelta(days=chance.choice(days), minutes=15 * chance.randrange(96))
        at = at.astimezone(chance.choice(zones)) + timedelta(days=chance.choice([0] * 60 + [-900, 300]))
        said: dict[str, Written] = {"position": chance.choice(["steer left", "steer right"])}
        said |= chance.choice([{"vehicle": "coach"}] * 8 + [{}])
        kind, corrects = chance.choices(["tire", "air", "withdrawal"], [300, 1, 1])[0], ""
        if kind == "tire":
            said |= {"pressure": f"{chance.gauss(100, 3):.1f} psi", "ambient": "60 degF", "elevation": "0 ft"}
            said |= chance.choice([{"state": "cold"}] * 8 + [{"state": "hot"}, {}])
            said |= chance.choice([{"by": "sensor"}] * 8 + [{"by": "gauge"}])
            said |= {"tread": f"{chance.randrange(8, 14)}/32 in"} if chance.random() < 0.05 else {}
        elif kind == "air":
            said |= {"before": "95 psi", "after": "105 psi", "state": "cold"}
        elif found:
            said, corrects = {}, chance.choice(found).id
        else:
            continue
        own_id = f"{number:08x}-0000-7000-8000-000000000000"
        found.append(Entry(own_id, at, kind, said, "Ann", corrects=corrects, taken=TAKEN))
    return found


@pytest.mark.parametrize("seed", range(6))
def test_a_printing_says_what_it_would_say_with_every_reading(tmp_path: Path, seed: int) -> None:
    chance = Random(seed)  # noqa: S311 - the same invented readings each time; nothing is secret.
    printed = read(tmp_path, *months(chance))
    every = entries_in(tmp_path)
    told, told_with_all = (assessment_record(assessed_with(*in_force(log))) for log in (printed, every))

    assert told == told_with_all
    assert len(every) - len(printed) > sum(one.unread for one in printed) > 100


def test_of_long_ago_the_last_of_each_tire_is_read(tmp_path: Path) -> None:
    now = readings(1)
    old = [readings(count, NOON - timedelta(days=days)) for days, count in ((190, 9), (200, 9), (300, 2))]
    tread = readings(2, NOON - timedelta(days=400), tread="9/32 in")
    other = readings(1, NOON - timedelta(days=300), position="steer left")
    lately = readings(2, NOON - timedelta(days=182))
    found = read(tmp_path, *now, *(one for day in old for one in day), *tread, *other, *lately)

    assert found == [*tread, *other, *lately, *now]


def test_of_a_tire_that_is_read_no_more_the_last_day_is_read(tmp_path: Path) -> None:
    gone = [readings(9, NOON - timedelta(days=days), position="spare") for days in (300, 310)]
    now = readings(1)
    found = read(tmp_path, *now, *gone[0], *gone[1])

    assert found == [gone[0][0]._replace(unread=7), gone[0][-1], *now]


def test_where_the_last_of_long_ago_was_withdrawn_the_one_before_is_read(tmp_path: Path) -> None:
    before, last, now = (
        readings(1, NOON - timedelta(days=days), position=position)
        for days, position in ((310, "spare"), (300, "spare"), (0, "steer left"))
    )
    slip = entry(TAKEN, "withdrawal", {}, corrects=last[0].id)

    assert read(tmp_path, *before, *last, *now, slip) == [*before, *last, *now, slip]


@pytest.fixture
def of_first_version(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> list[Entry]:
    """Readings of a day in a log as it was before any of a day was left unread."""
    many = readings(9)
    with monkeypatch.context() as patched:
        patched.setattr(store, "VERSIONS", store.VERSIONS[:1])
        add(tmp_path, many)
    return many


def test_a_log_of_an_earlier_version_is_read_as_one_of_today_and_left_as_it_is(
    tmp_path: Path, of_first_version: list[Entry]
) -> None:
    before = (tmp_path / LOG).read_bytes()

    assert [one.unread for one in entries_to_print(tmp_path)] == [7, 0]
    assert entries_in(tmp_path) == of_first_version
    assert (tmp_path / LOG).read_bytes() == before


def test_what_is_added_leads_a_log_of_an_earlier_version_to_todays(
    tmp_path: Path, of_first_version: list[Entry]
) -> None:
    later = entry(NOON + timedelta(hours=2), "tire", {**of_first_version[0].written})
    add(tmp_path, [later])
    with closing(sqlite3.connect(tmp_path / LOG)) as connection:
        version = connection.execute("PRAGMA user_version").fetchone()

    assert version == (len(store.VERSIONS),)
    assert sorted(entries_to_print(tmp_path)) == [of_first_version[0]._replace(unread=8), later]
