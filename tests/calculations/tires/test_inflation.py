"""The four demo rigs (invented data) and the edges of every rule of cold inflation pressure."""

import pytest

from binder.calculations.tires.inflation import (
    Demand,
    SetPoint,
    floor_pressure,
    has_cold_morning_reserve,
    load_used,
    low_alarm,
    monitor_setting,
    run_flat_below,
    set_point,
)
from binder.calculations.tires.limits import (
    LoadLimits,
    PressureLimits,
    load_cap,
    load_over_cap,
    pressure_cap,
    pressure_for_rating,
    trailer_label_pressure,
)
from binder.calculations.tires.load_tables import LoadRow, estimated_row, row_for
from binder.quantities import Quantity, registry
from tests.printed_tables import table_from

q = registry.Quantity
PSI, KPA = q(1, "psi"), q(5, "kPa")
SINGLE = table_from(
    [
        (70, 4500),
        (75, 4720),
        (80, 4940),
        (85, 5155),
        (90, 5365),
        (95, 5570),
        (100, 5775),
        (105, 5975),
        (110, 6175),
    ],
    "psi",
    "pound",
)
DUAL = table_from(
    [
        (70, 4135),
        (75, 4340),
        (80, 4540),
        (85, 4735),
        (90, 4930),
        (95, 5120),
        (100, 5305),
        (105, 5490),
        (110, 5675),
    ],
    "psi",
    "pound",
)


def psi(value: float) -> Quantity:
    return q(value, "psi")


def fill(row: float | None, label: float | None, margin: float, cap: float | None) -> SetPoint:
    demand = Demand(None if row is None else psi(row), None if label is None else psi(label), psi(margin))
    return set_point(demand, None if cap is None else psi(cap), PSI)


@pytest.mark.parametrize(
    ("inputs", "expected", "bound_by"),
    [
        pytest.param((100, None, 5, 110), 105, "row and margin", id="larkspur steer, weighed"),
        pytest.param((90, None, 5, 110), 95, "row and margin", id="larkspur drive, weighed"),
        pytest.param((None, 33, 0, 44), 33, "label", id="larkspur car, placard"),
        pytest.param((45, 65, 5, 80), 65, "label", id="kestrel front, label"),
        pytest.param((60, 80, 5, 80), 80, "label", id="kestrel rear, label is the cap"),
        pytest.param((30, 65, 0, 65), 65, "label", id="sandpiper trailer, label"),
        pytest.param((110, None, 5, 110), 110, "cap", id="cap cuts the margin"),
        pytest.param((110, None, 5, None), 115, "row and margin", id="no cap is known"),
    ],
)
def test_set_point(
    inputs: tuple[float | None, float | None, float, float | None], expected: float, bound_by: str
) -> None:
    found = fill(*inputs)

    assert found.pressure == psi(expected)
    assert found.bound_by == bound_by


def test_margin_cut_short_is_said_and_a_high_label_is_not_that() -> None:
    assert fill(110, None, 5, 110).is_cut_short
    assert not fill(60, 80, 5, 80).is_cut_short


@pytest.mark.parametrize(
    ("row", "label", "cap", "bound_by"),
    [(90, None, 85, "floor over cap"), (45, 95, 80, "floor over cap"), (None, None, 80, "no floor")],
)
def test_no_pressure_is_printed(row: float | None, label: float | None, cap: float, bound_by: str) -> None:
    assert fill(row, label, 5, cap) == SetPoint(None, bound_by)  # type: ignore[arg-type]


def test_metric_floor_prints_in_its_own_unit_where_no_whole_psi_fits() -> None:
    demand = Demand(None, q(550, "kPa"), q(0, "kPa"))

    found = set_point(demand, q(550, "kPa"), PSI)

    assert found == SetPoint(q(550, "kPa"), "cap")


def test_psi_label_goes_up_to_the_next_5_kpa() -> None:
    assert set_point(Demand(None, psi(65), psi(0)), None, KPA).pressure == q(450, "kPa")


def test_larger_of_row_and_label_is_the_floor() -> None:
    assert floor_pressure(psi(60), psi(80)).bound_by == "label"
    assert floor_pressure(psi(80), psi(60)).bound_by == "row"
    assert floor_pressure(psi(80), psi(80).to("kPa")).bound_by == "row and label"
    assert floor_pressure(None, None).pressure is None


