"""What is not known of a weight, a place or a level never makes a load lighter, and forbids nothing alone."""

import pytest

from tests.assessment.conftest import Assessed
from tests.assessment.edited_demos import Change
from tests.by_key import ByKey

DRIVE, STEER = "weights.coach.drive", "weights.coach.steer"


def pounds(found: ByKey, key: str) -> float | None:
    quantity = found.quantity(key)
    return None if quantity is None else float(quantity.to("pound").m)


def test_a_level_nobody_states_at_the_start_counts_full_where_that_is_heavier(
    assessed: Assessed, larkspur: ByKey
) -> None:
    found = assessed("larkspur", trip=((DIESEL, ""),))

    for axle in (STEER, DRIVE):
        before, after = (pounds(one, f"{axle}.departure.load") for one in (larkspur, found))
        assert before is not None
        assert after is not None
        assert after >= before - 1e-6


DIESEL = "diesel: full, exhaust fluid: full, fresh: full, gray: empty, black: 1 gal, "


@pytest.mark.parametrize(
    "change",
    [
        ("{who: co-driver, weight: 170 lb, ", "{who: co-driver, "),
        ("weight: 300 lb, at: 180 in,", "at: 180 in,"),
    ],
)
def test_a_weight_nobody_states_leaves_the_loads_blank_and_not_cleared(
    assessed: Assessed, change: Change
) -> None:
    found = assessed("larkspur", trip=(change,))

    assert pounds(found, f"{DRIVE}.departure.load") is None
    assert {one.grade for one in found.findings if one.key == f"{DRIVE}.heaviest.load"} == {"not cleared"}


def test_a_tank_of_unknown_capacity_leaves_blank_what_it_is_part_of(assessed: Assessed) -> None:
    found = assessed("kestrel", ("holds: fresh water, capacity: 35 gal,", "holds: fresh water,"))

    assert pounds(found, f"{DRIVE}.everything_full.load") is None
    assert pounds(found, f"{DRIVE}.heaviest.load") is None


def test_an_axle_over_only_by_a_place_nobody_noted_is_not_cleared(assessed: Assessed) -> None:
    """17,180 lb with the things at their place; at the rear end of the coach they put more on the axle."""
    found = assessed(
        "larkspur",
        ("rating: 19000 lb", "rating: 17250 lb"),
        ("gross_vehicle_weight_rating: 30500 lb", "gross_vehicle_weight_rating: 29250 lb"),
        ("unloaded_vehicle_weight: 25370 lb", "unloaded_vehicle_weight: 24120 lb"),
        trip=(("weight: 300 lb, at: 180 in, left: 0 in,", "weight: 300 lb, left: 0 in,"),),
    )
    (told,) = [one for one in found.findings if one.key == f"{DRIVE}.heaviest.load"]

    assert told.grade == "not cleared"
    assert told.text.startswith("Coach, drive: perhaps ")


@pytest.mark.parametrize(
    ("change", "vehicle"),
    [
        (
            ("  coach:\n    kind: motorhome\n", "  coach:\n    kind: motorhome\n    since: 2026-04-01\n"),
            "coach",
        ),
        (("  coach wheels:\n", "  coach wheels:\n    since: 2026-04-01\n"), "coach"),
        (("  car:\n    kind: car\n", "  car:\n    kind: car\n    since: 2026-05-30\n"), "car"),
    ],
)
def test_a_ticket_of_before_a_vehicle_was_changed_is_put_aside(
    assessed: Assessed, change: Change, vehicle: str
) -> None:
    found = assessed("larkspur", change)

    told = [one.text for one in found.findings if one.key == f"weights.{vehicle}" and "put aside" in one.text]
    assert len(told) == 1
    assert pounds(found, f"weights.{vehicle}.total.departure.load") is None


def test_what_changed_in_a_trailer_of_unknown_places_may_press_on_its_truck(assessed: Assessed) -> None:
    """The truck was weighed coupled: what the trailer's water puts on it since then is not nothing."""
    coupled = ("state: {ride_height: true, coupled: false}", "state: {ride_height: true, coupled: true}")
    before = assessed("sandpiper", coupled)
    after = assessed("sandpiper", coupled, ("at_behind: -205 in ", "at_behind: "))
    key = "weights.truck.drive.day_2_stop_1_leaving.load"

    assert pounds(before, key) is not None
    assert pounds(after, key) is None


def test_a_ticket_of_before_a_coupling_was_changed_is_put_aside_where_it_stood_coupled(
    assessed: Assessed,
) -> None:
    coupled = ("state: {ride_height: true, coupled: false}", "state: {ride_height: true, coupled: true}")
    since = ("    how: ball\n", "    how: ball\n    since: 2026-05-30\n")
    aside = [
        [one.key for one in found.findings if "put aside" in one.text]
        for found in (assessed("sandpiper", since), assessed("sandpiper", since, coupled))
    ]

    assert aside == [[], ["weights.truck"]]
