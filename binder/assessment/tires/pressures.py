"""Cold inflation of every axle: each number of the rule as a figure, each bad answer as a finding."""

from collections.abc import Iterator
from datetime import date
from typing import NamedTuple

from binder.assessment.ledger import Fact, Figure, FigureKind, Finding, FindingKind, Input, Ledger, Phrase
from binder.assessment.tires import kinds
from binder.assessment.tires.axle import TireAxle, rolling_tire_axles
from binder.assessment.tires.inflation import (
    Inflation,
    cannot_carry_rating,
    enter_room,
    inflation_of,
    room_left,
    room_phrase,
)
from binder.assessment.weights.kinds import WEIGHED
from binder.assessment.weights.loads import StateLoads
from binder.calculations.bounds import is_at_least
from binder.calculations.tires.gas_law import FillPlan, TireState, fill_table, hot_flat_line
from binder.calculations.tires.inflation import (
    cold_morning_target,
    floor_pressure,
    has_cold_morning_reserve,
    load_used,
    low_alarm,
    monitor_setting,
    run_flat_below,
)
from binder.calculations.tires.limits import speed_limit
from binder.calculations.tires.load_tables import row_for, slack_to_next_row
from binder.calculations.tires.pairs_and_age import hot_mates_apart
from binder.models.load import Profile
from binder.quantities import Quantity, registry
from binder.reference.constants import HOT_RISES, LOAD_USED_ATTENTION, MOST_HOT_RISE, PROCEDURE_CONSTANTS

FILL_TEMPERATURES = {
    "us": tuple(registry.Quantity(float(value), "degree_Fahrenheit") for value in range(30, 100, 10)),
    "metric": tuple(registry.Quantity(float(value), "degree_Celsius") for value in range(0, 36, 5)),
}


class ColdMornings(NamedTuple):
    """Every cold morning of the trip with its place, the highest place of a fill, and what is not known."""

    known: tuple[tuple[TireState, str], ...]
    fill_elevation: Quantity | None
    unknown: tuple[str, ...]


def cold_mornings(profile: Profile) -> ColdMornings:
    """Mornings after the nights of the plan; air is added there, or before leaving."""
    known, elevations, unknown = [], [], []
    days = profile.trip.days if profile.trip else []
    for travel_day in days:
        stop, night = travel_day.legs[-1].to, travel_day.night
        if travel_day.origin is not None:
            elevations.append(travel_day.origin.elevation)
            unknown += [travel_day.origin.place] if travel_day.origin.elevation is None else []
        if night is None and travel_day is days[-1]:
            continue
        elevations.append(stop.elevation)
        if night and night.low is not None and stop.elevation is not None:
            known.append((TireState(night.low, stop.elevation), stop.place))
        else:
            unknown.append(stop.place)
    highest = max((one for one in elevations if one is not None), default=None)
    return ColdMornings(tuple(known), highest, tuple(dict.fromkeys(unknown)))


