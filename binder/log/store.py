"""``log.sqlite`` in the rig's folder: entries are added whole files at a time, and never altered or removed.

SQLite's rollback journal, so that reading leaves no file and works in a folder that cannot be written.
"""

import errno
import json
import sqlite3
from collections.abc import Callable, Iterable, Iterator
from contextlib import closing, contextmanager
from datetime import UTC, datetime
from functools import lru_cache
from pathlib import Path

from binder.log.needed_readings import Alike, needed
from binder.models.load import LOG
from binder.models.log_entries import Entry
from binder.problems import InputProblems, Problem

_IS_LOG = 0x524C4F47
"""Application id in the file's head, by which another database is told: the letters RLOG."""

_WAIT = 20.0  # Seconds: a long import by another window ends in five.
_ADDED = """INSERT INTO entry (moment, id, at, taken, kind, who, card, code, corrects, written)
            VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"""
_READ = "SELECT id, at, taken, kind, who, card, code, corrects, written FROM entry"
_ALIKE = """SELECT alike,
              json_extract(alike, '$[0]'), json_extract(alike, '$[1]'), json_extract(alike, '$[2]'),
              json_extract(alike, '$[3]'), json_extract(alike, '$[4]'), count(*),
              substr(min(ordered), 21), substr(max(ordered), 21),
              CAST(substr(min(ordered), 1, 19) AS REAL) - 1e11,
              CAST(substr(max(ordered), 1, 19) AS REAL) - 1e11,
              min(taken), max(taken)
            FROM entry WHERE alike IS NOT NULL GROUP BY alike"""
_CORRECTED = """SELECT DISTINCT alike FROM entry
                WHERE id IN (SELECT corrects FROM entry WHERE corrects <> '') AND alike IS NOT NULL"""
_LISTED = "IN (SELECT value FROM json_each(?))"

VERSIONS: tuple[tuple[str, ...], ...] = (
    (
        """CREATE TABLE entry (
             number INTEGER PRIMARY KEY,
             id TEXT NOT NULL UNIQUE,
             at TEXT NOT NULL,
             moment REAL NOT NULL,
             taken TEXT NOT NULL,
             kind TEXT NOT NULL,
             who TEXT NOT NULL,
             card TEXT NOT NULL,
             code TEXT NOT NULL,
             corrects TEXT NOT NULL,
             written TEXT NOT NULL CHECK (json_valid(written))
           ) STRICT""",
        "CREATE INDEX entry_moment ON entry (moment)",
        """CREATE TRIGGER entry_is_not_altered BEFORE UPDATE ON entry
           BEGIN SELECT RAISE(ABORT, 'an entry is not altered; a later one corrects it'); END""",
        """CREATE TRIGGER entry_is_not_removed BEFORE DELETE ON entry
           BEGIN SELECT RAISE(ABORT, 'an entry is not removed; a later one withdraws it'); END""",
        # What replaces a row would remove the old one unseen by the trigger above.
        """CREATE TRIGGER entry_is_not_replaced BEFORE INSERT ON entry
           WHEN EXISTS (SELECT 1 FROM entry WHERE id = NEW.id OR number = NEW.number)
           BEGIN SELECT RAISE(ABORT, 'an entry is not replaced; a later one corrects it'); END""",
    ),
    (
        # What readings have in common that need not all be read, and their order.
        """ALTER TABLE entry ADD COLUMN alike TEXT AS (
             CASE WHEN kind = 'tire' AND corrects = '' THEN json_array(
               substr(at, 1, 10),
               json_extract(written, '$.position'),
               json_extract(written, '$.vehicle'),
               json_extract(written, '$.pressure') IS NOT NULL,
               json_extract(written, '$.tread') IS NOT NULL,
               json_extract(written, '$.state'),
               json_extract(written, '$.by')
             ) END
           ) VIRTUAL""",
        # The moment in seconds, above zero from the year 1 on, and the id.
        """ALTER TABLE entry ADD COLUMN ordered TEXT AS (
             printf('%019.6f %s', moment + 1e11, id)
           ) VIRTUAL""",
        "CREATE INDEX entry_alike ON entry (alike, ordered, taken) WHERE alike IS NOT NULL",
        "CREATE INDEX entry_other ON entry (corrects) WHERE kind <> 'tire' OR corrects <> ''",
    ),
)
"""Statements that lead from one version of the tables to the next; ``user_version`` counts them."""


