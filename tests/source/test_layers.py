"""Imports go one way, and what touches the world outside stays in the one module that may."""

import ast
import re
from collections.abc import Iterator
from graphlib import TopologicalSorter
from pathlib import Path

import pytest

BELOW_ASSESSMENT = {"quantities", "problems", "reference", "models", "calculations"}
BELOW_PRINTING = BELOW_ASSESSMENT | {"assessment", "wording", "cards", "rendering", "printed", "publishing"}
BELOW_PRINTING |= {"templates_folder"}
MAY_IMPORT: dict[str, set[str]] = {
    "__init__": set(),
    "quantities": set(),
    "problems": set(),
    "templates_folder": set(),
    "reference": {"quantities"},
    "models": {"quantities", "problems"},
    "calculations": {"quantities", "reference"},
    "log": {"models", "quantities", "problems"},
    "publishing": {"problems"},
    "assessment": BELOW_ASSESSMENT,
    "wording": {"assessment", "quantities", "reference"},
    "cards": {"wording", "assessment", "models", "quantities", "problems", "templates_folder"},
    "rendering": {"cards", "problems", "publishing", "templates_folder"},
    "printed": {"rendering", "cards", "wording", "assessment", "models", "problems"},
    "printing": BELOW_PRINTING | {"log"},
    "terminal": BELOW_PRINTING | {"log", "printing"},
    "cli": BELOW_PRINTING | {"printing", "terminal", "log"},
}
NETWORK = {"aiohttp", "asyncio", "ftplib", "http", "httpx", "requests", "smtplib", "socket", "ssl", "urllib3"}
CHANCE = {"random", "secrets", "uuid"}
CLOCK = {"datetime.now", "datetime.utcnow", "datetime.today", "date.today", "time.time", "time.time_ns"}
CLOCK |= {"time.localtime", "time.gmtime", "time.strftime", "time.ctime"}
PRINTING = {"print", "input", "sys.stdout", "sys.stderr"}
WRITING = {
    "write_text",
    "write_bytes",
    "mkdir",
    "makedirs",
    "unlink",
    "rmdir",
    "touch",
    "rename",
    "symlink_to",
}
WRITING |= {"os.replace", "os.remove"}
WRITERS = {"shutil", "tempfile"}


def layer(path: str) -> str:
    return path.removeprefix("binder/").removesuffix(".py").split("/")[0]


