"""Every text of a file is kept as it was written, with its place."""

import json

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from binder.models.located_yaml import Plain, located_yaml
from binder.problems import Position

# Text YAML can hold in double quotes without escapes of its own; what is invisible is refused elsewhere.
_TEXTS = st.text(st.characters(min_codepoint=0x20, max_codepoint=0x7E), min_size=1, max_size=12)
_TREES: st.SearchStrategy[Plain] = st.recursive(
    _TEXTS,
    lambda inside: (
        st.lists(inside, min_size=1, max_size=4) | st.dictionaries(_TEXTS, inside, min_size=1, max_size=4)
    ),
    max_leaves=12,
)
_FILES = st.dictionaries(_TEXTS, _TREES, min_size=1, max_size=4)


def _depth(tree: Plain) -> int:
    inside = tree.values() if isinstance(tree, dict) else tree if isinstance(tree, list) else []
    return 1 + max((_depth(part) for part in inside), default=0)


@given(_FILES.filter(lambda tree: _depth(tree) <= 12))
def test_texts_in_braces_are_kept(tree: Plain) -> None:
    """Every JSON text is YAML, and Python's own writer of it knows nothing of our reader."""
    located = located_yaml("a.yaml", json.dumps(tree))

    assert located.problems == []
    assert located.data == tree


@given(_FILES.filter(lambda tree: _depth(tree) <= 12))
def test_texts_in_indented_blocks_are_kept(tree: Plain) -> None:
    source = yaml.safe_dump(tree, default_flow_style=False, default_style='"', width=1000)
    located = located_yaml("a.yaml", source.replace("!!str ", "").replace("!!null ", ""))

    assert located.problems == []
    assert located.data == tree


@given(st.dictionaries(st.from_regex(r"[a-z]{1,8}", fullmatch=True), _TEXTS, min_size=1, max_size=6))
def test_a_place_is_where_the_text_stands(entries: dict[str, str]) -> None:
    source = "\n".join(f"{key}: {json.dumps(value)}" for key, value in entries.items())
    located = located_yaml("a.yaml", source)

    for line, (key, value) in enumerate(entries.items(), start=1):
        written = len(json.dumps(value))
        assert located.keys[key,] == Position(line, 1, len(key))
        assert located.values[key,] == Position(line, len(key) + 3, written)


@pytest.mark.parametrize(
    "word", ["12:30", "no", "on", "0x1f", "1_000", "1e3", ".5", "2026-03-30", "08", "true", "=", "<<", "NULL"]
)
def test_words_yaml_would_change_are_kept(word: str) -> None:
    assert located_yaml("a.yaml", f"a: {word}").data == {"a": word}


@pytest.mark.parametrize("blank", ["", "~", "null", "# a note"])
def test_an_empty_value_is_not_known(blank: str) -> None:
    assert located_yaml("a.yaml", f"a: {blank}\nb: x").data == {"a": None, "b": "x"}


def test_an_empty_quoted_text_is_a_text() -> None:
    assert located_yaml("a.yaml", "a: ''").data == {"a": ""}


def test_empty_entries_in_braces_need_no_space() -> None:
    source = 'a: {b: , c: "x", "d":1, e : 2, f: }'

    assert located_yaml("a.yaml", source).data == {"a": {"b": None, "c": "x", "d": "1", "e": "2", "f": None}}


def test_a_colon_without_its_space_is_told() -> None:
    (problem,) = located_yaml("a.yaml", "a: {b: 1, c:}").problems

    assert problem.text == "a space is missing after this ':'"
    assert problem.position == Position(1, 12)


def test_a_problem_in_a_part_that_is_not_there_stands_at_the_nearest_entry_above() -> None:
    located = located_yaml("a.yaml", "vehicles:\n  coach:\n    kind: car\n")

    problem = located.problem(("vehicles", "coach", "axles", "steer"), "needed", at_key=True)

    assert problem.position == Position(2, 3, 5)
    assert problem.field == "vehicles.coach"


def test_columns_are_counted_in_letters_not_bytes() -> None:
    located = located_yaml("a.yaml", "a: {é: x, b: y}")

    assert located.values["a", "b"] == Position(1, 14, 1)


def test_a_deep_file_is_refused_before_it_is_read_whole() -> None:
    located = located_yaml("a.yaml", "a: " + "[" * 100_000 + "]" * 100_000)

    assert located.data is None
    assert [problem.text for problem in located.problems] == ["entries are nested more than 12 deep"]


def test_an_alias_is_not_expanded() -> None:
    bomb = "a: &a [x]\n" + "\n".join(f"{name}: &{name} [*a, *a]" for name in "bcdefgh")

    located = located_yaml("a.yaml", bomb)

    assert located.data is None
    assert located.problems[0].position == Position(1, 4, 1)


@given(st.text(max_size=60))
def test_any_text_is_read_or_told(source: str) -> None:
    located = located_yaml("a.yaml", source)

    assert isinstance(located.data, dict) or located.problems
