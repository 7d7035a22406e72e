"""Sitting it out: what people need, how long each resource lasts, which ends first, and which next."""

from collections.abc import Iterable, Mapping
from functools import cache
from types import MappingProxyType
from typing import NamedTuple

from binder.calculations.bounds import Band, is_same
from binder.quantities import (
    Charge,
    Current,
    Quantity,
    RatioOfTimes,
    Time,
    Volume,
    VolumeRate,
    checks_dimensions,
    number_in,
    registry,
)
from binder.reference.sources import rows_of_table

EMERGENCY_STORE = "emergency store (FEMA)"


class WaterNeed(NamedTuple):
    """What one person needs a day, and whence the figure is."""

    a_person: Band
    source: str


@cache
def water_needs() -> Mapping[str, WaterNeed]:
    """Published water needs of one person, by use.

    Returns: Least and most a day for each use [volume rate].
    Sources: S-FEMA; S-SPHERE; S-EPAWS.

    >>> need = water_needs()["total basic"].a_person
    >>> f"{need.least:.1f} to {need.most:.1f}"
    '7.5 liter / day to 15.0 liter / day'
    """
    return MappingProxyType({row["use"]: _need(row) for row in rows_of_table("water_use")})


def _need(row: dict[str, str]) -> WaterNeed:
    ends = [registry.Quantity(float(row[f"liters_per_person_day_{end}"]), "liter/day") for end in _ENDS]
    return WaterNeed(Band(*ends), row["source_id"])


_ENDS = ("low", "high")


class Resource(NamedTuple):
    """A resource and how long it lasts; None where nothing of it is used, so that it does not end."""

    name: str
    lasts: Time | None


class End(NamedTuple):
    """A time, and every resource that ends at it."""

    time: Time
    names: tuple[str, ...]


class Endurance(NamedTuple):
    """When resources end, soonest first."""

    ends: tuple[End, ...]

    @property
    def binding(self) -> End | None:
        """The resource that ends first, with all that end with it."""
        return self.ends[0] if self.ends else None

    @property
    def following(self) -> End | None:
        """What ends next once the binding one is made good."""
        return self.ends[1] if len(self.ends) > 1 else None


def endurance(resources: Iterable[Resource]) -> Endurance:
    """Which resource ends first.

    A resource whose amount or use is not known must not be left out silently: it may be the first. Say
    beside the result which ones were not counted.

    Args:
        resources: each with how long it lasts.
    Returns: The ends, soonest first; resources that end together stand together, those that do not end
        nowhere.
    Sources: arithmetic.

    >>> found = endurance([Resource("fresh water", q(6.4, "day")), Resource("gray water", q(4.2, "day"))])
    >>> found.binding.names, found.following.names
    (('gray water',), ('fresh water',))
    """
    timed = [(number_in(item.lasts, "day"), item) for item in resources if item.lasts is not None]
    timed.sort(key=lambda pair: pair[0])
    ends: list[End] = []
    for days, item in timed:
        if ends and is_same(number_in(ends[-1].time, "day"), days):
            ends[-1] = End(ends[-1].time, (*ends[-1].names, item.name))
        elif item.lasts is not None:
            ends.append(End(item.lasts, (item.name,)))
    return Endurance(tuple(ends))


@checks_dimensions
def lasting(held: Volume, use: VolumeRate) -> Time | None:
    """How long a tank lasts.

    Args:
        held: what can be used of it [volume].
        use: drawn from it [volume rate].
    Returns: The time [time]; None where nothing is used.
    Raises: ValueError: what is held or used is below zero.
    Sources: arithmetic.

    >>> f"{lasting(q(90, 'gallon'), q(14, 'gallon/day')).to('day'):.2f}"
    '6.43 day'
    """
    return _quotient(held, use)


@checks_dimensions
def filling(capacity: Volume, held: Volume, inflow: VolumeRate) -> Time | None:
    """How long until a waste tank is full.

    Args:
        capacity: of the tank [volume].
        held: already in it [volume].
        inflow: into it [volume rate].
    Returns: The time [time]; None where nothing flows in.
    Raises: ValueError: it holds more than it can, or the inflow is below zero.
    Sources: arithmetic.

    >>> f"{filling(q(60, 'gallon'), q(10, 'gallon'), q(10, 'gallon/day')).to('day'):.0f}"
    '5 day'
    """
    return _quotient(capacity - held, inflow)


@checks_dimensions
def battery_lasting(usable: Charge, mean_current: Current) -> Time | None:
    """How long a battery lasts with nothing charging it, drawn no faster than its rating on the mean.

    Args:
        usable: charge that may be drawn, cold counted [charge].
        mean_current: over day and night; 60 Ah a day is 2.5 A [current].
    Returns: The time [time]; None where nothing is drawn.
    Raises: ValueError: charge or current is below zero.
    Sources: arithmetic.

    >>> f"{battery_lasting(q(220, 'Ah'), q(60, 'Ah/day')).to('day'):.2f}"
    '3.67 day'
    """
    return _quotient(usable, mean_current)


class GeneratorUse(NamedTuple):
    """What a generator burns running, and how much of the time it runs."""

    burning: VolumeRate
    running: RatioOfTimes


@checks_dimensions
def generator_lasting(held: Volume, cut_off: Volume, generator: GeneratorUse) -> Time | None:
    """How long the fuel above a generator's cut-off lasts; with it, how long the battery is charged.

    Args:
        held: fuel in the tank [volume].
        cut_off: level it stops drawing at [volume].
        generator: what it burns and how much it runs.
    Returns: The time [time]; none at all, not less, at or under the cut-off; None where it does not run.
    Raises: ValueError: the fuel, its use or its running is below zero.
    Sources: stated (the cut-off); practice (a quarter of the tank where it is not).

    >>> use = GeneratorUse(q(0.5, "gallon/hour"), q(4, "hour/day"))
    >>> f"{generator_lasting(q(75, 'gallon'), q(25, 'gallon'), use).to('day'):.0f}"
    '25 day'
    """
    above = held - cut_off if held > cut_off else held * 0
    return _quotient(above, generator.burning * generator.running)


def _quotient(held: Quantity, use: Quantity) -> Time | None:
    if held.magnitude < 0 or use.magnitude < 0:
        raise ValueError(f"neither what is held ({held}) nor what is used ({use}) can be below zero")
    if use.magnitude == 0:
        return None
    time: Quantity = (held / use).to("day")
    return time
