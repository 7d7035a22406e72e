"""Exhaust fluid on this trip: use as a band, range, the carried container, the fillers, the shelf life."""

from collections.abc import Iterator

from binder.assessment.figures import Figure, Input, Kind, Ledger
from binder.assessment.supplies.tanks import SupplyTank
from binder.assessment.supplies.walk import SupplyWalk
from binder.assessment.wording import Wording
from binder.calculations.supplies.fuel import (
    distance_on_exhaust_fluid,
    exhaust_fluid_use_band,
    shelf_life,
)
from binder.models.load import Profile
from binder.quantities import VOLUME, FuelUse, Quantity, QuantityError, registry

_CARRIED = registry.Quantity(2.5, "gallon")  # practice, no source.
_OLDER = "Low or bad fluid may slow the engine to 5 mph within hours: see your engine's manual."
_BAY = "A bay in the sun is hotter than the air."


def assess_exhaust_fluid(profile: Profile, walk: SupplyWalk, ledger: Ledger) -> None:
    """Enter use, range, container, fillers and shelf life of exhaust fluid."""
    names = walk.tanks.chains.exhaust_fluid
    if not names:
        return
    item = walk.tanks.tanks[names[0]]
    for figure in (*_used(profile, walk, item), *_ranges(profile, walk, item), _fillers(walk, item, profile)):
        ledger.add(figure)
    for figure in (*_apart(walk, item), *_shelf(profile, item)):
        ledger.add(figure)


def _rate(walk: SupplyWalk, wording: Wording) -> Input:
    dosing = walk.uses.dosing
    ends = [wording.percent(dosing.least, "nearest"), wording.percent(dosing.most, "nearest")]
    if dosing.least == dosing.most:
        own = f"{float(dosing.most.to('percent').m):g} % of the fuel"
        return Input("exhaust fluid", own, "trip plan, use")
    return Input("exhaust fluid", f"{ends[0]} to {ends[1]} of the fuel", "S-FOSTER")


def _used(profile: Profile, walk: SupplyWalk, item: SupplyTank) -> Iterator[Figure]:
    wording, fuel = Wording(profile.rig.units), walk.uses.uses.fuel
    distance = _distance(profile)
    rule, source = "distance, fuel use and share of the fuel, over the whole trip", "trip plan; S-FOSTER"
    band = None
    if distance is not None and fuel is not None:
        band = exhaust_fluid_use_band(distance, fuel, walk.uses.dosing)
    for end, value in (("low", band.least if band else None), ("high", band.most if band else None)):
        key = f"supplies.{item.name}.use_{end}"
        told = rule if band else f"{rule}; one of them is not known"
        ledger_inputs = (_rate(walk, wording),)
        yield Figure(key, value, "calculated", told, source, ledger_inputs, (_OLDER,))


def _distance(profile: Profile) -> Quantity | None:
    legs = [leg.distance for day in (profile.trip.days if profile.trip else []) for leg in day.legs]
    if any(distance is None for distance in legs):
        return None
    return sum((one for one in legs if one is not None), start=registry.Quantity(0.0, "mile"))


def _ranges(profile: Profile, walk: SupplyWalk, item: SupplyTank) -> Iterator[Figure]:
    wording, fuel = Wording(profile.rig.units), walk.uses.uses.fuel
    carried, origin, kind = _container(profile, item)
    rate = _rate(walk, wording)
    for end, held, rule in (
        ("range", item.full, "a full tank, at the upper end of its use"),
        ("container_worth", carried, "the carried container, at the upper end of its use"),
    ):
        value = _worth(held, fuel, walk)
        inputs = (Input("held", _as_written(held), origin),)
        told = rule if value is not None else f"{rule}; the fuel use or the capacity is not known"
        own: Kind = kind if end == "container_worth" else "calculated"
        key = f"supplies.{item.name}.{end}"
        yield Figure(key, value, own, told, "trip plan; S-FOSTER; practice", (*inputs, rate), (_OLDER,))


def _as_written(held: Quantity | None) -> str:
    """Write a volume with its own digits and unit: a container of 2.5 gal holds no 2 gal."""
    if held is None:
        return "not known"
    return f"{held.m:g} {'L' if str(held.units) == 'liter' else 'gal'}"


