"""What a walked trip lacks, and which stops must fill or dump."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from binder.assessment.ledger import Fact, Figure, Finding, Input, Ledger, Phrase, Place
from binder.assessment.route.days import total
from binder.assessment.supplies import kinds
from binder.assessment.supplies.tanks import USUAL_QUARTER, SupplyTank
from binder.assessment.supplies.walk import SupplyWalk, WalkedMoment
from binder.assessment.weights.states import volume_of
from binder.calculations.supplies.stages import Drive, Names, Stay
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
    tanks = [walk.tanks.tanks[name] for name in names]
    rules = (reserves.get(item.words) or reserves.get(item.tank.holds) or USUAL_QUARTER for item in tanks)
    return total((volume_of(item.tank, rule) for item, rule in zip(tanks, rules, strict=True)), "gallon")


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


_MUST_FILL_NOTICED = 0.5  # Of a gallon: more than the plan's whole gallons differ by.


class _Passed(NamedTuple):
    """The worst level of a tank after a stop that was passed, and the place where it is reached."""

    level: float
    place: str
    is_on_reaching: bool

    @property
    def where(self) -> Phrase:
        """Where, and whether on reaching it."""
        words = kinds.ON_REACHING if self.is_on_reaching else kinds.AT_PLACE
        return Phrase(words, {"place": self.place})


def assess_must_fill(profile: Profile, walk: SupplyWalk, ledger: Ledger) -> None:
    """Enter, for each stop that fills or dumps, what passing it would leave."""
    rules = dict(profile.trip.rules.reserve) if profile.trip else {}
    chains = walk.tanks.chains
    for names in (chains.fuel, chains.exhaust_fluid, chains.fresh, chains.propane):
        limit = _limit(names, rules, walk) if names else None
        for number in _fillings(walk, names) if names else ():
            ledger.enter(_filling(walk, names, number, limit))
    for name in dict.fromkeys((*chains.gray, *chains.black)):
        for number in _dumpings(walk, name):
            ledger.enter(_dumping(walk, name, number))


def _limit(names: Names, rules: dict[str, LevelValue], walk: SupplyWalk) -> float | None:
    """Reserve in gallons; water and propane have one only where the owner gives it."""
    tanks = [walk.tanks.tanks[name] for name in names]
    is_motor = tanks[0].tank.holds in {"diesel", "gasoline", "exhaust fluid"}
    if not is_motor and not any(item.words in rules or item.tank.holds in rules for item in tanks):
        return sum(float(item.unusable.to("gallon").m) for item in tanks)
    reserve = reserve_of(rules, walk, names)
    return None if reserve is None else float(reserve.to("gallon").m)


def _fillings(walk: SupplyWalk, names: Names) -> Iterator[int]:
    """Stops after a leg where some tanks can be filled."""
    is_motor = names in {walk.tanks.chains.fuel, walk.tanks.chains.exhaust_fluid}
    for number, item in enumerate(walk.moments):
        if not isinstance(item.event, Stay) or not number or item.number == 0:
            continue
        if _fills(item, names) or (is_motor and item.is_place_to_fill(names)):
            yield number


def _fills(item: WalkedMoment, names: Names) -> bool:
    if isinstance(item.event, Drive):
        return False
    raised = any(item.moment.held[name].adjusted > _MUST_FILL_NOTICED for name in names)
    return raised or not item.event.filled.isdisjoint(names)


def _filling(walk: SupplyWalk, names: Names, number: int, limit: float | None) -> Figure:
    item, tank = walk.moments[number], walk.tanks.tanks[names[0]]
    worst = _emptied(walk.moments[number - 1 :], names)
    if worst is None or limit is None:
        return Figure(
            kinds.WITHOUT_FILLING.of(*tank.subject, item.day.number, item.number), None, (_tank(tank),)
        )
    kept, then = registry.Quantity(limit, "gallon"), Phrase(kinds.ELSE_EMPTY, {"place": worst.place})
    if worst.level > 0:
        left = registry.Quantity(worst.level, "gallon")
        then = Phrase(kinds.ELSE_LEFT, {"left": left, "where": worst.where})
    facts: dict[str, Fact] = {"then": then, "kept": kept}
    return Figure(
        kinds.WITHOUT_FILLING.of(*tank.subject, item.day.number, item.number),
        registry.Quantity(worst.level - limit, "gallon"),
        (_tank(tank), Input(kinds.RESERVE_OF_STOP, kept)),
        slack=Phrase(kinds.ELSE_UNDER_RESERVE if limit > 0 else kinds.ELSE, facts),
    )


def _tank(tank: SupplyTank) -> Input:
    return Input(kinds.TANK, tank.words, Place("rig.yaml", ("vehicles", tank.vehicle, "tanks", tank.words)))


def _emptied(moments: Sequence[WalkedMoment], names: Names) -> _Passed | None:
    """Walk on from a stop that is passed, up to the next that fills; None: a level or use is not known."""
    if None in [moments[0].moment.held[name].level for name in names]:
        return None
    level = sum(moments[0].moment.held[name].level or 0.0 for name in names)
    worst = _Passed(level, moments[0].stop.place, is_on_reaching=True)
    for number, item in enumerate(moments[1:]):
        if number and _fills(item, names):
            break
        for name in names:
            held = item.moment.held[name]
            if held.lowest is None:
                return None
            level -= held.used + held.short + max(0.0, -held.adjusted)
        if level < worst.level:
            worst = _Passed(level, item.stop.place, isinstance(item.event, Drive))
    return worst


def _dumpings(walk: SupplyWalk, name: str) -> Iterator[int]:
    for number, item in enumerate(walk.moments):
        if number and isinstance(item.event, Stay) and name in item.event.dumped and item.number:
            yield number


def _dumping(walk: SupplyWalk, name: str, number: int) -> Figure:
    tank, item = walk.tanks.tanks[name], walk.moments[number]
    worst, key = _filled_up(walk.moments[number - 1 :], name), kinds.WITHOUT_DUMPING
    if worst is None or tank.full is None:
        return Figure(key.of(*tank.subject, item.day.number, item.number), None, (_tank(tank),))
    room = registry.Quantity(number_in(tank.full, "gallon") - worst.level, "gallon")
    holds = registry.Quantity(worst.level, "gallon")
    words = kinds.ELSE_OVER_FULL if room.magnitude < 0 else kinds.ELSE_HOLDS
    return Figure(
        key.of(*tank.subject, item.day.number, item.number),
        room,
        (_tank(tank), Input(kinds.MOST_BY_THEN, holds)),
        slack=Phrase(words, {"holds": holds, "where": worst.where}),
    )


def _filled_up(moments: Sequence[WalkedMoment], name: str) -> _Passed | None:
    """Walk on from a stop that is passed, up to the next one that dumps; None: what flows in is not known."""
    level = moments[0].moment.held[name].level
    if level is None:
        return None
    worst = _Passed(level, moments[0].stop.place, is_on_reaching=True)
    for number, item in enumerate(moments[1:]):
        held = item.moment.held[name]
        if number and not isinstance(item.event, Drive) and name in item.event.dumped:
            break
        if number and held.adjusted < -_MUST_FILL_NOTICED:
            break
        if held.highest is None:
            return None
        level += held.filled + (max(0.0, held.adjusted) if number else 0.0)
        if level > worst.level:
            worst = _Passed(level, item.stop.place, isinstance(item.event, Drive))
    return worst
