"""What a walked trip lacks: a leg past a reserve, waste that spills, what ends before it is filled again."""

from collections.abc import Iterator

from binder.assessment.ledger import Fact, Finding, Ledger, Phrase
from binder.assessment.supplies import kinds
from binder.assessment.supplies.uses import USUAL_QUARTER
from binder.assessment.supplies.walk import SupplyWalk, WalkedMoment
from binder.assessment.weights.states import volume_of
from binder.calculations.supplies.stages import Drive, Names
from binder.calculations.supplies.walk import Held
from binder.models.base import LevelValue
from binder.models.load import Profile
from binder.quantities import Quantity, number_in, registry

_NOTICED = 0.05  # Of a gallon or an ampere-hour: less is not told.
_APART = 0.15  # Of the tank, practice: a gauge and a day's mean use may be that far off.


def find_along_trip(profile: Profile, walk: SupplyWalk, ledger: Ledger) -> None:
    """Find what does not work along the trip, each once, at the moment it begins."""
    reserves = dict(profile.trip.rules.reserve) if profile.trip else {}
    chains = walk.tanks.chains
    told: list[Finding] = []
    for names in (chains.fuel, chains.exhaust_fluid):
        told += _past_reserve(walk, reserve_of(reserves, walk, names) if names else None, names)
    for names in (chains.fresh, chains.propane, chains.battery):
        told += _ending(walk, names)
    for name in dict.fromkeys((*chains.gray, *chains.black)):
        told += _spilling(walk, name)
    known = {finding.about.subject[:2] for finding in told}
    for name, item in walk.tanks.tanks.items():
        # One fault is told once: where a tank ends or spills, its levels are looked at anyway.
        if item.subject not in known:
            told += _stated_apart(walk, name)
    for finding in told:
        ledger.find(finding)


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


def _past_reserve(walk: SupplyWalk, reserve: Quantity | None, names: Names) -> Iterator[Finding]:
    if reserve is None:
        return
    limit, below, fill = float(reserve.to("gallon").m), list[WalkedMoment](), None
    for item in walk.moments:
        if _lowest(item, names) < limit - _NOTICED:
            below.append(item)
        if below and _level(item, names) >= limit - _NOTICED:
            yield _reserve_finding(walk, names, (reserve, fill), below)
            below = []
        if item.is_place_to_fill(names) and not below:
            fill = item.stop_of_day
    if below:
        yield _reserve_finding(walk, names, (reserve, fill), below)


def _lowest(item: WalkedMoment, names: Names) -> float:
    held = [item.moment.held[name].lowest for name in names]
    return sum((level for level in held if level is not None), start=0.0 if None not in held else 1e9)


def _level(item: WalkedMoment, names: Names) -> float:
    held = [item.moment.held[name].level for name in names]
    return 0.0 if None in held else sum(level for level in held if level is not None)


def _reserve_finding(
    walk: SupplyWalk, names: Names, rule: tuple[Quantity, Phrase | None], below: list[WalkedMoment]
) -> Finding:
    (reserve, fill), first = rule, below[0]
    place = Phrase(kinds.FILL_AT_LAST, {"stop": fill}) if fill else _fill_before(walk, names)
    dry = next((item for item in below if _short(item, names) > _NOTICED), None)
    about = walk.level_key(first, names[0])
    if dry is not None:
        lacking = _gallons(_short(dry, names))
        return Finding(kinds.RUNS_DRY, about, {"moment": dry.words, "lacking": lacking, "place": place})
    least = _gallons(_lowest(first, names))
    facts: dict[str, Fact] = {"moment": first.words, "least": least, "kept": reserve, "place": place}
    return Finding(kinds.RESERVE_CROSSED, about, facts)


def _gallons(amount: float) -> Quantity:
    return registry.Quantity(amount, "gallon")


