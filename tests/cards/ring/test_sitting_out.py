"""Card 11: for the place where it is shortest, in half days, with blanks for what is not known."""

import pytest

from binder.assessment.assess import Assessment
from binder.cards.blocks import Big, Blank, Box, Card, Heading, Line, Step, Table
from binder.cards.ring.sitting_out import sitting_out
from binder.wording.numbers import BLANK
from tests.assessment.edited_demos import Assessed, assessed, larkspur
from tests.by_key import ByKey
from tests.cards.binder_rigs import demo
from tests.cards.procedure_rigs import answers, coach, lines, rig
from tests.cards.procedure_rigs import assessed as bare

__all__ = ["assessed", "larkspur"]


def of(assessment: Assessment) -> Card:
    card = sitting_out(assessment)
    assert card is not None
    return card


def big(card: Card) -> Big:
    return next(block for block in card.sides[0].blocks if isinstance(block, Big))


def table(card: Card) -> Table:
    return next(block for block in card.sides[0].blocks if isinstance(block, Table))


def today(card: Card) -> dict[str, str]:
    return {row[0]: row[1] for row in table(card).rows}


def test_what_kills_in_a_parked_rig_stands_first(larkspur: Assessment) -> None:
    first = of(larkspur).sides[0].blocks[0]

    assert isinstance(first, Box)
    assert (first.word, first.title) == ("DANGER", "Never heat with a flame or stove.")


def test_the_first_to_end_is_named_with_its_place_and_its_night(larkspur: Assessment) -> None:
    found = big(of(larkspur))

    assert (found.name, found.value) == ("Ends first: house battery", "14 h")
    assert found.detail == "leaving Stanley, the stop of day 2; night 24 °F"
    assert found.points >= 24


def test_days_are_rounded_down_to_half_ones(larkspur: Assessment) -> None:
    # 11.4, 3.04, 22.2 and 0.596 days by the record.
    assert today(of(larkspur)) == {
        "house battery": "14 h",
        "gray tank, room": "3",
        "fresh water": "4",
        "food": "6",
        "black tank, room": "11",
        "medicine": "21",
        "propane": "22",
    }


def test_what_ends_first_stands_first_and_is_marked(larkspur: Assessment) -> None:
    found = table(of(larkspur))

    assert found.headers == ("days left, gauge at", "today", "full", "half", "quarter")
    assert next(iter(today(of(larkspur)))) == "house battery"
    assert found.marked == (0,)


def test_the_generator_is_told(larkspur: Assessment) -> None:
    found = {line.challenge: line for line in lines(of(larkspur))}

    # (60 - 29) gal of room at 11.2 gal a day, (59 - 25) gal of diesel at 0.9 an hour: the least of the trip.
    assert found["With the generator running"].answer == "2.5 days"
    assert found["With the generator running"].detail == (
        "reaching Twin Falls, day 3; then ends first: gray tank full; the generator's fuel: 37 h at full load"
    )
    assert found["Use half as much of that"].answer == "1 day"
    assert found["With 20 gal fresh only"].answer == "1 day"


def test_another_level_stands_beside_today(larkspur: Assessment) -> None:
    found = {row[0]: row[2:] for row in table(of(larkspur)).rows}

    assert found["fresh water"] == ("6", "3", "1.5")
    assert found["gray tank, room"] == ("5", "2.5", "1")
    assert found["food"] == ("", "", "")


def test_a_metric_rig_without_a_generator_has_no_line_of_it() -> None:
    found = answers(of(demo("tamarack")))

    assert "With the generator running" not in found
    assert "As full as on leaving home" in found


def test_what_is_not_known_is_a_blank_and_stands_first_for_it_may_end_first(assessed: Assessed) -> None:
    unknown = assessed("larkspur", trip=(("battery: 60 Ah/day", "battery:"), ("food: 6 days, ", "")))
    found = list(today(of(unknown)).items())

    assert found[:3] == [("house battery", BLANK), ("food", BLANK), ("gray tank, room", "2.5")]
    assert table(of(unknown)).marked == (2,)
    assert {"supplies.coach.house_battery.use", "sitting_out.food.days"} <= {
        item.key for item in ByKey(unknown).findings if item.grade == "missing"
    }


def test_the_first_of_those_known_is_no_answer_while_another_is_not_known(assessed: Assessed) -> None:
    found = big(of(assessed("larkspur", trip=(("food: 6 days, ", ""),))))

    assert found.name == "Ends first of those known: house battery"
    assert found.detail.endswith("; not known: food")


def test_what_is_not_used_does_not_end(assessed: Assessed) -> None:
    found = list(today(of(assessed("larkspur", trip=(("battery: 60 Ah/day", "battery: 0 Ah/day"),)))).items())

    assert found[-1] == ("house battery", "NOT USED")


def test_a_dose_is_never_stretched(assessed: Assessed) -> None:
    card = of(assessed("larkspur", trip=(("medicine: 21 days", "medicine: 0.5 days"),)))

    assert big(card).name == "Ends first: medicine"
    assert big(card).value == "12 h"
    steps = [block.text for block in card.sides[1].blocks if isinstance(block, Step)]
    assert steps[0] == "Never stretch a dose."
    assert "Use half as much of that" not in answers(card)


def test_without_a_plan_the_days_are_blanks() -> None:
    card = of(bare())
    blanks = [block.name for block in card.sides[0].blocks if isinstance(block, Blank)]

    assert blanks == ["Propane", "House battery", "Food", "Medicine"]
    assert "Days left" in [block.text for block in card.sides[0].blocks if isinstance(block, Heading)]
    assert not [block for block in card.sides[1].blocks if isinstance(block, Table | Line)]


def test_a_rig_that_nobody_lives_in_has_no_such_card() -> None:
    pickup = coach() | {"kind": "pickup"}

    assert sitting_out(bare(rig({"truck": pickup}))) is None


@pytest.mark.parametrize(("name", "charger"), [("larkspur", "car"), ("tamarack", "truck"), ("kestrel", "")])
def test_the_battery_of_the_other_vehicle_is_a_resource(name: str, charger: str) -> None:
    steps = [block.text for side in of(demo(name)).sides for block in side.blocks if isinstance(block, Step)]

    assert [step for step in steps if step.startswith("Phones")] == (
        [f"Phones: charge in the {charger}."] if charger else []
    )


def test_the_card_is_wrong_when_it_is_colder(larkspur: Assessment) -> None:
    assert of(larkspur).wrong_as_soon_as.startswith("colder than 24 °F")


def test_where_supplies_end_on_a_milder_night_no_number_says_when_the_card_is_wrong() -> None:
    assert of(demo("tamarack")).wrong_as_soon_as.startswith("a night colder than planned")
