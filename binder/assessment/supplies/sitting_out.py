"""Sitting it out: how long each resource lasts, which ends first, and what stretches it."""

from collections.abc import Iterable, Iterator, Mapping
from math import inf
from typing import NamedTuple

from binder.assessment.ledger import Fact, Figure, Input, Key, Ledger, Phrase
from binder.assessment.route.days import total, trip_days
from binder.assessment.supplies import kinds, sitting_out_kinds
from binder.assessment.supplies.sitting_out_kinds import Ends, Stay
from binder.assessment.supplies.tanks import SupplyBattery, SupplyTanks
from binder.assessment.supplies.walk import SupplyWalk, WalkedMoment
from binder.assessment.supplies.water_question import PART_FILL
from binder.calculations.supplies.battery import lead_acid_capacity_in_cold
from binder.calculations.supplies.endurance import (
    End,
    Endurance,
    GeneratorUse,
    Resource,
    battery_lasting,
    endurance,
    filling,
    generator_lasting,
    lasting,
)
from binder.calculations.supplies.propane import propane_use_at
from binder.calculations.supplies.stages import Drive, Names
from binder.models.load import Profile
from binder.quantities import Charge, Quantity, Temperature, Time, VolumeRate, number_in, registry
from binder.reference.constants import WATER_DENSITY

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

    ``drawn``: of the house battery; None: not known. ``elsewhere``: what is not known at other places.
    """

    words: Phrase
    levels: Levels
    low: Temperature | None
    drawn: Charge | None = _NO_CHARGE
    elsewhere: tuple[str, ...] = ()


def held_in(levels: Levels, names: Names) -> Quantity | None:
    """Add up what some tanks hold."""
    return total((levels.get(name) for name in names), "gallon") if names else None


def tanks_at(walk: SupplyWalk, place: SittingPlace) -> Iterator[Lasting]:
    """Tell how long fresh water, room for waste, and propane last."""
    uses, chains = walk.uses.uses, walk.tanks.chains
    black = uses.to_black if chains.black else uses.to_black * 0
    if chains.fresh:
        yield _emptying("fresh water", _drawable(walk.tanks, place, chains.fresh), uses.water)
    for name, names, share in (("gray water", chains.gray, 1 - black), ("black water", chains.black, black)):
        if names and chains.fresh:
            inflow = None if uses.water is None else uses.water * float(share.to("").m)
            held, full = held_in(place.levels, names), _capacity(walk.tanks, names)
            yield _filling(name, held, full, inflow)
    if chains.propane:
        rate = propane_use_at(uses.propane, place.low)
        yield _emptying("propane", held_in(place.levels, chains.propane), rate)


def _drawable(tanks: SupplyTanks, place: SittingPlace, names: Names) -> Quantity | None:
    """What can be drawn of what some tanks hold."""
    held: dict[str, Quantity | None] = {}
    for name in names:
        level, unusable = place.levels.get(name), tanks.tanks[name].unusable
        held[name] = None if level is None else max(level - unusable, _NOTHING)
    return held_in(held, names)


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
    if current is None or share is None or place.drawn is None or battery.usable is None:
        return Lasting(kinds.HOUSE_BATTERY, None, known=False)
    usable = battery.usable * float(share.to("").m)
    # What was drawn warm is missing whole from what the cold leaves.
    left = usable - place.drawn if usable > place.drawn else usable * 0
    inputs = (Input(sitting_out_kinds.USABLE, left), Input(sitting_out_kinds.SHARE_IN_COLD, share))
    return Lasting(kinds.HOUSE_BATTERY, battery_lasting(left, current), known=True, inputs=inputs)


def _cold_share(battery: SupplyBattery, low: Temperature | None) -> Quantity | None:
    """Part of a battery's capacity at a low: all of it where it is warmer than the table."""
    if battery.bank.chemistry != "lead-acid" or (low is not None and low > _WARMEST_ROW):
        return registry.Quantity(100.0, "percent")
    return None if low is None else lead_acid_capacity_in_cold(low)


