"""Safety properties of the printed cell, over any table, load and limit."""

from dataclasses import dataclass, replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from binder.calculations.bounds import is_at_least, rounded_up
from binder.calculations.tires.gas_law import FillPlan, TireState, fill_today, pressure_after
from binder.calculations.tires.inflation import (
    Demand,
    SetPoint,
    cold_morning_target,
    low_alarm,
    over_by_assumption,
    run_flat_below,
    set_point,
)
from binder.calculations.tires.load_tables import (
    Family,
    LoadRow,
    LoadTable,
    curve_pressure,
    estimated_row,
    family_exponent,
    load_carried,
    row_for,
)
from binder.quantities import Quantity, registry
from tests.printed_tables import table_from

q = registry.Quantity
STEPS = [q(1, "psi"), q(5, "kPa")]
# A gauge shows no less than a hundredth of a psi; float noise is far below that.
NOISE = q(1e-6, "psi")
# A busy machine is no defect.
patient = settings(deadline=None)


@st.composite
def tables(draw: st.DrawFn) -> LoadTable:
    """Any rising table, in psi and pounds or in kPa and kilograms."""
    is_metric = draw(st.booleans())
    size = draw(st.integers(1, 12))
    start, step = draw(st.integers(15, 70)), draw(st.integers(1, 10))
    loads = draw(st.lists(st.integers(200, 9000), min_size=size, max_size=size, unique=True))
    factor = 6.895 if is_metric else 1.0
    pressures = [(start + step * number) * factor for number in range(size)]
    units = ("kPa", "kg") if is_metric else ("psi", "pound")
    return table_from(zip(pressures, sorted(loads), strict=True), *units)


steps = st.sampled_from(STEPS)
pounds = st.floats(1, 9500).map(lambda value: q(value, "pound"))
margins = st.integers(0, 10).map(lambda value: q(value, "psi"))
labels = st.none() | st.floats(20, 120).map(lambda value: q(value, "psi"))
caps = st.none() | st.floats(20, 140).map(lambda value: q(value, "psi"))


@dataclass(frozen=True)
class Axle:
    """One axle's inputs."""

    table: LoadTable
    label: Quantity | None
    margin: Quantity
    cap: Quantity | None
    step: Quantity

    def printed(self, load: Quantity) -> SetPoint:
        row = row_for(self.table, load)
        if row is None:
            return SetPoint(None, "no floor")
        return set_point(Demand(row.pressure, self.label, self.margin), self.cap, self.step)


axles = st.builds(Axle, tables(), labels, margins, caps, steps)


@patient
@given(axles, pounds)
def test_printed_pressure_carries_the_load_and_passes_no_cap(axle: Axle, load: Quantity) -> None:
    printed = axle.printed(load).pressure
    assume(printed is not None)
    assert printed is not None

    carried = load_carried(axle.table, printed)

    assert carried is not None
    assert is_at_least(carried, load)
    assert axle.cap is None or is_at_least(axle.cap, printed)
    assert axle.label is None or is_at_least(printed, axle.label)


@patient
@given(axles, pounds)
def test_printed_pressure_is_whole_steps_or_the_floor_itself(axle: Axle, load: Quantity) -> None:
    printed, row = axle.printed(load).pressure, row_for(axle.table, load)
    assume(printed is not None)
    assert printed is not None

    in_steps = printed.to(axle.step.units).m / axle.step.m

    assert in_steps == round(in_steps) or printed in {row and row.pressure, axle.label}


@patient
@given(axles, pounds, pounds)
def test_heavier_never_prints_lower(axle: Axle, one: Quantity, other: Quantity) -> None:
    light, heavy = sorted([one, other])
    lower, higher = axle.printed(light).pressure, axle.printed(heavy).pressure
    assume(higher is not None)
    assert higher is not None

    assert lower is not None
    assert is_at_least(higher, lower)