def imported(path: str, tree: ast.AST) -> Iterator[tuple[int, str]]:
    """Line and full dotted name of everything a module imports, at the top or inside a function."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, alias.name) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            package = path.split("/")[: -node.level] if node.level else []
            start = ".".join([*package, *([node.module] if node.module else [])])
            yield from ((node.lineno, f"{start}.{alias.name}") for alias in node.names)


def steps_up(path: str, tree: ast.AST) -> list[str]:
    here = layer(path)
    return [
        f"{path}:{line}: {here} imports {name}"
        for line, name in imported(path, tree)
        if name.split(".")[0] == "binder" and name.split(".")[1] not in {*MAY_IMPORT[here], here}
    ]


def touches(path: str, tree: ast.AST) -> Iterator[tuple[str, str]]:
    """What reaches outside the program: the kind of it, and the place with the words that do it."""
    for line, name in imported(path, tree):
        top = name.split(".")[0]
        kinds = {"yaml": top == "yaml", "network": top in NETWORK or name.startswith("urllib.request")}
        kinds |= {"chance": top in CHANCE, "write": top in WRITERS}
        kinds["clock"] = name in CLOCK
        yield from ((kind, f"{path}:{line}: {name}") for kind, found in kinds.items() if found)
    for node in ast.walk(tree):
        if isinstance(node, ast.Attribute | ast.Name):
            words = ast.unparse(node)
            kinds = {"clock": ".".join(words.split(".")[-2:]) in CLOCK}
            kinds["print"] = words in PRINTING or words.split(".")[-1] in {"echo", "secho"}
            kinds["write"] = words in WRITING or (isinstance(node, ast.Attribute) and node.attr in WRITING)
            yield from ((kind, f"{path}:{node.lineno}: {words}") for kind, found in kinds.items() if found)
        elif isinstance(node, ast.Call) and opens_for_writing(node):
            yield "write", f"{path}:{node.lineno}: {ast.unparse(node)}"


def for_types(node: ast.stmt) -> bool:
    return isinstance(node, ast.If) and ast.unparse(node.test) == "TYPE_CHECKING"


def opens_for_writing(call: ast.Call) -> bool:
    values = [*call.args, *(word.value for word in call.keywords)]
    if isinstance(call.func, ast.Name):
        values = values[1:]
    modes = [value.value for value in values if isinstance(value, ast.Constant)]
    return ast.unparse(call.func).split(".")[-1] == "open" and any(
        isinstance(mode, str) and re.fullmatch("[rwaxbt+]+", mode) and set(mode) & set("wax+")
        for mode in modes
    )


def found(trees: dict[str, ast.Module], kind: str, *allowed: str) -> list[str]:
    others = {path: tree for path, tree in trees.items() if path not in allowed}
    return [place for path, tree in others.items() for what, place in touches(path, tree) if what == kind]


def test_imports_between_layers_only_go_down(trees: dict[str, ast.Module]) -> None:
    assert [step for path, tree in trees.items() for step in steps_up(path, tree)] == []


def test_the_table_for_developers_is_the_one_held_here(root: Path) -> None:
    text = (root / "DEVELOPERS.md").read_text(encoding="utf-8")
    rows = re.findall(r"^\| \d+ \| (.+?) \| (.+?) \|$", text, re.MULTILINE)
    told = {
        part: set(re.findall(r"`(\w+)`", may))
        for parts, may in rows
        for part in re.findall(r"`(\w+)`", parts)
    }

    all_below = {part: MAY_IMPORT[part] for part in ("printing", "terminal", "cli")}
    assert told | all_below | {"__init__": set()} == MAY_IMPORT


def test_no_modules_import_each_other_in_a_ring(trees: dict[str, ast.Module]) -> None:
    modules = {path.removesuffix(".py").removesuffix("/__init__").replace("/", "."): path for path in trees}
    graph = {
        module: {
            used
            for _, name in imported(path, trees[path])
            for used in (name, name.rpartition(".")[0])
            if used in modules and used != module
        }
        for module, path in modules.items()
    }

    assert set(TopologicalSorter(graph).static_order()) == set(modules)


def test_the_command_line_imports_the_package_inside_its_functions(trees: dict[str, ast.Module]) -> None:
    at_top = [
        node
        for node in trees["binder/cli.py"].body
        if not isinstance(node, ast.FunctionDef | ast.ClassDef) and not for_types(node)
    ]
    names = {name for node in at_top for _, name in imported("binder/cli.py", node)}

    ours = {name.split(".")[1] for name in names if name.startswith("binder.")}

    assert ours <= {"terminal"}


def test_only_the_reader_of_profiles_reads_yaml(trees: dict[str, ast.Module]) -> None:
    assert found(trees, "yaml", "binder/models/load.py", "binder/models/located_yaml.py") == []


def test_files_are_read_as_records_for_profiles_procedures_and_sets_alone(
    trees: dict[str, ast.Module],
) -> None:
    readers = {"binder.models.load.read_record", "binder.models.located_yaml.located_yaml"}
    used = {path for path, tree in trees.items() if readers & {name for _, name in imported(path, tree)}}

    readers_of_records = {"models/load", "cards/procedures/reading", "cards/sets", "printed/touched"}
    assert used == {f"binder/{name}.py" for name in readers_of_records}


def test_files_are_written_where_printings_and_parts_are_kept_alone(trees: dict[str, ast.Module]) -> None:
    parts = ("rendering/parts/cache", "rendering/parts/processes")
    writers = ("printing/build", "printing/starter", "publishing/held_folder", "publishing/printing", *parts)
    assert found(trees, "write", *(f"binder/{name}.py" for name in writers)) == []


def test_the_log_alone_keeps_a_database(trees: dict[str, ast.Module]) -> None:
    used = {path for path, tree in trees.items() for _, name in imported(path, tree) if "sqlite3" in name}

    assert used == {"binder/log/store.py"}


@pytest.mark.parametrize(
    ("kind", "where"),
    [
        ("print", ["cli", "terminal/ending", "terminal/progress", "log/commands"]),
        ("clock", ["cli", "log/commands"]),
        ("chance", ["publishing/held_folder"]),
        ("network", []),
    ],
)
def test_what_is_outside_is_reached_from_one_place(
    trees: dict[str, ast.Module], kind: str, where: list[str]
) -> None:
    assert found(trees, kind, *(f"binder/{name}.py" for name in where)) == []


@pytest.mark.parametrize(
    "source",
    [
        "from binder.cards import blocks",
        "import binder.models.rig",
        "from binder import cli",
        "from ..build import x",
    ],
)
def test_a_step_up_is_told(source: str) -> None:
    assert len(steps_up("binder/calculations/axle_loads.py", ast.parse(source))) == 1


@pytest.mark.parametrize(
    ("kind", "source"),
    [
        ("yaml", "import yaml"),
        ("network", "from urllib.request import urlopen"),
        ("chance", "import random"),
        ("clock", "from time import time"),
        ("clock", "datetime.now(UTC)"),
        ("clock", "datetime.date.today()"),
        ("print", "print(1)"),
        ("print", "click.echo('x')"),
        ("write", "Path('a').write_text('x')"),
        ("write", "open('a', 'w')"),
        ("write", "Path('a').open(mode='xb')"),
        ("write", "os.replace('a', 'b')"),
        ("write", "import shutil"),
    ],
)
def test_a_reach_outside_is_told(kind: str, source: str) -> None:
    assert [what for what, _ in touches("binder/cards/ring/tires.py", ast.parse(source))] == [kind]


@pytest.mark.parametrize(
    "source",
    ["open('a')", "Path('a').open('rb')", "text.replace('a', 'b')", "write_pdf()", "print_date.today"],
)
def test_reading_is_no_reach_outside(source: str) -> None:
    assert list(touches("binder/cards/ring/tires.py", ast.parse(source))) == []
