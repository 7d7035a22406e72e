"""Change an owner's files as hands, editors and copying do, and tell what ``check`` makes of it.

``python -m tests.unknown.changed_profiles 20000`` counts what was refused, accepted, and what broke;
``test_changed_profiles.py`` does a seeded part. ``--build N`` prints so many of those that are accepted.
"""

import re
import shutil
import sys
import traceback
from argparse import ArgumentParser
from collections import Counter
from collections.abc import Iterator
from copy import deepcopy
from datetime import date
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory
from time import perf_counter
from typing import Any, NamedTuple

import yaml

from binder.models.located_yaml import located_yaml
from binder.printing.build import BuildOptions, build, printable_cards, read_and_assess
from binder.problems import InputProblems
from tests.demos import PROFILES

RIGS = Path(__file__).parents[1] / "rigs"
ON = date(2026, 6, 1)
VALUES = (
    *("", "0", "-1", "1e9", "0.0001", "nan", "inf", "12:30", "no", "true", "~", "full", "1/2", "none", "air"),
    *("0 lb", "-5 lb", "1e6 lb", "99999999 lb", "0 psi", "5,5 bar", "900 kPa", "14 ft 2 in", "-3 in", "0 in"),
    *(
        "0 gal",
        "1000000 gal",
        "3 gal/day",
        "0 mpg",
        "85 mpg",
        "0 %",
        "100 %",
        "250 %",
        "-40 degF",
        "200 degC",
    ),
    *(
        "2026-02-30",
        "1999-01-01",
        "2199-12-31",
        "0 h",
        "2 h 15 min",
        "2:20",
        "30 months",
        "-282 ft",
        "42000 ft",
    ),
    *(
        "120 deg",
        "America/Nome",
        "MST",
        "x" * 300,
        "Žluťoučký kůň",
        "Ωμέγα",
        "🚐",
        "漢字",
        "a\tb",
        "a\u00a0b",
    ),
    *(
        "\u200bname",
        "so\u00adft",
        "<b>&amp;",
        "{value}",
        "%s",
        "../..",
        "'",
        '"',
        "\x1b[31mred",
        "|",
        "- a",
        "#",
    ),
)
WAYS = (
    *("number", "number", "number", "number", "value", "value", "value", "drop", "drop", "blank", "blank"),
    *("list", "block", "key", "copy", "swap", "deep"),
)
KEYS = ("", "total", "axle", "left", "a.b", "x" * 80, "Šnek", "new one", "0", "true", "fresh", "steer left")


class Outcome(NamedTuple):
    """What became of a changed profile: ``accepted``, ``printed``, ``refused`` or ``broke``."""

    kind: str
    change: str
    where: str = ""
    seconds: float = 0.0


def changed(data: Any, draw: Random) -> tuple[Any, str]:
    """The data with one thing changed, and in words what."""
    found = deepcopy(data)
    holder, key = draw.choice([*_slots(found)])
    others = [*_slots(found)]
    way = draw.choice(WAYS)
    before = holder[key]
    if way == "drop":
        del holder[key]
    elif way == "key" and isinstance(holder, dict):
        holder[draw.choice(KEYS)] = holder.pop(key)
    elif way in {"copy", "swap"}:
        other, place = draw.choice(others)
        holder[key] = deepcopy(other[place])
        if way == "swap":
            other[place] = before
    else:
        holder[key] = {
            "blank": None,
            "list": [before, draw.choice(VALUES)],
            "block": {draw.choice(KEYS): before},
            "number": _number(str(before), draw),
            "deep": _nested(draw.randint(2, 14)),
        }.get(way, draw.choice(VALUES))
    return found, f"{way} {key}, before {str(before)[:40]!r}"


