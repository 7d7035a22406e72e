"""Sitting it out: for how many days each resource lasts, which ends first and next, and what to ration."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from binder.assessment.figures import Figure, Input, Ledger
from binder.assessment.supply_tanks import SupplyTanks
from binder.assessment.supply_walk import SupplyWalk
from binder.assessment.trip_days import trip_days
from binder.assessment.wording import Wording
from binder.calculations.battery_discharge import lead_acid_capacity_in_cold
from binder.calculations.endurance import (
    Endurance,
    GeneratorUse,
    Resource,
    battery_lasting,
    endurance,
    filling,
    generator_lasting,
    lasting,
)
from binder.calculations.propane_by_low import propane_use_at
from binder.calculations.trip_stages import Drive, Names
from binder.models.load import Profile
from binder.quantities import Quantity, Temperature, Time, VolumeRate, registry
from binder.reference.constants import WATER_DENSITY

_NOTHING = registry.Quantity(0.0, "gallon")
_ALL = registry.Quantity(100.0, "percent")
# practice, no source: a common part fill where weight is short.
_PART_FULL = registry.Quantity(20.0, "gallon")
_SOURCE = "trip plan; profile; practice; arithmetic"
_NOT_COUNTED = "Food and medicine are not counted: count them yourself."
_RATION = {
    "gray water": "Wash dishes in a basin, shower less, carry rinse water out where it is allowed.",
    "black water": "Use campground toilets; flush with less.",
    "fresh water": "Drink first, wash last: navy showers, paper plates.",
    "propane": "Lower the thermostat, close off rooms, cook once a day.",
    "house battery": "Lamps and fans off, furnace fan least, inverter off.",
    "generator fuel": "Run it shorter, at full load, with the batteries lowest.",
}

Levels = Mapping[str, Quantity | None]


@dataclass(frozen=True)
class _Lasting:
    """How long one resource lasts and why; ``known`` False: an amount or a use is not known."""

    name: str
    lasts: Time | None
    known: bool
    inputs: tuple[Input, ...] = ()
    slack: str = ""


@dataclass(frozen=True)
class _Place:
    """Where it is sat out: levels there, the night's low, and how it is named."""

    words: str
    levels: Levels
    low: Temperature | None


def assess_sitting_out(profile: Profile, walk: SupplyWalk, ledger: Ledger) -> None:
    """Enter how long the rig can stay: with what it leaves with, part full, and at each night's place.

    Args:
        profile: rig and trip.
        walk: of that trip.
        ledger: figures are added.

    Returns:
        Nothing.

    Sources:
        trip plan; practice (the part fill, the usable part of a battery).

    Example:
        >>> from datetime import date
        >>> from pathlib import Path
        >>> from binder.assessment.assess import assess
        >>> from binder.models.load import load_profile
        >>> assessment = assess(load_profile(Path("profiles/larkspur")), date(2026, 6, 1))
        >>> f"{assessment.figure('sitting_out.days').value:.2f}"
        '5.36 day'
    """
    if not walk.tanks.chains.fresh and not walk.tanks.chains.propane:
        return
    wording = Wording(profile.rig.units)
    starts: Levels = {name: item.start for name, item in walk.tanks.tanks.items()}
    start = _Place("with the levels at the start", starts, _coldest(profile))
    items = [*_resources(walk, start, wording), _battery(walk, start, wording)]
    for item in items:
        _enter_resource(item, start, ledger)
    _enter_ends("sitting_out", items, start, ledger)
    if walk.tanks.chains.generator_fuel:
        generator = _generator(walk, start, wording)
        _enter_resource(generator, start, ledger)
        _enter_generator_hours(walk, start, wording, ledger)
        _enter_ends("sitting_out.with_generator", [*items[:-1], generator], start, ledger)
    _enter_part_full(walk, start, wording, ledger)
    for key, place in _nights(walk):
        found = [*_resources(walk, place, wording), _battery(walk, place, wording)]
        _enter_ends(f"sitting_out.{key}", found, place, ledger)


def _coldest(profile: Profile) -> Temperature | None:
    nights = [day.plan.night for day in trip_days(profile) if day.plan.night]
    lows = [night.low for night in nights if night.low is not None]
    return min(lows, key=lambda low: float(low.to("kelvin").m), default=None)


