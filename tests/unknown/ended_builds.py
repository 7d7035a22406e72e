"""End builds at random moments, and let two print into one folder at once: what stands is whole, or told.

``python -m tests.unknown.ended_builds 300 --seed 1`` ends so many builds over an old printing, by KILL, TERM
or INT, the command alone or all its processes; with ``--pairs`` it begins so many pairs at once.
``test_ended_builds.py`` does a seeded part. The binder has few parts, and in a third of the builds files are
put in place slowly, or no random moment would ever fall into that.
"""

import contextlib
import os
import shutil
import signal
import subprocess
import sys
import time
from argparse import ArgumentParser
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory
from typing import NamedTuple

import psutil

from binder.publishing.held_folder import held
from binder.publishing.printing import mixed_files
from binder.terminal.ending import CANNOT_WRITE
from tests.demos import PROFILES

ROOT = Path(__file__).resolve().parents[2]
STOPPED = "Stopped; a printing that was there before is as it was."
OLD, NEW, OTHER = (
    ["--date", "2026-06-01"],
    ["--date", "2026-07-01", "--set", "mechanic"],
    ["--date", "2026-08-01", "--set", "mechanic"],
)
# A binder of few parts, so that hundreds can be ended; slowly, each file takes a tenth of a second to be put
# in place.
SHORT = """
import os, sys, time
from dataclasses import replace
from binder.cards import sets
from binder.cards.blocks import Card
whole, put = sets.printed_in, os.replace
def short(*given):
    document = whole(*given)
    cards = [part for part in document.parts if isinstance(part, Card)][:2]
    pages = [part for part in document.parts if not isinstance(part, Card)][:2]
    return replace(document, parts=(*cards, *pages), desk=document.desk[:1])
def slowly(*places):
    time.sleep(0.1)
    put(*places)
    time.sleep(0.1)
sets.printed_in = short
if __name__ == "__main__":
    if sys.argv.pop(1) == "slowly":
        os.replace = slowly
    from binder.cli import main
    main()
"""


ENDED = {psutil.STATUS_ZOMBIE, psutil.STATUS_DEAD}


class Outcome(NamedTuple):
    """How a build was ended, what stands in the folder, and what is not as it should be."""

    how: str
    state: str
    faults: tuple[str, ...]


