"""Fluids against the coldest night, what is too little then, and what the equipment implies."""

from typing import Any

import pytest

from binder.assessment.fluids.fluids import blanks_of, unlisted_fluids
from binder.models.load import load_profile
from binder.models.vehicles import Fluid, Vehicle
from tests.assessment.conftest import Assessed
from tests.by_key import ByKey
from tests.demos import PROFILES

COOLANT = "        specification: ethylene glycol, 50 % by volume\n        capacity: 14 gal\n"
OIL = "        specification: SAE 15W-40\n        capacity: 28 qt\n"


def told(found: ByKey) -> list[tuple[str, str]]:
    return [(one.grade, one.text) for one in found.findings if one.key.startswith("fluids.")]


def test_the_margin_is_the_coldest_night_over_the_limit(larkspur: ByKey) -> None:
    """The low of the trip is 24 °F; SAE J300 states 15W at -20 °C, which is -4 °F."""
    margin = larkspur.quantity("fluids.coach.engine_oil.margin")

    assert margin is not None
    assert float(margin.m) == pytest.approx(28)


def test_what_holds_says_nothing_of_what_would(larkspur: ByKey) -> None:
    assert larkspur.known("fluids.coach.coolant.needed") is None


def test_a_weak_mixture_is_told_with_the_nights_and_what_would_hold_stands_beside(assessed: Assessed) -> None:
    weak = COOLANT.replace("50 %", "10 %")
    found = assessed("larkspur", (COOLANT, weak))

    needed = found.figure("fluids.coach.coolant.needed")
    cold = [one.text for one in found.findings if "coolant" in one.text]
    assert str(needed.value).endswith(" % by volume")
    assert 10 < float(str(needed.value).split()[0]) <= 25
    assert [text[:45] for text in cold] == ["Day 2: coolant of the coach freezes at Stanle"]
    assert told(found) == []


def test_a_thick_oil_names_the_grade_that_cranks(assessed: Assessed) -> None:
    found = assessed("larkspur", trip=(("low: 24 degF", "low: -10 degF"),))

    assert found.figure("fluids.coach.engine_oil.needed").value == "10W or thinner"


def test_past_its_strongest_a_mixture_is_told(assessed: Assessed) -> None:
    strong = COOLANT.replace("50 % by volume", "80 %")
    found = assessed("larkspur", (COOLANT, strong))

    assert told(found) == [
        ("attention", "The coach: its coolant is mixed past its strongest: more of it protects less.")
    ]


def test_a_specification_that_does_not_tell_is_missing(assessed: Assessed) -> None:
    found = assessed("larkspur", (OIL, OIL.replace("SAE 15W-40", "as the dealer fills")))

    assert told(found) == [("missing", "The coach: down to where its engine oil protects is not known.")]
    assert found.figure("fluids.coach.engine_oil.protects_to").value is None


def test_blanks_of_a_vehicle_are_one_line(assessed: Assessed) -> None:
    found = assessed(
        "larkspur",
        (OIL, "        specification:\n        capacity:\n"),
        ("        check: hub windows, cold, both sides\n", ""),
    )

    assert told(found) == [
        (
            "missing",
            (
                "The coach, fluids not noted: specification of engine oil, capacity of engine oil, "
                "where and how it is read of hub oil."
            ),
        )
    ]


def vehicle(kind: str, **more: Any) -> Vehicle:
    return Vehicle.model_validate({"kind": kind, "axles": {}} | more)


@pytest.mark.parametrize(
    ("more", "implied"),
    [
        ({"brakes": {"service": "hydraulic"}}, "brake fluid"),
        ({"brakes": {"service": "air"}}, "hub oil"),
        ({"generator": {}}, "generator oil"),
        ({"hydronic_heater": {}}, "hydronic fluid"),
        ({"tanks": {"blue": {"holds": "exhaust fluid"}}}, "exhaust fluid"),
        ({"batteries": {"house": {"chemistry": "lead-acid"}}}, "battery water"),
    ],
)
def test_equipment_implies_its_fluids(more: dict[str, Any], implied: str) -> None:
    assert implied in unlisted_fluids(vehicle("motorhome", **more))
    assert implied not in unlisted_fluids(vehicle("motorhome"))
    assert implied not in unlisted_fluids(vehicle("motorhome", fluids={implied: {}}, **more))


def test_an_engine_implies_oil_and_coolant_and_a_trailer_neither() -> None:
    assert unlisted_fluids(vehicle("pickup"))[:2] == ("engine oil", "coolant")
    assert unlisted_fluids(vehicle("trailer")) == ("wheel bearing grease",)


def test_an_owner_may_name_a_fluid_in_other_words() -> None:
    named: dict[str, Any] = {
        "hydraulic oil": {},
        "differential": {},
        "gearbox": {},
        "engine oil": {},
        "antifreeze": {},
    }

    assert unlisted_fluids(vehicle("motorhome", fluids=named)) == ("washer fluid",)


def test_what_it_has_not_is_entered_as_none_and_asked_for_no_more() -> None:
    assert blanks_of("battery water", Fluid(specification="none")) == ()
    assert blanks_of("axle oil", Fluid(specification="nonesuch")) == ("capacity", "where and how it is read")


@pytest.mark.parametrize("rig", ["larkspur", "kestrel", "tamarack", "sandpiper"])
def test_the_demos_list_every_fluid_they_imply(rig: str) -> None:
    for entry in load_profile(PROFILES / rig).rig.vehicles.values():
        assert unlisted_fluids(entry) == ()
        assert {blanks_of(words, fluid) for words, fluid in entry.fluids.items()} <= {()}
