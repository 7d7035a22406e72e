"""README's commands run, CI runs exactly what the pages say, and the pages name what is there."""

import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from binder.terminal.ending import CANNOT_WRITE, FAULT_OF_OURS, SIGNALED
from tests.demos import PROFILES

PAGES = ("README.md", "DEVELOPERS.md")
FENCED = re.compile(r"^(?:<!-- ci: (?P<mark>\w+) -->\n)?```sh\n(?P<text>.*?)^```$", re.MULTILINE | re.DOTALL)


def blocks(page: Path) -> Iterator[tuple[str, str]]:
    """Mark and text of each block of commands; the mark is empty where CI does not run it by name."""
    for match in FENCED.finditer(page.read_text(encoding="utf-8")):
        yield match["mark"] or "", match["text"]


def daily_commands(root: Path) -> Iterator[tuple[list[str], int]]:
    """Words of each command in blocks without a mark, and what its comment says it ends with."""
    for text in (text for mark, text in blocks(root / "README.md") if not mark):
        for line in text.splitlines():
            command, _, comment = line.partition("#")
            ending = re.search(r"ends with (\d)", comment)
            yield command.split(), int(ending[1]) if ending else 0


def files_told(root: Path) -> set[str]:
    """Names in the first column of the table under "What you get"."""
    text = (root / "README.md").read_text(encoding="utf-8").split("## What you get")[1].split("\n## ")[0]
    return set(re.findall(r"^\| `([^`]+)` \|", text, re.MULTILINE))


def test_the_daily_commands_run_one_after_the_other(root: Path, tmp_path: Path) -> None:
    shutil.copytree(PROFILES, tmp_path / "profiles")
    folder = Path(sys.executable).parent
    lines = list(daily_commands(root))

    for words, ending in lines:
        command = [str(folder / words[0]), *words[1:]]
        run = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, check=False)
        assert (words, run.returncode, "Traceback" in run.stderr) == (words, ending, False)

    every = {"new", "fields", "check", "build", "printed", "changes", "explain", "log"}
    assert {words[1] for words, _ in lines} == every
    assert {file.name for file in (tmp_path / "out" / "june").iterdir()} == files_told(root)


def test_ci_runs_each_marked_block_of_the_pages(root: Path) -> None:
    marked = {(page, mark) for page in PAGES for mark, _ in blocks(root / page) if mark}
    script = (root / ".ci" / "run").read_text(encoding="utf-8")

    assert set(re.findall(r"^run_block (\S+) (\w+)", script, re.MULTILINE)) == marked
    assert len(marked) == 3


def test_ci_installs_the_packages_that_readme_names(root: Path) -> None:
    setup = dict(blocks(root / "README.md"))["setup"]
    script = (root / ".ci" / "run").read_text(encoding="utf-8")

    for package in ("python3-venv", "libpango-1.0-0", "libpangoft2-1.0-0", "libharfbuzz-subset0"):
        assert package in setup
    # It has no list of its own that could drift from the page's.
    assert "apt-get" not in script


@pytest.mark.parametrize("page", PAGES)
def test_every_file_a_page_names_is_there(root: Path, page: str) -> None:
    text = (root / page).read_text(encoding="utf-8")
    named = set(re.findall(r"`([\w.-]+/[\w./-]*|\w+\.py)`", text)) | set(re.findall(r"\]\(([\w./]+)\)", text))
    given = {name for name in named if not re.search(r"NAME|RIG|^out/|^trips/|/actual/|^\.venv/", name)}

    assert len(given) > 3
    assert [name for name in sorted(given) if not exists(root, name)] == []


def exists(root: Path, name: str) -> bool:
    """Whether a name leads somewhere: from the top, inside the package, or by file name anywhere in it."""
    return any((root / start / name).exists() for start in ("", "binder")) or any(
        file.name == name for file in (root / "binder").rglob("*.py")
    )


def test_readme_lists_the_code_a_command_ends_with(root: Path) -> None:
    text = (root / "README.md").read_text(encoding="utf-8")

    codes = (0, 1, 2, 3, FAULT_OF_OURS, CANNOT_WRITE, *(SIGNALED + number for number in (1, 2, 15)))
    assert [code for code in codes if not re.search(rf"\n\| (\d+, )?{code}(, \d+)? \|", text)] == []
    assert "the first of 143, 130, 129, 74, 70, 2, 1, 3, 0 counts" in text
