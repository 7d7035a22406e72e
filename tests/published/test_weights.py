"""Worked cases of labels, gaps, warning devices and coupling chains, each with the rule it follows."""

import csv
from pathlib import Path

import pytest
from _pytest.mark import ParameterSet

from binder.calculations.coupling import (
    Link,
    coupling_limit,
    room_in_combination_rating,
)
from binder.calculations.route.distances import PACE, following_gap, paces, warning_devices
from binder.calculations.weights.labels_and_law import (
    cargo_carrying_capacity_left,
    occupant_and_cargo_capacity_left,
)
from binder.quantities import Quantity, registry
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
