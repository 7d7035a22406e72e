import pytest

from binder.calculations.water_use import EMERGENCY_STORE, water_for, water_needs
from binder.quantities import registry
from tests.published.kinds import check

q = registry.Quantity


@check("S-FEMA", "published")
def test_two_people_need_two_gallons_a_day_in_an_emergency() -> None:
    """S-FEMA: a gallon a person and day."""
    need = water_for(2, water_needs()[EMERGENCY_STORE])

    assert float(need.least.to("gallon / day").m) == pytest.approx(2, abs=0.001)
    assert need.least == need.most


def test_every_need_names_its_source() -> None:
    assert {need.source for need in water_needs().values()} == {"S-FEMA", "S-SPHERE", "S-EPAWS"}


def test_fewer_than_no_people_are_refused() -> None:
    with pytest.raises(ValueError, match="aboard"):
        water_for(-1, water_needs()[EMERGENCY_STORE])
