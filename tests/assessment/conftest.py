"""Demo rigs, as they are and changed, read by the text of keys."""

from datetime import date
from pathlib import Path

import pytest

from binder.assessment.assess import assess
from binder.models.load import load_profile
from tests.assessment.edited_demos import ON, Change, Edits, edited_demo
from tests.by_key import ByKey
from tests.demos import PROFILES

Assessed = Edits[ByKey]


@pytest.fixture
def assessed(tmp_path: Path) -> Assessed:
    def changed(name: str, *changes: Change, trip: tuple[Change, ...] = (), on: date = ON) -> ByKey:
        return ByKey(edited_demo(tmp_path, name, *changes, trip=trip, on=on))

    return changed


@pytest.fixture(scope="session")
def larkspur() -> ByKey:
    return ByKey(assess(load_profile(PROFILES / "larkspur"), ON))


@pytest.fixture(scope="session")
def kestrel() -> ByKey:
    return ByKey(assess(load_profile(PROFILES / "kestrel"), ON))
