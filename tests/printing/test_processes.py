"""Processes that lay parts out: one is started and parts into the others; all end with the work."""

import os
import signal
import time
from collections.abc import Iterator
from concurrent.futures import CancelledError
from pathlib import Path

import psutil
import pytest

from binder.rendering.parts.processes import Processes

COUNT = 3


@pytest.fixture
def processes(monkeypatch: pytest.MonkeyPatch) -> Iterator[Processes]:
    monkeypatch.setattr(os, "sched_getaffinity", lambda _process: set(range(COUNT)), raising=False)
    with Processes() as begun:
        yield begun


def slowly_named(seconds: float) -> int:
    """Name the process that was asked, after a while: the next call goes to another."""
    time.sleep(seconds)
    return os.getpid()


def all_named(processes: Processes) -> set[int]:
    # The first call waits for what is loaded.
    processes.submit(slowly_named, 0).result(30)
    return {one.result(30) for one in [processes.submit(slowly_named, 0.5) for _ in range(COUNT)]}


def ended() -> None:
    os.kill(os.getpid(), signal.SIGKILL)


def after(seconds: float, file: Path) -> str:
    time.sleep(seconds)
    file.write_text(file.read_text("utf-8") + "x", "utf-8")
    return file.read_text("utf-8")


def test_as_many_work_as_there_are_processors_and_none_outlives_the_work() -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(os, "sched_getaffinity", lambda _process: set(range(COUNT)), raising=False)
        with Processes() as begun:
            named = all_named(begun)

    assert len(named) == COUNT
    assert [one for one in named if psutil.pid_exists(one)] == []


def test_one_that_always_ends_is_told_and_the_others_work_on(processes: Processes) -> None:
    named = all_named(processes)

    with pytest.raises(ChildProcessError, match="ended from outside"):
        processes.submit(ended).result(30)

    assert processes.submit(slowly_named, 0).result(30) not in {0, os.getpid()}
    assert len(named) == COUNT


def test_work_of_those_that_end_with_the_one_they_parted_from_is_done_by_others(
    processes: Processes, tmp_path: Path
) -> None:
    named = all_named(processes)
    (started,) = {one for one in named if psutil.Process(one).ppid() == os.getpid()}
    files = [tmp_path / str(number) for number in range(COUNT)]
    for file in files:
        file.write_text("", "utf-8")
    working = [processes.submit(after, 1.0, file) for file in files]
    time.sleep(0.3)

    os.kill(started, signal.SIGKILL)

    assert [one.result(60) for one in working] == ["x"] * COUNT
    assert [one for one in named if psutil.pid_exists(one) and psutil.Process(one).status() != "zombie"] == []


def test_a_command_that_is_given_up_ends_all_at_once() -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(os, "sched_getaffinity", lambda _process: set(range(COUNT)), raising=False)
        begun = Processes()
        named = all_named(begun)
        working = [begun.submit(slowly_named, 60.0) for _ in range(COUNT)]
        time.sleep(0.2)

        begun.shutdown(cancel_futures=True)

    for one in working:
        with pytest.raises(CancelledError):
            one.result(0)
    until = time.monotonic() + 5
    while (left := [one for one in named if psutil.pid_exists(one)]) and time.monotonic() < until:
        time.sleep(0.05)
    assert left == []
