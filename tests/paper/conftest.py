"""Each demo is printed once a session; every test of paper reads that printing."""

import json
from datetime import date
from typing import Any

import pytest

from binder.assessment.assess import Assessment
from binder.cards.order import binder_document
from binder.printing.build import BuildOptions, build, printable_cards, read_and_assess
from tests.demos import PROFILES
from tests.paper.printings import EFFECTIVE, RIGS, WORDED, Printing


@pytest.fixture(scope="session", params=RIGS)
def printing(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Printing:
    """A demo, printed for one fixed date."""
    rig: str = request.param
    out = tmp_path_factory.mktemp("printing") / rig
    report = build(PROFILES / rig, BuildOptions(date.fromisoformat(EFFECTIVE), out=out))
    files = {name: (out / name).read_bytes() for name in report.files}
    return _printing(rig, files, json.loads(files["numbers.json"]), report.assessment)


@pytest.fixture(scope="session", params=WORDED)
def worded(request: pytest.FixtureRequest) -> Printing:
    """A demo, worded for one fixed date, not printed."""
    rig: str = request.param
    options = BuildOptions(date.fromisoformat(EFFECTIVE))
    return _printing(rig, {}, {}, read_and_assess(PROFILES / rig, options))


def _printing(rig: str, files: dict[str, bytes], record: dict[str, Any], assessment: Assessment) -> Printing:
    cards = printable_cards(assessment)
    return Printing(rig, files, record, assessment, cards, binder_document(assessment, cards))
