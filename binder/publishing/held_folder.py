"""A folder held by one process: its lock, and a folder of its own inside for all that is temporary.

The lock is a file that names process, host and work folder, and that the system itself locks: a process
that ends, however it ends, lets go of it. What it left behind is then known by name, and is taken away by
its children, which outlive it for a moment, or by the next process that wants the folder.
"""

import json
import os
import platform
import re
import secrets
import shutil
import signal
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from errno import EAGAIN
from pathlib import Path
from threading import current_thread, main_thread
from types import FrameType

LOCK = ".binder.lock"
_WORK = re.compile(r"\.binder-[0-9a-f]{32}")
_NOFOLLOW = getattr(os, "O_NOFOLLOW", 0)
_TRIES, _BETWEEN_TRIES = 20, 0.05
"""How often a folder is emptied, or its lock asked for, of a process that still ends; seconds between."""


@contextmanager
def held(out: Path, notes: list[str]) -> Iterator[Path]:
    """Hold a folder, made if need be; gives a work folder inside, which is gone when the folder is let go."""
    made = [place for place in (out.absolute(), *out.absolute().parents) if not place.exists()]
    try:
        lock = _taken(out)
        try:
            left_by = _left_by(lock)
            _refuse_other_host(out, left_by)
            if left_by:
                _clear(out, left_by)
                notes.append(f"{out}: a build that was ended (process {left_by['process']}) left it locked")
            work = out / f".binder-{secrets.token_hex(16)}"
            _name_holder(lock, work)
            try:
                work.mkdir(0o700)
                yield work
            finally:
                with undisturbed():
                    shutil.rmtree(work, ignore_errors=True)
                    (out / LOCK).unlink(missing_ok=True)
        finally:
            os.close(lock)
    finally:
        for place in made:
            with suppress(OSError):  # What is in use now stays.
                place.rmdir()


def clear_after(work: Path) -> None:
    """Take away what a process left that was killed, unless another has the folder by now."""
    with suppress(OSError):
        lock = os.open(work.parent / LOCK, os.O_RDWR | _NOFOLLOW)
        try:
            # A process that ends lets go of its files one by one, and this one may be the last of them.
            for _ in range(_TRIES):
                if _left_by(lock).get("work") != work.name or not _is_in_place(lock, work.parent):
                    return
                if is_locked(lock):
                    _clear(work.parent, {"work": work.name})
                    (work.parent / LOCK).unlink()
                    return
                time.sleep(_BETWEEN_TRIES)
        finally:
            os.close(lock)


@contextmanager
def undisturbed() -> Iterator[None]:
    """Do a few steps to their end before an interrupt is heeded; one that comes meanwhile came too late."""
    with _interrupts_told(signal.SIG_IGN):
        yield


@contextmanager
def put_off() -> Iterator[None]:
    """Do a few steps to their end, and heed after them an interrupt that came meanwhile."""
    came: list[int] = []
    with _interrupts_told(lambda number, _frame: came.append(number)):
        yield
    for number in came[:1]:
        signal.raise_signal(number)


@contextmanager
def _interrupts_told(
    handler: Callable[[int, FrameType | None], object] | signal.Handlers,
) -> Iterator[None]:
    names = ("SIGINT", "SIGTERM", "SIGHUP") if current_thread() is main_thread() else ()
    before = {number: signal.getsignal(number) for name in names if (number := getattr(signal, name, None))}
    for number in before:
        signal.signal(number, handler)
    try:
        yield
    finally:
        for number, handler_before in before.items():
            signal.signal(number, handler_before)


def _taken(out: Path) -> int:
    while True:
        out.mkdir(parents=True, exist_ok=True)
        try:
            lock = os.open(out / LOCK, os.O_RDWR | os.O_CREAT | _NOFOLLOW, 0o644)
        except FileNotFoundError:
            continue  # The folder went with whoever held it.
        if not is_locked(lock):
            holder = _left_by(lock)
            os.close(lock)
            who = f"process {holder['process']} on {holder['host']}" if holder else "another process"
            raise BlockingIOError(
                EAGAIN, f"{who} prints there; wait for it, or name another folder", str(out)
            )
        if _is_in_place(lock, out):
            return lock
        os.close(lock)  # It was taken away, by whoever had it, after it was opened.


def _is_in_place(lock: int, out: Path) -> bool:
    """Whether an open lock is still the one of its folder."""
    try:
        return os.path.samestat(os.fstat(lock), (out / LOCK).stat())
    except FileNotFoundError:
        return False


def is_locked(lock: int) -> bool:
    """Whether an open file could be locked for this process alone, until it is closed."""
    try:
        if sys.platform == "win32":
            import msvcrt  # noqa: PLC0415 - as fcntl, on one system alone.

            os.lseek(lock, 1_000_000, os.SEEK_SET)  # Behind the text, which others may read.
            msvcrt.locking(lock, msvcrt.LK_NBLCK, 1)
        else:
            import fcntl  # noqa: PLC0415 - not on Windows.

            fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except (BlockingIOError, PermissionError):
        return False
    return True


def _left_by(lock: int) -> dict[str, str]:
    """Read who wrote the lock; nothing of it where it is no lock of ours."""
    os.lseek(lock, 0, os.SEEK_SET)
    try:
        said = json.loads(os.read(lock, 1000))
    except ValueError:
        return {}
    is_ours = isinstance(said, dict) and set(said) == {"process", "host", "work"}
    known = {name: str(value) for name, value in said.items()} if is_ours else {}
    return known if _WORK.fullmatch(known.get("work", "")) else {}


def _name_holder(lock: int, work: Path) -> None:
    said = {"process": os.getpid(), "host": platform.node(), "work": work.name}
    os.ftruncate(lock, 0)
    os.lseek(lock, 0, os.SEEK_SET)
    os.write(lock, json.dumps(said).encode())
    os.fsync(lock)


def _refuse_other_host(out: Path, left_by: dict[str, str]) -> None:
    """Do not take a lock that was written on another computer: whether it still works cannot be seen here."""
    if left_by and left_by["host"] != platform.node():
        who = f"process {left_by['process']} on {left_by['host']}"
        text = f"{who} prints there, or was ended there; if it was, remove {LOCK}"
        raise BlockingIOError(EAGAIN, text, str(out))


def _clear(out: Path, left_by: dict[str, str]) -> None:
    work = out / left_by["work"]
    for _ in range(_TRIES):
        shutil.rmtree(work, ignore_errors=True)
        if not work.exists():
            return
