"""What the tests of the log share: an invented rig's folder and a reader of its names, on a fixed day."""

import shutil
from datetime import UTC, datetime
from pathlib import Path

import pytest

from binder.log.reading import Reader
from binder.log.rig_names import names_of
from binder.models.load import load_rig
from tests.demos import PROFILES

LARKSPUR = PROFILES / "larkspur"
NOW = datetime(2026, 11, 1, 12, tzinfo=UTC)


@pytest.fixture
def rig(tmp_path: Path) -> Path:
    """Make the folder of a rig with no log yet."""
    folder = tmp_path / "larkspur"
    folder.mkdir()
    shutil.copy(LARKSPUR / "rig.yaml", folder)
    return folder


@pytest.fixture(scope="session")
def reader() -> Reader:
    """Give the names of the rig, the moment of taking, and no zone."""
    return Reader(names_of(load_rig(LARKSPUR)), NOW)
