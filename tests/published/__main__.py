"""List every check against a published value or an independent library: ``python -m tests.published``."""

import re
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
    folders = [str(TESTS / folder) for folder in FOLDERS]
    quiet = ["--collect-only", "-q", "-q", "--no-header", "-p", "no:cacheprovider"]
    code = pytest.main([*quiet, *folders], plugins=[collector])
    if code != pytest.ExitCode.OK:
        raise SystemExit(int(code))
    return collector.checks


def listing(checks: list[Check]) -> list[str]:
    """Lines of the list: the checks by kind and file, then the counts."""
    order = list(KINDS)
    marked = sorted((one for one in checks if one.kind), key=lambda one: (order.index(one.kind), one.id))
    lines = [f"{one.kind:10}{one.source:28}{one.what}   ({one.test})" for one in marked]
    cases = Counter(one.kind for one in marked)
    tests = Counter(kind for kind, _ in {(one.kind, re.sub(r"\[.*", "", one.id)) for one in marked})
    lines += [
        "",
        *(f"{kind:10}{cases[kind]:5} cases of {tests[kind]:3} tests: {KINDS[kind]}" for kind in KINDS),
    ]
    return lines


def main() -> None:
    """Print the list."""
    found = collected()
    sys.stdout.write("\n".join(listing(found)) + "\n")


if __name__ == "__main__":
    main()
