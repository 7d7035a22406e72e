import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.calculations.supplies.battery import (
    USABLE,
    electrolyte_freezes,
    electrolyte_freezes_at_charge,
    lead_acid_capacity_in_cold,
    usable_charge,
)
from binder.quantities import registry
from tests.published.kinds import check

q = registry.Quantity


@pytest.mark.parametrize(
    ("gravity", "degrees"),
    [(1.0, 32), (1.1, 19), (1.15, 5), (1.2, -16), (1.25, -62), (1.28, -90), (1.26, -62), (1.3, None)],
)
@check("S-OD1002", "published")
def test_acid_freezes_as_the_manual_has_it(gravity: float, degrees: float | None) -> None:
    """S-OD1002; between rows the warmer."""
    point = electrolyte_freezes(gravity)

    assert (None if point is None else float(point.to("degF").m)) == (
        None if degrees is None else pytest.approx(degrees)
    )


@given(st.floats(0, 100), st.floats(0, 100))
def test_a_flatter_battery_never_freezes_later(one: float, other: float) -> None:
    flat, full = (electrolyte_freezes_at_charge("flooded", q(p, "percent")) for p in sorted((one, other)))

    assert flat is not None
    assert full is not None
    assert flat >= full


def test_an_empty_battery_freezes_where_a_water_line_barely_does() -> None:
    """S-OD1002 over the far colder column printed beside S-DISCOVER's charges (-10 F when empty)."""
    point = electrolyte_freezes_at_charge("flooded", q(0, "percent"))

    assert point is not None
    assert float(point.to("degF").m) == pytest.approx(19)


def test_a_charge_between_rows_freezes_as_the_flatter_row() -> None:
    """S-DISCOVER: 1.190 at 50 %, 1.225 at 75 %; S-OD1002: 5 F at 1.150, -16 F at 1.200."""
    point = electrolyte_freezes_at_charge("flooded", q(60, "percent"))

    assert point is not None
    assert float(point.to("degF").m) == pytest.approx(5)


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
