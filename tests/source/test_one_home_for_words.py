"""A value becomes a word in ``wording`` alone: the assessment holds no English, and nobody takes text apart.

English of the assessment stands in its tables of kinds. Outside ``wording`` nothing splits, searches or
matches text, but for what a person wrote, and each such place is named here with its reason.
"""

import ast
from collections.abc import Iterator, Mapping
from importlib import import_module
from pkgutil import walk_packages
from typing import get_args

import pytest

from binder import assessment, calculations, models, reference
from binder.assessment import ledger
from binder.reference.constants import PROCEDURE_CONSTANTS
from binder.reference.spares import spare_rules
from binder.wording.sentences import known_measures

TAKES_APART = {
    "split",
    "rsplit",
    "splitlines",
    "partition",
    "rpartition",
    "startswith",
    "endswith",
    "removeprefix",
    "removesuffix",
    "match",
    "fullmatch",
    "search",
    "findall",
    "sub",
}
OWNERS_TEXT: dict[str, str] = {
    "binder/assessment/fluids/fluids.py": "what a fluid is: its grade, its mixture, that none is measured",
    "binder/assessment/service/items.py": "what carries a date: an alarm, a paper",
    "binder/assessment/service/service.py": "what is serviced: of the coupling, or other",
    "binder/assessment/spares/stock.py": "how many of a spare are carried",
    "binder/assessment/tires/axle.py": "the position of a spare tire",
    "binder/assessment/weights/tickets.py": "the position of a spare tire",
    "binder/cards/procedures/reading.py": "the words of procedures, whose braces name facts",
    "binder/cards/procedures/lines.py": "the words of procedures, into whose braces facts are put",
    "binder/cards/pages/plan.py": "the size on a tire's side, which says its diameter and width",
    "binder/cards/pages/plan_places.py": "where a filler is: on the left, in the rear",
    "binder/cards/address.py": "the address of the log, which a code marks with its card",
    "binder/cards/procedures/conditions.py": "the side of a filler",
    "binder/cards/pages/fluids.py": "the specification of a fluid, which may say degF or degC",
}
"""Modules that read what a person wrote, with what that is."""

TELLING = {"text", "rule", "slack", "helps", "key", "title", "name", "origin", "texts"}
"""Names of attributes that hold told text: nothing is looked for in them."""

CONTAINS = (ast.In, getattr(ast, "Not" + "In"))
"""The second is put together: its name is a word that is spelled wrong."""

OF_POSITIONS = {"left outer", "left inner", "right inner", "right outer"}
"""Where a tire of a pair stands, as the profile writes it after the axle."""

DIRECTIONS = {"up", "down", "nearest"}


def vocabulary() -> set[str]:
    """Words with a blank in them that are codes: of the profile, of calculations, of tables and of cases."""
    found = {*PROCEDURE_CONSTANTS, *OF_POSITIONS}
    found |= {word for rule in spare_rules() for group in rule.needs for word in group}
    for package in (models, calculations, reference):
        for module in walk_packages(package.__path__, f"{package.__name__}."):
            found |= set(_codes(vars(import_module(module.name))))
    found |= set(_codes(vars(ledger)))
    for module in walk_packages(assessment.__path__, f"{assessment.__name__}."):
        if module.name.endswith("kinds"):
            found |= set(_cases(vars(import_module(module.name))))
    return {word for word in found if " " in word}


def _codes(names: Mapping[str, object]) -> Iterator[str]:
    """Words of the literal types that a module names or annotates with."""
    for value in names.values():
        yield from _words(value)
        for annotation in getattr(value, "__annotations__", {}).values():
            yield from _words(annotation)


def _cases(names: Mapping[str, object]) -> Iterator[str]:
    """Names of cases in a table of kinds."""
    for value in names.values():
        tables = vars(value).values() if hasattr(value, "__dataclass_fields__") else [value]
        for table in tables:
            if isinstance(table, Mapping):
                yield from (name for name in table if isinstance(name, str))


def _words(annotation: object) -> Iterator[str]:
    for inner in get_args(annotation):
        if isinstance(inner, str):
            yield inner
        else:
            yield from _words(inner)


