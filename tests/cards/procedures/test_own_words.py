"""The owner's own words: printed and marked in their places, told where they stop less or are wrong."""

import re
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path
from shutil import copytree
from typing import Any, TypeAlias

import pytest
import yaml
from click.testing import CliRunner

from binder import cli
from binder.assessment.entries.kinds import OWN_WORDS
from binder.cards.blocks import Box, Card, Line, Note, Step, Table
from binder.cards.order import binder_document
from binder.cards.pages.worksheets import read_back
from binder.cards.procedures.own_words import LEGEND, OWN, OWN_CARD
from binder.cards.sets import printed_in, sets
from binder.printing.build import BuildOptions, printable_cards, read_and_assess
from binder.problems import InputProblems
from tests.demos import PROFILES

ON = date(2026, 6, 1)
Written: TypeAlias = Callable[..., Path]
OWN_LINE = "{name: cat, after: cords, challenge: The cat, answer: IN}"
BOAT = """card: boat
number: 13
title: Boat
sides:
  - use: Read, then do.
    groups:
      - name: ramp
        heading: On the ramp
        lines:
          - {name: plug, challenge: Drain plug, answer: IN}
"""


@pytest.fixture
def rig(tmp_path: Path) -> Written:
    """Write files of the owner's own words beside a demo rig; each line is of the card leaving."""

    def written(*lines: str, **files: str) -> Path:
        folder = copytree(PROFILES / "kestrel", tmp_path / "rig", dirs_exist_ok=True)
        (folder / "cards").mkdir(exist_ok=True)
        if lines:
            files["leaving"] = "card: leaving\nlines:\n" + "".join(f"  - {line}\n" for line in lines)
        for name, text in files.items():
            (folder / "cards" / f"{name}.yaml").write_text(text, encoding="utf-8")
        return folder

    return written


def cards(folder: Path) -> dict[str, Card]:
    return {card.name: card for card in printable_cards(read_and_assess(folder, BuildOptions(ON)))}


def lines(card: Card) -> list[tuple[str, str]]:
    blocks = (block for side in card.sides for block in side.blocks)
    return [(block.challenge, block.answer) for block in blocks if isinstance(block, Line)]


def attention(folder: Path) -> list[tuple[tuple[str | int, ...], str]]:
    found = read_and_assess(folder, BuildOptions(ON)).findings
    return [(one.about.subject, one.case) for one in found if one.kind is OWN_WORDS]


def problems(folder: Path) -> list[str]:
    with pytest.raises(InputProblems) as raised:
        read_and_assess(folder, BuildOptions(ON))
    return [
        f"{Path(one.file).name}:{one.position.line if one.position else 0}: {one.text}"
        + (f"; {one.hint}" if one.hint else "")
        for one in raised.value.problems
    ]


def test_a_line_says_what_its_owner_wrote_and_is_marked(rig: Written) -> None:
    card = cards(rig("{name: glass, challenge: Glass and lamps, reason: Flies.}"))["leaving"]

    assert ("Glass and lamps *", "CLEAN") in lines(card)
    assert "Glass, mirrors" not in dict(lines(card))
    assert [side.use.endswith(LEGEND) for side in card.sides] == [False, True]
    why = next(one for one in card.reasons if one.source == OWN)
    assert (why.name, why.text) == ("Glass and lamps", "In the place of: Glass, mirrors. Flies.")


def test_lines_are_added_behind_the_one_they_name_in_the_order_of_the_file(rig: Written) -> None:
    added = [("cat", "caps"), ("flea", "cat"), ("dog", "caps"), ("cow", "caps")]
    folder = rig(*(f"{{name: {name}, after: {after}, step: The {name}.}}" for name, after in added))

    blocks = (block for side in cards(folder)["leaving"].sides for block in side.blocks)
    steps = [block.text for block in blocks if isinstance(block, Step)]
    assert steps == ["The cat. *", "The flea. *", "The dog. *", "The cow. *"]


