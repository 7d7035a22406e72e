import pytest

from binder.calculations.clearances import height_under_way, room_under
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
