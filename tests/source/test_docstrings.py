"""A docstring says what the reader cannot see; where numbers are made, what goes in, comes out, and whence.

In ``calculations``, ``reference`` and ``quantities`` every public function has the full form: its arguments
with their dimension, its result and an example that runs; in the first two its sources too. What it returns,
raises and rests on stands on the line of that word. Elsewhere a docstring is a sentence, and more only where
there is a reason to tell; it has no sections.

Public: a function of such a module, or a method of a class of it, with no underscore before any of
its names. Not asked of: special methods, properties (a name and its summary are enough), functions that
pydantic or the command line call (those are documented where a person meets them), and inner functions.

A parameter that is a quantity ends in its dimension, ``load: on the axle [mass].``; in ``calculations`` a
bare number does too, ``[count]`` or ``[dimensionless]`` among them. A text, truth or record needs none.
"""

import ast
import re
from collections.abc import Iterator

import pytest

from binder import quantities

FULL_FORM = ("binder/calculations/", "binder/reference/", "binder/quantities/")
WITHOUT_SOURCES = {"source_ids"}
"""It only reads what it is given; so does ``quantities``, where no source is asked for."""

SECTIONS = r"^(Args|Returns|Yields|Raises|Sources|Example):"
NOT_ASKED = {
    "property",
    "cached_property",
    "field_validator",
    "model_validator",
    "command",
    "group",
    "overload",
}
BY_WORD = {"Quantity": "", "Place": "length", "Share": "dimensionless", "RatioOfTimes": "dimensionless"}
BARE_NUMBERS = {"float": "", "int": ""}
Function = ast.FunctionDef | ast.AsyncFunctionDef


def dimensions() -> dict[str, str]:
    """What stands in the brackets, by the name of the annotation; empty where any word may."""
    names = [name for name in vars(quantities) if hasattr(getattr(quantities, name), "__metadata__")]
    return {name: re.sub(r"(?<!^)(?=[A-Z])", " ", name).lower() for name in names} | BY_WORD


def public_functions(tree: ast.Module) -> Iterator[Function]:
    classes = [node for node in tree.body if isinstance(node, ast.ClassDef) and not node.name.startswith("_")]
    for node in [*tree.body, *(inner for outer in classes for inner in outer.body)]:
        if isinstance(node, Function) and not node.name.startswith("_"):
            decorators = {
                word for item in node.decorator_list for word in re.findall(r"\w+", ast.unparse(item))
            }
            if not decorators & NOT_ASKED:
                yield node


def sections(docstring: str) -> dict[str, str]:
    """Each section by its name; the example is what follows the first prompt."""
    told, prompt, example = docstring.partition("\n>>> ")
    parts = re.split(SECTIONS, told, flags=re.MULTILINE)
    return {
        "Summary": parts[0],
        **dict(zip(parts[1::2], parts[2::2], strict=True)),
        "Example": prompt + example,
    }


def entries(text: str) -> dict[str, str]:
    """Each parameter with all its words; lines that go on are joined."""
    found = re.findall(r"^ {4}\*{0,2}(\w+): (.*(?:\n {5,}.*)*)", text, flags=re.MULTILINE)
    return {name: " ".join(words.split()) for name, words in found}


def parameters(function: Function) -> dict[str, ast.expr | None]:
    stated = function.args
    every = [*stated.posonlyargs, *stated.args, stated.vararg, *stated.kwonlyargs, stated.kwarg]
    return {item.arg: item.annotation for item in every if item and item.arg not in {"self", "cls"}}


