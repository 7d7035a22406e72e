"""When a label holds though the wheel ends were weighed, and what is printed when nothing can be.

Each test changes one thing of a demo rig. Larkspur unchanged: steer row 100 and set-point 105 under a
label of 110 psi, drive 90 and 95 under a label of 95 psi.
"""

from datetime import date

import pytest

from tests.assessment.conftest import Assessed
from tests.assessment.edited_demos import Change
from tests.by_key import ByKey

MOUNTED = "{date_code: 1423, tread: 13/32 in, circumference: 125.5 in, mounted_on: 202"
STEER = (
    "steer:\n        at: 0 in\n        track: 83 in\n        fitment: single\n        rating: 12000 lb\n"
    "        label_pressure: 110 psi\n        label_tires: 295/75R22.5 G\n"
)


def psi(assessment: ByKey, key: str) -> float | None:
    quantity = assessment.quantity(key)
    return None if quantity is None else float(quantity.to("psi").m)


def steer(assessment: ByKey) -> float | None:
    return psi(assessment, "tires.coach.steer.set_point")


def told(assessment: ByKey, key: str, grade: str = "") -> list[str]:
    return [found.text for found in assessment.findings if found.key == key and grade in found.grade]


def test_a_fit_ticket_sets_the_label_aside(larkspur: ByKey) -> None:
    assert steer(larkspur) == pytest.approx(105)
    assert told(larkspur, "tires.coach.steer.label_pressure") == []


@pytest.mark.parametrize(
    ("change", "why"),
    [
        (("on: 2026-03-30                       # the coach", "on: 2025-06-05 # the coach"), "year"),
        (
            ("state: {slides: in, ride_height: true", "state: {slides: out, ride_height: true"),
            "slides were not in",
        ),
        (("state: {slides: in, ride_height: true", "state: {ride_height: true"), "slides were not in"),
        (("{slides: in, ride_height: true", "{slides: in, ride_height: false"), "ride height"),
        (("{slides: in, ride_height: true", "{slides: in"), "ride height"),
        (("fresh: 25 gal, gray", "gray"), "how full these were: fresh"),
        (
            ("aboard:                              # who", "tires: x # who"),
            "who was aboard",
        ),
        (
            (f"steer left:        {MOUNTED}3-06-10", f"steer left:        {MOUNTED}6-05-10"),
            "mounted after",
        ),
        (
            (
                "propane:       {holds: propane, capacity: 30 gal, usable: 24 gal, ",
                "propane:       {holds: propane, ",
            ),
            "",
        ),
    ],
)
def test_a_ticket_in_doubt_brings_the_label_back(assessed: Assessed, change: Change, why: str) -> None:
    changes = [change]
    if "who" in change[0]:
        changes.append(("      - {what: two people, weight: 360 lb, at: 4 in, left: 0 in, in: coach}\n", ""))
    if "propane" in change[0]:
        changes.append(("propane: 60 %", "propane: 14 gal"))
    found = assessed("larkspur", *changes)

    assert steer(found) == pytest.approx(110)
    assert psi(found, "tires.coach.steer.row_pressure") is not None
    assert why in told(found, "tires.coach.steer.label_pressure", "attention")[0]
    assert why in told(found, "weights.coach", "attention")[0]


def test_a_ticket_is_judged_on_the_last_day_of_the_trip(assessed: Assessed) -> None:
    """A year to the day is not more than a year; a day longer is."""
    written = "on: 2026-03-30                       # the coach"

    assert steer(assessed("larkspur", (written, "on: 2025-06-06 # the coach"))) == pytest.approx(105)
    assert steer(assessed("larkspur", (written, "on: 2025-06-05 # the coach"))) == pytest.approx(110)
    assert steer(assessed("larkspur", on=date(2027, 6, 1))) == pytest.approx(110)


