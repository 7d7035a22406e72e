"""Sitting it out: for how many days each resource lasts, which ends first and next, and what to ration."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from binder.assessment.figures import Figure, Input, Ledger
from binder.assessment.measures import days_text
from binder.assessment.route.days import trip_days
from binder.assessment.supplies.lasting_resources import (
    WATER,
    Lasting,
    Levels,
    SittingPlace,
    battery_at,
    generator_at,
    held_in,
    stores_aboard,
    tanks_at,
)
from binder.assessment.supplies.level_table import enter_level_table
from binder.assessment.supplies.walk import SupplyWalk
from binder.assessment.supplies.water_question import PART_FILL
from binder.assessment.wording import Wording
from binder.calculations.supplies.endurance import (
    Endurance,
    GeneratorUse,
    Resource,
    endurance,
    generator_lasting,
)
from binder.calculations.supplies.stages import Drive
from binder.models.load import Profile
from binder.quantities import Quantity, Temperature, number_in, registry
from binder.reference.constants import WATER_DENSITY

_NOTHING = registry.Quantity(0.0, "gallon")
_SOURCE = "trip plan; profile; practice; arithmetic"
AS_WRITTEN = "as the plan states it"
_BATTERY = "What the engine charges while driving is not counted."
_RATION = {
    "gray water": "Wash dishes in a basin. Shower less. Carry rinse water out where it is allowed.",
    "black water": "Use campground toilets. Flush with less.",
    "fresh water": "Drink first, wash last. Paper plates. Showers short.",
    "propane": "Lower the thermostat. Close off rooms. Cook once a day.",
    "house battery": "Lamps, fans off. Furnace fan least. Inverter off.",
    "generator fuel": "Run it shorter. Run it at full load. Run it when batteries are lowest.",
    "food": "Eat what spoils first. Stretch the rest.",
    "medicine": "Never stretch a dose. Call who prescribed it.",
}


class _Sitting(NamedTuple):
    """What every place is assessed with."""

    profile: Profile
    walk: SupplyWalk
    wording: Wording

    def resources(self, place: SittingPlace) -> list[Lasting]:
        """All that lasts at a place without the generator."""
        battery = battery_at(self.walk, place)
        own = (*tanks_at(self.walk, place, self.wording), *((battery,) if battery else ()))
        return [*own, *stores_aboard(self.profile)]


def assess_sitting_out(profile: Profile, walk: SupplyWalk, ledger: Ledger) -> None:
    """Enter how long the rig can stay: with what it leaves with, part full, and at each night's place."""
    if not walk.tanks.chains.fresh and not walk.tanks.chains.propane:
        return
    sitting = _Sitting(profile, walk, Wording(profile.rig.units))
    starts: Levels = {name: item.start for name, item in walk.tanks.tanks.items()}
    start = SittingPlace("with the levels at the start", starts, _coldest(profile))
    _enter_case("sitting_out", sitting, start, ledger)
    _enter_part_full(sitting, start, ledger)
    _enter_nights(sitting, ledger)
    enter_level_table(walk, start.low, sitting.wording, ledger)


def _enter_case(key: str, sitting: _Sitting, place: SittingPlace, ledger: Ledger) -> None:
    """Enter for one place what lasts how long, what to ration, and all of it with the generator."""
    ledger.add(Figure(f"{key}.night_low", place.low, "assumed", AS_WRITTEN, "trip plan"))
    items = sitting.resources(place)
    for item in items:
        _enter_resource(key, item, place, ledger)
    found = _enter_ends(key, items, place, ledger)
    _enter_ration(key, (found, items), place, ledger)
    if sitting.walk.tanks.chains.generator_fuel:
        _enter_generator(key, sitting, place, ledger)


def _coldest(profile: Profile) -> Temperature | None:
    nights = [day.plan.night for day in trip_days(profile) if day.plan.night]
    lows = [night.low for night in nights if night.low is not None]
    return min(lows, key=lambda low: float(low.to("kelvin").m), default=None)


def _enter_nights(sitting: _Sitting, ledger: Ledger) -> None:
    """Enter each night's place, and the one where it is shortest."""
    ends = []
    for key, name, place in _nights(sitting.walk):
        found = _enter_ends(f"sitting_out.{key}", sitting.resources(place), place, ledger)
        if found.binding is not None:
            ends.append((number_in(found.binding.time, "day"), name, place))
    if not ends:
        return
    _, name, place = min(ends, key=lambda end: end[0])
    rule = "the night's place of the plan where what there is ends soonest"
    ledger.add(Figure("sitting_out.least.place", name, "calculated", rule, _SOURCE))
    _enter_case("sitting_out.least", sitting, place, ledger)


def _nights(walk: SupplyWalk) -> Iterator[tuple[str, str, SittingPlace]]:
    """Each place a night is spent at, with the levels on reaching it."""
    reached: Levels = {}
    battery, drawn = walk.tanks.battery, registry.Quantity(0.0, "ampere_hour")
    for item in walk.moments:
        if isinstance(item.event, Drive):
            reached = {name: _gallons(item.moment.held[name].level) for name in walk.tanks.tanks}
            level = item.moment.held[battery.name].level if battery else None
            if battery and level is not None:
                drawn = battery.usable - registry.Quantity(level, "ampere_hour")
        elif item.event.is_night:
            words = f"reaching {item.stop.place} on day {item.day.number}"
            place = SittingPlace(words, reached, item.event.low, drawn)
            yield f"day_{item.day.number}", f"{item.stop.place}, day {item.day.number}", place


def _gallons(level: float | None) -> Quantity | None:
    return None if level is None else registry.Quantity(level, "gallon")


