"""Card 10: true to the brakes a rig has, and to the grades of its trip."""

from typing import Any

import pytest

from binder.assessment.assess import Assessment
from binder.assessment.road.grades import placed_grades
from binder.cards.blocks import Box, Card, Heading, Step
from binder.cards.ring.brakes_and_grades import brakes_and_grades
from tests.assessment.edited_demos import Assessed, assessed, larkspur
from tests.cards.procedure_rigs import answers, coach, lines, rig, trailer
from tests.cards.procedure_rigs import assessed as bare

__all__ = ["assessed", "larkspur"]


def of(brakes: dict[str, Any], units: str = "us", behind: dict[str, Any] | None = None) -> Card:
    vehicles = {"coach": coach(brakes=brakes)} | ({"trailer": behind} if behind else {})
    return brakes_and_grades(bare(rig(vehicles, "ball", units)))


def headings(card: Card) -> list[str]:
    return [block.text for side in card.sides for block in side.blocks if isinstance(block, Heading)]


def test_air_brakes_have_the_leak_down_of_the_drivers_manual() -> None:
    """Commercial driver's manual, air brakes, read in reprint."""
    found = answers(of({"service": "air"}))

    assert found["Build up: governor"] == "STOPS, 120 to 140 psi"
    assert found["Fan the brake: governor starts"] == "AT 100 psi OR MORE"
    assert found["Engine on, 85 to 100 psi"] == "WITHIN 45 s"
    assert found["Engine off, 1 min"] == "LOSS UNDER 2 psi"
    assert found["Foot on, 1 min"] == "LOSS UNDER 3 psi"
    assert found["Key on, fan the brake: buzzer"] == "BY 60 psi"
    assert found["Keep fanning: knob"] == "POPS, 20 to 45 psi"


def test_hydraulic_brakes_have_their_own_lines_and_no_air() -> None:
    card = of({"service": "hydraulic"}, "metric")
    found = answers(card)

    assert found["Pedal held, 1 min"] == "FIRM"
    assert found["Brake fluid"] == "AT MARK"
    assert not [challenge for challenge in found if "Air," in challenge or "fan" in challenge]


@pytest.mark.parametrize(("service", "title"), [("air", "Air falling?"), ("hydraulic", "Pedal sinking?")])
def test_what_fails_stops_the_rig_at_once(service: str, title: str) -> None:
    box = next(block for block in of({"service": service}).sides[0].blocks if isinstance(block, Box))

    assert (box.word, box.title) == ("WARNING", f"{title} Stop at once.")
    assert box.lines == ("No brakes: take the escape ramp.",)


def test_the_retarder_is_off_when_the_road_is_slippery() -> None:
    found = answers(of({"service": "air", "retarder": "150 kW"}))

    assert (found["Retarder"], found["Retarder, slippery"]) == ("ON", "OFF")


@pytest.mark.parametrize("brakes", [{"service": "air"}, {"service": "air", "retarder": "0 kW"}])
def test_no_retarder_no_line_of_it(brakes: dict[str, str]) -> None:
    assert not [line for line in lines(of(brakes)) if "etarder" in line.challenge]


def test_snubs_are_those_of_the_drivers_manual() -> None:
    steps = [block.text for block in of({"service": "air"}).sides[0].blocks if isinstance(block, Step)]

    assert steps[:2] == ["At your safe speed, brake firmly.", "5 mph slower, about 3 s: release. Repeat."]


def test_the_weekly_test_can_be_done_in_its_order() -> None:
    """Chocks, then the brake released; full before the leak-down, pumped down after it, build-up last."""
    found = [line.challenge for line in lines(of({"service": "air"}))]
    week = found[found.index("Chocks") :]

    assert week == [
        "Chocks",
        "Parking brake",
        "Build up: governor",
        "Fan the brake: governor starts",
        "Engine off, 1 min",
        "Foot on, 1 min",
        "Key on, fan the brake: buzzer",
        "Keep fanning: knob",
        "Engine on, 85 to 100 psi",
    ]


