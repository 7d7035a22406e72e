"""Overloads of axles, vehicles, the combination and couplings: each cause is told once, in its place."""

import shutil
from pathlib import Path

import pytest

from binder.assessment.assess import assess
from binder.assessment.ledger import GRADES
from binder.models.load import load_profile
from tests.assessment.conftest import Assessed
from tests.assessment.edited_demos import ON, Change, edited_demo
from tests.by_key import ByKey, ReadFinding


def new_findings(before: ByKey, after: ByKey) -> list[ReadFinding]:
    known = {(found.key, found.grade) for found in before.findings}
    return [found for found in after.findings if (found.key, found.grade) not in known]


def only(before: ByKey, after: ByKey) -> ReadFinding:
    (found,) = new_findings(before, after)
    return found


def sentence(found: ReadFinding) -> tuple[str, int, str]:
    return found.grade, found.order, found.text


def test_an_axle_over_its_rating_in_a_state_of_the_trip(assessed: Assessed, larkspur: ByKey) -> None:
    """17,208.9 lb leaving Twin Falls on 17,100 lb: what is reached forbids, and everything full does not."""
    after = assessed("larkspur", ("rating: 19000 lb", "rating: 17100 lb"), *LIGHTER)
    axle = [found for found in new_findings(larkspur, after) if found.key.startswith("weights.coach.drive")]

    assert sentence(axle[0]) == (
        "do not drive",
        1,
        "Coach, drive: 109 lb over its gross axle weight rating (day 3, leaving Twin Falls, Idaho).",
    )


LIGHTER: tuple[Change, ...] = (
    ("gross_vehicle_weight_rating: 30500 lb", "gross_vehicle_weight_rating: 29100 lb"),
    ("unloaded_vehicle_weight: 25370 lb", "unloaded_vehicle_weight: 23970 lb"),
)


def test_an_axle_over_only_with_everything_full_is_not_forbidden_a_trip_that_does_not_reach_it(
    assessed: Assessed, larkspur: ByKey
) -> None:
    """17,895.6 lb everything full on 17,800 lb: told as the axle's, not as its heavier end's too."""
    found = only(larkspur, assessed("larkspur", ("rating: 19000 lb", "rating: 17800 lb"), *LIGHTER))

    assert sentence(found) == (
        "attention",
        1,
        (
            "Coach, drive: 96 lb over its gross axle weight rating (everything full), which this trip does "
            "not reach: it leaves 591 lb at the heaviest."
        ),
    )


def test_where_a_dump_was_closed_the_hose_says_how_much_fresh_water_keeps_every_rating(
    assessed: Assessed,
) -> None:
    """96 lb over; a gallon in the tank puts 8.33 lb x 196 / 252 on the axle: 14.8 of the 90 gal go."""
    after = assessed("larkspur", ("rating: 19000 lb", "rating: 17800 lb"), *LIGHTER)
    (found,) = [one for one in after.findings if one.key == "weights.coach.drive.heaviest.load"]
    fresh = after.quantity("weights.fresh_at_most")

    assert fresh is not None
    assert fresh.to("gallon").m == pytest.approx(75)
    assert found.what_helps == (
        "At the hose: a dump was closed? With every other tank full fresh at most 75 gal."
    )


def test_everything_full_counts_where_there_is_no_trip(tmp_path: Path) -> None:
    edited_demo(tmp_path, "larkspur", ("rating: 19000 lb", "rating: 17100 lb"), *LIGHTER)
    shutil.rmtree(tmp_path / "larkspur" / "trips")
    parked = ByKey(assess(load_profile(tmp_path / "larkspur"), ON))

    (found,) = [one for one in parked.findings if one.key == "weights.coach.drive.heaviest.load"]
    assert (found.grade, "(everything full)" in found.text) == ("do not drive", True)


def test_a_load_nobody_knows_is_not_cleared(assessed: Assessed, larkspur: ByKey) -> None:
    after = assessed("larkspur", ("        front: {axle: 2230 lb}\n", ""))

    told = [sentence(found) for found in new_findings(larkspur, after) if found.grade == "not cleared"]
    assert told[0] == (
        "not cleared",
        1,
        (
            "Car, front: whether it is over its gross axle weight rating is not known, for its load is not "
            "(departure)."
        ),
    )


def test_an_end_over_half_its_axles_rating_asks_for_attention(assessed: Assessed, larkspur: ByKey) -> None:
    """9,498.4 lb at the left end of an axle rated 18,900 lb that carries 17,895.6 lb."""
    found = only(larkspur, assessed("larkspur", ("rating: 19000 lb", "rating: 18900 lb")))

    assert sentence(found) == (
        "attention",
        1,
        (
            "Coach, drive: the heavier end (left) carries 49 lb more than half the axle's rating"
            " (everything full)."
        ),
    )


def test_a_vehicle_over_its_rating(assessed: Assessed, larkspur: ByKey) -> None:
    after = assessed(
        "larkspur",
        ("gross_vehicle_weight_rating: 30500 lb", "gross_vehicle_weight_rating: 28200 lb"),
        ("unloaded_vehicle_weight: 25370 lb", "unloaded_vehicle_weight: 23070 lb"),
    )

    assert sentence(only(larkspur, after)) == (
        "do not drive",
        1,
        "Coach, total: 57 lb over its gross vehicle weight rating (day 3, leaving Twin Falls, Idaho).",
    )


