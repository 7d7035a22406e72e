"""The same input and date give the same bytes: elsewhere, on another day, by another seed, with no entry."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

from binder.log.store import add
from binder.models.load import LOG
from tests.demos import PROFILES
from tests.paper.printings import EFFECTIVE, Printing

_BUILD = """
import sys, time
now, now_ns, gmtime, localtime = time.time, time.time_ns, time.gmtime, time.localtime
ahead = 400 * 86_400
time.time = lambda: now() + ahead
time.time_ns = lambda: now_ns() + ahead * 10**9
time.gmtime = lambda at=None: gmtime(time.time() if at is None else at)
time.localtime = lambda at=None: localtime(time.time() if at is None else at)
from datetime import date
from pathlib import Path
from binder.printing.build import BuildOptions, build
build(Path(sys.argv[1]), BuildOptions(date.fromisoformat(sys.argv[3]), out=Path(sys.argv[2])))
"""
"""A build whose clock is more than a year ahead; that nothing asks ``datetime`` is a rule of the layers."""


def test_another_place_clock_zone_hash_seed_and_an_empty_log_change_no_byte(
    printing: Printing, root: Path, tmp_path: Path
) -> None:
    profile, out = tmp_path / "elsewhere" / printing.rig, tmp_path / "out"
    shutil.copytree(PROFILES / printing.rig, profile)
    add(profile, [])
    assert (profile / LOG).exists()
    changed = {"PYTHONHASHSEED": "77", "TZ": "Pacific/Kiritimati", "PYTHONPATH": str(root), "LC_ALL": "C"}
    kept = {key: value for key, value in os.environ.items() if key != "SOURCE_DATE_EPOCH"}

    subprocess.run(
        [sys.executable, "-c", _BUILD, f"elsewhere/{printing.rig}", str(out), EFFECTIVE],
        cwd=tmp_path,
        env=kept | changed,
        check=True,
    )

    again = {file.name: file.read_bytes() for file in out.iterdir() if file.is_file()}
    assert sorted(again) == sorted(printing.files)
    assert [name for name, content in again.items() if content != printing.files[name]] == []


def test_nothing_names_a_place_on_the_machine(printing: Printing, root: Path) -> None:
    for name, content in printing.files.items():
        assert str(root).encode() not in content, name
        assert b"/tmp/" not in content, name
