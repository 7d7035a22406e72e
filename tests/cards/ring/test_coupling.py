from typing import Any

import pytest

from binder.assessment.coupling.kinds import FORBIDDING
from binder.assessment.weights.kinds import COMBINATION
from binder.cards.blocks import Blank, Box, Card, Heading, Line, Step
from binder.cards.ring.fixed_cards import coupling
from tests.cards.procedure_rigs import MAKER_SAYS, answers, assessed, car, coach, rig, text_of, trailer


def made(behind: dict[str, object], how: str, **link: Any) -> Card:
    main = coach()
    main["equipment"]["brake controller"] = "true"
    card = coupling(assessed(rig({"coach": main, "behind": behind}, how, **link)))
    assert card is not None
    return card


def test_nothing_towed_has_no_card() -> None:
    assert coupling(assessed(rig({"coach": coach()}))) is None


def test_the_whole_card_of_a_car_on_its_wheels() -> None:
    card = made(car(), "tow bar")
    front, back = card.sides

    assert [(getattr(block, "challenge", ""), getattr(block, "text", "")) for block in front.blocks] == [
        ("", "Connect"),
        ("Between, while one can roll", ""),
        ("Parking brake, coach", ""),
        ("Chocks, behind", ""),
        ("Bar on base plate", ""),
        ("", "Behind, in its maker's words"),
        *(("", words) for words in MAKER_SAYS),
        ("", "Latch, tie, plug"),
        ("Arms, both", ""),
        ("Pins, clips", ""),
        ("Bar, out of level", ""),
        ("Safety cables", ""),
        ("Cord, drip loop", ""),
        ("Breakaway cable, some slack", ""),
    ]
    assert [(block.challenge, block.answer) for block in back.blocks if isinstance(block, Line)] == [
        ("Breakaway pin, pulled", "BRAKE ON"),
        ("Breakaway pin back", "BRAKE OFF"),
        ("Braking: the car's pedal", "MOVES"),
        ("Braking: car's lamp in the cab", "LIT"),
        ("Lights, each one", "LIT"),
        ("Last, before rolling: chocks", "STOWED"),
        ("Towed wheels", "ALL TURNING"),
        ("Gentle brake", "STRAIGHT, NO CLUNK"),
        ("Parking brake, coach", "ON"),
        ("Chocks, behind", "UNDER THE WHEELS"),
        ("Parking brake, behind", "ON"),
        ("Device on the car's pedal", "OUT"),
        ("Breakaway, cord, cables", "STOWED"),
        ("Arms, both", "UNLATCHED"),
        ("Bar", "STOWED"),
        ("Behind, to drive it", "AS ITS MAKER SAYS"),
    ]


def test_the_makers_words_are_killer_steps_in_its_order() -> None:
    steps = [block for block in made(car(), "tow bar").sides[0].blocks if isinstance(block, Step)]

    assert [step.text for step in steps] == MAKER_SAYS
    assert [step.number for step in steps] == ["1", "2", "3", "4", "5"]
    assert all(step.killer for step in steps)


def test_words_that_are_not_known_leave_ruled_lines() -> None:
    front = made(car(as_its_maker_says=None), "tow bar").sides[0].blocks

    assert sum(isinstance(block, Blank) for block in front) == 4
    assert not [block for block in front if isinstance(block, Step)]


@pytest.mark.parametrize(
    ("how", "first", "last"),
    [
        ("ball", "Tongue, lifted by jack", "Latch"),
        ("gooseneck", "Coupler on the ball", "Latch"),
        ("fifth wheel", "Jaws, with a light", "Jaws"),
    ],
)
def test_a_trailer_is_coupled_in_the_words_of_its_hitch(how: str, first: str, last: str) -> None:
    found = answers(made(trailer(), how))

    assert first in found
    assert list(found)[-1] == last or found[last] == "OPEN"
    assert found["Controller, by hand"] == "BRAKES HOLD"
    assert not {"Arms, both", "Bar on base plate", "Supplemental brake"} & set(found)
    assert "NEVER BACK UP" not in text_of(made(trailer(), how))


