"""What to fill today, by tire temperature, so that the coldest morning of the trip is still covered."""

from binder.assessment.ledger import Fact, Figure, Input, Ledger
from binder.assessment.tires import kinds
from binder.assessment.tires.axle import TireAxle
from binder.calculations.tires.gas_law import FillPlan, TireState, fill_table
from binder.models.load import Profile
from binder.quantities import Quantity, registry

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
