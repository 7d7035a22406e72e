"""The tanks and the house battery of a rig as the walk of a trip takes them."""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from binder.assessment.body.equipment import is_lived_in
from binder.assessment.route.days import MOTOR_FUELS
from binder.assessment.supplies import kinds
from binder.assessment.supplies.kinds import AtMoments
from binder.assessment.weights.states import full_volume, volume_of
from binder.calculations.supplies.battery import USABLE, usable_charge
from binder.calculations.supplies.stages import Chains, Names, battery_store, tank_store
from binder.calculations.supplies.walk import Store
from binder.models.load import Profile
from binder.models.rig import Rig
from binder.models.vehicles import Battery, Tank, Vehicle
from binder.quantities import Charge, Quantity, registry

_NOTHING = registry.Quantity(0.0, "gallon")
_WARM = registry.Quantity(100.0, "percent")


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
    """The house battery: its bank, and the charge of it that may be drawn, warm."""

    name: str
    vehicle: str
    words: str
    bank: Battery
    usable: Charge

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
            start = None if level is None else volume_of(tank, level)
            yield SupplyTank(f"{vehicle}/{words}", vehicle, words, tank, start)


def _batteries(rig: Rig) -> Iterator[SupplyBattery]:
    for vehicle, entry in rig.vehicles.items():
        for words, bank in entry.batteries.items() if is_lived_in(entry) else ():
            if "house" in words and bank.total is not None and bank.chemistry is not None:
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