class Workshop:
    """A folder with the printings to compare with, made once."""

    def __init__(self, folder: Path) -> None:
        """Make the printings."""
        # A shell has what it begins in the background hear no interrupt, and that is passed on.
        signal.signal(signal.SIGINT, signal.default_int_handler)
        self._temporary = folder / "temporary"
        self._temporary.mkdir()
        self._environment = os.environ | {
            "TMPDIR": str(self._temporary),
            "XDG_CACHE_HOME": str(folder / "kept"),
        }
        self.out = folder / "out"
        self.printings: dict[str, dict[str, bytes]] = {}
        for name, words in (("old", OLD), ("new", NEW), ("other", OTHER)):
            with self._begun([*words], is_slow=False) as run:
                _, said = run.communicate()
            if not self.out.is_dir():
                raise RuntimeError(said)
            self.printings[name] = self._files()
            if name != "old":
                shutil.rmtree(self.out)
                continue
            self._old = self.out.rename(folder / "old")

    def _begun(self, words: list[str], *, is_slow: bool) -> "subprocess.Popen[str]":
        program = ["-c", SHORT, "slowly" if is_slow else "at once"]
        command = [
            sys.executable,
            *program,
            "build",
            str(PROFILES / "kestrel"),
            "--out",
            str(self.out),
        ]
        return subprocess.Popen(
            [*command, *words], env=self._environment, cwd=ROOT, start_new_session=True, text=True,
            stdout=subprocess.DEVNULL, stderr=subprocess.PIPE,
        )  # fmt: skip

    def _files(self) -> dict[str, bytes]:
        return {
            file.name: file.read_bytes()
            for file in self.out.iterdir()
            if file.is_file() and file.name[0] != "."
        }

    @contextmanager
    def _over_the_old(self) -> Iterator[None]:
        shutil.rmtree(self.out, ignore_errors=True)
        shutil.copytree(self._old, self.out)
        yield
        self._temporary.mkdir(exist_ok=True)

    def ended(self, chance: Random) -> Outcome:
        """End a build at a random moment."""
        number = chance.choice([signal.SIGKILL, signal.SIGTERM, signal.SIGINT])
        is_group, is_slow = chance.random() < 0.5, chance.random() < 1 / 3
        step, most = (
            ("write", 1.5) if is_slow else chance.choice([("read", 2), ("parts", 1), ("joining", 0.2)])
        )
        is_kept = ["--no-cache"] if chance.random() < 0.5 else []
        wait = chance.uniform(0, most)
        how = f"{number.name} to {'all' if is_group else 'one'} {wait:.3f} s after {step} {' '.join(is_kept)}"
        with self._over_the_old(), self._begun([*NEW, *is_kept], is_slow=is_slow) as run:
            assert run.stderr
            for line in run.stderr:
                if f"... {step}" in line:
                    break
            time.sleep(wait)
            has_children = any("spawn_main" in " ".join(one.cmdline()) for one in _session(run.pid))
            with contextlib.suppress(ProcessLookupError):
                (os.killpg if is_group else os.kill)(run.pid, number)
            left = list(_left(run.pid))
            if left:
                os.killpg(run.pid, signal.SIGKILL)
            said = run.stderr.read()
        faults = [*left, *self._wrongly_said(number, run.returncode, said)]
        state = self._state()
        faults += [f"{state}: {sorted(self._files())}"] if state == "neither" else []
        faults += self._left_over(
            is_left_to_the_next=number == signal.SIGKILL and (is_group or not has_children)
        )
        return Outcome(how, state if run.returncode else f"ended before, {state}", tuple(faults))

    def pair(self, chance: Random) -> Outcome:
        """Let two builds print into one folder at once."""
        wait, is_slow = chance.uniform(0, 4) if chance.random() < 0.7 else 0, chance.random() < 1 / 3
        with self._over_the_old(), self._begun(NEW, is_slow=is_slow) as one:
            time.sleep(wait)
            with self._begun(OTHER, is_slow=is_slow) as two:
                said = [one.communicate()[1], two.communicate()[1]]
        codes = [one.returncode, two.returncode]
        state = self._state()
        whole: dict[tuple[int, ...], set[str]] = {(0, 0): {"new", "other"}}
        whole |= {(0, CANNOT_WRITE): {"new"}, (CANNOT_WRITE, 0): {"other"}}
        faults = [] if state in whole.get(tuple(codes), set()) else [f"{codes} and {state}", *said]
        faults += ["Traceback" for text in said if "Traceback" in text]
        faults += self._left_over(is_left_to_the_next=False)
        return Outcome(f"{wait:.3f} s apart", f"{codes} {state}", tuple(faults))

    def _state(self) -> str:
        files = self._files()
        whole = [name for name, printing in self.printings.items() if printing == files]
        return whole[0] if whole else "told as mixed" if mixed_files(self.out) else "neither"

    def _wrongly_said(self, number: signal.Signals, code: int, said: str) -> Iterator[str]:
        lines = [line for line in said.splitlines() if not line.startswith("... ")]
        # At its very end Python itself is ended; the new printing is then in place.
        is_late = code in {-number, 128 + number} and not lines and self._state() == "new"
        stopped = {-number: []} if number == signal.SIGKILL else {128 + number: [STOPPED]}
        expected: dict[int, list[str]] = {0: [], **stopped}
        if expected.get(code) != lines and not is_late:
            yield f"ended with {code} and said {said!r}"
        if lines == [STOPPED] and self._state() != "old":
            yield f"stopped, but {self._state()}"

    def _left_over(self, *, is_left_to_the_next: bool) -> Iterator[str]:
        """Name what is left of a build at once, or where all of it was killed, after the next one."""
        if is_left_to_the_next:
            with held(self.out, []):
                pass
        for folder in (self.out, self._temporary):
            for file in folder.iterdir():
                if folder != self.out or file.name.startswith("."):
                    yield f"left: {file}"


def _left(leader: int) -> Iterator[str]:
    """Name processes of a build that live after five seconds."""
    until = time.monotonic() + 5
    while (alive := list(_session(leader))) and time.monotonic() < until:
        time.sleep(0.05)
    for process in alive:
        with contextlib.suppress(psutil.Error):
            yield f"lives: {process.cmdline()}"


def _session(leader: int) -> Iterator[psutil.Process]:
    for one in psutil.process_iter():
        with contextlib.suppress(psutil.Error, OSError):
            if os.getsid(one.pid) == leader and one.status() not in ENDED:
                one.cmdline()
                yield one


def main() -> None:
    parser = ArgumentParser(description=__doc__)
    parser.add_argument("count", type=int)
    parser.add_argument("--seed", type=int, default=1, help="the first seed")
    parser.add_argument("--pairs", action="store_true", help="begin pairs of builds at once, and end none")
    given = parser.parse_args()
    states: Counter[str] = Counter()
    faults = 0
    with TemporaryDirectory() as folder:
        shop = Workshop(Path(folder))
        for seed in range(given.seed, given.seed + given.count):
            chance = Random(seed)  # noqa: S311 - no secret.
            one = shop.pair(chance) if given.pairs else shop.ended(chance)
            states[one.state] += 1
            faults += len(one.faults)
            sys.stdout.write("".join(f"seed {seed} {one.how}: {fault}\n" for fault in one.faults))
            count = seed - given.seed + 1
            if count % _TOLD_EVERY == 0 or count == given.count:
                counts = ", ".join(f"{number} {state}" for state, number in sorted(states.items()))
                sys.stdout.write(f"{count}: {counts}; {faults} faults\n")
            sys.stdout.flush()


_TOLD_EVERY = 10


if __name__ == "__main__":
    main()
