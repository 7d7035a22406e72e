"""What labels leave for cargo, against the arithmetic of 49 CFR 571.120 S10.4.2 worked by hand."""

from datetime import date
from typing import Any

import pytest

from binder.assessment.assess import assess
from binder.models.load import Profile
from binder.models.located_yaml import Located
from binder.models.rig import Rig
from binder.quantities import Quantity
from tests.by_key import ByKey


def assessed(vehicle: dict[str, Any], **entries: Any) -> ByKey:
    """A rig of one vehicle, made up for one test."""
    written = {"name": "Made up", "units": "us", "paper": "letter", "vehicles": {"coach": vehicle}, **entries}
    profile = Profile("x", Rig.model_validate(written), Located("rig.yaml", ""))
    return ByKey(assess(profile, date(2026, 5, 25)))


def motorhome(capacity: str, water: str | None) -> dict[str, Any]:
    """A motorhome with its label and one fresh tank."""
    return {
        "kind": "motorhome",
        "axles": {"steer": {"at": "0 in", "fitment": "single"}},
        "label": {"occupant_and_cargo_carrying_capacity": capacity},
        "tanks": {"fresh": {"holds": "fresh water", "capacity": water}},
    }


def pounds(quantity: Quantity | None) -> float:
    assert quantity is not None
    return float(quantity.to("pound").magnitude)


def test_people_and_a_full_tank_come_out_of_the_capacity() -> None:
    found = assessed(motorhome("2000 lb", "50 gal"), people="4")

    # 4 x 150 lb + 50 gal x 8.3 lb/gal = 1,015 lb.
    assert pounds(found.quantity("weights.coach.label_capacity.used")) == pytest.approx(1015)
    assert pounds(found.quantity("weights.coach.label_capacity.left")) == pytest.approx(985)


def test_a_trailer_counts_its_water_and_nobody() -> None:
    trailer = motorhome("0 lb", "40 gal") | {
        "kind": "trailer",
        "label": {"cargo_carrying_capacity": "1500 lb"},
    }
    found = assessed(trailer, people="4")

    assert pounds(found.quantity("weights.coach.label_capacity.left")) == pytest.approx(1500 - 40 * 8.3)


@pytest.mark.parametrize(("water", "people"), [(None, "2"), ("40 gal", None)])
def test_what_is_not_known_leaves_no_number(water: str | None, people: str | None) -> None:
    found = assessed(motorhome("2000 lb", water), people=people)

    assert found.figure("weights.coach.label_capacity.left").value is None


def test_more_than_the_capacity_is_a_finding() -> None:
    found = assessed(motorhome("900 lb", "50 gal"), people="4")

    texts = [finding.text for finding in found.findings if finding.key == "weights.coach.label_capacity.left"]
    assert texts == ["Coach: 115 lb over the capacity on its label, the fresh tank full."]


def test_a_label_that_states_no_capacity_has_no_figure() -> None:
    found = assessed(motorhome("2000 lb", "50 gal") | {"label": {}})

    assert found.known("weights.coach.label_capacity.left") is None


def seated(capacity: str, seats: str, people: str) -> list[tuple[str, str]]:
    label = {"occupant_and_cargo_carrying_capacity": capacity, "seats": seats}
    found = assessed(motorhome(capacity, "1 gal") | {"label": label}, people=people)
    return [(one.grade, one.text) for one in found.findings if "seats" in one.text]


def test_a_label_under_the_weight_of_a_person_for_each_belted_seat_is_told() -> None:
    """49 CFR 571.120 S10.4: 150 lb for each of six seats is 900 lb."""
    assert seated("900 lb", "6", "2") == []
    ((grade, text),) = seated("899 lb", "6", "2")
    assert grade == "attention"
    assert "899 lb, is less than 150 lb for each of its 6 seats with a belt (900 lb)." in text


def test_more_people_than_belted_seats_must_not_drive() -> None:
    assert seated("2000 lb", "4", "5") == [("do not drive", "Coach: 5 people, 4 seats with a belt.")]