@pytest.mark.parametrize(
    ("line", "kind", "said"),
    [
        ("{name: x, after: cords, step: Whistle.}", Step, "Whistle. *"),
        ("{name: x, after: cords, note: Key in the bay.}", Note, "Key in the bay. *"),
        ('{name: x, after: cords, box: "Dog?", below: [Look., Call.], signal: CAUTION}', Box, "Dog? *"),
    ],
)
def test_a_line_of_any_kind_can_be_added(rig: Written, line: str, kind: type, said: str) -> None:
    blocks = (block for side in cards(rig(line))["leaving"].sides for block in side.blocks)
    texts = [getattr(one, "text", getattr(one, "title", "")) for one in blocks if isinstance(one, kind)]

    assert said in texts


def test_only_the_code_of_the_card_that_differs_is_another(rig: Written) -> None:
    before = {name: card.code for name, card in cards(PROFILES / "kestrel").items()}
    after = {name: card.code for name, card in cards(rig(OWN_LINE)).items()}

    assert {name for name in after if after[name] != before[name]} == {"leaving"}


def test_what_does_not_apply_to_the_rig_changes_nothing(rig: Written) -> None:
    off = "card: coupling\nlines:\n  - {name: between, off: yes}\n"
    folder = rig(OWN_LINE.replace("}", ", when: tag axle}"), coupling=off)

    assert cards(folder)["leaving"].code == cards(PROFILES / "kestrel")["leaving"].code
    assert attention(folder) == []


@pytest.mark.parametrize(
    ("line", "how"),
    [
        ("{name: chocks, off: yes}", "left out"),
        ("{name: glass, off: yes}", "left out"),
        ("{name: chocks, killer: no}", "weaker"),
        ("{name: chocks, if not: go}", "weaker"),
        ("{name: hubs, if not: fix before moving}", "weaker"),
        ("{name: chocks, when: tag axle}", "weaker"),
        ("{name: chocks, answer: SEEN}", "reworded"),
        ("{name: chocks, detail: by hand}", ""),
        ("{name: glass, answer: WIPED}", ""),
        ("{name: glass, if not: do not move}", ""),
        ("{name: power, off: yes}", ""),
        ("{name: season start, off: yes}", ""),
        ("{name: tag axle, off: yes}", ""),
    ],
)
def test_what_stops_less_than_it_did_asks_for_attention(rig: Written, line: str, how: str) -> None:
    name = line.removeprefix("{name: ").split(",")[0]

    assert attention(rig(line)) == ([(("leaving", name), how)] if how else [])


def test_a_line_of_weight_that_is_left_out_is_told_on_the_card_and_by_check(rig: Written) -> None:
    folder = rig("{name: chocks, off: yes}", "{name: season start, off: yes}")
    card = cards(folder)["leaving"]
    said = CliRunner().invoke(cli.main, ["check", str(folder)]).output

    notes = [block.text for side in card.sides for block in side.blocks if isinstance(block, Note)]
    assert notes == ["Left out by the owner: Chocks, counted."]
    assert not any("Chocks" in challenge for challenge, _ in lines(card))
    assert "Card 1 Leaving: 'Chocks, counted' is left out by its owner." in said
    assert "take the line out of cards/leaving.yaml, line 3, or leave it if it is so" in said
    assert all(LEGEND not in side.use for side in card.sides)


def test_a_card_of_the_owners_own_follows_the_ring_by_its_number(rig: Written) -> None:
    raft = BOAT.replace("boat", "raft").replace("13", "21").replace("Boat", "Raft")
    made = list(cards(rig(aaa=raft, boat=BOAT)).values())

    assert [(card.id, card.title) for card in made[-2:]] == [("13", "Boat"), ("21", "Raft")]
    assert made[-1].sides[0].use == f"{OWN_CARD} Read, then do."
    assert lines(made[-1]) == [("Drain plug", "IN")]
    assert made[-1].target.endswith(f"21.{made[-1].code}") or not made[-1].target


def test_a_card_of_the_owners_own_without_a_line_for_this_rig_is_not_printed(rig: Written) -> None:
    assert "boat" not in cards(rig(boat=BOAT.replace("answer: IN", "answer: IN, when: tag axle")))


