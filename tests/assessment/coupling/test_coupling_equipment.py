from datetime import date
from typing import Any

import pytest

from binder.assessment.coupling.equipment import assess_coupling_equipment
from binder.assessment.ledger import Figure, Ledger
from binder.assessment.weights.kinds import TOTAL
from binder.models.load import Profile
from binder.models.located_yaml import Located
from binder.models.rig import Rig
from binder.quantities import registry
from tests.by_key import ByKey, entered_by

TOWING = {
    "as_its_maker_says": ["Ignition ON"],
    "supplemental_brake": "true",
    "breakaway": "true",
    "brake_lamp_in_cab": "true",
}
CAR = {"kind": "car", "axles": {}, "label": {"gross_vehicle_weight_rating": "4850 lb"}, "towing": TOWING}
BAR = {
    "ahead": "coach",
    "behind": "car",
    "how": "tow bar",
    "height": "22 in",
    "height_behind": "21 in",
    "parts": {"safety cables": "10000 lb"},
}


def assessed(behind: dict[str, Any], coupling: dict[str, Any], *entered: Figure) -> ByKey:
    vehicles = {"coach": {"kind": "motorhome", "axles": {}}, "car": behind}
    rig = {"name": "x", "units": "us", "paper": "letter", "vehicles": vehicles, "couplings": [coupling]}
    profile = Profile("x", Rig.model_validate(rig), Located("rig.yaml", ""))

    def of_equipment(read: Profile, _: date, ledger: Ledger) -> None:
        assess_coupling_equipment(read, ledger)

    return entered_by(profile, date(2026, 6, 1), of_equipment, before=entered)


def found(ledger: ByKey) -> list[tuple[str, str]]:
    return [(item.grade, item.key.rsplit(".", 1)[-1]) for item in ledger.findings]


def test_a_car_with_everything_has_no_findings() -> None:
    ledger = assessed(CAR, BAR)

    assert found(ledger) == []
    assert ledger.figure("coupling.coach_car.level_difference").slack == "2 in left"


@pytest.mark.parametrize(
    ("field", "part"),
    [("supplemental_brake", "brake"), ("breakaway", "breakaway"), ("as_its_maker_says", "procedure")],
)
def test_what_is_stated_absent_stops_the_rig_and_what_is_blank_is_not_cleared(field: str, part: str) -> None:
    none: Any = [] if field == "as_its_maker_says" else "false"
    blank = {key: value for key, value in TOWING.items() if key != field}

    assert found(assessed(CAR | {"towing": TOWING | {field: none}}, BAR)) == [("do not drive", part)]
    assert found(assessed(CAR | {"towing": blank}, BAR)) == [("not cleared", part)]


@pytest.mark.parametrize(("rating", "stops"), [("4850 lb", False), ("4849 lb", True)])
def test_each_cable_must_hold_the_loaded_vehicle(rating: str, *, stops: bool) -> None:
    ledger = assessed(CAR, BAR | {"parts": {"safety cables": rating}})

    assert found(ledger) == ([("do not drive", "safety_cables")] if stops else [])


def test_the_assessed_weight_counts_before_the_gross_rating() -> None:
    weight = Figure(TOTAL.load.of("car", "departure"), registry.Quantity(4060, "pound"))

    assert found(assessed(CAR, BAR | {"parts": {"safety cables": "4500 lb"}}, weight)) == []


def test_cables_that_are_not_listed_are_not_cleared() -> None:
    assert found(assessed(CAR, BAR | {"parts": {}})) == [("not cleared", "safety_cables")]


@pytest.mark.parametrize(("height", "told"), [("24 in", []), ("25 in", [("attention", "level_difference")])])
def test_a_bar_may_be_three_inches_out_of_level(height: str, told: list[tuple[str, str]]) -> None:
    assert found(assessed(CAR, BAR | {"height": height})) == told


def test_a_trailer_is_judged_by_its_own_brakes_and_needs_a_controller() -> None:
    trailer = {
        "kind": "trailer",
        "axles": {},
        "label": CAR["label"],
        "brakes": {"service": "electric"},
        "towing": {"breakaway": "true"},
    }
    ball = BAR | {"how": "ball", "parts": {"chains": "7600 lb"}}

    assert found(assessed(trailer, ball)) == [("not cleared", "brake_controller")]
    assert found(assessed(trailer | {"brakes": {"service": "none"}}, ball)) == [("do not drive", "brake")]
