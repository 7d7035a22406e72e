"""How long 50,000 entries take: to import as JSON Lines, as a table and again, to show, and to export.

Run ``.venv/bin/python tests/benchmarks/log.py``. Each command is a fresh process, beside one that only loads
the same modules; the least of three counts, and one over its limit fails. The entries are invented.
"""

import json
import random
import shutil
import subprocess
import sys
import time
from datetime import UTC, datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory

from binder.log.identity import new_id

ROOT = Path(__file__).resolve().parents[2]
COUNT = 50_000
PLACES = ("steer left", "steer right", "drive left outer", "drive left inner", "drive right inner")
LIMITS = {"import of JSON Lines": 5.0, "import of a table": 5.0, "show": 0.5, "show --last 40": 0.5}
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


def seconds(*words: str) -> float:
    """Run a command of the log in a process of its own."""
    code = (
        "import sys; from binder.cli import main; main()" if words else "import binder.log.commands, sqlite3"
    )
    start = time.perf_counter()
    subprocess.run([sys.executable, "-c", code, *words], cwd=ROOT, check=True, stdout=subprocess.DEVNULL)
    return time.perf_counter() - start


def main() -> int:
    """Measure, print, and tell whether every command kept its limit."""
    taken: dict[str, float] = {}
    with TemporaryDirectory() as folder:
        lines, rows = Path(folder) / "season.jsonl", Path(folder) / "monitor.csv"
        write_entries(lines)
        write_rows(rows)
        imports = min(seconds() for _ in range(3))
        for _ in range(3):
            for name, file in (("import of JSON Lines", lines), ("import of a table", rows)):
                rig = Path(folder) / "rig"
                shutil.rmtree(rig, ignore_errors=True)
                shutil.copytree(ROOT / "profiles" / "larkspur", rig)
                _note(taken, name, seconds("log", "import", str(rig), str(file)))
            _note(taken, "import again", seconds("log", "import", str(rig), str(rows)))
            _note(taken, "show", seconds("log", "show", str(rig)) - imports)
            _note(taken, "show --last 40", seconds("log", "show", str(rig), "--last", "40") - imports)
            _note(taken, "export", seconds("log", "export", str(rig)))
    print(f"{'imports alone':24} {imports:5.2f} s; show is told beyond them")
    for name, least in taken.items():
        print(f"{name:24} {least:5.2f} s" + (f", limit {LIMITS[name]:.1f} s" if name in LIMITS else ""))
    over = [name for name, limit in LIMITS.items() if taken[name] > limit]
    print(f"over the limit: {', '.join(over)}" if over else "within the limits")
    return 1 if over else 0


def _note(taken: dict[str, float], name: str, found: float) -> None:
    taken[name] = min(found, taken.get(name, found))


if __name__ == "__main__":
    sys.exit(main())
