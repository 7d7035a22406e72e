from datetime import date
from typing import Any

import pytest

from binder.assessment.body.dimensions import assess_dimensions
from binder.models.load import Profile
from binder.models.located_yaml import Located
from binder.models.rig import Rig
from tests.by_key import ByKey, entered_by

ON = date(2026, 6, 1)
COACH: dict[str, Any] = {
    "kind": "motorhome",
    "size": {
        "overall_length": "38 ft 4 in",
        "overall_width": "101 in",
        "width_with_mirrors": "120 in",
        "overall_height": "12 ft 8 in",
        "height_measured": {"on": "2026-03-30", "state": "ride height", "highest": "air conditioner"},
        "front_overhang": "88 in",
        "rear_overhang": "120 in",
        "wheel_cut": "50 deg",
    },
    "axles": {"steer": {"at": "0 in", "fitment": "single"}, "drive": {"at": "252 in", "fitment": "dual"}},
}
CAR: dict[str, Any] = {
    "kind": "car",
    "size": {"overall_length": "178 in", "overall_width": "73 in", "overall_height": "66 in"},
    "axles": {},
}
BAR = {"ahead": "coach", "behind": "car", "how": "tow bar", "length": "60 in"}


def assessed(vehicles: dict[str, Any], couplings: list[Any] | None = None) -> ByKey:
    rig = {"name": "x", "units": "us", "paper": "letter", "vehicles": vehicles, "couplings": couplings or []}
    profile = Profile("x", Rig.model_validate(rig), Located("rig.yaml", ""))
    return entered_by(profile, ON, assess_dimensions)


def inches(ledger: ByKey, key: str) -> float | None:
    found = ledger.figure(key).quantity
    return None if found is None else float(found.to("inch").m)


def with_size(vehicle: dict[str, Any], **size: Any) -> dict[str, Any]:
    changed = {key: value for key, value in (vehicle["size"] | size).items() if value is not None}
    return vehicle | {"size": changed}


def missing(ledger: ByKey) -> list[str]:
    return [found.text for found in ledger.findings if found.grade == "missing"]


def test_a_coach_and_its_car_are_as_long_as_both_and_the_bar() -> None:
    """38 ft 4 in, 178 in and 60 in are 58 ft 2 in."""
    ledger = assessed({"coach": COACH, "car": CAR}, [BAR])

    assert inches(ledger, "rig.combination_length") == pytest.approx(58 * 12 + 2)
    assert inches(ledger, "rig.overall_height") == pytest.approx(152)
    assert inches(ledger, "rig.width_with_mirrors") == pytest.approx(120)
    assert missing(ledger) == []


def test_a_bar_of_unknown_length_gives_no_length_and_no_gap() -> None:
    ledger = assessed({"coach": COACH, "car": CAR}, [{**BAR, "length": None}])

    assert inches(ledger, "rig.combination_length") is None
    assert ledger.figure("rig.following_gap_from_40").value is None
    assert missing(ledger) == ["The length of the tow bar is not given (rig.yaml couplings[1].length)."]


def test_a_fifth_wheel_counts_from_its_pin() -> None:
    """40 in before the axle, pin 172 in behind it, then 300 + 40 + 100 in of trailer: 652 in."""
    truck = with_size(COACH, front_overhang="40 in")
    trailer = CAR | {
        "kind": "trailer",
        "size": CAR["size"] | {"rear_overhang": "100 in"},
        "axles": {"a": {"at": "0 in", "fitment": "single"}, "b": {"at": "40 in", "fitment": "single"}},
    }
    pin = {"ahead": "truck", "behind": "van", "how": "fifth wheel", "at": "172 in", "at_behind": "-300 in"}

    ledger = assessed({"truck": truck, "van": trailer}, [pin])

    assert inches(ledger, "rig.combination_length") == pytest.approx(40 + 172 + 300 + 40 + 100)


def test_the_height_is_the_higher_of_ride_and_raised_over_all_vehicles() -> None:
    raised = with_size(COACH, height_measured=COACH["size"]["height_measured"] | {"raised": "13 ft 0 in"})
    tall = with_size(CAR, overall_height="13 ft 4 in")

    assert inches(assessed({"coach": raised}), "rig.overall_height") == pytest.approx(156)
    assert inches(assessed({"coach": raised, "van": tall}), "rig.overall_height") == pytest.approx(160)


def test_an_unknown_height_is_missing_and_has_no_value() -> None:
    ledger = assessed({"coach": with_size(COACH, overall_height=None)})

    assert inches(ledger, "rig.overall_height") is None
    assert missing(ledger) == ["The overall height of the coach is not given."]


def test_an_undated_height_is_missing_its_date() -> None:
    ledger = assessed({"coach": with_size(COACH, height_measured={"state": "ride height"})})

    assert missing(ledger) == ["The height of the coach is given without the date and the highest thing."]


def test_tail_swing_counts_a_tag_as_overhang() -> None:
    tagged = COACH | {"axles": COACH["axles"] | {"tag": {"at": "300 in", "fitment": "single"}}}

    plain, longer = (inches(assessed({"coach": item}), "rig.tail_swing") for item in (COACH, tagged))

    assert plain == pytest.approx(26.2, abs=0.05)
    assert longer is not None
    assert longer > 26.2


def test_the_device_ahead_is_counted_from_the_rear_of_the_last_vehicle_too() -> None:
    """58 ft 2 in and 100 ft are 158.2 ft: 64 paces of 2.5 ft."""
    ledger = assessed({"coach": COACH, "car": CAR}, [BAR])

    assert ledger.figure("rig.warning_devices.two_way.ahead.paces_from_rear").value == 64
    assert ledger.figure("rig.warning_devices.divided.far_behind.paces").value == 80


TRUCK = COACH | {"kind": "pickup", "size": COACH["size"] | {"rear_overhang": "20 in"}}
TRAILER: dict[str, Any] = {
    "kind": "trailer",
    "size": {"overall_length": "320 in", "overall_width": "96 in", "rear_overhang": "82 in"},
    "axles": {"first": {"at": "0 in", "fitment": "single"}, "second": {"at": "34 in", "fitment": "single"}},
}
BALL = {"ahead": "coach", "behind": "trailer", "how": "ball", "at": "318 in", "at_behind": "-205 in"}


def test_a_trailer_that_swings_farther_than_its_truck_gives_the_swing_of_the_rig() -> None:
    alone = inches(assessed({"coach": TRUCK}), "rig.tail_swing")
    ledger = assessed({"coach": TRUCK, "trailer": TRAILER}, [BALL])
    both = inches(ledger, "rig.tail_swing")

    assert alone is not None
    assert both is not None
    assert alone < 3
    assert both > 10
    assert "swing of the trailer" in [entry.name for entry in ledger.figure("rig.tail_swing").inputs]


def test_a_trailer_of_unknown_place_leaves_the_largest_swing_blank_and_is_asked_for() -> None:
    ledger = assessed({"coach": TRUCK, "trailer": TRAILER}, [BALL | {"at_behind": None}])

    assert inches(ledger, "rig.tail_swing") is None
    assert [text for text in missing(ledger) if text.startswith("The tail swing of the trailer needs")]