def _enter_generator(key: str, sitting: _Sitting, place: SittingPlace, ledger: Ledger) -> None:
    """Enter what lasts with the generator: it makes the battery good as long as its own fuel lasts."""
    charged = [item for item in sitting.resources(place) if item.name != "house battery"]
    run = generator_at(sitting.walk, place, sitting.wording)
    if run is not None:
        _enter_resource(key, run, place, ledger)
        charged.append(run)
    _enter_ends(f"{key}.with_generator", charged, place, ledger)
    hours, inputs = _hours(sitting, place)
    rule = "running hours on the fuel over its cut-off, at full load"
    told = (*inputs, _where(place))
    ledger.add(Figure(f"{key}.generator_fuel.hours", hours, "calculated", rule, _SOURCE, told))


def _hours(sitting: _Sitting, place: SittingPlace) -> tuple[Quantity | None, tuple[Input, ...]]:
    generator = sitting.walk.uses.generator
    held = held_in(place.levels, sitting.walk.tanks.chains.generator_fuel)
    if generator is None or held is None:
        return None, ()
    found = generator_lasting(
        held, generator.cut_off, GeneratorUse(generator.use, registry.Quantity(1.0, ""))
    )
    inputs = (Input("cut-off", sitting.wording.volume(generator.cut_off, "up"), "profile; practice"),)
    return None if found is None else found.to("hour"), inputs


def _enter_resource(start: str, item: Lasting, place: SittingPlace, ledger: Ledger) -> None:
    key, rule = f"{start}.{item.name.replace(' ', '_')}.days", "what is held over its use"
    if item.name in {"food", "medicine"}:
        rule = AS_WRITTEN if item.known else "the plan does not say"
        ledger.add(Figure(key, item.lasts, "assumed", rule, "trip plan"))
        return
    if not item.known:
        rule += "; an amount or a use is not known"
    elif item.lasts is None:
        rule += "; nothing of it is used"
    cautions = (_BATTERY,) if item.name == "house battery" else ()
    inputs = (*item.inputs, _where(place))
    ledger.add(Figure(key, item.lasts, "calculated", rule, _SOURCE, inputs, cautions))


def _where(place: SittingPlace) -> Input:
    return Input("case", place.words, "trip plan")


def _enter_ends(key: str, items: Iterable[Lasting], place: SittingPlace, ledger: Ledger) -> Endurance:
    every = list(items)
    known = [item for item in every if item.known]
    found = endurance(Resource(item.name, item.lasts) for item in known)
    lacking = [item.name for item in every if not item.known]
    cautions = (f"Not counted, since not known: {', '.join(lacking)}.",) if lacking else ()
    lasting = [Input(item.name, _days(item.lasts), _SOURCE) for item in known if item.lasts is not None]
    inputs, rule = (*lasting, _where(place)), "the resource that ends first"
    binding, following = found.binding, found.following
    days = binding.time if binding else None
    slack = f"then {_names(following.names)} at {_days(following.time)}" if following else ""
    common = (rule, _SOURCE, inputs, cautions)
    ledger.add(Figure(f"{key}.days", days, "calculated", *common, slack))
    first = _names(binding.names) if binding else None
    ledger.add(Figure(f"{key}.ends_first", first, "calculated", *common))
    after = _names(following.names) if following else None
    ledger.add(Figure(f"{key}.ends_next", after, "calculated", *common))
    return found


def _enter_ration(
    start: str, found: tuple[Endurance, list[Lasting]], place: SittingPlace, ledger: Ledger
) -> None:
    ends, items = found
    names = ends.binding.names if ends.binding else ()
    words = " ".join(_RATION[name] for name in names) or None
    key, rule = f"{start}.ration_first", "what stretches the resource that ends first"
    ledger.add(Figure(key, words, "assumed", rule, "practice"))
    if not names or "medicine" in names:
        return
    halved = {*names, *(WATER if not set(WATER).isdisjoint(names) else ())}
    spared = [_halved(item) if item.name in halved else item for item in items]
    words = f"{place.words}, with half the use of {_names(names)}"
    _enter_ends(f"{start}.rationed", spared, place._replace(words=words), ledger)


def _halved(item: Lasting) -> Lasting:
    return item if item.lasts is None else item._replace(lasts=item.lasts * 2)


def _names(names: Iterable[str]) -> str:
    return " and ".join(names)


def _days(time: Quantity | None) -> str:
    if time is None:
        return "does not end"
    return days_text(time)


def _enter_part_full(sitting: _Sitting, start: SittingPlace, ledger: Ledger) -> None:
    names, wording = sitting.walk.tanks.chains.fresh, sitting.wording
    held, fill = held_in(start.levels, names), PART_FILL[wording.units]
    if held is None or held <= fill:
        return
    part = {name: fill if name == names[0] else _NOTHING for name in names}
    words = f"if fresh water were {wording.volume(fill, 'down')} at the start (practice)"
    place = start._replace(words=words, levels={**start.levels, **part})
    _enter_ends("sitting_out.part_full", sitting.resources(place), place, ledger)
    ledger.add(Figure("sitting_out.part_full.held", fill, "assumed", "a common part fill", "practice"))
    fresh = next(item for item in sitting.resources(place) if item.name == "fresh water")
    _enter_resource("sitting_out.part_full", fresh, place, ledger)
    saved = ((held - fill) * WATER_DENSITY.quantity).to("pound")
    inputs = (Input("less fresh water", wording.volume(held - fill, "down"), "trip plan; practice"),)
    rule = "weight of the water that is left behind"
    key = "sitting_out.part_full.weight_saved"
    ledger.add(Figure(key, saved, "calculated", rule, "S-AP42A; practice", inputs))
