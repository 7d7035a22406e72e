"""Words of a card are said for one rig: what is chosen, in which order, with which numbers and facts."""

from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from binder.assessment.assess import Assessment, assess
from binder.cards.blocks import Blank, Box, Card, End, Heading, Line, Note, Reason, Step
from binder.cards.procedures.lines import applies, filled, said_card
from binder.cards.procedures.reading import card_words
from binder.cards.ring.order import RING, ring
from binder.models.load import load_profile
from binder.models.procedures import CardWords, Conditional
from binder.models.rig import Rig
from tests.assessment.edited_demos import Assessed
from tests.assessment.edited_demos import assessed as assessed_demo
from tests.cards.binder_rigs import ON, RIGS
from tests.cards.procedure_rigs import (
    WAYS,
    assessed,
    car,
    coach,
    rig,
    rig_with_camper,
    rig_with_car_on_trailer,
    trailer,
)
from tests.demos import PROFILES

__all__ = ["assessed_demo"]

FOLDERS = sorted([*PROFILES.iterdir(), *RIGS.iterdir()])
CARDS = [card for card in RING if card != "day_sheet"]


def conditional(words: CardWords) -> Iterator[tuple[str, Conditional, list[str]]]:
    """Each part of a card that has conditions of its own, with all it may print."""
    for side in words.sides:
        yield from (("use", one, [one.text]) for one in side.use)
        yield "goes on", side, [side.goes_on]
        for group in side.groups:
            yield from ((group.name, one, [one.text]) for one in group.heading)
            for entry in group.lines:
                texts = [entry.challenge, entry.answer, entry.detail, entry.step, entry.box, *entry.below]
                yield entry.name or entry.computed, entry, [*texts, entry.note, entry.reason]
    yield from ((why.name, why, [why.name, why.reason]) for why in words.reasons)


@cache
def in_units(folder: Path, units: str) -> Assessment:
    profile = load_profile(folder)
    return assess(replace(profile, rig=profile.rig.model_copy(update={"units": units})), ON)


def said(*lines: dict[str, Any], **group: Any) -> Card:
    words = {
        "card": "made",
        "number": "0",
        "title": "Card",
        "sides": [{"use": "Read, then do.", "groups": [{"name": "g", "lines": list(lines), **group}]}],
    }
    computed = {"made": (Heading("Made"), Reason("Made", "Why.", "practice"))}
    return said_card(CardWords.model_validate(words), assessed(), computed)


def line(name: str, **entry: object) -> dict[str, object]:
    return {"name": name, "challenge": name, "answer": "IN", **entry}


@pytest.mark.parametrize("units", ["us", "metric"])
@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_every_line_that_a_rig_has_is_filled_in_both_systems(folder: Path, units: str) -> None:
    of = in_units(folder, units)
    cards = {card.name for card in ring(of)} & set(CARDS)
    texts = [
        filled(text, of)
        for card in sorted(cards)
        for _, words, texts in conditional(card_words(card))
        if applies(words, of)
        for text in texts
    ]

    assert len(texts) > 100
    assert [text for text in texts if "{" in text or "}" in text or "None" in text] == []
    assert cards >= {"leaving", "every_stop", "tires", "windshield_slip"}


def made_up() -> Iterator[Rig]:
    """Rigs that have, between them, whatever a card speaks of."""
    for how in WAYS:
        yield rig({"coach": coach(), "car": car() if how in {"tow bar", "dolly"} else trailer()}, how)
    yield rig({"coach": coach(), "car": car(supplemental_brake=None, breakaway=None)}, "tow bar")
    bare: dict[str, Any] = {"tanks": {}, "suspension": "leaf", "generator": None}
    yield rig({"van": coach((), **bare, brakes={"service": "hydraulic"})})
    gasoline = {"fuel": {"holds": "gasoline"}, "propane": {"holds": "propane"}}
    yield rig({"van": coach((), tanks=gasoline, brakes={"exhaust_brake": "true"})})
    on_air = {"truck": coach((), kind="pickup"), "trailer": trailer() | {"suspension": "air"}}
    yield rig(on_air, "fifth wheel")
    yield rig({"coach": coach(transmission={"tow_with_wheels_down": "yes, in neutral, to 35 mph"})})
    yield rig_with_camper()
    yield rig_with_car_on_trailer()


