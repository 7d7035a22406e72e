"""What to fill today, by tire temperature, so that the coldest morning of the trip is still covered."""

from binder.assessment.figures import Figure, Input, Ledger
from binder.assessment.tire_axle import TireAxle
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
    wording = axle.wording
    for cell in table.cells if not table.is_all_set_point else ():
        coldest = cell.decided_by
        temperature = round(cell.tire_temperature.m)
        inputs = (
            Input(
                "must still stand at",
                wording.pressure(target, "up"),
                "row pressure and the gauge's allowance",
            ),
            Input("coldest morning", wording.temperature(coldest.temperature, "down"), places[id(coldest)]),
            Input("its elevation", wording.elevation(coldest.elevation, "up"), places[id(coldest)]),
            Input("filled at", wording.elevation(highest, "up"), "highest night of the trip"),
        )
        ledger.add(
            Figure(
                f"{axle.key}.fill_at.{temperature}".replace("-", "minus_"),
                cell.pressure,
                "calculated",
                "Filled to this at this tire temperature, it still carries its load on the coldest morning."
                if cell.pressure is not None
                else "The cap is in the way: add air on the cold morning.",
                "gas law; USSA1976; S35",
                inputs,
                ("The temperature of the tire, not of the air; three hours in shade.",),
            )
        )


def assess_warmest_day(profile: Profile, ledger: Ledger) -> None:
    """Enter the warmest high of the trip, which limits how warm a tire in the shade can be."""
    nights = (
        [travel_day.night for travel_day in profile.trip.days if travel_day.night] if profile.trip else []
    )
    highs = [night.high for night in nights if night.high is not None]
    is_whole = bool(highs) and len(highs) == len(nights)
    rule = "The highest of the planned highs" + ("." if is_whole else "; one of them is not given.")
    warmest = max(highs) if is_whole else None
    ledger.add(Figure("route.warmest_day", warmest, "assumed", rule, "practice"))