@pytest.mark.parametrize(("weight", "binds"), [("300 lb", "does not bind"), ("301 lb", "it binds")])
def test_cargo_without_a_place_may_weigh_three_hundred_pounds(
    assessed: Assessed, weight: str, binds: str
) -> None:
    cargo = ("weight: 300 lb, at: 180 in, left: 0 in, in: coach", f"weight: {weight}, in: coach")
    found = assessed("larkspur", trip=(cargo,))

    assert binds in found.figure("tires.coach.steer.label_pressure").rule
    assert bool(told(found, "weights.coach")) == (binds == "it binds")


def test_cargo_without_a_place_counts_at_the_worst_place_it_can_lie_in(
    assessed: Assessed, larkspur: ByKey
) -> None:
    found = assessed(
        "larkspur", trip=(("weight: 300 lb, at: 180 in, left: 0 in,", "weight: 300 lb, left: 0 in,"),)
    )

    # 88 in ahead of the steer axle and 120 in behind the drive axle the coach ends: its share is over one.
    for axle, share in (("steer", (180 + 88) / 252), ("drive", (72 + 120) / 252)):
        key = f"weights.coach.{axle}.departure.load"
        before, after = larkspur.quantity(key), found.quantity(key)
        assert before is not None
        assert after is not None
        assert (after - before).to("pound").m == pytest.approx(300 * share)


def test_a_weight_the_plan_does_not_say_brings_the_label_back(assessed: Assessed) -> None:
    found = assessed("larkspur", trip=(("{who: co-driver, weight: 170 lb, ", "{who: co-driver, "),))

    assert steer(found) == pytest.approx(110)
    assert told(found, "weights.coach") == ["Coach: the plan does not say what these weigh: co-driver."]


def test_the_profile_may_keep_to_the_label(assessed: Assessed) -> None:
    found = assessed("larkspur", ("basis: weighed ", "basis: label "))

    assert steer(found) == pytest.approx(110)
    assert told(found, "tires.coach.steer.label_pressure") == []


def test_only_the_axle_weighed_assumes_a_heavier_end_and_keeps_tanks_off_center(
    assessed: Assessed, larkspur: ByKey
) -> None:
    """A tenth over half the weighed axle in front, 15 % behind; what changed since lies where it lies."""
    found = assessed(
        "larkspur",
        ("steer: {left: 5480 lb, right: 5240 lb, axle", "steer: {axle"),
        ("drive: {left: 8420 lb, right: 8060 lb, axle", "drive: {axle"),
    )
    front = found.quantity("tires.coach.steer.load_per_tire")
    rear = found.quantity("tires.coach.drive.load_per_tire")

    # 6,136 lb needs the last row, and the cap leaves no margin over it.
    assert steer(found) == pytest.approx(110)
    assert front is not None
    assert rear is not None
    added = {}
    for axle, weighed in (("steer", 5480), ("drive", 8420)):
        end = larkspur.quantity(f"weights.coach.{axle}.everything_full.heavier_end")
        assert end is not None
        added[axle] = end.to("pound").m - weighed
    assert front.to("pound").m == pytest.approx(10_720 * 0.55 + added["steer"], abs=1)
    assert rear.to("pound").m == pytest.approx((16_480 * 0.575 + added["drive"]) / 2, abs=1)
    assert found.figure("tires.coach.steer.load_per_tire").kind == "assumed"


def test_one_end_and_the_axle_give_the_other_end(assessed: Assessed, larkspur: ByKey) -> None:
    found = assessed("larkspur", ("{left: 8420 lb, right: 8060 lb, axle", "{left: 8420 lb, axle"))

    key = "tires.coach.drive.load_per_tire"
    before, after = larkspur.quantity(key), found.quantity(key)
    assert before is not None
    assert after is not None
    assert after.m == pytest.approx(before.m)


