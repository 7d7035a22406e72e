import pytest

from binder.calculations.battery_discharge import USABLE, lead_acid_capacity_in_cold, usable_charge
from binder.quantities import registry
from tests.published.kinds import check

q = registry.Quantity


@pytest.mark.parametrize(
    ("degrees", "percent"), [(0, 40), (32, 75), (77, 100), (16, 57.5), (-1, None), (78, None)]
)
@check("S-TM10-6140", "published")
def test_cold_takes_capacity(degrees: float, percent: float | None) -> None:
    """S-TM10-6140: 75 % at 32 F and 40 % at 0 F; straight between them."""
    share = lead_acid_capacity_in_cold(q(degrees, "degF"))

    assert (None if share is None else float(share.to("percent").m)) == (
        None if percent is None else pytest.approx(percent)
    )


@check("practice", "practice")
def test_about_a_third_is_gone_at_20_degrees() -> None:
    """Practice says a third; the table between 0 and 32 F says a little more."""
    share = lead_acid_capacity_in_cold(q(20, "degF"))

    assert share is not None
    assert 1 / 3 <= 1 - float(share.to("").m) < 0.4


def test_usable_part_and_cold_multiply() -> None:
    charge = usable_charge(q(440, "Ah"), USABLE["lead-acid"], q(75, "percent"))

    assert float(charge.to("Ah").m) == pytest.approx(440 * 0.5 * 0.75)
    assert float(USABLE["lithium iron phosphate"].to("").m) == pytest.approx(0.8)
