"""Card 9: people out first; exits, extinguishers and shut-offs in words and drawn; what the crew is told."""

from typing import Any

from binder.cards.blocks import Big, Blank, Box, Card, Heading, Note, Picture, Step
from binder.cards.drawings import PlanView
from binder.cards.ring.fire import fire
from tests.cards.binder_rigs import demo, kind_of_rig
from tests.cards.procedure_rigs import answers, assessed, coach, rig


def steps(card: Card) -> list[str]:
    return [block.text for side in card.sides for block in side.blocks if isinstance(block, Step)]


def drawn(card: Card) -> PlanView:
    views = [block.view for side in card.sides for block in side.blocks if isinstance(block, Picture)]
    (view,) = (view for view in views if isinstance(view, PlanView))
    return view


def with_equipment(size: dict[str, str] | None = None, **changed: Any) -> Card:
    entry = coach((), tanks={"propane": {"holds": "propane"}})
    entry |= {"equipment": {"exits": ["door", "window"], **changed}}
    entry |= {"size": size} if size else {}
    return fire(assessed(rig({"coach": entry})))


def test_everyone_is_out_and_counted_before_anything_else() -> None:
    first = fire(demo("larkspur")).sides[0].blocks[0]

    assert isinstance(first, Box)
    assert (first.word, first.title) == ("DANGER", "FIRE: everyone OUT FIRST.")
    assert first.lines == ("Count heads: 2 people. Nobody goes back in.",)


def test_who_is_aboard_is_a_blank_where_nobody_said() -> None:
    first = with_equipment().sides[0].blocks[0]

    assert isinstance(first, Box)
    assert first.lines == ("Count heads: ______ people. Nobody goes back in.",)


def test_an_engine_at_the_rear_is_seen_in_the_mirror_and_its_lid_stays_shut() -> None:
    assert "Smoke in the mirror? Engine lid stays SHUT." in steps(fire(demo("larkspur")))
    assert "Engine fire: the lid stays SHUT." in steps(fire(demo("kestrel")))


def test_each_exit_says_how_it_opens_and_each_extinguisher_what_it_is() -> None:
    found = answers(fire(demo("larkspur")))

    assert found["Out: entry door"] == "handle up, push"
    assert found["Out: bedroom window"] == "red levers up, push out"
    assert found["Extinguisher: entry door, bedroom"] == "ABC 5 lb"
    assert found["Extinguisher: tool bay"] == "ABC 10 lb"


def test_every_shut_off_says_how_it_is_worked() -> None:
    found = answers(fire(demo("larkspur")))

    assert found["Propane: propane bay"] == "clockwise"
    assert found["Battery: entry bay"] == "house switch, red, to the left"
    assert found["Battery: engine bay"] == "chassis switch, key out"


def test_what_was_never_noted_is_a_blank_with_its_name() -> None:
    blanks = [block.name for block in with_equipment().sides[0].blocks if isinstance(block, Blank)]
    found = answers(with_equipment())

    assert blanks == ["Extinguisher: where, which", "Propane shut-off", "Battery shut-off"]
    assert (found["Out: door"], found["Out: window"]) == ("______", "______")


def test_a_second_way_out_is_asked_for_and_no_extinguisher_is_said() -> None:
    card = with_equipment(exits=["door"], extinguishers="none")

    blanks = [block.name for block in card.sides[0].blocks if isinstance(block, Blank)]
    assert blanks[0] == "Second way out, how it opens"
    assert answers(card)["Extinguishers"] == "NONE ABOARD"


def test_gas_touches_no_switch_and_starts_no_engine() -> None:
    found = steps(fire(demo("larkspur")))
    start = found.index("Driving? Stop. Engine OFF.")

    assert found[start : start + 5] == [
        "Driving? Stop. Engine OFF.",
        "No flame, no start, no switch (battery too).",
        "Everyone out. Leave the door open.",
        "On your way out, shut: propane bay, clockwise.",
        "Phone outside only, well away.",
    ]


def test_a_rig_without_propane_is_told_nothing_of_it() -> None:
    card = fire(assessed(rig({"coach": coach((), tanks={})})))

    assert not [text for text in steps(card) if "valve" in text]
    assert not [block for side in card.sides for block in side.blocks
                if isinstance(block, Heading) and "Propane" in block.text]  # fmt: skip


def test_a_carbon_monoxide_alarm_is_believed() -> None:
    assert "Everyone out, even if it seems false." in steps(fire(demo("kestrel")))


def test_the_fire_crew_is_told_what_burns_and_what_is_under_voltage() -> None:
    card, found = fire(demo("tamarack")), answers(fire(demo("tamarack")))

    assert [(b.name, b.value) for b in card.sides[1].blocks if isinstance(b, Big)] == [
        ("Propane, at most", "54 L")
    ]
    assert found["Diesel, at most"] == "136 L"
    assert found["Engine"] == "FRONT"
    assert found["Batteries"] == "LEAD-ACID, LITHIUM"
    assert found["Solar: roof, 400 W"] == "LIVE IN DAYLIGHT"


def test_exits_extinguishers_and_shut_offs_are_drawn_where_they_are() -> None:
    view = drawn(fire(demo("larkspur")))

    assert [vehicle.name for vehicle in view.vehicles] == [""]
    assert {(thing.label, thing.side, thing.is_bold) for thing in view.things} == {
        ("EXIT, extinguisher", "right", True),
        ("EXIT", "left", True),
        ("extinguisher", "right", False),
        ("extinguisher", "left", False),
        ("propane OFF", "right", False),
        ("battery OFF", "right", False),
        ("battery OFF", "rear", False),
    }


def test_a_camper_is_drawn_on_the_truck_that_carries_it() -> None:
    view = drawn(fire(kind_of_rig("slide_in_camper")))

    assert len(view.vehicles) == 1
    assert "propane OFF" not in {thing.label for thing in view.things}
    assert "EXIT, extinguisher" in {thing.label for thing in view.things}


def test_what_cannot_be_placed_is_told_and_not_guessed() -> None:
    notes = [block.text for block in with_equipment().sides[1].blocks if isinstance(block, Note)]

    assert notes == ["Not drawn: width of the coach not noted."]


def test_what_was_not_measured_is_named_beside_the_drawing() -> None:
    card = with_equipment(
        {"overall_length": "400 in", "overall_width": "100 in"},
        exits=[{"place": "door", "at": "10 in", "side": "right"}, "hatch"],
    )

    assert [thing.label for thing in drawn(card).things] == ["EXIT"]
    assert [block.text for block in card.sides[1].blocks if isinstance(block, Note)] == [
        "Not drawn, for where it is was not measured: EXIT, hatch."
    ]
