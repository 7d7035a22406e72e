"""The demo rigs with one thing changed: their files are edited as a person would, then read and assessed."""

import shutil
from datetime import date
from functools import partial
from pathlib import Path
from typing import Protocol, TypeVar

import pytest

from binder.assessment.assess import Assessment, assess
from binder.assessment.entries.contradictions import refuse_contradictions
from binder.models.load import load_profile
from tests.demos import PROFILES

ON = date(2026, 6, 1)
Change = tuple[str, str]
_Found_co = TypeVar("_Found_co", covariant=True)


class Edits(Protocol[_Found_co]):
    """Assess a demo rig after changes to its files, each an old text (found once) and a new one."""

    def __call__(
        self, name: str, *changes: Change, trip: tuple[Change, ...] = (), on: date = ...
    ) -> _Found_co: ...


Assessed = Edits[Assessment]


def edited(text: str, changes: tuple[Change, ...]) -> str:
    for old, new in changes:
        assert text.count(old) == 1, f"{old!r} stands there {text.count(old)} times"
        text = text.replace(old, new)
    return text


def edited_demo(
    folder: Path, name: str, *changes: Change, trip: tuple[Change, ...] = (), on: date = ON
) -> Assessment:
    rig = folder / name
    shutil.rmtree(rig, ignore_errors=True)
    shutil.copytree(PROFILES / name, rig)
    plan = next((rig / "trips").glob("*.yaml"))
    for file, edits in ((rig / "rig.yaml", changes), (plan, trip)):
        file.write_text(edited(file.read_text("utf-8"), edits), "utf-8")
    profile = load_profile(rig)
    refuse_contradictions(profile)
    return assess(profile, on)


@pytest.fixture
def assessed(tmp_path: Path) -> Assessed:
    return partial(edited_demo, tmp_path)


@pytest.fixture(scope="session")
def larkspur() -> Assessment:
    return assess(load_profile(PROFILES / "larkspur"), ON)
