"""Cold inflation of every axle: each number of the rule as a figure, each bad answer as a finding."""

from collections.abc import Iterator
from datetime import date

from binder.assessment.figures import Figure, Finding, Input, Ledger
from binder.assessment.fill_tables import assess_fill_table, assess_warmest_day
from binder.assessment.inflation_rules import Inflation, inflation_of, is_other_size
from binder.assessment.loads import StateLoads
from binder.assessment.procedure_numbers import procedure_number
from binder.assessment.tire_axle import TireAxle, rolling_tire_axles
from binder.assessment.tire_findings import find_pressure_findings
from binder.assessment.tire_room import ROW, enter_room, left_words, room_words
from binder.calculations.bounds import is_at_least
from binder.calculations.tires.inflation import (
    cold_morning_target,
    floor_pressure,
    load_used,
    low_alarm,
    monitor_setting,
    run_flat_below,
)
from binder.calculations.tires.limits import speed_limit
from binder.calculations.tires.load_tables import row_for, slack_to_next_row
from binder.models.load import Profile
from binder.quantities import Quantity

LABEL_FIRST = "Vehicle labels and the tire maker's table come first."


def assess_tires(profile: Profile, on: date, states: tuple[StateLoads, ...], ledger: Ledger) -> None:
    """Enter the figures and findings of every axle's cold inflation."""
    assess_warmest_day(profile, ledger)
    for axle in rolling_tire_axles(profile.rig, states):
        inflation = inflation_of(axle, profile, on)
        _enter_load(axle, ledger)
        _enter_pressures(axle, inflation, ledger)
        _enter_lines(axle, inflation, ledger)
        _enter_use(axle, inflation, ledger)
        assess_fill_table(axle, profile, inflation.result.pressure, _morning_target(axle, inflation), ledger)
        find_pressure_findings(axle, inflation, ledger)


def _morning_target(axle: TireAxle, inflation: Inflation) -> Quantity | None:
    """What must stand in the tire on a cold morning: the placard, else the row and the gauge's error."""
    if axle.has_placard and not axle.table:
        return inflation.label
    return None if inflation.row is None else cold_morning_target(inflation.row)


def _enter_load(axle: TireAxle, ledger: Ledger) -> None:
    load, heaviest = axle.load_per_tire, axle.heaviest
    inputs = []
    if heaviest:
        state, end = heaviest
        side = f"{end.side} end" if end.side in {"left", "right"} else "heavier end"
        weight = axle.wording.weight(end.end, "up") if end.end is not None else "not known"
        inputs = [
            Input(side, weight, f"{state.state.title}; {end.knowledge}, {end.rule}"),
            Input("tires on that end", str(axle.axle.tires_each_end), f"{axle.origin}.fitment"),
        ]
    assumed = heaviest is None or heaviest[1].knowledge != "wheel ends weighed"
    slack = _row_slack(axle)
    ledger.add(
        Figure(
            f"{axle.key}.load_per_tire",
            load,
            "assumed" if assumed else "calculated",
            "The heavier wheel end in the heaviest state of the trip, divided by its tires.",
            "statics; S58" + ("; practice" if assumed else ""),
            tuple(inputs),
            (LABEL_FIRST,),
            slack,
        )
    )


def _row_slack(axle: TireAxle) -> str:
    if axle.table is None or axle.load_per_tire is None:
        return ""
    slack = slack_to_next_row(axle.table, axle.load_per_tire)
    return "" if slack is None else left_words(slack, ROW, axle.wording)


def _enter_pressures(axle: TireAxle, inflation: Inflation, ledger: Ledger) -> None:
    _enter_row(axle, inflation, ledger)
    _enter_label(axle, inflation, ledger)
    _enter_set_point(axle, inflation, ledger)
    cap = axle.cap
    ledger.add(
        Figure(
            f"{axle.key}.cap",
            cap.limit,
            "stated by a maker",
            f"The least of tire, wheel and valve: set by {' and '.join(cap.bound_by) or 'none known'}"
            + (f"; not known: {', '.join(cap.unknown)}." if cap.unknown else "."),
            "stated; S60",
            _cap_inputs(axle),
        )
    )


def _enter_row(axle: TireAxle, inflation: Inflation, ledger: Ledger) -> None:
    table, wording = axle.tires.table, axle.wording
    load = "not known" if axle.load_per_tire is None else wording.weight(axle.load_per_tire, "up")
    load_input = Input("load per tire", load, f"{axle.key}.load_per_tire")
    estimate = inflation.row_kind == "estimate"
    ledger.add(
        Figure(
            f"{axle.key}.row_pressure",
            inflation.row,
            "calculated" if estimate else "table",
            _row_rule(axle, inflation),
            "S42; practice" if estimate else "stated",
            (
                load_input,
                Input("load table", table.origin if table else "none given", "rig.yaml tires"),
                *_rows_around(axle),
            ),
            ("Calculated: get the maker's table.",) if estimate else (LABEL_FIRST,),
            _row_slack(axle),
        )
    )
    enter_room(axle, inflation, load_input, ledger)


