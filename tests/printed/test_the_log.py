"""The log as a reason why a part differs: its new entries are taken away again, and the parts coded anew."""

from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest

from binder.log.identity import new_id
from binder.log.store import add, entries_in
from binder.models.log_entries import Entry, Written
from binder.printed.words import told
from tests.printed.folders import ON, copied, found, put_in_hand

MAY, LATER = datetime(2026, 5, 2, 8, tzinfo=UTC), datetime(2026, 6, 3, 8, tzinfo=UTC)


def entry(at: datetime, kind: str, corrects: str = "", **said: Written) -> Entry:
    return Entry(new_id(at), at, kind, said, "Ann", corrects=corrects, taken=at)


@pytest.fixture
def rig(tmp_path: Path) -> Path:
    """A demo with a fault in its log, all in hand."""
    folder = copied(tmp_path)
    (folder / "log.sqlite").unlink(missing_ok=True)
    add(folder, [entry(MAY, "fault", what="awning squeaks", vehicle="coach")])
    put_in_hand(folder, "everything")
    return folder


@pytest.mark.parametrize("on", [ON, date(2026, 6, 4)])
def test_a_new_entry_is_named_where_it_moves_a_part_and_nowhere_else(rig: Path, on: date) -> None:
    assert found(rig).every == ()
    add(rig, [entry(LATER, "fault", what="lamp dark", vehicle="coach")])
    whole = found(rig, on=on)
    because = {one.name: [(cause.file, cause.since) for cause in one.because] for one in whole.every}

    assert {name for name, causes in because.items() if causes} == {"cover", "card-1"}
    assert because["cover"] == [("log", date(2026, 6, 3))]
    assert not any(one.by_program for one in whole.every)
    assert "  because of the log: its entries since 2026-06-03" in list(told(whole, {}))


def test_a_worn_tread_of_the_log_tells_that_it_is_the_log(rig: Path) -> None:
    add(rig, [entry(LATER, "tire", position="steer left", vehicle="coach", tread="3/32 in")])
    by_name = {one.name: one for one in found(rig).every}

    assert {cause.file for cause in by_name["page-tire_register"].because} == {"log"}


@pytest.mark.parametrize("on", [ON, date(2026, 6, 4)])
def test_what_was_withdrawn_since_is_the_log_and_no_newer_binder(rig: Path, on: date) -> None:
    (fault,) = entries_in(rig)
    add(rig, [entry(LATER, "withdrawal", fault.id)])
    whole = found(rig, on=on)
    cover = next(one for one in whole.every if one.name == "cover")

    assert not cover.by_program
    if on == ON:
        assert [cause.file for cause in cover.because] == ["log"]
        assert "  because of the log: what it says no more" in list(told(whole, {}))


def test_an_entry_that_no_part_shows_is_told_as_such(rig: Path) -> None:
    add(rig, [entry(LATER, "note", text="water tastes of iron")])
    whole = found(rig)

    assert whole.every == ()
    assert list(told(whole, {}))[-1] == "  the log: its entries since 2026-06-03"


def test_more_readings_of_a_full_day_are_the_log_and_no_newer_binder(rig: Path) -> None:
    def reading(minute: int, taken: datetime) -> Entry:
        at = datetime(2026, 5, 20, 8, minute, tzinfo=UTC)
        said: dict[str, Written] = {"position": "steer left", "vehicle": "coach", "state": "cold"}
        said["pressure"] = f"{105 - minute / 10:.1f} psi"
        return Entry(new_id(at), at, "tire", said, "Ann", taken=taken)

    add(rig, [reading(minute, MAY + timedelta(days=20)) for minute in range(20, 30)])
    put_in_hand(rig, "everything")

    assert found(rig).every == ()
    for minute in (10, 25, 40):  # Before, among and after those that were taken.
        add(rig, [reading(minute, LATER)])
        assert not any(one.by_program for one in found(rig).every)
    assert {cause.file for one in found(rig).every for cause in one.because} == {"log"}