def _nights(walk: SupplyWalk) -> Iterator[tuple[str, _Place]]:
    """Each place a night is spent at, with the levels on reaching it."""
    reached: Levels = {}
    for item in walk.moments:
        if isinstance(item.event, Drive):
            reached = {name: _gallons(item.moment.held[name].level) for name in walk.tanks.tanks}
        elif item.event.is_night:
            words = f"reaching {item.stop.place} on day {item.day.number}"
            yield f"day_{item.day.number}", _Place(words, reached, item.event.low)


def _gallons(level: float | None) -> Quantity | None:
    return None if level is None else registry.Quantity(level, "gallon")


def _held(levels: Levels, names: Names) -> Quantity | None:
    found = [levels.get(name) for name in names]
    if not found or any(level is None for level in found):
        return None
    return sum((level for level in found if level is not None), start=_NOTHING)


def _capacity(tanks: SupplyTanks, names: Names) -> Quantity | None:
    return _held({name: tanks.tanks[name].full for name in names}, names)


def _resources(walk: SupplyWalk, place: _Place, wording: Wording) -> Iterator[_Lasting]:
    uses, chains = walk.uses.uses, walk.tanks.chains
    black = uses.to_black if chains.black else uses.to_black * 0
    if chains.fresh:
        yield _emptying("fresh water", _held(place.levels, chains.fresh), uses.water, wording)
    for name, names, share in (("gray water", chains.gray, 1 - black), ("black water", chains.black, black)):
        if names and chains.fresh:
            inflow = None if uses.water is None else uses.water * float(share.to("").m)
            held, full = _held(place.levels, names), _capacity(walk.tanks, names)
            yield _filling(name, (held, full), inflow, wording)
    if chains.propane:
        rate = propane_use_at(uses.propane, place.low)
        yield _emptying("propane", _held(place.levels, chains.propane), rate, wording)


def _emptying(name: str, held: Quantity | None, use: VolumeRate | None, wording: Wording) -> _Lasting:
    if held is None or use is None:
        return _Lasting(name, None, known=False)
    a_day = wording.volume(use * registry.Quantity(1.0, "day"), "up")
    inputs = (
        Input("held", wording.volume(held, "down"), "trip plan"),
        Input("used a day", a_day, "trip plan, use"),
    )
    return _Lasting(name, lasting(held, use), known=True, inputs=inputs)


def _filling(
    name: str, volumes: tuple[Quantity | None, Quantity | None], inflow: VolumeRate | None, wording: Wording
) -> _Lasting:
    held, full = volumes
    if held is None or full is None or inflow is None:
        return _Lasting(name, None, known=False)
    room = full - held if full > held else full * 0
    inputs = (
        Input("room", wording.volume(room, "down"), "trip plan"),
        Input("flows in a day", wording.volume(inflow * registry.Quantity(1.0, "day"), "up"), "practice"),
    )
    return _Lasting(name, filling(room, room * 0, inflow), known=True, inputs=inputs)


def _battery(walk: SupplyWalk, place: _Place, wording: Wording) -> _Lasting:
    battery, current = walk.tanks.battery, walk.uses.uses.battery
    if battery is None or current is None:
        return _Lasting("house battery", None, known=False)
    share = _ALL
    if battery.bank.chemistry == "lead-acid":
        found = None if place.low is None else _cold_share(place.low)
        if place.low is not None and found is None:
            return _Lasting("house battery", None, known=False)
        share = found or _ALL
    usable = battery.usable * float(share.to("").m)
    inputs = (
        Input("usable", f"{float(usable.to('ampere_hour').m):.0f} Ah", "profile; practice"),
        Input("of its capacity in the cold", wording.percent(share, "down"), "S-TM10-6140"),
    )
    return _Lasting("house battery", battery_lasting(usable, current), known=True, inputs=inputs)


_WARMEST_ROW = registry.Quantity(77.0, "degF")  # S-TM10-6140: rated there.


def _cold_share(low: Temperature) -> Quantity | None:
    """Part of a lead-acid battery's capacity at a low: all of it where it is warmer than the table."""
    if low > _WARMEST_ROW:
        return _ALL
    return lead_acid_capacity_in_cold(low)


def _generator(walk: SupplyWalk, place: _Place, wording: Wording) -> _Lasting:
    generator, held = walk.uses.uses.generator, _held(place.levels, walk.tanks.chains.generator_fuel)
    if generator is None or held is None:
        return _Lasting("generator fuel", None, known=False)
    use = GeneratorUse(generator.use, registry.Quantity(1.0, ""))
    inputs = (
        Input("held", wording.volume(held, "down"), "trip plan"),
        Input("cut-off", wording.volume(generator.cut_off, "up"), "profile; a quarter where it says none"),
    )
    lasts = generator_lasting(held, generator.cut_off, use)
    return _Lasting("generator fuel", lasts, known=True, inputs=inputs)


