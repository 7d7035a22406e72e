"""Files made to do harm are refused or shown as text, soon, and nothing is changed."""

import itertools
import json
import os
from datetime import UTC, datetime
from pathlib import Path

import pytest
from click.testing import CliRunner

from binder.cli import main
from binder.log.identity import new_id
from binder.log.reading import Reader
from binder.models.load import LOG
from tests.log.test_import import HEAD, TIRE, handed, line, refused

AT = datetime(2026, 6, 1, tzinfo=UTC)


@pytest.mark.parametrize(
    ("entry", "told"),
    [
        ("[" * 60_000, "nested too deep"),
        ('{"a":' * 10_000, "nested too deep"),
        (line(TIRE, weights={"a": {"b": {"c": {"d": {"e": {"f": {"g": "h"}}}}}}}), "nested too deep"),
        ('{"kind": "note", "text": "' + "x" * 70_000 + '"}', "this line has 70028 characters"),
        (line({"kind": "note", "text": "x" * 5000}), "this has 5000 characters; 4000 are the most"),
        (line({"kind": "note", "text": "x", "who": "A" * 200}), "a name has 100 characters at most"),
        ('{"kind": "note", "kind": "note"}', "'kind' stands twice"),
        ("9" * 5000, "a line is one object"),
        ("NaN", "a line is one object"),
        (line({"kind": "tire", "position": 7, "pressure": float("inf")}), "'7' is no position"),
        (line({"kind": "note", "text": "half \ud800 letter"}), "half a letter"),
        (line({"kind": "note", "text": {"a": "b"}}), "words are needed here"),
        (line({"kind": "note", "text": ["b"]}), "words are needed here"),
        (line({"kind": ["note"]}), "words are needed here"),
        (line({"kind": "note", "text": "x", "vehicle": "../../etc/passwd"}), "is no vehicle of Larkspur"),
        (line({"kind": "note", "text": "x", "__class__": "y"}), "'__class__' is not a field here"),
        (line(TIRE, pressure="1e400 psi"), "'1e400 psi'"),
        (line(TIRE, pressure="9**9**9 psi"), "'9**9**9 psi'"),
        (line(TIRE, ambient="-600 degF"), "'-600 degF' can hardly be a temperature"),
        (line({"kind": "weight", "weights": {"coach": {"steer": "x"}}}), "weights"),
        (line({"kind": "weight", "weights": []}), "weights"),
        (line({"kind": "weight", "weights": {"coach": {"total": "272000 kg"}}}), "can hardly be a weight"),
        (line({"kind": "weight", "weights": {"coach": {}}, "division": "0 lb"}), "can hardly be a step"),
        (line({"kind": "weight", "weights": {"coach": {"middle": {"axle": "1 lb"}}}}), "'middle' is no axle"),
        (line(TIRE, id="0198A000-0000-7000-8000-000000000000"), "is no id of an entry"),
        (line(TIRE, id="'; DROP TABLE entry; --"), "is no id of an entry"),
        (line(TIRE, at="9999-12-31T23:59:59-23:59"), "is not in the calendar"),
        (line(TIRE, at="0001-01-01T00:00:00+23:59"), "is not in the calendar"),
    ],
    ids=itertools.count(),
)
def test_a_hostile_entry_is_refused_with_its_line(
    rig: Path, reader: Reader, tmp_path: Path, entry: str, told: str
) -> None:
    text = refused(rig, handed(tmp_path, line(TIRE), entry), reader)

    assert told in text
    assert "phone.jsonl:3:" in text
    assert max(map(len, text.splitlines())) < 700


@pytest.mark.parametrize(
    ("head", "told"),
    [
        ('{"format": "rig log", "version": 1, "rig": "Kestrel"}', "the log of 'Kestrel', and this folder is"),
        ('{"format": "rig log", "version": 2, "rig": "Larkspur"}', "version 2 of the format; 1 is known"),
        ('{"rig": "Larkspur"}', "the first line does not say that this is a rig's log"),
        ('{"format": {"a": "b"}}', "the first line does not say that this is a rig's log"),
        ("{", "line 1: this is no JSON"),
        ("%PDF-1.7", "no field is named like the column '%PDF-1.7'"),
    ],
)
def test_a_file_of_another_rig_or_kind_is_refused(
    rig: Path, reader: Reader, tmp_path: Path, head: str, told: str
) -> None:
    assert told in refused(rig, handed(tmp_path, line(TIRE), head=head), reader)