def generator_at(walk: SupplyWalk, place: SittingPlace) -> Lasting | None:
    """Tell how long the fuel over a generator's cut-off lasts as the plan runs it."""
    generator, held = walk.uses.uses.generator, held_in(place.levels, walk.tanks.chains.generator_fuel)
    if generator is None:
        return None
    if held is None or generator.use is None or generator.cut_off is None:
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


_STORES = ("food", "medicine")
_WATER = frozenset({"fresh water", *kinds.WASTE})
"""Resources that end with the use of water, each with its own tank."""
SHARES = (("full", 1.0), ("half", 0.5), ("quarter", 0.25))
"""What is left: of what a tank holds when full, and in a waste tank of its room."""


class _Sitting(NamedTuple):
    """What every place is assessed with."""

    profile: Profile
    walk: SupplyWalk

    def resources(self, place: SittingPlace) -> list[Lasting]:
        """All that lasts at a place without the generator."""
        return [*_tanks_and_battery(self.walk, place), *stores_aboard(self.profile)]


def _tanks_and_battery(walk: SupplyWalk, place: SittingPlace) -> Iterator[Lasting]:
    battery = battery_at(walk, place)
    yield from tanks_at(walk, place)
    if battery:
        yield battery


def assess_sitting_out(profile: Profile, walk: SupplyWalk, ledger: Ledger) -> None:
    """Enter how long the rig can stay: with what it leaves with, part full, and at each night's place."""
    if not walk.tanks.chains.fresh and not walk.tanks.chains.propane:
        return
    sitting = _Sitting(profile, walk)
    starts: Levels = {name: item.start for name, item in walk.tanks.tanks.items()}
    start = SittingPlace(Phrase(sitting_out_kinds.WITH_LEVELS_AT_START), starts, _coldest(profile))
    _enter_stay(sitting_out_kinds.AT_START, sitting, start, ledger)
    _enter_part_full(sitting, start, ledger)
    _enter_moments(sitting, ledger)
    _enter_by_level(walk, start, ledger)


def _enter_stay(
    stay: Stay, sitting: _Sitting, place: SittingPlace, ledger: Ledger, charged_at: SittingPlace | None = None
) -> None:
    """Enter for one place what lasts how long, what to ration, and all of it with the generator.

    ``charged_at``: where it is shortest with the generator, which may be another place.
    """
    ledger.enter(Figure(stay.night_low.of(), place.low))
    items = sitting.resources(place)
    for item in items:
        _enter_resource(stay.days_of.of(item.name), item, place, ledger)
    found = _enter_ends(stay.ends, items, place, ledger)
    _enter_ration(stay, (found, items), place, ledger)
    if sitting.walk.tanks.chains.generator_fuel:
        run = generator_at(sitting.walk, place)
        if run is not None:
            _enter_resource(stay.days_of.of(run.name), run, place, ledger)
        _enter_generator(stay, sitting, charged_at or place, ledger)


def _coldest(profile: Profile) -> Temperature | None:
    nights = [day.plan.night for day in trip_days(profile) if day.plan.night]
    lows = [night.low for night in nights]
    if None in lows:
        return None
    return min(
        (low for low in lows if low is not None), key=lambda low: float(low.to("kelvin").m), default=None
    )


def _enter_moments(sitting: _Sitting, ledger: Ledger) -> None:
    """Enter each arrival and each departure, and the one where it is shortest."""
    ends, charged, elsewhere = [], [], dict[str, None]()
    for item, place in _places(sitting):
        subject = (item.day.number, item.number, place.words.facts["end"])
        every = sitting.resources(place)
        found = _enter_ends(sitting_out_kinds.AT_MOMENT, every, place, ledger, *map(str, subject))
        elsewhere |= dict.fromkeys(one.name for one in every if not one.known)
        if found.binding is not None:
            ends.append((number_in(found.binding.time, "day"), place))
            charged.append((_ends_after(_charged(sitting, place, every)), place))
    if not ends:
        return
    place, charged_at = (
        min(found, key=lambda end: end[0])[1]._replace(elsewhere=tuple(elsewhere))
        for found in (ends, charged)
    )
    ledger.enter(Figure(sitting_out_kinds.LEAST_PLACE.of(), place.words))
    _enter_stay(sitting_out_kinds.LEAST, sitting, place, ledger, charged_at)


