"""Wheel ends of the invented demo coach, worked by statics beforehand."""

import pytest

from binder.calculations.weights.axle_loads import (
    LoadChange,
    WheelEnds,
    ends_by_lateral_statics,
    ends_by_ratio,
    heavier_end,
    heavier_end_assumed,
)
from binder.quantities import registry

q = registry.Quantity
WHEELBASE = 252.0
# Pounds, inches behind the front axle, inches left: from the ticket to everything full.
CHANGES = [
    (25 * 7.05, 42, 0),
    (5 * 9.1, 306, 38),
    (65 * 8.33, 196, 14),
    (50 * 8.33, 214, 34),
    (35 * 8.33, 226, 34),
    (0.4 * 24 * 4.24, 128, -36),
    (300, 180, 0),
    (40, 376, 0),
]
FRONT = WheelEnds(q(5480, "pound"), q(5240, "pound"))
REAR = WheelEnds(q(8420, "pound"), q(8060, "pound"))


def on_front() -> list[LoadChange]:
    return [
        LoadChange(q(load * (WHEELBASE - x) / WHEELBASE, "pound"), q(y, "inch")) for load, x, y in CHANGES
    ]


def on_rear() -> list[LoadChange]:
    return [LoadChange(q(load * x / WHEELBASE, "pound"), q(y, "inch")) for load, x, y in CHANGES]


def test_everything_full_loads_the_left_steer_end() -> None:
    end = heavier_end(FRONT, on_front(), q(83, "inch"))

    assert end.load.m == pytest.approx(5744, abs=1)
    assert (end.side, end.rule) == ("left", "lateral statics")


def test_everything_full_loads_the_left_drive_end_by_more_than_the_ratio_says() -> None:
    end = heavier_end(REAR, on_rear(), q(76, "inch"))
    axle = sum((change.load for change in on_rear()), start=REAR.axle)

    assert axle.m == pytest.approx(17896, abs=1)
    assert end.load.m == pytest.approx(9499, abs=1)
    assert ends_by_ratio(REAR, axle).left.m == pytest.approx(9144, abs=1)


@pytest.mark.parametrize(("load", "left", "right"), [(200, 1200, 900), (-200, 1000, 700)])
def test_unplaced_load_comes_on_the_heavier_end_and_off_the_lighter(
    load: float, left: float, right: float
) -> None:
    ends = WheelEnds(q(1000, "pound"), q(900, "pound"))

    after = ends_by_lateral_statics(ends, [LoadChange(q(load, "pound"), None)], q(70, "inch"))

    assert (after.left.m, after.right.m) == (left, right)


def test_unplaced_load_goes_by_the_ends_after_what_is_placed() -> None:
    ends = WheelEnds(q(1000, "pound"), q(990, "pound"))
    placed = LoadChange(q(100, "pound"), q(-35, "inch"))
    unplaced = LoadChange(q(50, "pound"), None)

    after = ends_by_lateral_statics(ends, [unplaced, placed], q(70, "inch"))

    assert (after.left.m, after.right.m) == (1000, 1140)


def test_lateral_statics_keep_the_axle_load() -> None:
    after = ends_by_lateral_statics(REAR, on_rear(), q(76, "inch"))
    added = sum((change.load for change in on_rear()), start=q(0.0, "pound"))

    assert after.axle.m == pytest.approx((REAR.axle + added).m)


def test_ratio_decides_where_a_centered_load_grows() -> None:
    end = heavier_end(REAR, [LoadChange(q(1000, "pound"), q(0, "inch"))], q(76, "inch"))

    assert end.rule == "ratio kept"


@pytest.mark.parametrize(("share", "expected"), [(10, 2200), (15, 2300)])
def test_axle_weighed_alone_is_half_and_the_allowance(share: float, expected: float) -> None:
    end = heavier_end_assumed(q(4000, "pound"), q(share, "percent"))

    assert end.m == pytest.approx(expected)


def test_even_ends_have_no_heavier_side() -> None:
    assert WheelEnds(q(1, "pound"), q(1, "pound")).heavier == "both"