def assess_fill_table(
    axle: TireAxle,
    mornings: ColdMornings,
    pressure: Quantity | None,
    target: Quantity | None,
    ledger: Ledger,
) -> None:
    """Enter a figure for each cell of an axle's fill table; none where it is all set-point or unknown."""
    highest = mornings.fill_elevation
    if pressure is None or target is None or not mornings.known or mornings.unknown or highest is None:
        return
    # Nothing over the set-point is told where the tire's own limit was never read.
    cap = pressure if "tire" in axle.cap.unknown else axle.cap.limit
    plan = FillPlan(pressure, cap, target, tuple(state for state, _ in mornings.known), highest)
    table = fill_table(plan, FILL_TEMPERATURES[axle.rig.units], axle.step)
    places = {id(state): place for state, place in mornings.known}
    for cell in table.cells if not table.is_all_set_point else ():
        worst = cell.decided_by
        place: dict[str, Fact] = {"place": places[id(worst)]}
        inputs = (
            Input(kinds.STANDS_AT, target),
            Input(kinds.WORST_MORNING, worst.temperature, facts=place),
            Input(kinds.ITS_ELEVATION, worst.elevation, facts=place),
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
    part = facts.get("part")
    return Finding(kind, about.of(*axle.subject), {**axle.fitted, **facts}, str(part or ""))


def _assumed(axle: TireAxle) -> dict[str, Fact]:
    """What a verdict that rests on an assumed share says of it."""
    by = axle.heaviest_known[1].rule if axle.heaviest_known else None
    return {"each": axle.least_load_per_tire, "by": by, "parts": axle.cap.bound_by}


def _overloads(axle: TireAxle) -> Iterator[Finding]:
    over = axle.overload
    if over is None:
        return
    facts: dict[str, Fact] = {
        "end": axle.end_of(over.load),
        "state": over.state.state.title,
        "excess": over.excess,
        **_assumed(axle),
        "parts": axle.load_limit.bound_by,
    }
    case = "assumed" if over.is_assumed else ""
    yield Finding(kinds.OVERLOADED, kinds.LOAD_PER_TIRE.of(*axle.subject), facts, case)


def _no_pressure(axle: TireAxle, inflation: Inflation) -> Iterator[Finding]:
    result = inflation.result
    weak = cannot_carry_rating(axle)
    if weak:
        yield Finding(kinds.CANNOT_CARRY_RATING, kinds.SET_POINT.of(*axle.subject), case=weak)
    if weak == "never":
        return
    if result.bound_by == "floor over cap":
        yield _found(axle, kinds.FLOOR_OVER_CAP, kinds.SET_POINT, parts=axle.cap.bound_by)
    elif result.pressure is None and (axle.overload is None or axle.overload.is_assumed):
        case = "label" if result.bound_by == "label not known" else ""
        facts: dict[str, Fact] = {
            "place": axle.place("rating" if axle.label_match == "another" else "label_pressure")
        }
        yield Finding(kinds.NO_PRESSURE, kinds.SET_POINT.of(*axle.subject), facts, case)
    elif result.bound_by == "assumed over cap" and axle.overload is None:
        yield _found(axle, kinds.ROW_OVER_CAP_BY_ASSUMPTION, kinds.SET_POINT, **_assumed(axle))
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
    if axle.label_match == "another":
        fitted: dict[str, Fact] = {"size": axle.tires.size, "load_range": axle.tires.load_range or ""}
        yield _found(axle, kinds.OTHER_SIZE, kinds.LABEL_PRESSURE, label=axle.axle.label_tires, **fitted)
    may_fall = not axle.is_trailer and not axle.has_placard
    if axle.rig.basis == "weighed" and inflation.label_binds and may_fall:
        yield _found(axle, kinds.LABEL_HOLDS, kinds.LABEL_PRESSURE, why=inflation.why_label)
    if inflation.row_kind == "estimate":
        yield _found(axle, kinds.ROW_CALCULATED, kinds.ROW_PRESSURE)


def _missing(axle: TireAxle, inflation: Inflation) -> Iterator[Finding]:
    if axle.axle.label_pressure is None:
        case = "stamped" if _is_stamped(axle, inflation) else ""
        yield _found(axle, kinds.LABEL_PRESSURE_UNKNOWN, kinds.LABEL_PRESSURE)._replace(case=case)
    elif inflation.label is None and cannot_carry_rating(axle) != "never":
        yield _found(axle, kinds.PRESSURE_FOR_RATING_UNKNOWN, kinds.LABEL_PRESSURE)
    if axle.label_match == "not known" and axle.axle.label_tires and axle.tires.size:
        yield _found(axle, kinds.LOAD_RANGE_UNKNOWN, kinds.LABEL_PRESSURE)
    if axle.axle.label_tires is None:
        yield _found(axle, kinds.LABEL_SIZE_UNKNOWN, kinds.LABEL_PRESSURE)
    for part in axle.cap.unknown:
        yield _found(axle, kinds.HIGHEST_PRESSURE_UNKNOWN, kinds.CAP, part=part)
    for part in axle.load_limit.unknown:
        fitment = axle.axle.fitment
        yield _found(axle, kinds.HIGHEST_LOAD_UNKNOWN, kinds.LOAD_PER_TIRE, part=part, fitment=fitment)
    if axle.tires.size is None:
        yield _found(axle, kinds.SIZE_UNKNOWN, kinds.LOAD_PER_TIRE)


def assess_tires(profile: Profile, on: date, states: tuple[StateLoads, ...], ledger: Ledger) -> None:
    """Enter the figures and findings of every axle's cold inflation."""
    assess_warmest_day(profile, ledger)
    mornings = cold_mornings(profile)
    if mornings.unknown:
        ledger.find(
            Finding(kinds.MORNINGS_UNKNOWN, kinds.MORNINGS_UNKNOWN.of(), {"places": mornings.unknown})
        )
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
        assess_fill_table(axle, mornings, inflation.result.pressure, _morning_target(axle, inflation), ledger)
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
            "end": axle.end_of(end),
            "state": state.state.title,
            "knowledge": WEIGHED[end.weighed],
            "by": end.rule,
        }
        tires = Input(kinds.TIRES_ON_END, axle.axle.tires_each_end, axle.place("fitment"))
        inputs = (Input(kinds.WHEEL_END, end.end, facts=known), tires)
    is_each = axle.heaviest is not None and axle.heaviest[1].weighed == "ends"
    case = "weighed" if is_each else "assumed" if axle.is_weighed else "not weighed"
    key = kinds.LOAD_PER_TIRE.of(*axle.subject)
    # What is taken where nothing was weighed is no load.
    load = axle.load_per_tire if axle.is_weighed else None
    ledger.enter(Figure(key, load, inputs, case, slack=_row_slack(axle)))


