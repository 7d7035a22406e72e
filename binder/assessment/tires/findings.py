"""Findings about cold inflation: what must not drive, what asks for attention, what is missing."""

from collections.abc import Iterator

from binder.assessment.ledger import Fact, FigureKind, Finding, FindingKind, Ledger
from binder.assessment.tires import kinds
from binder.assessment.tires.axle import TireAxle
from binder.assessment.tires.inflation import Inflation, cannot_carry_rating, is_other_size
from binder.calculations.tires.inflation import has_cold_morning_reserve, load_used
from binder.calculations.tires.limits import load_over_cap
from binder.reference.constants import LOAD_USED_ATTENTION


def find_pressure_findings(axle: TireAxle, inflation: Inflation, ledger: Ledger) -> None:
    """Enter the findings of one axle's cold inflation."""
    for finding in [
        *_overloads(axle),
        *_no_pressure(axle, inflation),
        *_thin_reserves(axle, inflation),
        *_mismatches(axle, inflation),
        *_missing(axle, inflation),
    ]:
        ledger.find(finding)


def _found(axle: TireAxle, kind: FindingKind, about: FigureKind, **facts: Fact) -> Finding:
    return Finding(kind, about.of(*axle.subject), facts)


def _overloads(axle: TireAxle) -> Iterator[Finding]:
    load, heaviest = axle.load_per_tire, axle.heaviest
    excess = load_over_cap(load, axle.load_limit) if load is not None else None
    if heaviest is None or excess is None:
        return
    facts: dict[str, Fact] = {"end": axle.heaviest_end, "state": heaviest[0].state.title, "excess": excess}
    yield _found(axle, kinds.OVERLOADED, kinds.LOAD_PER_TIRE, parts=axle.load_limit.bound_by, **facts)


def _no_pressure(axle: TireAxle, inflation: Inflation) -> Iterator[Finding]:
    result = inflation.result
    if cannot_carry_rating(axle):
        yield _found(axle, kinds.CANNOT_CARRY_RATING, kinds.SET_POINT)
    elif result.bound_by == "floor over cap":
        yield _found(axle, kinds.FLOOR_OVER_CAP, kinds.SET_POINT, parts=axle.cap.bound_by)
    elif result.pressure is None and not axle.is_overloaded:
        yield _found(axle, kinds.NO_PRESSURE, kinds.SET_POINT)
    elif _is_without_reserve(axle, inflation):
        yield _found(axle, kinds.NO_RESERVE, kinds.SET_POINT)


def _is_without_reserve(axle: TireAxle, inflation: Inflation) -> bool:
    row, cap = inflation.row, axle.cap.limit
    return row is not None and cap is not None and not has_cold_morning_reserve(row, cap)


def _thin_reserves(axle: TireAxle, inflation: Inflation) -> Iterator[Finding]:
    result, load = inflation.result, axle.load_per_tire
    if result.pressure is not None and result.is_cut_short:
        yield _found(axle, kinds.MARGIN_CUT_SHORT, kinds.SET_POINT)
    if result.pressure is None or load is None or axle.table is None:
        return
    used = load_used(load, axle.table, result.pressure)
    if used is not None and used > LOAD_USED_ATTENTION.quantity:
        yield _found(axle, kinds.LOAD_USED_HIGH, kinds.LOAD_USED, value=used)


def _mismatches(axle: TireAxle, inflation: Inflation) -> Iterator[Finding]:
    if is_other_size(axle):
        fitted: dict[str, Fact] = {"size": axle.tires.size, "load_range": axle.tires.load_range or ""}
        yield _found(axle, kinds.OTHER_SIZE, kinds.LABEL_PRESSURE, label=axle.axle.label_tires, **fitted)
    may_fall = not axle.is_trailer and not axle.has_placard
    if axle.rig.basis == "weighed" and inflation.label_binds and may_fall:
        yield _found(axle, kinds.LABEL_HOLDS, kinds.LABEL_PRESSURE, why=inflation.why_label)
    if inflation.row_kind == "estimate":
        yield _found(axle, kinds.ROW_CALCULATED, kinds.ROW_PRESSURE)


def _missing(axle: TireAxle, inflation: Inflation) -> Iterator[Finding]:
    if axle.axle.label_pressure is None:
        yield _found(axle, kinds.LABEL_PRESSURE_UNKNOWN, kinds.LABEL_PRESSURE)
    elif inflation.label is None and not cannot_carry_rating(axle):
        yield _found(axle, kinds.PRESSURE_FOR_RATING_UNKNOWN, kinds.LABEL_PRESSURE)
    if axle.axle.label_tires is None:
        yield _found(axle, kinds.LABEL_SIZE_UNKNOWN, kinds.LABEL_PRESSURE)
    for part in axle.cap.unknown:
        yield _found(axle, kinds.HIGHEST_PRESSURE_UNKNOWN, kinds.CAP, part=part)
    for part in axle.load_limit.unknown:
        yield _found(axle, kinds.HIGHEST_LOAD_UNKNOWN, kinds.LOAD_PER_TIRE, part=part)
    if axle.tires.size is None:
        yield _found(axle, kinds.SIZE_UNKNOWN, kinds.LOAD_PER_TIRE)
