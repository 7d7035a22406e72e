"""Supplies along the trip: what each tank holds on reaching and leaving each stop, its range, its lowest."""

from typing import NamedTuple

from binder.assessment.fluids.fluids import assess_fluids
from binder.assessment.ledger import Figure, Input, Ledger, Phrase, all_known
from binder.assessment.route.days import total
from binder.assessment.spares.used import inventory
from binder.assessment.supplies import kinds
from binder.assessment.supplies.findings import assess_must_fill, find_along_trip, reserve_of
from binder.assessment.supplies.rates import enter_rates
from binder.assessment.supplies.sitting_out import assess_sitting_out
from binder.assessment.supplies.tanks import SupplyTank, find_missing_uses
from binder.assessment.supplies.walk import SupplyWalk, WalkedMoment
from binder.calculations.supplies.fuel import (
    distance_on_exhaust_fluid,
    exhaust_fluid_use_band,
    fuel_range,
    shelf_life,
)
from binder.models.load import Profile
from binder.quantities import VOLUME, Quantity, QuantityError, number_in, registry

_NOTICED = 0.05  # Of a gallon: less is not told.
_DIFFERS = 0.5  # Of a gallon: less than a level stated in whole gallons can tell.


def assess_supplies(profile: Profile, walk: SupplyWalk, ledger: Ledger) -> None:
    """Enter levels along the trip, ranges, fluids and sitting it out, and the findings about them."""
    assess_fluids(profile, ledger)
    enter_rates(walk.rates, ledger)
    if profile.trip is None:
        return
    find_missing_uses(profile, walk.tanks, walk.uses.uses.fuel, ledger)
    _enter_split(profile, walk, ledger)
    for item in walk.tanks.tanks.values():
        _enter_levels(walk, item, ledger)
    _enter_battery(walk, ledger)
    _enter_starts(walk, ledger)
    _enter_reserves(profile, walk, ledger)
    _enter_nights(walk, ledger)
    _enter_range(profile, walk, ledger)
    _enter_range_left(profile, walk, ledger)
    assess_exhaust_fluid(profile, walk, ledger)
    assess_must_fill(profile, walk, ledger)
    find_along_trip(profile, walk, ledger)
    assess_sitting_out(profile, walk, ledger)


def _enter_split(profile: Profile, walk: SupplyWalk, ledger: Ledger) -> None:
    """Say which part of the water is counted to the black tank, and whose figure that is."""
    chains = walk.tanks.chains
    if profile.trip is None or not chains.fresh or not chains.black:
        return
    case = "" if profile.trip.use.black is None else "stated"
    ledger.enter(Figure(kinds.SHARE_TO_BLACK.of(), walk.uses.uses.to_black, case=case))


def _enter_levels(walk: SupplyWalk, tank: SupplyTank, ledger: Ledger) -> None:
    contents = tank.tank.holds
    cautions = walk.uses.cautions.get(contents, ())
    for item in walk.moments:
        ledger.enter(_level_figure(walk, tank, item))
    is_waste = contents in kinds.WASTE
    end = "highest" if is_waste else "lowest"
    found = [
        (level, item)
        for item in walk.moments
        if (level := getattr(item.moment.held[tank.name], end)) is not None
    ]
    key = (kinds.HIGHEST if is_waste else kinds.LOWEST).of(*tank.subject)
    # A moment that is not known may be the least.
    if len(found) < len(walk.moments) or not found:
        ledger.enter(Figure(key, None, cautions=cautions))
        return
    level, at = (max if is_waste else min)(found, key=lambda pair: pair[0])
    slack = Phrase(kinds.LEAST_AT, {"moment": at.words})
    value = registry.Quantity(level, "gallon")
    ledger.enter(Figure(key, value, case="known", slack=slack, cautions=cautions))


def _share(level: float | None, full: float | None) -> tuple[Input, ...]:
    return () if level is None or not full else (Input(kinds.OF_THE_TANK, level / full),)