def faults(path: str, function: Function) -> Iterator[str]:
    said = sections(ast.get_docstring(function) or "")
    described = entries(said.get("Args", ""))
    stated = parameters(function)
    needs_return = function.returns is not None and ast.unparse(function.returns) != "None"
    if not said["Summary"].split("\n")[0].endswith("."):
        yield "the first line is no sentence"
    if list(described) != list(stated):
        yield f"Args tell of {list(described)}, the function takes {list(stated)}"
    if needs_return and not {"Returns", "Yields"} & set(said):
        yield "no Returns"
    has_none = path.startswith("binder/quantities/") or function.name in WITHOUT_SOURCES
    yield from (
        f"no {name}"
        for name in (("Example",) if has_none else ("Sources", "Example"))
        if not said.get(name, "").strip()
    )
    apart = [
        name for name, text in said.items() if name not in {"Summary", "Args", "Example"} and text[:1] != " "
    ]
    yield from (f"{name} does not stand on one line with its words" for name in apart)
    if re.match(r"(design|own)\b", said.get("Sources", "").strip(), re.IGNORECASE):
        yield "Sources name none"
    if "load_profile" in said["Example"]:
        yield "the Example needs a whole profile"
    if re.search(r">>> [\w.]+(?:\(.*\))?\.__name__$", said["Example"], re.MULTILINE):
        yield "the Example shows a name and no result"
    words = dimensions() | (BARE_NUMBERS if path.startswith("binder/calculations/") else {})
    for name in described.keys() & stated.keys():
        annotation = ast.unparse(stated[name] or ast.Constant(None)).strip("'\"")
        needed = [
            words[word] for word in annotation.replace("None", "").strip(" |").split(" | ") if word in words
        ]
        bracket = re.search(r"\[([^]]+)\]\.?$", described[name])
        if needed and (bracket is None or (needed[0] and bracket[1] not in {needed[0], "any"})):
            yield f"{name} does not end in [{needed[0] or 'its dimension'}]"


def told(path: str, tree: ast.Module) -> list[str]:
    functions = list(public_functions(tree))
    return [
        f"{path}:{item.lineno}: {item.name}: {fault}" for item in functions for fault in faults(path, item)
    ]


def test_every_public_function_is_documented(trees: dict[str, ast.Module]) -> None:
    full = {path: tree for path, tree in trees.items() if path.startswith(FULL_FORM)}

    assert len(full) > len(FULL_FORM)
    assert [line for path, tree in full.items() for line in told(path, tree)] == []


def with_sections(tree: ast.Module) -> list[int]:
    """Lines of the definitions whose docstring is divided into sections."""
    nodes = [
        node
        for node in ast.walk(tree)
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef | ast.AsyncFunctionDef)
    ]
    return [
        getattr(node, "lineno", 1)
        for node in nodes
        if re.search(SECTIONS, ast.get_docstring(node) or "", flags=re.MULTILINE)
    ]


def test_elsewhere_a_docstring_has_no_sections(trees: dict[str, ast.Module]) -> None:
    others = {path: tree for path, tree in trees.items() if not path.startswith(FULL_FORM)}

    assert [f"{path}:{line}" for path, tree in others.items() for line in with_sections(tree)] == []
    assert with_sections(ast.parse(WHOLE)) == [2]


def test_every_module_and_public_class_has_a_summary(trees: dict[str, ast.Module]) -> None:
    nodes = [(path, node) for path, tree in trees.items() for node in [tree, *tree.body]]
    named = [(path, node) for path, node in nodes if isinstance(node, ast.Module | ast.ClassDef)]

    assert [
        f"{path}:{getattr(node, 'lineno', 1)}"
        for path, node in named
        if not getattr(node, "name", "").startswith("_") and not ast.get_docstring(node)
    ] == []


WHOLE = '''
def total(load: Mass, count: int) -> Mass:
    """Total load.

    Args:
        load: on one tire,
            the heaviest [mass].
        count: of tires [count].
    Returns: The sum [mass].
    Sources: practice.

    >>> 1 + 1
    2
    """
'''


@pytest.mark.parametrize(
    ("right", "wrong", "fault"),
    [
        ("Total load.", "Total load", "the first line is no sentence"),
        ("[mass].\n        count", "[pressure].\n        count", "load does not end in [mass]"),
        ("heaviest [mass].", "heaviest.", "load does not end in [mass]"),
        ("tires [count].", "tires.", "count does not end in [its dimension]"),
        ("        count: of", "        number: of", "Args tell of ['load', 'number'], the function takes"),
        ("    Returns:", "    Gives:", "no Returns"),
        ("    Sources:", "    Origin:", "no Sources"),
        (
            "    Returns: The",
            "    Returns:\n        The",
            "Returns does not stand on one line with its words",
        ),
        (">>> 1 + 1", "1 + 1", "no Example"),
        (">>> 1 + 1", ">>> load_profile(folder)", "the Example needs a whole profile"),
        ("practice.", "Design.", "Sources name none"),
    ],
)
def test_a_gap_in_a_docstring_is_told(right: str, wrong: str, fault: str) -> None:
    path = "binder/calculations/axle_loads.py"

    assert told(path, ast.parse(WHOLE)) == []
    assert f"total: {fault}" in told(path, ast.parse(WHOLE.replace(right, wrong)))[0]
