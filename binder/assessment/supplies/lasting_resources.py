"""For how long each resource lasts at a place: tanks, batteries, generator fuel, food and medicine."""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from binder.assessment.ledger import Input, Phrase
from binder.assessment.supplies import kinds, sitting_out_kinds
from binder.assessment.supplies.tanks import SupplyBattery, SupplyTanks
from binder.assessment.supplies.walk import SupplyWalk
from binder.calculations.supplies.battery import lead_acid_capacity_in_cold
from binder.calculations.supplies.endurance import (
    GeneratorUse,
    battery_lasting,
    filling,
    generator_lasting,
    lasting,
)
from binder.calculations.supplies.propane import propane_use_at
from binder.calculations.supplies.stages import Names
from binder.models.load import Profile
from binder.quantities import Charge, Quantity, Temperature, Time, VolumeRate, registry

_NOTHING = registry.Quantity(0.0, "gallon")
_NO_CHARGE = registry.Quantity(0.0, "ampere_hour")
_DAY = registry.Quantity(1.0, "day")
_WARMEST_ROW = registry.Quantity(77.0, "degF")  # S-TM10-6140: rated there.

Levels = Mapping[str, Quantity | None]


class Lasting(NamedTuple):
    """How long one resource lasts and why; ``known`` False: an amount or a use is not known."""

    name: str
    lasts: Time | None
    known: bool
    inputs: tuple[Input, ...] = ()


class SittingPlace(NamedTuple):
    """Where it is sat out: how it is named, levels there, the night's low, and what was drawn already.

    ``drawn``: of the house battery; None: not known.
    """

    words: Phrase
    levels: Levels
    low: Temperature | None
    drawn: Charge | None = _NO_CHARGE


def held_in(levels: Levels, names: Names) -> Quantity | None:
    """Add up what some tanks hold."""
    found = [levels.get(name) for name in names]
    if not found or any(level is None for level in found):
        return None
    return sum((level for level in found if level is not None), start=_NOTHING)


def tanks_at(walk: SupplyWalk, place: SittingPlace) -> Iterator[Lasting]:
    """Tell how long fresh water, room for waste, and propane last."""
    uses, chains = walk.uses.uses, walk.tanks.chains
    black = uses.to_black if chains.black else uses.to_black * 0
    if chains.fresh:
        yield _emptying("fresh water", held_in(place.levels, chains.fresh), uses.water)
    for name, names, share in (("gray water", chains.gray, 1 - black), ("black water", chains.black, black)):
        if names and chains.fresh:
            inflow = None if uses.water is None else uses.water * float(share.to("").m)
            held, full = held_in(place.levels, names), _capacity(walk.tanks, names)
            yield _filling(name, held, full, inflow)
    if chains.propane:
        rate = propane_use_at(uses.propane, place.low)
        yield _emptying("propane", held_in(place.levels, chains.propane), rate)


def _capacity(tanks: SupplyTanks, names: Names) -> Quantity | None:
    return held_in({name: tanks.tanks[name].full for name in names}, names)


def _emptying(name: str, held: Quantity | None, use: VolumeRate | None) -> Lasting:
    if held is None or use is None:
        return Lasting(name, None, known=False)
    inputs = (Input(sitting_out_kinds.HELD, held), Input(sitting_out_kinds.USED_A_DAY, use * _DAY))
    return Lasting(name, lasting(held, use), known=True, inputs=inputs)


def _filling(name: str, held: Quantity | None, full: Quantity | None, inflow: VolumeRate | None) -> Lasting:
    if held is None or full is None or inflow is None:
        return Lasting(name, None, known=False)
    room = full - held if full > held else full * 0
    inputs = (Input(sitting_out_kinds.ROOM, room), Input(sitting_out_kinds.FLOWS_IN_A_DAY, inflow * _DAY))
    return Lasting(name, filling(room, room * 0, inflow), known=True, inputs=inputs)


def battery_at(walk: SupplyWalk, place: SittingPlace) -> Lasting | None:
    """Tell how long the house battery lasts with nothing charging it."""
    battery, current = walk.tanks.battery, walk.uses.uses.battery
    if battery is None:
        return None
    share = _cold_share(battery, place.low)
    if current is None or share is None or place.drawn is None:
        return Lasting(kinds.HOUSE_BATTERY, None, known=False)
    usable = battery.usable * float(share.to("").m)
    # What was drawn warm is missing whole from what the cold leaves.
    left = usable - place.drawn if usable > place.drawn else usable * 0
    inputs = (Input(sitting_out_kinds.USABLE, left), Input(sitting_out_kinds.SHARE_IN_COLD, share))
    return Lasting(kinds.HOUSE_BATTERY, battery_lasting(left, current), known=True, inputs=inputs)


def _cold_share(battery: SupplyBattery, low: Temperature | None) -> Quantity | None:
    """Part of a battery's capacity at a low: all of it where it is warmer than the table."""
    if battery.bank.chemistry != "lead-acid" or low is None or low > _WARMEST_ROW:
        return registry.Quantity(100.0, "percent")
    return lead_acid_capacity_in_cold(low)


def generator_at(walk: SupplyWalk, place: SittingPlace) -> Lasting | None:
    """Tell how long the fuel over a generator's cut-off lasts as the plan runs it."""
    generator, held = walk.uses.uses.generator, held_in(place.levels, walk.tanks.chains.generator_fuel)
    if generator is None:
        return None
    if held is None:
        return Lasting(sitting_out_kinds.GENERATOR_FUEL, None, known=False)
    use = GeneratorUse(generator.use, registry.Quantity(1.0, ""))
    inputs = (Input(sitting_out_kinds.HELD, held), Input(sitting_out_kinds.CUT_OFF, generator.cut_off))
    lasts = generator_lasting(held, generator.cut_off, use)
    return Lasting(sitting_out_kinds.GENERATOR_FUEL, lasts, known=True, inputs=inputs)


def stores_aboard(profile: Profile) -> tuple[Lasting, ...]:
    """Tell how long food and medicine last, as the owner counted them."""
    lasts = profile.trip.lasts if profile.trip else None
    stated = (("food", lasts.food), ("medicine", lasts.medicine)) if lasts else ()
    return tuple(
        Lasting(name, None if time is None else time.to("day"), known=time is not None)
        for name, time in stated
    )