def _level_figure(walk: SupplyWalk, tank: SupplyTank, item: WalkedMoment) -> Figure:
    held, is_stated = item.moment.held[tank.name], tank.name in item.event.stated
    case, slack = "stated" if is_stated else "walked", None
    if held.level is None:
        case = "stated_unknown" if is_stated else ""
    elif is_stated and abs(held.adjusted) > _DIFFERS:
        by_walk = registry.Quantity(max(held.level, 0.0) - held.adjusted, "gallon")
        slack = Phrase(kinds.WITHOUT_STATEMENT, {"by_walk": by_walk})
    moved = (
        Input(kind, registry.Quantity(amount, "gallon"))
        for what, kind in kinds.MOVED.items()
        if (amount := getattr(held, what)) > _NOTICED
    )
    return Figure(
        item.figure_key(tank.level, tank.subject),
        None if held.level is None else registry.Quantity(held.level, "gallon"),
        (*_share(held.level, None if tank.full is None else number_in(tank.full, "gallon")), *moved),
        case,
        slack=slack,
        cautions=walk.uses.cautions.get(tank.tank.holds, ()),
    )


def _enter_battery(walk: SupplyWalk, ledger: Ledger) -> None:
    battery = walk.tanks.battery
    if battery is None:
        return
    usable = None if battery.usable is None else number_in(battery.usable, "ampere_hour")
    for item in walk.moments:
        level = item.moment.held[battery.name].level
        value = None if level is None else registry.Quantity(level, "ampere_hour")
        ledger.enter(Figure(item.figure_key(kinds.CHARGE, battery.subject), value, _share(level, usable)))


def _enter_starts(walk: SupplyWalk, ledger: Ledger) -> None:
    """Enter what the trip is begun with, where its first stop has no moment of its own."""
    if walk.moments and not walk.moments[0].number:
        return
    for item in walk.tanks.tanks.values():
        start, full = (None if one is None else number_in(one, "gallon") for one in (item.start, item.full))
        key = item.level.at_start.of(*item.subject, 1)
        ledger.enter(Figure(key, item.start, _share(start, full), "start"))
    battery = walk.tanks.battery
    if battery is not None:
        key = kinds.CHARGE.at_start.of(*battery.subject, 1)
        share = () if battery.usable is None else _share(1.0, 1.0)
        ledger.enter(Figure(key, battery.usable, share, "start"))


def _enter_reserves(profile: Profile, walk: SupplyWalk, ledger: Ledger) -> None:
    rules = dict(profile.trip.rules.reserve) if profile.trip else {}
    for name in dict.fromkeys((*walk.tanks.chains.fuel, *walk.tanks.chains.exhaust_fluid)):
        tank, reserve = walk.tanks.tanks[name], reserve_of(rules, walk, (name,))
        kept, full = (None if one is None else number_in(one, "gallon") for one in (reserve, tank.full))
        ledger.enter(Figure(kinds.RESERVE.of(*tank.subject), reserve, _share(kept, full)))


def _enter_nights(walk: SupplyWalk, ledger: Ledger) -> None:
    """Enter how many nights are spent where a day ends."""
    starts = {item.day.number: item.day.plan.leave.date() for item in walk.moments}
    for number, day in starts.items():
        following = starts.get(number + 1)
        if following is not None:
            ledger.enter(Figure(kinds.NIGHTS.of(number), float((following - day).days)))


def _enter_range_left(profile: Profile, walk: SupplyWalk, ledger: Ledger) -> None:
    """Enter at each moment how far the fuel goes down to the reserve; below zero it is under it."""
    names, use = walk.tanks.chains.fuel, walk.uses.uses.fuel
    reserve = reserve_of(dict(profile.trip.rules.reserve), walk, names) if names and profile.trip else None
    if not names or (use is not None and use.m <= 0):
        return
    subject = walk.tanks.tanks[names[0]].subject
    for item in walk.moments:
        levels = all_known(item.moment.held[name].level for name in names)
        if levels is not None and use is not None and reserve is not None:
            kept = max(number_in(reserve, "gallon"), number_in(_unusable(walk), "gallon"))
            value = registry.Quantity((sum(levels) - kept) / number_in(use, "gallon/mile"), "mile")
        else:
            value = None
        ledger.enter(Figure(item.figure_key(kinds.RANGE_LEFT, subject), value))


