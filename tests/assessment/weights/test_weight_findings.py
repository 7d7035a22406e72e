"""Overloads of axles, vehicles, the combination and couplings: each cause is told once, in its place."""

import pytest

from binder.assessment.ledger import GRADES
from tests.assessment.conftest import Assessed
from tests.assessment.edited_demos import Change
from tests.by_key import ByKey, ReadFinding


def new_findings(before: ByKey, after: ByKey) -> list[ReadFinding]:
    known = {(found.key, found.grade) for found in before.findings}
    return [found for found in after.findings if (found.key, found.grade) not in known]


def only(before: ByKey, after: ByKey) -> ReadFinding:
    (found,) = new_findings(before, after)
    return found


def sentence(found: ReadFinding) -> tuple[str, int, str]:
    return found.grade, found.order, found.text


def test_an_axle_over_its_rating(assessed: Assessed, larkspur: ByKey) -> None:
    """17,895.6 lb everything full on 17,800 lb: told as the axle's, not as its heavier end's too."""
    after = assessed("larkspur", ("rating: 19000 lb", "rating: 17800 lb"), LIGHTER_VEHICLE, LIGHTER_EMPTY)

    assert sentence(only(larkspur, after)) == (
        "do not drive",
        1,
        "Coach, drive: 96 lb over its gross axle weight rating (everything full).",
    )


LIGHTER_VEHICLE: Change = ("gross_vehicle_weight_rating: 30500 lb", "gross_vehicle_weight_rating: 29700 lb")
LIGHTER_EMPTY: Change = ("unloaded_vehicle_weight: 25370 lb", "unloaded_vehicle_weight: 24570 lb")


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
        ("gross_vehicle_weight_rating: 30500 lb", "gross_vehicle_weight_rating: 29000 lb"),
        ("unloaded_vehicle_weight: 25370 lb", "unloaded_vehicle_weight: 23870 lb"),
    )

    assert sentence(only(larkspur, after)) == (
        "do not drive",
        1,
        "Coach, total: 52 lb over its gross vehicle weight rating (everything full).",
    )


def test_a_combination_over_its_rating_is_not_told_again_as_a_coupling(
    assessed: Assessed, larkspur: ByKey
) -> None:
    after = assessed("larkspur", ("rating: 41000 lb", "rating: 33000 lb"))

    assert sentence(only(larkspur, after)) == (
        "do not drive",
        4,
        "Combination: 112 lb over its gross combination weight rating (everything full).",
    )
    margin = after.quantity("coupling.coach_car.margin")
    assert margin is not None
    assert margin.to("pound").m == pytest.approx(-111.954, abs=0.001)
    assert after.figure("coupling.coach_car.limit").slack == "112 lb over the weakest part"


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


def test_a_brake_nobody_mentions_counts_as_none_against_the_makers_limit(
    assessed: Assessed, larkspur: ByKey
) -> None:
    after = assessed("larkspur", ("      supplemental_brake: true\n", ""))

    assert [(found.grade, found.key.rpartition(".")[2]) for found in new_findings(larkspur, after)] == [
        ("do not drive", "margin"),
        ("missing", "brake"),
    ]


def test_a_part_whose_limit_nobody_read_is_missing(assessed: Assessed, larkspur: ByKey) -> None:
    found = only(larkspur, assessed("larkspur", ("pins: 10000 lb", "pins:")))

    assert sentence(found) == ("missing", 4, "Coach to car: limit of the pins not known.")


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
        ("gross_vehicle_weight_rating: 30500 lb", "gross_vehicle_weight_rating: 29000 lb"),
        ("pins: 10000 lb", "pins:"),
    )
    ranks = [(GRADES.index(found.grade), found.order) for found in after.findings]

    assert ranks == sorted(ranks)
    assert ranks[:2] == [(0, 1), (0, 4)]


def test_a_rating_nobody_read_is_missing_even_where_nothing_was_weighed(assessed: Assessed) -> None:
    after = assessed(
        "larkspur",
        ("rating: 2600 lb\n", "rating:\n"),
        ("        front: {axle: 2230 lb}\n", ""),
    )

    assert "Car, front: gross axle weight rating not known." in [
        found.text for found in after.findings if found.grade == "missing"
    ]
