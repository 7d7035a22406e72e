"""What a build leaves behind, however it ends: nothing but a printing, and no process."""

import contextlib
import os
import re
import signal
import subprocess
import sys
import time
from pathlib import Path

import psutil
import pytest
from click.testing import CliRunner

from binder import cli
from binder.publishing.held_folder import held
from tests.demos import PROFILES

ROOT = Path(__file__).parents[2]
KESTREL = PROFILES / "kestrel"
BINDER = [sys.executable, "-m", "binder.cli"]


def session(leader: int) -> list[int]:
    """List the processes of a session that live, those that wait for nobody to hear of their end aside."""
    found = []
    for one in psutil.process_iter():
        with contextlib.suppress(psutil.Error, OSError):
            if os.getsid(one.pid) == leader and one.status() != psutil.STATUS_ZOMBIE:
                found.append(one.pid)
    return found


def ended(out: Path, number: signal.Signals, *, is_group: bool) -> tuple[int, str, list[str]]:
    """End a build while parts are laid out: what it ended with, said, and left in five seconds."""
    command = [*BINDER, "build", str(KESTREL), "--no-cache", "--out", str(out)]
    temporary = out.with_name("temporary")
    temporary.mkdir()
    with subprocess.Popen(
        command, stderr=subprocess.PIPE, text=True, cwd=ROOT, start_new_session=True,
        env=os.environ | {"TMPDIR": str(temporary)},
    ) as run:  # fmt: skip
        assert run.stderr
        assert any("... parts" in line for line in run.stderr)
        time.sleep(1)
        assert len(session(run.pid)) > 2
        (os.killpg if is_group else os.kill)(run.pid, number)
        code = run.wait(5)
        until = time.monotonic() + 5
        while session(run.pid) and time.monotonic() < until:
            time.sleep(0.1)
        left = [f"process {pid}" for pid in session(run.pid)]
        said = "" if left else run.stderr.read()
    return code, said, left + [str(file) for folder in (out, temporary) for file in folder.rglob("*")]


@pytest.mark.usefixtures("_interruptible")
@pytest.mark.parametrize(
    ("number", "is_group"),
    [
        (signal.SIGINT, True),
        (signal.SIGINT, False),
        (signal.SIGTERM, True),
        (signal.SIGTERM, False),
        (signal.SIGHUP, True),
    ],
)
def test_an_interrupt_ends_with_one_line_and_leaves_nothing(
    tmp_path: Path, number: signal.Signals, *, is_group: bool
) -> None:
    told = ended(tmp_path / "out", number, is_group=is_group)

    assert told == (128 + number, "Stopped; a printing that was there before is as it was.\n", [])
    assert not (tmp_path / "out").exists()


def test_children_end_with_a_parent_that_was_killed_and_clear_up_after_it(tmp_path: Path) -> None:
    assert ended(tmp_path / "out", signal.SIGKILL, is_group=False) == (-signal.SIGKILL, "", [])


def test_what_a_killed_group_left_goes_with_the_next_build(tmp_path: Path) -> None:
    out = tmp_path / "out"
    code, _, left = ended(out, signal.SIGKILL, is_group=True)
    notes: list[str] = []
    with held(out, notes):
        pass

    assert code == -signal.SIGKILL
    assert left
    assert [file for file in left if not Path(file).is_relative_to(out)] == []
    assert len(notes) == 1
    assert list(out.iterdir()) == []


def test_a_build_leaves_nothing_but_its_printing(tmp_path: Path) -> None:
    (tmp_path / "temporary").mkdir()
    subprocess.run(
        [*BINDER, "build", str(KESTREL), "--set", "mechanic", "--out", str(tmp_path / "out")],
        env=os.environ | {"TMPDIR": str(tmp_path / "temporary")}, check=True, capture_output=True, cwd=ROOT,
    )  # fmt: skip

    assert list((tmp_path / "temporary").iterdir()) == []
    assert {file.name for file in (tmp_path / "out").iterdir()} == {
        "binder.pdf", "cards.pdf", "sheets.pdf", "numbers.json", "log",
    }  # fmt: skip


def test_a_folder_another_process_prints_to_is_refused_with_74(tmp_path: Path) -> None:
    with held(tmp_path / "out", []):
        told = CliRunner().invoke(cli.main, ["build", str(KESTREL), "--out", str(tmp_path / "out")])

    assert told.exit_code == 74
    last = told.output.splitlines()[-1]
    assert last.startswith(f"Cannot read or write {tmp_path / 'out'}: process {os.getpid()} on ")
    assert last.endswith(" prints there; wait for it, or name another folder.")


def test_a_terminal_is_shown_a_bar_with_the_parts_that_are_done(tmp_path: Path) -> None:
    screen, terminal = os.openpty()
    words = ["build", str(KESTREL), "--no-cache", "--set", "mechanic", "--out", str(tmp_path / "out")]
    with subprocess.Popen(
        [*BINDER, *words],
        stdout=subprocess.DEVNULL,
        stderr=terminal,
        cwd=ROOT,
        env=os.environ | {"TERM": "xterm"},
    ) as run:
        os.close(terminal)
        shown = b""
        with contextlib.suppress(OSError):  # As Linux tells that nobody writes any more.
            while piece := os.read(screen, 10_000):
                shown += piece
    os.close(screen)

    counts = {(int(done), int(of)) for done, of in re.findall(rb"parts.*?(\d+)/(\d+)", shown)}
    assert run.returncode == 0
    assert len({of for _, of in counts}) == 1
    assert len(counts) > 1
    assert b"... parts" not in shown
