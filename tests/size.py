"""How much there is to read: ``python -m tests.size`` counts lines, docstrings, modules and entries."""

import ast
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

PACKAGE = Path(__file__).resolve().parents[1] / "binder"


class Size(NamedTuple):
    """What was counted in one folder and all below it."""

    modules: int
    lines: int
    blank: int
    docstrings: int
    docstrings_blank: int
    largest_folder: tuple[int, str]


def docstring_lines(tree: ast.Module) -> Iterator[int]:
    """Numbers of the lines that a docstring takes."""
    for node in ast.walk(tree):
        if not isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef | ast.AsyncFunctionDef):
            continue
        if ast.get_docstring(node, clean=False) is not None:
            said = node.body[0]
            yield from range(said.lineno, (said.end_lineno or said.lineno) + 1)


def entries(folder: Path) -> int:
    """What a person sees on opening a folder, its introduction aside."""
    hidden = {"__pycache__", "__init__.py"}
    return sum(entry.name not in hidden for entry in folder.iterdir())


def size(folder: Path) -> Size:
    """Count a folder of modules."""
    files = sorted(folder.rglob("*.py"))
    lines = blank = said = said_blank = 0
    for file in files:
        text = file.read_text(encoding="utf-8")
        whole = text.splitlines()
        spoken = set(docstring_lines(ast.parse(text)))
        lines += len(whole)
        blank += sum(not line.strip() for line in whole)
        said += len(spoken)
        said_blank += sum(not whole[number - 1].strip() for number in spoken)
    folders = [folder, *(place for place in folder.rglob("*") if place.is_dir() and any(place.glob("*.py")))]
    largest = max((entries(place), str(place.relative_to(folder.parent))) for place in folders)
    return Size(len(files), lines, blank, said, said_blank, largest)


def main() -> None:
    """Print a line for each part and one for the whole."""
    parts = [part for part in sorted(PACKAGE.iterdir()) if part.is_dir() and part.name != "__pycache__"]
    for part in [*parts, PACKAGE]:
        found = size(part)
        spoken = (found.docstrings - found.docstrings_blank) / max(1, found.lines - found.blank)
        sys.stdout.write(
            f"{part.name:13} {found.modules:4} modules {found.lines:6} lines, docstrings "
            f"{found.docstrings / max(1, found.lines):4.0%} ({spoken:4.0%} without blank lines), "
            f"largest folder {found.largest_folder[1]}: {found.largest_folder[0]}\n"
        )


if __name__ == "__main__":
    main()
