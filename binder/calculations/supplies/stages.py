"""Legs and stays as stages of the walk: what each takes of every tank and battery.

Inside, tanks are counted in gallons, batteries in ampere-hours and times in hours.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal, NamedTuple, TypeAlias

from binder.calculations.supplies.propane import PropaneAtLow, propane_use_at
from binder.calculations.supplies.walk import Draw, Stage, Store
from binder.quantities import (
    Charge,
    Current,
    FuelUse,
    Length,
    Quantity,
    Share,
    Temperature,
    Time,
    Volume,
    VolumeRate,
    checks_dimensions,
    number_in,
)

Hookups: TypeAlias = Literal["none", "electric", "full"]
Names: TypeAlias = tuple[str, ...]


class Chains(NamedTuple):
    """Names of the stores each use is drawn from or flows into, in the order they empty or fill."""

    fuel: Names = ()
    exhaust_fluid: Names = ()
    fresh: Names = ()
    gray: Names = ()
    black: Names = ()
    propane: Names = ()
    generator_fuel: Names = ()
    battery: Names = ()


class Generator(NamedTuple):
    """What a generator burns on the mean of a day, and the level of its tank it stops drawing at.

    None: not known.
    """

    use: VolumeRate | None
    cut_off: Volume | None


class Uses(NamedTuple):
    """What the rig and the crew use; None: not known, so that no level after it is.

    ``to_black`` is the share of the water that ends in the black tank, the rest goes to the gray one.
    """

    fuel: FuelUse | None
    exhaust_fluid: Share | None
    water: VolumeRate | None
    to_black: Share
    propane: Sequence[PropaneAtLow] = ()
    is_propane_open_driving: bool = False
    generator: Generator | None = None
    battery: Current | None = None


@dataclass(frozen=True)
class Drive:
    """A leg up to its end; ``stated`` are the levels the plan gives for arriving."""

    key: str
    distance: Length | None
    time: Time | None
    stated: Mapping[str, Volume | None] = field(default_factory=dict)


@dataclass(frozen=True)
class Stay:
    """A stop from arriving to leaving; ``stated`` are the levels the plan gives for leaving.

    ``propane_time``: as long as propane is used for it, driving with the valve shut included.
    """

    key: str
    time: Time | None
    propane_time: Time | None
    hookups: Hookups | None = None
    low: Temperature | None = None
    is_night: bool = False
    dumped: frozenset[str] = frozenset()
    filled: frozenset[str] = frozenset()
    stated: Mapping[str, Volume | None] = field(default_factory=dict)


@checks_dimensions
def tank_store(capacity: Volume | None, start: Volume | None, unusable: Volume) -> Store:
    """A tank as the walk takes it.

    Args:
        capacity: when full [volume].
        start: held at the start [volume].
        unusable: at its bottom, which cannot be drawn [volume].
    Returns: The store, in gallons.
    Sources: arithmetic.

    >>> tank_store(q(100, "gal"), q(100, "gal"), q(6, "gal"))
    Store(capacity=100.0, start=100.0, floor=6.0)
    """
    return Store(_optional(capacity, "gallon"), _optional(start, "gallon"), number_in(unusable, "gallon"))


@checks_dimensions
def battery_store(usable: Charge | None) -> Store:
    """A battery as the walk takes it, full at the start.

    Args:
        usable: charge that may be drawn; None: not known [charge].
    Returns: The store, in ampere-hours over what may not be drawn.
    Sources: practice: a rig leaves with its batteries charged.

    >>> battery_store(q(220, "Ah"))
    Store(capacity=220.0, start=220.0, floor=0.0)
    """
    charge = _optional(usable, "ampere_hour")
    return Store(charge, charge)


def trip_stages(events: Iterable[Drive | Stay], uses: Uses, chains: Chains) -> Iterator[Stage]:
    """Stages of the walk, one for each leg and each stay.

    Args:
        events: legs and stays in order.
        uses: of the rig and the crew.
        chains: which stores each use is drawn from.
    Yields: The stages.
    Sources: arithmetic.

    >>> uses = Uses(1 / q(8, "mile / gallon"), q(2.5, "percent"), None, q(20, "percent"))
    >>> stage = next(trip_stages([Drive("leg", q(96, "mile"), q(2, "hour"))], uses, Chains(("diesel",))))
    >>> stage.draws[0].stores, round(stage.draws[0].amount, 3)
    (('diesel',), 12.0)
    """
    for event in events:
        stated = {name: _optional(level, "gallon") for name, level in event.stated.items()}
        if isinstance(event, Drive):
            yield Stage(event.key, tuple(_driving(event, uses, chains)), stated=stated)
        else:
            draws = tuple(_staying(event, uses, chains))
            charged = chains.battery if _is_charged(event, uses) else ()
            yield Stage(
                event.key, draws, event.dumped, event.filled.union(charged), stated, is_served_first=True
            )


def _driving(leg: Drive, uses: Uses, chains: Chains) -> Iterator[Draw]:
    fuel = _product(leg.distance, uses.fuel, "gallon")
    if chains.fuel:
        yield Draw(chains.fuel, fuel)
    if chains.exhaust_fluid:
        share = uses.exhaust_fluid
        yield Draw(
            chains.exhaust_fluid, None if fuel is None or share is None else fuel * number_in(share, "")
        )
    if chains.fresh:
        yield _water(leg.time, uses, chains)
    if chains.propane and uses.is_propane_open_driving:
        yield Draw(chains.propane, _product(leg.time, propane_use_at(uses.propane, None), "gallon"))


def _staying(stay: Stay, uses: Uses, chains: Chains) -> Iterator[Draw]:
    if chains.fresh and stay.hookups != "full":
        yield _water(stay.time, uses, chains)
    if chains.propane:
        yield Draw(chains.propane, _product(stay.propane_time, _propane(stay, uses), "gallon"))
    if stay.is_night and stay.hookups not in {"electric", "full"}:
        if uses.generator and chains.generator_fuel:
            amount = _product(stay.time, uses.generator.use, "gallon")
            yield Draw(chains.generator_fuel, amount, _optional(uses.generator.cut_off, "gallon") or 0.0)
        if chains.battery:
            yield Draw(chains.battery, _product(stay.time, uses.battery, "ampere_hour"))


def _propane(stay: Stay, uses: Uses) -> Quantity | None:
    if stay.low is None and not stay.is_night and uses.propane:
        # A stop by day has no low: the warmest figure stands.
        return min((row.use for row in uses.propane), key=lambda use: float(use.to("gallon / day").m))
    return propane_use_at(uses.propane, stay.low)


def _is_charged(stay: Stay, uses: Uses) -> bool:
    return stay.is_night and (stay.hookups in {"electric", "full"} or uses.generator is not None)


def _water(time: Quantity | None, uses: Uses, chains: Chains) -> Draw:
    black = number_in(uses.to_black, "") if chains.black else 0.0
    gray, waste = chains.gray or chains.black, chains.black
    into = tuple((names, share) for names, share in ((gray, 1 - black), (waste, black)) if names and share)
    return Draw(chains.fresh, _product(time, uses.water, "gallon"), into=into)


def _product(amount: Quantity | None, rate: Quantity | None, unit: str) -> float | None:
    return None if amount is None or rate is None else number_in(amount * rate, unit)


def _optional(quantity: Quantity | None, unit: str) -> float | None:
    return None if quantity is None else number_in(quantity, unit)
