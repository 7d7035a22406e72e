"""List every check against a published value or an independent library: ``python -m tests.published``."""

import sys
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.published.kinds import KINDS

TESTS = Path(__file__).parents[1]
FOLDERS = ("published", "calculations", "reference")
"""Where a test may be a check; all of the first are."""


@dataclass(frozen=True)
class Check:
    """One case of one test that is marked as a check; ``kind`` empty: not marked."""

    id: str
    what: str
    source: str
    kind: str

    @property
    def test(self) -> str:
        """The test without its case."""
        return self.id.partition("[")[0]


class _Collector:
    def __init__(self) -> None:
        self.checks: list[Check] = []

    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        self.checks = [self._read(item) for item in items if isinstance(item, pytest.Function)]

    @staticmethod
    def _read(item: pytest.Function) -> Check:
        # A case's own mark stands behind its test's and says more.
        marks = [mark.kwargs for mark in item.own_markers if mark.name == "check"]
        said = marks[-1] if marks else {"source": "", "kind": ""}
        name, _, case = item.name.partition("[")
        what = f"{name.removeprefix('test_').replace('_', ' ')}{': ' if case else ''}{case.removesuffix(']')}"
        file = item.path.relative_to(TESTS).as_posix()
        return Check(f"{file}::{item.name}", what, str(said["source"]), str(said["kind"]))


def collected() -> list[Check]:
    """Every test of the folders, checks and others, as pytest finds them."""
    collector = _Collector()
    quiet = ["--collect-only", "-p", "no:terminal", "-p", "no:cacheprovider", "-o", "addopts="]
    folders = [str(TESTS / folder) for folder in FOLDERS]
    code = pytest.main([*quiet, "--import-mode=importlib", *folders], plugins=[collector])
    if code != pytest.ExitCode.OK:
        raise SystemExit(int(code))
    return collector.checks


def listing(checks: list[Check]) -> list[str]:
    """Lines of the list: checks by kind, then tests of the first folder that are none, then counts."""
    order: list[str] = list(KINDS)
    marked = sorted((one for one in checks if one.kind), key=lambda one: (order.index(one.kind), one.id))
    lines = [f"{one.kind}\t{one.source}\t{one.what}\t{one.id.partition('[')[0]}" for one in marked]
    others = {one.test for one in checks if not one.kind and one.id.startswith(FOLDERS[0])}
    lines += [f"no check\t-\t-\t{test}" for test in sorted(others)]
    cases = Counter(one.kind for one in marked)
    tests = Counter(kind for kind, _ in {(one.kind, one.test) for one in marked})
    return [*lines, *(f"{kind}: {cases[kind]} cases of {tests[kind]} tests, {KINDS[kind]}" for kind in KINDS)]


def main() -> None:
    """Print the list."""
    sys.stdout.write("\n".join(listing(collected())) + "\n")


if __name__ == "__main__":
    main()
