"""Thirty questions of the night: each has its answer in one place of the ring, in type that is read there."""

import re
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any, NamedTuple

import pypdfium2 as pdfium
import pytest
import yaml

from binder.assessment.ledger import Figure
from binder.cards.order import binder_document
from binder.printing.build import BuildOptions, printable_cards, read_and_assess
from binder.rendering.html import binder_parts, ring_html
from binder.rendering.pdf import render
from binder.wording.measures import LASTING, Style
from binder.wording.sentences import key_text
from binder.wording.words import Words
from tests import paper_checks as paper
from tests.demos import PROFILES

QUESTIONS: list[dict[str, Any]] = yaml.safe_load(
    Path(__file__).with_name("questions_of_the_night.yaml").read_text(encoding="utf-8")
)
RIGS = ("larkspur", "sandpiper")
ON = date(2026, 5, 25)
ACTED_ON = 13
"""Smallest type in points that is read at night by who stands there."""

TOGETHER = 25 * 72 / 25.4
"""Points of height within which the pieces of one line of an answer are read together."""

MOST_IN_CHAPTER = 4
CHAPTER = "questions_of_the_night"
FAR = 10_000
"""Points that the heights of a chapter's next page are lower."""

Line = tuple[str, ...]
Letters = tuple[str, tuple[float, ...]]
"""The letters of a page in the order they are drawn, and the height of each."""


class Place(NamedTuple):
    """A side of a card, or a page: its words in the order they are drawn, and how high each letter stands."""

    name: str
    text: str
    heights: tuple[float, ...]

    def holds(self, line: Line) -> bool:
        """Tell whether the pieces of a line stand together here."""
        first, *others = ([self.heights[at] for at in self._found(piece)] for piece in line)
        return any(all(any(abs(at - one) <= TOGETHER for one in other) for other in others) for at in first)

    def _found(self, piece: str) -> Iterator[int]:
        for words in piece.split(" / "):
            said = r"\s*".join(re.escape(word) for word in words.split())
            pattern = rf"(?<!\w)(?<!\d[.,]){said}(?!\w|[.,]\d)"
            yield from (found.start() for found in re.finditer(pattern, self.text, re.IGNORECASE))


class Printed(NamedTuple):
    """What is read of a rig at night: the sides of its ring, its chapter of questions, figures as printed."""

    rig: str
    ring: list[Place]
    chapter: Place
    figures: dict[str, str]

    def answer(self, question: dict[str, Any]) -> list[Line]:
        """Write out the lines of an answer, each as its pieces."""
        return [
            tuple(re.sub(r"{(.*?)}", lambda key: self.figures[key[1]], piece) for piece in line.split(" | "))
            for line in question[self.rig]
        ]


@pytest.fixture(scope="module", params=RIGS)
def printed(request: pytest.FixtureRequest) -> Printed:
    """The ring of a rig and its page of questions, as they come out of the printer."""
    rig: str = request.param
    assessment = read_and_assess(PROFILES / rig, BuildOptions(ON))
    cards, letter = printable_cards(assessment), assessment.rig.paper
    parts = binder_parts(binder_document(assessment, cards), letter)
    chapter = next(part for part in parts if part.name == f"page-{CHAPTER}")
    names = [f"card {card.id}" for card in cards for _ in card.sides]
    words = Words(Style(assessment.rig.units))
    return Printed(
        rig,
        [Place(name, *side) for name, side in zip(names, read(ring_html(cards, letter)), strict=True)],
        one_place(CHAPTER, read(chapter.html)),
        {key_text(one.key): as_printed(one, words) for one in assessment.ledger.entered},
    )


def as_printed(figure: Figure, words: Words) -> str:
    """A value as it stands in a line, under a head that names its unit, or in hours where days are few."""
    value, quantity = words.value(figure), figure.quantity
    said = [value, *re.findall(r"^([\d,.]+) \S+$", value)]
    if quantity is not None and quantity.check("[time]"):
        said.append(words.text(quantity, LASTING))
    return " / ".join(said)


def one_place(name: str, pages: Iterator[Letters]) -> Place:
    """A chapter: what stands on two of its pages does not stand together."""
    texts, heights = zip(*pages, strict=True)
    apart = (height - page * FAR for page, each in enumerate(heights) for height in (*each, 0))
    return Place(name, " ".join(texts), tuple(apart))


def read(html: str) -> Iterator[Letters]:
    """Print, and read back what is acted on."""
    yield from map(letters, paper.pages(render(html).content))


def letters(page: pdfium.PdfPage) -> Letters:
    """Letters that are large enough, a space where some were skipped, with the height of each."""
    text, heights, last = "", [], -1
    for glyph in paper.glyphs(page):
        if glyph.points >= ACTED_ON:
            skipped = " " if glyph.order != last + 1 else ""
            text += skipped + glyph.letter
            heights += [glyph.area.bottom] * (len(skipped) + 1)
            last = glyph.order
    return text, tuple(heights)


def complete(places: list[Place], answer: list[Line]) -> set[str]:
    """Name the cards that have a side with the whole answer."""
    return {place.name for place in places if all(map(place.holds, answer))}


def lacking(places: list[Place], answer: list[Line]) -> list[Line]:
    """Tell what the place that answers best still lacks."""
    return min(([line for line in answer if not place.holds(line)] for place in places), key=len)


def test_there_are_thirty_and_at_most_four_send_to_the_binder() -> None:
    assert len(QUESTIONS) == 30
    assert sum("chapter" in question for question in QUESTIONS) <= MOST_IN_CHAPTER


def test_each_question_has_its_answer_in_one_place(printed: Printed) -> None:
    """A card that is full of figures may answer in part: what counts is the side that answers whole."""
    unanswered, scattered = {}, {}
    for question in QUESTIONS:
        places = [printed.chapter] if "chapter" in question else printed.ring
        answer, ask = printed.answer(question), question["ask"]
        found = complete(places, answer)
        if not found:
            unanswered[ask] = lacking(places, answer)
        elif len(found) > (2 if "twice" in question else 1):
            scattered[ask] = found

    assert unanswered == {}
    assert scattered == {}


def test_an_answer_in_small_type_is_none(printed: Printed) -> None:
    """What a card says at 9 points alone, such as how many pounds a tire carries, is not read at night."""
    small = {"larkspur": "next row", "sandpiper": "placard"}[printed.rig]

    assert complete(printed.ring, [(small,)]) == set()
