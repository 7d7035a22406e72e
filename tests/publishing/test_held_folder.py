"""A folder has one holder; what a holder left that was killed goes with the next."""

import json
import os
import platform
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from binder.publishing.held_folder import LOCK, clear_after, held, undisturbed

ROOT = Path(__file__).parents[2]
HOLD = """
import sys, time
from pathlib import Path
from binder.publishing.held_folder import held
with held(Path(sys.argv[1]), []) as work:
    (work / "half").write_text("of a page")
    print("held", flush=True)
    time.sleep(60)
"""


def killed_holder(out: Path) -> int:
    """Have a process hold a folder and kill it; hands back its number."""
    with subprocess.Popen([sys.executable, "-c", HOLD, str(out)], stdout=subprocess.PIPE, cwd=ROOT) as holder:
        assert holder.stdout
        assert holder.stdout.readline()
        holder.kill()
    return holder.pid


def test_a_held_folder_names_process_and_host_and_is_left_as_it_was(tmp_path: Path) -> None:
    out = tmp_path / "made" / "out"
    with held(out, []) as work:
        said = json.loads((out / LOCK).read_text())
        mode = work.stat().st_mode & 0o777

    assert said == {"process": os.getpid(), "host": platform.node(), "work": work.name}
    assert mode == 0o700
    assert list(tmp_path.iterdir()) == []


def test_two_work_folders_have_names_that_do_not_follow_from_each_other(tmp_path: Path) -> None:
    names = []
    for _ in range(2):
        with held(tmp_path, []) as work:
            names.append(work.name)

    assert names[0] != names[1]
    assert all(len(name) > 32 for name in names)


def test_a_folder_that_is_held_is_refused_by_name_of_the_holder(tmp_path: Path) -> None:
    with held(tmp_path, []), pytest.raises(BlockingIOError) as told, held(tmp_path, []):
        pass

    who = f"process {os.getpid()} on {platform.node()}"
    assert told.value.strerror == f"{who} prints there; wait for it, or name another folder"
    assert told.value.filename == str(tmp_path)
    assert list(tmp_path.iterdir()) == []


def test_what_a_killed_holder_left_is_told_and_taken_away(tmp_path: Path) -> None:
    number, notes = killed_holder(tmp_path), list[str]()
    left = [file.name for file in tmp_path.iterdir()]
    with held(tmp_path, notes) as work:
        inside = {file.name for file in tmp_path.iterdir()}

    assert len(left) == 2
    assert notes == [f"{tmp_path}: a build that was ended (process {number}) left it locked"]
    assert inside == {LOCK, work.name}
    assert list(tmp_path.iterdir()) == []


def test_a_lock_of_another_computer_is_not_taken(tmp_path: Path) -> None:
    said = {"process": 7, "host": "attic", "work": ".binder-" + "0" * 32}
    (tmp_path / LOCK).write_text(json.dumps(said))
    with pytest.raises(BlockingIOError, match="process 7 on attic prints there, or was ended there"):
        held(tmp_path, []).__enter__()

    assert json.loads((tmp_path / LOCK).read_text()) == said


@pytest.mark.parametrize(
    "said",
    [
        "",
        "[]",
        "7",
        "null",
        "{",
        '{"process": 7, "host": "HOST", "work": "mine"}',
        '{"process": 7, "host": "HOST", "work": "../mine"}',
        '{"work": ".binder-00000000000000000000000000000000", "host": "HOST", "and": 1}',
        '{"work": ".binder-00000000000000000000000000000000"}',
    ],
)
def test_a_lock_that_is_none_of_ours_removes_nothing(tmp_path: Path, said: str) -> None:
    folder, notes = tmp_path / "out" / "mine", list[str]()
    folder.mkdir(parents=True)
    (tmp_path / "mine").mkdir()
    (tmp_path / "out" / LOCK).write_text(said.replace("HOST", platform.node()))
    with held(tmp_path / "out", notes):
        pass

    assert notes == []
    assert [file.name for file in (tmp_path / "out").iterdir()] == ["mine"]
    assert (tmp_path / "mine").is_dir()


def test_a_link_at_the_place_of_the_lock_is_not_written_through(tmp_path: Path) -> None:
    (tmp_path / "taxes").write_text("mine")
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / LOCK).symlink_to(tmp_path / "taxes")
    with pytest.raises(OSError, match=LOCK):
        held(tmp_path / "out", []).__enter__()

    assert (tmp_path / "taxes").read_text() == "mine"


def test_a_child_takes_away_what_its_parent_left_but_nothing_of_the_next_holder(tmp_path: Path) -> None:
    killed_holder(tmp_path)
    left = tmp_path / json.loads((tmp_path / LOCK).read_text())["work"]
    with held(tmp_path, []) as work:
        clear_after(left)
        clear_after(work)
        kept = {file.name for file in tmp_path.iterdir()}
    killed_holder(tmp_path)
    clear_after(left)
    other = len(list(tmp_path.iterdir()))
    clear_after(tmp_path / json.loads((tmp_path / LOCK).read_text())["work"])

    assert kept == {LOCK, work.name}
    assert other == 2
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM, signal.SIGHUP])
def test_an_interrupt_waits_for_steps_that_are_done_to_their_end(number: signal.Signals) -> None:
    heard: list[int] = []
    before = signal.signal(number, lambda one, _: heard.append(one))
    try:
        with undisturbed():
            signal.raise_signal(number)
            time.sleep(0.01)
        during = list(heard)
        signal.raise_signal(number)
    finally:
        signal.signal(number, before)

    assert (during, heard) == ([], [number])
