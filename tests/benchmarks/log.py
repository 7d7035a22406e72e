"""How long 50,000 entries take: to import as JSON Lines, as a table and again, to show, to export, to build.

Run ``.venv/bin/python tests/benchmarks/log.py``. Each command is a fresh process; ``show`` is told beyond one
that only loads the same modules. The least of three counts, in seconds of the clock and of the processor; the
latter, which other work does not slow, is held against the limit. With ``--build`` the same rig is built in
turns without a log, with 50,000 entries, and with the demo's season, which prints as many pages; told are the
median and the least of ten of each, and how much longer many entries take than each other: the median of what
is told turn by turn, which a machine that changes its speed disturbs least, and the least against the least.
The entries are invented.
"""

import json
import random
import resource
import shutil
import subprocess
import sys
import time
from datetime import UTC, datetime, timedelta
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from typing import NamedTuple

from binder.log.identity import new_id

ROOT = Path(__file__).resolve().parents[2]
COUNT = 50_000
PLACES = ("steer left", "steer right", "drive left outer", "drive left inner", "drive right inner")
LIMITS = {"import of JSON Lines": 5.0, "import of a table": 5.0, "show": 0.5}
COMMANDS = {
    "import again": ("import", "RIG", "FILE"),
    "show": ("show", "RIG"),
    "show --last 0": ("show", "RIG", "--last", "0"),
    "export": ("export", "RIG"),
}
_MANY = "50,000 entries"
FIRST = datetime(2025, 1, 1, 7, tzinfo=UTC)


def write_entries(file: Path) -> None:
    """Write invented readings, a fill and a note among them, as the page hands them over."""
    chance = random.Random(13)  # noqa: S311 - invented readings.
    with file.open("w", encoding="utf-8") as out:
        out.write('{"format": "rig log", "version": 1, "rig": "Larkspur"}\n')
        for number in range(COUNT):
            at = FIRST + timedelta(minutes=10 * number)
            said = _said(chance, number)
            told = {"id": new_id(at), "at": at.isoformat(), "who": "Ann", "card": "3", "code": "dx2vy"}
            out.write(json.dumps(told | said) + "\n")


def _said(chance: random.Random, number: int) -> dict[str, str]:
    if number % 50 == 0:
        said = {"kind": "fill", "tank": "diesel", "full": "true", "odometer": f"{34000 + number} mi"}
        return said | {"amount": f"{chance.uniform(20, 90):.2f} gal"}
    if number % 50 == 1:
        return {"kind": "note", "text": f"note {number}"}
    pressure, ambient = chance.uniform(80, 115), chance.uniform(20, 100)
    said = {"kind": "tire", "position": chance.choice(PLACES), "pressure": f"{pressure:.1f} psi"}
    said |= {"state": "cold", "ambient": f"{ambient:.1f} degF"}
    return said | {"elevation": f"{chance.randint(0, 9000)} ft"}


def write_rows(file: Path) -> None:
    """Write invented readings as a monitor exports them."""
    chance = random.Random(14)  # noqa: S311 - as above.
    rows = ["at,kind,position,pressure [psi],by"]
    for number in range(COUNT):
        at = (FIRST + timedelta(minutes=10 * number)).isoformat()
        rows.append(f"{at},tire,{chance.choice(PLACES)},{chance.uniform(80, 115):.1f},sensor")
    file.write_text("\n".join(rows) + "\n", encoding="utf-8")


class Taken(NamedTuple):
    """Seconds of the clock and of the processor."""

    clock: float
    processor: float


def seconds(*words: str, is_built: bool = False) -> Taken:
    """Run a command of the log in a process of its own; a build may tell that a rig is not cleared."""
    code = "from binder.cli import main; main()" if words else "import binder.cli, binder.log.commands"
    before, start = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    said = subprocess.DEVNULL
    run = subprocess.run(
        [sys.executable, "-c", code, *words],
        cwd=ROOT,
        stdout=said,
        stderr=said if is_built else None,
        check=not is_built,
    )
    assert run.returncode in {0, 3}, words
    after, end = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    used = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return Taken(end - start, used)


def measured(folder: Path) -> dict[str, Taken]:
    """Run each command three times on a new log; the least of each."""
    lines, rows, rig = folder / "season.jsonl", folder / "monitor.csv", folder / "rig"
    write_entries(lines)
    write_rows(rows)
    found: dict[str, list[Taken]] = {}
    for _ in range(3):
        found.setdefault("imports alone", []).append(seconds())
        for name, file in (("import of JSON Lines", lines), ("import of a table", rows)):
            shutil.rmtree(rig, ignore_errors=True)
            shutil.copytree(ROOT / "profiles" / "larkspur", rig)
            found.setdefault(name, []).append(seconds("log", "import", str(rig), str(file)))
        for name, words in COMMANDS.items():
            whole = [word.replace("RIG", str(rig)).replace("FILE", str(rows)) for word in words]
            found.setdefault(name, []).append(seconds("log", *whole))
    return {
        name: Taken(min(one.clock for one in every), min(one.processor for one in every))
        for name, every in found.items()
    }


def built(folder: Path) -> dict[str, list[float]]:
    """Seconds of ten builds of a rig with each log, taking turns."""
    larkspur, many = ROOT / "profiles" / "larkspur", folder / "many.jsonl"
    write_entries(many)
    # Many entries are between those they are compared with: a machine changes its speed meanwhile.
    logs = {"no log": None, _MANY: many, "the season": larkspur / "season.jsonl"}
    for name, lines in logs.items():
        shutil.copytree(larkspur, folder / name)
        if lines:
            seconds("log", "import", str(folder / name), str(lines))
    taken: dict[str, list[float]] = {name: [] for name in logs}
    for _ in range(11):
        for name, held in taken.items():
            words = ("--no-cache", "--date", "2026-06-01", "--out", str(folder / "out"))
            held.append(seconds("build", str(folder / name), *words, is_built=True).clock)
            shutil.rmtree(folder / "out")
    return {name: held[1:] for name, held in taken.items()}  # The first of each loads the disk.


def main() -> int:
    """Measure, print, and tell whether every command kept its limit."""
    if "--build" in sys.argv:
        with TemporaryDirectory() as name:
            taken_by_log = built(Path(name))
        most = taken_by_log[_MANY]
        for log, each in taken_by_log.items():
            more = median(one / other for one, other in zip(most, each, strict=True)) - 1
            beside = min(most) / min(each) - 1
            print(
                f"build with {log:14} {median(each):5.2f} s, least {min(each):5.2f};"
                f" with 50,000 entries {more:+.1%}, least {beside:+.1%}"
            )
        return 0
    with TemporaryDirectory() as name:
        taken = measured(Path(name))
    alone = taken["imports alone"]
    for name in [name for name in taken if name.startswith("show")]:
        taken[name] = Taken(taken[name].clock - alone.clock, taken[name].processor - alone.processor)
    for name, least in taken.items():
        limit = f", limit {LIMITS[name]:.1f} s" if name in LIMITS else ""
        print(f"{name:24} {least.clock:5.2f} s, processor {least.processor:5.2f} s{limit}")
    over = [name for name, limit in LIMITS.items() if taken[name].processor > limit]
    print(f"over the limit: {', '.join(over)}" if over else "within the limits")
    return 1 if over else 0


if __name__ == "__main__":
    sys.exit(main())