@pytest.mark.parametrize(
    ("added", "held"), [("", {"everything"}), ("sets: mechanic\n", {"everything", "mechanic"})]
)
def test_a_card_of_the_owners_own_is_in_everything_and_in_the_sets_it_names(
    rig: Written, added: str, held: set[str]
) -> None:
    assessment = read_and_assess(rig(boat=BOAT + added), BuildOptions(ON))
    document = binder_document(assessment, printable_cards(assessment))

    printed = {name: printed_in(name, document, document.parts) for name in sets()}
    assert {name for name, one in printed.items() if any(part.name == "boat" for part in one.parts)} == held


def test_what_the_owner_wrote_is_read_back(rig: Written) -> None:
    folder = rig(OWN_LINE, "{name: glass, off: yes}", boat=BOAT)
    tables = [b for b in read_back(read_and_assess(folder, BuildOptions(ON))).blocks if isinstance(b, Table)]

    assert [row[:2] for row in tables[-1].rows] == [
        ("leaving, cat", "The cat: IN"),
        ("leaving, glass", "left out"),
        ("13 Boat", "Drain plug: IN"),
    ]


WRONG = [
    ("{name: chok, off: yes}", "3: there is no line 'chok' on card leaving; did you mean 'chocks'?"),
    ("{name: zzz, off: yes}", "3: there is no line 'zzz' on card leaving; a line of your own says where"),
    (
        "{name: glass}",
        "3: nothing is different for 'glass'; write what is, like 'answer: LOCKED', or 'off: yes'",
    ),
    (
        "{name: glass, off: yes, answer: X}",
        "3: 'glass' is off, so nothing else can be said of it; take out answer",
    ),
    (
        "{name: glass, step: Wipe.}",
        "3: 'glass' is a challenge, which has no 'step'; it has: challenge, answer",
    ),
    ('{name: glass, answer: ""}', "3: this answer says nothing; write it, or leave 'answer' out"),
    ("{name: glass, after: cords, step: Wipe.}", "3: 'glass' is a line of this card, and is not moved;"),
    ("{name: cat, after: cat, step: Wipe.}", "3: there is no line 'cat' on the card, or above this one"),
    (
        "{name: cat, after: cords}",
        "3: a line of your own is one of: challenge, step, box, ruled, note; write it",
    ),
    (
        "{name: cat, after: cords, off: yes, step: S.}",
        "3: a line of your own is left out by deleting it here",
    ),
    ("{name: cat, after: cords, challenge: Cat}", "3: a challenge needs its answer, like 'answer: LOCKED'"),
    ("{name: glass, when: slide, answer: X}", "3: there is no condition 'slide'; did you mean 'slides'?"),
    ('{name: glass, answer: "{chock}"}', "3: there is no fact 'chock'; did you mean 'chocks'?"),
    (
        "{name: glass, answer: OK \N{SLIGHTLY SMILING FACE}}",
        "3: '\N{SLIGHTLY SMILING FACE}' (U+1F642) cannot be",
    ),
    ("{name: glass, computed: fillers}", "3: 'computed' is not a field here; the fields here are: when"),
    ("[glass, off]", "3: a list stands where 'name: value' entries are needed; the fields here are"),
    (
        f"{{name: glass, answer: {'LONG ' * 20}}}",
        "3: this has 99 letters; 'answer' has room for 60; shorten it",
    ),
]


@pytest.mark.parametrize(("line", "told"), WRONG, ids=[told for _, told in WRONG])
def test_what_is_wrong_with_a_line_is_told_with_its_place(rig: Written, line: str, told: str) -> None:
    found = problems(rig(line))

    assert len(found) == 1
    assert found[0].startswith(f"leaving.yaml:{told}")


WRONG_CARDS = [
    (
        BOAT.replace("13", "12"),
        "2: '12' is no number of a card of your own; write one from 13 to 99, like '13'",
    ),
    (
        BOAT.replace("boat", "fire"),
        "1: 'fire' is a card of the ring; name yours otherwise, or change that one",
    ),
    (
        BOAT.replace("title: Boat\n", ""),
        "1: a card of your own needs a number and a title, like 'number: 13'",
    ),
    (f"{BOAT}sets: [drivers]\n", "11: there is no set 'drivers'; did you mean 'codriver'?"),
    (BOAT.replace("heading", "ticks: 40\n        heading"), "8: there is room for 6 columns of boxes, like"),
    (
        "card: boat\nlines:\n  - {name: x, off: yes}\n",
        "1: there is no card 'boat' whose lines can be changed; the",
    ),
    (
        "card: leafing\nlines:\n  - {name: x, off: yes}\n",
        "1: there is no card 'leafing' whose lines can be changed; did",
    ),
    (
        "card: boat\n",
        "1: a file has 'lines', which change a card of the ring, or 'sides', which make a card of",
    ),
    (
        "card: fire\nnumber: 13\nlines:\n  - {name: gas, off: yes}\n",
        "1: 'number' cannot be changed on a card of",
    ),
    ("- card: boat\n", "0: the file must be made of 'name: value' lines"),
]