def _number(text: str, draw: Random) -> str:
    """The same text with its first number another one, as a slip of the hand leaves it."""
    factor = draw.choice((0, 0.1, 0.5, 0.9, 1.1, 2, 10, -1))
    return re.sub(r"[0-9]+(\.[0-9]+)?", lambda match: f"{float(match[0]) * factor:g}", text, count=1)


def _nested(depth: int) -> Any:
    return [_nested(depth - 1)] if depth else "a"


def _slots(data: Any) -> Iterator[tuple[Any, Any]]:
    pairs = list(data.items()) if isinstance(data, dict) else list(enumerate(data))
    for key, inner in pairs:
        yield data, key
        if isinstance(inner, dict | list):
            yield from _slots(inner)


def bases() -> list[Path]:
    """The rigs that are changed: the demos and the test rigs."""
    return [
        folder
        for root in (PROFILES, RIGS)
        for folder in sorted(root.iterdir())
        if (folder / "rig.yaml").exists()
    ]


def outcomes(count: int, seed: int, work: Path, to_build: int = 0) -> Iterator[Outcome]:
    """Change a profile at random so many times; each is checked, and the first accepted ones are built."""
    draw = Random(seed)  # noqa: S311 - examples, no secrets.
    plain = {
        folder: {
            file.relative_to(folder): located_yaml(str(file), file.read_text("utf-8")).data
            for file in folder.rglob("*.yaml")
        }
        for folder in bases()
    }
    for _ in range(count):
        folder = draw.choice(list(plain))
        file = draw.choice(list(plain[folder]))
        data, change = plain[folder][file], f"{folder.name}/{file}: "
        for _ in range(draw.choice((1, 1, 1, 2, 4))):
            try:
                data, said = changed(data, draw)
            except (IndexError, KeyError, TypeError):
                continue
            change += f"{said}; "
        target = work / "rig"
        shutil.rmtree(target, ignore_errors=True)
        shutil.copytree(folder, target)
        (target / file).write_text(yaml.safe_dump(data, sort_keys=False, allow_unicode=True), "utf-8")
        one = outcome(target, change, is_built=to_build > 0)
        to_build -= one.kind == "printed"
        yield one


def outcome(target: Path, change: str, *, is_built: bool) -> Outcome:
    """Check a folder, and build it where asked for; what is neither accepted nor refused broke."""
    begun = perf_counter()
    try:
        options = BuildOptions(ON, out=target / "out")
        printable_cards(read_and_assess(target, options))
    except InputProblems:
        return Outcome("refused", change, seconds=perf_counter() - begun)
    except Exception:  # noqa: BLE001 - whatever it is, it is told.
        return Outcome("broke", change, _end_of_traceback(), perf_counter() - begun)
    seconds = perf_counter() - begun
    if not is_built:
        return Outcome("accepted", change, seconds=seconds)
    try:
        build(target, options)
    except Exception:  # noqa: BLE001 - what check accepts is not refused either.
        return Outcome("broke", change, _end_of_traceback(), seconds)
    return Outcome("printed", change, seconds=seconds)


def _end_of_traceback() -> str:
    return " | ".join(traceback.format_exc().splitlines()[-3:])


def main() -> None:
    parser = ArgumentParser(description=__doc__)
    parser.add_argument("count", type=int)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--build", type=int, default=0, help="print so many of those accepted")
    given = parser.parse_args()
    kinds: Counter[str] = Counter()
    slowest = Outcome("", "")
    with TemporaryDirectory() as work:
        for one in outcomes(given.count, given.seed, Path(work), given.build):
            kinds[one.kind] += 1
            slowest = max(slowest, one, key=lambda outcome: outcome.seconds)
            if one.kind == "broke":
                sys.stdout.write(f"{one.where}\n    {one.change}\n")
    sys.stdout.write(", ".join(f"{number} {kind}" for kind, number in kinds.items()) + "\n")
    sys.stdout.write(f"the slowest check took {slowest.seconds:.1f} s: {slowest.change}\n")


if __name__ == "__main__":
    main()
