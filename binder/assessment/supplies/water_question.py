"""The water question: what a full, part and empty fresh tank weigh, ask of the tires, and last."""

from collections.abc import Iterator, Mapping
from datetime import date
from typing import NamedTuple

from binder.assessment.ledger import Fact, Figure, Input, Key, Ledger, Phrase
from binder.assessment.supplies import sitting_out_kinds as kinds
from binder.assessment.tires.axle import TireAxle
from binder.assessment.tires.inflation import inflation_of
from binder.assessment.weights.loads import StateLoads, loads_in_states
from binder.assessment.weights.resting import is_combination
from binder.assessment.weights.states import TankName, TripState, full_volume, trip_states
from binder.calculations.supplies.endurance import lasting
from binder.models.load import Profile
from binder.models.rig import Rig
from binder.quantities import Quantity, number_in, registry
from binder.reference.constants import WATER_DENSITY

FILLS = ("full", "part", "empty")
# practice, no source: a common part fill where weight is short; twice as much asks for no part fill.
PART_FILL = {"us": registry.Quantity(20.0, "gallon"), "metric": registry.Quantity(75.0, "liter")}
_NOTHING = registry.Quantity(0.0, "gallon")
_DAY = registry.Quantity(1.0, "day")


class _Fill(NamedTuple):
    """One fill of the fresh tanks: its name, what each holds, and what the rig weighs then."""

    name: str
    volumes: dict[TankName, Quantity]
    loads: StateLoads

    @property
    def volume(self) -> Quantity:
        return sum(self.volumes.values(), start=_NOTHING)

    @property
    def facts(self) -> Mapping[str, Fact]:
        """The state it is all else as."""
        return {"state": self.loads.state.title}


def assess_water_question(profile: Profile, on: date, ledger: Ledger) -> None:
    """Enter what each fill of the fresh tanks weighs, asks of the tires, leaves, and lasts."""
    fills = tuple(_fills(profile))
    for fill in fills:
        _enter_fill(profile, fill, ledger)
        for vehicle, axle in _changing_axles(fills):
            _enter_axle(profile, on, TireAxle(profile.rig, vehicle, axle, (fill.loads,)), fill, ledger)
        _enter_totals(profile.rig, fills, fill, ledger)


def _fills(profile: Profile) -> Iterator[_Fill]:
    states = {state.key: state for state in trip_states(profile)}
    state = states.get("departure") or states["everything_full"]
    full = {
        (vehicle, name): full_volume(tank)
        for vehicle, entry in profile.rig.vehicles.items()
        for name, tank in entry.tanks.items()
        if tank.holds == "fresh water"
    }
    known = {name: volume for name, volume in full.items() if volume is not None}
    if not known or len(known) < len(full):
        return
    part, empty = _part_of(known, profile.rig.units), dict.fromkeys(known, _NOTHING)
    wanted = dict(zip(FILLS, (known, part, empty), strict=True))
    for name in FILLS:
        filled = _with(state, wanted[name])
        (loads,) = loads_in_states(profile.rig, (filled,))
        yield _Fill(name, wanted[name], loads)


def _part_of(full: dict[TankName, Quantity], units: str) -> dict[TankName, Quantity]:
    """The common part fill, in the first tank; half of a tank that holds less than twice as much."""
    first, *others = full
    part: Quantity = min(PART_FILL[units], full[first] / 2)
    return {first: part} | dict.fromkeys(others, _NOTHING)


def _with(state: TripState, volumes: dict[TankName, Quantity]) -> TripState:
    others = {name: volume for name, volume in state.others.items() if name not in volumes}
    return state._replace(volumes={**state.volumes, **volumes}, others=others, as_the_ticket=False)


def _enter_fill(profile: Profile, fill: _Fill, ledger: Ledger) -> None:
    volume, held = fill.volume, Input(kinds.FRESH_WATER, fill.volume)
    ledger.enter(Figure(kinds.FILL_VOLUME.of(fill.name), volume))
    weight = (volume * WATER_DENSITY.quantity).to("pound")
    ledger.enter(Figure(kinds.FILL_WEIGHT.of(fill.name), weight, (held,)))
    use = profile.trip.use.water if profile.trip else None
    days = None if use is None else lasting(_drawable(profile.rig, fill), use)
    used = Input(kinds.USED_A_DAY, None if use is None else use * _DAY)
    ledger.enter(Figure(kinds.FILL_DAYS.of(fill.name), days, (held, used)))
    _enter_first_end(fill.name, days, ledger)


