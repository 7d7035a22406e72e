"""The shape of the working copy: what stands at its top, how long files and functions are, one spelling."""

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.size import entries

TOP = {
    "README.md",
    "DEVELOPERS.md",
    "LICENSE",
    "pyproject.toml",
    "binder",
    "templates",
    "profiles",
    "tests",
    "out",
}
LONGEST_FILE = 400
LONGEST_BODY = 40
FULLEST_FOLDER = 16
SAYS_NOTHING = {"base_utils", "common", "helper", "helpers", "manager", "managers", "misc", "util", "utils"}
WRITTEN_BY_HAND = {".css", ".html", ".md", ".py", ".toml", ".txt", ".yaml"}
OTHER_SPELLING = "ty" + "re"
"""Put together here so that this file, too, holds to the rule."""


def files_by_hand(root: Path) -> list[Path]:
    folders = [root / name for name in TOP if (root / name).is_dir() and name != "out"]
    files = [
        *root.glob("*"),
        *(root / ".ci").glob("*"),
        *(file for folder in folders for file in folder.rglob("*")),
    ]
    other = {"actual", "wrong_input"}  # Not kept, and wrong on purpose.
    return [file for file in files if file.suffix in WRITTEN_BY_HAND and not other & set(file.parts)]


def python_files(root: Path) -> list[Path]:
    return [file for file in files_by_hand(root) if file.suffix == ".py"]


def long_bodies(tree: ast.AST, limit: int) -> Iterator[str]:
    """Functions whose body, without its docstring, spans more lines than the limit."""
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            body = node.body[1:] if ast.get_docstring(node) else node.body
            lines = (body[-1].end_lineno or 0) - body[0].lineno + 1 if body else 0
            if lines > limit:
                yield f"{node.lineno}: {node.name} has {lines} lines"


def test_the_top_level_is_fixed(root: Path) -> None:
    assert {entry.name for entry in root.iterdir() if not entry.name.startswith(".")} == TOP


def test_files_are_short(root: Path) -> None:
    lengths = {file: len(file.read_text(encoding="utf-8").splitlines()) for file in python_files(root)}

    assert {
        str(file.relative_to(root)): lines for file, lines in lengths.items() if lines > LONGEST_FILE
    } == {}


def test_a_folder_shows_its_topics_at_a_glance(root: Path) -> None:
    package = root / "binder"
    folders = [package, *(folder for folder in package.rglob("*") if any(folder.glob("*.py")))]

    assert [
        f"{folder.relative_to(root)}: {entries(folder)}"
        for folder in folders
        if entries(folder) > FULLEST_FOLDER
    ] == []


def test_functions_are_short(root: Path) -> None:
    trees = {file: ast.parse(file.read_text(encoding="utf-8")) for file in python_files(root)}

    assert [
        f"{file.relative_to(root)}:{line}"
        for file, tree in trees.items()
        for line in long_bodies(tree, LONGEST_BODY)
    ] == []


@pytest.mark.parametrize(("limit", "told"), [(2, ["1: f has 3 lines"]), (3, [])])
def test_a_long_function_is_told_without_its_docstring(limit: int, told: list[str]) -> None:
    code = 'def f():\n    """Sum.\n\n    Long.\n    """\n    a = 1\n    b = 2\n    return a + b\n'

    assert list(long_bodies(ast.parse(code), limit)) == told


def test_no_module_has_a_name_that_says_nothing(root: Path) -> None:
    assert [
        str(file) for file in python_files(root) if {*file.stem.split("_"), file.stem} & SAYS_NOTHING
    ] == []


def test_no_file_uses_the_other_spelling_of_tire(root: Path) -> None:
    assert [
        f"{file.relative_to(root)}:{number}"
        for file in files_by_hand(root)
        for number, line in enumerate(file.read_text(encoding="utf-8").splitlines(), 1)
        if OTHER_SPELLING in line.lower()
    ] == []


def codespell(root: Path, *names: str) -> subprocess.CompletedProcess[str]:
    config = root / "pyproject.toml"
    command = [sys.executable, "-m", "codespell_lib", "--toml", str(config), *names]
    return subprocess.run(command, cwd=root, capture_output=True, text=True, check=False)


def test_words_are_spelled_the_american_way(root: Path) -> None:
    result = codespell(root, *sorted(TOP - {"out"}), ".ci")

    assert (result.stdout, result.returncode) == ("", 0)


@pytest.mark.parametrize(
    "word", ["col" + "our", "cent" + "re", "lit" + "re", "neigh" + "bour", "recie" + "ve"]
)
def test_another_spelling_is_told(root: Path, tmp_path: Path, word: str) -> None:
    (tmp_path / "a.md").write_text(f"One {word} here.\n", encoding="utf-8")

    assert codespell(root, str(tmp_path / "a.md")).stdout != ""
