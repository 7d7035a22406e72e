"""Files of cards are read whole, and what is not known in them is told with its place."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner

from binder import cli, templates_folder
from binder.cards.procedures.conditions import CONDITION_NAMES
from binder.cards.procedures.facts import FACT_NAMES
from binder.cards.procedures.reading import (
    BRACES,
    card_words,
    mappings,
    page_words,
    read_words,
)
from binder.cards.ring.order import RING
from binder.models.load import read_record
from binder.models.located_yaml import Located
from binder.models.procedures import CardWords, PageWords
from binder.problems import InputProblems
from binder.reference.sources import bibliography
from tests.cards.pages.test_procedure_pages import PROCEDURE_PAGES
from tests.cards.procedure_rigs import assessed
from tests.demos import PROFILES

FOLDER = templates_folder() / "procedures"
CARDS, PAGES = sorted(FOLDER.glob("*.yaml")), sorted((FOLDER / "pages").iterdir())
FILES = [*CARDS, *PAGES]
_UNITS_OF_ONE_COUNTRY = re.compile(
    r"\b(miles?|inch(es)?|pounds?|gallons?|quarts?|yards?|kilomet\w+|liters?|meters?|kilograms?)\b",
    re.IGNORECASE,
)

CARD = """card: made
number: 0
title: Card
sides:
  - use: Read, then do.
    groups:
      - name: walk
        heading: Walk
        lines:
          - name: chocks
            challenge: Chocks
            answer: "{chocks} IN"
"""


def words_in(file: Path) -> CardWords | PageWords:
    return read_words(file, PageWords) if file in PAGES else read_words(file, CardWords)


def located(file: Path) -> Located:
    return read_record(file, PageWords if file in PAGES else CardWords)[1]


def unknown_sources(read: Located) -> Iterator[str]:
    known = bibliography()
    for path, entry in mappings(read.data):
        for source in str(entry.get("source", "practice")).split(";"):
            if source.strip() not in known:
                yield f"{read.file}:{read.values[(*path, 'source')].line}: {source.strip()}"


def problems(folder: Path, text: str) -> list[str]:
    file = folder / "card.yaml"
    file.write_text(text, encoding="utf-8")
    with pytest.raises(InputProblems) as raised:
        read_words(file, CardWords)
    places = [(problem.position, problem.text) for problem in raised.value.problems]
    return [f"{place.line if place else None}: {said}" for place, said in places]


def test_every_card_but_the_day_sheets_has_a_file_and_every_file_a_card() -> None:
    assert {file.name for file in CARDS} == {f"{card}.yaml" for card in RING if card != "day_sheet"}


def test_every_page_has_a_file_and_every_file_a_page() -> None:
    assert {file.stem for file in PAGES} == {page(assessed()).name for page in PROCEDURE_PAGES}


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_a_file_is_read_without_a_problem(file: Path) -> None:
    words = words_in(file)

    assert words.sides if isinstance(words, CardWords) else words.groups
    assert file.stem == (words.card if isinstance(words, CardWords) else words.page)


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_every_source_stands_in_the_bibliography(file: Path) -> None:
    assert list(unknown_sources(located(file))) == []


def test_a_source_that_does_not_is_told_with_its_place(tmp_path: Path) -> None:
    file = tmp_path / "card.yaml"
    file.write_text(f"{CARD}            source: W39; S9999\n", encoding="utf-8")

    assert list(unknown_sources(located(file))) == [f"{file}:13: S9999"]


def test_every_condition_and_every_fact_is_used_by_some_line() -> None:
    entries = [entry for file in FILES for _, entry in mappings(located(file).data)]
    named = [entry.get(key) or [] for entry in entries for key in ("when", "unless")]
    conditions = {name for names in named for name in ([names] if isinstance(names, str) else names)}
    said = [value for entry in entries for value in entry.values()]
    lists = [text for value in said if isinstance(value, list) for text in value]
    texts = [text for text in (*said, *lists) if isinstance(text, str)]
    facts = {name for text in texts for name in BRACES.findall(text)}

    assert CONDITION_NAMES - conditions == set()
    assert FACT_NAMES - facts == set()


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_no_words_count_in_units_of_one_country(file: Path) -> None:
    written = file.read_text("utf-8")
    texts = [line for line in written.splitlines() if not re.match(r" *(#|- name:)", line)]

    assert [text for text in texts if _UNITS_OF_ONE_COUNTRY.search(text)] == []


def test_a_file_is_read_once() -> None:
    assert card_words("leaving") is card_words("leaving")
    assert page_words("weather") is page_words("weather")


@pytest.mark.parametrize(
    "words", [["--help"], ["explain", str(PROFILES / "kestrel")]], ids=lambda words: words[0]
)
def test_what_makes_no_card_reads_no_words(words: list[str]) -> None:
    card_words.cache_clear()
    page_words.cache_clear()
    ran = CliRunner().invoke(cli.main, words)

    assert ran.exit_code in {0, 3}, ran.output
    assert card_words.cache_info().currsize == page_words.cache_info().currsize == 0


@pytest.mark.parametrize(
    ("added", "told"),
    [
        ("            when: air brake\n", "13: there is no condition 'air brake'"),
        ("            unless: [duals, towd]\n", "13: there is no condition 'towd'"),
        ('            detail: "{chock}"\n', "13: there is no fact 'chock'"),
        ('            detail: "{}"\n', "13: there is no fact ''"),
        (
            '          - name: box\n            box: Stop?\n            below: [Now, "{chock}"]\n',
            "15: there is no fact 'chock'",
        ),
        ("            if not: wait\n", "13: 'wait' is not one of"),
        ("            kilelr: yes\n", "13: 'kilelr' is not a field here"),
        ("            killer: perhaps\n", "13: 'perhaps' is neither 'true' nor 'false'"),
        (
            "            step: Chocks in.\n",
            "10: a line is one of: challenge, step, box, ruled, note, computed",
        ),
        ("          - challenge: Steps\n            answer: IN\n", "13: a line needs a name of its own"),
        ("          - name: steps\n            challenge: Steps\n", "13: a challenge and its answer belong"),
        (
            "          - name: chocks\n            step: Chocks in.\n",
            "13: 'chocks' is named twice; first in line 10",
        ),
        (
            "      - name: walk\n        lines:\n          - computed: fillers\n",
            "13: 'walk' is named twice; first in line 7",
        ),
        ("reasons:\n  - name: Chocks\n", "14: 'reason' is needed and not there (or empty)"),
    ],
)
def test_what_is_wrong_is_told_with_its_line(tmp_path: Path, added: str, told: str) -> None:
    found = problems(tmp_path, CARD + added)

    assert len(found) == 1
    assert found[0].startswith(told)


@pytest.mark.parametrize("use", ["", "use: Do.\n    goes on: do"])
def test_a_side_says_once_how_it_is_used(tmp_path: Path, use: str) -> None:
    found = problems(tmp_path, CARD.replace("use: Read, then do.\n    ", f"{use}\n    " if use else ""))

    assert len(found) == 1
    assert found[0].startswith("5: say how this side is used: write 'use', or 'goes on'")


def test_all_problems_are_told_at_once(tmp_path: Path) -> None:
    text = CARD.replace("{chocks}", "{chock}") + "            when: [towd]\n"

    assert problems(tmp_path, text) == [
        "12: there is no fact 'chock'",
        "13: there is no condition 'towd'",
    ]
