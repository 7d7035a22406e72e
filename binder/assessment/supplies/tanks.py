"""The tanks and batteries of a rig, and what each use draws from them."""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from pydantic_core import PydanticCustomError

from binder.assessment.body.equipment import is_lived_in
from binder.assessment.ledger import Fact, Finding, Ledger, Phrase
from binder.assessment.route.days import MOTOR_FUELS
from binder.assessment.supplies import kinds, sitting_out_kinds
from binder.assessment.supplies.kinds import AtMoments
from binder.assessment.weights.states import full_volume, volume_of
from binder.calculations.bounds import Band
from binder.calculations.supplies.battery import USABLE, usable_charge
from binder.calculations.supplies.endurance import EMERGENCY_STORE, water_needs
from binder.calculations.supplies.fuel import USUAL_DOSING
from binder.calculations.supplies.propane import MOST_PROPANE, PropaneAtLow
from binder.calculations.supplies.stages import Chains, Generator, Names, Uses, battery_store, tank_store
from binder.calculations.supplies.walk import Store
from binder.models.base import LevelValue, read_level
from binder.models.load import Profile
from binder.models.rig import Rig
from binder.models.trip import Lasts, Use
from binder.models.vehicles import Battery, Tank, Vehicle
from binder.quantities import Charge, FuelUse, Quantity, RatioOfTimes, Share, registry

_NOTHING = registry.Quantity(0.0, "gallon")
_DAY = registry.Quantity(1.0, "day")
_WARM = registry.Quantity(100.0, "percent")
_HOUSE = "house"


class SupplyTank(NamedTuple):
    """One tank of the rig; ``name`` is what the walk calls it."""

    name: str
    vehicle: str
    words: str
    tank: Tank
    start: Quantity | None

    @property
    def subject(self) -> tuple[str, str]:
        """Whose it is, and its name."""
        return self.vehicle, self.words

    @property
    def level(self) -> AtMoments:
        """Kind of figure of what it holds along the trip."""
        return kinds.level_of(self.tank.holds)

    @property
    def full(self) -> Quantity | None:
        """What it holds when full."""
        return full_volume(self.tank)

    @property
    def unusable(self) -> Quantity:
        """What lies at its bottom and cannot be drawn; propane is counted without it."""
        tank = self.tank
        if tank.holds == "propane" or tank.usable is None or tank.capacity is None:
            return _NOTHING
        unusable: Quantity = tank.capacity - tank.usable
        return unusable


class SupplyBattery(NamedTuple):
    """The house battery: its bank, and the charge of it that may be drawn, warm; None: not known."""

    name: str
    vehicle: str
    words: str
    bank: Battery
    usable: Charge | None

    @property
    def lacks(self) -> str:
        """What is not known of it: the case of its finding."""
        if self.usable is not None:
            return ""
        return "name" if _HOUSE not in self.words else "total" if self.bank.total is None else "chemistry"

    @property
    def subject(self) -> tuple[str, str]:
        """Whose it is, and its name."""
        return self.vehicle, self.words

    @property
    def level(self) -> AtMoments:
        """Kind of figure of the charge left along the trip."""
        return kinds.CHARGE


class SupplyTanks(NamedTuple):
    """Every tank by its name, the house battery, and the order they are drawn from and filled in."""

    tanks: Mapping[str, SupplyTank]
    battery: SupplyBattery | None
    chains: Chains

    @property
    def stores(self) -> dict[str, Store]:
        """All of them as the walk takes them."""
        stores = {name: tank_store(item.full, item.start, item.unusable) for name, item in self.tanks.items()}
        return stores | ({self.battery.name: battery_store(self.battery.usable)} if self.battery else {})

    def store(self, name: str) -> SupplyTank | SupplyBattery:
        """Find a tank or the house battery by its name in the walk."""
        return self.battery if self.battery and name == self.battery.name else self.tanks[name]


