"""What a walked trip lacks: a leg past a reserve, waste that spills, what ends before it is filled again."""

from collections.abc import Iterator
from typing import Literal, NamedTuple

from binder.assessment.figures import Finding
from binder.assessment.supplies.uses import USUAL_QUARTER
from binder.assessment.supplies.walk import SupplyWalk, WalkedMoment
from binder.assessment.weights.states import volume_of
from binder.assessment.wording import Wording
from binder.calculations.supplies.stages import Drive, Names
from binder.calculations.supplies.walk import Held
from binder.models.base import LevelValue
from binder.models.load import Profile
from binder.quantities import Quantity, number_in, registry

_NOTICED = 0.05  # Of a gallon or an ampere-hour: less is not told.
_ORDER = 9
_APART = 0.15  # Of the tank, practice: a gauge and a day's mean use may be that far off.


class _Teller(NamedTuple):
    """What findings are made with."""

    walk: SupplyWalk
    reserves: dict[str, LevelValue]
    wording: Wording

    def volume(self, gallons: float, rounding: Literal["up", "down"] = "up") -> str:
        return self.wording.volume(registry.Quantity(gallons, "gallon"), rounding)


def supply_findings(profile: Profile, walk: SupplyWalk) -> Iterator[Finding]:
    """Find what does not work along the trip, each once, at the moment it begins."""
    reserves = dict(profile.trip.rules.reserve) if profile.trip else {}
    teller = _Teller(walk, reserves, Wording(profile.rig.units))
    chains = walk.tanks.chains
    told: list[Finding] = []
    for names in (chains.fuel, chains.exhaust_fluid):
        told += _past_reserve(teller, names)
    for names in (chains.fresh, chains.propane, chains.battery):
        told += _ending(teller, names)
    for name in dict.fromkeys((*chains.gray, *chains.black)):
        told += _spilling(teller, name)
    yield from told
    for name in walk.tanks.tanks:
        # One fault is told once: where a tank ends or spills, its levels are looked at anyway.
        if not any(finding.key.startswith(f"supplies.{name}.") for finding in told):
            yield from _stated_apart(teller, name)


def reserve_of(reserves: dict[str, LevelValue], walk: SupplyWalk, names: Names) -> Quantity | None:
    """Give the reserve kept in the tanks of one use."""
    total = registry.Quantity(0.0, "gallon")
    for name in names:
        item = walk.tanks.tanks[name]
        rule = reserves.get(item.words) or reserves.get(item.tank.holds) or USUAL_QUARTER
        own = volume_of(item.tank, rule)
        if own is None:
            return None
        total = total + own
    return total


def _past_reserve(teller: _Teller, names: Names) -> Iterator[Finding]:
    reserve = reserve_of(teller.reserves, teller.walk, names) if names else None
    if reserve is None:
        return
    limit, below, fill = float(reserve.to("gallon").m), list[WalkedMoment](), ""
    for item in teller.walk.moments:
        if _lowest(item, names) < limit - _NOTICED:
            below.append(item)
        if below and _level(item, names) >= limit - _NOTICED:
            yield _reserve_finding(teller, names, (limit, fill), below)
            below = []
        if item.is_place_to_fill(names) and not below:
            fill = f"{item.stop.place} (day {item.day.number})"
    if below:
        yield _reserve_finding(teller, names, (limit, fill), below)


def _lowest(item: WalkedMoment, names: Names) -> float:
    held = [item.moment.held[name].lowest for name in names]
    return sum((level for level in held if level is not None), start=0.0 if None not in held else 1e9)


def _level(item: WalkedMoment, names: Names) -> float:
    held = [item.moment.held[name].level for name in names]
    return 0.0 if None in held else sum(level for level in held if level is not None)


def _reserve_finding(
    teller: _Teller, names: Names, rule: tuple[float, str], below: list[WalkedMoment]
) -> Finding:
    words, (limit, fill), first = teller.walk.tanks.words(names[0]), rule, below[0]
    dry = next((item for item in below if _short(item, names) > _NOTICED), None)
    if dry is not None:
        lacking = teller.volume(_short(dry, names))
        text = f"{dry.words}: the {words} ends, {lacking} short."
    else:
        least, kept = teller.volume(_lowest(first, names), "down"), teller.volume(limit)
        text = f"{first.words}: the {words} falls to {least}, under the reserve of {kept}."
    place = f"Fill at {fill}, the last place before it" if fill else _before(teller, names)
    return Finding("attention", _ORDER, _key(names[0], first), text, f"{place}, or plan a stop in between.")