@pytest.mark.parametrize(("text", "told"), WRONG_CARDS, ids=[told for _, told in WRONG_CARDS])
def test_what_is_wrong_with_a_file_is_told_with_its_place(rig: Written, text: str, told: str) -> None:
    assert any(one.startswith(f"own.yaml:{told}") for one in problems(rig(own=text)))


def test_all_problems_of_all_files_are_told_at_once(rig: Written) -> None:
    folder = rig("{name: chok, off: yes}", "{name: glass, answer: '{chock}'}", boat=BOAT, raft=BOAT)
    text = (folder / "rig.yaml").read_text("utf-8")
    (folder / "rig.yaml").write_text(f"{text}oddity: 3\n", "utf-8")
    (folder / "cards" / "notes.txt").write_text("x", "utf-8")

    found = [one.partition(": ")[2][:24] for one in problems(folder)]
    assert sorted(found) == [
        "'oddity' is not a field ",
        "a card's name ends in .y",
        "card 'boat' stands in " + str(folder)[:2],
        "number '13' stands in " + str(folder)[:2],
        "there is no fact 'chock'",
        "there is no line 'chok' ",
    ]


def test_a_word_too_wide_for_its_place_is_told_where_it_was_written(rig: Written) -> None:
    folder = rig("{name: glass, answer: " + "W" * 59 + "}")
    told = CliRunner().invoke(cli.main, ["check", str(folder)])

    assert told.exit_code == 2
    assert f"{folder}/cards/leaving.yaml:3:27: error: lines[1].answer: 'WWW" in told.output


ODD: tuple[Any, ...] = (None, "", "{x}", [None], [["x"]], {"a": "b"}, "9" * 12)


def changed(data: Any, value: object) -> Iterator[Any]:
    """A file with an odd value in the place of each of its own, one after another."""
    places = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    for key, held in list(places):
        kept = data.copy()
        kept[key] = value
        yield kept
        for inside in changed(held, value):
            kept = data.copy()
            kept[key] = inside
            yield kept


@pytest.mark.parametrize("value", ODD, ids=str)
def test_no_odd_value_is_more_than_a_problem(rig: Written, value: object) -> None:
    leaving = f"card: leaving\nlines:\n  - {OWN_LINE}\n  - {{name: chocks, off: yes}}\n"
    texts = [yaml.safe_load(BOAT), yaml.safe_load(leaving)]
    refused = 0
    for text in texts:
        for odd in changed(text, value):
            folder = rig(own=yaml.safe_dump(odd))
            try:
                read_and_assess(folder, BuildOptions(ON))
            except InputProblems:
                refused += 1

    assert refused > 5


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["leaving", "chocks"], "leaving, line chocks: a challenge\n      Chocks, counted: {chocks} STOWED"),
        (["conditions"], "tag axle"),
        (["facts"], "overall height"),
        (["cards", "sets"], "sets that have it besides everything"),
    ],
)
def test_fields_lists_what_a_file_may_name(words: list[str], told: str) -> None:
    assert told in CliRunner().invoke(cli.main, ["fields", *words]).output


def test_the_files_that_readme_shows_are_sound(rig: Written, root: Path) -> None:
    shown = re.findall("```yaml\n(.*?)```", (root / "README.md").read_text("utf-8"), re.DOTALL)
    folder = rig(**{f"file{number}": text for number, text in enumerate(shown)})

    assert len(shown) == 2
    assert ("The cat *", "IN ITS BOX") in lines(cards(folder)["leaving"])
    assert lines(cards(folder)["boat"])[0] == ("Drain plug", "IN")
