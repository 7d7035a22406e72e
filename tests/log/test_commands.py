"""The commands of the log as they are typed, and what they ask."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from binder.cli import main
from binder.log.store import entries_in
from binder.models.load import LOG, load_rig
from binder.models.log_entries import Weight
from binder.models.rig import Rig

AT = ("--at", "2026-06-01 07:10 -06:00")


def run(*words: str, asked: str = "") -> Result:
    return CliRunner().invoke(main, ["log", *words], input=asked)


def added(rig: Path, *words: str, asked: str = "") -> list[str]:
    result = run("add", str(rig), *words, asked=asked)
    assert result.exit_code == 0, result.output
    return [line.split()[1] for line in result.output.splitlines() if line.startswith("added ")]


def shown(rig: Path, *options: str) -> list[str]:
    """Kind and what is said, of each row."""
    rows = [row for row in run("show", str(rig), *options).output.splitlines() if "before these" not in row]
    place = rows[0].index("kind")
    return [" ".join(row[place:].split()) for row in rows[1:]]


def test_an_entry_is_added_in_a_line_and_shown(rig: Path) -> None:
    (own_id,) = added(
        rig, "tire", "steer", "left", "104", "psi", "cold", *AT, "--who", "Ann", "--card", "3.dx2vy"
    )

    assert run("show", str(rig)).output == (
        "entry   time                     kind  who  says\n"
        f"{own_id}  2026-06-01 07:10 -06:00  tire  Ann  coach steer left, 104 psi, cold, card 3.dx2vy\n"
    )


def test_an_entry_is_corrected_and_withdrawn_by_the_end_of_its_id(rig: Path) -> None:
    (first,) = added(rig, "tire steer left 104 psi", *AT)
    (second,) = added(rig, "tire steer left 101 psi", *AT, "--corrects", first)
    assert shown(rig) == [f"tire coach steer left, 101 psi, corrects {first}"]

    added(rig, "withdrawal wrong rig", "--corrects", second)
    assert run("show", str(rig)).output == "No such entry.\n"
    assert len(shown(rig, "--all")) == 3
    assert len(entries_in(rig)) == 3


def test_a_walk_around_the_rig_asks_for_every_tire(rig: Path) -> None:
    answers = ["tire", "cold", "gauge", "48", "", "104", "", "", "", *["95", ""] * 4, *["", ""] * 4]
    ends = added(rig, *AT, asked="\n".join(answers) + "\n")

    said = [one.written for one in entries_in(rig)]
    assert len(ends) == 5
    assert said[0] == {
        "position": "steer left",
        "vehicle": "coach",
        "pressure": "104 psi",
        "state": "cold",
        "by": "gauge",
        "ambient": "48 degF",
    }
    assert [one["position"] for one in said[1:]] == [
        f"drive {place}" for place in ("left outer", "left inner", "right inner", "right outer")
    ]


def test_other_kinds_are_asked_for_field_by_field(rig: Path) -> None:
    added(rig, *AT, asked="fill\ndiesel\n62.1\nyes\ncoach\n34510 mi\n\n")

    assert entries_in(rig)[0].written == {
        "tank": "diesel",
        "amount": "62.1 gal",
        "full": "yes",
        "vehicle": "coach",
        "odometer": "34510 mi",
    }


def test_a_weighing_is_asked_for_and_offered_as_a_ticket_of_the_profile(rig: Path) -> None:
    weights = ["5480", "5240", "10720", "8420 lb", "", "16480", "27200", *[""] * 7]
    (own_id,) = added(rig, *AT, asked="\n".join(["weight", *weights]) + "\n")
    before = (rig / "rig.yaml").read_bytes()
    told = run("ticket", str(rig), own_id).output

    assert told.splitlines()[1:] == [
        "  - on: 2026-06-01",
        "    weights:",
        "      coach:",
        "        steer: {left: 5480 lb, right: 5240 lb, axle: 10720 lb}",
        "        drive: {left: 8420 lb, axle: 16480 lb}",
        "        total: 27200 lb",
    ]
    assert (rig / "rig.yaml").read_bytes() == before
    offered, first, *_ = with_ticket(rig, told).scale_tickets
    assert offered.weights["coach"].axles["steer"] == first.weights["coach"].axles["steer"]


def with_ticket(rig: Path, told: str) -> Rig:
    """Load the profile with an offered ticket pasted where it belongs."""
    text = (rig / "rig.yaml").read_text("utf-8")
    (rig.parent / "pasted").mkdir(exist_ok=True)
    pasted = text.replace("scale_tickets:\n", f"scale_tickets:\n{told}", 1)
    (rig.parent / "pasted" / "rig.yaml").write_text(pasted, "utf-8")
    return load_rig(rig.parent / "pasted")


def test_a_ticket_says_all_that_the_entry_says_whatever_the_words(rig: Path, tmp_path: Path) -> None:
    said = {
        "weights": {"car": {"front": {"axle": "2230 lb"}}},
        "division": "10 lb",
        "aboard": [{"what": 'two people: "Ann", Bo #2', "weight": "360 lb", "at": "-4 in", "in": "coach"}],
        "levels": {"coach": {"diesel": "3/4", "propane": "60 %"}},
        "state": {"slides": "in", "coupled": False},
        "tires": "yes",
    }
    entry = {
        "id": "0198a000-0000-7000-8000-000000000000",
        "at": "2026-06-01T07:10:00-06:00",
        "kind": "weight",
    }
    head = {"format": "rig log", "version": 1, "rig": "Larkspur"}
    (tmp_path / "a.jsonl").write_text(f"{json.dumps(head)}\n{json.dumps(entry | said)}\n", "utf-8")
    assert run("import", str(rig), str(tmp_path / "a.jsonl")).exit_code == 0

    ticket = with_ticket(rig, run("ticket", str(rig), entry["id"]).output).scale_tickets[0]
    kept = entries_in(rig)[0].said
    fields = set(Weight.model_fields)
    assert {name: getattr(ticket, name) for name in fields} == {name: getattr(kept, name) for name in fields}
    assert ticket.on.isoformat() == "2026-06-01"


@pytest.mark.parametrize(
    ("options", "said"),
    [
        ((), ["a", "b", "c"]),
        (("--kind", "note"), ["a", "c"]),
        (("--vehicle", "coach"), ["b"]),
        (("--position", "steer left"), ["b"]),
        (("--card", "3"), ["a"]),
        (("--since", "2026-06-02"), ["b", "c"]),
        (("--until", "2026-06-02"), ["a"]),
        (("--last", "1"), ["c"]),
    ],
)
def test_the_table_shows_what_is_asked_for(rig: Path, options: tuple[str, ...], said: list[str]) -> None:
    added(rig, "note a", "--at", "2026-06-01 12:00", "--card", "3.dx2vy")
    added(rig, "tire steer left 104 psi", "--at", "2026-06-02 12:00")
    added(rig, "note c", "--at", "2026-06-03 12:00")
    rows = {"a": "note a, card 3.dx2vy", "b": "tire coach steer left, 104 psi", "c": "note c"}

    assert shown(rig, *options) == [rows[one] for one in said]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (
            ("add", "RIG", "tire hub 9 psi"),
            "position: 'hub 9 psi' names no position of Larkspur; it has: steer left",
        ),
        (("add", "RIG", "note x", "--corrects", "abcdef"), "corrects: 'abcdef' ends no entry of this log"),
        (("add", "RIG", "note x", "--at", "noon"), "at: 'noon' is no time"),
        (("add", "RIG", "note x", "--card", "three"), "card: 'three' is no card; write it like '3' or '5.1'"),
        (("add", "NONE", "note x"), "there is no such folder"),
        (("show", "NONE"), "there is no such folder"),
        (("show", "RIG", "--since", "noon"), "'noon' is not a day; write it like '2026-06-01'"),
        (("ticket", "RIG", "abcdef"), "'abcdef' ends no entry of this log"),
        (("import", "RIG", "NONE"), "there is no such file"),
        (("import", "RIG", "NONE", "--zone", "Mars/Base"), "'Mars/Base' is no zone"),
        (("import", "RIG", "NONE", "--zone", "../../etc/passwd"), "is no zone"),
        (("import", "RIG", "NONE", "--with", "sensor"), "--with is like 'by=sensor'"),
        (("export", "NONE"), "there is no such folder"),
    ],
)
def test_what_is_wrong_is_told_and_nothing_is_written(rig: Path, words: tuple[str, ...], told: str) -> None:
    result = run(*(word.replace("RIG", str(rig)).replace("NONE", str(rig / "none")) for word in words))

    assert (result.exit_code, told in result.output) == (2, True), result.output
    assert not (rig / LOG).exists()


def test_earlier_entries_that_are_left_out_are_counted(rig: Path) -> None:
    for text in "abc":
        added(rig, f"note {text}", *AT)
    told = run("show", str(rig), "--last", "1").output.splitlines()

    assert told[0] == "2 entries before these; --last 0 shows all."
    assert told[-1].endswith("  c")
    assert len(run("show", str(rig), "--last", "0").output.splitlines()) == 4


def test_an_empty_log_says_how_to_add_to_it(rig: Path) -> None:
    assert run("show", str(rig)).output == f"The log is empty; add to it with 'binder log add {rig}'.\n"
    assert not (rig / LOG).exists()


def test_a_clock_years_off_is_told_in_one_line(rig: Path) -> None:
    result = run("add", str(rig), "note x", "--at", "2001-01-01 00:00")

    clock = "a clock over a day ahead of this computer's clock, or years behind it"
    assert result.output.splitlines()[1:] == [
        f"1 entry, from 2001-01-01 on, by {clock}: taken, and marked unsure."
    ]
    assert " ? " in run("show", str(rig)).output
