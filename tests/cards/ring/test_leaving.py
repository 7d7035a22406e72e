import pytest

from binder.cards.blocks import Card
from binder.cards.ring.fixed_cards import leaving
from tests.cards.procedure_rigs import TANKS, answers, assessed, car, coach, lines, rig, trailer


def made(**changed: object) -> Card:
    return leaving(assessed(rig({"coach": coach(**changed)})))  # type: ignore[arg-type]


def test_the_whole_card_of_a_coach_with_air_brakes_and_a_car() -> None:
    card = leaving(assessed())

    assert list(answers(card).items()) == [
        ("Floor, slides", "CLEAR, IN, LOCKED"),
        ("Propane valve, burners", "SHUT, OFF"),
        ("Loose things, doors", "STOWED, PINNED"),
        ("Refrigerator", "DRIVING MODE"),
        ("Windows, vents, antenna, dish", "SHUT, DOWN"),
        ("Generator, inverter", "SAY ON OR OFF"),
        ("Alarm lamps", "LIT"),
        ("People, pets", "SEATED, BELTED"),
        ("Cords, hoses, cable", "IN"),
        ("Chocks, counted", "4 IN"),
        ("Jacks, by eye", "UP"),
        ("Steps", "IN"),
        ("Roof line, by eye", "NOTHING UP"),
        ("Awning, trays, bay doors, pulled", "LOCKED"),
        ("Ground under the rig", "DRY"),
        ("Caps, fuel, exhaust fluid", "ON"),
        ("Wipers, glass, mirrors", "TIGHT, CLEAN"),
        ("Coupling, card 4", "COMPLETE"),
        ("Tires, between duals", "NO BULGE, STONE, CUT"),
        ("Rims, nuts, hubs", "NO CRACK, RUST, OIL"),
        ("Air, warning", "OVER 100 psi, SILENT"),
        ("Pumped down: warning", "BEFORE 60 psi"),
        ("Pumped down: knobs", "POP, 20 to 45 psi"),
        ("Air build 85 to 100 psi", "WITHIN 45 s"),
        ("Air bags", "RIDE HEIGHT"),
        ("Camera, radio, tire monitor", "ON, ALL REPORT"),
        ("Parking brake, gentle pull", "HOLDS"),
        ("Behind: nobody, nothing", "CLEAR"),
        ("Towed wheels, lamp", "TURNING, LIT"),
        ("Brake at 5 mph", "STRAIGHT"),
        ("Battery terminals, grounds", "CLEAN, TIGHT"),
        ("Belts, hoses, cold fluids", "NO CRACK, AT MARK"),
    ]


def test_what_may_not_be_gone_without() -> None:
    killers = [line.challenge for line in lines(leaving(assessed())) if line.killer]

    assert killers == [
        "Floor, slides",
        "Propane valve, burners",
        "Cords, hoses, cable",
        "Chocks, counted",
        "Jacks, by eye",
        "Steps",
        "Roof line, by eye",
        "Coupling, card 4",
        "Air, warning",
        "Towed wheels, lamp",
    ]


@pytest.mark.parametrize(("valve", "state"), [("shut", "SHUT, OFF"), ("open", "OPEN, OFF")])
def test_the_propane_valve_stands_as_the_profile_says(valve: str, state: str) -> None:
    propane = TANKS["propane"] | {"valve_while_driving": valve}

    assert answers(made(tanks={"propane": propane}))["Propane valve, burners"] == state


def test_one_valve_to_be_shut_shuts_the_line() -> None:
    both = {"front": TANKS["propane"] | {"valve_while_driving": "open"}, "rear": TANKS["propane"]}

    assert answers(made(tanks=both))["Propane valve, burners"] == "SHUT, OFF"


def test_chocks_that_were_never_counted_leave_a_blank() -> None:
    main = coach() | {"equipment": {"awning": []}}

    assert answers(leaving(assessed(rig({"coach": main}))))["Chocks, counted"] == "___ IN"


def test_hydraulic_brakes_have_lines_of_their_own() -> None:
    found = answers(made(brakes={"service": "hydraulic"}))

    assert found["Brake pedal, lamp"] == "FIRM, OUT"
    assert not [challenge for challenge in found if "Air" in challenge and "bags" not in challenge]


def test_a_trailer_is_held_by_its_own_brakes() -> None:
    main = coach()
    main["equipment"]["brake controller"] = "true"

    found = answers(leaving(assessed(rig({"coach": main, "trailer": trailer()}, "ball"))))

    assert found["Towed wheels, brake"] == "TURNING, HOLDS"


def test_a_metric_rig_reads_metric() -> None:
    found = answers(leaving(assessed(rig(units="metric"))))

    assert found["Air, warning"] == "OVER 690 kPa, SILENT"
    assert found["Brake at 8 km/h"] == "STRAIGHT"


def test_it_becomes_wrong_by_what_this_rig_has() -> None:
    card = leaving(assessed(rig({"coach": coach(("awning",)), "runabout": car()})))

    assert card.wrong_as_soon_as == "awning, propane rule, air brakes or the runabout behind changed."
