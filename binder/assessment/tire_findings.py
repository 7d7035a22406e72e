"""Findings about cold inflation: what must not drive, what asks for attention, what is missing."""

from collections.abc import Iterator

from binder.assessment.figures import Finding, Ledger
from binder.assessment.inflation_rules import Inflation, cannot_carry_rating, is_other_size
from binder.assessment.tire_axle import TireAxle
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


def _overloads(axle: TireAxle) -> Iterator[Finding]:
    load, heaviest = axle.load_per_tire, axle.heaviest
    excess = load_over_cap(load, axle.load_limit) if load is not None else None
    if heaviest is None or excess is None:
        return
    state, end = heaviest
    parts = " and ".join(axle.load_limit.bound_by)
    side = f"{end.side} end" if end.side in {"left", "right"} else "heavier end"
    yield Finding(
        "do not drive",
        1,
        f"{axle.key}.load_per_tire",
        f"{axle.name}: {side} is {axle.wording.weight(excess, 'up')} a tire over the limit of its {parts}"
        f" ({state.state.title})",
        "take weight off this end or axle, carry less water, or fit tires and wheels rated for it",
    )


def _no_pressure(axle: TireAxle, inflation: Inflation) -> Iterator[Finding]:
    result, key = inflation.result, f"{axle.key}.set_point"
    if cannot_carry_rating(axle):
        yield Finding(
            "do not drive",
            2,
            key,
            f"{axle.name}: no legal pressure, the fitted tires cannot carry the axle's rating",
            "fit tires of the label's size and load range",
        )
    elif result.bound_by == "floor over cap":
        parts = " and ".join(axle.cap.bound_by)
        yield Finding(
            "do not drive",
            2,
            key,
            f"{axle.name}: no legal pressure, the floor is over what the {parts} may hold",
            "have tires, wheels and valves matched to the label by a tire service",
        )
    elif result.pressure is None and not axle.is_overloaded:
        yield Finding(
            "missing",
            2,
            key,
            f"{axle.name}: no pressure can be printed, neither label pressure nor load table is known",
            "read the label; get the tire maker's table",
        )
    elif _is_without_reserve(axle, inflation):
        yield Finding(
            "attention",
            2,
            key,
            f"{axle.name}: no reserve left, the cap leaves nothing over the row for a cold morning",
            "add air on cold mornings; carry less on this axle",
        )


def _is_without_reserve(axle: TireAxle, inflation: Inflation) -> bool:
    row, cap = inflation.row, axle.cap.limit
    return row is not None and cap is not None and not has_cold_morning_reserve(row, cap)


def _thin_reserves(axle: TireAxle, inflation: Inflation) -> Iterator[Finding]:
    result, load = inflation.result, axle.load_per_tire
    if result.pressure is not None and result.is_cut_short:
        yield Finding(
            "attention",
            2,
            f"{axle.key}.set_point",
            f"{axle.name}: the cap cuts the margin over the row short",
            "carry less on this axle, or fit parts rated for more",
        )
    if result.pressure is None or load is None or axle.table is None:
        return
    used = load_used(load, axle.table, result.pressure)
    if used is not None and used > LOAD_USED_ATTENTION.quantity:
        percent = axle.wording.percent(used, "up")
        yield Finding(
            "attention",
            2,
            f"{axle.key}.load_used",
            f"{axle.name}: its tires use {percent} of what they carry at the set-point",
            "move or leave weight; the heaviest state decides",
        )


def _mismatches(axle: TireAxle, inflation: Inflation) -> Iterator[Finding]:
    if is_other_size(axle):
        yield Finding(
            "attention",
            5,
            f"{axle.key}.label_pressure",
            f"{axle.name}: tires are {axle.tires.size} {axle.tires.load_range or ''}, "
            f"the label says {axle.axle.label_tires}",
            "ask a tire service; the floor is what carries the axle's rating",
        )
    may_fall = not axle.is_trailer and not axle.has_placard
    if axle.rig.basis == "weighed" and inflation.label_binds and may_fall:
        yield Finding(
            "attention",
            6,
            f"{axle.key}.label_pressure",
            f"{axle.name}: the label holds although the profile says weighed: {inflation.why_label}",
            "weigh every wheel end again, in travel state",
        )
    if inflation.row_kind == "estimate":
        yield Finding(
            "attention",
            5,
            f"{axle.key}.row_pressure",
            f"{axle.name}: the row is calculated, no load table is given",
            "get the maker's table for this exact size and load range",
        )


def _missing(axle: TireAxle, inflation: Inflation) -> Iterator[Finding]:
    def missing(order: int, entry: str, what: str, where: str) -> Finding:
        return Finding("missing", order, f"{axle.key}.{entry}", f"{axle.name}: {what} not known", where)

    if axle.axle.label_pressure is None:
        yield missing(5, "label_pressure", "label pressure", "read the label")
    elif inflation.label is None and not cannot_carry_rating(axle):
        needs = "pressure at which the fitted tires carry the axle's rating"
        yield missing(5, "label_pressure", needs, "get the maker's table, and the rating off the label")
    if axle.axle.label_tires is None:
        yield missing(5, "label_pressure", "the label's tire size", "read the label")
    for part in axle.cap.unknown:
        yield missing(2, "cap", f"highest pressure of the {part}", f"read it off the {part}")
    for part in axle.load_limit.unknown:
        yield missing(1, "load_per_tire", f"highest load of the {part}", f"read it off the {part}")
    if axle.tires.size is None:
        yield missing(5, "load_per_tire", "tire size", "read the sidewall")
