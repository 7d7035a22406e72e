"""A build with parts kept from one before has the same bytes, and lays nothing out."""

from datetime import date
from pathlib import Path

import pytest

from binder.printing.build import BuildOptions, build
from binder.rendering.parts import processes
from tests.paper.printings import EFFECTIVE, Printing


def test_a_build_with_kept_parts_has_the_same_bytes_and_lays_nothing_out(
    printing: Printing, root: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    rig, cache = root / "profiles" / printing.rig, tmp_path / "parts"
    options = [BuildOptions(date.fromisoformat(EFFECTIVE), out=tmp_path / name, cache=cache) for name in "ab"]

    first = build(rig, options[0])
    monkeypatch.setattr(processes.Processes, "submit", lambda *_: pytest.fail("laid out"))
    second = build(rig, options[1])

    for report in (first, second):
        assert {name: (report.out / name).read_bytes() for name in report.files} == printing.files
    assert second.notes == []
    assert len(list(cache.iterdir())) > 40
