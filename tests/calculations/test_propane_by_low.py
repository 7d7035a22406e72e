import pytest

from binder.calculations.propane_by_low import PropaneAtLow, propane_use_at
from binder.quantities import registry

Q = registry.Quantity
MILD = PropaneAtLow(Q(50, "degF"), Q(0.9, "gal/day"))
COLD = PropaneAtLow(Q(20, "degF"), Q(3.5, "gal/day"))
ALWAYS = PropaneAtLow(None, Q(1.0, "gal/day"))


@pytest.mark.parametrize(
    ("low", "use"), [(70, 0.9), (50, 0.9), (35, 2.2), (24, 3.5 - 4 / 30 * 2.6), (20, 3.5), (19, None)]
)
def test_use_is_straight_between_the_owners_lows_and_not_beyond(low: float, use: float | None) -> None:
    found = propane_use_at([COLD, MILD], Q(low, "degF"))

    assert (found if found is None else found.to("gal/day").m) == (use if use is None else pytest.approx(use))


def test_one_figure_holds_whatever_the_low() -> None:
    assert propane_use_at([ALWAYS], Q(-10, "degF")) == ALWAYS.use
    assert propane_use_at([ALWAYS], None) == ALWAYS.use


def test_without_a_low_figures_by_low_say_nothing() -> None:
    assert propane_use_at([MILD, COLD], None) is None
