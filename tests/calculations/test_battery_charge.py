import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.calculations.bands import Band
from binder.calculations.battery_charge import (
    BatteryKind,
    charge_by_specific_gravity,
    charge_by_voltage,
    corrected_specific_gravity,
    electrolyte_freezes,
    electrolyte_freezes_at_charge,
)
from binder.quantities import registry
from tests.published.kinds import check

q = registry.Quantity


def percents(band: Band | None) -> tuple[float, float] | None:
    return None if band is None else (float(band.least.to("percent").m), float(band.most.to("percent").m))


@pytest.mark.parametrize(
    ("kind", "volts", "band"),
    [
        ("flooded", 12.65, (100, 100)),
        ("flooded", 12.24, (50, 50)),
        ("flooded", 12.30, (50, 75)),
        ("flooded", 11.89, (0, 0)),
        ("flooded", 11.80, None),
        ("flooded", 12.80, None),
        ("flooded deep-cycle", 12.732, (100, 100)),
        ("flooded deep-cycle", 12.45, (70, 80)),
        ("flooded deep-cycle", 11.40, None),
        ("absorbed glass mat", 12.90, (100, 100)),
        ("absorbed glass mat", 12.82, (75, 100)),
        ("absorbed glass mat", 12.28, (25, 75)),
        ("absorbed glass mat", 11.80, (0, 25)),
        ("absorbed glass mat", 13.30, None),
    ],
)
@check("S-DISCOVER; S-T105; S-SUNON; S-POLARIS", "published")
def test_voltage_gives_a_band(kind: BatteryKind, volts: float, band: tuple[float, float] | None) -> None:
    """S-DISCOVER (flooded), S-T105 (deep-cycle), S-SUNON and S-POLARIS, which differ (glass mat)."""
    assert percents(charge_by_voltage(kind, q(volts, "volt"))) == band


@given(
    st.sampled_from(["flooded", "flooded deep-cycle", "absorbed glass mat"]),
    st.floats(11.9, 12.64),
    st.floats(11.9, 12.64),
)
def test_more_voltage_is_never_less_charge(kind: BatteryKind, one: float, other: float) -> None:
    low, high = (percents(charge_by_voltage(kind, q(volts, "volt"))) for volts in sorted((one, other)))

    assert low is not None
    assert high is not None
    assert low[0] <= high[0]
    assert low[1] <= high[1]


@pytest.mark.parametrize(
    ("degrees", "change"), [(0, -0.032), (75, -0.002), (80, 0), (120, 0.016), (160, 0.032)]
)
@check("S-TROJAN; S-NISSAN; S-DISCOVER", "published")
def test_hydrometer_is_corrected(degrees: float, change: float) -> None:
    """S-TROJAN, S-NISSAN, S-DISCOVER: 0.004 for every 10 F from 80 F."""
    assert corrected_specific_gravity(1.2, q(degrees, "degF")) == pytest.approx(1.2 + change)


def test_hydrometer_outside_the_table_is_not_corrected() -> None:
    assert corrected_specific_gravity(1.2, q(-1, "degF")) is None
    assert corrected_specific_gravity(1.2, q(161, "degF")) is None


def test_acid_gives_a_band() -> None:
    assert percents(charge_by_specific_gravity("flooded", 1.225)) == (75, 75)
    assert percents(charge_by_specific_gravity("flooded deep-cycle", 1.225)) == (70, 80)
    assert charge_by_specific_gravity("flooded", 1.277) is None


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
