"""Exhaust fluid on this trip: use as a band, range, the carried container, the fillers, the shelf life."""

from typing import NamedTuple

from binder.assessment.ledger import Figure, Input, Ledger, Phrase
from binder.assessment.supplies import kinds
from binder.assessment.supplies.tanks import SupplyTank
from binder.assessment.supplies.walk import SupplyWalk
from binder.calculations.supplies.fuel import distance_on_exhaust_fluid, exhaust_fluid_use_band, shelf_life
from binder.models.load import Profile
from binder.quantities import VOLUME, Quantity, QuantityError, registry

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
    dosing = walk.uses.dosing
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
    legs = [leg.distance for day in (profile.trip.days if profile.trip else []) for leg in day.legs]
    if any(distance is None for distance in legs):
        return None
    return sum((one for one in legs if one is not None), start=registry.Quantity(0.0, "mile"))


def _enter_ranges(profile: Profile, walk: SupplyWalk, item: SupplyTank, ledger: Ledger) -> None:
    carried = _container(profile, item)
    range_, worth = (_worth(held, walk) for held in (item.full, carried.volume))
    inputs = Input(kinds.CONTAINER_HELD, item.full, Phrase(carried.origin)), _dosing(walk)
    case = "" if range_ is None else "known"
    ledger.enter(Figure(kinds.FLUID_RANGE.of(*item.subject), range_, inputs, case))
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
    for spare in profile.rig.spares:
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
    highs = [day.night.high for day in days if day.night and day.night.high is not None]
    hottest = max(highs, default=None)
    life = None if hottest is None else shelf_life(hottest)
    inputs = () if hottest is None else (Input(kinds.HOTTEST, hottest),)
    key, case = kinds.SHELF_LIFE.of(*item.subject), "known" if life else ""
    ledger.enter(Figure(key, life.time if life else None, inputs, case))
    dated = (one.expires for one in profile.rig.spares if "exhaust fluid" in one.what)
    ends = min((day for day in dated if day is not None), default=None)
    ledger.enter(Figure(kinds.SHELF_LIFE_ENDS.of(*item.subject), ends, case="noted" if ends else ""))