def _fill_before(walk: SupplyWalk, names: Names) -> str:
    """Say what is left to do before the trip; what is full already cannot be filled."""
    tanks = [walk.tanks.tanks[name] for name in names]
    is_full = all(
        tank.start is not None and tank.full is not None and tank.start >= tank.full for tank in tanks
    )
    return kinds.PLAN_TO_FILL if is_full else kinds.FILL_BEFORE_LEAVING


def _dump_before(walk: SupplyWalk, name: str) -> str:
    start = walk.tanks.tanks[name].start
    is_empty = start is not None and start.magnitude == 0
    return kinds.PLAN_TO_DUMP if is_empty else kinds.DUMP_BEFORE_LEAVING


def _short(item: WalkedMoment, names: Names) -> float:
    return sum(item.moment.held[name].short for name in names)


def _ending(walk: SupplyWalk, names: Names) -> Iterator[Finding]:
    """Find where a store runs out; until it is filled again that is one finding."""
    is_told = False
    for item in walk.moments:
        held = [item.moment.held[name] for name in names]
        if held and _short(item, names) > _NOTICED and not is_told:
            is_told = True
            yield _ending_finding(walk, names, item)
        if any(one.filled > _NOTICED or one.adjusted > _NOTICED for one in held):
            is_told = False


def _ending_finding(walk: SupplyWalk, names: Names, item: WalkedMoment) -> Finding:
    short, about = _short(item, names), walk.level_key(item, names[0])
    used = sum(item.moment.held[name].used for name in names)
    facts: dict[str, Fact] = {"moment": item.words, "lasts": used / (used + short)}
    if names == walk.tanks.chains.battery:
        return Finding(kinds.BATTERY_DRAWN, about, facts)
    before = _last(walk, item, names)
    place = Phrase(kinds.FILL_AT, {"stop": before}) if before else _fill_before(walk, names)
    return Finding(kinds.ENDS, about, {**facts, "short": _gallons(short), "place": place})


def _last(walk: SupplyWalk, until: WalkedMoment, names: Names) -> Phrase | None:
    """Name the last place the plan fills at before a moment."""
    place = None
    for item in walk.moments:
        if item is until:
            return place
        if not isinstance(item.event, Drive) and not item.event.filled.isdisjoint(names):
            place = item.stop_of_day
    return place


def _spilling(walk: SupplyWalk, name: str) -> Iterator[Finding]:
    """Find where a waste tank is over full; until it is dumped that is one finding."""
    is_told, dump = False, None
    for item in walk.moments:
        held: Held = item.moment.held[name]
        # On the road the plan's own level says whether water was used there; the day's mean does not know.
        is_said = isinstance(item.event, Drive) and item.event.stated.get(name) is not None
        if held.spilled > _NOTICED and not is_told and not is_said:
            is_told = True
            place = Phrase(kinds.DUMP_AT, {"stop": dump}) if dump else _dump_before(walk, name)
            facts: dict[str, Fact] = {"moment": item.words, "over": _gallons(held.spilled), "place": place}
            yield Finding(kinds.OVERFLOWS, walk.level_key(item, name), facts)
        if held.dumped > _NOTICED or held.adjusted < -_NOTICED:
            is_told = False
        if not isinstance(item.event, Drive) and name in item.event.dumped:
            dump = item.stop_of_day


def _stated_apart(walk: SupplyWalk, name: str) -> Iterator[Finding]:
    """Find a level the plan states on reaching a stop that its own distances and uses do not leave."""
    full = walk.tanks.tanks[name].full
    if full is None:
        return
    for item in walk.moments:
        held: Held = item.moment.held[name]
        is_off = abs(held.adjusted) > _APART * number_in(full, "gallon")
        if not isinstance(item.event, Drive) or held.level is None or not is_off:
            continue
        left = _gallons(max(held.level - held.adjusted, 0.0))
        facts: dict[str, Fact] = {"moment": item.words, "stated": _gallons(held.level), "left": left}
        yield Finding(kinds.STATED_APART, walk.level_key(item, name), facts)
        return
