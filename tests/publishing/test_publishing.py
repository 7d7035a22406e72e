"""A printing appears whole or not at all, and takes nothing away that is not its own."""

import hashlib
import json
import os
from pathlib import Path

import pytest

from binder.problems import InputProblems
from binder.publishing.held_folder import LOCK, held
from binder.publishing.printing import NUMBERS, mixed_files, write_printing


def written(out: Path, **contents: bytes) -> list[str]:
    with held(out, []) as work:
        return write_printing(work, {f"{name}.pdf": data for name, data in contents.items()}, {"rig": "Wren"})


def files(out: Path) -> dict[str, bytes]:
    return {file.name: file.read_bytes() for file in out.iterdir()}


def test_a_printing_leaves_its_files_alone_and_lists_their_hashes(tmp_path: Path) -> None:
    names = written(tmp_path / "out", cards=b"1", binder=b"2")
    record = json.loads((tmp_path / "out" / NUMBERS).read_bytes())

    assert set(files(tmp_path / "out")) == set(names) == {"cards.pdf", "binder.pdf", NUMBERS}
    assert record == {
        "rig": "Wren",
        "files": {
            name: hashlib.sha256(data).hexdigest()
            for name, data in (("binder.pdf", b"2"), ("cards.pdf", b"1"))
        },
    }


def test_only_what_an_earlier_printing_listed_is_removed(tmp_path: Path) -> None:
    (tmp_path / "taxes.pdf").write_bytes(b"mine")
    written(tmp_path, cards=b"1", extra=b"1")
    written(tmp_path, cards=b"2")

    assert set(files(tmp_path)) == {"taxes.pdf", "cards.pdf", NUMBERS}
    assert (tmp_path / "taxes.pdf").read_bytes() == b"mine"
    assert (tmp_path / "cards.pdf").read_bytes() == b"2"


def test_a_listed_file_that_is_not_what_was_written_stays(tmp_path: Path) -> None:
    written(tmp_path, cards=b"1", desk=b"1")
    (tmp_path / "desk.pdf").write_bytes(b"with my notes on it")
    written(tmp_path, cards=b"2")

    assert (tmp_path / "desk.pdf").read_bytes() == b"with my notes on it"


@pytest.mark.parametrize(
    "listed",
    [
        '{"files": {"../taxes.pdf": "x", "..": "x", "folder": "x", "mine.pdf": "x"}}',
        '{"files": ["mine.pdf"]}',
        '{"files": null}',
        "[1",
        "",
    ],
)
def test_a_foreign_list_removes_nothing(tmp_path: Path, listed: str) -> None:
    out = tmp_path / "out"
    (out / "folder").mkdir(parents=True)
    for mine in (tmp_path / "taxes.pdf", out / "mine.pdf"):
        mine.write_bytes(b"mine")
    (out / NUMBERS).write_text(listed)
    written(out, cards=b"1")

    assert (tmp_path / "taxes.pdf").read_bytes() == b"mine"
    assert {file.name for file in out.iterdir()} == {"folder", "mine.pdf", "cards.pdf", NUMBERS}


@pytest.mark.parametrize("synced", [0, 1, 2])
def test_a_disk_that_fails_leaves_the_old_printing_whole(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, synced: int
) -> None:
    written(tmp_path, binder=b"old", cards=b"old")
    before, sync, done = files(tmp_path), os.fsync, []

    def full(descriptor: int) -> None:
        if Path(f"/proc/self/fd/{descriptor}").readlink().name != LOCK:
            done.append(descriptor)
            if len(done) > synced:
                raise OSError(28, "No space left on device")
        sync(descriptor)

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space left"):
        written(tmp_path, binder=b"new", cards=b"new")

    assert files(tmp_path) == before
    assert mixed_files(tmp_path) == []


@pytest.mark.parametrize("failing", ["binder.pdf", "cards.pdf", NUMBERS])
def test_a_file_that_cannot_be_replaced_has_those_before_it_put_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, failing: str
) -> None:
    written(tmp_path, binder=b"old", cards=b"old", desk=b"old")
    before, replace = files(tmp_path), os.replace

    def stopped(source: Path, place: Path) -> None:
        if place == tmp_path / failing and source.parent.name != "before":
            raise PermissionError(13, "open in another program", str(place))
        replace(source, place)

    monkeypatch.setattr(os, "replace", stopped)
    with pytest.raises(PermissionError, match="open in another program"):
        written(tmp_path, binder=b"new", slip=b"new", cards=b"new")

    assert files(tmp_path) == before


def in_the_way(place: Path, kind: str) -> None:
    if kind == "a folder":
        place.mkdir()
    elif kind == "a link":
        place.symlink_to(place.with_name("target"))
    else:
        os.mkfifo(place)


@pytest.mark.parametrize("kind", ["a folder", "a link", "no plain file"])
@pytest.mark.parametrize("name", ["sheets.pdf", NUMBERS])
def test_what_stands_in_the_way_is_told_before_anything_is_replaced(
    tmp_path: Path, kind: str, name: str
) -> None:
    written(tmp_path, cards=b"old")
    (tmp_path / NUMBERS).unlink()
    in_the_way(tmp_path / name, kind)
    with pytest.raises(InputProblems) as told:
        written(tmp_path, cards=b"new", sheets=b"new")

    text = f"{kind} stands where a file is to be written; move it, or name another folder with --out"
    assert f"{tmp_path / name}: error: {text}\n" in str(told.value)
    assert (tmp_path / "cards.pdf").read_bytes() == b"old"
    assert {file.name for file in tmp_path.iterdir()} == {"cards.pdf", name}


def test_a_file_that_may_not_be_written_over_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    written(tmp_path, cards=b"old", binder=b"old")
    before = files(tmp_path)
    # Root may write over anything.
    monkeypatch.setattr(os, "access", lambda place, _mode: place.name != "cards.pdf")
    with pytest.raises(InputProblems) as told:
        written(tmp_path, binder=b"new", cards=b"new")

    assert "cards.pdf: error: this file may not be written over; move it" in str(told.value)
    assert files(tmp_path) == before


def test_a_link_laid_in_the_folder_of_new_files_is_not_written_through(tmp_path: Path) -> None:
    (tmp_path / "taxes.pdf").write_bytes(b"mine")
    with held(tmp_path / "out", []) as work:
        (work / "cards.pdf").symlink_to(tmp_path / "taxes.pdf")
        with pytest.raises(FileExistsError):
            write_printing(work, {"cards.pdf": b"1"}, {})

    assert (tmp_path / "taxes.pdf").read_bytes() == b"mine"


def test_a_file_that_was_changed_lost_or_linked_makes_a_printing_mixed(tmp_path: Path) -> None:
    written(tmp_path, binder=b"1", cards=b"1", desk=b"1", sheets=b"1")
    whole = mixed_files(tmp_path)
    (tmp_path / "binder.pdf").write_bytes(b"2")
    (tmp_path / "cards.pdf").unlink()
    (tmp_path / "desk.pdf").rename(tmp_path / "mine.pdf")
    (tmp_path / "desk.pdf").symlink_to(tmp_path / "mine.pdf")

    assert whole == []
    assert mixed_files(tmp_path) == ["binder.pdf", "cards.pdf", "desk.pdf"]