def _enter_range(profile: Profile, walk: SupplyWalk, ledger: Ledger) -> None:
    names, use = walk.tanks.chains.fuel, walk.uses.uses.fuel
    if not names or profile.trip is None:
        return
    reserve = reserve_of(dict(profile.trip.rules.reserve), walk, names)
    usable, key = _usable(walk), kinds.RANGE.of(*walk.tanks.tanks[names[0]].subject)
    if use is None or usable is None or reserve is None or use.m <= 0:
        ledger.enter(Figure(key, None))
        return
    kept = reserve - _unusable(walk)
    found = fuel_range(usable, kept if kept.m > 0 else kept * 0, use)
    logged = walk.rates.fuel
    by_log = (Input(kinds.LOGGED_USE, use, logged.key),) if logged and logged.is_of_log else ()
    inputs = (Input(kinds.USABLE_WHEN_FULL, usable), Input(kinds.RESERVE_OF_RANGE, reserve), *by_log)
    slack = Phrase(kinds.TO_LAST_DROP, {"to_empty": found.to_empty})
    ledger.enter(Figure(key, found.to_reserve, inputs, "known", slack=slack))


def _usable(walk: SupplyWalk) -> Quantity | None:
    """What the engine can draw of full tanks; None where a capacity is not known."""
    full = total((walk.tanks.tanks[name].full for name in walk.tanks.chains.fuel), "gallon")
    return None if full is None else full - _unusable(walk)


def _unusable(walk: SupplyWalk) -> Quantity:
    items = [walk.tanks.tanks[name] for name in walk.tanks.chains.fuel]
    return sum((item.unusable for item in items), start=registry.Quantity(0.0, "gallon"))


_CARRIED = registry.Quantity(2.5, "gallon")  # practice, no source.


def assess_exhaust_fluid(profile: Profile, walk: SupplyWalk, ledger: Ledger) -> None:
    """Enter use, range, container, fillers and shelf life of exhaust fluid."""
    names = walk.tanks.chains.exhaust_fluid
    if not names:
        return
    item = walk.tanks.tanks[names[0]]
    _enter_use(profile, walk, item, ledger)
    _enter_ranges(profile, walk, item, ledger)
    _enter_fillers(walk, item, ledger)
    _enter_shelf_life(profile, item, ledger)


def _dosing(walk: SupplyWalk) -> Input:
    dosing, logged = walk.uses.dosing, walk.rates.share
    if logged and logged.is_of_log:
        return Input(kinds.LOGGED_DOSING, dosing.most, logged.key)
    if dosing.least == dosing.most:
        return Input(kinds.DOSING, dosing.most)
    return Input(kinds.USUAL_DOSING, dosing.least, facts={"most": dosing.most})


def _enter_use(profile: Profile, walk: SupplyWalk, item: SupplyTank, ledger: Ledger) -> None:
    fuel, distance, band = walk.uses.uses.fuel, _distance(profile), None
    if distance is not None and fuel is not None:
        band = exhaust_fluid_use_band(distance, fuel, walk.uses.dosing)
    ends = (kinds.USE_LOW, band.least if band else None), (kinds.USE_HIGH, band.most if band else None)
    for kind, value in ends:
        ledger.enter(Figure(kind.of(*item.subject), value, (_dosing(walk),), "known" if band else ""))


def _distance(profile: Profile) -> Quantity | None:
    days = profile.trip.days if profile.trip else []
    return total((leg.distance for day in days for leg in day.legs), "mile")


def _enter_ranges(profile: Profile, walk: SupplyWalk, item: SupplyTank, ledger: Ledger) -> None:
    carried = _container(profile, item)
    rules = dict(profile.trip.rules.reserve) if profile.trip else {}
    reserve, full = reserve_of(rules, walk, (item.name,)), item.full
    usable = None if full is None else full - item.unusable
    over = None if full is None or reserve is None else full - max(reserve, item.unusable)
    range_, to_empty, worth = (_worth(held, walk) for held in (over, usable, carried.volume))
    given = Input(kinds.USABLE_WHEN_FULL, usable), Input(kinds.RESERVE_OF_RANGE, reserve), _dosing(walk)
    slack = None if to_empty is None else Phrase(kinds.TO_LAST_DROP, {"to_empty": to_empty})
    case = "" if range_ is None else "known"
    ledger.enter(Figure(kinds.FLUID_RANGE.of(*item.subject), range_, given, case, slack=slack))
    inputs = Input(kinds.CONTAINER_HELD, carried.volume, Phrase(carried.origin)), _dosing(walk)
    case = carried.case if worth is not None else f"{carried.case}_unknown"
    ledger.enter(Figure(kinds.CONTAINER_WORTH.of(*item.subject), worth, inputs, case))


