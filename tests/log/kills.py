"""Commands of the log killed at random moments: ``python -m tests.log.kills [--times 1000] [--seed 13]``.

Each time ``log add`` or ``log import`` is started and killed after a random while, 20 on one log: a new one,
or one of the first version, which whoever writes leads to today's; on and on until so many were killed before
their end. Each time the file must open, ``PRAGMA integrity_check`` must be ok, and each entry told as taken
must be there once; of a file that was not told, all or nothing.
"""

import json
import shutil
import signal
import sqlite3
import subprocess
import sys
from argparse import ArgumentParser
from collections import Counter
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory
from typing import NamedTuple
from unittest.mock import patch

from binder.log import store
from binder.log.identity import new_id
from binder.log.store import entries_in
from binder.models.load import LOG
from binder.models.log_entries import Entry
from tests.demos import PROFILES

ROOT = Path(__file__).resolve().parents[2]
AT = datetime(2026, 6, 1, 7, tzinfo=UTC)
ON_ONE_LOG, SIZE, BEFORE = 20, 2000, 8000
LONGEST = {"add": 0.12, "import": 0.5}
"""Seconds after loading within which a command is killed: about what it takes."""

_SERVER = """
import json, os, signal, sys, time
import binder.log.commands
from binder.cli import main
for line in sys.stdin:
    words, told, moment = json.loads(line)
    child = os.fork()
    if child == 0:
        os.dup2(os.open(told, os.O_CREAT | os.O_WRONLY | os.O_TRUNC), 1)
        main(words)
    time.sleep(moment)
    # Not waited for before, so that its number is still its own.
    os.kill(child, signal.SIGKILL)
    print(os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]), flush=True)
"""
"""Loads the program once and begins a process a command: loading takes longest and writes nothing."""


class Outcome(NamedTuple):
    """What one killed command left: its entries, and whether it had told them as taken.

    ``is_half_written``: it was killed between the begin and the end of its transaction.
    """

    killed: bool
    told: bool
    texts: frozenset[str]
    is_half_written: bool = False


class Commands:
    """Commands of the log, each begun and killed after a random while."""

    def __init__(self, rig: Path, chance: Random) -> None:
        """Load the program."""
        self.rig, self.chance, self.told = rig, chance, rig.parent / "told.txt"
        self.process = subprocess.Popen(
            [sys.executable, "-c", _SERVER],
            cwd=ROOT,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        )

    def killed(self, number: int) -> Outcome:
        """Begin a command that adds one entry or imports a file, and kill it."""
        words, texts = self._command(number)
        assert self.process.stdin
        assert self.process.stdout
        self.told.unlink(missing_ok=True)
        line = json.dumps([words, str(self.told), self.chance.uniform(0, LONGEST[words[1]])])
        self.process.stdin.write(f"{line}\n")
        self.process.stdin.flush()
        ended = int(self.process.stdout.readline())
        told = self.told.read_text() if self.told.exists() else ""
        is_half_written = (self.rig / f"{LOG}-journal").exists()
        return Outcome(ended == -signal.SIGKILL, "added" in told, texts, is_half_written)

    def _command(self, number: int) -> tuple[list[str], frozenset[str]]:
        if self.chance.random() < 0.5:
            return ["log", "add", str(self.rig), "note", f"add {number}"], frozenset({f"add {number}"})
        file = self.rig.parent / "phone.jsonl"
        texts = frozenset(f"import {number} {one}" for one in range(SIZE))
        file.write_text("\n".join(_lines(texts)) + "\n", encoding="utf-8")
        return ["log", "import", str(self.rig), str(file)], texts

    def end(self) -> None:
        """Let the program go."""
        self.process.communicate()


def _lines(texts: frozenset[str]) -> list[str]:
    """Notes and readings of tires, which are indexed; of a reading the text is who read it."""
    head = {"format": "rig log", "version": 1, "rig": "Larkspur"}
    reading = {"kind": "tire", "position": "steer left", "pressure": "100 psi"}
    entries = (
        {"id": new_id(AT + timedelta(minutes=at)), "at": AT.isoformat()}
        | ({"kind": "note", "text": text} if at % 2 else {"who": text, **reading})
        for at, text in enumerate(sorted(texts))
    )
    return [json.dumps(one) for one in (head, *entries)]


def _text(entry: Entry) -> str:
    return str(entry.written.get("text", entry.who))


def of_first_version(rig: Path) -> Outcome:
    """Make a log as the first version did, with readings enough that leading it on takes a while."""
    texts = [f"before {number}" for number in range(BEFORE)]
    said = {"position": "steer left", "pressure": "100 psi"}
    entries = (Entry(new_id(AT), AT, "tire", said, text, taken=AT) for text in texts)
    with patch.object(store, "VERSIONS", store.VERSIONS[:1]):
        store.add(rig, entries)
    return Outcome(killed=False, told=True, texts=frozenset(texts))


def faults(rig: Path, outcomes: list[Outcome]) -> list[str]:
    """What is wrong with a log after commands on it were killed; the entries read are counted."""
    found: list[str] = []
    # As the next command would: whoever reads first puts back what was half written.
    counted = Counter(map(_text, entries_in(rig)))
    if (rig / LOG).exists():
        with closing(sqlite3.connect(rig / LOG)) as connection:
            checked = connection.execute("PRAGMA integrity_check").fetchone()[0]
        found += [] if checked == "ok" else [f"integrity_check: {checked}"]
    found += [f"{text} is there {count} times" for text, count in counted.items() if count > 1]
    for outcome in outcomes:
        there = outcome.texts & set(counted)
        if outcome.told and there != outcome.texts:
            found.append(f"told as taken and not there: {sorted(outcome.texts - there)[:3]}")
        if there and there != outcome.texts:
            found.append(f"{len(there)} of the {len(outcome.texts)} entries of a file are there")
    return found


def killed_log(folder: Path, times: int, chance: Random) -> tuple[list[Outcome], list[str]]:
    """Kill commands on a new log one after the other; outcomes, and what was ever wrong."""
    rig = folder / "larkspur"
    rig.mkdir()
    shutil.copy(PROFILES / "larkspur" / "rig.yaml", rig)
    before = [of_first_version(rig)] if chance.random() < 0.5 else []
    outcomes: list[Outcome] = []
    wrong: list[str] = []
    commands = Commands(rig, chance)
    for number in range(times):
        outcomes.append(commands.killed(number))
        wrong += faults(rig, [*before, outcomes[-1]])
    commands.end()
    return outcomes, wrong + faults(rig, [*before, *outcomes])


def main() -> int:
    """Kill, say what came of it, and tell whether a fault was found."""
    parser = ArgumentParser(description=__doc__)
    parser.add_argument("--times", type=int, default=1000)
    parser.add_argument("--seed", type=int, default=13)
    given = parser.parse_args()
    chance = Random(given.seed)  # noqa: S311 - moments to kill at.
    outcomes: list[Outcome] = []
    wrong: list[str] = []
    while sum(one.killed for one in outcomes) < given.times:
        with TemporaryDirectory() as folder:
            told, found = killed_log(Path(folder), ON_ONE_LOG, chance)
        outcomes += told
        wrong += found
    counts = {
        "commands": len(outcomes),
        "killed before their end": sum(one.killed for one in outcomes),
        "of them while they wrote": sum(one.is_half_written for one in outcomes),
        "told their entries as taken": sum(one.told for one in outcomes),
        "faults": len(wrong),
    }
    lines = (*(f"{number:5} {what}" for what, number in counts.items()), *wrong[:20])
    sys.stdout.write("\n".join(lines) + "\n")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
