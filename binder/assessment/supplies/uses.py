"""What the crew and the rig use, from the plan; where it does not say, the published or common figure."""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from pydantic_core import PydanticCustomError

from binder.assessment.ledger import Finding, Ledger, Phrase
from binder.assessment.supplies import kinds, sitting_out_kinds
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
from binder.quantities import FuelUse, Share, VolumeRate, registry

# practice, no source: of the water used, a fifth goes down the toilet.
TO_BLACK = registry.Quantity(20.0, "percent")
USUAL_QUARTER = LevelValue("1/4", share=0.25)  # practice, no source: reserve, and a generator's cut-off.


class SupplyUses(NamedTuple):
    """Uses of the walk, and what is told beside them.

    ``dosing``: exhaust fluid as a share of the fuel; the walk takes its upper end. ``generator``: what it
    burns in an hour of running, and its cut-off, whether or not the plan runs it. ``cautions`` by contents.
    """

    uses: Uses
    dosing: Band
    generator: Generator | None
    cautions: Mapping[str, tuple[Phrase, ...]]


def supply_uses(profile: Profile, tanks: SupplyTanks) -> SupplyUses:
    """Gather what is used."""
    use = profile.trip.use if profile.trip else Use()
    generator = _generator(profile, tanks)
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
    return SupplyUses(uses, _dosing(use), generator, dict(_cautions(profile, use)))


def _cautions(profile: Profile, use: Use) -> Iterator[tuple[str, tuple[Phrase, ...]]]:
    """What is to be told of the use of one kind of contents."""
    if not use.black:
        yield from ((waste, (Phrase(kinds.SPLIT, {"share": TO_BLACK}),)) for waste in kinds.WASTE)
    if not use.water:
        yield "fresh water", (Phrase(kinds.WATER_OF_CREW),)
    if use.propane and any(low is None for low, _ in use.propane.rates):
        yield "propane", (Phrase(kinds.ONE_PROPANE_USE),)
    if any(vehicle.hydronic_heater for vehicle in profile.rig.vehicles.values()):
        yield "diesel", (Phrase(kinds.HEATER_NOT_COUNTED),)


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
    use, chains = profile.trip.use if profile.trip else Use(), tanks.chains
    lasts = profile.trip.lasts if profile.trip else Lasts()
    asked = (
        (chains.fuel, fuel_use(use, tanks), "fuel"),
        (chains.fresh, use.water, "water"),
        (chains.propane, use.propane, "propane"),
    )
    for names, given, case in asked:
        if names and given is None:
            key = kinds.USE_MISSING.of(*tanks.tanks[names[0]].subject)
            ledger.find(Finding(kinds.USE_MISSING, key, case=case))
    if tanks.battery and use.battery is None:
        ledger.find(Finding(kinds.BATTERY_USE_MISSING, kinds.BATTERY_USE_MISSING.of(*tanks.battery.subject)))
    for name, time in (("food", lasts.food), ("medicine", lasts.medicine)) if chains.fresh else ():
        if time is None:
            ledger.find(Finding(sitting_out_kinds.LASTS_MISSING, sitting_out_kinds.AT_START.days_of.of(name)))
    for item in tanks.tanks.values():
        if item.start is None:
            ledger.find(Finding(kinds.LEVEL_MISSING, kinds.LEVEL_MISSING.of(*item.subject)))
