"""Card 7: what is done before the wrecker lifts, and what its driver asks of each vehicle by itself."""

from typing import Any

import pytest

from binder.assessment.assess import Assessment
from binder.cards.blocks import Big, Blank, Box, Card, Heading, Line, Picture, Step
from binder.cards.drawings import PlanView
from binder.cards.ring.towing import towing
from tests.cards.binder_rigs import demo, kind_of_rig
from tests.cards.procedure_rigs import answers, assessed, coach, rig


def boxes(card: Card) -> dict[str, tuple[str, ...]]:
    return {
        block.title: block.lines for side in card.sides for block in side.blocks if isinstance(block, Box)
    }


def blanks(card: Card) -> list[str]:
    return [block.name for side in card.sides for block in side.blocks if isinstance(block, Blank)]


def plans(card: Card) -> list[PlanView]:
    views = [block.view for side in card.sides for block in side.blocks if isinstance(block, Picture)]
    return [view for view in views if isinstance(view, PlanView)]


def moved(said: str | None, **changed: Any) -> Assessment:
    """A motorhome with what its maker says on towing it with its wheels down."""
    transmission = None if said is None else {"tow_with_wheels_down": said}
    return assessed(rig({"coach": coach(transmission=transmission, **changed)}))


def test_the_car_comes_off_first_and_a_line_asks_who_drives_it() -> None:
    front = towing(demo("larkspur")).sides[0].blocks

    assert [block.text for block in front if isinstance(block, Step)] == [
        "The car comes off first: card 4.",
        "Propane valve SHUT: propane bay.",
        "Slides IN.",
        "Leveling jacks UP.",
        "Everyone out: nobody rides in it.",
    ]
    assert isinstance(front[2], Blank)
    assert front[2].name == "Who drives the car"


@pytest.mark.parametrize(
    ("said", "title", "lines"),
    [
        (
            "no: drive shaft out first",
            "On its wheels? NEVER before the drive shaft is out.",
            ("Its maker: \u201cno: drive shaft out first\u201d",),
        ),
        (
            "no: on a flatbed",
            "Driven wheels on the road? NEVER.",
            ("Its maker: \u201cno: on a flatbed\u201d",),
        ),
        (
            "yes, in neutral",
            "Wheels down? Only as its maker says:",
            ("\u201cyes, in neutral\u201d",),
        ),
        (
            None,
            "Wheels down? NOT KNOWN: ask its maker.",
            ("Until then never, or the drive shaft out first.", "Its maker says: ____________"),
        ),
    ],
)
def test_wheels_go_down_only_as_the_maker_says_and_unknown_is_never(
    said: str | None, title: str, lines: tuple[str, ...]
) -> None:
    found = {key: value for key, value in boxes(towing(moved(said))).items() if "heels" in key}

    assert found == {title: lines}


def test_spring_brakes_are_caged_by_a_professional_only_where_there_are_any() -> None:
    air, other = (towing(moved("no", brakes={"service": kind})) for kind in ("air", "hydraulic"))

    assert "Spring brakes: caged by a professional ONLY." in boxes(air)
    assert blanks(air)[-1] == "Air in: where, which fitting"
    assert not [title for title in boxes(other) if "Spring" in title]
    assert "Air in: where, which fitting" not in blanks(other)


def test_what_was_never_noted_is_a_line_to_fill_in_with_its_name() -> None:
    assert blanks(towing(demo("larkspur"))) == ["Who drives the car", "Pull here"]
    assert blanks(towing(moved("no")))[:3] == ["Jack here", "Lift here", "Pull here"]


def test_sizes_and_loads_are_those_of_the_coach_by_itself() -> None:
    card = towing(demo("larkspur"))

    bigs = {
        block.name: (block.value, block.points) for block in card.sides[1].blocks if isinstance(block, Big)
    }
    assert bigs == {
        "Height": ("12 ft 8 in", 24),
        "Length": ("38 ft 4 in", 24),
        "Weight": ("29,052 lb", 24),
    }
    # 11,157 and 17,896 add up to a pound more: the card says why.
    bigs_of = {block.name: block for block in card.sides[1].blocks if isinstance(block, Big)}
    assert bigs_of["Weight"].detail == "this and each axle rounded up by itself"
    assert answers(card)["Front overhang 7 ft 4 in"] == "RAMP 9\u00b0 OR LESS"
    assert [(axle.set_point, axle.unit) for axle in plans(card)[0].vehicles[0].axles] == [
        ("11,157", "lb"),
        ("17,896", "lb"),
    ]
    assert "weights.coach.steer.heaviest.load" in card.figures


def test_a_truck_is_weighed_without_what_its_trailer_puts_on_its_hitch() -> None:
    card = towing(demo("sandpiper"))

    headings = [block.text for block in card.sides[1].blocks if isinstance(block, Heading)]
    assert headings == ["Truck alone", "Trailer"]
    assert "weights.truck.drive.alone.load" in card.figures
    assert [axle.set_point for axle in plans(card)[0].vehicles[0].axles] == ["3,329", "2,742"]


def test_jacking_and_lift_points_are_drawn_on_both_sides() -> None:
    things = plans(towing(demo("larkspur")))[0].things

    assert {(thing.label, thing.side) for thing in things} == {
        ("jack, lift", "left"),
        ("jack, lift", "right"),
        ("jack", "left"),
        ("jack", "right"),
        ("air", "front"),
    }


def test_without_a_drawing_the_loads_stand_in_words() -> None:
    card = towing(moved("no"))

    assert plans(card) == []
    assert answers(card)["Steer axle"] == "______ lb"


def test_an_angle_that_cannot_be_known_is_a_blank() -> None:
    assert answers(towing(moved("no")))["Rear overhang ______ ft ______ in"] == "RAMP ______\u00b0 OR LESS"


def test_a_truck_stands_as_high_as_the_camper_on_it() -> None:
    card = towing(kind_of_rig("slide_in_camper"))
    names = [block.text for side in card.sides for block in side.blocks if isinstance(block, Heading)]
    bigs = {block.name: block.value for block in card.sides[1].blocks if isinstance(block, Big)}

    assert names == ["Before it is lifted", "Truck with camper"]
    assert (bigs["Height"], bigs["Length"]) == ("10 ft 10 in", "22 ft 4 in")


def test_nobody_goes_under_it_on_what_it_stands_on() -> None:
    title = next(title for title in boxes(towing(demo("larkspur"))) if title.startswith("Nobody"))

    assert title == "Nobody under it on its leveling jacks or air bags."
    assert [line for line in answers(towing(demo("larkspur"))) if line.startswith("Jack")] == ["Jack here"]
    assert isinstance(towing(demo("larkspur")).sides[1].blocks[4], Line)