def _worth(held: Quantity | None, fuel: FuelUse | None, walk: SupplyWalk) -> Quantity | None:
    most = walk.uses.dosing.most
    if held is None or fuel is None or fuel.m <= 0 or most.m <= 0:
        return None
    return distance_on_exhaust_fluid(held, fuel, most)


def _container(profile: Profile, item: SupplyTank) -> tuple[Quantity, str, Kind]:
    """Give what is carried: by the fluid's top-up, by a spare, else the common container."""
    fluid = profile.rig.vehicles[item.vehicle].fluids.get("exhaust fluid")
    if fluid and fluid.top_up and fluid.top_up.quantity is not None:
        return fluid.top_up.quantity, "profile", "calculated"
    for spare in profile.rig.spares:
        if "exhaust fluid" in spare.what and spare.quantity is not None:
            try:
                return VOLUME.read(spare.quantity), "profile, spares", "calculated"
            except QuantityError:
                continue
    return _CARRIED, "practice: a common container; none is noted", "assumed"


def _fillers(walk: SupplyWalk, item: SupplyTank, profile: Profile) -> Figure:
    key, rule = f"supplies.{item.name}.top_up", "sides of the two fillers"
    fuel = [walk.tanks.tanks[name] for name in walk.tanks.chains.fuel]
    sides = [_side(one.tank.filler) for one in (*fuel[:1], item)]
    inputs = tuple(
        Input(f"filler of the {one.words}", one.tank.filler or "not known", "profile")
        for one in (*fuel[:1], item)
    )
    source = "profile"
    if len(sides) < 2 or None in sides:  # noqa: PLR2004 - of fuel, and of exhaust fluid.
        return Figure(key, None, "calculated", f"{rule}; one is not known", source, inputs)
    if sides[0] != sides[1]:
        words = "wants a container: its filler is on the other side from the fuel's"
        return Figure(key, words, "calculated", rule, source, inputs)
    ends = fuel[0].tank.at, item.tank.at
    words = "at the pump: its filler is on the side of the fuel's"
    if ends[0] is not None and ends[1] is not None:
        words += f", {Wording(profile.rig.units).span(abs(ends[1] - ends[0]), 'up')} apart"
    cautions = ("Where the hose does not reach, pull ahead, or fill from a container.",)
    return Figure(key, words, "calculated", rule, source, inputs, cautions)


def _apart(walk: SupplyWalk, item: SupplyTank) -> Iterator[Figure]:
    """How far the two fillers are from one another, where they are on one side."""
    fuel = next((walk.tanks.tanks[name].tank for name in walk.tanks.chains.fuel), None)
    own = item.tank
    if fuel is None or fuel.at is None or own.at is None or _side(own.filler) is None:
        return
    if _side(fuel.filler) == _side(own.filler):
        rule = "from the middle of one tank to that of the other, along the side both fillers are on"
        key = f"supplies.{item.name}.fillers_apart"
        yield Figure(key, abs(own.at - fuel.at), "calculated", rule, "profile")


def _side(filler: str | None) -> str | None:
    found = [side for side in ("left", "right") if filler and side in filler]
    return found[0] if len(found) == 1 else None


def _shelf(profile: Profile, item: SupplyTank) -> Iterator[Figure]:
    wording = Wording(profile.rig.units)
    days = profile.trip.days if profile.trip else []
    highs = [day.night.high for day in days if day.night and day.night.high is not None]
    source = "S-FORD; S-ISO22241-3; trip plan"
    key, rule = (
        f"supplies.{item.name}.shelf_life",
        "kept all the time at the highest of the plan's temperatures",
    )
    hottest = max(highs, default=None)
    life = None if hottest is None else shelf_life(hottest)
    inputs = () if hottest is None else (Input("hottest", wording.temperature(hottest, "up"), "trip plan"),)
    told = rule if life else f"{rule}; none is given, or the table ends below it: use it at once"
    ledger_life = life.time if life else None
    yield Figure(key, ledger_life, "table", told, source, inputs, (_BAY,))
    dated = [one for one in profile.rig.spares if "exhaust fluid" in one.what and one.expires is not None]
    ends = min((one.expires for one in dated if one.expires is not None), default=None)
    rule = "as noted with the spare" if ends else "no date is noted with the carried container"
    yield Figure(f"{key}_ends", ends, "stated by a maker", rule, "profile", (), (_BAY,))
