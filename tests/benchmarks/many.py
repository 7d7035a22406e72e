"""What many rigs, many days and many stops take: two processors beside one, and the memory meanwhile.

Run ``.venv/bin/python -m tests.benchmarks.many 20`` for so many rigs, made by varying the demos, with one
processor and with two; ``--once`` builds them once and tells the memory as it goes on; ``--growth`` builds
trips of more and more days and stops, up to 400 stops. Nothing is kept from one build to the next.
"""

import os
import shutil
import subprocess
import tempfile
import time
from argparse import ArgumentParser
from collections.abc import Iterator
from copy import deepcopy
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any, NamedTuple

import yaml

from binder.models.located_yaml import written_yaml
from tests.benchmarks.build import BINDER, DATE, memory_of, table

ROOT = Path(__file__).resolve().parents[2]
DEMOS = ("kestrel", "larkspur", "sandpiper", "tamarack")
TRIPS = ((1, 2), (5, 2), (10, 2), (20, 2), (40, 2), (5, 10), (40, 10))
"""Days of a trip, and stops of each."""


class Run(NamedTuple):
    """Seconds of a build, MiB of all its processes and of the largest, and how the former went on."""

    seconds: float
    together: float
    largest: float
    course: list[float]


def built(rigs: Path, *, processors: int) -> Run:
    """Build a folder of rigs on some processors."""
    every = os.sched_getaffinity(0)
    os.sched_setaffinity(0, sorted(every)[:processors])  # What is begun here inherits it.
    environment = os.environ | {"PYTHONPATH": str(ROOT), "PYTHONPYCACHEPREFIX": str(rigs.parent / "bytecode")}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    with tempfile.TemporaryDirectory() as out, tempfile.TemporaryFile() as said:
        start = time.perf_counter()
        with subprocess.Popen(
            [*BINDER, "build", str(rigs), "--no-cache", "--out", out, *DATE],
            stdout=said, stderr=said, env=environment, cwd=rigs.parent,
        ) as process:  # fmt: skip
            course = [*memory_of(process)]
        seconds = time.perf_counter() - start
        os.sched_setaffinity(0, every)
        if process.returncode not in {0, 1, 3}:
            said.seek(0)
            raise SystemExit(said.read().decode()[-3000:])
    together, largest = map(max, zip(*course, strict=True))
    return Run(seconds, together, largest, [one for one, _ in course])


def made(folder: Path, count: int) -> Path:
    """Make rigs by varying the demos: another name, another margin of air."""
    for number in range(count):
        demo = DEMOS[number % len(DEMOS)]
        rig = shutil.copytree(ROOT / "profiles" / demo, folder / f"{demo}-{number}")
        (rig / "log.sqlite").unlink(missing_ok=True)
        text = (rig / "rig.yaml").read_text("utf-8")
        named = text.replace(f"name: {demo.title()}", f"name: {demo.title()} {number}", 1)
        (rig / "rig.yaml").write_text(
            named.replace("margin: 5 psi", f"margin: {5 + number % 5} psi"), "utf-8"
        )
    return folder


def with_long_trip(folder: Path, days: int, stops: int) -> Path:
    """Make larkspur with a plan of so many days, each of so many stops: those of its own over and over."""
    rig = Path(shutil.copytree(ROOT / "profiles" / "larkspur", folder / "larkspur"))
    (rig / "log.sqlite").unlink(missing_ok=True)
    file = next((rig / "trips").glob("*.yaml"))
    plan = yaml.load(file.read_text("utf-8"), Loader=yaml.BaseLoader)  # noqa: S506 - it makes texts alone.
    plan["days"] = [*_long_days(plan["days"], days, stops)]
    file.write_text(written_yaml(plan), "utf-8")
    return folder


def _long_days(pattern: list[dict[str, Any]], days: int, stops: int) -> Iterator[dict[str, Any]]:
    start = datetime.fromisoformat(pattern[0]["leave"])
    for number in range(days):
        day = {name: value for name, value in pattern[number % len(pattern)].items() if name != "from"}
        legs = [
            leg | {"to": {name: value for name, value in leg["to"].items() if name not in _STATED}}
            for leg in day["legs"]
        ]
        day["leave"] = (start + timedelta(days=number)).isoformat(" ", "minutes")
        day["legs"] = [
            deepcopy(leg) | {"distance": "6 mi", "driving": "0.15 h", "clearances": [], "grades": []}
            for leg in (legs * stops)[:stops]
        ]
        day["night"] = deepcopy(pattern[1]["night"])
        yield deepcopy(day if number else day | {"from": pattern[0]["from"]})


_STATED = {"levels", "arriving"}


def growth() -> Iterator[tuple[str, ...]]:
    """Build trips of more and more days and stops."""
    yield "days", "stops", "seconds", "a stop", "MiB together", "MiB largest"
    for days, stops in TRIPS:
        with tempfile.TemporaryDirectory() as folder:
            run = built(with_long_trip(Path(folder) / "rigs", days, stops), processors=2)
        seconds = f"{run.seconds:.1f}", f"{run.seconds / days / stops:.2f}"
        yield str(days), str(days * stops), *seconds, f"{run.together:.0f}", f"{run.largest:.0f}"


def main() -> None:
    """Measure and print."""
    parser = ArgumentParser(description=__doc__)
    parser.add_argument("count", type=int, nargs="?", default=20)
    parser.add_argument("--once", action="store_true")
    parser.add_argument("--growth", action="store_true")
    given = parser.parse_args()
    if given.growth:
        print(table("Trips of larkspur, two processors", growth()))
        return
    with tempfile.TemporaryDirectory() as folder:
        rigs = made(Path(folder) / "rigs", given.count)
        runs = {count: built(rigs, processors=count) for count in ((2,) if given.once else (1, 2))}
    for count, run in runs.items():
        print(
            f"{given.count} rigs, {count} processors: {run.seconds:.0f} s, {run.together:.0f} MiB together,"
        )
        print(f"  {run.largest:.0f} MiB the largest; MiB in each tenth of the time: {_tenths(run.course)}")
    if not given.once:
        print(f"two processors: {runs[1].seconds / runs[2].seconds:.2f} times one")


def _tenths(course: list[float]) -> list[int]:
    size = max(1, len(course) // 10)
    return [round(max(course[at : at + size])) for at in range(0, len(course), size)]


if __name__ == "__main__":
    main()
