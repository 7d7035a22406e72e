"""Commands of the log killed at random moments: ``python -m tests.kills [--times 1000] [--seed 13]``.

Each time ``log add`` or ``log import`` is started and killed after a random while, 50 on one log. Then the
file must open, ``PRAGMA integrity_check`` must be ok, and each entry told as taken must be there once;
of a file that was not told, all or nothing.
"""

import json
import shutil
import signal
import sqlite3
import subprocess
import sys
import time
from argparse import ArgumentParser
from collections import Counter
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory
from typing import NamedTuple

from binder.log.identity import new_id
from binder.log.store import FILE, entries_in

ROOT = Path(__file__).resolve().parents[1]
AT = datetime(2026, 6, 1, 7, tzinfo=UTC)
ON_ONE_LOG, SIZE = 50, 2000
LONGEST = 0.8
"""Seconds after loading within which a command is killed: about what an import takes."""

_SERVER = """
import os, sys
from binder.log import commands
from binder.cli import main
sys.stdout.write("ready\\n"); sys.stdout.flush()
sys.stdin.readline()
main(sys.argv[1:])
"""


class Outcome(NamedTuple):
    """What one killed command left: its entries, and whether it had told them as taken.

    ``is_half_written``: it was killed between the begin and the end of its transaction.
    """

    killed: bool
    told: bool
    texts: frozenset[str]
    is_half_written: bool = False


def killed_command(rig: Path, chance: Random, number: int) -> Outcome:
    """Start a command that adds one entry or imports a file, and kill it after a random while."""
    if chance.random() < 0.5:
        texts = frozenset({f"add {number}"})
        words = ["log", "add", str(rig), "note", f"add {number}"]
    else:
        file = rig.parent / "phone.jsonl"
        texts = frozenset(f"import {number} {one}" for one in range(SIZE))
        file.write_text("\n".join(_lines(texts)) + "\n", encoding="utf-8")
        words = ["log", "import", str(rig), str(file)]
    process = subprocess.Popen(
        [sys.executable, "-c", _SERVER, *words],
        cwd=ROOT,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
    assert process.stdin
    assert process.stdout
    # Loading takes longest and writes nothing: the moment is drawn from what follows it.
    assert process.stdout.readline() == "ready\n"
    process.stdin.write("\n")
    process.stdin.flush()
    time.sleep(chance.uniform(0, LONGEST))
    process.send_signal(signal.SIGKILL)
    told = process.stdout.read()
    killed = process.wait() == -signal.SIGKILL
    return Outcome(killed, "added" in told, texts, (rig / f"{FILE}-journal").exists())


def _lines(texts: frozenset[str]) -> list[str]:
    head = {"format": "rig log", "version": 1, "rig": "Larkspur"}
    entries = (
        {"id": new_id(AT + timedelta(minutes=at)), "at": AT.isoformat(), "kind": "note", "text": text}
        for at, text in enumerate(sorted(texts))
    )
    return [json.dumps(one) for one in (head, *entries)]


def faults(rig: Path, outcomes: list[Outcome]) -> list[str]:
    """What is wrong with a log after commands on it were killed; the entries read are counted."""
    found: list[str] = []
    # As the next command would: whoever reads first puts back what was half written.
    counted = Counter(str(one.written["text"]) for one in entries_in(rig))
    if (rig / FILE).exists():
        with closing(sqlite3.connect(rig / FILE)) as connection:
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
    shutil.copy(ROOT / "profiles" / "larkspur" / "rig.yaml", rig)
    outcomes: list[Outcome] = []
    wrong: list[str] = []
    for number in range(times):
        outcomes.append(killed_command(rig, chance, number))
        wrong += faults(rig, outcomes[-1:])
    return outcomes, wrong + faults(rig, outcomes)


def main() -> int:
    """Kill, say what came of it, and tell whether a fault was found."""
    parser = ArgumentParser(description=__doc__)
    parser.add_argument("--times", type=int, default=1000)
    parser.add_argument("--seed", type=int, default=13)
    given = parser.parse_args()
    chance = Random(given.seed)  # noqa: S311 - moments to kill at.
    outcomes: list[Outcome] = []
    wrong: list[str] = []
    while len(outcomes) < given.times:
        with TemporaryDirectory() as folder:
            told, found = killed_log(Path(folder), min(ON_ONE_LOG, given.times - len(outcomes)), chance)
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
