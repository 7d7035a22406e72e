"""A message is read as it was saved: a line an entry, the card from its subject, the time from its head."""

from email.message import EmailMessage
from pathlib import Path

import pytest

from binder.log.importing import Import, import_file
from binder.log.reading import Reader
from binder.log.store import entries_in
from tests.log.test_import import refused

BODY = """\
Good morning,

tire steer left 104 psi cold
"""
LINES = """\
who Ann
ambient 48 degF
tire steer left 104 psi cold, gauge
Tire: front left, 38 psi
air drive left outer 95 psi 105 psi
fill diesel, 62.1 gal, full, odometer 34510 mi
meter coach odometer 34510 mi engine 1180 h
fault clearance lamp dark, left rear

at 2026-06-02 08:00
service engine oil and filter, odometer 34510 mi, vehicle coach
spare used fuel filter, 1
note water tastes of iron
> tire steer right 99 psi
--
Sent from a telephone
"""
HEAD = """\
Date: Mon, 01 Jun 2026 07:10:00 -0600
From: Ann <ann@example.org>
Subject: 3.dx2vy

"""
SAID = [
    (
        "tire",
        {
            "position": "steer left",
            "vehicle": "coach",
            "pressure": "104 psi",
            "state": "cold",
            "by": "gauge",
            "ambient": "48 degF",
        },
    ),
    ("tire", {"position": "front left", "vehicle": "car", "pressure": "38 psi", "ambient": "48 degF"}),
    (
        "air",
        {
            "position": "drive left outer",
            "before": "95 psi",
            "after": "105 psi",
            "vehicle": "coach",
            "ambient": "48 degF",
        },
    ),
    (
        "fill",
        {"tank": "diesel", "amount": "62.1 gal", "full": "true", "vehicle": "coach", "odometer": "34510 mi"},
    ),
    ("meter", {"vehicle": "coach", "odometer": "34510 mi", "engine": "1180 h"}),
    ("fault", {"what": "clearance lamp dark, left rear"}),
    ("service", {"what": "engine oil and filter", "vehicle": "coach", "odometer": "34510 mi"}),
    ("spare", {"change": "used", "what": "fuel filter", "quantity": "1"}),
    ("note", {"text": "water tastes of iron"}),
]


def saved(folder: Path, text: str | bytes, name: str = "log.eml") -> Path:
    file = folder / name
    file.write_bytes(text if isinstance(text, bytes) else text.encode())
    return file


def test_a_message_is_read_line_by_line_and_once(rig: Path, reader: Reader, tmp_path: Path) -> None:
    file = saved(tmp_path, HEAD + LINES)

    assert import_file(rig, file, reader, {}) == Import(9, 0, ())
    assert import_file(rig, file, reader, {}) == Import(0, 9, ())
    entries = entries_in(rig)
    assert [(one.kind, one.written) for one in entries] == SAID
    assert {(one.who, one.card, one.code) for one in entries} == {("Ann", "3", "dx2vy")}
    assert [one.at.isoformat() for one in entries[5:7]] == [
        "2026-06-01T07:10:00-06:00",
        "2026-06-02T08:00:00-06:00",
    ]


@pytest.mark.parametrize("coding", ["quoted-printable", "base64", "7bit"])
def test_a_message_of_a_mail_program_says_the_same(
    rig: Path, reader: Reader, tmp_path: Path, coding: str
) -> None:
    message = EmailMessage()
    message["Date"] = "Mon, 01 Jun 2026 07:10:00 -0600"
    message["Subject"] = "Re: 3.dx2vy"
    message.set_content(LINES, cte=coding)
    message.add_alternative("<p>tire steer right 1 psi</p>", subtype="html")
    import_file(rig, saved(tmp_path, message.as_bytes().replace(b"\n", b"\r\n")), reader, {})

    entries = entries_in(rig)
    assert [(one.kind, one.written) for one in entries] == SAID
    assert {(one.card, one.code) for one in entries} == {("3", "dx2vy")}


def test_a_plain_text_needs_its_time(rig: Path, reader: Reader, tmp_path: Path) -> None:
    text = "tire steer left 104 psi cold\n"

    assert "at is needed: the time" in refused(rig, saved(tmp_path, text, "log.txt"), reader)
    timed = saved(tmp_path, f"card 3.dx2vy\nat 2026-06-01 07:10 -06:00\n{text}{text}", "log.txt")
    assert import_file(rig, timed, reader, {}) == Import(2, 0, ())


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("Good morning", "'good' is no kind of entry; begin with one of: tire, air, fill"),
        ("tire hub 104 psi", "'hub 104 psi' names no position of Larkspur; it has: steer left, steer right"),
        ("tire steer left 104", "'104' has no unit; write it like '104 psi'"),
        ("tire steer left 104 psi lukewarm", "'lukewarm' is not understood here"),
        ("fill beer 3 gal", "'beer 3 gal' names no tank of Larkspur; it has: diesel, exhaust fluid"),
        ("air steer left 95 psi", "after is needed"),
        ("card three", "'three' is no card's mark"),
        ("weight coach 3 lb", "'weight' is no kind of entry"),
        ("meter coach", "one of these is needed: odometer, engine, generator"),
    ],
)
def test_a_line_that_is_not_understood_is_told_with_its_number(
    rig: Path, reader: Reader, tmp_path: Path, line: str, told: str
) -> None:
    text = refused(rig, saved(tmp_path, f"{HEAD}note first\n\n{line}\n"), reader)

    assert told in text
    assert "log.eml:7:" in text


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (HEAD, "this message has no entry"),
        (HEAD + "> quoted\n", "this message has no entry"),
        ("Subject: x\nContent-Type: text/html\n\n<p>note x</p>", "this message has no plain text"),
        ("Subject: x\nContent-Type: text/plain; charset=none-such\n\nnote x", "cannot be read"),
        ("Subject: x\nContent-Type: multipart/mixed; boundary=b\n\n--b\n", "this message has no"),
        ("Date: never\nSubject: x\n\nnote x", "at is needed"),
        ("Subject: " + "x" * 60000 + "\n\nnote x", "at is needed"),
    ],
)
def test_a_message_that_cannot_be_read_is_refused(
    rig: Path, reader: Reader, tmp_path: Path, text: str, told: str
) -> None:
    assert told in refused(rig, saved(tmp_path, text), reader)