def _ends_after(items: Iterable[Lasting]) -> float:
    """Days until the first of those known ends."""
    return min((number_in(one.lasts, "day") for one in items if one.lasts is not None), default=inf)


def _places(sitting: _Sitting) -> Iterator[tuple[WalkedMoment, SittingPlace]]:
    """Each moment of the trip, with what there is then and its night's low; of no night the coldest."""
    walk, coldest = sitting.walk, _coldest(sitting.profile)
    battery = walk.tanks.battery
    for item in walk.moments:
        end = "arriving" if isinstance(item.event, Drive) else "leaving"
        where: dict[str, Fact] = {"place": item.stop.place, "day": item.day.number, "end": end}
        levels = {name: _gallons(item.moment.held[name].level) for name in walk.tanks.tanks}
        level, drawn = item.moment.held[battery.name].level if battery else None, None
        if battery and battery.usable is not None and level is not None:
            drawn = battery.usable - registry.Quantity(level, "ampere_hour")
        low = item.day.plan.night.low if item.day.plan.night else coldest
        yield item, SittingPlace(Phrase(sitting_out_kinds.AT_END[end], where), levels, low, drawn)


def _gallons(level: float | None) -> Quantity | None:
    return None if level is None else registry.Quantity(level, "gallon")


def _charged(sitting: _Sitting, place: SittingPlace, every: Iterable[Lasting]) -> list[Lasting]:
    """All that lasts with the generator: it makes the battery good as long as its own fuel lasts."""
    run = generator_at(sitting.walk, place)
    items = [item for item in every if item.name != kinds.HOUSE_BATTERY]
    return [*items, run] if run else items


def _enter_generator(stay: Stay, sitting: _Sitting, place: SittingPlace, ledger: Ledger) -> None:
    """Enter what ends first with the generator, and how long its fuel lasts at full load."""
    _enter_ends(stay.with_generator, _charged(sitting, place, sitting.resources(place)), place, ledger)
    hours, inputs = _hours(sitting, place)
    ledger.enter(Figure(stay.generator_hours.of(), hours, (*inputs, _where(place))))


def _hours(sitting: _Sitting, place: SittingPlace) -> tuple[Quantity | None, tuple[Input, ...]]:
    generator = sitting.walk.uses.generator
    held = held_in(place.levels, sitting.walk.tanks.chains.generator_fuel)
    if generator is None or held is None or generator.use is None or generator.cut_off is None:
        return None, ()
    full_load = GeneratorUse(generator.use, registry.Quantity(1.0, ""))
    found = generator_lasting(held, generator.cut_off, full_load)
    inputs = (Input(sitting_out_kinds.CUT_OFF_OF_HOURS, generator.cut_off),)
    return None if found is None else found.to("hour"), inputs


def _enter_resource(key: Key, item: Lasting, place: SittingPlace, ledger: Ledger) -> None:
    if item.name in _STORES:
        ledger.enter(Figure(key, item.lasts, case="stated" if item.known else "unstated"))
        return
    used = "" if item.lasts is not None else sitting_out_kinds.UNUSED
    case = used if item.known else sitting_out_kinds.UNKNOWN
    is_battery = item.name == kinds.HOUSE_BATTERY
    cautions = (Phrase(sitting_out_kinds.ENGINE_NOT_COUNTED),) if is_battery else ()
    ledger.enter(Figure(key, item.lasts, (*item.inputs, _where(place)), case, cautions=cautions))


def _where(place: SittingPlace) -> Input:
    return Input(sitting_out_kinds.CASE, place.words)


