"""Cold inflation pressure: floor, set-point, alarm and run-flat line of one axle.

Words: the *row pressure* comes from the table, the *label pressure* from the vehicle; the *floor* is
the larger of the two; the *set-point* is what to fill to; the *cap* is the least of tire, wheel and
valve. Everything a card prints is rounded here, to the step of its unit, toward more air.
"""

from typing import Literal, NamedTuple, TypeAlias

from binder.calculations.bounds import is_at_least, rounded_down, rounded_up
from binder.calculations.tires.load_tables import LoadTable, load_carried
from binder.quantities import Mass, Pressure, Quantity, Share, checks_dimensions, registry

FloorBound: TypeAlias = Literal["row", "label", "row and label", "nothing"]
SetPointBound: TypeAlias = Literal[
    "label", "row and margin", "cap", "no floor", "floor over cap", "label not known", "assumed over cap"
]

_RUN_FLAT_SHARE = 0.80  # Of the set-point in force: 29 CFR 1910.177(f), S71, S72.
_ALARM_SHARE = 0.85  # Of the set-point; practice: between the fill and the run-flat line.
_ALLOWANCE_SHARE = 0.02  # Practice: gauges and sensors err by 2 to 3 psi.
_ALLOWANCE = registry.Quantity(2.0, "psi")  # Practice, as above.


class Floor(NamedTuple):
    """Lowest pressure the axle may be filled to; None where neither row nor label is known."""

    pressure: Pressure | None
    bound_by: FloorBound


class SetPoint(NamedTuple):
    """What to fill to, as printed; None where no pressure may be printed.

    ``is_cut_short``: the cap left less than the whole margin over the row. Where no whole step of the
    printed unit lies between floor and cap, the floor stands in its own unit.
    """

    pressure: Pressure | None
    bound_by: SetPointBound
    is_cut_short: bool = False


class Demand(NamedTuple):
    """What an axle needs: its row, its label where the label binds, and the margin over the row."""

    row: Pressure | None
    label: Pressure | None
    margin: Pressure


class LowAlarm(NamedTuple):
    """Low-pressure alarm as printed."""

    pressure: Pressure
    bound_by: Literal["row", "share of the set-point", "run-flat line"]


class MonitorSetting(NamedTuple):
    """What the owner's monitor can be set to, and how late that is after the wanted alarm."""

    pressure: Pressure
    late: Pressure
    is_above_hot_flat: bool


def floor_pressure(row: Pressure | None, label: Pressure | None) -> Floor:
    """Larger of row and label pressure.

    Args:
        row: from the table or the estimate; None where there is neither [pressure].
        label: from the vehicle; None where unknown or where weighing set it aside [pressure].
    Returns: The floor and which of the two set it.
    Sources: practice; S69 (the label includes what the law asks of it).

    >>> floor_pressure(q(30, "psi"), q(65, "psi")).bound_by
    'label'
    """
    if row is None or label is None:
        known = row if label is None else label
        return Floor(known, "nothing" if known is None else "row" if label is None else "label")
    if is_at_least(row, label):
        return Floor(row, "row and label" if is_at_least(label, row) else "row")
    return Floor(label, "label")


@checks_dimensions
def set_point(demand: Demand, cap: Pressure | None, step: Pressure) -> SetPoint:
    """Pressure to fill to, cold: the larger of label and row with its margin, at most the cap.

    Args:
        demand: row, label and margin; the margin is zero on a towed vehicle.
        cap: least of tire, wheel and valve; None where none is known [pressure].
        step: of the printed unit, such as 1 psi or 5 kPa [pressure].
    Returns: The printed set-point, never below the floor and never over the cap, and what bound it.
    Sources: practice (one table step of margin); S60 (wheel); S21 (wheels and valves).

    >>> f"{set_point(Demand(q(100, 'psi'), None, q(5, 'psi')), q(110, 'psi'), q(1, 'psi')).pressure:.0f}"
    '105 psi'
    """
    floor = floor_pressure(demand.row, demand.label).pressure
    if floor is None:
        return SetPoint(None, "no floor")
    if cap is not None and not is_at_least(cap, floor):
        return SetPoint(None, "floor over cap")
    padded = None if demand.row is None else demand.row + demand.margin
    wanted = floor_pressure(padded, demand.label)
    pressure = rounded_up(_known(wanted.pressure), step)
    bound_by: SetPointBound = "label" if wanted.bound_by == "label" else "row and margin"
    if cap is None or is_at_least(cap, pressure):
        return SetPoint(pressure, bound_by)
    cut_short = padded is not None and not is_at_least(cap, padded)
    highest = rounded_down(cap, step)
    if is_at_least(highest, floor):
        return SetPoint(highest, "cap", cut_short)
    return SetPoint(floor, "cap", cut_short)


