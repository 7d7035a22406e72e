"""What happens where a planned filling or dumping is left out: the stops that must not be passed."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from binder.assessment.ledger import Fact, Figure, Input, Ledger, Phrase, Place
from binder.assessment.supplies import kinds
from binder.assessment.supplies.findings import reserve_of
from binder.assessment.supplies.tanks import SupplyTank
from binder.assessment.supplies.walk import SupplyWalk, WalkedMoment
from binder.calculations.supplies.stages import Drive, Names, Stay
from binder.models.base import LevelValue
from binder.models.load import Profile
from binder.quantities import registry

_NOTICED = 0.5  # Of a gallon: more than the plan's whole gallons differ by.


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
        for number in _fillings(walk, names) if limit is not None else ():
            ledger.enter(_filling(walk, names, number, limit or 0.0))
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
    """Stops after a leg where some tanks can be filled, what they hold on reaching it being known."""
    is_motor = names in {walk.tanks.chains.fuel, walk.tanks.chains.exhaust_fluid}
    for number, item in enumerate(walk.moments):
        if not isinstance(item.event, Stay) or not number or item.number == 0:
            continue
        if _fills(item, names) or (is_motor and item.is_place_to_fill(names)):
            levels = [walk.moments[number - 1].moment.held[name].level for name in names]
            if None not in levels:
                yield number


def _fills(item: WalkedMoment, names: Names) -> bool:
    if isinstance(item.event, Drive):
        return False
    raised = any(item.moment.held[name].adjusted > _NOTICED for name in names)
    return raised or not item.event.filled.isdisjoint(names)


def _filling(walk: SupplyWalk, names: Names, number: int, limit: float) -> Figure:
    item, tank = walk.moments[number], walk.tanks.tanks[names[0]]
    worst = _emptied(walk.moments[number - 1 :], names)
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


def _emptied(moments: Sequence[WalkedMoment], names: Names) -> _Passed:
    """Walk on from a stop that is passed, up to the next one that fills."""
    level = sum(moments[0].moment.held[name].level or 0.0 for name in names)
    worst = _Passed(level, moments[0].stop.place, is_on_reaching=True)
    for number, item in enumerate(moments[1:]):
        if number and _fills(item, names):
            break
        for name in names:
            held = item.moment.held[name]
            level -= held.used + held.short + max(0.0, -held.adjusted)
        if level < worst.level:
            worst = _Passed(level, item.stop.place, isinstance(item.event, Drive))
    return worst


def _dumpings(walk: SupplyWalk, name: str) -> Iterator[int]:
    if walk.tanks.tanks[name].full is None:
        return
    for number, item in enumerate(walk.moments):
        is_planned = isinstance(item.event, Stay) and name in item.event.dumped and item.number
        if number and is_planned and walk.moments[number - 1].moment.held[name].level is not None:
            yield number


def _dumping(walk: SupplyWalk, name: str, number: int) -> Figure:
    tank, item = walk.tanks.tanks[name], walk.moments[number]
    capacity = float(tank.full.to("gallon").m) if tank.full is not None else 0.0
    worst = _filled_up(walk.moments[number - 1 :], name)
    room = registry.Quantity(capacity - worst.level, "gallon")
    holds = registry.Quantity(worst.level, "gallon")
    words = kinds.ELSE_OVER_FULL if room.magnitude < 0 else kinds.ELSE_HOLDS
    return Figure(
        kinds.WITHOUT_DUMPING.of(*tank.subject, item.day.number, item.number),
        room,
        (_tank(tank), Input(kinds.MOST_BY_THEN, holds)),
        slack=Phrase(words, {"holds": holds, "where": worst.where}),
    )


def _filled_up(moments: Sequence[WalkedMoment], name: str) -> _Passed:
    level = moments[0].moment.held[name].level or 0.0
    worst = _Passed(level, moments[0].stop.place, is_on_reaching=True)
    for number, item in enumerate(moments[1:]):
        held = item.moment.held[name]
        if number and not isinstance(item.event, Drive) and name in item.event.dumped:
            break
        if number and held.adjusted < -_NOTICED:
            break
        level += held.filled + (max(0.0, held.adjusted) if number else 0.0)
        if level > worst.level:
            worst = _Passed(level, item.stop.place, isinstance(item.event, Drive))
    return worst
