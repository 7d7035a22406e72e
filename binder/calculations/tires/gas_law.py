"""Pressure of air shut in a tire, between temperatures and elevations; what to fill today.

T is the temperature of the **tire**, not of the air. Gauges show pressure over the air outside,
which the standard atmosphere gives for an elevation.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from binder.calculations.bounds import is_at_least, rounded_up
from binder.quantities import Length, Pressure, Quantity, Temperature, checks_dimensions, number_in, registry
from binder.reference.constants import (
    EARTH_RADIUS,
    LOWEST_LAYER_BOTTOM,
    LOWEST_LAYER_EXPONENT,
    LOWEST_LAYER_LAPSE,
    LOWEST_LAYER_TOP,
    SEA_LEVEL_PRESSURE,
    SEA_LEVEL_TEMPERATURE,
)


class TireState(NamedTuple):
    """Temperature of a tire and the elevation it stands at."""

    temperature: Temperature
    elevation: Length


@dataclass(frozen=True)
class FillPlan:
    """What one axle must hold through the trip.

    ``target``: what must still be in the tire on each cold morning; ``mornings``: every cold morning
    that is to be covered, of which one will decide; ``fill_elevation``: the highest night of the trip.
    """

    set_point: Pressure
    cap: Pressure | None
    target: Pressure
    mornings: tuple[TireState, ...]
    fill_elevation: Length

    def __post_init__(self) -> None:
        if not self.mornings:
            raise ValueError("a fill is planned for at least one cold morning")

    @cached_property
    def deciding(self) -> TireState:
        """The morning that asks for the most air in the tire, whatever the day it is filled on."""
        return max(self.mornings, key=lambda morning: _air(self.target, morning))


class FillCell(NamedTuple):
    """What to fill today, as printed; None where the cap is in the way: add air on the cold morning.

    ``needed`` is the pressure before it is rounded and held against set-point and cap.
    """

    tire_temperature: Temperature
    pressure: Pressure | None
    needed: Pressure
    is_set_point: bool
    decided_by: TireState


class FillTable(NamedTuple):
    """Cells over tire temperature for one axle; all set-point means it need not be printed."""

    cells: tuple[FillCell, ...]
    is_all_set_point: bool


@checks_dimensions
def atmospheric_pressure(elevation: Length) -> Pressure:
    """Pressure of the standard atmosphere, from 16,000 ft under the sea to 36,000 ft over it.

    Args:
        elevation: geometric, over the sea [length].
    Returns: The absolute pressure [pressure].
    Raises: ValueError: the elevation is outside the lowest layer of the standard.
    Sources: USSA1976.

    >>> f"{atmospheric_pressure(q(6240, 'foot')).to('psi'):.2f}"
    '11.67 psi'
    """
    # In meters and kelvins throughout.
    radius, above = EARTH_RADIUS.quantity.m, number_in(elevation, "meter")
    height = radius * above / (radius + above)
    if not LOWEST_LAYER_BOTTOM.quantity.m <= height <= LOWEST_LAYER_TOP.quantity.m:
        raise ValueError(f"the standard atmosphere's lowest layer does not reach {elevation}")
    warmth = 1 + LOWEST_LAYER_LAPSE.quantity.m * height / SEA_LEVEL_TEMPERATURE.quantity.m
    share = warmth ** (-LOWEST_LAYER_EXPONENT.quantity.m)
    return registry.Quantity(SEA_LEVEL_PRESSURE.quantity.m * share, "pascal")


@checks_dimensions
def pressure_after(gauge: Pressure, before: TireState, after: TireState) -> Pressure:
    """Gauge pressure of a tire after its temperature and elevation changed, no air added.

    Args:
        gauge: read before [pressure].
        before: temperature and elevation of the reading.
        after: temperature and elevation wanted.
    Returns: The gauge pressure then [pressure].
    Sources: gas law; USSA1976; S30.

    >>> warm, cold = (TireState(q(degrees, "degF"), q(0, "foot")) for degrees in (70, 50))
    >>> f"{pressure_after(q(20, 'psi'), warm, cold).to('psi'):.1f}"
    '18.7 psi'
    """
    absolute = _air(gauge, before) * after.temperature.m_as("kelvin")
    now: Quantity = registry.Quantity(absolute - atmospheric_pressure(after.elevation).m, "pascal")
    return now.to(gauge.units)


def _air(gauge: Quantity, state: TireState) -> float:
    """Amount of air in a tire, as absolute pascals a kelvin."""
    absolute = number_in(gauge, "pascal") + atmospheric_pressure(state.elevation).m
    return float(absolute / state.temperature.m_as("kelvin"))


@checks_dimensions
def hot_flat_line(run_flat: Pressure, set_point: Pressure, rise: Pressure, step: Pressure) -> Pressure:
    """What a tire that is flat by the cold line reads while it is as warm as one that is filled right.

    Why: a monitor mostly alarms hot, and a reading after driving is hot too; at sea level it is highest.

    Args:
        run_flat: cold line at or under which a driven tire is run flat [pressure].
        set_point: cold, in force [pressure].
        rise: the most that a tire filled right rises from cold to hot [pressure].
        step: of the printed unit [pressure].
    Returns: The hot line, up to a whole step [pressure].
    Sources: gas law; USSA1976; S54.

    >>> f"{hot_flat_line(q(84, 'psi'), q(105, 'psi'), q(18, 'psi'), q(1, 'psi')):.0f}"
    '99 psi'
    """
    outside = SEA_LEVEL_PRESSURE.quantity.to(run_flat.units)
    warmth = ((set_point + rise + outside) / (set_point + outside)).to("").m
    return rounded_up((run_flat + outside) * warmth - outside, step)


@checks_dimensions
def fill_today(plan: FillPlan, tire_temperature: Temperature, step: Pressure) -> FillCell:
    """What to fill a tire to at today's temperature so that each cold morning still finds the target.

    Why: the fill is computed at the highest night, where the air outside is thinnest; the same gauge
    reading lower down shuts in more air, so it is safe there.

    Args:
        plan: set-point, cap, target, cold mornings and the elevation of the fill.
        tire_temperature: of the tire that is filled [temperature].
        step: of the printed unit [pressure].
    Returns: The printed cell, never below the set-point, never over the cap, and the morning that decided.
    Sources: gas law; USSA1976; S35.

    >>> morning = TireState(q(24, "degF"), q(6240, "foot"))
    >>> plan = FillPlan(q(105, "psi"), q(110, "psi"), q(102, "psi"), (morning,), q(6240, "foot"))
    >>> f"{fill_today(plan, q(50, 'degF'), q(1, 'psi')).pressure:.0f}"
    '109 psi'
    """
    today = TireState(tire_temperature, plan.fill_elevation)
    need = pressure_after(plan.target, plan.deciding, today)
    is_set_point = is_at_least(plan.set_point, need)
    cell = plan.set_point if is_set_point else rounded_up(need, step)
    is_over = not is_set_point and plan.cap is not None and not is_at_least(plan.cap, cell)
    return FillCell(tire_temperature, None if is_over else cell, need, is_set_point, plan.deciding)


@checks_dimensions
def fill_table(plan: FillPlan, tire_temperatures: Iterable[Temperature], step: Pressure) -> FillTable:
    """Cells of the fill table for one axle.

    Args:
        plan: set-point, cap, target, cold mornings and the elevation of the fill.
        tire_temperatures: of the rows [temperature].
        step: of the printed unit [pressure].
    Returns: The cells, and whether all are the set-point.
    Sources: gas law; USSA1976.

    >>> morning = TireState(q(60, "degF"), q(0, "foot"))
    >>> plan = FillPlan(q(80, "psi"), q(80, "psi"), q(62, "psi"), (morning,), q(0, "foot"))
    >>> fill_table(plan, [q(70, "degF"), q(90, "degF")], q(1, "psi")).is_all_set_point
    True
    """
    cells = tuple(fill_today(plan, temperature, step) for temperature in tire_temperatures)
    return FillTable(cells, all(cell.is_set_point for cell in cells))