def _worth(held: Quantity | None, walk: SupplyWalk) -> Quantity | None:
    fuel, most = walk.uses.uses.fuel, walk.uses.dosing.most
    if held is None or fuel is None or fuel.m <= 0 or most.m <= 0:
        return None
    return distance_on_exhaust_fluid(held, fuel, most)


class _Container(NamedTuple):
    """What is carried, where that is noted, and whether it is: the case of its figure."""

    volume: Quantity
    origin: str
    case: str = "noted"


def _container(profile: Profile, item: SupplyTank) -> _Container:
    """Give what is carried: by the fluid's top-up, by a spare, else the common container."""
    fluid = profile.rig.vehicles[item.vehicle].fluids.get("exhaust fluid")
    if fluid and fluid.top_up and fluid.top_up.quantity is not None:
        return _Container(fluid.top_up.quantity, kinds.OF_PROFILE)
    for spare in inventory(profile).rig.spares:
        if "exhaust fluid" in spare.what and spare.quantity is not None:
            try:
                return _Container(VOLUME.read(spare.quantity), kinds.OF_SPARES)
            except QuantityError:
                continue
    return _Container(_CARRIED, kinds.NONE_NOTED, "common")


def _enter_fillers(walk: SupplyWalk, item: SupplyTank, ledger: Ledger) -> None:
    """Enter where the tank is topped up, and how far the fillers are apart where they are on one side."""
    fuel = [walk.tanks.tanks[name] for name in walk.tanks.chains.fuel][:1]
    inputs = tuple(
        Input(kinds.FILLER, one.tank.filler or None, facts={"filled": one.words}) for one in (*fuel, item)
    )
    sides, key = [_side(one.tank.filler) for one in (*fuel, item)], kinds.TOP_UP.of(*item.subject)
    if not fuel or None in sides:
        ledger.enter(Figure(key, None, inputs, "unknown"))
        return
    if sides[0] != sides[1]:
        ledger.enter(Figure(key, Phrase(kinds.CONTAINER_WANTED), inputs))
        return
    of_fuel, own = fuel[0].tank.at, item.tank.at
    if of_fuel is None or own is None:
        ledger.enter(Figure(key, Phrase(kinds.AT_THE_PUMP), inputs, "pump"))
        return
    apart = abs(own - of_fuel)
    ledger.enter(Figure(key, Phrase(kinds.AT_THE_PUMP_APART, {"apart": apart}), inputs, "pump"))
    ledger.enter(Figure(kinds.FILLERS_APART.of(*item.subject), apart))


def _side(filler: str | None) -> str | None:
    found = [side for side in ("left", "right") if filler and side in filler]
    return found[0] if len(found) == 1 else None


def _enter_shelf_life(profile: Profile, item: SupplyTank, ledger: Ledger) -> None:
    days = profile.trip.days if profile.trip else []
    highs = all_known(day.night.high for day in days if day.night)
    hottest = max(highs or (), default=None)
    life = None if hottest is None else shelf_life(hottest)
    inputs = () if hottest is None else (Input(kinds.HOTTEST, hottest),)
    key, case = kinds.SHELF_LIFE.of(*item.subject), "known" if life else ""
    ledger.enter(Figure(key, life.time if life else None, inputs, case))
    dated = (one.expires for one in profile.rig.spares if "exhaust fluid" in one.what)
    ends = min((day for day in dated if day is not None), default=None)
    ledger.enter(Figure(kinds.SHELF_LIFE_ENDS.of(*item.subject), ends, case="noted" if ends else ""))
