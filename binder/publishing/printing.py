"""A printing put in place: whole or not at all; nothing is removed but what was printed here."""

import hashlib
import json
import os
import shutil
import stat
from collections.abc import Callable, Iterable, Mapping
from contextlib import ExitStack, suppress
from errno import EACCES
from pathlib import Path
from tempfile import TemporaryDirectory
from time import sleep
from typing import Any

from binder.problems import InputProblems, Problem
from binder.publishing.held_folder import LOCK, held, undisturbed

NUMBERS = "numbers.json"
_EXCLUSIVE = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_BINARY", 0)
_ELSEWHERE = "move it, or name another folder with --out"


def write_printing(
    work: Path, contents: Mapping[str, bytes], record: Mapping[str, Any], placed: Callable[[], object] = list
) -> list[str]:
    """Write a printing into the folder that is held by a work folder; numbers.json with all hashes last.

    ``placed`` is called when it is too late to be interrupted.
    """
    out = work.parent
    hashes = {name: _hash(content) for name, content in sorted(contents.items())}
    text = json.dumps({**record, "files": hashes}, indent=1, ensure_ascii=False, allow_nan=False) + "\n"
    every = {**contents, NUMBERS: text.encode()}
    refuse_obstacles(out, every)
    for name, content in every.items():
        _write(work / name, content)
    gone = [name for name, is_whole in _listed(out).items() if is_whole and name not in every]
    with undisturbed():
        _put_in_place(work, contents, gone)
        placed()
    return list(every)


def write_beside(
    out: Path, contents: Mapping[str, bytes], record: Mapping[str, Any], notes: list[str]
) -> None:
    """Write what several printings share; nothing where it is there already, and no two at once."""
    hashes = {name: _hash(content) for name, content in sorted(contents.items())}
    is_there = _listing(out) == {**record, "files": hashes} and all(_listed(out).values())
    if is_there and not (out / LOCK).exists():
        return
    with ExitStack() as stack:
        for wait in (*[_WAIT / _TRIES] * _TRIES, None):
            try:
                work = stack.enter_context(held(out, notes))
                break
            except BlockingIOError:
                if wait is None:
                    raise
                sleep(wait)  # Another printing writes the same for a moment.
        write_printing(work, contents, record)


_WAIT, _TRIES = 5.0, 50
"""Seconds that another printing is waited for, and how often it is looked in them."""


def write_whole(place: Path, content: bytes) -> None:
    """Write one file, whole or not at all."""
    with TemporaryDirectory(prefix=".binder-", dir=place.parent) as work:
        _write(Path(work) / place.name, content)
        os.replace(Path(work) / place.name, place)  # noqa: PTH105 - one step.
    _sync(place.parent)


def _write(place: Path, content: bytes) -> None:
    """Write a file that is not there yet, and have it on the disk."""
    with os.fdopen(os.open(place, _EXCLUSIVE, 0o666), "wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


def refuse_no_folder(out: Path) -> None:
    """Say at once, not after all the work, that nothing can be written there."""
    standing = next(place for place in (out, *out.absolute().parents) if os.path.lexists(place))
    if not standing.is_dir():
        text = "a file stands where the printing is to be written; name another folder with --out"
        raise InputProblems([Problem(str(standing), None, "", text)])
    if not os.access(standing, os.W_OK):
        raise PermissionError(EACCES, "Permission denied; name another folder with --out", str(standing))


def refuse_other_rig(out: Path, rig: str) -> None:
    """Never replace the printing of another rig."""
    other = _listing(out).get("rig", rig)
    if other != rig:
        text = f"the printing of {other} is there; name another folder with --out"
        raise InputProblems([Problem(str(out), None, "", text)])


def mixed_files(out: Path) -> list[str]:
    """Files of a printing that are not the ones its numbers.json lists."""
    return [name for name, is_whole in _listed(out).items() if not is_whole]


def refuse_obstacles(out: Path, names: Iterable[str]) -> None:
    """Tell whatever stands in the way of a file before any is replaced."""
    problems = []
    for place in (out / name for name in names):
        if not os.path.lexists(place):
            continue
        mode = place.lstat().st_mode
        kinds = {"a folder": stat.S_ISDIR(mode), "a link": stat.S_ISLNK(mode)}
        found = next((kind for kind, is_so in kinds.items() if is_so), "no plain file")
        if not stat.S_ISREG(mode):
            text = f"{found} stands where a file is to be written; {_ELSEWHERE}"
            problems.append(Problem(str(place), None, "", text))
        elif not os.access(place, os.W_OK):
            text = f"this file may not be written over; {_ELSEWHERE}"
            problems.append(Problem(str(place), None, "", text))
    if problems:
        raise InputProblems(problems)


def _put_in_place(work: Path, contents: Iterable[str], gone: Iterable[str]) -> None:
    """Put every file in its place; where one cannot be, those before it are put back."""
    out, aside = work.parent, work / "before"
    aside.mkdir(0o700)
    begun: list[str] = []
    try:
        for names in ([*contents, *gone], [NUMBERS]):
            for name in names:
                if (out / name).exists():
                    _keep(out / name, aside / name)
                begun.append(name)
                if name in gone:
                    (out / name).unlink()
                else:
                    os.replace(work / name, out / name)  # noqa: PTH105 - one step, whole or not at all.
            _sync(out)
    except OSError:
        for name in begun:
            # One that cannot be put back was never replaced.
            with suppress(OSError):
                if (aside / name).exists():
                    os.replace(aside / name, out / name)  # noqa: PTH105 - as above.
                else:
                    (out / name).unlink()
        raise


def _keep(old: Path, aside: Path) -> None:
    try:
        aside.hardlink_to(old)
    except OSError:  # Not every file system has links.
        shutil.copy2(old, aside)


def _sync(folder: Path) -> None:
    """Have a folder's names on the disk, where a folder can be opened for that."""
    if hasattr(os, "O_DIRECTORY"):
        descriptor = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
        try:
            os.fsync(descriptor)
        finally:
            os.close(descriptor)


def _hash(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


def _listing(out: Path) -> dict[str, Any]:
    try:
        record = json.loads((out / NUMBERS).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return record if isinstance(record, dict) else {}


def _listed(out: Path) -> dict[str, bool]:
    """Files that the printing in a folder lists, and whether each still is what was written."""
    files = _listing(out).get("files")
    items = files.items() if isinstance(files, dict) else ()
    # Only plain names of this folder, whatever the file says.
    plain = {name: digest for name, digest in items if Path(name).name == name and name != ".."}
    return {name: _is_file_of(out / name, digest) for name, digest in plain.items()}


def _is_file_of(place: Path, digest: object) -> bool:
    return place.is_file() and not place.is_symlink() and _hash(place.read_bytes()) == digest