def test_a_combination_over_its_rating_is_not_told_again_as_a_coupling(
    assessed: Assessed, larkspur: ByKey
) -> None:
    after = assessed("larkspur", ("rating: 41000 lb", "rating: 32200 lb"))

    assert sentence(only(larkspur, after)) == (
        "do not drive",
        4,
        "Combination: 117 lb over its gross combination weight rating (day 3, leaving Twin Falls, Idaho).",
    )
    margin = after.quantity("coupling.coach_car.margin")
    assert margin is not None
    assert margin.to("pound").m == pytest.approx(-911.954, abs=0.001)
    assert after.figure("coupling.coach_car.limit").slack == "912 lb over the weakest part"


def test_a_coupling_over_a_tie_names_every_part(assessed: Assessed, larkspur: ByKey) -> None:
    after = assessed(
        "larkspur",
        ("tow bar: 8000 lb", "tow bar: 4000 lb"),
        ("base plate: 8000 lb", "base plate: 4000 lb"),
    )

    assert sentence(only(larkspur, after)) == (
        "do not drive",
        4,
        "Coach to car: 60 lb over what the tow bar, base plate may tow.",
    )


def test_cables_too_weak_are_told_once(assessed: Assessed, larkspur: ByKey) -> None:
    found = only(larkspur, assessed("larkspur", ("safety cables: 10000 lb", "safety cables: 4000 lb")))

    assert (found.grade, found.order, found.key) == (
        "do not drive",
        4,
        "coupling.coach_car.safety_cables",
    )


@pytest.mark.parametrize(
    ("change", "part"),
    [
        (("supplemental_brake: true", "supplemental_brake: false"), "brake"),
        (("breakaway: true", "breakaway: false"), "breakaway"),
    ],
)
def test_a_towed_car_without_what_stops_it(
    assessed: Assessed, larkspur: ByKey, change: Change, part: str
) -> None:
    """No brake is one cause, though the maker's limit without brakes is passed by it too."""
    found = only(larkspur, assessed("larkspur", change))

    assert (found.grade, found.order) == ("do not drive", 4)
    assert found.key == f"coupling.coach_car.{part}"


def test_a_brake_nobody_mentions_is_not_cleared(assessed: Assessed, larkspur: ByKey) -> None:
    after = assessed("larkspur", ("      supplemental_brake: true\n", ""))

    assert [(found.grade, found.key.rpartition(".")[2]) for found in new_findings(larkspur, after)] == [
        ("not cleared", "brake"),
    ]


def test_a_part_whose_limit_nobody_read_is_not_cleared(assessed: Assessed, larkspur: ByKey) -> None:
    found = only(larkspur, assessed("larkspur", ("pins: 10000 lb", "pins:")))

    assert sentence(found) == ("not cleared", 4, "Coach to car: limit of the pins not known.")


def test_a_height_without_its_date_is_missing(assessed: Assessed, larkspur: ByKey) -> None:
    after = assessed(
        "larkspur", ("        on: 2026-03-30\n        state: ride height", "        state: ride height")
    )

    found = only(larkspur, after)
    assert (found.grade, found.order, found.key) == ("missing", 3, "rig.overall_height")


def test_a_bridge_within_the_margin_must_not_be_driven_under(assessed: Assessed, larkspur: ByKey) -> None:
    """12 ft 8 in and 6 in make 13 ft 2 in: an inch less is too little, and nothing is taken off."""
    bridge = "bridge at the north end of Ketchum, posted: "
    passes = assessed("larkspur", trip=((f"{bridge}14 ft 2 in", f"{bridge}13 ft 2 in"),))
    fails = assessed("larkspur", trip=((f"{bridge}14 ft 2 in", f"{bridge}13 ft 1 in"),))

    assert new_findings(larkspur, passes) == []
    found = only(larkspur, fails)
    assert (found.grade, found.order) == ("do not drive", 3)
    assert "5 in under" in found.text


def test_an_arrival_after_dark_asks_for_attention(assessed: Assessed, larkspur: ByKey) -> None:
    after = assessed("larkspur", trip=(("leave: 2026-06-02 09:00", "leave: 2026-06-02 18:00"),))
    found = new_findings(larkspur, after)

    assert {(one.grade, one.order) for one in found} == {("attention", 10)}
    assert any("sunset" in one.text for one in found)


def test_the_gravest_comes_first(assessed: Assessed) -> None:
    after = assessed(
        "larkspur",
        ("tow bar: 8000 lb", "tow bar: 4000 lb"),
        ("gross_vehicle_weight_rating: 30500 lb", "gross_vehicle_weight_rating: 28200 lb"),
        ("unloaded_vehicle_weight: 25370 lb", "unloaded_vehicle_weight: 23070 lb"),
        ("pins: 10000 lb", "pins:"),
    )
    ranks = [(GRADES.index(found.grade), found.order) for found in after.findings]

    assert ranks == sorted(ranks)
    assert ranks[:2] == [(0, 1), (0, 4)]


def test_a_rating_nobody_read_is_not_cleared_even_where_nothing_was_weighed(assessed: Assessed) -> None:
    after = assessed(
        "larkspur",
        ("rating: 2600 lb\n", "rating:\n"),
        ("        front: {axle: 2230 lb}\n", ""),
    )

    assert "Car, front: gross axle weight rating not known." in [
        found.text for found in after.findings if found.grade == "not cleared"
    ]
