"""Every format string of every table of kinds can be filled, and every kind says what it has to."""

import ast
from collections.abc import Iterator, Mapping
from datetime import UTC, datetime
from importlib import import_module
from pathlib import Path
from pkgutil import walk_packages
from string import Formatter
from typing import Any, get_args

import pytest

from binder import assessment
from binder.assessment.ledger import Fact, FigureKind, FindingKind, InputKind, Phrase
from binder.quantities import registry
from binder.reference.sources import source_ids
from binder.wording.measures import Rounding, Style, System
from binder.wording.numbers import QUANTITY_MEASURES
from binder.wording.sentences import known_measures, sentence

UNITS = {
    "pressure": "psi",
    "fine pressure": "psi",
    "weight": "pound",
    "room": "pound",
    "distance": "mile",
    "span": "foot",
    "inches": "inch",
    "volume": "gallon",
    "temperature": "degree_Fahrenheit",
    "elevation": "foot",
    "speed": "mile_per_hour",
    "torque": "foot * pound_force",
    "tread": "inch",
    "power": "kilowatt",
    "energy": "kilowatt_hour",
    "charge": "ampere_hour",
    "percent": "percent",
    "percent as stated": "percent",
    "fine percent": "percent",
    "fuel use": "gallon / mile",
    "fine volume": "gallon",
    "length": "inch",
    "size": "inch",
}
"""A unit each measure can be asked for in; all others are times."""

MOMENT = datetime(2026, 6, 1, 9, 5, tzinfo=UTC)
PLAIN: dict[str, Fact] = {
    "count": 3,
    "number": 2.5,
    "tenths": 2.5,
    "share": 0.5,
    "date": MOMENT,
    "day": MOMENT,
    "clock": MOMENT,
    "moment": MOMENT,
}
PLAIN |= dict.fromkeys(("list", "and", "or", "parts", "sum", "sentences", "range"), ("one", "two"))


def tables() -> Iterator[tuple[str, Mapping[str, Any]]]:
    """Each table of kinds by its topic."""
    for module in walk_packages(assessment.__path__, f"{assessment.__name__}."):
        if module.name.endswith("kinds"):
            yield module.name, vars(import_module(module.name))


def of_type(kind: type) -> list[Any]:
    return [
        pytest.param(value, id=f"{table.split('.')[2]}-{name}")
        for table, names in tables()
        for name, value in names.items()
        if isinstance(value, kind)
    ]


def texts(value: object) -> Iterator[str]:
    """Every text in a kind, a table of cases or a constant."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, Mapping):
        for inner in value.values():
            yield from texts(inner)
    elif isinstance(value, tuple | frozenset):
        for inner in value:
            yield from texts(inner)
    elif isinstance(value, FigureKind | FindingKind | InputKind):
        for inner in vars(value).values():
            yield from texts(inner)


def sample(measure: str) -> Fact:
    """Something that can be written by a measure."""
    name, _, direction = measure.rpartition(" ")
    name = name if direction in get_args(Rounding) else measure
    if name in QUANTITY_MEASURES:
        return registry.Quantity(100.0, UNITS.get(name, "day"))
    return PLAIN.get(name, "a name")


def fields(text: str) -> dict[str, str]:
    return {name: measure or "" for _, name, measure, _ in Formatter().parse(text) if name}


@pytest.mark.parametrize("table", [pytest.param(names, id=table) for table, names in tables()])
def test_every_text_can_be_filled_in_both_systems(table: Mapping[str, Any]) -> None:
    found = [text for name, value in table.items() if not name.startswith("__") for text in texts(value)]

    assert found
    for text in found:
        facts = {name: sample(measure) for name, measure in fields(text).items()}
        for measure in fields(text).values():
            assert not measure or _name(measure) in known_measures(), text
        for system in get_args(System):
            # What shows how an entry is written has braces of its own.
            assert sentence(Phrase(text, facts), {}, Style(system)).count("{") == text.count("{{")


def _name(measure: str) -> str:
    name, _, direction = measure.rpartition(" ")
    return name if direction in get_args(Rounding) else measure


@pytest.mark.parametrize("kind", of_type(FigureKind))
def test_every_kind_of_figure_says_how_it_is_measured_and_where_its_rule_is_from(kind: FigureKind) -> None:
    sources = [kind.sources] if isinstance(kind.sources, str) else list(kind.sources.values())

    assert _name(kind.measure) in known_measures()
    # A field stands for sources that a table brings along with each of its rows.
    assert all(source_ids(one) for text in sources for one in text.split("; ") if not fields(one))
    assert all(texts(kind.rule))


@pytest.mark.parametrize("kind", of_type(FindingKind))
def test_every_kind_of_finding_says_what_is_so_and_what_to_do(kind: FindingKind) -> None:
    assert all(texts(kind.text))
    assert all(list(texts(kind.helps)))
    assert list(texts(kind.helps))
    assert kind.card


def test_every_kind_is_entered_or_found_by_a_module_of_the_assessment() -> None:
    """A kind that only its table and a card name never gets a value: its entry was forgotten."""
    named = {
        word
        for path in Path(assessment.__path__[0]).rglob("*.py")
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        for word in _names_read(node)
    }
    declared = {
        name: table
        for table, names in tables()
        for name, value in names.items()
        if isinstance(value, FigureKind | FindingKind)
    }

    assert len(declared) > 100
    assert {name: table for name, table in declared.items() if name not in named} == {}


def _names_read(node: ast.AST) -> Iterator[str]:
    if isinstance(node, ast.Attribute):
        yield node.attr
    elif isinstance(node, ast.Name) and isinstance(node.ctx, ast.Load):
        yield node.id