def _row_slack(axle: TireAxle) -> Phrase | None:
    if axle.table is None or axle.load_per_tire is None or not axle.is_weighed:
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
    if axle.label_match == "another":
        case = "other size"
        inputs.append(Input(kinds.RATING_NEEDED, axle.axle.rating, axle.place("rating")))
    elif _is_stamped(axle, inflation):
        case = "stamped"
    binds = kinds.BINDS if inflation.label_binds else kinds.BINDS_NOT
    facts: dict[str, Fact] = {"binds": binds, "why": inflation.why_label}
    label = None if case == "stamped" else inflation.label
    ledger.enter(Figure(kinds.LABEL_PRESSURE.of(*axle.subject), label, tuple(inputs), case, facts))


def _is_stamped(axle: TireAxle, inflation: Inflation) -> bool:
    """The trailer's label is not known: what is stamped on its tires, the most they hold, stands in."""
    return axle.axle.label_pressure is None and inflation.label is not None


def _known_cap(axle: TireAxle) -> tuple[str, Quantity | None]:
    return ("some unknown", None) if axle.cap.unknown else ("all known", axle.cap.limit)


def _enter_cap(axle: TireAxle, ledger: Ledger) -> None:
    wheels, cap = axle.wheels, axle.cap
    inputs = (
        Input(kinds.LAST_ROW, axle.table.rows[-1].pressure if axle.table else None),
        Input(kinds.STAMPED, axle.tires.sidewall.maximum_pressure),
        Input(kinds.WHEEL, wheels.maximum_pressure),
        Input(kinds.VALVE, wheels.valve_maximum_pressure),
    )
    # The least of those that are known may not be the least of all.
    key, (case, value) = kinds.CAP.of(*axle.subject), _known_cap(axle)
    facts: dict[str, Fact] = {"bound": cap.bound_by or (kinds.NONE_KNOWN,), "unknown": cap.unknown}
    ledger.enter(Figure(key, value, inputs, case, {**facts, "least": cap.limit}))


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
    # The larger of two is not known where one of them is not.
    is_row_known = inflation.row is not None or inflation.row_kind == "placard"
    is_label_known = inflation.label is not None or not inflation.label_binds
    is_known = is_row_known and is_label_known and not _is_stamped(axle, inflation)
    value = floor.pressure if is_known else None
    ledger.enter(Figure(kinds.FLOOR_PRESSURE.of(*subject), value, inputs[:2], facts=bound))
    slack = room_phrase(axle, inflation)
    is_set_aside = inflation.label is not None and not inflation.label_binds
    aside = Phrase(kinds.LABEL_SET_ASIDE, {"why": inflation.why_label})
    among: dict[str, Fact] = {"among": aside if is_set_aside else kinds.LARGER}
    for kind in (kinds.SET_POINT, kinds.ADD_IF_BELOW):
        ledger.enter(Figure(kind.of(*subject), result.pressure, inputs, result.bound_by, among, slack))
    case, cap = _known_cap(axle)
    leave = None if result.pressure is None else cap
    unknown: dict[str, Fact] = {"unknown": axle.cap.unknown, "least": axle.cap.limit}
    ledger.enter(Figure(kinds.LEAVE_UP_TO.of(*subject), leave, inputs, case, unknown, slack))