def _drawable(rig: Rig, fill: _Fill) -> Quantity:
    """What can be drawn: what lies under a tank's outlet cannot."""
    left = _NOTHING
    for (vehicle, name), volume in fill.volumes.items():
        tank = rig.vehicles[vehicle].tanks[name]
        under = _NOTHING if tank.usable is None or tank.capacity is None else tank.capacity - tank.usable
        left = left + max(volume - under, _NOTHING)
    return left


def _enter_first_end(fill: str, days: Quantity | None, ledger: Ledger) -> None:
    """Days until the first of fresh, gray and black, with the waste tanks as at departure."""
    ends, is_known = {"fresh": days}, days is not None
    for waste, name in (("gray", "gray water"), ("black", "black water")):
        found = ledger.known(kinds.AT_START.days_of.of(name))
        ends[waste] = found.quantity if found else None
        is_known = is_known and (found is None or found.case != kinds.UNKNOWN)
    known = {name: end for name, end in ends.items() if end is not None}
    # One that is not known might end before either of the others.
    least = min((number_in(end, "day") for end in known.values()), default=None) if is_known else None
    # Water is left out of the names: the line that names them has it.
    first = tuple(name for name, end in known.items() if number_in(end, "day") == least)
    inputs = tuple(
        Input(kinds.FRESH_LASTS, end, kinds.FILL_DAYS.of(fill))
        if name == "fresh"
        else Input(kinds.WASTE_LASTS, end, facts={"waste": name})
        for name, end in known.items()
    )
    names = Phrase(kinds.NAMES_OF_ENDS, {"names": first}) if first else None
    ledger.enter(Figure(kinds.FILL_STAY.of(fill), known[first[0]] if first else None, inputs))
    ledger.enter(Figure(kinds.FILL_ENDS_FIRST.of(fill), names, inputs))


def _changing_axles(fills: tuple[_Fill, ...]) -> Iterator[tuple[str, str]]:
    """Axles whose load is known and not the same in every fill."""
    for vehicle, loads in fills[0].loads.vehicles.items():
        for axle in loads.axles:
            found = [fill.loads.vehicles[vehicle].axles[axle].load for fill in fills]
            known = [load for load in found if load is not None]
            if len(known) == len(fills) and min(known) < max(known):
                yield vehicle, axle


def _enter_axle(profile: Profile, on: date, axle: TireAxle, fill: _Fill, ledger: Ledger) -> None:
    load, subject = fill.loads.vehicles[axle.vehicle_name].axles[axle.axle_name], (*axle.subject, fill.name)
    ledger.enter(Figure(kinds.AXLE_LOAD.of(*subject), load.load, facts=fill.facts))
    end = kinds.HEAVIER_END.of(*subject)
    ledger.enter(Figure(end, load.end, facts={"by": load.rule}))
    ledger.enter(Figure(kinds.AXLE_MARGIN.of(*subject), _margin(axle.axle.rating, load.load)))
    pressure = inflation_of(axle, profile, on).result.pressure
    inputs = (Input(kinds.HEAVIER_END_INPUT, load.end, end),)
    ledger.enter(Figure(kinds.SET_POINT.of(*subject), pressure, inputs))


def _margin(rating: Quantity | None, load: Quantity | None) -> Quantity | None:
    return None if rating is None or load is None else rating - load


def _enter_totals(rig: Rig, fills: tuple[_Fill, ...], fill: _Fill, ledger: Ledger) -> None:
    for vehicle, entry in rig.vehicles.items():
        totals = [one.loads.vehicles[vehicle].total for one in fills]
        known = [total for total in totals if total is not None]
        if len(known) < len(fills) or not min(known) < max(known):
            continue
        rating, total = entry.label.gross_vehicle_weight_rating, fill.loads.vehicles[vehicle].total
        keys = kinds.TOTAL_LOAD.of(vehicle, fill.name), kinds.TOTAL_MARGIN.of(vehicle, fill.name)
        _enter_total(keys, total, rating, fill, ledger)
    if is_combination(rig):
        rating = next(iter(rig.vehicles.values())).label.gross_combination_weight_rating
        keys = kinds.COMBINATION_LOAD.of(fill.name), kinds.COMBINATION_MARGIN.of(fill.name)
        _enter_total(keys, fill.loads.combination, rating, fill, ledger)


def _enter_total(
    keys: tuple[Key, Key], load: Quantity | None, rating: Quantity | None, fill: _Fill, ledger: Ledger
) -> None:
    of_load, of_margin = keys
    ledger.enter(Figure(of_load, load, facts=fill.facts))
    ledger.enter(Figure(of_margin, _margin(rating, load)))
