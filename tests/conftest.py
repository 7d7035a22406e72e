"""What several rule tests share: the syntax trees of the package; and skips are failures in CI."""

import ast
import os
import signal
from collections.abc import Generator, Iterator
from pathlib import Path

import pytest
from hypothesis import settings

# In CI the same examples every time: a rare one is found by a person's run, not by somebody else's merge.
settings.register_profile("ci", derandomize=True, deadline=None)
settings.register_profile("person", deadline=None)
settings.load_profile("ci" if os.environ.get("CI") else "person")

ROOT = Path(__file__).resolve().parents[1]


@pytest.fixture(scope="session")
def root() -> Path:
    """Top level of the working copy."""
    return ROOT


@pytest.fixture(scope="session", autouse=True)
def _cache_apart(tmp_path_factory: pytest.TempPathFactory) -> None:
    """Commands keep parts here, not in the cache of whoever runs the tests."""
    os.environ["XDG_CACHE_HOME"] = str(tmp_path_factory.mktemp("cache"))


@pytest.fixture(scope="session")
def trees() -> dict[str, ast.Module]:
    """Syntax tree of each module of the package, by its path from the top level."""
    files = sorted((ROOT / "binder").rglob("*.py"))
    return {str(file.relative_to(ROOT)): ast.parse(file.read_text(encoding="utf-8")) for file in files}


@pytest.fixture
def _interruptible() -> Iterator[None]:
    """Let what is started here be interrupted, even where a shell began the tests in the background."""
    interrupted = signal.signal(signal.SIGINT, signal.default_int_handler)
    hung_up = signal.signal(signal.SIGHUP, signal.SIG_DFL)
    yield
    signal.signal(signal.SIGINT, interrupted)
    signal.signal(signal.SIGHUP, hung_up)


FIRST = (
    "binder",
    "tests/calculations",
    "tests/models",
    "tests/published",
    "tests/reference",
    "tests/wording",
)


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark the first part, which ends in under two minutes, by its folders."""
    for item in items:
        if any(item.path.is_relative_to(ROOT / folder) for folder in FIRST):
            item.add_marker("first")


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item: pytest.Item) -> Generator[None, pytest.TestReport, pytest.TestReport]:
    """Let a skipped test fail where ``CI`` is set: there, everything a test needs is installed."""
    report = yield
    if _fails_when_skipped(report):
        report.outcome, report.longrepr = "failed", f"{item.nodeid} was skipped: {report.longrepr}"
    return report


@pytest.hookimpl(wrapper=True)
def pytest_make_collect_report(
    collector: pytest.Collector,
) -> Generator[None, pytest.CollectReport, pytest.CollectReport]:
    """Let a module that skips itself fail where ``CI`` is set."""
    report = yield
    if _fails_when_skipped(report):
        report.outcome, report.longrepr = "failed", f"{collector.nodeid} was skipped: {report.longrepr}"
    return report


def _fails_when_skipped(report: pytest.TestReport | pytest.CollectReport) -> bool:
    return bool(os.environ.get("CI")) and report.skipped and not hasattr(report, "wasxfail")
