"""The page of a demo as a build writes it, made without laying out a page of paper."""

import json
from pathlib import Path
from typing import Any

from click.testing import CliRunner

from binder.assessment.assess import Assessment
from binder.cards.ring.order import ring
from binder.cli import main
from binder.log.store import entries_in
from binder.models.log_entries import Entry
from binder.printing.build import BuildOptions, read_and_assess
from binder.printing.log_page import page_files
from tests.printed.folders import ON


def assessed(folder: Path) -> Assessment:
    return read_and_assess(folder, BuildOptions(ON))


def site(folder: Path, assessment: Assessment | None = None) -> dict[str, bytes]:
    found = assessment or assessed(folder)
    return page_files(folder, found, ring(found))


def told(files: dict[str, bytes]) -> dict[str, Any]:
    """What the page knows of its rig."""
    text = files["rig.js"].decode()
    known = json.loads(text.removeprefix('"use strict";\nconst RIG = ').removesuffix(";\n"))
    assert isinstance(known, dict)
    return known


def written(files: dict[str, bytes], folder: Path) -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    for name, content in files.items():
        (folder / name).write_bytes(content)
    return folder


def imported(rig: Path, file: Path, to: Path) -> list[Entry]:
    """What the log of a rig holds after an import of a file, which ends well."""
    folder = to / "rig"
    folder.mkdir(exist_ok=True)
    (folder / "rig.yaml").write_bytes((rig / "rig.yaml").read_bytes())
    run = CliRunner().invoke(main, ["log", "import", str(folder), str(file)])
    assert run.exit_code == 0, run.output
    return entries_in(folder)