def test_a_file_of_100_mb_is_refused_unread(
    rig: Path, reader: Reader, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "large.jsonl"
    with file.open("wb") as out:
        out.truncate(100 * 1024 * 1024)
    monkeypatch.setattr(Path, "read_bytes", lambda file: pytest.fail(f"{file} was read"))

    assert "this file has 100 MB; 64 MB are the most" in refused(rig, file, reader)


@pytest.mark.parametrize(
    "content", [b"\xff\xfe{\x00}\x00", b"\x00" * 4096, b"\x89PNG\r\n\x1a\n" + bytes(range(256))]
)
def test_a_file_that_is_no_text_is_refused(rig: Path, reader: Reader, tmp_path: Path, content: bytes) -> None:
    file = tmp_path / "odd.jsonl"
    file.write_bytes(content)

    assert "error" in refused(rig, file, reader)


@pytest.mark.skipif(os.name == "nt", reason="named pipes")
def test_what_is_no_plain_file_is_refused_at_once(rig: Path, reader: Reader, tmp_path: Path) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)

    assert "this is no plain file" in refused(rig, pipe, reader)
    assert "this is no plain file" in refused(rig, tmp_path, reader)
    assert "there is no such file" in refused(rig, tmp_path / "none", reader)


def test_scripts_and_escapes_in_a_note_are_shown_as_text(rig: Path, tmp_path: Path) -> None:
    note = "<script>alert(1)</script> \x1b[2J\x1b]0;x\x07 \u202egnp\nentry  time"
    file = handed(tmp_path, line({"kind": "note", "text": note, "who": "\x1b[31mAnn"}))
    runner = CliRunner()
    assert runner.invoke(main, ["log", "import", str(rig), str(file)]).exit_code == 0

    table = runner.invoke(main, ["log", "show", str(rig)]).output
    assert len(table.splitlines()) == 2
    assert all(letter.isprintable() for row in table.splitlines() for letter in row)
    assert "<script>alert(1)</script> \\u{1b}[2J\\u{1b}]0;x\\u{7} \\u{202e}gnp\\u{a}entry  time" in table
    for form in ([], ["--csv"]):
        exported = runner.invoke(main, ["log", "export", str(rig), *form]).output
        (tmp_path / "again").write_text(exported, encoding="utf-8")
        again = runner.invoke(main, ["log", "import", str(rig), str(tmp_path / "again")])
        assert (again.exit_code, "0 entries added" in again.output) == (0, True)


def test_escapes_in_a_refused_file_do_not_reach_the_terminal(rig: Path, tmp_path: Path) -> None:
    file = handed(
        tmp_path, '{"kind": "\x1b[2J"', json.dumps({"id": new_id(AT), "kind": "\x1b[2J", "at": "\x1b[2J"})
    )
    told = CliRunner().invoke(main, ["log", "import", str(rig), str(file)])

    assert told.exit_code == 2
    assert "\x1b" not in told.output
    assert not (rig / LOG).exists()


def test_a_first_line_of_another_file_names_no_path(rig: Path, reader: Reader, tmp_path: Path) -> None:
    head = HEAD.replace("Larkspur", "../../../../etc/x")

    assert "this is the log of '../../../../etc/x'" in refused(rig, handed(tmp_path, head=head), reader)
    assert sorted(file.name for file in rig.iterdir()) == ["rig.yaml"]


SAID_OF_EVERY_KIND = [
    {"kind": "tire", "position": "steer left", "pressure": "100 psi", "state": "cold", "tread": "9/32 in"},
    {"kind": "air", "position": "steer left", "before": "90 psi", "after": "95 psi", "state": "cold"},
    {"kind": "fill", "tank": "diesel", "amount": "50 gal", "full": "true", "odometer": "1000 mi"},
    {"kind": "fill", "tank": "diesel", "amount": "50 gal", "full": "true", "odometer": "1500 mi"},
    {"kind": "meter", "vehicle": "coach", "odometer": "34000 mi", "engine": "3 h"},
    {"kind": "fault", "what": "a lamp", "position": "steer left"},
    {"kind": "service", "what": "engine oil and filter", "odometer": "30000 mi"},
    {"kind": "spare", "change": "used", "what": "fuel filter"},
]
ENDS = ["0001-01-01T00:00Z", "0002-06-01T00:00-12:00", "1969-12-31T00:00Z", "9999-12-31T23:59Z"]
"""Times at the ends of the calendar, and before computers count."""


def test_moments_at_the_ends_of_the_calendar_are_taken_and_the_log_is_read_on(rig: Path) -> None:
    moments = itertools.product([*ENDS, "2026-05-01T07:00Z"], repeat=2)
    lines = [
        json.dumps({"at": at, "taken": taken, "id": f"{number:08x}-0000-7000-8000-000000000000", **said})
        for number, ((at, taken), said) in enumerate(itertools.product(moments, SAID_OF_EVERY_KIND))
    ]
    file = handed(rig, *lines)
    taken = CliRunner().invoke(main, ["log", "import", str(rig), str(file)])
    assert f"{len(lines)} entries added" in taken.output

    for command in (["log", "show"], ["log", "export"], ["check"]):
        read = CliRunner().invoke(main, [*command, str(rig)])
        assert not read.exception or isinstance(read.exception, SystemExit), command
        assert read.exit_code in {0, 3}, command
