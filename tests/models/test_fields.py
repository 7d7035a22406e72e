"""Every field is described; the schema takes what the program takes, refuses what one field shows wrong."""

import json
import re
from pathlib import Path
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator

from binder.models.fields import FILES, fields, schema
from binder.printing.starter import KINDS, starter_files
from tests.demos import PROFILES

_TESTS = Path(__file__).parents[1]
_ROOT = _TESTS.parent
_WRONG = sorted((_TESTS / "wrong_input").glob("*.yaml"))
_VALIDATORS = {name: Draft202012Validator(schema(model)) for name, model in FILES.items()}


class _AsEditors(yaml.SafeLoader):
    """YAML 1.2 as language servers read it: numbers, true, false and null; dates and `no` are text."""


_AsEditors.yaml_implicit_resolvers = {}
for _tag, _pattern, _starts in (
    ("null", r"~|null|", ["~", "n", ""]),
    ("bool", r"true|false", list("tf")),
    ("int", r"[-+]?[0-9]+", list("-+0123456789")),
    ("float", r"[-+]?[0-9]+\.[0-9]+", list("-+0123456789")),
):
    _AsEditors.add_implicit_resolver(f"tag:yaml.org,2002:{_tag}", re.compile(f"^(?:{_pattern})$"), _starts)


_AsEditors.add_constructor("tag:yaml.org,2002:int", lambda _, node: int(node.value))


def errors(name: str, text: str) -> list[str]:
    data: Any = yaml.load(text, _AsEditors)  # noqa: S506 - a safe loader.
    return [error.json_path for error in _VALIDATORS[name].iter_errors(data)]


def test_every_field_has_a_meaning_and_one_that_is_a_value_an_example() -> None:
    every = list(fields())

    assert len(every) > 300
    assert [one.path for one in every if not one.meaning] == []
    assert [one.path for one in every if not one.example and not one.form.startswith("a ")] == []


def test_fields_are_found_by_their_words() -> None:
    found = {one.path for one in fields("label pressure")}

    assert "vehicles.NAME.axles.NAME.label_pressure" in found
    assert list(fields("quaternion")) == []


@pytest.mark.parametrize("name", FILES)
def test_the_schema_is_one(name: str) -> None:
    Draft202012Validator.check_schema(schema(FILES[name]))


@pytest.mark.parametrize(
    "file",
    sorted([*PROFILES.rglob("*.yaml"), *(_TESTS / "rigs").rglob("*.yaml")]),
    ids=lambda file: f"{file.parent.name}-{file.stem}",
)
def test_the_schema_takes_the_demos(file: Path) -> None:
    name = f"{file.parent.name}/NAME.yaml" if file.parent.name in {"trips", "cards"} else file.name

    assert errors(name, file.read_text("utf-8")) == []


@pytest.mark.parametrize("kind", KINDS)
def test_the_schema_takes_a_starter_as_written(kind: str) -> None:
    files = starter_files(kind)

    assert errors("rig.yaml", files["rig.yaml"]) == []
    assert json.loads(files["rig.schema.json"]) == schema(FILES["rig.yaml"])
    assert json.loads(files["cards.schema.json"]) == schema(FILES["cards/NAME.yaml"])
    assert files["rig.yaml"].startswith("# yaml-language-server: $schema=rig.schema.json\n")
    assert files["trips/first_trip.yaml"].startswith("# yaml-language-server: $schema=../trip.schema.json\n")


_SEEN_BY_THE_PROGRAM_ALONE = {
    "anchor",
    "axle_places",
    "axle_unknown",
    "beyond_a_scale",
    "beyond_nature",
    "axles_over_total",
    "body",
    "camper",
    "carried",
    "coupling_order",
    "day_before_it_ends.trip",
    "dolly",
    "fill_unknown.trip",
    "end_over_axle",
    "key_twice",
    "level_over_capacity",
    "cargo_far_away.trip",
    "hardly_so.trip",
    "names_unknown",
    "no_such_hour.trip",
    "log_password",
    "pair_typed_as_tire",
    "service_names",
    "spare_names",
    "table_falls",
    "table_row_empty",
    "tag_shares",
    "ticket_division",
    "ticket_sums",
    "time_zone.trip",
    "trip_level_over_capacity.trip",
    "trip_names_unknown.trip",
}
"""What no single field shows: sums, names that lead nowhere, YAML an editor tells by itself."""


@pytest.mark.parametrize("file", _WRONG, ids=lambda file: file.stem)
def test_the_schema_refuses_what_one_field_shows_wrong(file: Path) -> None:
    name = "trips/NAME.yaml" if file.name.endswith(".trip.yaml") else "rig.yaml"
    try:
        found = errors(name, file.read_text("utf-8"))
    except (yaml.YAMLError, UnicodeDecodeError, ValueError):
        found = ["not YAML"]

    assert bool(found) != (file.stem in _SEEN_BY_THE_PROGRAM_ALONE)