def test_every_wording_is_printed_for_some_rig(assessed_demo: Assessed) -> None:
    overloaded = assessed_demo("larkspur", ("tow bar: 8000 lb", "tow bar: 4000 lb"))
    many = [overloaded, *map(assessed, made_up()), *(in_units(folder, "us") for folder in FOLDERS)]
    words = [(card, *one) for card in CARDS for one in conditional(card_words(card))]

    assert [
        f"{card}: {name}" for card, name, one, _ in words if not any(applies(one, of) for of in many)
    ] == []


def test_a_line_needs_all_of_when_and_none_of_unless() -> None:
    lines = [
        line("both", when=["slides", "duals"]),
        line("one is missing", when=["slides", "tag axle"]),
        line("one too many", unless=["tag axle", "duals"]),
        line("none", unless="tag axle"),
    ]

    assert [block.challenge for block in said(*lines).sides[0].blocks if isinstance(block, Line)] == [
        "both",
        "none",
    ]


def test_killer_lines_stand_first_and_reasons_keep_the_order_of_the_file() -> None:
    found = said(line("a", reason="A."), line("b", killer="yes", reason="B.", source="W39"))

    assert [getattr(block, "challenge", "") for block in found.sides[0].blocks] == ["b", "a"]
    assert found.reasons == (Reason("a", "A.", "practice"), Reason("b", "B.", "W39"))


def test_where_the_hands_have_an_order_killer_lines_keep_it() -> None:
    found = said(line("a"), line("b", killer="yes"), **{"killers first": "no"})

    assert [getattr(block, "challenge", "") for block in found.sides[0].blocks] == ["a", "b"]


@pytest.mark.parametrize(
    ("entry", "group", "consequence"),
    [
        ({}, {}, "FIX FIRST"),
        ({"killer": "yes"}, {}, "DO NOT MOVE"),
        ({"killer": "yes"}, {"if not": "nothing"}, ""),
        ({"if not": "go"}, {"if not": "nothing"}, "OK TO GO"),
        ({"if not": "nothing", "killer": "yes"}, {}, ""),
    ],
)
def test_what_follows_is_said_by_the_line_else_by_its_group(
    entry: dict[str, str], group: dict[str, str], consequence: str
) -> None:
    (block,) = said(line("a", **entry), **group).sides[0].blocks

    assert isinstance(block, Line)
    assert block.consequence == consequence


def test_steps_are_numbered_through_but_for_those_that_say_not() -> None:
    steps = [
        {"name": "a", "step": "A.", "reason": "Why {first stretch}."},
        {"name": "b", "step": "B:", "numbered": "no"},
        {"name": "c", "step": "C.", "indented": "yes"},
        {"name": "d", "step": "D."},
    ]
    found = said(*steps)

    assert found.sides[0].blocks == (Step("A.", "1"), Step("B:"), Step("C.", indent=True), Step("D.", "2"))
    assert found.reasons[0].name == "A"
    assert "{" not in found.reasons[0].text


def test_boxes_notes_ruled_lines_and_what_is_computed_stand_in_their_places() -> None:
    found = said(
        {"name": "a", "box": "Stop?", "below": ["Stop."], "signal": "DANGER"},
        {"name": "b", "note": "Note."},
        {"computed": "made"},
        {"name": "c", "ruled": "Phone"},
        heading="First {first stretch}",
    )

    heading, *others = found.sides[0].blocks
    assert isinstance(heading, Heading)
    assert heading.text.startswith("First ")
    assert others == [Box("Stop?", ("Stop.",), "DANGER"), Note("Note."), Heading("Made"), Blank("Phone")]
    assert found.reasons == (Reason("Made", "Why.", "practice"),)


def test_a_group_without_lines_has_no_heading() -> None:
    assert said(line("a", when="tag axle"), heading="Nothing").sides[0].blocks == ()


def test_the_first_wording_that_belongs_to_the_rig_is_taken() -> None:
    wordings = [{"text": "Tag", "when": "tag axle"}, {"text": "Duals", "when": "duals"}, {"text": "Else"}]

    assert said(line("a"), heading=wordings).sides[0].blocks[0] == Heading("Duals")


def test_a_side_has_its_use_and_its_end_or_is_left_out() -> None:
    groups = [{"name": "g", "lines": [line("a")]}]
    sides = [
        {"use": "Do.", "groups": groups, "end": "Card: complete"},
        {"use": "Do.", "when": "tag axle", "groups": groups},
    ]
    found = said_card(
        CardWords.model_validate({"card": "made", "number": "0", "title": "Card", "sides": sides}), assessed()
    )

    assert [side.use for side in found.sides] == ["Do."]
    assert found.sides[0].blocks[-1] == End("Card: complete")