@st.composite
def under_a_cap(draw: st.DrawFn) -> tuple[Axle, Quantity]:
    """An axle with a cap, and a load that is mostly filled below it."""
    axle = draw(axles)
    row = draw(st.sampled_from(axle.table.rows))
    needed = max(row.pressure, axle.label or row.pressure) + axle.margin
    cap = needed * draw(st.just(1.0) | st.floats(1, 1.5))
    return replace(axle, cap=cap), row.load * draw(st.floats(0.5, 1))


@patient
@given(under_a_cap())
def test_what_only_an_assumption_puts_over_the_cap_is_filled_no_lower_than_what_is_under_it(
    loaded: tuple[Axle, Quantity],
) -> None:
    axle, load = loaded
    under = axle.printed(load).pressure
    assume(under is not None)
    assert under is not None

    over = over_by_assumption(axle.label, axle.cap).pressure

    assert over is not None
    assert is_at_least(over, under)


@patient
@given(axles, pounds)
def test_alarm_stands_over_the_run_flat_line_and_the_row(axle: Axle, load: Quantity) -> None:
    row, printed = row_for(axle.table, load), axle.printed(load).pressure
    assume(row is not None and printed is not None)
    assert row is not None
    assert printed is not None

    alarm = low_alarm(printed, row.pressure, axle.step).pressure

    assert alarm > run_flat_below(printed, axle.step)
    assert is_at_least(alarm, row.pressure)
    assert is_at_least(alarm, printed * 0.85)


temperatures = st.floats(-40, 120).map(lambda value: q(value, "degF"))
elevations = st.floats(-280, 12000).map(lambda value: q(value, "foot"))
mornings = st.lists(st.builds(TireState, temperatures, elevations), min_size=1, max_size=4)


@patient
@given(axles, pounds, mornings, temperatures)
def test_tire_filled_to_the_printed_cell_stands_at_the_target_every_cold_morning(
    axle: Axle, load: Quantity, cold: list[TireState], tire: Quantity
) -> None:
    row, printed = row_for(axle.table, load), axle.printed(load).pressure
    assume(row is not None and printed is not None)
    assert row is not None
    assert printed is not None
    target = cold_morning_target(row.pressure)
    highest = max(morning.elevation for morning in cold)
    plan = FillPlan(printed, axle.cap, target, tuple(cold), highest)

    cell = fill_today(plan, tire, axle.step)

    if cell.pressure is None:
        assert axle.cap is not None
        assert not is_at_least(axle.cap, rounded_up(cell.needed, axle.step))
        return
    assert is_at_least(cell.pressure, printed)
    assert axle.cap is None or is_at_least(axle.cap, cell.pressure)
    for morning in cold:
        then = pressure_after(cell.pressure, TireState(tire, highest), morning)
        assert is_at_least(then + NOISE, target)


@patient
@given(mornings, temperatures, elevations)
def test_fill_is_safe_at_every_lower_place(cold: list[TireState], tire: Quantity, lower: Quantity) -> None:
    highest = max(morning.elevation for morning in cold)
    assume(lower <= highest)
    plan = FillPlan(q(60, "psi"), None, q(60, "psi"), tuple(cold), highest)
    cell = fill_today(plan, tire, q(1, "psi")).pressure
    assert cell is not None

    for morning in cold:
        then = pressure_after(cell, TireState(tire, lower), morning)
        assert is_at_least(then + NOISE, plan.target)


@pytest.mark.parametrize("family", ["light truck", "special trailer", "passenger P", "european commercial"])
@patient
@given(share=st.floats(0.05, 1.0), rated=st.floats(1000, 7000))
def test_estimate_is_over_the_curve_and_not_over_the_stamp(
    family: Family, share: float, rated: float
) -> None:
    point = LoadRow(q(80, "psi"), q(rated, "pound"))
    load = q(rated * share, "pound")

    estimate = estimated_row(load, point, family)

    assert estimate is not None
    assert is_at_least(point.pressure, estimate)
    assert is_at_least(estimate, curve_pressure(load, point, family_exponent(family)))