def _enter_generator_hours(walk: SupplyWalk, place: _Place, wording: Wording, ledger: Ledger) -> None:
    generator, held = walk.uses.generator, _held(place.levels, walk.tanks.chains.generator_fuel)
    key, rule = "sitting_out.generator_fuel.hours", "running hours on the fuel over its cut-off, at full load"
    hours = None
    inputs: tuple[Input, ...] = ()
    if generator is not None and held is not None:
        use = GeneratorUse(generator.use, registry.Quantity(1.0, ""))
        found = generator_lasting(held, generator.cut_off, use)
        hours = None if found is None else found.to("hour")
        inputs = (Input("cut-off", wording.volume(generator.cut_off, "up"), "profile; practice"),)
    ledger.add(Figure(key, hours, "calculated", rule, _SOURCE, inputs))


def _enter_resource(item: _Lasting, place: _Place, ledger: Ledger) -> None:
    key, rule = f"sitting_out.{item.name.replace(' ', '_')}.days", f"what is held over its use, {place.words}"
    if not item.known:
        rule += "; an amount or a use is not known"
    elif item.lasts is None:
        rule += "; nothing of it is used"
    ledger.add(Figure(key, item.lasts, "calculated", rule, _SOURCE, item.inputs))


def _enter_ends(key: str, items: list[_Lasting], place: _Place, ledger: Ledger) -> None:
    known = [item for item in items if item.known]
    found = endurance(Resource(item.name, item.lasts) for item in known)
    lacking = [item.name for item in items if not item.known]
    cautions: tuple[str, ...] = (_NOT_COUNTED,)
    if lacking:
        cautions = (f"Not counted, since not known: {', '.join(lacking)}.", *cautions)
    inputs = tuple(Input(item.name, _days(item.lasts), _SOURCE) for item in known if item.lasts is not None)
    rule = f"the resource that ends first, {place.words}"
    binding, following = found.binding, found.following
    days = binding.time if binding else None
    slack = f"then {_names(following.names)} at {_days(following.time)}" if following else ""
    common = (rule, _SOURCE, inputs, cautions)
    ledger.add(Figure(f"{key}.days", days, "calculated", *common, slack))
    first = _names(binding.names) if binding else None
    ledger.add(Figure(f"{key}.ends_first", first, "calculated", *common))
    after = _names(following.names) if following else None
    ledger.add(Figure(f"{key}.ends_next", after, "calculated", *common))
    if key == "sitting_out":
        _enter_ration(found, ledger)


def _enter_ration(found: Endurance, ledger: Ledger) -> None:
    words = [_RATION[name] for name in (found.binding.names if found.binding else ())]
    key, rule = "sitting_out.ration_first", "what stretches the resource that ends first"
    ledger.add(Figure(key, " ".join(words) or None, "assumed", rule, "practice"))


def _names(names: tuple[str, ...]) -> str:
    return " and ".join(names)


def _days(time: Quantity | None) -> str:
    """Write days to a tenth, down."""
    if time is None:
        return "does not end"
    return f"{int(float(time.to('day').m) * 10 + 1e-9) / 10:.1f} days"


def _enter_part_full(walk: SupplyWalk, start: _Place, wording: Wording, ledger: Ledger) -> None:
    names = walk.tanks.chains.fresh
    held = _held(start.levels, names)
    if held is None or held <= _PART_FULL:
        return
    part = {name: _PART_FULL if name == names[0] else _NOTHING for name in names}
    words = f"if fresh water were {wording.volume(_PART_FULL, 'down')} at the start (practice)"
    place = replace(start, words=words, levels={**start.levels, **part})
    items = [*_resources(walk, place, wording), _battery(walk, place, wording)]
    _enter_ends("sitting_out.part_full", items, place, ledger)
    saved = ((held - _PART_FULL) * WATER_DENSITY.quantity).to("pound")
    inputs = (Input("less fresh water", wording.volume(held - _PART_FULL, "down"), "trip plan; practice"),)
    rule = "weight of the water that is left behind"
    key = "sitting_out.part_full.weight_saved"
    ledger.add(Figure(key, saved, "calculated", rule, "S-AP42A; practice", inputs))
