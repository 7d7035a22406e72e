"""Where the time of a build goes, and how it compares with WeasyPrint alone and with a browser.

Run ``.venv/bin/python tests/benchmarks/build.py [RIG]``; it takes some minutes. Every time is that of a
fresh process, imports included; the ways that are compared take turns, and medians of five are shown.
"""

import json
import os
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterable, Mapping
from dataclasses import astuple, dataclass
from pathlib import Path
from statistics import median

import pikepdf

ROOT = Path(__file__).resolve().parents[2]
BINDER = str(Path(sys.executable).with_name("binder"))
DATE = "2026-06-01"
ROUNDS = 5
CHROMIUM = shutil.which("chromium")
CHROMIUM_OPTIONS = ("--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer")

# Builds, and keeps the HTML of all parts of one paper as one file each, and the seconds each phase took.
KEEP = """
import json, re, sys
from datetime import date
from pathlib import Path
import binder.rendering.typeset as typeset
folder, rig, out, day = sys.argv[1:]
rendered, bodies = typeset.rendered, {}
def kept(parts, executor):
    listed = list(parts)
    for part in listed:
        head, body, foot = re.fullmatch("(.*<body>)(.*)(</body>.*)", part.html, re.DOTALL).groups()
        style = re.search("css/formats/([a-z0-9_]+)", head)[1]
        bodies.setdefault(style, [head, foot]).insert(-1, body)
    return rendered(listed, executor)
typeset.rendered = kept
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
    """What one fresh process took."""

    seconds: float
    processor_seconds: float
    peak_mib: float


def run(command: Iterable[str]) -> Run:
    """Run a command to its end; a failure ends the benchmark and shows what was said."""
    words = list(command)
    with tempfile.TemporaryFile() as said:
        start = time.perf_counter()
        process = subprocess.Popen(words, stdout=said, stderr=said, cwd=ROOT)
        _, status, usage = os.wait4(process.pid, 0)
        seconds = time.perf_counter() - start
        process.returncode = os.waitstatus_to_exitcode(status)
        if process.returncode:
            said.seek(0)
            raise SystemExit(f"{' '.join(words)} ended with {process.returncode}\n{said.read().decode()}")
    return Run(seconds, usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024)


def in_turns(ways: Mapping[str, list[list[str]]]) -> dict[str, Run]:
    """Run each way in turn, ``ROUNDS`` times; a way may need several processes, one after the other."""
    runs: dict[str, list[Run]] = {name: [] for name in ways}
    for _ in range(ROUNDS):
        for name, commands in ways.items():
            parts = [run(command) for command in commands]
            runs[name].append(
                Run(
                    sum(part.seconds for part in parts),
                    sum(part.processor_seconds for part in parts),
                    max(part.peak_mib for part in parts),
                )
            )
    return {
        name: Run(*(median(values) for values in zip(*map(astuple, taken), strict=True)))
        for name, taken in runs.items()
    }


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


def written_files(out: Path) -> str:
    files = sorted(file for file in out.rglob("*") if file.is_file())
    rows = []
    for file in files:
        pages = len(pikepdf.open(file).pages) if file.suffix == ".pdf" else None
        rows.append(
            (file.name, f"{file.stat().st_size / 1024:.0f} KiB", "" if pages is None else f"{pages} pages")
        )
    return table("Files", rows)


def chromium_commands(pages: list[str]) -> list[list[str]]:
    if CHROMIUM is None:
        return []
    return [
        [CHROMIUM, *CHROMIUM_OPTIONS, f"--print-to-pdf={page}.chromium.pdf", f"file://{page}"]
        for page in pages
    ]


def compared(ways: Mapping[str, Run]) -> str:
    whole = ways["binder build"]
    rows = [("", "seconds", "of processor", "peak memory", "build takes")]
    for name, item in ways.items():
        ratio = f"{whole.seconds / item.seconds:.2f} x" if name.endswith("same HTML") else ""
        times = (f"{item.seconds:.2f}", f"{item.processor_seconds:.2f}")
        rows.append((name, *times, f"{item.peak_mib:.0f} MiB", ratio))
    return table(f"Fresh processes, median of {ROUNDS}, taking turns", rows)


def measure(rig: Path, work: Path) -> None:
    """Measure one rig and print what was found."""
    pages_folder, out = work / "templates", work / "out"
    shutil.copytree(ROOT / "templates", pages_folder)
    kept = run([sys.executable, "-c", KEEP, str(pages_folder), str(rig), str(out), DATE])
    phases = json.loads((pages_folder / "phases.json").read_text(encoding="utf-8"))
    seconds = [(name, f"{taken:.2f} s") for name, taken in phases.items()]
    print(table("Phases of one build, without imports", [*seconds, ("all", f"{sum(phases.values()):.2f} s")]))
    print(f"Peak memory of that process: {kept.peak_mib:.0f} MiB\n")
    print(written_files(out))
    pages = [str(page) for page in sorted(pages_folder.glob("all-*.html"))]
    ways = {
        "binder build": [[BINDER, "build", str(rig), "--out", str(out), "--date", DATE]],
        "WeasyPrint, same HTML": [[sys.executable, "-c", BARE, *pages]],
        "Chromium, same HTML": chromium_commands(pages),
        "binder check": [[BINDER, "check", str(rig)]],
        "binder --help": [[BINDER, "--help"]],
    }
    print(compared(in_turns({name: commands for name, commands in ways.items() if commands})))


if __name__ == "__main__":
    chosen = Path(sys.argv[1] if len(sys.argv) > 1 else ROOT / "profiles" / "larkspur").resolve()
    with tempfile.TemporaryDirectory() as folder:
        measure(chosen, Path(folder))
