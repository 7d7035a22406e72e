"""Folders of rigs of which something is printed and in hand, made without laying out a page."""

from datetime import date
from pathlib import Path
from shutil import copytree

import pytest

from binder.printed import FILE
from binder.printed.coded import parts_of, public_document
from binder.printed.differences import Differences, differences
from binder.printed.made import made, with_pages
from binder.printed.record import Made, printed_of, text_of, with_printing
from binder.printing.build import BuildOptions, read_and_assess
from tests.demos import PROFILES

ON = date(2026, 6, 1)


def copied(tmp_path: Path, rig: str = "larkspur") -> Path:
    """A demo in a folder of its own."""
    return copytree(PROFILES / rig, tmp_path / rig)


def put_in_hand(folder: Path, *sets: str, on: date = ON) -> None:
    """Record the printing of some sets, as if each had been built, printed and laminated."""
    assessment = read_and_assess(folder, BuildOptions(on))
    for name in sets:
        document = public_document(assessment, name)
        printing = with_pages(
            made(document, document, assessment, name), dict.fromkeys(parts_of(document), 1)
        )
        printed = with_printing(printed_of(folder), Made(printing=printing))
        (folder / FILE).write_text(text_of(printed), encoding="utf-8")


def changed(folder: Path, *pairs: tuple[str, str], file: str = "rig.yaml") -> None:
    """Edit a file of the owner's: each first text, which must stand there once, becomes the second."""
    text = (folder / file).read_text("utf-8")
    for old, new in pairs:
        assert text.count(old) == 1, f"{old!r} stands there {text.count(old)} times"
        text = text.replace(old, new)
    (folder / file).write_text(text, "utf-8")


def found(folder: Path, name: str = "everything", on: date = ON) -> Differences:
    """What differs from what is in hand."""
    return differences(read_and_assess(folder, BuildOptions(on)), printed_of(folder), name)


def titles(differences_: Differences) -> set[str]:
    """Names of the parts that differ."""
    return {one.title for one in differences_.every}


@pytest.fixture
def larkspur(tmp_path: Path) -> Path:
    """The demo with every set in hand."""
    folder = copied(tmp_path)
    put_in_hand(folder, "everything", "codriver")
    return folder
