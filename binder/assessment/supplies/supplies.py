"""Supplies along the trip: what each tank holds on reaching and leaving each stop, its range, its lowest."""

from binder.assessment.figures import Figure, Input, Kind, Ledger
from binder.assessment.fluids.fluids import assess_fluids
from binder.assessment.supplies.exhaust_fluid import assess_exhaust_fluid
from binder.assessment.supplies.findings import reserve_of, supply_findings
from binder.assessment.supplies.must_fill import assess_must_fill
from binder.assessment.supplies.sitting_out import assess_sitting_out
from binder.assessment.supplies.uses import find_missing_uses
from binder.assessment.supplies.walk import SupplyWalk, WalkedMoment, walked_trip
from binder.assessment.wording import Wording
from binder.calculations.supplies.fuel import fuel_range
from binder.models.load import Profile
from binder.quantities import Quantity, number_in, registry

_RULE = "what it held before, and what was filled, used, dumped and spilled since"
AS_PLANNED = "as the plan states it"
_SOURCE = "trip plan; arithmetic"
_SPLIT = "of the water used, this share is counted to the black tank, the rest to gray"
MOVED = ("filled", "used", "dumped", "spilled")
"""What can happen to a tank between two moments: inputs of its level, where it did."""
OF_THE_TANK = "share of the full tank"
"""Name of the input that says how full."""
_NOTICED = 0.05  # Of a gallon: less is not told.
_DIFFERS = 0.5  # Of a gallon: less than a level stated in whole gallons can tell.


def assess_supplies(profile: Profile, ledger: Ledger) -> None:
    """Enter levels along the trip, ranges, fluids and sitting it out, and the findings about them."""
    assess_fluids(profile, ledger)
    if profile.trip is None:
        return
    walk = walked_trip(profile)
    wording = Wording(profile.rig.units)
    find_missing_uses(profile, walk.tanks, ledger)
    _enter_split(profile, walk, ledger)
    for name in walk.tanks.tanks:
        _enter_levels(walk, name, wording, ledger)
    _enter_battery(walk, ledger)
    _enter_starts(walk, ledger)
    _enter_reserves(profile, walk, ledger)
    _enter_nights(walk, ledger)
    _enter_range(profile, walk, wording, ledger)
    _enter_range_left(profile, walk, ledger)
    assess_exhaust_fluid(profile, walk, ledger)
    assess_must_fill(profile, walk, ledger)
    for finding in supply_findings(profile, walk):
        ledger.find(finding)
    assess_sitting_out(profile, walk, ledger)


def _enter_split(profile: Profile, walk: SupplyWalk, ledger: Ledger) -> None:
    """Say which part of the water is counted to the black tank, and whose figure that is."""
    chains = walk.tanks.chains
    if profile.trip is None or not chains.fresh or not chains.black:
        return
    is_own = profile.trip.use.black is not None
    rule = AS_PLANNED if is_own else _SPLIT
    source = "trip plan" if is_own else "practice"
    ledger.add(Figure("supplies.share_to_black", walk.uses.uses.to_black, "assumed", rule, source))


def _enter_levels(walk: SupplyWalk, name: str, wording: Wording, ledger: Ledger) -> None:
    contents = walk.tanks.tanks[name].tank.holds
    caution = walk.uses.cautions.get(contents)
    cautions = (caution,) if caution else ()
    for item in walk.moments:
        full = walk.tanks.tanks[name].full
        share = _share(item.moment.held[name].level, None if full is None else number_in(full, "gallon"))
        ledger.add(_level_figure(name, item, share, (wording, cautions)))
    is_waste = contents in {"gray water", "black water"}
    end, word = ("highest", "most") if is_waste else ("lowest", "least")
    found = [
        (level, item) for item in walk.moments if (level := getattr(item.moment.held[name], end)) is not None
    ]
    key, rule = f"supplies.{name}.{end}", f"the {word} it holds along the trip"
    if not found:
        rule = f"{rule}; no level is known"
        ledger.add(Figure(key, None, "calculated", rule, _SOURCE, (), cautions))
        return
    level, at = (max if is_waste else min)(found, key=lambda pair: pair[0])
    value = registry.Quantity(level, "gallon")
    slack = f"{at.words[0].lower()}{at.words[1:]}"
    ledger.add(Figure(key, value, "calculated", rule, _SOURCE, (), cautions, slack))


def _share(level: float | None, full: float | None) -> tuple[Input, ...]:
    if level is None or not full:
        return ()
    return (Input(OF_THE_TANK, Wording.percent(level / full, "nearest"), "profile"),)


def _level_figure(
    name: str, item: WalkedMoment, share: tuple[Input, ...], told: tuple[Wording, tuple[str, ...]]
) -> Figure:
    (wording, cautions), held = told, item.moment.held[name]
    key, is_stated = f"supplies.{name}.{item.key}", name in item.event.stated
    value = None if held.level is None else registry.Quantity(held.level, "gallon")
    rule, slack = AS_PLANNED if is_stated else _RULE, ""
    if value is None:
        rule = "not known: the level before it, what was used, or the capacity is not"
    elif is_stated and abs(held.adjusted) > _DIFFERS:
        by_walk = registry.Quantity(max(held.level or 0.0, 0.0) - held.adjusted, "gallon")
        slack = f"by what was filled and used it would be {wording.volume(by_walk, 'nearest')}"
    moved = tuple(
        Input(what, wording.volume(registry.Quantity(amount, "gallon"), "up"), "since the moment before")
        for what in MOVED
        if (amount := getattr(held, what)) > _NOTICED
    )
    inputs = (*share, *moved)
    kind: Kind = "assumed" if is_stated else "calculated"
    return Figure(key, value, kind, rule, _SOURCE, inputs, cautions, slack)