def documentation(tree: ast.Module) -> set[ast.Constant]:
    """Constants that stand alone as a statement: docstrings, of attributes too."""
    return {
        node.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
    }


def of_bugs(tree: ast.Module) -> set[ast.Constant]:
    """Constants in what is raised: it is for whoever wrote the code."""
    raised = [node for node in ast.walk(tree) if isinstance(node, ast.Raise)]
    return {part for node in raised for part in ast.walk(node) if isinstance(part, ast.Constant)}


def english(tree: ast.Module, known: set[str]) -> Iterator[str]:
    """Text with a blank between letters that is no word of the profile."""
    silent = documentation(tree) | of_bugs(tree)
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and node not in silent:
            words = node.value.split()
            is_unit = "/" in words or "*" in words or "|" in words
            if len(words) > 1 and not is_unit and node.value not in known and any(map(str.isalpha, words)):
                yield f"{node.lineno}: {node.value!r}"


def taken_apart(tree: ast.Module) -> Iterator[str]:
    """Calls that take text apart, and looks for something in told text."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
            if node.func.attr in TAKES_APART:
                yield f"{node.lineno}: {ast.unparse(node.func)}"
        elif isinstance(node, ast.Compare) and any(isinstance(op, CONTAINS) for op in node.ops):
            held = node.comparators[-1]
            if isinstance(held, ast.Attribute) and held.attr in TELLING:
                yield f"{node.lineno}: in {ast.unparse(held)}"


def rounded(tree: ast.Module) -> Iterator[str]:
    """Names of a measure with a direction, and roundings."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            measure, _, direction = node.value.rpartition(" ")
            if node.value in DIRECTIONS - {"up", "down"} or (
                direction in DIRECTIONS and measure in known_measures()
            ):
                yield f"{node.lineno}: {node.value!r}"
        elif isinstance(node, ast.Name) and node.id in {"round_up", "round_down", "rounded"}:
            yield f"{node.lineno}: {node.id}"


def outside(trees: dict[str, ast.Module], *parts: str) -> dict[str, ast.Module]:
    return {
        path: tree
        for path, tree in trees.items()
        if path.split("/")[1] in parts and not path.endswith("kinds.py")
    }


def test_english_of_the_assessment_stands_in_its_tables_of_kinds(trees: dict[str, ast.Module]) -> None:
    known = vocabulary()

    assert "exhaust fluid" in known
    assert [
        f"{path}:{line}"
        for path, tree in outside(trees, "assessment").items()
        for line in english(tree, known)
    ] == []


def test_nobody_outside_wording_takes_text_apart(trees: dict[str, ast.Module]) -> None:
    assert [
        f"{path}:{line}"
        for path, tree in outside(trees, "assessment", "cards").items()
        if path not in OWNERS_TEXT
        for line in taken_apart(tree)
    ] == []


def test_every_module_that_reads_what_a_person_wrote_is_still_there(trees: dict[str, ast.Module]) -> None:
    assert {path for path in OWNERS_TEXT if path not in trees or not list(taken_apart(trees[path]))} == set()


def test_units_and_rounding_are_chosen_in_wording_and_in_tables_of_kinds(
    trees: dict[str, ast.Module],
) -> None:
    assert [
        f"{path}:{line}"
        for path, tree in outside(trees, "assessment", "cards").items()
        for line in rounded(tree)
    ] == []


@pytest.mark.parametrize(
    ("source", "finder"),
    [
        ("f(key.startswith('a'))", taken_apart),
        ("'TOO LOW' in found.text", taken_apart),
        ("re.search('a', b)", taken_apart),
        ("re.sub('a', b, c)", taken_apart),
        ("words.text(load, 'weight up')", rounded),
        ("round_up(3)", rounded),
        ("x = 'over its rating'", lambda tree: english(tree, set())),
        ("x = f'{a} over its rating'", lambda tree: english(tree, set())),
    ],
)
def test_each_way_is_told(source: str, finder: object) -> None:
    assert len(list(finder(ast.parse(source)))) == 1  # type: ignore[operator]