def _rows_around(axle: TireAxle) -> Iterator[Input]:
    """The row that was chosen, and the one below it that was not enough."""
    if axle.table is None or axle.load_per_tire is None:
        return
    chosen = row_for(axle.table, axle.load_per_tire)
    below = [row for row in axle.table.rows if not is_at_least(row.load, axle.load_per_tire)]
    for name, row in (("row chosen", chosen), ("row below it", below[-1] if below else None)):
        if row is not None:
            pressure = axle.wording.pressure(row.pressure, "nearest")
            carried = axle.wording.weight(row.load, "down")
            yield Input(name, f"{pressure} carries {carried}", "rig.yaml tires, table")


def _enter_label(axle: TireAxle, inflation: Inflation, ledger: Ledger) -> None:
    inputs = [Input("label", _or_unknown(axle, axle.axle.label_pressure), f"{axle.origin}.label_pressure")]
    if is_other_size(axle):
        origin = "What the fitted tires, of another size than the label's, need for the axle's rating"
        rating = axle.axle.rating
        text = "not known" if rating is None else axle.wording.weight(rating, "up")
        inputs.append(Input("gross axle weight rating", text, f"{axle.origin}.rating"))
    elif axle.axle.label_pressure is None and inflation.label is not None:
        origin = "No label is given: the pressure stamped on the tire stands in for it"
    else:
        origin = "From the label"
    ledger.add(
        Figure(
            f"{axle.key}.label_pressure",
            inflation.label,
            "stated by a maker",
            f"{origin}; it {_binds(inflation)}: {inflation.why_label}.",
            "stated; practice",
            tuple(inputs),
        )
    )


def _binds(inflation: Inflation) -> str:
    return "binds" if inflation.label_binds else "does not bind"


def _row_rule(axle: TireAxle, inflation: Inflation) -> str:
    more, step = (procedure_number(f"estimate {what}", axle.rig.units) for what in ("more", "step"))
    return {
        "table": "First row of the maker's table that carries the load per tire.",
        "estimate": f"From the sidewall by the family's curve, {more} more, then up to the next {step}.",
        "over the last row": "The load is over the last row: no pressure is printed.",
        "placard": "No table given: the placard serves, within the axle's rating.",
        "no table": "Neither a table nor the sidewall's figures are given: no row.",
    }.get(inflation.row_kind, "The load per tire is not known: no row.")


def _or_unknown(axle: TireAxle, pressure: Quantity | None) -> str:
    return "not known" if pressure is None else axle.wording.pressure(pressure, "up")


def _cap_inputs(axle: TireAxle) -> tuple[Input, ...]:
    wheels, sidewall = axle.wheels, axle.tires.sidewall
    top = axle.table.rows[-1].pressure if axle.table else None
    parts = (
        ("tire, last row", top, "rig.yaml tires"),
        ("tire, stamped", sidewall.maximum_pressure, "rig.yaml tires, sidewall.maximum_pressure"),
        ("wheel", wheels.maximum_pressure, "rig.yaml wheels, maximum_pressure"),
        ("valve", wheels.valve_maximum_pressure, "rig.yaml wheels, valve_maximum_pressure"),
    )
    return tuple(
        Input(name, "not known" if value is None else axle.wording.pressure(value, "down"), origin)
        for name, value, origin in parts
    )


def _enter_set_point(axle: TireAxle, inflation: Inflation, ledger: Ledger) -> None:
    result = inflation.result
    bounds = {
        "label": "the label is higher than the row and its margin",
        "row and margin": "the row and its margin",
        "cap": "the cap cuts the margin short",
        "no floor": "no pressure: the load is over what the tires carry, or neither row nor label is known",
        "floor over cap": "no pressure: the floor is over the cap",
    }
    floor = floor_pressure(inflation.row, inflation.label if inflation.label_binds else None)
    shared = (
        Input("row pressure", _or_unknown(axle, inflation.row), f"{axle.key}.row_pressure"),
        Input("label pressure", _or_unknown(axle, inflation.label), f"{axle.key}.label_pressure"),
        Input("margin", axle.wording.pressure(inflation.margin, "up"), "rig.yaml tires, margin; practice"),
        Input("cap", _or_unknown(axle, axle.cap.limit), f"{axle.key}.cap"),
    )
    ledger.add(
        Figure(
            f"{axle.key}.floor_pressure",
            floor.pressure,
            "calculated",
            f"The larger of row and label pressure, the label only where it binds: set by {floor.bound_by}.",
            "practice; S69",
            shared[:2],
        )
    )
    rule = (
        "What to fill to, cold: the larger of label and row with margin, at most the cap; "
        f"{bounds[result.bound_by]}."
    )
    leave = None if result.pressure is None else axle.cap.limit
    for name, value, words in (
        ("set_point", result.pressure, rule),
        ("add_if_below", result.pressure, "Below the set-point, cold: add air to the set-point."),
        ("leave_up_to", leave, "Up to the cap, cold: leave it."),
    ):
        figure = Figure(f"{axle.key}.{name}", value, "calculated", words, "practice; S35", shared)
        ledger.add(figure._replace(cautions=(LABEL_FIRST,), slack=room_words(axle, inflation)))


