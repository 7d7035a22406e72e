from math import degrees

import pytest

from binder.calculations.route.distances import height_under_way, overhang_angle, paces, room_under
from binder.quantities import registry

q = registry.Quantity


def test_raised_counts_only_where_it_is_higher() -> None:
    ride = q(152, "inch")

    assert height_under_way(ride, q(156, "inch")) == q(156, "inch")
    assert height_under_way(ride, q(150, "inch")) == ride
    assert height_under_way(ride, None) == ride


@pytest.mark.parametrize(
    ("posted", "passes"),
    [(158.0, True), (157.999, False), (151.0, False), (170.0, True)],
)
def test_passes_exactly_where_the_margin_is_kept(posted: float, *, passes: bool) -> None:
    found = room_under(q(posted, "inch"), q(152, "inch"), q(6, "inch"))

    assert found.passes is passes
    assert float(found.room.to("inch").m) == pytest.approx(posted - 152)


def test_a_margin_that_is_just_kept_is_kept_in_other_units_too() -> None:
    found = room_under(q(158 * 2.54, "centimeter"), q(152 * 0.0254, "meter"), q(152.4, "millimeter"))

    assert found.passes


def test_too_low_is_negative_room() -> None:
    found = room_under(q(150, "inch"), q(152, "inch"), q(6, "inch"))

    assert float(found.room.to("inch").m) == pytest.approx(-2)


def test_part_of_a_pace_is_a_whole_one() -> None:
    assert paces(q(10.1, "foot"), q(2.5, "foot")) == 5


def test_paces_do_not_depend_on_the_unit() -> None:
    assert paces(q(100 * 0.3048, "meter"), q(2.5, "foot")) == 40


def test_a_pace_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="longer than nothing"):
        paces(q(10, "foot"), q(0, "foot"))


def test_a_lower_or_longer_overhang_scrapes_earlier() -> None:
    angle, lower, longer = (
        overhang_angle(q(clearance, "inch"), q(overhang, "inch"))
        for clearance, overhang in ((15, 88), (14, 88), (15, 89))
    )

    assert lower < angle
    assert longer < angle
    assert degrees(float(angle.m)) == pytest.approx(
        degrees(float(overhang_angle(q(30, "cm"), q(176, "cm")).m))
    )


def test_what_does_not_hang_over_has_no_angle() -> None:
    with pytest.raises(ValueError, match="longer than nothing"):
        overhang_angle(q(15, "inch"), q(0, "inch"))