def entries_in(folder: Path) -> list[Entry]:
    """Read every entry of a rig's log in the order it took them; none where there is no log."""
    return _read(folder, lambda log: _entries(log.execute(f"{_READ} ORDER BY number")))


def entries_to_print(folder: Path) -> list[Entry]:
    """Read what a printing needs of a rig's log, in no order: one of years takes as long as one of months."""
    return _read(folder, _to_print)


def _read(folder: Path, read: Callable[[sqlite3.Connection], list[Entry]]) -> list[Entry]:
    file = folder / LOG
    if not file.exists():
        return []
    with _told(file):
        try:
            return _read_only(file, read)
        except sqlite3.OperationalError as error:
            # Somebody was stopped in writing: whoever may write puts the file back first.
            if error.sqlite_errorcode not in {sqlite3.SQLITE_READONLY_ROLLBACK, sqlite3.SQLITE_CANTOPEN}:
                raise
            with closing(_connected(file, "rw")) as connection:
                connection.execute("SELECT count(*) FROM sqlite_schema").fetchone()
            return _read_only(file, read)


def _read_only(file: Path, read: Callable[[sqlite3.Connection], list[Entry]]) -> list[Entry]:
    with closing(_connected(file, "ro")) as connection:
        # All that is read is of one moment, whatever another window adds meanwhile.
        connection.execute("BEGIN")
        _refuse_other(connection, file)
        version = _version(connection)
        if version in {0, len(VERSIONS)}:
            return read(connection) if version else []
        # An earlier version is led to this one beside the file, which stays as it is.
        with closing(sqlite3.connect(":memory:", isolation_level=None)) as beside:
            connection.backup(beside)
            _migrate(beside)
            return read(beside)


def _to_print(log: sqlite3.Connection) -> list[Entry]:
    others = _entries(log.execute(f"{_READ} WHERE kind <> 'tire' OR corrects <> ''"))
    groups = [Alike(*row) for row in log.execute(_ALIKE)]
    chosen = needed(groups, others, {name for (name,) in log.execute(_CORRECTED)})
    ends = _entries(log.execute(f"{_READ} WHERE id {_LISTED}", [json.dumps(chosen.ids)]))
    whole = _entries(log.execute(f"{_READ} WHERE alike {_LISTED}", [json.dumps(chosen.whole)]))
    return [*others, *chosen.with_unread(ends), *whole]


def add(folder: Path, entries: Iterable[Entry]) -> int:
    """Add all entries or none; hands back how many were not there already.

    One that is there with another content, or corrects one that is nowhere, is a problem of whoever calls.
    """
    file = folder / LOG
    with _told(file), closing(_connected(file, "rwc")) as connection:
        _refuse_other(connection, file)
        with _whole(connection):
            _migrate(connection)
            before = connection.total_changes
            held = {one for (one,) in connection.execute("SELECT id FROM entry")}
            rows = (_row(one) for one in entries if one.id not in held)
            connection.executemany(_ADDED, rows)
            return connection.total_changes - before


@contextmanager
def _whole(connection: sqlite3.Connection) -> Iterator[None]:
    connection.execute("BEGIN IMMEDIATE")
    try:
        yield
    except BaseException:
        connection.execute("ROLLBACK")
        raise
    connection.execute("COMMIT")