def _before(teller: _Teller, names: Names) -> str:
    """Say what is left to do before the trip; what is full already cannot be filled."""
    tanks = [teller.walk.tanks.tanks[name] for name in names]
    is_full = all(
        tank.start is not None and tank.full is not None and tank.start >= tank.full for tank in tanks
    )
    return "Plan a place to fill it before" if is_full else "Fill before leaving"


def _empty_first(teller: _Teller, name: str) -> str:
    start = teller.walk.tanks.tanks[name].start
    is_empty = start is not None and start.magnitude == 0
    return "Plan a place to dump before it" if is_empty else "Dump before leaving"


def _short(item: WalkedMoment, names: Names) -> float:
    return sum(item.moment.held[name].short for name in names)


def _key(name: str, item: WalkedMoment) -> str:
    return f"supplies.{name}.{item.key}"


def _ending(teller: _Teller, names: Names) -> Iterator[Finding]:
    """Find where a store runs out; until it is filled again that is one finding."""
    is_told = False
    for item in teller.walk.moments:
        held = [item.moment.held[name] for name in names]
        if held and _short(item, names) > _NOTICED and not is_told:
            is_told = True
            yield _ending_finding(teller, names, item)
        if any(one.filled > _NOTICED or one.adjusted > _NOTICED for one in held):
            is_told = False


def _ending_finding(teller: _Teller, names: Names, item: WalkedMoment) -> Finding:
    words, short = teller.walk.tanks.words(names[0]), _short(item, names)
    used = sum(item.moment.held[name].used for name in names)
    lasts = used / (used + short)
    part = f"it lasts {Wording.percent(lasts, 'down')} of the time"
    if words == "house battery":
        text = f"{item.words}: the house battery is drawn to its limit: {part}."
        helps = "Run the generator, take a site with electric hookups, or use less."
        return Finding("attention", _ORDER, _key(names[0], item), text, helps)
    text = f"{item.words}: the {words} ends, {teller.volume(short)} short: {part}."
    before = _last(teller, item, names)
    place = f"Fill at {before}" if before else _before(teller, names)
    return Finding("attention", _ORDER, _key(names[0], item), text, f"{place}, stay shorter, or use less.")


def _last(teller: _Teller, until: WalkedMoment, names: Names) -> str:
    """Name the last place the plan fills at before a moment."""
    place = ""
    for item in teller.walk.moments:
        if item is until:
            return place
        if not isinstance(item.event, Drive) and not item.event.filled.isdisjoint(names):
            place = f"{item.stop.place} (day {item.day.number})"
    return place


def _spilling(teller: _Teller, name: str) -> Iterator[Finding]:
    """Find where a waste tank is over full; until it is dumped that is one finding."""
    is_told, dump = False, ""
    for item in teller.walk.moments:
        held: Held = item.moment.held[name]
        # On the road the plan's own level says whether water was used there; the day's mean does not know.
        is_said = isinstance(item.event, Drive) and item.event.stated.get(name) is not None
        if held.spilled > _NOTICED and not is_told and not is_said:
            is_told = True
            words, over = teller.walk.tanks.words(name), teller.volume(held.spilled)
            text = f"{item.words}: the {words} tank overflows by {over}."
            place = f"Dump at {dump}" if dump else _empty_first(teller, name)
            helps = f"{place}, dump sooner after it, or use less water."
            yield Finding("attention", _ORDER, _key(name, item), text, helps)
        if held.dumped > _NOTICED or held.adjusted < -_NOTICED:
            is_told = False
        if not isinstance(item.event, Drive) and name in item.event.dumped:
            dump = f"{item.stop.place} (day {item.day.number})"


def _stated_apart(teller: _Teller, name: str) -> Iterator[Finding]:
    """Find a level the plan states on reaching a stop that its own distances and uses do not leave."""
    full = teller.walk.tanks.tanks[name].full
    if full is None:
        return
    for item in teller.walk.moments:
        held: Held = item.moment.held[name]
        is_off = abs(held.adjusted) > _APART * number_in(full, "gallon")
        if not isinstance(item.event, Drive) or held.level is None or not is_off:
            continue
        words, stated = teller.walk.tanks.words(name), teller.volume(held.level, "down")
        left = teller.volume(max(held.level - held.adjusted, 0.0), "down")
        text = f"{item.words}: the plan says {stated} of {words}, by its own use and distance {left}."
        helps = "Read both again; the plan's level is used."
        yield Finding("attention", _ORDER, _key(name, item), text, helps)
        return
