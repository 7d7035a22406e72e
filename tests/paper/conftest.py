"""Each demo is printed once a session; every test of paper reads that printing."""

import json
from datetime import date
from pathlib import Path

import pytest

from binder.build import BuildOptions, build
from binder.cards.order import binder_document, ring
from tests.paper.printings import EFFECTIVE, RIGS, Printing


@pytest.fixture(scope="session", params=RIGS)
def printing(
    request: pytest.FixtureRequest, root: Path, tmp_path_factory: pytest.TempPathFactory
) -> Printing:
    """A demo, printed for one fixed date."""
    rig: str = request.param
    out = tmp_path_factory.mktemp("printing") / rig
    report = build(root / "profiles" / rig, BuildOptions(date.fromisoformat(EFFECTIVE), out=out))
    files = {name: (out / name).read_bytes() for name in report.files}
    cards = ring(report.assessment)
    document = binder_document(report.assessment, cards)
    return Printing(rig, files, json.loads(files["numbers.json"]), report.assessment, cards, document)
