"""Axle loads of weights at a place, against worked examples in print and by hand."""

import pytest

from binder.calculations.coupling import Link, coupling_limit, room_in_combination_rating
from binder.calculations.route.distances import great_circle
from binder.calculations.weights.axle_loads import distribution_effect, support_shares
from binder.quantities import registry
from tests.published.kinds import check

q = registry.Quantity


def split(weight: float, at: float, wheelbase: float) -> tuple[float, float]:
    shares = support_shares(q(at, "inch"), q(0.0, "inch"), q(wheelbase, "inch"))
    return weight * shares.first, weight * shares.second


@check("W15", "published")
def test_a_load_between_the_axles() -> None:
    """Worked example of an article on truck axles: 5,000 lb at 179.8 in of 208; it prints 4,322 and 678."""
    front, rear = split(5000, 179.8, 208)

    assert (front, rear) == pytest.approx((677.9, 4322.1), abs=0.2)
    assert (round(front), round(rear)) == (678, 4322)


@check("statics", "derived")
def test_a_load_behind_the_rear_axle_lifts_the_front() -> None:
    """By hand: 400 lb at 300 in of 228 in puts 400 x 300/228 = 526.3 lb on the rear axle."""
    assert split(400, 300, 228) == pytest.approx((-126.3, 526.3), abs=0.1)


@check("statics", "derived")
def test_two_supports_at_one_place_are_refused() -> None:
    with pytest.raises(ValueError, match="one place"):
        split(400, 300, 0)


@check("statics", "derived")
def test_distribution_bars_move_weight_and_make_none() -> None:
    """By hand, M = 26,250 lb*in, a = 222, r = 66, L = 145: front M (a + r)/(a L), trailer M/a."""
    effect = distribution_effect(
        q(26250, "inch * pound_force"), q(222, "inch"), q(66, "inch"), q(145, "inch")
    )
    front, rear, trailer = (part.to("pound").m for part in (effect.front, effect.rear, effect.trailer))

    assert (front, trailer) == pytest.approx((26250 * 288 / (222 * 145), 26250 / 222))
    assert front + rear + trailer == pytest.approx(0, abs=1e-9)
    # Moments about the coupler of the truck alone: front at L + r, rear at r, and the couple itself.
    assert front * (145 + 66) + rear * 66 == pytest.approx(26250, abs=1e-6)


@check("49 CFR 571.3", "derived")
def test_the_weakest_link_of_a_tow_chain() -> None:
    """The least of all (49 CFR 571.3 for the combination rating); 7,000 lb by the rating, 2,400 lb left."""
    room = room_in_combination_rating(q(30000.0, "pound"), q(23000.0, "pound"))
    parts = {"receiver": 10000.0, "drop": 10000.0, "tow bar": 8000.0, "base plate": 7500.0}
    chain = coupling_limit(
        [*(Link(name, q(limit, "pound")) for name, limit in parts.items()), Link("room", room)]
    )
    margin = chain.margin(q(4600.0, "pound"))

    assert chain.weakest == ("room",)
    assert margin is not None
    assert margin.to("pound").m == pytest.approx(2400)


@check("geometry", "derived")
def test_a_degree_of_latitude_is_sixty_nautical_miles() -> None:
    """By the definition of the nautical mile; a quarter around the equator is 5,400 of them."""
    degree = great_circle((44.0, -115.0), (45.0, -115.0))
    quarter = great_circle((0.0, 0.0), (0.0, 90.0))

    assert degree.to("meter").m == pytest.approx(60 * 1852)
    assert quarter.to("meter").m == pytest.approx(5400 * 1852)
    assert great_circle((44.0, -115.0), (44.0, -115.0)).m == 0