@pytest.mark.parametrize(
    ("fill_to", "row", "alarm", "line", "bound_by"),
    [
        (105, 100, 100, 84, "row"),
        (95, 90, 90, 76, "row"),
        (33, None, 29, 27, "share of the set-point"),
        (80, 60, 68, 64, "share of the set-point"),
        (14, None, 13, 12, "run-flat line"),
    ],
)
def test_alarm_and_run_flat_line(
    fill_to: float, row: float | None, alarm: float, line: float, bound_by: str
) -> None:
    found = low_alarm(psi(fill_to), None if row is None else psi(row), PSI)

    assert found.pressure == psi(alarm)
    assert found.bound_by == bound_by
    assert run_flat_below(psi(fill_to), PSI) == psi(line)


def test_monitor_that_cannot_be_set_so_close_is_late() -> None:
    late = monitor_setting(psi(100), psi(80), psi(84))
    close = monitor_setting(psi(100), None, psi(84))

    assert (late.pressure, late.late, late.is_above_hot_flat) == (psi(80), psi(20), False)
    assert (close.pressure, close.late, close.is_above_hot_flat) == (psi(100), psi(0), True)


def test_demo_loads_find_their_rows_and_use() -> None:
    steer, drive = q(5744, "pound"), q(9499 / 2, "pound")

    rows = [row_for(SINGLE, steer), row_for(DUAL, drive)]
    used = [load_used(steer, SINGLE, psi(105)), load_used(drive, DUAL, psi(95))]

    assert [row and row.pressure.m for row in rows] == [100, 90]
    assert [share and round(float(share.m), 1) for share in used] == [96.1, 92.8]
    assert load_used(steer, SINGLE, psi(60)) is None


def test_reserve_is_the_cold_morning_allowance_under_the_cap() -> None:
    assert has_cold_morning_reserve(psi(100), psi(102))
    assert not has_cold_morning_reserve(psi(100), psi(101.9))
    assert not has_cold_morning_reserve(psi(120), psi(122.3))


def test_cap_names_every_part_of_a_tie_and_the_unknown() -> None:
    cap = pressure_cap(PressureLimits(psi(80), None, psi(80).to("kPa"), None))

    assert cap.bound_by == ("tire", "wheel")
    assert cap.unknown == ("valve",)


def test_tire_cap_is_the_lesser_of_table_and_stamp() -> None:
    assert pressure_cap(PressureLimits(psi(110), psi(105), psi(120), psi(110))).limit == psi(105)


def test_cap_of_nothing_known_is_not_known() -> None:
    cap = pressure_cap(PressureLimits(None, None, None, None))

    assert cap.limit is None
    assert cap.unknown == ("tire", "wheel", "valve")


def test_wheel_limits_the_load_as_well() -> None:
    cap = load_cap(LoadLimits(q(3415, "pound"), None, q(3042, "pound")))

    assert cap.bound_by == ("wheel",)
    assert load_over_cap(q(3042, "pound"), cap) is None
    assert load_over_cap(q(3100, "pound"), cap) == q(58, "pound")
    assert load_over_cap(q(3100, "pound"), load_cap(LoadLimits(None, None, None))) is None


def test_other_size_than_the_label_is_filled_for_the_axle_rating() -> None:
    assert pressure_for_rating(DUAL, q(19000, "pound"), 4) == psi(90)
    assert pressure_for_rating(DUAL, q(23000, "pound"), 4) is None


def test_trailer_without_label_keeps_the_stamped_pressure() -> None:
    assert trailer_label_pressure(psi(50), psi(65)) == psi(50)
    assert trailer_label_pressure(None, psi(65)) == psi(65)
    assert trailer_label_pressure(None, None) is None


def test_a_lifted_axle_has_the_first_row_of_its_family() -> None:
    rated = LoadRow(q(80, "psi"), q(3042, "pound"))

    assert estimated_row(q(-900, "pound"), rated, "light truck") == psi(35)


def test_estimate_of_a_load_over_the_stamp_is_none() -> None:
    rated = LoadRow(psi(80), q(3042, "pound"))

    assert estimated_row(q(3043, "pound"), rated, "light truck") is None
    assert estimated_row(q(3042, "pound"), rated, "light truck") == psi(80)


def test_estimate_does_not_go_below_what_its_family_has_tables_for() -> None:
    light = q(300, "pound")

    assert estimated_row(light, LoadRow(psi(80), q(3042, "pound")), "light truck") == psi(35)
    assert estimated_row(light, LoadRow(psi(110), q(6175, "pound")), "truck") == psi(55)


def test_metric_estimate_is_computed_in_psi() -> None:
    rated = LoadRow(q(550, "kPa"), q(1550, "kg"))

    assert estimated_row(q(1000, "kg"), rated, "special trailer") == psi(40)
    assert estimated_row(q(1549, "kg"), rated, "special trailer") == q(550, "kPa")