def test_nothing_weighed_takes_the_rating(assessed: Assessed) -> None:
    """Half of 12,000 lb is over the row of 5,975 lb: the row is 110 psi."""
    found = assessed("larkspur", ("steer: {left: 5480 lb, right: 5240 lb, axle: 10720 lb}", "steer: {}"))

    assert found.quantity("tires.coach.steer.load_per_tire") is None
    assert psi(found, "tires.coach.steer.row_pressure") == pytest.approx(110)
    assert steer(found) == pytest.approx(110)
    assert found.quantity("weights.coach.steer.departure.load") is None


def test_tires_of_another_size_stand_on_what_carries_the_rating(assessed: Assessed) -> None:
    """12,000 lb on two tires of the table needs its last row, 110 psi; 11,900 lb needs 105 psi."""
    other = STEER.replace("295/75R22.5 G", "275/80R22.5 G")
    found = assessed("larkspur", (STEER, other))
    lighter = assessed("larkspur", (STEER, other.replace("12000", "11900").replace("110 psi", "90 psi")))

    assert steer(found) == pytest.approx(110)
    assert psi(lighter, "tires.coach.steer.label_pressure") == pytest.approx(105)
    assert "275/80R22.5 G" in told(found, "tires.coach.steer.label_pressure", "attention")[0]


def test_another_load_range_is_another_tire(assessed: Assessed) -> None:
    found = assessed("larkspur", (STEER, STEER.replace("22.5 G", "22.5 H")))

    assert "22.5 H" in told(found, "tires.coach.steer.label_pressure", "attention")[0]


def test_a_pickup_on_its_placards_size_is_never_filled_below_the_placard(assessed: Assessed) -> None:
    """A tire of another load range may carry half the rating at less: more air is the safe side."""
    stronger = assessed("sandpiper", ("load_range: SL", "load_range: E"))

    for key in ("label_pressure", "set_point"):
        assert (psi(stronger, f"tires.truck.steer.{key}") or 0) >= 35
    assert told(stronger, "tires.truck.steer.label_pressure", "attention")


def test_tires_too_weak_for_the_rating_have_no_legal_pressure(assessed: Assessed) -> None:
    """Two tires of 6,175 lb carry 12,350 lb, not the axle's 12,400 lb."""
    other = STEER.replace("295/75R22.5 G", "315/80R22.5 L").replace("12000", "12400")
    found = assessed("larkspur", (STEER, other))

    assert steer(found) is None
    assert told(found, "tires.coach.steer.set_point", "do not drive") == [
        "Coach, steer: no legal pressure, the fitted tires cannot carry the axle's rating."
    ]


def test_no_label_is_told(assessed: Assessed) -> None:
    found = assessed("larkspur", (STEER, STEER.replace("label_pressure: 110 psi", "label_pressure:")))

    assert told(found, "tires.coach.steer.label_pressure", "missing") == [
        "Coach, steer: label pressure not known."
    ]
    assert steer(found) == pytest.approx(105)


def test_a_placard_is_the_answer_for_a_car(assessed: Assessed) -> None:
    """No margin is added behind another vehicle, and no label means no pressure."""
    front = "fitment: single\n        rating: 2600 lb\n        label_pressure: 33 psi\n"
    found = assessed("larkspur", (front, front.replace("33 psi", "41 psi")))
    blank = assessed("larkspur", (front, front.replace("33 psi", "")))

    assert psi(found, "tires.car.front.set_point") == pytest.approx(41)
    assert psi(blank, "tires.car.front.set_point") is None
    assert told(blank, "tires.car.front.set_point", "not cleared")[0].startswith("Car, front: no pressure")


def test_an_axle_over_its_rating_stops_a_car_on_its_placard(assessed: Assessed) -> None:
    found = assessed("larkspur", ("front: {axle: 2230 lb}", "front: {axle: 2610 lb}"), ("4060 lb", "4440 lb"))

    assert told(found, "weights.car.front.heaviest.load", "do not drive") == [
        "Car, front: 10 lb over its gross axle weight rating (departure)."
    ]