def _enter_lines(axle: TireAxle, inflation: Inflation, ledger: Ledger) -> None:
    pressure = inflation.result.pressure
    given = Input("set-point", _or_unknown(axle, pressure), f"{axle.key}.set_point")
    line = None if pressure is None else run_flat_below(pressure, axle.step)
    ledger.add(
        Figure(
            f"{axle.key}.run_flat_below",
            line,
            "calculated",
            "80 % of the set-point in force: a tire driven below it is treated as run flat.",
            "29 CFR 1910.177; S39; S71; S72",
            (given,),
            ("Truck tires: no air on the vehicle, stand clear, tire service.",),
        )
    )
    alarm = None if pressure is None else low_alarm(pressure, inflation.row, axle.step)
    ledger.add(
        Figure(
            f"{axle.key}.low_alarm",
            alarm.pressure if alarm else None,
            "calculated",
            "The larger of row pressure and 85 % of the set-point, always over the run-flat line.",
            "practice; 49 CFR 571.138",
            (given, Input("row pressure", _or_unknown(axle, inflation.row), f"{axle.key}.row_pressure")),
            ("The gauge governs; many cap sensors read low at elevation.",),
        )
    )
    if alarm and line is not None and pressure is not None:
        _enter_monitor(axle, pressure, alarm.pressure, line, ledger)


def _enter_monitor(
    axle: TireAxle, pressure: Quantity, alarm: Quantity, line: Quantity, ledger: Ledger
) -> None:
    monitor = axle.monitor
    if monitor is None or monitor.closest_low_alarm is None:
        return
    setting = monitor_setting(alarm, pressure * monitor.closest_low_alarm.to("").m, line)
    late = axle.wording.pressure(setting.late, "up")
    share = axle.wording.percent(monitor.closest_low_alarm, "down")
    ledger.add(
        Figure(
            f"{axle.key}.monitor_setting",
            setting.pressure,
            "calculated",
            f"The closest the monitor can be set to; it warns {late} after the wanted alarm.",
            "practice",
            (Input("closest low alarm", share, "rig.yaml equipment, tire monitor"),),
        )
    )
    if setting.late.m > 0:
        ledger.find(
            Finding(
                "attention",
                10,
                f"{axle.key}.monitor_setting",
                f"{axle.name}: the monitor warns {late} after the wanted low alarm",
                "read the tires by gauge every cold morning; trust the fast-leak alarm",
            )
        )
    if not setting.is_above_run_flat:
        ledger.find(
            Finding(
                "attention",
                10,
                f"{axle.key}.monitor_setting",
                f"{axle.name}: the monitor's low alarm is not above the run-flat line",
                "fit a monitor that can be set closer; read the tires by gauge",
            )
        )


def _enter_use(axle: TireAxle, inflation: Inflation, ledger: Ledger) -> None:
    pressure, load, table = inflation.result.pressure, axle.load_per_tire, axle.table
    used = load_used(load, table, pressure) if pressure is not None and load is not None and table else None
    ledger.add(
        Figure(
            f"{axle.key}.load_used",
            used,
            "calculated",
            "Load per tire as a share of what the tire carries at the set-point.",
            "practice",
            (Input("load per tire", "see there", f"{axle.key}.load_per_tire"),),
        )
    )
    limit = speed_limit(axle.tires.maximum_speed, axle.tires.family)
    ledger.add(
        Figure(
            f"{axle.key}.speed_limit",
            limit.speed if limit else None,
            "assumed" if limit and limit.is_assumed else "stated by a maker",
            "Speed the tire is rated for" + (", by its family." if limit and limit.is_assumed else "."),
            "S17; S04" if limit and limit.is_assumed else "stated",
            (Input("tire", axle.tires.size or "not known", "rig.yaml tires, maximum_speed"),),
        )
    )
