"""The commands as a person runs them: what they print, what they write, how they exit."""

import hashlib
import json
import os
import shutil
import subprocess
import sys
from datetime import date
from pathlib import Path

import pypdfium2 as pdfium
import pytest
from click.testing import CliRunner, Result

from binder import cli
from binder.printing.build import BuildOptions, read_and_assess
from binder.publishing.printing import NUMBERS
from tests.by_key import ByKey
from tests.demos import PROFILES
from tests.paper.printings import PDFS
from tests.publishing.test_publishing import written

ON = date(2026, 6, 1)
OVERLOADED = ("gross_vehicle_weight_rating: 12500 lb", "gross_vehicle_weight_rating: 12400 lb")


def run(*words: str | Path) -> Result:
    return CliRunner().invoke(cli.main, [str(word) for word in words])


@pytest.fixture(autouse=True)
def a_day_of_the_demo(monkeypatch: pytest.MonkeyPatch) -> None:
    """Commands without --date take today; a test must not depend on it."""
    effective = cli._effective
    monkeypatch.setattr(cli, "_effective", lambda on: ON if on is None else effective(on))


def copied(name: str, folder: Path, *changes: tuple[str, str]) -> Path:
    rig = folder / name
    shutil.copytree(PROFILES / name, rig)
    text = (rig / "rig.yaml").read_text("utf-8")
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    (rig / "rig.yaml").write_text(text, "utf-8")
    return rig


@pytest.fixture(scope="module")
def overloaded(tmp_path_factory: pytest.TempPathFactory) -> tuple[Result, Path]:
    """Kestrel 50 lb over a rating, built once; what the command said, and where it wrote."""
    folder = tmp_path_factory.mktemp("built")
    rig, out = copied("kestrel", folder, OVERLOADED), folder / "printing"
    return run("build", rig, "--out", out, "--date", "2026-06-01"), out


def test_new_writes_a_profile_whose_check_names_what_is_missing(tmp_path: Path) -> None:
    folder = tmp_path / "mine"
    made = run("new", folder)
    checked = run("check", folder)

    assert made.exit_code == 0
    assert f"wrote {folder / 'rig.yaml'}" in made.output
    assert (folder / "rig.yaml").is_file()
    assert made.output.endswith(f"Fill in the blanks, then: binder check {folder}\n")
    assert checked.exit_code == 3
    assert "rig.yaml vehicles.coach.axles.drive.at" in checked.output


def test_new_leaves_a_folder_alone_that_holds_something(tmp_path: Path) -> None:
    (tmp_path / "taxes.txt").write_text("mine")
    refused = run("new", tmp_path)

    assert refused.exit_code == 2
    assert refused.output == f"Error: {tmp_path} is not empty; name a new folder\n"
    assert [file.name for file in tmp_path.iterdir()] == ["taxes.txt"]


def test_check_of_a_sound_rig_exits_with_nothing_wrong_and_writes_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    checked = run("check", PROFILES / "kestrel")

    assert checked.exit_code == 0
    assert checked.output.startswith("DO NOT DRIVE: none\nNOT CLEARED: none\nATTENTION: ")
    assert list(tmp_path.iterdir()) == []


def test_check_of_a_rig_with_a_valve_nobody_read_exits_with_three() -> None:
    checked = run("check", PROFILES / "larkspur")

    assert checked.exit_code == 3
    assert "NOT CLEARED: 2\n  Coach, steer: highest pressure of the valve not known." in checked.output


def test_check_of_an_overloaded_rig_exits_with_one(tmp_path: Path) -> None:
    checked = run("check", copied("kestrel", tmp_path, OVERLOADED))

    assert checked.exit_code == 1
    assert checked.output.startswith(
        "DO NOT DRIVE: 1\n  Coach, total: 50 lb over its gross vehicle weight rating (departure).\n"
    )


def test_check_of_wrong_input_exits_with_two_and_names_the_place(tmp_path: Path) -> None:
    checked = run("check", copied("kestrel", tmp_path, ("division: 5 lb", "division: 5")))

    assert checked.exit_code == 2
    assert "scale_tickets[1].division: '5' has no unit; write it like '5 lb'" in checked.output
    assert checked.output.endswith("nothing was written.\n")


