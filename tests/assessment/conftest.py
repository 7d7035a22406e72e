"""The demo rigs with one thing changed: their files are edited as a person would, then read and assessed."""

import shutil
from datetime import date
from pathlib import Path
from typing import Protocol

import pytest

from binder.assessment.assess import assess
from binder.assessment.assessment import Assessment
from binder.assessment.entries.contradictions import refuse_contradictions
from binder.models.load import load_profile

PROFILES = Path(__file__).parents[2] / "profiles"
Change = tuple[str, str]


class Assessed(Protocol):
    """Assess a demo rig after changes to its files, each an old text (found once) and a new one."""

    def __call__(
        self, name: str, *changes: Change, trip: tuple[Change, ...] = (), on: date = ...
    ) -> Assessment: ...


def edited(text: str, changes: tuple[Change, ...]) -> str:
    for old, new in changes:
        assert text.count(old) == 1, f"{old!r} stands there {text.count(old)} times"
        text = text.replace(old, new)
    return text


@pytest.fixture
def assessed(tmp_path: Path) -> Assessed:
    def changed(
        name: str, *changes: Change, trip: tuple[Change, ...] = (), on: date = date(2026, 6, 1)
    ) -> Assessment:
        folder = tmp_path / name
        shutil.rmtree(folder, ignore_errors=True)
        shutil.copytree(PROFILES / name, folder)
        plan = next((folder / "trips").glob("*.yaml"))
        for file, edits in ((folder / "rig.yaml", changes), (plan, trip)):
            file.write_text(edited(file.read_text("utf-8"), edits), "utf-8")
        profile = load_profile(folder)
        refuse_contradictions(profile)
        return assess(profile, on)

    return changed


@pytest.fixture(scope="session")
def larkspur() -> Assessment:
    return assess(load_profile(PROFILES / "larkspur"), date(2026, 6, 1))


@pytest.fixture(scope="session")
def kestrel() -> Assessment:
    return assess(load_profile(PROFILES / "kestrel"), date(2026, 6, 1))
