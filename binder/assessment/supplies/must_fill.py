"""What happens where a planned filling or dumping is left out: the stops that must not be passed."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from binder.assessment.figures import Figure, Input, Ledger
from binder.assessment.supplies.findings import reserve_of
from binder.assessment.supplies.walk import SupplyWalk, WalkedMoment
from binder.assessment.wording import Wording
from binder.calculations.supplies.stages import Drive, Names, Stay
from binder.models.base import LevelValue
from binder.models.load import Profile
from binder.quantities import registry

UNFILLED, UNDUMPED = "without_filling_margin", "without_dumping_margin"
"""Last words of the keys: negative where the stop must be used."""

_NOTICED = 0.5  # Of a gallon: more than the plan's whole gallons differ by.
_SOURCE = "trip plan; arithmetic; practice"
_FILLING = "what is left over the reserve until the next stop that fills, were this one passed"
_DUMPING = "room left in the tank until the next stop that dumps, were this one passed"


class _Passed(NamedTuple):
    """The worst level of a tank after a stop that was passed, and the place where it is reached."""

    level: float
    place: str
    is_on_reaching: bool

    @property
    def where(self) -> str:
        """Such as "on reaching Boise"."""
        return f"{'on reaching' if self.is_on_reaching else 'at'} {self.place}"


def assess_must_fill(profile: Profile, walk: SupplyWalk, ledger: Ledger) -> None:
    """Enter, for each stop that fills or dumps, what passing it would leave."""
    rules = dict(profile.trip.rules.reserve) if profile.trip else {}
    wording, chains = Wording(profile.rig.units), walk.tanks.chains
    for names in (chains.fuel, chains.exhaust_fluid, chains.fresh, chains.propane):
        limit = _limit(names, rules, walk) if names else None
        for number in _fillings(walk, names) if limit is not None else ():
            ledger.add(_filling(walk, names, (number, limit or 0.0), wording))
    for name in dict.fromkeys((*chains.gray, *chains.black)):
        for number in _dumpings(walk, name):
            ledger.add(_dumping(walk, name, number, wording))


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


def _filling(walk: SupplyWalk, names: Names, at: tuple[int, float], wording: Wording) -> Figure:
    (number, limit), item = at, walk.moments[at[0]]
    worst = _emptied(walk.moments[number - 1 :], names)
    margin = registry.Quantity(worst.level - limit, "gallon")
    kept = wording.volume(registry.Quantity(limit, "gallon"), "up")
    left = wording.volume(registry.Quantity(max(worst.level, 0.0), "gallon"), "down")
    told = f"{left} {worst.where}" if worst.level > 0 else f"empty before {worst.place}"
    return Figure(
        f"supplies.{names[0]}.{item.key.removesuffix('.leaving')}.{UNFILLED}",
        margin,
        "calculated",
        _FILLING,
        _SOURCE,
        (_tank(walk, names[0]), Input("reserve", kept, "trip plan, rules; practice")),
        slack=f"else {told}; reserve {kept}" if limit > 0 else f"else {told}",
    )


def _tank(walk: SupplyWalk, name: str) -> Input:
    item = walk.tanks.tanks[name]
    return Input("tank", item.words, f"rig.yaml vehicles.{item.vehicle}.tanks.{item.words}")


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


def _dumping(walk: SupplyWalk, name: str, number: int, wording: Wording) -> Figure:
    full, item = walk.tanks.tanks[name].full, walk.moments[number]
    capacity = float(full.to("gallon").m) if full is not None else 0.0
    worst = _filled_up(walk.moments[number - 1 :], name)
    room = registry.Quantity(capacity - worst.level, "gallon")
    holds = wording.volume(registry.Quantity(worst.level, "gallon"), "up")
    return Figure(
        f"supplies.{name}.{item.key.removesuffix('.leaving')}.{UNDUMPED}",
        room,
        "calculated",
        _DUMPING,
        _SOURCE,
        (_tank(walk, name), Input("most by then", holds, "trip plan; arithmetic")),
        slack=f"else over full {worst.where}" if room.magnitude < 0 else f"else {holds} {worst.where}",
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
