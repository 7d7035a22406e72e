import pytest

from binder.calculations.water_use import EMERGENCY_STORE, TOTAL_BASIC, water_a_person, water_for, water_needs
from binder.quantities import registry
from tests.published.kinds import check

q = registry.Quantity


@check("S-FEMA", "published")
def test_two_people_need_two_gallons_a_day_in_an_emergency() -> None:
    """S-FEMA: a gallon a person and day."""
    need = water_for(2, water_needs()[EMERGENCY_STORE])

    assert float(need.least.to("gallon / day").m) == pytest.approx(2, abs=0.001)
    assert need.least == need.most


@check("S-SPHERE", "published")
def test_basic_need_is_the_published_band() -> None:
    """S-SPHERE: 7.5 to 15 L a person and day, the sum of drinking, hygiene and cooking."""
    need = water_for(4, water_needs()[TOTAL_BASIC])

    assert [float(end.to("liter / day").m) for end in (need.least, need.most)] == pytest.approx([30, 60])
    parts = [water_needs()[use].a_person for use in ("basic hygiene", "basic cooking")]
    drinking = water_needs()["drinking and food, survival"].a_person
    assert sum((part.least for part in parts), drinking.least) == water_needs()[TOTAL_BASIC].a_person.least
    assert sum((part.most for part in parts), drinking.most) == water_needs()[TOTAL_BASIC].a_person.most


def test_every_need_names_its_source() -> None:
    assert {need.source for need in water_needs().values()} == {"S-FEMA", "S-SPHERE", "S-EPAWS"}


def test_own_use_is_shared() -> None:
    assert float(water_a_person(q(14, "gallon / day"), 2).to("gallon / day").m) == pytest.approx(7)
    with pytest.raises(ValueError, match="nobody"):
        water_a_person(q(14, "gallon / day"), 0)
    with pytest.raises(ValueError, match="aboard"):
        water_for(-1, water_needs()[TOTAL_BASIC])
