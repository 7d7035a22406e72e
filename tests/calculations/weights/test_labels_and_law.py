import pytest

from binder.calculations.weights.labels_and_law import occupant_and_cargo_capacity_left
from binder.quantities import registry

q = registry.Quantity


def test_what_is_over_is_negative() -> None:
    use = occupant_and_cargo_capacity_left(q(500, "pound"), 4, q(0, "gallon"), q(0, "pound"))

    assert float(use.left.to("pound").m) == pytest.approx(-100)


def test_fewer_than_no_people_are_refused() -> None:
    with pytest.raises(ValueError, match="there cannot be -1 people"):
        occupant_and_cargo_capacity_left(q(500, "pound"), -1, q(0, "gallon"), q(0, "pound"))
