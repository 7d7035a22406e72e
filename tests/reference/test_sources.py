"""The bibliography is whole, and tables and constants name only what is in it."""

import re
from importlib import resources
from pathlib import Path

import pytest

from binder.reference import constants
from binder.reference.constants import Constant
from binder.reference.sources import bibliography, rows_of_table, source, source_ids

SOURCES = bibliography()

GRADES = re.compile(r"^([ABC]([/ ].*)?|-|textbook|practice|memory|measured|stated)$")
TABLES = sorted(
    file.name.removesuffix(".csv")
    for file in resources.files("binder.reference").joinpath("tables").iterdir()
    if file.name.endswith(".csv") and file.name != "sources.csv"
)


def test_every_source_is_named_somewhere(root: Path) -> None:
    files = [file for part in ("binder", "tests") for file in (root / part).rglob("*")]
    kept = [file for file in files if file.suffix in {".py", ".csv"} and file.name != "sources.csv"]
    words = (root / "templates" / "procedures").glob("*.yaml")
    named = "\n".join(file.read_text(encoding="utf-8") for file in (*kept, *words))

    assert [
        name for name in SOURCES if not re.search(rf"(?<![\w-]){re.escape(name)}(?![\w-]|\.\d)", named)
    ] == []


def test_each_id_stands_once() -> None:
    ids = [row["source_id"] for row in rows_of_table("sources")]

    assert len(ids) == len(set(ids)) == len(SOURCES)


@pytest.mark.parametrize("name", SOURCES)
def test_source_has_title_grade_and_locator(name: str) -> None:
    found = source(name)

    assert found.title
    assert GRADES.match(found.grade), found.grade
    assert found.locator or found.grade in {"textbook", "practice", "memory", "measured", "stated"}
    assert not re.search(r"file id|find_string|/work|/tmp|READ\b", f"{found.title} {found.locator}")


def test_unknown_source_is_a_bug() -> None:
    with pytest.raises(KeyError):
        source("S99")
    with pytest.raises(KeyError):
        source_ids("S50; somewhere")


def test_ids_are_split_in_order_without_repeats() -> None:
    assert source_ids("S50; practice; S50;") == ("S50", "practice")
    assert source_ids("") == ()


@pytest.mark.parametrize("table", TABLES)
def test_every_row_of_a_table_names_known_sources(table: str) -> None:
    rows = rows_of_table(table)

    assert rows
    assert all(source_ids(row["source_id"]) for row in rows)


def test_every_constant_names_known_sources() -> None:
    singles = [value for value in vars(constants).values() if isinstance(value, Constant)]
    groups = [item for value in vars(constants).values() if isinstance(value, tuple) for item in value]

    assert len(singles) > 15
    assert all(source_ids(constant.source) for constant in [*singles, *groups])
