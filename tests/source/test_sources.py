"""Every source a number names stands in the bibliography."""

import ast
import re
from collections.abc import Iterator

import pytest

from binder.reference.sources import bibliography, source_ids

SOURCES = bibliography()

NAMED = re.compile(r"\b(?:S\d{2,}|W\d{1,2}|S-[A-Z][A-Z0-9-]*\d*|\d{2} CFR \d+\.\d+)\b")
PLACE_OF_SOURCE = {"FigureKind": 3, "Constant": 2, "_constant": 3}


def texts(expression: ast.expr) -> Iterator[str]:
    """Every text an expression may give: both branches of a choice, each entry of a table."""
    passed_over = {
        id(part) for node in ast.walk(expression) for aside in asides(node) for part in ast.walk(aside)
    }
    for node in ast.walk(expression):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in passed_over:
            yield node.value


def asides(node: ast.AST) -> list[ast.expr]:
    """What stands in an expression without becoming its value: conditions, keys, positions."""
    if isinstance(node, ast.IfExp):
        return [node.test]
    if isinstance(node, ast.Dict):
        return [key for key in node.keys if key]
    return [node.slice] if isinstance(node, ast.Subscript) else []


def named_sources(tree: ast.Module) -> Iterator[tuple[int, str]]:
    """Line and text of each source given to a figure or constant, or kept under a name with SOURCE in it."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call):
            place = PLACE_OF_SOURCE.get(ast.unparse(node.func).split(".")[-1], len(node.args))
            given = [
                *node.args[place : place + 1],
                *(item.value for item in node.keywords if item.arg in {"source", "sources"}),
            ]
            yield from ((node.lineno, text) for value in given for text in texts(value))
        elif isinstance(node, ast.Assign | ast.AnnAssign) and node.value is not None:
            targets = node.targets if isinstance(node, ast.Assign) else [node.target]
            if any(
                re.search(r"(?:^|_)SOURCES?$", ast.unparse(target)) for target in targets
            ) and not isinstance(node.value, ast.Call):
                yield from ((node.lineno, text) for text in texts(node.value))


def unknown(path: str, tree: ast.Module) -> Iterator[str]:
    for line, text in named_sources(tree):
        lacking = [part.strip() for part in text.split(";") if part.strip() and part.strip() not in SOURCES]
        yield from (f"{path}:{line}: {part}" for part in lacking if "{" not in part)
    for node in ast.walk(tree):
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef):
            lacking = [word for word in NAMED.findall(ast.get_docstring(node) or "") if word not in SOURCES]
            yield from (f"{path}:{getattr(node, 'lineno', 1)}: {word} in the docstring" for word in lacking)


def test_every_source_named_in_the_code_is_known(trees: dict[str, ast.Module]) -> None:
    assert [line for path, tree in trees.items() for line in unknown(path, tree)] == []


def test_every_source_has_a_title_a_grade_and_a_place() -> None:
    assert [item.id for item in SOURCES.values() if not (item.title and item.grade and item.locator)] == []


def test_an_unknown_source_is_an_error() -> None:
    with pytest.raises(KeyError):
        source_ids("practice; S9999")


@pytest.mark.parametrize(
    "code",
    [
        'FigureKind("a", "weight up", "rule", "S9999")',
        'Figure("a", 1, "calculated", "rule", source="practice; S9999")',
        'Figure("a", 1, "calculated", "rule", source="practice" if known == "x" else "S9999")',
        'RULE_SOURCES = {"row": "S9999"}',
        'def load():\n    """Load.\n\n    Sources:\n        S9999.\n    """',
    ],
)
def test_a_source_that_is_not_in_the_bibliography_is_told(code: str) -> None:
    assert len(list(unknown("binder/x.py", ast.parse(code)))) == 1
