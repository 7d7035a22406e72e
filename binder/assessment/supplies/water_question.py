"""The water question: what a full, part and empty fresh tank weigh, ask of the tires, and last."""

from collections.abc import Iterator
from datetime import date
from types import MappingProxyType
from typing import NamedTuple

from binder.assessment.figures import Figure, Input, Ledger
from binder.assessment.known_quantity import known_quantity
from binder.assessment.ledger import Phrase
from binder.assessment.measures import days_text
from binder.assessment.tires.axle import TireAxle
from binder.assessment.tires.inflation import inflation_of
from binder.assessment.weights.loads import StateLoads, loads_in_states
from binder.assessment.weights.resting import is_combination
from binder.assessment.weights.states import TankName, TripState, full_volume, trip_states
from binder.assessment.wording import Wording
from binder.calculations.supplies.endurance import lasting
from binder.models.load import Profile
from binder.models.rig import Rig
from binder.quantities import Quantity, number_in, registry
from binder.reference.constants import WATER_DENSITY

FILLS = ("full", "part", "empty")
# practice, no source: a common part fill where weight is short; twice as much asks for no part fill.
PART_FILL = {"us": registry.Quantity(20.0, "gallon"), "metric": registry.Quantity(75.0, "liter")}
_NOTHING = registry.Quantity(0.0, "gallon")
_STATICS = "statics; trip plan"
_ALONE = "With this much fresh water and all else as"
_NEVER_ALONE = "Fill tires to card 3: its pressures hold in every state of the trip."


class _Fill(NamedTuple):
    """One fill of the fresh tanks: its name, what each holds, and what the rig weighs then."""

    name: str
    volumes: dict[TankName, Quantity]
    loads: StateLoads
    words: str

    @property
    def volume(self) -> Quantity:
        return sum(self.volumes.values(), start=_NOTHING)


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
    words = f"{_ALONE} {_told(state.title, profile.rig)}"
    for name in FILLS:
        filled = _with(state, wanted[name])
        (loads,) = loads_in_states(profile.rig, (filled,))
        yield _Fill(name, wanted[name], loads, words)


def _told(phrase: Phrase, rig: Rig) -> str:
    from binder.wording.sentences import sentence  # noqa: PLC0415 - until the water question is values too.

    return sentence(phrase, {}, rig.units)


def _part_of(full: dict[TankName, Quantity], units: str) -> dict[TankName, Quantity]:
    """The common part fill, in the first tank; half of a tank that holds less than twice as much."""
    first, *others = full
    part: Quantity = min(PART_FILL[units], full[first] / 2)
    return {first: part} | dict.fromkeys(others, _NOTHING)


def _with(state: TripState, volumes: dict[TankName, Quantity]) -> TripState:
    return state._replace(volumes=MappingProxyType({**state.volumes, **volumes}), as_the_ticket=False)


def _enter_fill(profile: Profile, fill: _Fill, ledger: Ledger) -> None:
    wording, volume = Wording(profile.rig.units), fill.volume
    key, held = f"water.fresh.{fill.name}", Input("fresh water", wording.volume(volume, "nearest"), fill.name)
    rule = "What the fresh tanks hold full, part (a common part fill: practice) and empty."
    ledger.add(Figure(f"{key}.volume", volume, "calculated", rule, "profile; practice"))
    weight, rule = (volume * WATER_DENSITY.quantity).to("pound"), "Volume times the density of water."
    ledger.add(Figure(f"{key}.weight", weight, "calculated", rule, "S-AP42A", (held,)))
    use = profile.trip.use.water if profile.trip else None
    days, rule = None if use is None else lasting(volume, use), "What is held over the water used a day."
    a_day = "not known" if use is None else wording.volume(use * registry.Quantity(1.0, "day"), "up")
    inputs = (held, Input("used a day", a_day, "trip plan, use"))
    ledger.add(Figure(f"{key}.days", days, "calculated", rule, "trip plan; arithmetic", inputs))
    _enter_first_end(key, days, ledger)