def test_chains_are_crossed_under_a_ball_only() -> None:
    assert "Safety chains: CROSSED, CLIPPED" in sequence(made(trailer(), "ball"), "Latch")
    assert "Safety chains: CLIPPED" in sequence(made(trailer(), "gooseneck"), "Latch")
    assert "Safety chains" not in answers(made(trailer(), "fifth wheel"))


def sequence(card: Card, place: str) -> list[str]:
    """Challenges of the lines under one heading, in their order."""
    found: list[str] = []
    heading = ""
    for block in (block for side in card.sides for block in side.blocks):
        if isinstance(block, Heading):
            heading = block.text
        elif isinstance(block, Line) and heading.startswith(place):
            found.append(f"{block.challenge}: {block.answer}")
    return found


def killers(card: Card) -> set[str]:
    return {
        line.challenge
        for side in card.sides
        for line in side.blocks
        if isinstance(line, Line) and line.killer
    }


def test_spring_bars_are_on_only_where_the_loads_count_on_them() -> None:
    with_bars = made(trailer(), "ball", distribution={"couple": "26250 lb*in"})

    assert "Spring bars, tongue lifted: ON" in sequence(with_bars, "Latch")
    assert "Spring bars, tongue lifted" in killers(with_bars)
    assert "Spring bars" not in text_of(made(trailer(), "ball"))


def test_the_jack_takes_the_tongue_before_the_bars_come_off() -> None:
    """Practice: loaded bars hold energy; the jack lifts tongue and hitch until they are slack."""
    card = made(trailer(), "ball", distribution={"couple": "26250 lb*in"})

    assert sequence(card, "Uncouple") == [
        "Parking brake, coach: ON",
        "Chocks, behind: UNDER THE WHEELS",
        "Jack: DOWN, LOADED",
        "Spring bars, tongue lifted: OFF",
        "Cord: STOWED",
        "Breakaway cable: OFF",
        "Safety chains: OFF",
        "Latch: OPEN",
    ]
    assert {"Jack", "Spring bars, tongue lifted", "Breakaway cable, some slack"} <= killers(card)


def test_a_fifth_wheel_is_proved_by_eye_and_by_a_pull_before_its_legs_leave_the_ground() -> None:
    main = coach() | {"kind": "pickup"}
    card = coupling(assessed(rig({"truck": main, "behind": trailer()}, "fifth wheel")))
    assert card is not None

    assert sequence(card, "Connect") == [
        "Between, while one can roll: NOBODY",
        "Chocks, behind: UNDER THE WHEELS",
        "Tailgate, to back under: DOWN",
        "Jaws, before backing: OPEN",
        "Pin plate, at the head: LOWER",
        "Parking brake, truck: ON",
        "Jaws, with a light: CLOSED ON PIN",
        "Handle: LOCKED, CLIPPED",
    ]
    assert sequence(card, "Latch") == [
        "Cord, drip loop: PLUGGED IN",
        "Breakaway cable, some slack: CLIPPED",
        "Pull, trailer brakes on: HOLDS",
        "Legs: UP, PINNED",
        "Tailgate: UP",
    ]
    assert sequence(card, "Uncouple") == [
        "Parking brake, truck: ON",
        "Chocks, behind: UNDER THE WHEELS",
        "Tailgate, to drive out: DOWN",
        "Legs: DOWN, LOADED",
        "Cord: STOWED",
        "Breakaway cable: OFF",
        "Jaws: OPEN",
    ]
    assert {"Jaws, with a light", "Handle", "Pull, trailer brakes on", "Legs"} <= killers(card)


def test_a_trailers_makers_words_are_printed_and_their_absence_leaves_no_ruled_lines() -> None:
    said = made(trailer() | {"towing": {"as_its_maker_says": ["Legs UP"]}}, "fifth wheel").sides[0].blocks
    silent = made(trailer(), "fifth wheel").sides[0].blocks

    assert "Jaws, before backing" in repr(silent)
    assert "Jaws, before backing" not in repr(said)
    assert "Jaws, with a light" in repr(said)
    assert isinstance(said[1], Step)
    assert (said[1].text, said[1].number, said[1].killer) == ("Legs UP", "1", True)
    assert [block.text for block in said if isinstance(block, Heading)] == [
        "Behind, in its maker's words",
        "Joined: see each",
        "Latch, tie, plug",
    ]
    assert not [block for block in silent if isinstance(block, Blank | Step)]


