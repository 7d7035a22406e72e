"""What several rule tests share: the syntax trees of the package; and skips are failures in CI."""

import ast
import os
from collections.abc import Generator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]


@pytest.fixture(scope="session")
def root() -> Path:
    """Top level of the working copy."""
    return ROOT


@pytest.fixture(scope="session")
def trees() -> dict[str, ast.Module]:
    """Syntax tree of each module of the package, by its path from the top level."""
    files = sorted((ROOT / "binder").rglob("*.py"))
    return {str(file.relative_to(ROOT)): ast.parse(file.read_text(encoding="utf-8")) for file in files}


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item: pytest.Item) -> Generator[None, pytest.TestReport, pytest.TestReport]:
    """Let a skipped test fail where ``CI`` is set: there, everything a test needs is installed."""
    report = yield
    if os.environ.get("CI") and report.skipped and not hasattr(report, "wasxfail"):
        report.outcome = "failed"
        report.longrepr = f"{item.nodeid} was skipped: {report.longrepr}"
    return report
