"""What the commands of an owner take, beside a browser and WeasyPrint alone, and where a build's time goes.

Run ``.venv/bin/python -m tests.benchmarks.build [ROUNDS]``; it takes some minutes. Every time is that of a
fresh process, imports included. What is compared takes turns in one run, and medians are shown, with the
processor seconds of all processes together, which a busy machine lengthens less. Bytecode is kept, as it is
of a program that is installed.
"""

import json
import os
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import suppress
from dataclasses import astuple, dataclass
from pathlib import Path
from statistics import median

import psutil

ROOT = Path(__file__).resolve().parents[2]
BINDER = [sys.executable, "-c", "from binder.cli import main; main()"]
DATE = ["--date", "2026-06-01"]
CHROMIUM = shutil.which("chromium")
CHROMIUM_OPTIONS = (
    "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync", "--no-pdf-header-footer",
)  # fmt: skip
ROW = "100 psi: 5775 lb"
"""A row of larkspur's table of a tire, which the measurements change."""

# Builds, and keeps the HTML of all parts of one paper as one file each, and the seconds each phase took.
KEEP = """
import json, re, sys
from datetime import date
from pathlib import Path
import binder.rendering.typeset as typeset
folder, rig, out, day = sys.argv[1:]
begun_parts, bodies = typeset.begun_parts, {}
def kept(groups, *how):
    listed = {name: list(parts) for name, parts in groups.items()}
    for part in (part for parts in listed.values() for part in parts):
        head, body, foot = re.fullmatch("(.*<body>)(.*)(</body>.*)", part.html, re.DOTALL).groups()
        style = re.search("css/formats/([a-z0-9_]+)", head)[1]
        bodies.setdefault(style, [head, foot]).insert(-1, body)
    return begun_parts(listed, *how)
typeset.begun_parts = kept
from binder.printing.build import BuildOptions, build
report = build(Path(rig), BuildOptions(date.fromisoformat(day), out=Path(out)))
for style, parts in bodies.items():
    Path(folder, f"all-{style}.html").write_text("".join(parts), encoding="utf-8")
Path(folder, "phases.json").write_text(json.dumps(report.phases), encoding="utf-8")
"""

# The same layout with nothing of ours around it, and the same rare collection of garbage.
BARE = """
import gc, sys
gc.set_threshold(100_000, 50, 50)
from weasyprint import HTML
for page in sys.argv[1:]:
    HTML(filename=page).write_pdf(page + ".pdf", pdf_variant="pdf/ua-1")
"""


@dataclass(frozen=True)
class Run:
    """What one fresh process, and all it began, took."""

    seconds: float
    processor_seconds: float


class Bench:
    """A rig in a folder of its own, with a cache of its own."""

    def __init__(self, folder: Path) -> None:
        """Copy the rig, build it once, and record it as in hand."""
        self.folder, self.rig, self.cache = folder, folder / "larkspur", folder / "cache"
        shutil.copytree(ROOT / "profiles" / "larkspur", self.rig)
        for file in (self.rig / "printed.yaml", self.rig / "log.sqlite"):
            file.unlink(missing_ok=True)
        self.text = (self.rig / "rig.yaml").read_text("utf-8")
        self.environment = {name: value for name, value in os.environ.items() if name != _NO_BYTECODE}
        self.environment |= {
            "XDG_CACHE_HOME": str(self.cache),
            "PYTHONPYCACHEPREFIX": str(folder / "bytecode"),
            "PYTHONPATH": str(ROOT),
        }
        self.binder("build", "larkspur", *DATE)
        self.binder("printed", "larkspur")

    def write(self, row: str = ROW) -> None:
        """Write the rig with another row of a tire's table."""
        assert self.text.count(ROW) == 1
        (self.rig / "rig.yaml").write_text(self.text.replace(ROW, row), "utf-8")

    def keep_nothing(self) -> None:
        """Empty the cache."""
        shutil.rmtree(self.cache, ignore_errors=True)

    def binder(self, *words: str) -> Run:
        """Run a command of ours."""
        return self.run([*BINDER, *words])

    def run(self, words: Iterable[str]) -> Run:
        """Run a command to its end; a failure ends the benchmark and shows what was said."""
        with tempfile.TemporaryFile() as said:
            start = time.perf_counter()
            process = subprocess.Popen(
                list(words), stdout=said, stderr=said, cwd=self.folder, env=self.environment
            )
            _, status, usage = os.wait4(process.pid, 0)
            seconds = time.perf_counter() - start
            process.returncode = os.waitstatus_to_exitcode(status)
            if process.returncode not in {0, 1, 3}:
                said.seek(0)
                raise SystemExit(f"{words} ended with {process.returncode}\n{said.read().decode()}")
        return Run(seconds, usage.ru_utime + usage.ru_stime)

    def most_memory(self, *words: str) -> tuple[float, float]:
        """MiB all processes of a command have together at most, shared pages once, and the largest has."""
        with subprocess.Popen(
            [*BINDER, *words], cwd=self.folder, env=self.environment,
            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        ) as process:  # fmt: skip
            together, alone = map(max, zip(*memory_of(process), strict=True))
        return together, alone


def memory_of(process: "subprocess.Popen[bytes]") -> Iterator[tuple[float, float]]:
    """MiB of a process and all it began, shared pages once, and of the largest, as long as it lives."""
    while process.poll() is None:
        each = [0.0]
        with suppress(psutil.Error):
            leader = psutil.Process(process.pid)
            each += [_proportional(one.pid) for one in (leader, *leader.children(recursive=True))]
        yield sum(each), max(each)
        time.sleep(0.05)


