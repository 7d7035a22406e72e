"""The invented season of a demo: its commands in README take it, again and again, and every kind is in it."""

import json
import re
from datetime import date
from pathlib import Path

from binder.log.importing import import_file
from binder.log.in_force import in_force
from binder.log.json_lines import as_json_lines
from binder.log.reading import Reader
from binder.log.store import entries_in
from binder.models.log_entries import KINDS
from tests.demos import KEPT, PROFILES, without_logs

SEASON = PROFILES / "larkspur" / "season.jsonl"
TRIP_BEGINS = date(2026, 6, 1)


def test_the_season_is_taken_whole_and_only_once(rig: Path, reader: Reader) -> None:
    count = len(SEASON.read_text("utf-8").splitlines()) - 1

    first, again = (import_file(rig, SEASON, reader, {}) for _ in range(2))

    assert (first.added, first.known, len(first.unsure)) == (count, 0, 1)
    assert (again.added, again.known) == (0, count)
    assert 110 < count < 140


def test_the_log_of_the_season_writes_out_what_was_read(rig: Path, reader: Reader) -> None:
    import_file(rig, SEASON, reader, {})
    written = [json.loads(line) for line in as_json_lines("Larkspur", entries_in(rig))]
    kept = [json.loads(line) for line in SEASON.read_text("utf-8").splitlines()]

    assert sorted(written[1:], key=lambda one: one["id"]) == sorted(kept[1:], key=lambda one: one["id"])


def test_the_season_has_every_kind_but_a_weighing_and_ends_before_the_trip(rig: Path, reader: Reader) -> None:
    import_file(rig, SEASON, reader, {})
    every = entries_in(rig)

    assert {one.kind for one in every} == set(KINDS) - {"weight"}
    assert all(one.at.date() < TRIP_BEGINS for one in every)
    # One was corrected, one withdrawn; those and the withdrawal itself do not count.
    assert len(every) - len(in_force(every)) == 3
    assert "INVENTED" in next(str(one.written["text"]) for one in in_force(every) if one.kind == "note")


def test_setting_up_takes_the_season_before_it_prints_on_each_system(root: Path) -> None:
    text = (root / "README.md").read_text("utf-8").split("## Set up")[1].split("\n**2.**")[0]
    taken = r"binder log import profiles/larkspur profiles/larkspur/season.jsonl && \S*binder build profiles/"

    assert len(re.findall(taken, text)) == len(re.findall(r"binder build ", text)) == 3


def test_the_demos_of_the_tests_have_no_log_whatever_was_set_up(tmp_path: Path) -> None:
    rig = tmp_path / "profiles" / "larkspur"
    rig.mkdir(parents=True)
    (rig / "rig.yaml").write_text("name: Larkspur\n", "utf-8")

    assert without_logs(tmp_path / "profiles") == tmp_path / "profiles"
    (rig / "log.sqlite").write_bytes(b"")
    copied = without_logs(tmp_path / "profiles")

    assert copied != tmp_path / "profiles"
    assert [file.name for file in (copied / "larkspur").iterdir()] == ["rig.yaml"]
    assert not any(PROFILES.glob("*/log.sqlite*"))
    assert {one.name for one in PROFILES.iterdir()} == {one.name for one in KEPT.iterdir()}


def test_no_test_takes_the_demos_from_elsewhere(root: Path) -> None:
    named = {file.name for file in (root / "tests").rglob("*.py") if '"profiles"' in file.read_text("utf-8")}

    # They name it as a folder of the top level, make one of their own, or are run by hand with a log or none.
    assert named == {"demos.py", "test_tree.py", "test_readme.py", "test_season.py"} | {
        file.name for file in (root / "tests" / "benchmarks").glob("*.py") if file.name != "__init__.py"
    }