def test_several_trips_ask_for_one(tmp_path: Path) -> None:
    rig = copied("kestrel", tmp_path)
    plan = next((rig / "trips").glob("*.yaml"))
    shutil.copy(plan, rig / "trips" / "second.yaml")
    unsaid, said = run("check", rig), run("check", rig, "--trip", "second")

    assert unsaid.exit_code == 2
    assert "there are several trips; choose one with --trip NAME: " in unsaid.output
    assert said.exit_code == 0


def test_no_trip_leaves_two_states_and_no_day_sheet(tmp_path: Path) -> None:
    from binder.cards.ring.order import ring  # noqa: PLC0415 - only here are cards made.

    rig = copied("kestrel", tmp_path)
    shutil.rmtree(rig / "trips")
    assessment = read_and_assess(rig, BuildOptions(ON))
    loads = [key for key in ByKey(assessment).keys if key.startswith("weights.coach.total.")]

    assert {key.split(".")[3] for key in loads} == {"as_weighed", "everything_full", "heaviest"}
    assert [card.id for card in ring(assessment) if "day" in card.id] == []
    assert run("check", rig).exit_code == 0


@pytest.mark.parametrize(
    ("words", "spared"),
    [
        (["--help"], {"binder.models", "binder.printing.build", "pint", "pydantic", "yaml"}),
        (["explain", "kestrel"], {"binder.cards.ring.order", "binder.rendering.layout", "jinja2"}),
    ],
    ids=["help", "explain"],
)
def test_a_command_loads_nothing_that_it_does_not_need(words: list[str], spared: set[str]) -> None:
    command = [sys.executable, "-X", "importtime", "-c", "from binder.cli import main; main()", *words]
    ran = subprocess.run(command, capture_output=True, text=True, check=True, cwd=PROFILES)

    loaded = {line.rpartition("|")[2].strip() for line in ran.stderr.splitlines()}
    assert "binder.cli" in loaded
    assert loaded & spared == set()


def test_explain_says_how_one_number_was_found() -> None:
    told = run("explain", PROFILES / "larkspur", "tires.coach.drive.row_pressure")

    assert told.exit_code == 0
    assert told.output.startswith("tires.coach.drive.row_pressure = 90 psi (table)\n")
    assert "  - load per tire: 4,750 lb (tires.coach.drive.load_per_tire)\n" in told.output
    assert "  source: " in told.output


def test_explain_takes_the_start_of_a_key_and_lists_all_without_one() -> None:
    some, every = run("explain", PROFILES / "larkspur", "coupling."), run("explain", PROFILES / "larkspur")

    headings = [line.split(" = ")[0] for line in some.output.splitlines() if line and line[0] != " "]
    assert {"coupling.coach_car.limit", "coupling.coach_car.margin"} <= set(headings)
    assert all(line.startswith("coupling.") for line in headings)
    assert "tires.coach.steer.set_point = 105 psi\n" in every.output


def test_explain_refuses_a_key_no_number_has() -> None:
    told = run("explain", PROFILES / "larkspur", "tires.bicycle")

    assert told.exit_code == 2
    assert "no number starts with, or is told by, 'tires.bicycle'" in told.output


@pytest.mark.parametrize("written", ["tomorrow", "2026-06-31", "6/1/2026"])
def test_a_date_that_is_none_is_refused(tmp_path: Path, written: str) -> None:
    told = run("build", PROFILES / "kestrel", "--out", tmp_path / "out", "--date", written)

    assert told.exit_code == 2
    assert told.output == f"Error: --date: '{written}' is not a date; write it like '2026-06-01'\n"
    assert not (tmp_path / "out").exists()


def test_wrong_input_writes_nothing_and_leaves_the_old_printing(tmp_path: Path) -> None:
    rig, out = copied("kestrel", tmp_path, ("division: 5 lb", "division: 5")), tmp_path / "out"
    out.mkdir()
    (out / "cards.pdf").write_bytes(b"old")
    told = run("build", rig, "--out", out)

    assert told.exit_code == 2
    assert [(file.name, file.read_bytes()) for file in out.iterdir()] == [("cards.pdf", b"old")]


