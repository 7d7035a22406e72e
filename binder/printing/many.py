"""Many rigs built side by side: none stops another."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor, as_completed
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, NamedTuple

from binder.printing.build import BuildOptions, build

if TYPE_CHECKING:
    from binder.rendering.parts.processes import LayOut


class Outcome(NamedTuple):
    """What became of one rig of many: where it was printed and its findings, or what stopped it."""

    rig: Path
    out: Path | None = None
    grades: Mapping[str, int] = MappingProxyType({})
    told: tuple[str, ...] = ()
    fault: Exception | None = None


_AT_ONCE = 2
"""Rigs that are worked on at once: while the last parts of one are laid out the next is read. Own choice."""


def build_many(rigs: Sequence[Path], options: BuildOptions, lay_out: "LayOut") -> Iterator[Outcome]:
    """Build rigs, their parts side by side; none stops another."""
    threads = ThreadPoolExecutor(_AT_ONCE)
    begun = [threads.submit(_outcome, rig, options, lay_out) for rig in rigs]
    try:
        yield from (future.result() for future in as_completed(begun))
    finally:
        threads.shutdown(wait=False, cancel_futures=True)


def rigs_in(paths: Sequence[Path]) -> list[Path]:
    """Give the rigs that are named, and where a folder of rigs is, those in it."""
    rigs: list[Path] = []
    for path in paths:
        inside = [] if (path / "rig.yaml").exists() else sorted(path.glob("*/rig.yaml"))
        rigs += [file.parent for file in inside] or [path]
    return rigs


def _outcome(rig: Path, options: BuildOptions, lay_out: "LayOut") -> Outcome:
    """Build one; only what is told of it is kept: two hundred would not have room beside each other."""
    try:
        report = build(rig, options, lay_out=lay_out)
    except Exception as fault:  # noqa: BLE001 - whatever it is, it is told, and the others are printed.
        return Outcome(rig, fault=fault)
    grades: Counter[str] = Counter(one.grade for one in report.assessment.findings)
    return Outcome(rig, report.out, grades, tuple(report.told))
