"""The store: nothing is altered or removed, reading leaves no file, a version is reached whole or not."""

import contextlib
import os
import sqlite3
import tempfile
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from binder.log import store
from binder.log.identity import new_id
from binder.models.load import LOG
from binder.models.log_entries import Entry
from binder.problems import InputProblems

AT = datetime(2026, 6, 1, 7, 10, tzinfo=UTC)


def note(text: str, minute: int = 0) -> Entry:
    at = AT + timedelta(minutes=minute)
    return Entry(new_id(at), at, "note", {"text": text}, taken=AT + timedelta(days=1))


def changed(folder: Path, statement: str) -> None:
    connection = sqlite3.connect(folder / LOG)
    try:
        connection.execute(statement)
        connection.commit()
    finally:
        connection.close()


def test_what_was_added_is_read_in_the_order_it_was_added(tmp_path: Path) -> None:
    entries = [note("second", 2), note("first", 1)]

    assert store.add(tmp_path, entries) == 2
    assert store.entries_in(tmp_path) == entries


def test_an_entry_that_is_there_is_added_once(tmp_path: Path) -> None:
    one, other = note("one"), note("other")
    store.add(tmp_path, [one])

    assert store.add(tmp_path, [one, other]) == 1
    assert store.entries_in(tmp_path) == [one, other]


@pytest.mark.parametrize(
    ("statement", "told"),
    [
        ("UPDATE entry SET written = '{}'", "is not altered"),
        ("DELETE FROM entry", "is not removed"),
        (
            "REPLACE INTO entry SELECT number, id, at, moment, taken, kind, 'x', '', '', '', '{}' FROM entry",
            "is not replaced",
        ),
        (
            "REPLACE INTO entry SELECT 9, id, at, moment, taken, kind, 'x', '', '', '', '{}' FROM entry",
            "is not replaced",
        ),
    ],
)
def test_an_entry_is_never_altered_removed_or_replaced(tmp_path: Path, statement: str, told: str) -> None:
    store.add(tmp_path, [note("kept")])

    with pytest.raises(sqlite3.IntegrityError, match=told):
        changed(tmp_path, statement)
    assert [one.written for one in store.entries_in(tmp_path)] == [{"text": "kept"}]


def test_columns_hold_what_they_are_declared_for(tmp_path: Path) -> None:
    store.add(tmp_path, [note("kept")])

    with pytest.raises(sqlite3.IntegrityError, match="cannot store TEXT value in REAL column"):
        changed(
            tmp_path,
            "INSERT INTO entry SELECT 9, 'a', at, 'noon', taken, kind, '', '', '', '', '{}' FROM entry",
        )


def test_where_there_is_no_log_none_is_made_by_reading(tmp_path: Path) -> None:
    assert store.entries_in(tmp_path) == []
    assert list(tmp_path.iterdir()) == []


@contextlib.contextmanager
def as_somebody_who_may_only_read(folder: Path) -> Iterator[None]:
    """Take away the leave to write: of the folder, and where everything is allowed, of the process."""
    folder.chmod(0o555)
    is_root = os.name != "nt" and os.geteuid() == 0
    if is_root:
        os.seteuid(65534)
    try:
        yield
    finally:
        if is_root:
            os.seteuid(0)
        folder.chmod(0o755)


def test_reading_leaves_no_file_and_needs_no_leave_to_write() -> None:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        store.add(folder, [note("kept")])
        file = folder / LOG
        content = file.read_bytes()
        file.chmod(0o444)
        with as_somebody_who_may_only_read(folder):
            read = store.entries_in(folder)
            with pytest.raises(PermissionError):
                store.add(folder, [note("x")])

        assert [one.written for one in read] == [{"text": "kept"}]
        assert (list(folder.iterdir()), file.read_bytes()) == ([file], content)


def test_a_log_is_a_file_with_a_rollback_journal(tmp_path: Path) -> None:
    store.add(tmp_path, [note("kept")])
    content = (tmp_path / LOG).read_bytes()

    # Bytes 18 and 19 of the head: 1 a rollback journal, 2 a write-ahead log (sqlite.org/fileformat.html).
    assert (content[18], content[19]) == (1, 1)


def test_a_step_to_the_next_version_is_taken_whole(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    store.add(tmp_path, [note("kept")])
    steps = (*store.VERSIONS, ("CREATE TABLE extra (a TEXT) STRICT", "ALTER TABLE entry ADD COLUMN b TEXT"))
    monkeypatch.setattr(store, "VERSIONS", steps)
    store.add(tmp_path, [note("later")])

    assert [one.written["text"] for one in store.entries_in(tmp_path)] == ["kept", "later"]


def test_a_step_that_fails_leaves_the_version_before(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    store.add(tmp_path, [note("kept")])
    content = (tmp_path / LOG).read_bytes()
    monkeypatch.setattr(store, "VERSIONS", (*store.VERSIONS, ("CREATE TABLE extra (a TEXT)", "no statement")))

    with pytest.raises(InputProblems):
        store.add(tmp_path, [note("later")])
    assert (tmp_path / LOG).read_bytes() == content


def test_a_log_of_a_later_program_is_left_as_it_is(tmp_path: Path) -> None:
    store.add(tmp_path, [note("kept")])
    changed(tmp_path, "PRAGMA user_version = 99")

    for act in (store.entries_in, lambda folder: store.add(folder, [note("x")])):
        with pytest.raises(InputProblems) as raised:
            act(tmp_path)
        assert "a later version of binder wrote this log" in str(raised.value)


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (b"no database at all, but long enough to be looked at as one" * 40, "this log is damaged"),
        (None, "this is another program's file, no log"),
    ],
)
def test_a_file_that_is_no_log_is_told_and_kept(tmp_path: Path, content: bytes | None, told: str) -> None:
    file = tmp_path / LOG
    if content is None:
        changed(tmp_path, "CREATE TABLE entry (a TEXT)")
    else:
        file.write_bytes(content)
    before = file.read_bytes()

    for act in (store.entries_in, lambda folder: store.add(folder, [note("x")])):
        with pytest.raises(InputProblems) as raised:
            act(tmp_path)
        assert told in str(raised.value)
    assert file.read_bytes() == before


def test_a_log_that_another_window_writes_is_waited_for_and_then_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    store.add(tmp_path, [note("kept")])
    monkeypatch.setattr(store, "_WAIT", 0.05)
    other = sqlite3.connect(tmp_path / LOG, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    try:
        with pytest.raises(InputProblems) as raised:
            store.add(tmp_path, [note("x")])
    finally:
        other.close()

    assert "another window is writing this log" in str(raised.value)


@pytest.mark.skipif(os.name == "nt", reason="names with a question mark")
def test_a_folder_of_any_name_holds_a_log(tmp_path: Path) -> None:
    folder = tmp_path / "50% off? #1 & mode=rw"
    folder.mkdir()
    store.add(folder, [note("kept")])

    assert [one.written for one in store.entries_in(folder)] == [{"text": "kept"}]
    assert [file.name for file in folder.iterdir()] == [LOG]
