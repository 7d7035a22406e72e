"""Cold inflation of every axle: each number of the rule as a figure, each bad answer as a finding."""

from collections.abc import Iterator
from datetime import date

from binder.assessment.ledger import Fact, Figure, FigureKind, Finding, FindingKind, Input, Ledger, Phrase
from binder.assessment.tires import kinds
from binder.assessment.tires.axle import TireAxle, rolling_tire_axles
from binder.assessment.tires.inflation import (
    Inflation,
    cannot_carry_rating,
    enter_room,
    inflation_of,
    is_other_size,
    room_left,
    room_phrase,
)
from binder.assessment.weights.kinds import WEIGHED
from binder.assessment.weights.loads import StateLoads
from binder.calculations.bounds import is_at_least
from binder.calculations.tires.gas_law import FillPlan, TireState, fill_table
from binder.calculations.tires.inflation import (
    cold_morning_target,
    floor_pressure,
    has_cold_morning_reserve,
    load_used,
    low_alarm,
    monitor_setting,
    run_flat_below,
)
from binder.calculations.tires.limits import load_over_cap, speed_limit
from binder.calculations.tires.load_tables import row_for, slack_to_next_row
from binder.calculations.tires.pairs_and_age import hot_mates_apart
from binder.models.load import Profile
from binder.quantities import Quantity, registry
from binder.reference.constants import LOAD_USED_ATTENTION, PROCEDURE_CONSTANTS

FILL_TEMPERATURES = {
    "us": tuple(registry.Quantity(float(value), "degree_Fahrenheit") for value in range(30, 100, 10)),
    "metric": tuple(registry.Quantity(float(value), "degree_Celsius") for value in range(0, 36, 5)),
}


def cold_mornings(profile: Profile) -> list[tuple[TireState, str]]:
    """Cold mornings of the trip with the place of each."""
    mornings = []
    for travel_day in profile.trip.days if profile.trip else []:
        stop, night = travel_day.legs[-1].to, travel_day.night
        if night and night.low is not None and stop.elevation is not None:
            mornings.append((TireState(night.low, stop.elevation), stop.place))
    return mornings


def assess_fill_table(
    axle: TireAxle, profile: Profile, pressure: Quantity | None, target: Quantity | None, ledger: Ledger
) -> None:
    """Enter a figure for each cell of an axle's fill table; none where it is all set-point or unknown."""
    mornings = cold_mornings(profile)
    if pressure is None or target is None or not mornings:
        return
    highest = max(state.elevation for state, _ in mornings)
    plan = FillPlan(pressure, axle.cap.limit, target, tuple(state for state, _ in mornings), highest)
    table = fill_table(plan, FILL_TEMPERATURES[axle.rig.units], axle.step)
    places = {id(state): place for state, place in mornings}
    for cell in table.cells if not table.is_all_set_point else ():
        coldest = cell.decided_by
        place: dict[str, Fact] = {"place": places[id(coldest)]}
        inputs = (
            Input(kinds.STANDS_AT, target),
            Input(kinds.COLDEST_MORNING, coldest.temperature, facts=place),
            Input(kinds.ITS_ELEVATION, coldest.elevation, facts=place),
            Input(kinds.FILLED_AT, highest),
        )
        key = kinds.FILL_AT.of(*axle.subject, round(cell.tire_temperature.m))
        ledger.enter(Figure(key, cell.pressure, inputs, "cap" if cell.pressure is None else "fill"))


def assess_warmest_day(profile: Profile, ledger: Ledger) -> None:
    """Enter the warmest high of the trip, which limits how warm a tire in the shade can be."""
    nights = (
        [travel_day.night for travel_day in profile.trip.days if travel_day.night] if profile.trip else []
    )
    highs = [night.high for night in nights if night.high is not None]
    is_whole = bool(highs) and len(highs) == len(nights)
    case = "whole" if is_whole else ""
    ledger.enter(Figure(kinds.WARMEST_DAY.of(), max(highs) if is_whole else None, case=case))


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


def assess_tires(profile: Profile, on: date, states: tuple[StateLoads, ...], ledger: Ledger) -> None:
    """Enter the figures and findings of every axle's cold inflation."""
    assess_warmest_day(profile, ledger)
    for axle in rolling_tire_axles(profile.rig, states):
        inflation = inflation_of(axle, profile, on)
        _enter_load(axle, ledger)
        _enter_row(axle, inflation, ledger)
        enter_room(axle, inflation, ledger)
        _enter_label(axle, inflation, ledger)
        _enter_set_point(axle, inflation, ledger)
        _enter_cap(axle, ledger)
        _enter_lines(axle, inflation, ledger)
        _enter_use(axle, inflation, ledger)
        assess_fill_table(axle, profile, inflation.result.pressure, _morning_target(axle, inflation), ledger)
        ledger.find(*_overloads(axle), *_no_pressure(axle, inflation), *_thin_reserves(axle, inflation))
        ledger.find(*_mismatches(axle, inflation), *_missing(axle, inflation))


