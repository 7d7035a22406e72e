"""The words of the ring: a driver's own, each state with one meaning, no word of the first printing."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from binder.cards.blocks import Card, Line
from binder.cards.ring.order import ring
from binder.rendering.typeface import unparted
from binder.wording.measures import MEASURES
from tests.cards.binder_rigs import demo
from tests.paper.printings import strings

DEMOS = ("larkspur", "kestrel", "sandpiper", "tamarack")
BANNED = (
    "place lost", "line you hold", "say on or off", "mates alike", "eyes up", "look for the second",
    "undone, last first", "leave up to", "run flat below", "out of line of the sidewall", "cold morning",
    "hot above cold",
    "gap ahead", "expect ", "freezes nothing", "none given", "in the order it is met", "to arrive with light",
    "runaway lane", "at the speed chosen", "off level", "walk once round", "by eye nothing", "driver unwell",
)  # fmt: skip
"""Phrases that a listener had to hear twice: see the words that took their place."""

MEANINGS = {
    "IN": {"slide", "step", "antenna", "dish"},
    "IN, LOCKED": {"slide"},
    "OUT": {"lamp", "device", "slide"},
    "UNDER THE WHEELS": {"chock"},
    "PLUGGED IN": {"cord"},
    "SHUT": {"window", "vent", "valve", "door", "roof"},
    "NO LEAKS": {"under", "system", "drain"},
    "HOLDS": {"brake"},
    "PINNED": {"coupler", "latch", "handle", "bar", "head", "jaw"},
}
"""A state that could mean two things, and the only things it is said of."""


def cards(rig: str) -> tuple[Card, ...]:
    return ring(demo(rig))


def lines(rig: str) -> Iterator[Line]:
    yield from (b for card in cards(rig) for side in card.sides for b in side.blocks if isinstance(b, Line))


def written(root: Path) -> Iterator[tuple[str, str]]:
    """Every line of the procedures' files that is printed, with its file."""
    for file in sorted((root / "templates" / "procedures").rglob("*.yaml")):
        yield from ((file.name, line) for line in file.read_text("utf-8").splitlines() if "#" not in line)


def test_no_word_of_the_first_printing_is_left_in_the_procedures(root: Path) -> None:
    found = [(name, line.strip()) for name, line in written(root) for word in BANNED if word in line.lower()]

    assert found == []


@pytest.mark.parametrize("rig", DEMOS)
def test_no_word_of_the_first_printing_is_on_a_card(rig: str) -> None:
    said = [text.lower() for card in cards(rig) for text in strings(card.sides)]

    assert len(said) > 200
    assert [(text, word) for text in said for word in BANNED if word in text] == []


@pytest.mark.parametrize("rig", DEMOS)
def test_a_state_has_one_meaning_over_the_whole_ring(rig: str) -> None:
    asked = [line for line in lines(rig) if line.answer in MEANINGS]
    strange = [
        (line.challenge, line.answer)
        for line in asked
        if not any(thing in line.challenge.lower() for thing in MEANINGS[line.answer])
    ]

    assert asked
    assert strange == []


@pytest.mark.parametrize("rig", DEMOS)
def test_a_line_with_several_things_has_one_state_for_all_of_them(rig: str) -> None:
    """Two states of one thing may stand together; two things with a state each are two lines."""
    several = [line for line in lines(rig) if re.search(r",| and ", line.challenge) and "," in line.answer]
    things = [line for line in several if line.answer.isupper() and len(line.challenge.split(", ")) > 2]

    assert [(line.challenge, line.answer) for line in things] == []


def test_every_unit_stays_with_its_number() -> None:
    words = {one.word for by_system in MEASURES.values() for one in by_system.values() if one.word[0] != "/"}

    assert [word for word in sorted(words) if _whole(f"7 {word}") != f"7\u00a0{word}"] == []
    assert unparted("7 inner tires, 3 mates") == "7 inner tires, 3 mates"
    assert unparted("189 km/h") == "189\u00a0km/\u2060h"


def _whole(text: str) -> str:
    """A text as it is read: what keeps a unit whole is not seen."""
    return unparted(text).replace("\u2060", "")