def _enter_lines(axle: TireAxle, inflation: Inflation, ledger: Ledger) -> None:
    pressure, subject = inflation.result.pressure, axle.subject
    given = Input(kinds.SET_POINT_INPUT, pressure, kinds.SET_POINT.of(*subject))
    line = None if pressure is None else run_flat_below(pressure, axle.step)
    ledger.enter(Figure(kinds.RUN_FLAT_BELOW.of(*subject), line, (given,)))
    is_row_known = inflation.row is not None or inflation.row_kind == "placard"
    alarm = low_alarm(pressure, inflation.row, axle.step) if pressure is not None and is_row_known else None
    apart = None if pressure is None else hot_mates_apart(pressure)
    ledger.enter(Figure(kinds.HOT_MATES_APART.of(*subject), apart, (given,)))
    row = Input(kinds.ROW_INPUT, inflation.row, kinds.ROW_PRESSURE.of(*subject))
    value, case = (alarm.pressure, "") if alarm else (None, "no row")
    ledger.enter(Figure(kinds.LOW_ALARM.of(*subject), value, (given, row), case))
    own_rise, hot = HOT_RISES.get(axle.tires.family or ""), None
    if line is not None and pressure is not None:
        hot = hot_flat_line(line, pressure, (own_rise or MOST_HOT_RISE).quantity, axle.step)
    cold = Input(kinds.RUN_FLAT_INPUT, line, kinds.RUN_FLAT_BELOW.of(*subject))
    ledger.enter(Figure(kinds.HOT_FLAT.of(*subject), hot, (cold, given), "" if own_rise else "no rise"))
    if alarm and hot is not None and pressure is not None:
        _enter_monitor(axle, pressure, alarm.pressure, hot, ledger)


def _enter_monitor(
    axle: TireAxle, pressure: Quantity, alarm: Quantity, hot: Quantity, ledger: Ledger
) -> None:
    monitor = axle.monitor
    key = kinds.MONITOR_SETTING.of(*axle.subject)
    if monitor is None:
        return
    if monitor.closest_low_alarm is None:
        ledger.find(Finding(kinds.CLOSEST_ALARM_UNKNOWN, key))
        return
    setting = monitor_setting(alarm, pressure * monitor.closest_low_alarm.to("").m, hot)
    late: dict[str, Fact] = {"late": setting.late, "hot": hot}
    share = Input(kinds.CLOSEST_ALARM, monitor.closest_low_alarm)
    ledger.enter(Figure(key, setting.pressure, (share,), facts=late))
    if not setting.is_above_hot_flat:
        ledger.find(Finding(kinds.MONITOR_MEANS_FLAT, key, late))
    elif setting.late.m > 0:
        ledger.find(Finding(kinds.MONITOR_LATE, key, late))


def _enter_use(axle: TireAxle, inflation: Inflation, ledger: Ledger) -> None:
    pressure, load, table = inflation.result.pressure, axle.load_per_tire, axle.table
    used = load_used(load, table, pressure) if pressure and load and table and axle.is_weighed else None
    there = Input(kinds.LOAD_SEEN_THERE, origin=kinds.LOAD_PER_TIRE.of(*axle.subject))
    ledger.enter(Figure(kinds.LOAD_USED.of(*axle.subject), used, (there,)))
    limit = speed_limit(axle.tires.maximum_speed, axle.tires.family)
    case = "by its family" if limit and limit.is_assumed else "rated"
    key = kinds.SPEED_LIMIT.of(*axle.subject)
    ledger.enter(Figure(key, limit.speed if limit else None, (Input(kinds.TIRE, axle.tires.size),), case))