def test_hot_brakes_are_held_by_a_cool_axle_or_by_the_parking_brake_all_the_same() -> None:
    steps = [block for block in of({"service": "air"}).sides[0].blocks if isinstance(block, Step)]

    assert [(step.number, step.text) for step in steps[2:] if step.number] == [
        ("1", "Stop level. Foot on the brake."),
        ("2", "Helper: chocks a COOL axle."),
        ("3", "Alone, or sloping: PARKING BRAKE ON anyway."),
        ("4", "Then away, 1 h. No water. DO NOT MOVE."),
    ]


def test_electric_trailer_brakes_have_gain_lever_and_breakaway() -> None:
    main = coach(brakes={"service": "hydraulic"})
    main["equipment"]["brake controller"] = "true"
    card = brakes_and_grades(bare(rig({"coach": main, "trailer": trailer()}, "ball")))
    found = answers(card)

    assert found["Hand lever, rolling slowly"] == "TRAILER PULLS"
    assert found["Gain, by its manual"] == "NO WHEEL LOCKS"
    assert list(found)[-2:] == ["Cord out, breakaway pulled", "Breakaway battery, pin back"]
    assert "Trailer brakes, every week" not in headings(of({"service": "hydraulic"}))


def test_each_grade_asks_percent_of_the_retarder_never_kilowatts(
    larkspur: Assessment,
) -> None:
    card = brakes_and_grades(larkspur)
    found = {line.challenge: line for line in lines(card)}

    cabbage = found["Day 5: Cabbage Hill, west side"]
    assert (cabbage.answer, cabbage.detail) == (
        "6 %, 6 mi",
        "test brakes: rest area at Deadman Pass; retarder at ______ rpm",
    )
    held = found["Down at 45 mph: retarder"]
    assert held.answer == "NEEDS 93 %"
    assert "route.day_5.leg_2.grade_1.retarder_share" in card.figures
    assert not [line for line in lines(card) if "kW" in f"{line.challenge} {line.answer} {line.detail}"]


def test_a_retarder_that_does_not_suffice_leaves_the_rest_to_the_brakes(assessed: Assessed) -> None:
    weak = brakes_and_grades(assessed("larkspur", ("retarder: 150 kW", "retarder: 120 kW")))
    held = {line.challenge: line for line in lines(weak)}["Down at 45 mph: retarder"]

    assert held.answer == "NEEDS 116 %"
    assert held.detail.startswith("more than it has: the brakes take the rest")


def test_without_a_retarder_a_low_gear_holds(assessed: Assessed) -> None:
    none = brakes_and_grades(assessed("larkspur", ("retarder: 150 kW", "retarder: 0 kW")))

    assert answers(none)["Down at 45 mph: no retarder"] == "LOW GEAR"


def test_a_retarder_that_is_not_known_leaves_a_blank(assessed: Assessed) -> None:
    unknown = brakes_and_grades(assessed("larkspur", ("retarder: 150 kW, ", "")))

    assert answers(unknown)["Down at 45 mph: retarder"] == "NEEDS ______ %"


def test_without_a_trip_nothing_is_said_of_grades() -> None:
    assert "Long grades of this trip" not in headings(of({"service": "air"}))


def test_every_long_grade_of_the_trip_is_on_the_card_in_the_order_it_is_met(larkspur: Assessment) -> None:
    every = placed_grades(larkspur.profile)
    shown = [line.challenge for line in lines(brakes_and_grades(larkspur))]

    assert len(every) > 1
    wanted = [f"Day {placed.day}: {placed.grade.what}" for placed in every]
    assert [name for name in shown if name in wanted] == wanted


def test_a_climb_is_told_by_its_height_alone(assessed: Assessed) -> None:
    name = "          - what: Cabbage Hill, west side\n"
    up = brakes_and_grades(assessed("larkspur", trip=((name, f"{name}            goes: up\n"),)))
    found = {line.challenge: line.detail for line in lines(up)}

    assert found["Day 5: Cabbage Hill, west side"] == "1,898 ft up"
    assert "Down at 45 mph: retarder" not in found


def test_the_card_is_wrong_when_the_rig_is_heavier(larkspur: Assessment) -> None:
    assert brakes_and_grades(larkspur).wrong_as_soon_as.startswith("heavier than 33,112 lb, air brakes")
