import pytest

from binder.cards.blocks import Card
from binder.cards.pages.procedure_pages import season_start
from binder.cards.ring.fixed_cards import leaving
from tests.cards.procedure_rigs import TANKS, answers, assessed, car, coach, lines, rig, text_of, trailer


def made(**changed: object) -> Card:
    return leaving(assessed(rig({"coach": coach(**changed)})))  # type: ignore[arg-type]


def test_the_whole_card_of_a_coach_with_air_brakes_and_a_car() -> None:
    card = leaving(assessed())

    assert list(answers(card).items()) == [
        ("Slides", "IN, LOCKED"),
        ("Burners", "OFF"),
        ("Propane valve", "SHUT"),
        ("Loose things, cabinets", "SECURED"),
        ("Refrigerator", "DRIVING MODE"),
        ("Windows, vents", "SHUT"),
        ("Antenna, dish", "DOWN"),
        ("Generator, inverter", "CALL ON OR OFF"),
        ("Alarms: smoke, CO, gas", "TESTED OR LIGHT ON"),
        ("Cords, hoses, TV cable", "STOWED"),
        ("Chocks, counted", "4 STOWED"),
        ("Jacks, look under", "ALL UP"),
        ("Steps", "IN"),
        ("Roof, look up", "ALL DOWN"),
        ("Awning, trays, bay doors: pull", "LOCKED"),
        ("Under the rig", "NO LEAKS"),
        ("Coupling, card 4", "COMPLETE"),
        ("Tires, duals with a light", "NO BULGE, NO STONE"),
        ("Rims, nuts", "NO RUST LINE"),
        ("Hubs", "NO OIL"),
        ("Fuel cap, DEF cap", "ON"),
        ("Wiper arms", "TIGHT"),
        ("Glass, mirrors", "CLEAN"),
        ("Air, both needles", "OVER 100 psi"),
        ("Low-air buzzer", "SILENT"),
        ("Air springs", "RIDE HEIGHT"),
        ("People; pets tied in", "BELTED"),
        ("Camera, radio", "ON"),
        ("Tire monitor", "ALL REPORT"),
        ("Tug test, parking brake", "HOLDS"),
        ("Behind the rig", "NOBODY"),
        ("Towed wheels, in a mirror", "TURNING"),
        ("Braking: car's lamp in the cab", "LIT"),
        ("Brakes at 5 mph", "STOP STRAIGHT"),
    ]


def test_what_may_not_be_gone_without() -> None:
    killers = [line.challenge for line in lines(leaving(assessed())) if line.killer]

    assert killers == [
        "Slides",
        "Burners",
        "Propane valve",
        "Cords, hoses, TV cable",
        "Chocks, counted",
        "Jacks, look under",
        "Steps",
        "Roof, look up",
        "Coupling, card 4",
        "Air, both needles",
        "Low-air buzzer",
        "Towed wheels, in a mirror",
        "Braking: car's lamp in the cab",
    ]


@pytest.mark.parametrize(("valve", "state"), [("shut", "SHUT"), ("open", "OPEN")])
def test_the_propane_valve_stands_as_the_profile_says(valve: str, state: str) -> None:
    propane = TANKS["propane"] | {"valve_while_driving": valve}

    assert answers(made(tanks={"propane": propane}))["Propane valve"] == state


def test_one_valve_to_be_shut_shuts_the_line() -> None:
    both = {"front": TANKS["propane"] | {"valve_while_driving": "open"}, "rear": TANKS["propane"]}

    assert answers(made(tanks=both))["Propane valve"] == "SHUT"


def test_chocks_that_were_never_counted_leave_a_blank() -> None:
    main = coach() | {"equipment": {"awning": []}}

    assert answers(leaving(assessed(rig({"coach": main}))))["Chocks, counted"] == "___ STOWED"


def test_hydraulic_brakes_have_lines_of_their_own() -> None:
    found = answers(made(brakes={"service": "hydraulic"}))

    assert (found["Brake pedal, held"], found["Brake warning lamp"]) == ("FIRM", "OUT")
    assert not [challenge for challenge in found if "Air" in challenge and "springs" not in challenge]


def test_a_trailer_is_held_by_its_own_brakes() -> None:
    main = coach()
    main["equipment"]["brake controller"] = "true"

    found = answers(leaving(assessed(rig({"coach": main, "trailer": trailer()}, "ball"))))

    assert (found["Towed wheels, in a mirror"], found["Controller by hand"]) == ("TURNING", "TRAILER PULLS")


def test_a_metric_rig_reads_metric() -> None:
    found = answers(leaving(assessed(rig(units="metric"))))

    assert found["Air, both needles"] == "OVER 690 kPa"
    assert found["Brakes at 8 km/h"] == "STOP STRAIGHT"


def test_it_becomes_wrong_by_what_this_rig_has() -> None:
    card = leaving(assessed(rig({"coach": coach(("awning",)), "runabout": car()})))

    assert card.wrong_as_soon_as == "awning, propane rule, air brakes or the runabout behind changed."


def test_what_is_done_once_a_season_stands_on_a_page_that_the_card_names() -> None:
    card = leaving(assessed())

    assert "Battery terminals" not in text_of(card)
    assert "page Season start" in text_of(card)
    assert "Battery terminals, grounds: chassis" in text_of(season_start(assessed()))


def test_no_brake_is_pumped_down_once_the_chocks_are_stowed() -> None:
    said = " ".join(line.challenge for line in lines(leaving(assessed()))).lower()

    assert "chocks" in said
    assert not [word for word in ("pump", "fan the brake", "air build") if word in said]