def _morning_target(axle: TireAxle, inflation: Inflation) -> Quantity | None:
    """What must stand in the tire on a cold morning: the placard, else the row and the gauge's error."""
    if axle.has_placard and not axle.table:
        return inflation.label
    return None if inflation.row is None else cold_morning_target(inflation.row)


def _enter_load(axle: TireAxle, ledger: Ledger) -> None:
    inputs: tuple[Input, ...] = ()
    if axle.heaviest:
        state, end = axle.heaviest
        known: dict[str, Fact] = {
            "end": axle.heaviest_end,
            "state": state.state.title,
            "knowledge": WEIGHED[end.weighed],
            "by": end.rule,
        }
        tires = Input(kinds.TIRES_ON_END, axle.axle.tires_each_end, axle.place("fitment"))
        inputs = (Input(kinds.WHEEL_END, end.end, facts=known), tires)
    is_weighed = axle.heaviest is not None and axle.heaviest[1].weighed == "ends"
    case = "weighed" if is_weighed else "assumed"
    key = kinds.LOAD_PER_TIRE.of(*axle.subject)
    ledger.enter(Figure(key, axle.load_per_tire, inputs, case, slack=_row_slack(axle)))


def _row_slack(axle: TireAxle) -> Phrase | None:
    if axle.table is None or axle.load_per_tire is None:
        return None
    slack = slack_to_next_row(axle.table, axle.load_per_tire)
    return None if slack is None else room_left(slack, kinds.NEXT_ROW)


def _enter_row(axle: TireAxle, inflation: Inflation, ledger: Ledger) -> None:
    table = axle.tires.table
    inputs = (
        Input(kinds.LOAD_PER_TIRE_INPUT, axle.load_per_tire, kinds.LOAD_PER_TIRE.of(*axle.subject)),
        Input(kinds.LOAD_TABLE, table.origin if table else kinds.NONE_GIVEN),
        *_rows_around(axle),
    )
    facts = {what: PROCEDURE_CONSTANTS[f"estimate {what}"] for what in ("more", "step")}
    key = kinds.ROW_PRESSURE.of(*axle.subject)
    ledger.enter(Figure(key, inflation.row, inputs, inflation.row_kind, facts, _row_slack(axle)))


def _rows_around(axle: TireAxle) -> Iterator[Input]:
    """The row that was chosen, and the one below it that was not enough."""
    if axle.table is None or axle.load_per_tire is None:
        return
    chosen = row_for(axle.table, axle.load_per_tire)
    below = [row for row in axle.table.rows if not is_at_least(row.load, axle.load_per_tire)]
    for kind, row in ((kinds.ROW_CHOSEN, chosen), (kinds.ROW_BELOW, below[-1] if below else None)):
        if row is not None:
            yield Input(kind, row.pressure, facts={"load": row.load})


def _enter_label(axle: TireAxle, inflation: Inflation, ledger: Ledger) -> None:
    given = axle.axle.label_pressure
    inputs = [Input(kinds.LABEL, given, axle.place("label_pressure"))]
    case = "label"
    if is_other_size(axle):
        case = "other size"
        inputs.append(Input(kinds.RATING_NEEDED, axle.axle.rating, axle.place("rating")))
    elif given is None and inflation.label is not None:
        case = "stamped"
    binds = kinds.BINDS if inflation.label_binds else kinds.BINDS_NOT
    facts: dict[str, Fact] = {"binds": binds, "why": inflation.why_label}
    ledger.enter(Figure(kinds.LABEL_PRESSURE.of(*axle.subject), inflation.label, tuple(inputs), case, facts))


def _enter_cap(axle: TireAxle, ledger: Ledger) -> None:
    wheels, cap = axle.wheels, axle.cap
    inputs = (
        Input(kinds.LAST_ROW, axle.table.rows[-1].pressure if axle.table else None),
        Input(kinds.STAMPED, axle.tires.sidewall.maximum_pressure),
        Input(kinds.WHEEL, wheels.maximum_pressure),
        Input(kinds.VALVE, wheels.valve_maximum_pressure),
    )
    case = "some unknown" if cap.unknown else "all known"
    facts: dict[str, Fact] = {"bound": cap.bound_by or (kinds.NONE_KNOWN,), "unknown": cap.unknown}
    ledger.enter(Figure(kinds.CAP.of(*axle.subject), cap.limit, inputs, case, facts))


