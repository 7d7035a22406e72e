import pytest

from binder.assessment.body.kinds import TAIL_SWING
from binder.assessment.ledger import Figure
from binder.assessment.road.kinds import CLEARANCE_NEEDED
from binder.cards.blocks import Box
from binder.cards.ring.fixed_cards import every_stop
from binder.quantities import registry
from tests.assessment.edited_demos import Assessed
from tests.assessment.edited_demos import assessed as assessed_demo
from tests.cards.binder_rigs import demo
from tests.cards.procedure_rigs import TANKS, answers, assessed, coach, lines, rig, trailer

__all__ = ["assessed_demo"]


def test_the_walk_has_a_tick_column_for_each_of_four_stops() -> None:
    card = every_stop(assessed())
    walk = [line for line in lines(card) if line.ticks]

    assert {line.ticks for line in walk} == {4}
    assert [(line.challenge, line.answer) for line in walk] == [
        ("Tire monitor, coming in", "NO ALARM"),
        ("Hubs, hand near", "SAME BOTH SIDES"),
        ("Tires", "NO BULGE, NO CUT"),
        ("Between duals", "NO STONE"),
        ("Pins, cables, cord", "SECURED"),
        ("Coupling welds", "NO RUST LINE"),
        ("Shove the bar", "NO CLUNK"),
        ("Doors shut; steps", "IN"),
        ("Roof, look up", "ALL DOWN"),
        ("Under the rig", "NO LEAKS"),
        ("Glass, mirrors, lamps", "CLEAN"),
    ]


@pytest.mark.parametrize(("units", "limit"), [("us", "50 °F"), ("metric", "27 °C")])
def test_a_hot_hub_forbids_moving(units: str, limit: str) -> None:
    hubs = next(line for line in lines(every_stop(assessed(rig(units=units)))) if "Hubs" in line.challenge)

    assert hubs.consequence == "DO NOT MOVE"
    assert hubs.detail == f"not {limit} over its mate"


@pytest.mark.parametrize(
    ("how", "challenge"),
    [
        ("ball", "Latch, chains, cord"),
        ("gooseneck", "Latch, chains, cord"),
        ("fifth wheel", "Handle pin, cord"),
    ],
)
def test_a_trailer_has_its_own_words(how: str, challenge: str) -> None:
    found = answers(every_stop(assessed(rig({"coach": coach(), "trailer": trailer()}, how))))

    assert challenge in found
    assert "Pins, cables, cord" not in found


def test_nothing_towed_leaves_the_coupling_out() -> None:
    assert not [text for text in answers(every_stop(assessed(rig({"coach": coach()})))) if "oupling" in text]


def test_fueling_begins_with_height_and_tail_swing() -> None:
    needed = Figure(CLEARANCE_NEEDED.of(), registry.Quantity(158.0, "inch"))
    swing = Figure(TAIL_SWING.of(), registry.Quantity(26.2, "inch"))

    card = every_stop(assessed(figures=(needed, swing)))

    fuel = [line for line in lines(card) if not line.ticks]
    assert [(line.challenge, line.answer, line.killer) for line in fuel[:2]] == [
        ("Canopy sign", "13 ft 2 in OR MORE", True),
        ("Tail swings out 27 in", "ROOM", True),
    ]
    assert fuel[0].detail == "this rig stands 12 ft 8 in (3.87 m)"
    assert "rig.tail_swing" in card.figures


def test_fillers_stand_where_the_tanks_have_them() -> None:
    found = answers(every_stop(assessed()))

    assert found["Diesel filler"] == "LEFT FRONT"
    assert found["DEF filler"] == "RIGHT REAR, BLUE CAP"


@pytest.mark.parametrize(("side", "carried"), [("right rear", True), ("left rear", False), (None, False)])
def test_the_carried_can_is_filled_where_the_fillers_are_on_different_sides(
    side: str | None, *, carried: bool
) -> None:
    tanks = {"fuel": TANKS["fuel"], "fluid": {"holds": "exhaust fluid", "filler": side}}

    found = answers(every_stop(assessed(rig({"coach": coach(tanks=tanks)}))))

    assert ("Spare DEF jug, at the pump" in found) is carried


def test_a_filler_that_is_not_known_is_a_blank() -> None:
    tanks = {"main": {"holds": "gasoline"}}

    found = answers(every_stop(assessed(rig({"coach": coach(tanks=tanks)}))))

    assert found["Gasoline filler"] == "______"


def test_two_tanks_of_one_fuel_go_by_their_names() -> None:
    tanks = {"main": TANKS["fuel"], "reserve": TANKS["fuel"] | {"filler": "right front"}}

    found = answers(every_stop(assessed(rig({"coach": coach(tanks=tanks)}))))

    assert found["Main filler"] == "LEFT FRONT"
    assert found["Reserve filler"] == "RIGHT FRONT"


def test_the_warning_stands_before_the_fillers() -> None:
    blocks = every_stop(assessed()).sides[1].blocks
    warning = next(place for place, block in enumerate(blocks) if isinstance(block, Box))
    fillers = [place for place, block in enumerate(blocks) if "filler" in getattr(block, "challenge", "")]

    assert warning < min(fillers)


def test_a_vehicle_without_a_fuel_tank_has_one_side() -> None:
    assert len(every_stop(assessed(rig({"coach": coach(tanks={})}))).sides) == 1


def test_a_fifth_wheel_is_looked_at_and_not_pushed() -> None:
    fifth, ball = (
        answers(every_stop(assessed(rig({"a": coach(), "b": trailer()}, how))))
        for how in ("fifth wheel", "ball")
    )

    assert fifth["Pin plate on the head"] == "NO GAP"
    assert "Shove the bar" not in fifth
    assert ball["Shove the bar"] == "NO CLUNK"


def test_a_tail_swing_that_is_not_known_is_a_blank() -> None:
    assert answers(every_stop(assessed()))["Tail swings out ______ in"] == "ROOM"


def test_fillers_on_one_side_are_told_with_the_feet_between_and_the_miles_in_the_can() -> None:
    found = {line.challenge: line for line in lines(every_stop(demo("larkspur")))}

    # From 42 in to 306 in along the left side; 2.5 gal at 2.5 % of an eighth of a gallon a mile.
    assert found["DEF filler"].detail == "22 ft from the fuel filler: pull ahead, or use the jug"
    assert (found["Spare DEF jug"].answer, found["Spare DEF jug"].detail) == ("FULL", "2.5 gal lasts 800 mi")


def test_fillers_on_two_sides_want_the_can_at_the_pump(assessed_demo: Assessed) -> None:
    other = assessed_demo("larkspur", ("filler: left rear}", "filler: right rear}"))
    found = {line.challenge: line for line in lines(every_stop(other))}

    assert found["DEF filler"].detail == ""
    assert found["Spare DEF jug, at the pump"].detail == "2.5 gal lasts 800 mi"


def test_a_gasoline_rig_has_no_can() -> None:
    assert not [text for text in answers(every_stop(demo("kestrel"))) if "can" in text.split()]