def test_a_file_where_the_printing_should_go_is_told_at_once(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("mine")
    told = run("build", PROFILES / "kestrel", "--out", tmp_path / "out" / "here")

    assert told.exit_code == 2
    assert "a file stands where the printing is to be written" in told.output
    assert "... parts" not in told.output
    assert (tmp_path / "out").read_text() == "mine"


def test_an_overloaded_rig_is_printed_all_the_same(overloaded: tuple[Result, Path]) -> None:
    result, out = overloaded

    assert result.exit_code == 1, result.output
    assert "DO NOT DRIVE: 1\n" in result.output
    assert {file.name for file in out.iterdir()} == {*PDFS, NUMBERS, "log"}
    cover = pdfium.PdfDocument(out / "binder.pdf")[0].get_textpage().get_text_range()
    assert "do not drive" in cover.lower()
    assert "50 lb over its gross vehicle weight rating" in " ".join(cover.split())


def test_numbers_hold_every_figure_finding_card_and_hash(overloaded: tuple[Result, Path]) -> None:
    _, out = overloaded
    record = json.loads((out / NUMBERS).read_text("utf-8"))

    assert list(record) == [
        "rig",
        "trip",
        "date",
        "figures",
        "findings",
        "cards",
        "in_hand_once_printed",
        "files",
    ]
    assert (record["rig"], record["date"]) == ("Kestrel", "2026-06-01")
    for figure in record["figures"].values():
        assert set(figure) == {"value", "unit", "kind", "inputs", "rule", "source", "cautions", "slack"}
        assert figure["rule"]
    assert record["figures"]["tires.coach.steer.set_point"]["value"] == 65
    assert record["figures"]["tires.coach.steer.set_point"]["unit"] == "psi"
    assert {tuple(found) for found in record["findings"]} == {("grade", "key", "text", "what_helps", "path")}
    assert {found["grade"] for found in record["findings"]} <= {"do not drive", "attention", "missing"}
    assert all(card["sides"] in {1, 2} and card["title"] for card in record["cards"])
    assert record["files"] == {name: hashlib.sha256((out / name).read_bytes()).hexdigest() for name in PDFS}


def test_a_mixed_printing_is_told_by_check(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    rig, elsewhere = copied("kestrel", tmp_path), tmp_path / "elsewhere"
    usual = tmp_path / "out" / "kestrel" / "two-rivers" / "everything"
    places: dict[Path, list[str | Path]] = {usual: [], elsewhere: ["--out", elsewhere]}
    for out, words in places.items():
        written(out, cards=b"1", binder=b"1")
        whole = run("check", rig, *words)
        (out / "cards.pdf").write_bytes(b"from another day")
        mixed = run("check", rig, *words)

        assert "mixed" not in whole.output
        assert "is mixed: cards.pdf is not of it; build it again." in mixed.output


def test_without_pango_one_sentence_says_what_to_install(tmp_path: Path) -> None:
    stub = tmp_path / "stub"
    stub.mkdir()
    (stub / "weasyprint.py").write_text(
        "import sys\nprint('-----\\nmany words')\nprint('more', file=sys.stderr)\n"
        "raise OSError(\"cannot load library 'libpango-1.0-0'\")\n"
    )
    result = subprocess.run(
        [
            sys.executable,
            "-m",
            "binder.cli",
            "build",
            str(PROFILES / "kestrel"),
            "--out",
            str(tmp_path / "out"),
        ],
        env=os.environ | {"PYTHONPATH": str(stub)},
        capture_output=True,
        text=True,
        check=False,
        cwd=PROFILES.parent,
    )

    assert result.returncode == 2
    assert result.stdout == ""
    *steps, sentence = result.stderr.splitlines()
    assert all(step.startswith("... ") for step in steps)
    assert sentence.startswith("Error: binder prints with a system library that is missing (Pango); ")
    assert not (tmp_path / "out").exists()
