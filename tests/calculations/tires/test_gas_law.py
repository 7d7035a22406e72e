import pytest

from binder.calculations.tires.gas_law import (
    FillPlan,
    TireState,
    atmospheric_pressure,
    fill_table,
    fill_today,
    pressure_after,
)
from binder.calculations.tires.inflation import cold_morning_target
from binder.quantities import registry
from tests.published.kinds import check

q = registry.Quantity
PSI = q(1, "psi")
HIGH = q(6240, "foot")
COLDEST = TireState(q(24, "degF"), HIGH)


def cells(plan: FillPlan) -> list[float | None]:
    table = fill_table(plan, [q(float(value), "degF") for value in range(30, 91, 10)], PSI)
    return [None if cell.pressure is None else float(cell.pressure.m) for cell in table.cells]


def plan(set_point: float, cap: float, target: float) -> FillPlan:
    return FillPlan(q(set_point, "psi"), q(cap, "psi"), q(target, "psi"), (COLDEST,), HIGH)


@pytest.mark.parametrize(
    ("axle", "expected"),
    [
        (plan(105, 110, 102), [105, 106, 109, None, None, None, None]),
        (plan(95, 110, 92), [95, 96, 98, 100, 102, 105, 107]),
        (plan(33, 44, 33), [34, 35, 36, 37, 38, 39, 40]),
    ],
    ids=["steer, row 100", "drive, row 90", "car, placard 33"],
)
def test_fill_table_is_as_worked_by_hand(axle: FillPlan, expected: list[float | None]) -> None:
    """Worked beforehand for the demo: 24 F at 6,240 ft. A placard carries no gauge allowance."""
    assert cells(axle) == expected


def test_targets_of_the_demo_are_the_rows_and_2_psi() -> None:
    targets = [cold_morning_target(q(row, "psi")).to("psi").m for row in (100.0, 90.0)]

    assert targets == pytest.approx([102, 92])


def test_table_that_is_all_set_point_says_so() -> None:
    roomy = FillPlan(q(80, "psi"), q(80, "psi"), q(62, "psi"), (COLDEST,), HIGH)

    assert fill_table(roomy, [q(30, "degF"), q(90, "degF")], PSI).is_all_set_point
    assert not fill_table(plan(95, 110, 92), [q(30, "degF"), q(90, "degF")], PSI).is_all_set_point


def test_warmer_morning_low_down_may_decide() -> None:
    """Denser air outside takes 3 psi off the gauge, more than 10 F of warmth gives back."""
    low = TireState(q(34, "degF"), q(520, "foot"))
    both = FillPlan(q(105, "psi"), q(110, "psi"), q(102, "psi"), (COLDEST, low), HIGH)

    cell = fill_today(both, q(40, "degF"), PSI)

    assert cell.decided_by is low
    assert cell.pressure == q(107, "psi")


def test_cell_in_kilopascals_goes_up_to_the_next_5() -> None:
    cell = fill_today(plan(95, 110, 92), q(40, "degF"), q(5, "kPa"))

    assert cell.pressure == q(660, "kPa")


@pytest.mark.parametrize("feet", [-17000, 37000])
def test_elevation_outside_the_lowest_layer_is_refused(feet: float) -> None:
    with pytest.raises(ValueError, match="does not reach"):
        atmospheric_pressure(q(feet, "foot"))


def test_nothing_changes_where_nothing_changed() -> None:
    state = TireState(q(70, "degF"), q(3000, "foot"))

    assert pressure_after(q(95, "psi"), state, state).m == pytest.approx(95)


@check("USSA1976", "published")
def test_climb_of_8000_ft_reads_as_the_printed_table_says() -> None:
    """USSA1976: 3.7788 psi less air outside; the reading rises by that."""
    sea, high = (TireState(q(60, "degF"), q(feet, "foot")) for feet in (0, 8000))

    assert pressure_after(q(100, "psi"), sea, high).m == pytest.approx(103.7788, abs=0.0001)


def test_storage_from_70_to_minus_20_leaves_81_percent() -> None:
    """A truck tire at 100 psi: near the run-flat line without a leak."""
    sea = q(0, "foot")
    warm, cold = TireState(q(70, "degF"), sea), TireState(q(-20, "degF"), sea)

    assert pressure_after(q(100, "psi"), warm, cold).m == pytest.approx(80.5, abs=0.05)


def test_plan_without_a_morning_is_refused() -> None:
    with pytest.raises(ValueError, match="at least one cold morning"):
        FillPlan(PSI, None, PSI, (), HIGH)
