"""What the crew and the rig use, from the plan; where it does not say, the published or common figure."""

from typing import NamedTuple

from pydantic_core import PydanticCustomError

from binder.assessment.figures import Finding, Ledger
from binder.assessment.supplies.tanks import SupplyTanks, generator_vehicle
from binder.assessment.weights.states import volume_of
from binder.calculations.bounds import Band
from binder.calculations.supplies.endurance import EMERGENCY_STORE, water_for, water_needs
from binder.calculations.supplies.fuel import USUAL_DOSING
from binder.calculations.supplies.propane import PropaneAtLow
from binder.calculations.supplies.stages import Generator, Uses
from binder.models.base import LevelValue, read_level
from binder.models.load import Profile
from binder.models.trip import Lasts, Use
from binder.quantities import FuelUse, Quantity, Share, VolumeRate, registry

# practice, no source: of the water used, a fifth goes down the toilet.
TO_BLACK = registry.Quantity(20.0, "percent")
USUAL_QUARTER = LevelValue("1/4", share=0.25)  # practice, no source: reserve, and a generator's cut-off.


class SupplyUses(NamedTuple):
    """Uses of the walk, and what is told beside them.

    ``dosing``: exhaust fluid as a share of the fuel; the walk takes its upper end. ``generator``: what it
    burns in an hour of running, and its cut-off, whether or not the plan runs it.
    """

    uses: Uses
    dosing: Band
    generator: Generator | None
    cautions: dict[str, str]


def supply_uses(profile: Profile, tanks: SupplyTanks) -> SupplyUses:
    """Gather what is used."""
    use = profile.trip.use if profile.trip else Use()
    generator = _generator(profile, tanks)
    split = "" if use.black else _SPLIT
    cautions = {"gray water": split, "black water": split, "fresh water": "" if use.water else _FEMA}
    if use.propane and any(low is None for low, _ in use.propane.rates):
        cautions["propane"] = "One figure for every night: a furnace burns more on a cold one."
    if any(vehicle.hydronic_heater for vehicle in profile.rig.vehicles.values()):
        cautions["diesel"] = "What the heater burns is not counted: its hours are not given."
    running = use.generator if use.generator is not None and use.generator.m > 0 else None
    uses = Uses(
        fuel=fuel_use(use, tanks),
        exhaust_fluid=_dosing(use).most,
        water=use.water if use.water is not None else _water_of_crew(profile),
        to_black=_to_black(use),
        propane=tuple(PropaneAtLow(*row) for row in use.propane.rates) if use.propane else (),
        is_propane_open_driving=any(
            tanks.tanks[name].tank.valve_while_driving == "open" for name in tanks.chains.propane
        ),
        generator=Generator(generator.use * running, generator.cut_off) if generator and running else None,
        battery=use.battery,
    )
    return SupplyUses(uses, _dosing(use), generator, {key: text for key, text in cautions.items() if text})


_SPLIT = f"Of the water used, {TO_BLACK.m:.0f} % is counted to black, the rest to gray (practice, no source)."
_FEMA = "Water use is not given: 1 gal a person and day is counted (FEMA)."


def fuel_use(use: Use, tanks: SupplyTanks) -> FuelUse | None:
    """Fuel a distance takes, of the fuel the engine burns."""
    held = {tanks.tanks[name].tank.holds for name in tanks.chains.fuel}
    return use.diesel if "diesel" in held else use.gasoline if "gasoline" in held else None


def _to_black(use: Use) -> Share:
    return TO_BLACK if use.black is None else registry.Quantity(use.black.share * 100, "percent")


def _dosing(use: Use) -> Band:
    if use.exhaust_fluid is None:
        return USUAL_DOSING
    own = registry.Quantity(use.exhaust_fluid.share * 100, "percent")
    return Band(own, own)


def people_aboard(profile: Profile) -> int | None:
    """Count the crew."""
    return len(profile.trip.crew) if profile.trip and profile.trip.crew else profile.rig.people


def _water_of_crew(profile: Profile) -> VolumeRate | None:
    people = people_aboard(profile)
    return None if not people else water_for(people, water_needs()[EMERGENCY_STORE]).most


def _generator(profile: Profile, tanks: SupplyTanks) -> Generator | None:
    vehicle = generator_vehicle(profile.rig)
    if vehicle is None or vehicle.generator is None or not tanks.chains.generator_fuel:
        return None
    burns = vehicle.generator.use_at_full_load or vehicle.generator.use
    tank = tanks.tanks[tanks.chains.generator_fuel[0]].tank
    cut_off = volume_of(tank, _level(vehicle.generator.cut_off) or USUAL_QUARTER)
    return None if burns is None or cut_off is None else Generator(burns, cut_off)


def _level(text: str | None) -> LevelValue | None:
    """Read a level written in words; None where it is none."""
    try:
        return None if text is None else read_level(text)
    except PydanticCustomError:
        return None


def find_missing_uses(profile: Profile, tanks: SupplyTanks, ledger: Ledger) -> None:
    """Find what the plan does not say of uses and of levels at the start."""
    use = profile.trip.use if profile.trip else Use()
    battery: Quantity | None = use.battery
    lasts = profile.trip.lasts if profile.trip else Lasts()
    asked = (
        (tanks.chains.fuel, fuel_use(use, tanks), "the fuel a distance takes", "like 8.0 mpg"),
        (tanks.chains.fresh, use.water, "the water used a day", "like 14 gal/day"),
        (tanks.chains.propane, use.propane, "the propane used a day", "like 0.9 gal/day"),
        (
            tanks.chains.battery,
            battery,
            "what the house battery gives a day",
            "under battery, like 60 Ah/day",
        ),
    )
    for names, given, words, example in asked:
        if names and given is None:
            text = f"The plan does not say {words}."
            helps = f"Enter it in use:, from your own log, {example}."
            ledger.find(Finding("missing", 9, f"supplies.{names[0]}.use", text, helps))
    for name, time in (("food", lasts.food), ("medicine", lasts.medicine)) if tanks.chains.fresh else ():
        if time is None:
            text = f"The plan does not say for how many days {name} is aboard."
            helps = f"Enter it in lasts:, like {{{name}: 6 days}}."
            ledger.find(Finding("missing", 10, f"sitting_out.{name}.days", text, helps))
    for item in tanks.tanks.values():
        if item.start is None:
            text = f"The {item.vehicle}: the level of the {item.words} tank at the start is not given."
            helps = "Enter it in levels_at_start:, like 3/4, full or 25 gal."
            ledger.find(Finding("missing", 9, f"supplies.{item.name}.start", text, helps))
