import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.calculations.battery_discharge import (
    USABLE,
    DischargeTest,
    RatedBattery,
    current_drawn,
    discharge_time,
    is_charge_taken,
    lead_acid_capacity_in_cold,
    peukert_exponent,
    usable_charge,
)
from binder.quantities import registry
from tests.published.kinds import check

q = registry.Quantity
# S-T105: ampere-hours at the 5, 10, 20 and 100 h rates of one battery.
DATA_SHEET = {5: 185.0, 10: 207.0, 20: 225.0, 100: 250.0}


def hours(battery: RatedBattery, amperes: float) -> float:
    return float(discharge_time(battery, q(amperes, "ampere")).to("hour").m)


def rated(capacity: float, time: float, exponent: float) -> RatedBattery:
    return RatedBattery(q(capacity, "Ah"), q(time, "hour"), exponent)


def data_sheet_test(time: int) -> DischargeTest:
    return DischargeTest(q(DATA_SHEET[time] / time, "ampere"), q(time, "hour"))


@check("S-T105", "published")
def test_a_data_sheets_middle_rate_follows_from_its_outer_ones() -> None:
    """S-T105: from the 5 h and 20 h rates, the 10 h rate is met within 2 %."""
    exponent = peukert_exponent(data_sheet_test(5), data_sheet_test(20))
    battery = rated(DATA_SHEET[20], 20, exponent)

    assert 1.1 < exponent < 1.3
    assert hours(battery, DATA_SHEET[10] / 10) == pytest.approx(10, rel=0.02)
    assert hours(battery, DATA_SHEET[5] / 5) == pytest.approx(5)


def test_slower_than_rated_gives_the_rated_capacity_and_not_the_more_of_the_data_sheet() -> None:
    """S-XANTREX; S-T105 has 250 Ah at its 100 h rate, 25 Ah more than are counted on."""
    battery = rated(225, 20, 1.16)

    assert hours(battery, 2.5) == pytest.approx(225 / 2.5)
    assert hours(battery, 2.5) < DATA_SHEET[100] / 2.5


@check("S-SMARTG; S-NAIVE", "published")
def test_the_form_for_an_hour_rating_is_used() -> None:
    """S-SMARTG: 100 Ah at 20 h give 5 A for 20 h; S-NAIVE prints 14.5 h, from the form for one ampere."""
    naive = 100 / 5**1.2

    assert naive == pytest.approx(14.5, abs=0.05)
    assert hours(rated(100, 20, 1.2), 5) == pytest.approx(20)


@check("S-SMARTG", "published")
def test_the_published_form_is_met() -> None:
    """S-SMARTG: T = C (C/R)^(n-1) / I^n."""
    for current in (6.0, 11.0, 40.0, 100.0):
        published = 100 * (100 / 20) ** (1.3 - 1) / current**1.3
        assert hours(rated(100, 20, 1.3), current) == pytest.approx(published)


@given(st.floats(0.1, 300), st.floats(1.0, 1.6))
def test_never_more_than_the_rated_capacity(current: float, exponent: float) -> None:
    given_off = hours(rated(220, 20, exponent), current) * current

    assert given_off <= 220 * (1 + 1e-9)
    if current <= 11:
        assert given_off == pytest.approx(220)


@given(st.floats(0.1, 300), st.floats(0.1, 300), st.floats(1.0, 1.6))
def test_more_current_never_lasts_longer(one: float, other: float, exponent: float) -> None:
    battery = rated(220, 20, exponent)

    assert hours(battery, max(one, other)) <= hours(battery, min(one, other)) * (1 + 1e-9)


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


@pytest.mark.parametrize(
    ("value", "unit", "taken"),
    [(31.9, "degF", False), (32, "degF", True), (0, "degC", True), (45, "degC", True), (45.1, "degC", False)],
)
@check("S-LFP", "published")
def test_lithium_takes_charge_between_its_limits(value: float, unit: str, *, taken: bool) -> None:
    """S-LFP: 0 to 45 C."""
    assert is_charge_taken("lithium iron phosphate", q(value, unit)) is taken


def test_no_limit_is_known_for_lead_acid() -> None:
    assert is_charge_taken("lead-acid", q(-10, "degC")) is None


def test_an_inverters_loss_is_drawn_too() -> None:
    drawn = current_drawn(q(1080, "watt"), q(12, "volt"), q(90, "percent"))

    assert float(drawn.to("ampere").m) == pytest.approx(100)


def test_what_makes_no_sense_is_refused() -> None:
    with pytest.raises(ValueError, match="more than zero"):
        hours(rated(100, 20, 1.2), 0)
    with pytest.raises(ValueError, match="the faster it is drawn"):
        rated(100, 20, 0.9)
    with pytest.raises(ValueError, match="hour rate"):
        rated(100, 0, 1.2)
    with pytest.raises(ValueError, match="over sooner"):
        peukert_exponent(data_sheet_test(20), data_sheet_test(5))
    with pytest.raises(ValueError, match="efficiency"):
        current_drawn(q(1, "watt"), q(12, "volt"), q(0, "percent"))