def _enter_battery(walk: SupplyWalk, ledger: Ledger) -> None:
    battery, rule = (
        walk.tanks.battery,
        "usable charge left; what the engine charges while driving is not counted",
    )
    if battery is None:
        return
    usable = number_in(battery.usable, "ampere_hour")
    for item in walk.moments:
        level = item.moment.held[battery.name].level
        value = None if level is None else registry.Quantity(level, "ampere_hour")
        key = f"supplies.{battery.name}.{item.key}"
        ledger.add(Figure(key, value, "calculated", rule, _SOURCE, _share(level, usable)))


def _enter_starts(walk: SupplyWalk, ledger: Ledger) -> None:
    """Enter what the trip is begun with, where its first stop has no moment of its own."""
    if walk.moments and walk.moments[0].key.endswith(".start"):
        return
    for name, item in walk.tanks.tanks.items():
        start, full = (None if one is None else number_in(one, "gallon") for one in (item.start, item.full))
        key = f"supplies.{name}.day_1.start"
        ledger.add(Figure(key, item.start, "assumed", AS_PLANNED, "trip plan", _share(start, full)))
    battery = walk.tanks.battery
    if battery is not None:
        key, rule = f"supplies.{battery.name}.day_1.start", "a rig leaves with its batteries charged"
        ledger.add(Figure(key, battery.usable, "assumed", rule, "practice", _share(1.0, 1.0)))


def _enter_reserves(profile: Profile, walk: SupplyWalk, ledger: Ledger) -> None:
    rules = dict(profile.trip.rules.reserve) if profile.trip else {}
    for name in dict.fromkeys((*walk.tanks.chains.fuel, *walk.tanks.chains.exhaust_fluid)):
        reserve, full = reserve_of(rules, walk, (name,)), walk.tanks.tanks[name].full
        if reserve is not None and full is not None:
            share = _share(number_in(reserve, "gallon"), number_in(full, "gallon"))
            rule, source = "kept in the tank: the plan's rule, else a quarter", "trip plan; practice"
            ledger.add(Figure(f"supplies.{name}.reserve", reserve, "calculated", rule, source, share))


def _enter_nights(walk: SupplyWalk, ledger: Ledger) -> None:
    """Enter how many nights are spent where a day ends."""
    starts = {item.day.number: item.day.plan.leave.date() for item in walk.moments}
    for number, day in starts.items():
        following = starts.get(number + 1)
        if following is not None:
            nights = float((following - day).days)
            key = f"supplies.day_{number}.nights"
            ledger.add(Figure(key, nights, "assumed", AS_PLANNED, "trip plan"))


def _enter_range_left(profile: Profile, walk: SupplyWalk, ledger: Ledger) -> None:
    """Enter at each moment how far the fuel goes down to the reserve; below zero it is under it."""
    names, use = walk.tanks.chains.fuel, walk.uses.uses.fuel
    reserve = reserve_of(dict(profile.trip.rules.reserve), walk, names) if names and profile.trip else None
    if use is None or reserve is None or use.m <= 0:
        return
    kept = max(number_in(reserve, "gallon"), number_in(_unusable(walk), "gallon"))
    a_mile = number_in(use, "gallon / mile")
    rule = "fuel over the reserve, over its use; below zero: under the reserve"
    for item in walk.moments:
        levels = [item.moment.held[name].level for name in names]
        known = [level for level in levels if level is not None]
        left = (sum(known) - kept) / a_mile if len(known) == len(levels) else None
        value = None if left is None else registry.Quantity(left, "mile")
        key = f"supplies.{names[0]}.{item.key}.range_left"
        ledger.add(Figure(key, value, "calculated", rule, _SOURCE))


def _enter_range(profile: Profile, walk: SupplyWalk, wording: Wording, ledger: Ledger) -> None:
    names, use = walk.tanks.chains.fuel, walk.uses.uses.fuel
    if not names or profile.trip is None:
        return
    reserve = reserve_of(dict(profile.trip.rules.reserve), walk, names)
    usable = _usable(walk)
    source = "trip plan; arithmetic; practice"
    key, why = f"supplies.{names[0]}.range", "from full down to the reserve"
    if use is None or usable is None or reserve is None or use.m <= 0:
        ledger.add(Figure(key, None, "calculated", f"{why}; a capacity or the use is not known", source))
        return
    kept = reserve - _unusable(walk)
    found = fuel_range(usable, kept if kept.m > 0 else kept * 0, use)
    inputs = (
        Input("usable when full", wording.volume(usable, "down"), "profile"),
        Input("reserve", wording.volume(reserve, "up"), "trip plan, rules; a quarter where it gives none"),
    )
    slack = f"{wording.distance(found.to_empty, 'down')} to the last usable drop"
    ledger.add(Figure(key, found.to_reserve, "calculated", why, source, inputs, slack=slack))


def _usable(walk: SupplyWalk) -> Quantity | None:
    """What the engine can draw of full tanks; None where a capacity is not known."""
    items = [walk.tanks.tanks[name] for name in walk.tanks.chains.fuel]
    full = [item.full for item in items]
    if any(level is None for level in full):
        return None
    total = sum((level for level in full if level is not None), start=registry.Quantity(0.0, "gallon"))
    usable: Quantity = total - _unusable(walk)
    return usable


def _unusable(walk: SupplyWalk) -> Quantity:
    items = [walk.tanks.tanks[name] for name in walk.tanks.chains.fuel]
    total: Quantity = sum((item.unusable for item in items), start=registry.Quantity(0.0, "gallon"))
    return total