def _migrate(connection: sqlite3.Connection) -> None:
    """Lead the tables to the version this program knows, in the transaction that is open."""
    found = _version(connection)
    for statements in VERSIONS[found:]:
        for statement in statements:
            connection.execute(statement)
    if found < len(VERSIONS):
        connection.execute(f"PRAGMA application_id = {_IS_LOG}")
        connection.execute(f"PRAGMA user_version = {len(VERSIONS)}")


def _version(connection: sqlite3.Connection) -> int:
    return int(connection.execute("PRAGMA user_version").fetchone()[0])


def _refuse_other(connection: sqlite3.Connection, file: Path) -> None:
    """Refuse a database that is no log, and a log of a later program."""
    tables = connection.execute("SELECT count(*) FROM sqlite_schema").fetchone()[0]
    if tables and connection.execute("PRAGMA application_id").fetchone()[0] != _IS_LOG:
        raise _refusal(file, "this is another program's file, no log")
    if _version(connection) > len(VERSIONS):
        raise _refusal(file, "a later version of binder wrote this log; install that one to read it")


def _connected(file: Path, mode: str) -> sqlite3.Connection:
    address = f"{file.absolute().as_uri()}?mode={mode}"
    connection = sqlite3.connect(address, timeout=_WAIT, isolation_level=None, uri=True)
    if mode != "ro":
        # What is told to be taken is on the disk, its folder's entry too.
        connection.execute("PRAGMA synchronous = EXTRA")
    return connection


@contextmanager
def _told(file: Path) -> Iterator[None]:
    """Tell in plain words what SQLite says of a file, a full disk as any other full disk."""
    try:
        yield
    except sqlite3.OperationalError as error:
        codes = {
            sqlite3.SQLITE_FULL: (errno.ENOSPC, "No space left on device"),
            sqlite3.SQLITE_IOERR: (errno.EIO, "Input/output error"),
            sqlite3.SQLITE_CANTOPEN: (
                errno.EACCES,
                "Permission denied, or what was half written is to be undone",
            ),
            sqlite3.SQLITE_READONLY: (
                errno.EACCES,
                "Permission denied, or what was half written is to be undone",
            ),
        }
        number, text = codes.get(error.sqlite_errorcode & 0xFF, (0, ""))
        if number:
            raise OSError(number, text, str(file)) from error
        if error.sqlite_errorcode & 0xFF in {sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED}:
            raise _refusal(
                file, "another window is writing this log; wait for it and do this again"
            ) from error
        raise _refusal(file, f"this log cannot be read ({error}); take it from your last copy") from error
    except sqlite3.DatabaseError as error:
        text = f"this log is damaged ({error}); put it aside and take your last copy, or import your exports"
        raise _refusal(file, text) from error


def _refusal(file: Path, text: str) -> InputProblems:
    return InputProblems([Problem(str(file), None, "", text)])


def _row(entry: Entry) -> tuple[float | str, ...]:
    if entry.taken is None:
        raise ValueError(f"{entry.id} does not say when it was taken")
    at, taken, written = entry.at.isoformat(), _taken_text(entry.taken), _written_text(entry.written)
    named = (entry.id, at, taken, entry.kind, entry.who, entry.card, entry.code, entry.corrects, written)
    return (entry.at.timestamp(), *named)


_written_text = json.JSONEncoder(ensure_ascii=False, separators=(",", ":")).encode


@lru_cache
def _taken_text(taken: datetime) -> str:
    return taken.astimezone(UTC).isoformat(timespec="seconds")


def _entries(found: sqlite3.Cursor) -> list[Entry]:
    rows = found.fetchall()
    # Read as one text: fifty thousand small ones take twice as long.
    every = json.loads(f"[{','.join(row[-1] for row in rows)}]")
    return [
        Entry(own_id, datetime.fromisoformat(at), kind, said, who, card, code, corrects, _taken(taken))
        for (own_id, at, taken, kind, who, card, code, corrects, _), said in zip(rows, every, strict=True)
    ]


_taken = lru_cache(datetime.fromisoformat)
"""A file is taken in one moment, which is read once for all its entries."""