def supply_tanks(profile: Profile) -> SupplyTanks:
    """Find the tanks of a rig, and which each use is drawn from."""
    tanks = {item.name: item for item in _tanks(profile)}
    battery = next(_batteries(profile.rig), None)
    return SupplyTanks(tanks, battery, _chains(profile.rig, tanks, battery))


def _tanks(profile: Profile) -> Iterator[SupplyTank]:
    stated = profile.trip.levels_at_start if profile.trip else {}
    for vehicle, entry in profile.rig.vehicles.items():
        for words, tank in entry.tanks.items():
            level = stated.get(vehicle, {}).get(words)
            filled = _as_filled(tank)
            start = None if level is None else volume_of(filled, level)
            yield SupplyTank(f"{vehicle}/{words}", vehicle, words, filled, start)


def _as_filled(tank: Tank) -> Tank:
    """Give the tank as it is filled: propane to 80 % where the profile does not say what is usable."""
    if tank.holds != "propane" or tank.usable is not None or tank.capacity is None:
        return tank
    return tank.model_copy(update={"usable": (tank.capacity * MOST_PROPANE).to(tank.capacity.units)})


def _batteries(rig: Rig) -> Iterator[SupplyBattery]:
    """Batteries of what is lived in, the house battery first: without its name none of them is known."""
    banks = [
        (vehicle, words, bank)
        for vehicle, entry in rig.vehicles.items()
        if is_lived_in(entry)
        for words, bank in entry.batteries.items()
    ]
    for vehicle, words, bank in sorted(banks, key=lambda item: _HOUSE not in item[1]):
        usable = None
        if _HOUSE in words and bank.total is not None and bank.chemistry is not None:
            usable = usable_charge(bank.total, USABLE[bank.chemistry], _WARM)
        yield SupplyBattery(f"{vehicle}/{words}/battery", vehicle, words, bank, usable)


def _chains(rig: Rig, tanks: Mapping[str, SupplyTank], battery: SupplyBattery | None) -> Chains:
    first = next(iter(rig.vehicles))
    runs = next((name for name, entry in rig.vehicles.items() if entry.generator), None)
    return Chains(
        fuel=_motor_fuel(first, tanks),
        exhaust_fluid=_holding("exhaust fluid", tanks, first),
        fresh=_holding("fresh water", tanks),
        gray=_holding("gray water", tanks),
        black=_holding("black water", tanks),
        propane=_holding("propane", tanks),
        generator_fuel=_motor_fuel(runs, tanks) if runs else (),
        battery=(battery.name,) if battery else (),
    )


def _holding(contents: str, tanks: Mapping[str, SupplyTank], vehicle: str = "") -> Names:
    return tuple(
        name for name, item in tanks.items() if item.tank.holds == contents and vehicle in {"", item.vehicle}
    )


def _motor_fuel(vehicle: str, tanks: Mapping[str, SupplyTank]) -> Names:
    """Tanks of the vehicle's first motor fuel: an engine burns one."""
    own = [item for item in tanks.values() if item.vehicle == vehicle and item.tank.holds in MOTOR_FUELS]
    return tuple(item.name for item in own if item.tank.holds == own[0].tank.holds)


def generator_vehicle(rig: Rig) -> Vehicle | None:
    """Find the vehicle that carries a generator."""
    return next((entry for entry in rig.vehicles.values() if entry.generator), None)


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
        water=use.water,
        to_black=_to_black(use),
        propane=tuple(PropaneAtLow(*row) for row in use.propane.rates) if use.propane else (),
        is_propane_open_driving=any(
            tanks.tanks[name].tank.valve_while_driving == "open" for name in tanks.chains.propane
        ),
        generator=_as_run(generator, running) if generator and running else None,
        battery=use.battery,
    )
    return SupplyUses(uses, _dosing(use), generator, dict(_cautions(profile, use)))