def _enter_first_end(key: str, days: Quantity | None, ledger: Ledger) -> None:
    """Days until the first of fresh, gray and black, with the waste tanks as at departure."""
    ends = {"fresh water": days}
    for name in ("gray water", "black water"):
        found = known_quantity(ledger, f"sitting_out.{name.replace(' ', '_')}.days")
        if found is not None:
            ends[name] = found
    known = {name: end for name, end in ends.items() if end is not None}
    # Without its own days known, the fresh tank might end before either of the others.
    least = min((number_in(end, "day") for end in known.values()), default=None) if days is not None else None
    first = [name for name, end in known.items() if number_in(end, "day") == least]
    inputs = tuple(
        Input(name, days_text(end), f"{key}.days" if name == "fresh water" else "sitting_out")
        for name, end in known.items()
    )
    rule, source = "The first of fresh, gray and black water to end.", "trip plan; arithmetic"
    value = known[first[0]] if first else None
    ledger.add(Figure(f"{key}.stay", value, "calculated", rule, source, inputs))
    # Water is left out of the words: the line that names them has it.
    words = ", ".join(name.removesuffix(" water") for name in first) or None
    ledger.add(Figure(f"{key}.ends_first", words, "calculated", rule, source, inputs))


def _changing_axles(fills: tuple[_Fill, ...]) -> Iterator[tuple[str, str]]:
    """Axles whose load is known and not the same in every fill."""
    for vehicle, loads in fills[0].loads.vehicles.items():
        for axle in loads.axles:
            found = [fill.loads.vehicles[vehicle].axles[axle].load for fill in fills]
            known = [load for load in found if load is not None]
            if len(known) == len(fills) and min(known) < max(known):
                yield vehicle, axle


def _enter_axle(profile: Profile, on: date, axle: TireAxle, fill: _Fill, ledger: Ledger) -> None:
    load, wording = fill.loads.vehicles[axle.vehicle_name].axles[axle.axle_name], axle.wording
    key = f"water.{axle.vehicle_name}.{axle.axle_name}.{fill.name}".replace(" ", "_")
    rating, rule = axle.axle.rating, f"{fill.words}, moved by statics."
    ledger.add(Figure(f"{key}.load", load.load, "calculated", rule, _STATICS))
    rule = f"The heavier wheel end, {_told(load.rule, profile.rig)}."
    ledger.add(Figure(f"{key}.heavier_end", load.end, "calculated", rule, _STATICS))
    margin = None if rating is None or load.load is None else rating - load.load
    rule = "The gross axle weight rating less the load."
    ledger.add(Figure(f"{key}.margin", margin, "calculated", rule, "49 CFR 571.3"))
    inflation = inflation_of(axle, profile, on)
    end = "not known" if load.end is None else wording.weight(load.end, "up")
    inputs = (Input("heavier wheel end", end, f"{key}.heavier_end"),)
    rule = "Set-point that this state alone would ask for, by the rules of card 3."
    pressure = inflation.result.pressure
    ledger.add(
        Figure(f"{key}.set_point", pressure, "calculated", rule, "practice; stated", inputs, (_NEVER_ALONE,))
    )


def _enter_totals(rig: Rig, fills: tuple[_Fill, ...], fill: _Fill, ledger: Ledger) -> None:
    for vehicle, entry in rig.vehicles.items():
        totals = [one.loads.vehicles[vehicle].total for one in fills]
        known = [total for total in totals if total is not None]
        if len(known) < len(fills) or not min(known) < max(known):
            continue
        rating, total = entry.label.gross_vehicle_weight_rating, fill.loads.vehicles[vehicle].total
        key = f"water.{vehicle}.total.{fill.name}".replace(" ", "_")
        _enter_total(key, total, rating, fill, ledger)
    if is_combination(rig):
        rating = next(iter(rig.vehicles.values())).label.gross_combination_weight_rating
        _enter_total(f"water.combination.{fill.name}", fill.loads.combination, rating, fill, ledger)


def _enter_total(
    key: str, load: Quantity | None, rating: Quantity | None, fill: _Fill, ledger: Ledger
) -> None:
    ledger.add(Figure(f"{key}.load", load, "calculated", f"{fill.words}.", _STATICS))
    margin = None if load is None or rating is None else rating - load
    ledger.add(Figure(f"{key}.margin", margin, "calculated", "The rating less the load.", "49 CFR 571.3"))