def _enter_set_point(axle: TireAxle, inflation: Inflation, ledger: Ledger) -> None:
    result, subject = inflation.result, axle.subject
    floor = floor_pressure(inflation.row, inflation.label if inflation.label_binds else None)
    inputs = (
        Input(kinds.ROW_INPUT, inflation.row, kinds.ROW_PRESSURE.of(*subject)),
        Input(kinds.LABEL_INPUT, inflation.label, kinds.LABEL_PRESSURE.of(*subject)),
        Input(kinds.MARGIN, inflation.margin),
        Input(kinds.CAP_INPUT, axle.cap.limit, kinds.CAP.of(*subject)),
    )
    bound = {"bound": floor.bound_by}
    ledger.enter(Figure(kinds.FLOOR_PRESSURE.of(*subject), floor.pressure, inputs[:2], facts=bound))
    leave = None if result.pressure is None else axle.cap.limit
    slack = room_phrase(axle, inflation)
    is_set_aside = inflation.label is not None and not inflation.label_binds
    aside = Phrase(kinds.LABEL_SET_ASIDE, {"why": inflation.why_label})
    among = {"among": aside if is_set_aside else kinds.LARGER}
    for kind, value in (
        (kinds.SET_POINT, result.pressure),
        (kinds.ADD_IF_BELOW, result.pressure),
        (kinds.LEAVE_UP_TO, leave),
    ):
        ledger.enter(Figure(kind.of(*subject), value, inputs, result.bound_by, among, slack))


def _enter_lines(axle: TireAxle, inflation: Inflation, ledger: Ledger) -> None:
    pressure, subject = inflation.result.pressure, axle.subject
    given = Input(kinds.SET_POINT_INPUT, pressure, kinds.SET_POINT.of(*subject))
    line = None if pressure is None else run_flat_below(pressure, axle.step)
    ledger.enter(Figure(kinds.RUN_FLAT_BELOW.of(*subject), line, (given,)))
    alarm = None if pressure is None else low_alarm(pressure, inflation.row, axle.step)
    apart = None if pressure is None else hot_mates_apart(pressure)
    ledger.enter(Figure(kinds.HOT_MATES_APART.of(*subject), apart, (given,)))
    row = Input(kinds.ROW_INPUT, inflation.row, kinds.ROW_PRESSURE.of(*subject))
    ledger.enter(Figure(kinds.LOW_ALARM.of(*subject), alarm.pressure if alarm else None, (given, row)))
    if alarm and line is not None and pressure is not None:
        _enter_monitor(axle, pressure, alarm.pressure, line, ledger)


def _enter_monitor(
    axle: TireAxle, pressure: Quantity, alarm: Quantity, line: Quantity, ledger: Ledger
) -> None:
    monitor = axle.monitor
    if monitor is None or monitor.closest_low_alarm is None:
        return
    setting = monitor_setting(alarm, pressure * monitor.closest_low_alarm.to("").m, line)
    key, late = kinds.MONITOR_SETTING.of(*axle.subject), {"late": setting.late}
    share = Input(kinds.CLOSEST_ALARM, monitor.closest_low_alarm)
    ledger.enter(Figure(key, setting.pressure, (share,), facts=late))
    if setting.late.m > 0:
        ledger.find(Finding(kinds.MONITOR_LATE, key, late))
    if not setting.is_above_run_flat:
        ledger.find(Finding(kinds.MONITOR_BELOW_RUN_FLAT, key))


def _enter_use(axle: TireAxle, inflation: Inflation, ledger: Ledger) -> None:
    pressure, load, table = inflation.result.pressure, axle.load_per_tire, axle.table
    used = load_used(load, table, pressure) if pressure is not None and load is not None and table else None
    there = Input(kinds.LOAD_SEEN_THERE, origin=kinds.LOAD_PER_TIRE.of(*axle.subject))
    ledger.enter(Figure(kinds.LOAD_USED.of(*axle.subject), used, (there,)))
    limit = speed_limit(axle.tires.maximum_speed, axle.tires.family)
    case = "by its family" if limit and limit.is_assumed else "rated"
    key = kinds.SPEED_LIMIT.of(*axle.subject)
    ledger.enter(Figure(key, limit.speed if limit else None, (Input(kinds.TIRE, axle.tires.size),), case))
