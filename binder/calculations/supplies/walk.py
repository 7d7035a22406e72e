"""One walk along a trip: what every tank and battery holds at each moment, and where it came from and went.

Plain numbers, for speed: everything of one store is in one unit, which the caller keeps. Whatever happens,
level = level before + filled + adjusted - used - dumped - spilled, for every store at every moment.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from binder.calculations.bounds import is_same


class Store(NamedTuple):
    """A tank or a battery: what it holds when full, what cannot be drawn, what it starts with.

    ``capacity`` None: not known, it is never full; ``start`` None: not known.
    """

    capacity: float | None
    start: float | None
    floor: float = 0.0


class Draw(NamedTuple):
    """An amount taken from the first of the stores that holds any, and where what was taken flows.

    ``amount`` None: not known, and so are the levels after it. ``floor``: this draw ends there, as a
    generator's does at its cut-off. ``into``: stores in the order they fill, and the share they get.
    """

    stores: tuple[str, ...]
    amount: float | None
    floor: float = 0.0
    into: tuple[tuple[tuple[str, ...], float], ...] = ()


@dataclass(frozen=True)
class Stage:
    """From one moment to the next: draws, then dumping, filling to the full, then what the plan states.

    ``is_served_first``: dumping and filling can be done before the draws too, as on a site with both.
    """

    key: str
    draws: tuple[Draw, ...] = ()
    dumped: frozenset[str] = frozenset()
    filled: frozenset[str] = frozenset()
    stated: Mapping[str, float | None] = field(default_factory=dict)
    is_served_first: bool = False


class Held(NamedTuple):
    """One store at a moment, and what happened to it since the moment before.

    ``level`` None: not known. ``lowest`` and ``highest`` are the least and the most it held since the
    moment before, what was walked and what was stated both counted. ``adjusted`` is what a stated level
    differs by; ``short`` what was wanted and not there.
    """

    level: float | None
    lowest: float | None
    highest: float | None
    filled: float = 0.0
    used: float = 0.0
    dumped: float = 0.0
    spilled: float = 0.0
    adjusted: float = 0.0
    short: float = 0.0


class Moment(NamedTuple):
    """Every store at one moment."""

    key: str
    held: Mapping[str, Held]


def trip_walk(stores: Mapping[str, Store], stages: Iterable[Stage]) -> tuple[Moment, ...]:
    """Walk along the stages of a trip.

    Args:
        stores: by name.
        stages: in order.
    Returns: A moment for each stage, at its end.
    Raises: KeyError: a stage names a store that is not there; ValueError: an amount is below zero.
    Sources: arithmetic.

    >>> stores = {"fresh": Store(90.0, 90.0), "gray": Store(60.0, 0.0)}
    >>> night = Stage("night", (Draw(("fresh",), 14.0, into=((("gray",), 1.0),)),))
    >>> held = trip_walk(stores, [night, night])[-1].held
    >>> held["fresh"].level, held["gray"].level
    (62.0, 28.0)
    """
    contents = {name: _Contents(store, store.start) for name, store in stores.items()}
    return tuple(_moment(contents, stage) for stage in stages)


@dataclass
class _Contents:
    """One store while it is walked with, and the sums since the last moment."""

    store: Store
    level: float | None
    lowest: float | None = None
    highest: float | None = None
    is_lost: bool = False
    sums: dict[str, float] = field(default_factory=dict)

    def begin(self) -> None:
        self.lowest = self.highest = self.level
        self.is_lost = False
        self.sums = {}

    def moved(self, what: str, amount: float, level: float | None) -> None:
        self.sums[what] = self.sums.get(what, 0.0) + amount
        self.level = level
        if level is not None and (self.lowest is None or level < self.lowest):
            self.lowest = level
        if level is not None and (self.highest is None or level > self.highest):
            self.highest = level

    def forget(self) -> None:
        """Let go of a level: whatever it is filled to after that, its extremes on the way are not known."""
        self.level, self.is_lost = None, True

    def take(self, amount: float, floor: float) -> float:
        """Take what there is of an amount, and give what was not there."""
        if self.level is None:
            return 0.0
        taken = min(amount, max(0.0, self.level - max(floor, self.store.floor)))
        self.moved("used", taken, self.level - taken)
        # What the last bits of a sum lack is not lacking.
        return 0.0 if is_same(amount, taken) else amount - taken

    def put(self, amount: float, *, is_last: bool) -> float:
        """Put in what there is room for, and give the rest; the last of several spills it."""
        if self.level is None:
            return 0.0
        capacity = self.store.capacity
        room = amount if capacity is None else max(0.0, capacity - self.level)
        inside = min(amount, room)
        over = 0.0 if is_same(amount, inside) else amount - inside
        if not over:
            inside = amount
        self.moved("filled", amount if is_last else inside, self.level + inside)
        if over and is_last:
            self.moved("spilled", over, self.level)
        return 0.0 if is_last else over

    def dump(self) -> None:
        if self.level is None:
            self.level = 0.0
        self.moved("dumped", self.level, 0.0)

    def fill(self) -> None:
        capacity = self.store.capacity
        if capacity is None or self.level is None:
            self.level = capacity
        elif self.level < capacity:
            self.moved("filled", capacity - self.level, capacity)

    def state(self, level: float | None) -> None:
        if level is None or self.level is None:
            self.level = level
        else:
            self.moved("adjusted", level - self.level, level)

    def held(self) -> Held:
        lowest, highest = (None, None) if self.is_lost else (self.lowest, self.highest)
        return Held(self.level, lowest, highest, **self.sums)


def _moment(contents: dict[str, _Contents], stage: Stage) -> Moment:
    for item in contents.values():
        item.begin()
    if stage.is_served_first:
        _serve(contents, stage)
    for draw in stage.draws:
        _draw(contents, draw)
    _serve(contents, stage)
    for name, level in stage.stated.items():
        contents[name].state(level)
    return Moment(stage.key, {name: item.held() for name, item in contents.items()})


def _serve(contents: dict[str, _Contents], stage: Stage) -> None:
    for name in stage.dumped:
        contents[name].dump()
    for name in stage.filled:
        contents[name].fill()


def _draw(contents: dict[str, _Contents], draw: Draw) -> None:
    if draw.amount is not None and draw.amount < 0:
        raise ValueError(f"an amount of {draw.amount} cannot be drawn")
    sources = [contents[name] for name in draw.stores]
    used = draw.amount
    if used is None or any(item.level is None for item in sources):
        for item in sources:
            item.forget()
    else:
        short = used
        for item in sources:
            short = item.take(short, draw.floor)
        used -= short
        if short and sources:
            sources[0].moved("short", short, sources[0].level)
    for names, share in draw.into:
        _put([contents[name] for name in names], None if used is None else used * share)


def _put(chain: list[_Contents], amount: float | None) -> None:
    if amount is None or any(item.level is None for item in chain):
        for item in chain:
            item.forget()
        return
    for number, item in enumerate(chain, start=1):
        amount = item.put(amount, is_last=number == len(chain))