@checks_dimensions
def over_by_assumption(label: Pressure | None, cap: Pressure | None) -> SetPoint:
    """What to fill to where only an assumed share puts the load over what the tires carry: the cap.

    Args:
        label: where it binds [pressure].
        cap: least of tire, wheel and valve; None where none is known [pressure].
    Returns: The cap itself, for never is there less air for more weight; nothing where the label is over it.
    Sources: practice.

    >>> f"{over_by_assumption(q(65, 'psi'), q(80, 'psi')).pressure:.0f}"
    '80 psi'
    """
    if cap is None:
        return SetPoint(None, "no floor")
    if label is not None and not is_at_least(cap, label):
        return SetPoint(None, "floor over cap")
    return SetPoint(cap, "assumed over cap")


@checks_dimensions
def cold_morning_target(row: Pressure) -> Pressure:
    """What a tire must still hold on a cold morning: the row and an allowance for the gauge.

    Args:
        row: pressure that carries the load [pressure].
    Returns: The row and the larger of 2 psi and 2 % [pressure].
    Sources: practice.

    >>> f"{cold_morning_target(q(120, 'psi')):.1f}"
    '122.4 psi'
    """
    target: Quantity = row + max(_ALLOWANCE, row * _ALLOWANCE_SHARE)
    return target


@checks_dimensions
def has_cold_morning_reserve(row: Pressure, cap: Pressure) -> bool:
    """Tell whether the cap leaves the cold-morning allowance over the row.

    Args:
        row: pressure that carries the load [pressure].
        cap: least of tire, wheel and valve [pressure].
    Returns: False where the card must say "no reserve left".
    Sources: practice.

    >>> has_cold_morning_reserve(q(110, "psi"), q(110, "psi"))
    False
    """
    return is_at_least(cap, cold_morning_target(row))


@checks_dimensions
def run_flat_below(set_point: Pressure, step: Pressure) -> Pressure:
    """Line at which, and below which, a tire that was driven is treated as run flat: 80 % or less.

    Why: rounded up, so that a reading near the line counts as run flat.

    Args:
        set_point: in force [pressure].
        step: of the printed unit [pressure].
    Returns: 80 % of the set-point, up to a whole step [pressure].
    Sources: 29 CFR 1910.177; S39; S71; S72.

    >>> f"{run_flat_below(q(33, 'psi'), q(1, 'psi')):.0f}"
    '27 psi'
    """
    return rounded_up(set_point * _RUN_FLAT_SHARE, step)


@checks_dimensions
def low_alarm(set_point: Pressure, row: Pressure | None, step: Pressure) -> LowAlarm:
    """Low-pressure alarm: the larger of row pressure and 85 % of the set-point, above the run-flat line.

    Args:
        set_point: in force [pressure].
        row: pressure that carries the load; None without a table [pressure].
        step: of the printed unit [pressure].
    Returns: The alarm, up to a whole step, always above the printed run-flat line.
    Sources: practice; 49 CFR 571.138 warns only 25 % under the label, which is too late here.

    >>> f"{low_alarm(q(105, 'psi'), q(100, 'psi'), q(1, 'psi')).pressure:.0f}"
    '100 psi'
    """
    share = set_point * _ALARM_SHARE
    is_row = row is not None and is_at_least(row, share)
    alarm = rounded_up(_known(row) if is_row else share, step)
    line = run_flat_below(set_point, step)
    if is_at_least(line, alarm):
        return LowAlarm(line + step, "run-flat line")
    return LowAlarm(alarm, "row" if is_row else "share of the set-point")


@checks_dimensions
def monitor_setting(alarm: Pressure, highest: Pressure | None, hot_flat: Pressure) -> MonitorSetting:
    """Alarm the owner's monitor can be set to.

    Args:
        alarm: wanted [pressure].
        highest: low alarm the monitor accepts; None where it accepts any [pressure].
        hot_flat: what a tire that is flat by the cold line reads while it is hot [pressure].
    Returns: The setting, how far below the wanted alarm it is, and whether it warns above the line.
    Sources: practice.

    >>> setting = monitor_setting(q(100, "psi"), q(90, "psi"), q(99, "psi"))
    >>> f"{setting.late:.0f}", setting.is_above_hot_flat
    ('10 psi', False)
    """
    pressure = alarm if highest is None or is_at_least(highest, alarm) else highest
    return MonitorSetting(pressure, alarm - pressure, not is_at_least(hot_flat, pressure))


@checks_dimensions
def load_used(load: Mass, table: LoadTable, pressure: Pressure) -> Share | None:
    """Share of what one tire carries at the set-point that its load uses.

    Args:
        load: on one tire [mass].
        table: per tire.
        pressure: set-point [pressure].
    Returns: The share [dimensionless]; None below the first row. Over 95 % is for attention.
    Sources: practice (95 %).

    >>> from binder.calculations.tires.load_tables import LoadRow
    >>> table = LoadTable((LoadRow(q(105, "psi"), q(5975, "pound")),))
    >>> f"{load_used(q(5744, 'pound'), table, q(105, 'psi')):.1f}"
    '96.1 percent'
    """
    carried = load_carried(table, pressure)
    return None if carried is None else (load / carried).to("percent")


def _known(pressure: Pressure | None) -> Pressure:
    if pressure is None:
        raise ValueError("a pressure is needed here")
    return pressure