def _enter_ends(
    ends: Ends, items: Iterable[Lasting], place: SittingPlace, ledger: Ledger, *subject: str
) -> Endurance:
    every = list(items)
    known = [item for item in every if item.known]
    found = endurance(Resource(item.name, item.lasts) for item in known)
    lacking = tuple(dict.fromkeys((*(item.name for item in every if not item.known), *place.elsewhere)))
    lasting = (
        Input(sitting_out_kinds.ENDS_AT, item.lasts, facts={"resource": item.name})
        for item in known
        if item.lasts is not None
    )
    case = sitting_out_kinds.LACKING if lacking else ""
    inputs, facts = (*lasting, _where(place)), {"lacking": lacking}
    binding, after = found.binding, found.following
    slack = Phrase(sitting_out_kinds.THEN, {"names": after.names, "time": after.time}) if after else None
    # What is not known may be the first to end.
    days = binding.time if binding and not lacking else None
    ledger.enter(Figure(ends.days.of(*subject), days, inputs, case, facts, slack))
    for kind, end in ((ends.binding, binding), (ends.following, after)):
        ledger.enter(Figure(kind.of(*subject), _names(end), inputs, case, facts))
    return found


def _names(end: End | None) -> Phrase | None:
    return Phrase(sitting_out_kinds.NAMES, {"names": end.names}) if end else None


def _enter_ration(
    stay: Stay, found: tuple[Endurance, list[Lasting]], place: SittingPlace, ledger: Ledger
) -> None:
    ends, items = found
    names = ends.binding.names if ends.binding else ()
    steps = tuple(step for name in names for step in sitting_out_kinds.RATION[name])
    value = Phrase(sitting_out_kinds.STEPS, {"steps": steps}) if steps else None
    ledger.enter(Figure(stay.ration_first.of(), value))
    if not names or "medicine" in names:
        return
    halved = {*names, *(() if _WATER.isdisjoint(names) else _WATER)}
    spared = [_halved(item) if item.name in halved else item for item in items]
    words = Phrase(sitting_out_kinds.WITH_HALF_THE_USE, {"place": place.words, "names": names})
    _enter_ends(stay.rationed, spared, place._replace(words=words), ledger)


def _halved(item: Lasting) -> Lasting:
    return item if item.lasts is None else item._replace(lasts=item.lasts * 2)


def _enter_part_full(sitting: _Sitting, start: SittingPlace, ledger: Ledger) -> None:
    names, fill = sitting.walk.tanks.chains.fresh, PART_FILL[sitting.profile.rig.units]
    held = held_in(start.levels, names)
    if held is None or held <= fill:
        return
    part = {name: fill if name == names[0] else _NOTHING for name in names}
    words = Phrase(sitting_out_kinds.WITH_PART_FULL, {"fill": fill})
    place = start._replace(words=words, levels={**start.levels, **part})
    _enter_ends(sitting_out_kinds.PART_FULL, sitting.resources(place), place, ledger)
    ledger.enter(Figure(sitting_out_kinds.PART_FULL_HELD.of(), fill))
    fresh = next(item for item in sitting.resources(place) if item.name == "fresh water")
    _enter_resource(sitting_out_kinds.PART_FULL_DAYS_OF.of(fresh.name), fresh, place, ledger)
    saved = ((held - fill) * WATER_DENSITY.quantity).to("pound")
    less = Input(sitting_out_kinds.LESS_WATER, held - fill)
    ledger.enter(Figure(sitting_out_kinds.WEIGHT_SAVED.of(), saved, (less,)))


def _enter_by_level(walk: SupplyWalk, start: SittingPlace, ledger: Ledger) -> None:
    """Enter how long each resource lasts with its tank full, half and a quarter full: to look up."""
    waste, battery = {*walk.tanks.chains.gray, *walk.tanks.chains.black}, walk.tanks.battery
    for share, part in SHARES:
        levels: Levels = {
            name: None if item.full is None else item.full * (1 - part if name in waste else part)
            for name, item in walk.tanks.tanks.items()
        }
        place = start._replace(levels=levels)
        if battery is not None and battery.usable is not None:
            place = place._replace(drawn=battery.usable * (1 - part))
        for item in _tanks_and_battery(walk, place):
            case = (
                "room" if item.name in kinds.WASTE else "charge" if item.name == kinds.HOUSE_BATTERY else ""
            )
            key = sitting_out_kinds.BY_LEVEL.of(item.name, share)
            ledger.enter(Figure(key, item.lasts, item.inputs, case))
