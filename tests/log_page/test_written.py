"""A build puts the page beside its printing, whole or not at all, the same for every set and printing."""

import json
import shutil
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from binder.printing import build as building
from binder.printing.build import BuildOptions, BuildReport, build
from binder.printing.log_page import page_files
from binder.problems import InputProblems
from binder.publishing.held_folder import LOCK, held
from binder.publishing.printing import NUMBERS, write_beside
from binder.rendering.parts.whole import Whole
from tests.log_page.sites import site
from tests.printed.folders import ON, changed, copied, put_in_hand

PRIVATE = """\
contacts:
  - {who: Aunt Wilhelmina, phone: 555-0177-secret}
"""


def files(folder: Path) -> dict[str, bytes]:
    return {file.name: file.read_bytes() for file in folder.iterdir()}


def page_in(folder: Path) -> dict[str, bytes]:
    return {name: content for name, content in files(folder).items() if name != NUMBERS}


def printed(rig: Path, options: BuildOptions) -> BuildReport:
    """Build, with nobody to lay anything out."""
    return build(rig, options, lay_out=lambda _: lambda _: pytest.fail("laid out"))


@pytest.fixture(autouse=True)
def _nothing_laid_out(monkeypatch: pytest.MonkeyPatch) -> None:
    """Paper is no matter here: a printing is made in a second, and says only whose it is."""

    def typeset(folder: Path, what: building._Prepared, *_: object) -> Whole:
        page = page_files(folder, what.assessment, what.cards)
        return Whole({"cards.pdf": b"paper"}, {"cards.pdf": 1}, {"rig": what.assessment.rig.name}, page)

    monkeypatch.setattr(building, "_typeset", typeset)


@pytest.fixture
def rig(tmp_path: Path) -> Path:
    folder = copied(tmp_path / "rigs", "kestrel")
    (folder / "private.yaml").write_text(PRIVATE, encoding="utf-8")
    return folder


@pytest.fixture
def options(tmp_path: Path) -> BuildOptions:
    return BuildOptions(ON, set="mechanic", cache=tmp_path / "parts")


def test_every_set_private_or_not_kept_or_not_has_the_same_page(
    rig: Path, options: BuildOptions, tmp_path: Path
) -> None:
    options = replace(options, within=tmp_path)
    first = printed(rig, options)
    page = tmp_path / "kestrel" / "log"
    assert first.log_page == page
    before = files(page)

    others: list[dict[str, Any]] = [
        {},
        {"set": "codriver", "private": True},
        {"type_size": "large"},
        {"cache": None},
    ]
    for other in others:
        shutil.rmtree(page)
        printed(rig, replace(options, **other))
        assert files(page) == before, other
    assert page_in(page) == site(rig)
    assert not [name for name, content in before.items() if b"secret" in content or b"Wilhelmina" in content]


def test_a_named_folder_holds_the_page_of_its_printing(
    rig: Path, options: BuildOptions, tmp_path: Path
) -> None:
    report = printed(rig, replace(options, out=tmp_path / "june"))

    assert report.log_page == tmp_path / "june" / "log"
    assert (tmp_path / "june" / "log" / "index.html").exists()
    assert json.loads((report.log_page / NUMBERS).read_bytes())["rig"] == "Kestrel"


def test_what_changed_is_printed_with_a_page_that_tells_it(tmp_path: Path, options: BuildOptions) -> None:
    folder = copied(tmp_path, "kestrel")
    put_in_hand(folder, "mechanic")
    options = replace(options, within=tmp_path / "out", changed=True, cache=None)
    unchanged = printed(folder, options)
    assert unchanged.is_unchanged
    assert not (tmp_path / "out").exists()

    changed(folder, ("overall_height: 134 in", "overall_height: 136 in"))
    report = printed(folder, options)
    assert report.log_page is not None
    assert {name: content for name, content in files(report.log_page).items() if name != NUMBERS} == site(
        folder
    )


def test_a_log_that_is_no_web_address_writes_no_page(tmp_path: Path, options: BuildOptions) -> None:
    folder = copied(tmp_path, "kestrel")
    changed(folder, ("log: https://log.example.org/kestrel", "log: mailto:log@example.org"))
    report = printed(folder, replace(options, within=tmp_path / "out"))

    assert report.log_page is None
    assert not (tmp_path / "out" / "kestrel" / "log").exists()


def test_a_trip_named_like_the_page_is_refused(tmp_path: Path, options: BuildOptions) -> None:
    folder = copied(tmp_path, "kestrel")
    (trip,) = (folder / "trips").glob("*.yaml")
    trip.rename(trip.with_name("log.yaml"))

    with pytest.raises(InputProblems, match="among the files of the log's page"):
        printed(folder, replace(options, within=tmp_path / "out"))


def test_the_page_of_another_rig_and_what_is_not_ours_stay(
    rig: Path, options: BuildOptions, tmp_path: Path
) -> None:
    page = tmp_path / "kestrel" / "log"
    write_beside(page, {"index.html": b"other"}, {"rig": "Wren"}, [])
    with pytest.raises(InputProblems, match="the printing of Wren is there"):
        printed(rig, replace(options, within=tmp_path))
    assert (page / "index.html").read_bytes() == b"other"

    shutil.rmtree(page)
    (page / "page.css").mkdir(parents=True)
    with pytest.raises(InputProblems, match="a folder stands where a file is to be written"):
        printed(rig, replace(options, within=tmp_path))
    assert not list((tmp_path / "kestrel").rglob("*.pdf"))


def test_only_our_own_files_are_taken_away(tmp_path: Path) -> None:
    out = tmp_path / "log"
    write_beside(out, {"old.js": b"1", "page.js": b"1"}, {"rig": "Wren"}, [])
    (out / "robots.txt").write_bytes(b"mine")
    write_beside(out, {"page.js": b"2"}, {"rig": "Wren"}, [])

    assert set(files(out)) == {"page.js", "robots.txt", NUMBERS}


def test_what_is_there_already_is_not_written_again_but_mended(tmp_path: Path) -> None:
    out = tmp_path / "log"
    write_beside(out, {"page.js": b"1"}, {"rig": "Wren"}, [])
    before = (out / "page.js").stat().st_ino
    write_beside(out, {"page.js": b"1"}, {"rig": "Wren"}, [])
    assert (out / "page.js").stat().st_ino == before

    (out / "page.js").write_bytes(b"torn")
    write_beside(out, {"page.js": b"1"}, {"rig": "Wren"}, [])
    assert (out / "page.js").read_bytes() == b"1"


def test_another_printing_that_writes_the_page_is_waited_for_and_no_longer(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    out = tmp_path / "log"
    waits: list[float] = []
    monkeypatch.setattr("binder.publishing.printing.sleep", waits.append)
    with held(out, []), pytest.raises(BlockingIOError, match="prints there"):
        write_beside(out, {"page.js": b"1"}, {"rig": "Wren"}, [])
    assert sum(waits) == pytest.approx(5)

    write_beside(out, {"page.js": b"1"}, {"rig": "Wren"}, [])
    assert set(files(out)) == {"page.js", NUMBERS}
    assert not (out / LOCK).exists()