_NO_BYTECODE = "PYTHONDONTWRITEBYTECODE"


def _proportional(process: int) -> float:
    with suppress(OSError):
        for line in Path(f"/proc/{process}/smaps_rollup").read_text("ascii").splitlines():
            if line.startswith("Pss:"):
                return int(line.split()[1]) / 1024
    return 0.0


def table(title: str, rows: Iterable[tuple[str, ...]]) -> str:
    """Rows in columns, the first to the left and the others to the right."""
    cells = list(rows)
    widths = [max(map(len, column)) for column in zip(*cells, strict=True)]
    lines = [
        "  ".join(
            [
                row[0].ljust(widths[0]),
                *(cell.rjust(width) for cell, width in zip(row[1:], widths[1:], strict=True)),
            ]
        )
        for row in cells
    ]
    return "\n".join([title, *(f"  {line.rstrip()}" for line in lines), ""])


def kept_pages(bench: Bench) -> list[str]:
    """HTML of all parts, a file for each paper beside a copy of the styles; tells the phases of a build."""
    pages, out = bench.folder / "templates", bench.folder / "kept"
    shutil.copytree(ROOT / "templates", pages)
    bench.run([sys.executable, "-c", KEEP, str(pages), str(bench.rig), str(out), DATE[1]])
    phases = json.loads((pages / "phases.json").read_text("utf-8"))
    seconds = [(name, f"{taken:.2f} s") for name, taken in phases.items()]
    print(table("Phases of one build, without imports", [*seconds, ("all", f"{sum(phases.values()):.2f} s")]))
    return [str(page) for page in sorted(pages.glob("all-*.html"))]


def commands(bench: Bench, pages: list[str]) -> dict[str, Callable[[int], Iterable[Run]]]:
    """What takes turns; each is run in the state that the one before it left."""

    def cold(_: int) -> Iterable[Run]:
        bench.write()
        bench.keep_nothing()
        yield bench.binder("build", "larkspur", *DATE)

    def changed_row(number: int) -> Iterable[Run]:
        bench.write(f"100 psi: {5760 + number} lb")
        yield bench.binder("build", "larkspur", *DATE)

    def check_clean(_: int) -> Iterable[Run]:
        (bench.rig / "printed.yaml").rename(bench.folder / "aside.yaml")
        yield bench.binder("check", "larkspur")
        (bench.folder / "aside.yaml").rename(bench.rig / "printed.yaml")

    def chromium(_: int) -> Iterable[Run]:
        for page in pages:
            yield bench.run(
                [str(CHROMIUM), *CHROMIUM_OPTIONS, f"--print-to-pdf={page}.pdf", f"file://{page}"]
            )

    ways: dict[str, Callable[[int], Iterable[Run]]] = {
        "libraries alone": lambda _: [
            bench.run([sys.executable, "-c", "import click, pint, pydantic, yaml"])
        ],
        "--help": lambda _: [bench.binder("--help")],
        BUILD: cold,
        CHROME: chromium,
        BARE_WEASYPRINT: lambda _: [bench.run([sys.executable, "-c", BARE, *pages])],
        "build, nothing changed": lambda _: [bench.binder("build", "larkspur", *DATE)],
        "build, one row changed": changed_row,
        "build --changed after it": lambda _: [bench.binder("build", "larkspur", "--changed", *DATE)],
        "changes": lambda _: [bench.binder("changes", "larkspur", *DATE)],
        "check, void parts": lambda _: [bench.binder("check", "larkspur")],
        "check, nothing in hand": check_clean,
    }
    return ways if CHROMIUM else {name: way for name, way in ways.items() if name != CHROME}


BUILD, CHROME, BARE_WEASYPRINT = "build, nothing kept", "Chromium, same HTML", "WeasyPrint, same HTML"


def in_turns(ways: Mapping[str, Callable[[int], Iterable[Run]]], rounds: int) -> dict[str, Run]:
    """Run each way in turn; a way may need several processes, one after the other."""
    taken: dict[str, list[Run]] = {name: [] for name in ways}
    for number in range(rounds):
        for name, way in ways.items():
            taken[name].append(Run(*map(sum, zip(*map(astuple, way(number)), strict=True))))
    return {
        name: Run(*(median(values) for values in zip(*map(astuple, runs), strict=True)))
        for name, runs in taken.items()
    }


def main(rounds: int) -> None:
    """Measure and print."""
    with tempfile.TemporaryDirectory() as folder:
        bench = Bench(Path(folder))
        measured = in_turns(commands(bench, kept_pages(bench)), rounds)
        bench.keep_nothing()
        together, alone = bench.most_memory("build", "larkspur", *DATE)
    whole = measured[BUILD]
    rows = [("", "seconds", "of processor", "of a build that kept nothing")]
    for name, one in measured.items():
        rows.append(
            (
                name,
                f"{one.seconds:.2f}",
                f"{one.processor_seconds:.2f}",
                f"1/{whole.seconds / one.seconds:.2f}",
            )
        )
    print(table(f"Medians of {rounds}, taking turns, on {os.cpu_count()} processors", rows))
    load = ", ".join(f"{one:.1f}" for one in os.getloadavg())
    print(f"A build that keeps nothing: {together:.0f} MiB together, {alone:.0f} MiB the largest process.")
    print(f"Load of the machine: {load}.")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 5)
