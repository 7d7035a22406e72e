"""How long a command takes, beside an interpreter that only imports the libraries it stands on.

Run ``.venv/bin/python tests/benchmarks/commands.py``. Fresh processes take turns, so that a busy machine
slows all of them alike; medians of nine are shown, and a median over its limit fails. Bytecode is kept, as it
is of a program that is installed.
"""

import os
import subprocess
import sys
import time
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

ROOT = Path(__file__).resolve().parents[2]
BINDER = [sys.executable, "-c", "from binder.cli import main; main()"]
ROUNDS = 9
REFERENCE = "libraries alone"
COMMANDS = {
    REFERENCE: [sys.executable, "-c", "import click, pint, pydantic, yaml"],
    "binder --help": [*BINDER, "--help"],
    "binder check larkspur": [*BINDER, "check", str(ROOT / "profiles" / "larkspur")],
    "binder check kestrel": [*BINDER, "check", str(ROOT / "profiles" / "kestrel")],
}
LIMITS = {"binder --help": 0.2, "binder check larkspur": 1.0, "binder check kestrel": 1.0}


def seconds(command: list[str], bytecode: str) -> float:
    """Run one command to its end, in a folder of the repository."""
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    environment |= {"PYTHONPYCACHEPREFIX": bytecode}
    start = time.perf_counter()
    run = subprocess.run(command, cwd=ROOT, check=False, stdout=subprocess.DEVNULL, env=environment)
    assert run.returncode in {0, 1, 3}, f"{command} ended with {run.returncode}"
    return time.perf_counter() - start


def main() -> int:
    """Measure, print, and tell whether every command kept its limit."""
    taken: dict[str, list[float]] = {name: [] for name in COMMANDS}
    with TemporaryDirectory() as bytecode:
        for number in range(ROUNDS + 1):
            for name, command in COMMANDS.items():
                took = seconds(command, bytecode)
                taken[name] += [took] if number else []  # The first of each writes it.
    medians = {name: median(times) for name, times in taken.items()}
    for name, middle in medians.items():
        ratio = middle / medians[REFERENCE]
        print(f"{name:24} {middle:5.2f} s, least {min(taken[name]):5.2f} s, {ratio:4.2f} x {REFERENCE}")
    over = [name for name, limit in LIMITS.items() if medians[name] > limit]
    print(f"over the limit: {', '.join(over)}" if over else "within the limits")
    return 1 if over else 0


if __name__ == "__main__":
    sys.exit(main())