def test_a_dolly_has_straps_and_no_arms() -> None:
    found = answers(made(car(), "dolly"))

    assert found["Straps, both wheels"] == "TIGHT"
    assert "Arms, both" not in found


@pytest.mark.parametrize("safety", ["supplemental_brake", "breakaway", "brake_lamp_in_cab"])
def test_a_safety_the_car_has_not_is_not_asked_for(safety: str) -> None:
    words = {"supplemental_brake": "the car's pedal", "breakaway": "Breakaway", "brake_lamp_in_cab": "lamp"}

    with_it, without = answers(made(car(), "tow bar")), answers(made(car(**{safety: "false"}), "tow bar"))

    assert [text for text in with_it if words[safety] in text]
    assert not [text for text in without if words[safety] in text and text != "Breakaway, cord, cables"]


@pytest.mark.parametrize(
    ("field", "asked"),
    [
        ("breakaway", "Breakaway switch: fitted?"),
        ("supplemental_brake", "Supplemental brake: fitted?"),
    ],
)
def test_what_stops_a_car_and_nobody_noted_is_a_line_with_a_blank(field: str, asked: str) -> None:
    noted, blank = ([*answers(made(car(**more), "tow bar"))] for more in ({}, {field: None}))

    assert asked in blank
    assert asked not in noted


def test_it_becomes_wrong_by_what_is_coupled() -> None:
    assert made(car(), "tow bar").wrong_as_soon_as == (
        "the tow bar between coach and behind or the behind, its brake or its maker's procedure is changed."
    )


def test_whatever_forbids_to_tow_is_said_briefly_on_the_card() -> None:
    """The line begins with DO NOT TOW and ends with a point of its own."""
    briefs = [kind.brief for kind in FORBIDDING | {COMBINATION.over}]

    assert [brief for brief in briefs if not isinstance(brief, str) or brief != brief.strip(".")] == []
    assert all(briefs)
    assert not [brief for brief in briefs if str(brief)[:1].isupper()]


def test_the_cars_own_brake_holds_it_before_anything_is_opened() -> None:
    opened = sequence(made(car(), "tow bar"), "Uncouple")

    assert opened.index("Parking brake, behind: ON") < opened.index("Breakaway, cord, cables: STOWED")
    assert opened.index("Breakaway, cord, cables: STOWED") < opened.index("Arms, both: UNLATCHED")


def test_nobody_stands_between_and_a_coupled_car_is_never_backed() -> None:
    card = made(car(), "tow bar")
    boxes = [block.title for side in card.sides for block in side.blocks if isinstance(block, Box)]

    assert {"Between, while one can roll", "Safety cables", "Breakaway cable, some slack"} <= killers(card)
    assert boxes == ["NEVER BACK UP COUPLED"]


def test_a_trailers_breakaway_is_tried_with_the_cord_out() -> None:
    made_of = made(trailer() | {"brakes": {"service": "electric"}, "towing": {"breakaway": "true"}}, "ball")
    found = [block for side in made_of.sides for block in side.blocks if isinstance(block, Line)]
    pulled = next(line for line in found if line.challenge == "Breakaway pin, pulled")

    assert "cord unplugged" in pulled.detail


def test_a_car_is_set_back_in_its_makers_words_or_a_blank() -> None:
    towing = car()["towing"] | {"uncoupling_as_its_maker_says": ["Fuse 27 IN", "Selector in P"]}
    said = made(car() | {"towing": towing}, "tow bar")
    lines = [block for side in (*said.sides, *made(car(), "tow bar").sides) for block in side.blocks]

    told = [block.detail for block in lines if isinstance(block, Line) and "to drive it" in block.challenge]
    assert told == ["Fuse 27 IN; Selector in P", "______"]
