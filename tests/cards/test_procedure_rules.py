"""The language rules that every procedure card keeps, on any rig."""

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import groupby

import pytest
from hypothesis import HealthCheck, Phase, given, settings

from binder.cards.blocks import Box, Card, End, Heading, Line, Step
from binder.cards.procedures.lines import MOST_LINES
from binder.cards.ring.brakes_and_grades import brakes_and_grades
from binder.cards.ring.fire import fire
from binder.cards.ring.fixed_cards import breakdown, coupling, every_stop, leaving
from binder.cards.ring.sitting_out import sitting_out
from binder.cards.ring.tire_failure import tire_failure
from binder.cards.ring.towing import towing
from binder.models.rig import Rig
from binder.reference.sources import source_ids
from binder.rendering.html import ring_html
from binder.rendering.layout import laid_out
from binder.rendering.paper import PAPERS
from binder.rendering.pdf import render
from binder.rendering.unfit import unfit
from tests.cards.procedure_rigs import (
    WAYS,
    any_rig,
    assessed,
    car,
    coach,
    lines,
    rig,
    rig_with_camper,
    rig_with_car_on_trailer,
    text_of,
    trailer,
)

WORDS = """
ABOARD ACID AFTER ALARM ALIKE ALL AS AT AWAY BALL BEFORE BELTED BESIDE BLUE BOTH BRAKE BRAKES BULGE BY
CALL CAP CENTERED CHARGED CLEAN CLEAR CLIPPED CLOSED CLUNK COMPLETE CONNECTED COUNTED CRACK CROSSED CUT
DOWN DRIP DRIPS DAYLIGHT DRIVING DRY EYES FILLED FIRM FIRST FRONT FULL GAP GIVEN HEIGHT HOLD HOLDS HOT
IDLE IN IT ITS LAST LATCHED LEAKS LEAD LEFT LESS LIGHT LINE LIT LITHIUM LIVE LOADED LOCKED LOCKS LOOP
LOSS LOW LOWER MAKER MARK MATES MODE MORE MOVES NEVER NO NOBODY NONE NOTHING OFF OIL ON ONLY OPEN OR OUT
OVER PEDAL PHONE PIN PINNED PLUGGED POP POPS PULLS RAMP REAR RELEASED REPORT RESET RIDE RIGHT ROOM RUST
SAME SAY SAYS SEATED SECURED SHUT SIDES SILENT SLACK SPARE STONE STOP STOPS STOWED STRAIGHT TESTED THE
THEN TIGHT TIRE TO TOP TRAILER TURNING UNDER UNDONE UNLATCHED UP WHEEL WHEELS WITHIN
"""
VOCABULARY = frozenset(WORDS.split())
"""Every word an answer may be made of, besides names of vehicles, numbers and units."""

EQUIPMENT_WORDS = {
    "slide": "slide",
    "awning": "awning",
    "antenna": "roof_antenna",
    "dish": "satellite_dish",
    "vents": "roof_vents",
    "jacks": "leveling_jacks",
    "steps,": "entry_step",
    "trays": "cargo_trays",
    "refrigerator": "refrigerator",
    "inverter": "inverter",
    "camera": "cameras",
    "radio": "radio",
}
"""A word that only a line of that equipment holds."""

MAKERS: tuple[Callable[..., Card | None], ...] = (
    leaving,
    every_stop,
    coupling,
    breakdown,
    towing,
    tire_failure,
    fire,
    brakes_and_grades,
    sitting_out,
)


def cards(of: Rig) -> list[Card]:
    made = (maker(assessed(of)) for maker in MAKERS)
    return [card for card in made if card]


def groups(card: Card) -> Iterator[list[Line]]:
    for side in card.sides:
        for is_line, blocks in groupby(side.blocks, lambda block: isinstance(block, Line)):
            if is_line:
                yield [block for block in blocks if isinstance(block, Line)]


def full_rigs() -> list[Rig]:
    behind = {"tow bar": car(), "dolly": car()}
    every = [rig({"coach": coach(), "car": behind.get(how, trailer())}, how) for how in WAYS]
    return [
        *every,
        rig_with_car_on_trailer(),
        rig_with_camper(),
        rig({"coach": coach()}),
        rig(units="metric"),
        rig({"van": coach((), tanks={})}),
    ]


@pytest.mark.parametrize("of", full_rigs())
def test_answers_are_values_or_states_of_a_short_vocabulary(of: Rig) -> None:
    made = [card for card in cards(of) if card.name != "breakdown"]
    words = {word for card in made for line in lines(card) for word in re.findall(r"[A-Z]{2,}", line.answer)}

    assert words - VOCABULARY == set()


@pytest.mark.parametrize("of", full_rigs())
def test_no_answer_is_only_check_or_set(of: Rig) -> None:
    found = [line.answer for card in cards(of) for line in lines(card)]

    assert [answer for answer in found if answer.upper() in {"", "CHECK", "CHECKED", "OK", "SET"}] == []


