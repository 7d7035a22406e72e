"""A finding that something is missing or not cleared tells the file and the path where it is typed."""

import re
from collections.abc import Iterator
from importlib import import_module
from pathlib import Path
from types import ModuleType

import pytest

from binder.assessment.ledger import GRADES, FindingKind
from binder.models.fields import fields
from binder.wording.record import assessment_record
from binder.wording.words import Words, style_of
from tests.assessment.edited_demos import Assessed, assessed  # noqa: F401 - a fixture.

_ROOT = Path(__file__).parents[2]
_TABLES = sorted((_ROOT / "binder" / "assessment").glob("*/*kinds.py"))
_MODULES = [import_module(".".join(file.relative_to(_ROOT).with_suffix("").parts)) for file in _TABLES]
_FILES = {"rig.yaml": "rig.yaml ", "trip plan": "trip plan, "}


def _kinds(module: ModuleType) -> Iterator[tuple[str, FindingKind]]:
    for name, entry in vars(module).items():
        for one in entry if isinstance(entry, tuple) else (entry,):
            if isinstance(one, FindingKind):
                yield name, one


def _texts(by_case: object) -> list[str]:
    return [str(one) for one in (by_case.values() if isinstance(by_case, dict) else (by_case,))]


def _cases_without_path(kind: FindingKind) -> list[str]:
    """Cases that ask for something and name no path."""
    grades, paths = (dict(one) if not isinstance(one, str) else {"": one} for one in (kind.grade, kind.path))
    asking = [case for case, grade in grades.items() if grade in GRADES[1::2]]
    if "" in asking and "" not in paths:
        # One grade for all cases: each case that has a text has a path.
        asking = [*asking[1:], *(dict(kind.text) if not isinstance(kind.text, str) else {"": kind.text})]
    return [case for case in asking if not paths.get(case, paths.get(""))]


@pytest.mark.parametrize("module", _MODULES, ids=lambda one: one.__name__)
def test_every_kind_that_asks_for_something_has_the_path_to_type(module: ModuleType) -> None:
    lacking = {name: cases for name, kind in _kinds(module) if (cases := _cases_without_path(kind))}

    assert lacking == {}


def test_the_tables_ask_for_many_things() -> None:
    asking = [
        name
        for module in _MODULES
        for name, kind in _kinds(module)
        if set(_texts(kind.grade)) & {*GRADES[1::2]}
    ]

    assert len(asking) > 100


def _paths() -> Iterator[str]:
    for module in _MODULES:
        for _, kind in _kinds(module):
            yield from (text for text in _texts(kind.path) if text and not re.fullmatch(r"\{\w+\}", text))


def _parts(path: str) -> list[str]:
    return re.sub(r"\[[^]]*\]", "", path).split(".")


def _leads(written: list[str], field: list[str]) -> bool:
    """Where both go, they go the same way; beyond a field go only names of one's own."""
    same = all(known in {name, "NAME"} or "{" in name for name, known in zip(written, field, strict=False))
    return same and all("{" in name for name in written[len(field) :])


@pytest.mark.parametrize("path", sorted(set(_paths())))
def test_a_path_to_type_leads_to_a_field(path: str) -> None:
    start = next(text for text in _FILES.values() if path.startswith(text))
    file = "rig.yaml" if start == "rig.yaml " else "trips/NAME.yaml"
    known = [_parts(one.path) for one in fields("") if one.file == file]
    first, *others = (_parts(one) for one in path.removeprefix(start).split(", "))

    assert any(_leads(first, one) for one in known)
    for other in others:
        # What follows a comma stands beside the last name, or at the top of the file.
        assert any(_leads(other, one) or _leads([*first[:-1], *other], one) for one in known)


@pytest.mark.parametrize(
    ("change", "path"),
    [
        (("name:", "name:"), "rig.yaml wheels.coach wheels.valve_maximum_pressure"),
        (("overall_height: 12 ft 8 in", "overall_height:"), "rig.yaml vehicles.coach.size.overall_height"),
        (("log: ", "log: # "), "rig.yaml log"),
        ((" smoke alarm: ", " smoke alarm: #"), "rig.yaml vehicles.coach.equipment.smoke alarm"),
    ],
)
def test_a_blank_of_larkspur_tells_its_path(assessed: Assessed, change: tuple[str, str], path: str) -> None:  # noqa: F811 - the fixture.
    changes = () if change[0] == change[1] else (change,)
    found = assessed("larkspur", *changes)
    words = Words(style_of(found))

    assert path in [words.found(one).path for one in found.findings]
    record = assessment_record(found)["findings"]
    assert isinstance(record, list)
    assert path in [one["path"] for one in record if isinstance(one, dict)]