def _cautions(profile: Profile, use: Use) -> Iterator[tuple[str, tuple[Phrase, ...]]]:
    """What is to be told of the use of one kind of contents."""
    if not use.black:
        yield from ((waste, (Phrase(kinds.SPLIT, {"share": TO_BLACK}),)) for waste in kinds.WASTE)
    if any(
        tank.holds == "propane" and tank.usable is None
        for vehicle in profile.rig.vehicles.values()
        for tank in vehicle.tanks.values()
    ):
        yield "propane", (Phrase(kinds.FILLED_TO_MOST, {"most": MOST_PROPANE}),)
    elif use.propane and any(low is None for low, _ in use.propane.rates):
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


def _as_run(generator: Generator, running: RatioOfTimes) -> Generator:
    return generator._replace(use=None if generator.use is None else generator.use * running)


def _generator(profile: Profile, tanks: SupplyTanks) -> Generator | None:
    vehicle = generator_vehicle(profile.rig)
    if vehicle is None or vehicle.generator is None or not tanks.chains.generator_fuel:
        return None
    tank = tanks.tanks[tanks.chains.generator_fuel[0]].tank
    cut_off = volume_of(tank, _level(vehicle.generator.cut_off) or USUAL_QUARTER)
    return Generator(vehicle.generator.use_at_full_load, cut_off)


def _level(text: str | None) -> LevelValue | None:
    """Read a level written in words; None where it is none."""
    try:
        return None if text is None else read_level(text)
    except PydanticCustomError:
        return None


def find_missing_uses(profile: Profile, tanks: SupplyTanks, fuel: FuelUse | None, ledger: Ledger) -> None:
    """Find what is not known of uses and of levels at the start; ``fuel`` is the use that is known."""
    use, chains = profile.trip.use if profile.trip else Use(), tanks.chains
    lasts = profile.trip.lasts if profile.trip else Lasts()
    asked = (
        (chains.fuel, fuel, "fuel"),
        (chains.fresh, use.water, "water"),
        (chains.propane, use.propane, "propane"),
    )
    for names, given, case in asked:
        if names and given is None:
            key, least = kinds.USE_MISSING.of(*tanks.tanks[names[0]].subject), water_needs()[EMERGENCY_STORE]
            facts: dict[str, Fact] = {"least": least.a_person.least * _DAY}
            ledger.find(Finding(kinds.USE_MISSING, key, facts, case))
    if tanks.battery and tanks.battery.lacks:
        key = kinds.BATTERY_MISSING.of(*tanks.battery.subject)
        ledger.find(Finding(kinds.BATTERY_MISSING, key, case=tanks.battery.lacks))
    _find_generator_use(profile, tanks, ledger)
    if tanks.battery and use.battery is None:
        ledger.find(Finding(kinds.BATTERY_USE_MISSING, kinds.BATTERY_USE_MISSING.of(*tanks.battery.subject)))
    for name, time in (("food", lasts.food), ("medicine", lasts.medicine)) if chains.fresh else ():
        if time is None:
            ledger.find(Finding(sitting_out_kinds.LASTS_MISSING, sitting_out_kinds.AT_START.days_of.of(name)))
    for item in tanks.tanks.values():
        if item.full is None:
            ledger.find(Finding(kinds.CAPACITY_MISSING, kinds.CAPACITY_MISSING.of(*item.subject)))
        if item.start is None:
            ledger.find(Finding(kinds.LEVEL_MISSING, kinds.LEVEL_MISSING.of(*item.subject)))


def _find_generator_use(profile: Profile, tanks: SupplyTanks, ledger: Ledger) -> None:
    for vehicle, entry in profile.rig.vehicles.items():
        lacks = entry.generator and tanks.chains.generator_fuel and entry.generator.use_at_full_load is None
        if lacks:
            ledger.find(Finding(kinds.GENERATOR_USE_MISSING, kinds.GENERATOR_USE_MISSING.of(vehicle)))
