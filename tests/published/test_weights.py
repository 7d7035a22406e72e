"""Worked cases of labels, gaps, warning devices and coupling chains, each with the rule it follows."""

import csv
from math import degrees
from pathlib import Path

import pytest
from _pytest.mark import ParameterSet

from binder.calculations.coupling import (
    Link,
    coupling_limit,
    room_in_combination_rating,
)
from binder.calculations.route.distances import PACE, following_gap, overhang_angle, paces, warning_devices
from binder.calculations.weights.labels_and_law import (
    cargo_carrying_capacity_left,
    occupant_and_cargo_capacity_left,
)
from binder.quantities import Quantity, registry
from tests.assessment.weights.test_label_use import seated
from tests.published.kinds import check

FOLDER = Path(__file__).parent
q = registry.Quantity


def pounds(weight: Quantity | None) -> float:
    assert weight is not None
    return float(weight.to("pound").m)


@check("49 CFR 571.120; 49 CFR 567.4", "derived")
def test_occupants_water_and_tongue_come_out_of_a_motor_homes_label() -> None:
    """49 CFR 571.120 S10.4.2, S10.4.4 and 49 CFR 567.4(g)(3): the rule; the numbers are its arithmetic."""
    use = occupant_and_cargo_capacity_left(q(2500, "pound"), 4, q(60, "gallon"), q(350, "pound"))

    assert pounds(use.used) == pytest.approx(600 + 498 + 350, abs=1)
    assert pounds(use.left) == pytest.approx(1052, abs=1)


@check("49 CFR 571.120", "derived")
def test_water_comes_out_of_a_trailers_label_and_propane_does_not() -> None:
    """49 CFR 571.120 S10.4.2: the rule; the numbers are its arithmetic."""
    use = cargo_carrying_capacity_left(q(9500 - 7800, "pound"), q(50, "gallon"))

    assert pounds(use.used) == pytest.approx(415, abs=1)
    assert pounds(use.left) == pytest.approx(1285, abs=1)


@pytest.mark.parametrize(("seats", "least"), [(2, 300), (5, 750), (7, 1050)])
@check("49 CFR 571.110; 49 CFR 571.120", "derived")
def test_a_label_leaves_150_pounds_for_each_belted_seat(seats: int, least: int) -> None:
    """49 CFR 571.110 S9.3 and 571.120 S10.4: 150 lb times the seats with a belt; the numbers by hand."""
    (enough, under) = (seated(f"{capacity} lb", str(seats), "1") for capacity in (least, least - 1))

    assert enough == []
    assert [grade for grade, _ in under] == ["attention"]
    assert f"150 lb for each of its {seats} seats with a belt ({least:,} lb)" in under[0][1]


@pytest.mark.parametrize(("people", "grades"), [(4, []), (5, ["do not drive"])])
@check("49 CFR 571.110", "derived")
def test_no_more_people_ride_than_there_are_designated_seats(people: int, grades: list[str]) -> None:
    """49 CFR 571.110 S4.3: the placard states how many are seated; of four seats by hand."""
    assert [grade for grade, _ in seated("3000 lb", "4", str(people))] == grades


def _gaps() -> list[dict[str, str]]:
    return list(csv.DictReader((FOLDER / "following_distance.csv").read_text(encoding="utf-8").splitlines()))


def _as_checked(row: dict[str, str]) -> ParameterSet:
    mark = check("W38", "published" if row["tag"] == "READ" else "derived")
    return pytest.param(row, marks=mark, id=f"{row['length_ft']}ft-{row['speed_mph']}mph")


@pytest.mark.parametrize("row", [_as_checked(row) for row in _gaps()])
def test_following_gap_is_the_drivers_manuals(row: dict[str, str]) -> None:
    """Commercial driver's manual, section 2.7.1; rows marked DERIVED are its rule worked by hand."""
    gap = following_gap(q(float(row["length_ft"]), "foot"), q(float(row["speed_mph"]), "mph"))

    assert float(gap.to("second").m) == pytest.approx(float(row["seconds"]), abs=1e-9)


@check("49 CFR 392.22", "published")
def test_three_devices_on_a_two_way_road() -> None:
    """49 CFR 392.22(b)(1): 10 ft and 100 ft toward approaching traffic, 100 ft the other way."""
    devices = warning_devices("two-way")

    assert [(float(item.distance.to("foot").m), item.side) for item in devices] == [
        (10, "behind"),
        (100, "behind"),
        (100, "ahead"),
    ]


@check("49 CFR 392.22", "published")
def test_three_devices_on_a_divided_road() -> None:
    """49 CFR 392.22(b)(2)(v): within 10 ft, then 100 ft and 200 ft toward approaching traffic."""
    devices = warning_devices("divided")

    assert [(float(item.distance.to("foot").m), item.side) for item in devices] == [
        (10, "behind"),
        (100, "behind"),
        (200, "behind"),
    ]


@check("practice", "practice")
def test_paces_cover_the_distance() -> None:
    assert [paces(q(feet, "foot"), PACE) for feet in (10, 100, 101, 200)] == [4, 40, 41, 80]


@check("49 CFR 571.3", "derived")
def test_the_weakest_link_may_be_the_combination_rating() -> None:
    """The least of all limits; GCWR as defined in 49 CFR 571.3."""
    room = room_in_combination_rating(q(32000, "pound"), q(25000, "pound"))
    chain = coupling_limit(
        [
            Link("receiver", q(10000, "pound")),
            Link("drop", q(10000, "pound")),
            Link("tow bar", q(8000, "pound")),
            Link("base plate", q(7500, "pound")),
            Link("combination rating", room),
        ]
    )

    assert pounds(room) == 7000
    assert pounds(chain.limit) == 7000
    assert chain.weakest == ("combination rating",)
    assert pounds(chain.margin(q(4600, "pound"))) == pytest.approx(2400)


@check("geometry", "derived")
def test_an_overhang_passes_a_ramp_of_a_right_triangle() -> None:
    """By hand: 26.4 in over 36 in is 0.7333, whose tangent is 36.25 degrees; 15 in over 88 in: 9.67."""
    steep = overhang_angle(q(26.4, "inch"), q(36, "inch"))
    flat = overhang_angle(q(15, "inch"), q(88, "inch"))

    assert degrees(float(steep.m)) == pytest.approx(36.25, abs=0.01)
    assert degrees(float(flat.m)) == pytest.approx(9.67, abs=0.01)