@pytest.mark.parametrize("of", full_rigs())
def test_one_command_stands_on_a_line(of: Rig) -> None:
    commands = [
        text
        for card in cards(of)
        for side in card.sides
        for block in side.blocks
        for text in ([block.challenge, block.answer] if isinstance(block, Line) else [])
        + ([block.text] if isinstance(block, Step) else [])
    ]

    assert len(commands) > 20
    assert [text for text in commands if re.search(r"\band\b", text, re.IGNORECASE)] == []


@pytest.mark.parametrize("of", full_rigs())
def test_a_group_has_at_most_nine_lines_and_a_side_three_boxes(of: Rig) -> None:
    sizes = [len(group) for card in cards(of) for group in groups(card)]
    boxes = [
        sum(isinstance(block, Box) for block in side.blocks) for card in cards(of) for side in card.sides
    ]

    assert max(sizes) <= MOST_LINES
    assert max(boxes) <= 3


@pytest.mark.parametrize("of", full_rigs())
def test_killer_lines_stand_first_in_their_group_and_forbid_moving(of: Rig) -> None:
    confirmed = [card for card in cards(of) if card.name in {"leaving", "every_stop"}]
    found = [group for card in confirmed for group in groups(card)]

    assert any(line.killer for group in found for line in group)
    for group in found:
        assert [line.killer for line in group] == sorted((line.killer for line in group), reverse=True)
        assert {line.consequence for line in group if line.killer} <= {"DO NOT MOVE"}


@pytest.mark.parametrize("of", full_rigs())
def test_each_card_says_how_it_is_used_ends_with_its_call_and_says_when_it_is_wrong(of: Rig) -> None:
    for card in cards(of):
        blocks = card.sides[-1].blocks
        assert card.sides[0].use.startswith(("Do, then confirm.", "Read, then do."))
        assert all(side.use or side.goes_on in {"do, then confirm", "read, then do"} for side in card.sides)
        assert isinstance(blocks[-1], End)
        assert blocks[-1].text.endswith(": complete")
        assert card.wrong_as_soon_as.endswith("changed.")


@pytest.mark.parametrize("of", full_rigs())
def test_every_reason_names_a_source_of_the_bibliography(of: Rig) -> None:
    reasons = [reason for card in cards(of) for reason in card.reasons]

    assert len(reasons) > 10
    assert all(source_ids(reason.source) and reason.text for reason in reasons)


@given(of=any_rig())
@settings(max_examples=60, deadline=None)
def test_a_line_is_shown_only_with_its_equipment(of: Rig) -> None:
    equipment = of.vehicles["coach"].equipment
    words = " ".join(
        f"{line.challenge}, {line.answer}," for card in cards(of) for line in lines(card)
    ).lower()

    for word, name in EQUIPMENT_WORDS.items():
        assert (word in words) == (getattr(equipment, name) is not None), word
    held = {tank.holds for tank in of.vehicles["coach"].tanks.values()}
    assert ("propane valve" in words) == ("propane" in held)
    assert ("def cap" in words) == ("exhaust fluid" in held)
    brakes = of.vehicles["coach"].brakes
    assert brakes is not None
    assert ("low-air buzzer" in words) == (brakes.service == "air")
    assert ("brake pedal" in words) == (brakes.service == "hydraulic")
    assert ("air springs" in words) == (of.vehicles["coach"].suspension == "air")
    assert ("towed wheels" in words) == bool(of.couplings)
    assert (coupling(assessed(of)) is None) == (not of.couplings)


def fits(of: Rig) -> None:
    coded = [replace(card, code="7f3ka", target="HTTPS://EXAMPLE.COM/LOG#1.7f3ka") for card in cards(of)]
    for paper in ("letter", "a4"):
        laid = [laid_out(card, PAPERS[paper]) for card in coded]
        sides = sum(len(card.sides) for card in laid)

        assert list(unfit(laid, PAPERS[paper])) == []
        assert max(len(card.sides) for card in laid) <= 3
        assert render(ring_html(laid, paper), sides).page_count == sides


@pytest.mark.parametrize("of", full_rigs())
def test_a_rig_with_everything_fits_three_sides_on_either_paper(of: Rig) -> None:
    fits(of)


@given(of=any_rig())
@settings(
    max_examples=5,
    deadline=None,
    phases=[Phase.generate],  # Each try lays out eight sides twice: no time to look for a smaller rig.
    suppress_health_check=[HealthCheck.too_slow],
)
def test_any_rig_fits_three_sides_on_either_paper(of: Rig) -> None:
    fits(of)


@pytest.mark.parametrize("of", full_rigs())
def test_headings_are_short_and_no_command_says_check(of: Rig) -> None:
    headings = [
        block.text
        for card in cards(of)
        for side in card.sides
        for block in side.blocks
        if isinstance(block, Heading)
    ]

    assert max(map(len, headings)) <= 30
    assert not [card.name for card in cards(of) if "as required" in text_of(card)]
