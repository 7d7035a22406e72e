"""Meters and service by the log: the highest that was read, and what was done later than the profile says."""

from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from typing import NamedTuple, cast

from binder.models.load import Profile
from binder.models.log_entries import Entry, Fill, Meter, ServiceDone, words_of_name
from binder.models.rig import Rig
from binder.models.service import HourMeter, LastDone, MetersValue, Service
from binder.quantities import Quantity

OWN_ODOMETER = frozenset({"motorhome", "pickup", "car"})
"""Kinds of vehicles that count their own miles; a trailer's are those of the vehicle ahead."""


class Read(NamedTuple):
    """What a meter read; ``on`` is None where the clock can hardly be right."""

    value: Quantity
    on: date | None


LoggedReads = Mapping[tuple[str, str], list[Read]]
"""Readings of the log by vehicle and meter."""


def reads_of(log: Iterable[Entry], rig: Rig) -> LoggedReads:
    """Gather what entries say of each meter, by time; who names no vehicle means the one that has it."""
    found: dict[tuple[str, str], list[Read]] = {}
    meters = {words_of_name(item.what): item.hours_meter for item in rig.service}
    first = next(iter(rig.vehicles))
    runs = next((name for name, one in rig.vehicles.items() if one.generator), first)
    for entry in log:
        for vehicle, name, value in _read(entry, meters):
            whose = vehicle or (runs if name == "generator" else first)
            on = None if entry.is_clock_unsure else entry.at.date()
            found.setdefault((whose, name), []).append(Read(value, on))
    return found


def _read(
    entry: Entry, meters: Mapping[frozenset[str], HourMeter]
) -> Iterator[tuple[str | None, str, Quantity]]:
    said = entry.said
    if isinstance(said, Meter | Fill | ServiceDone) and said.odometer is not None:
        yield said.vehicle, "odometer", said.odometer
    if isinstance(said, Meter):
        yield from (
            (said.vehicle, name, value)
            for name, value in (("engine", said.engine), ("generator", said.generator))
            if value is not None
        )
    if isinstance(said, ServiceDone) and said.hours is not None:
        of_item = meters.get(words_of_name(said.what)) or Service(what=said.what).hours_meter
        yield said.vehicle, of_item, said.hours


def highest(reads: Iterable[Read], noted: Read | None) -> Read | None:
    """The highest reading: a meter never runs back, so no lower one makes anything less due.

    ``noted`` is the profile's; it holds where the log has none that is higher.
    """
    best = noted
    for one in reads:
        if best is None or one.value > best.value:
            # By an unsure clock nobody knows which days are in it: as many as before are added.
            best = one if one.on is not None else Read(one.value, best.on if best else None)
    return best


def fallen(reads: Iterable[Read], noted: Read | None) -> list[Read]:
    """Readings that are lower than one before them, so that one of the two cannot be right."""
    dated = [one for one in (noted, *reads) if one is not None and one.on is not None]
    before, found = None, list[Read]()
    for one in sorted(dated, key=lambda read: read.on or date.min):
        if before is not None and one.value < before:
            found.append(one)
        else:
            before = one.value
    return found


class Done(NamedTuple):
    """A service that the log says was done; ``on`` is None where the clock can hardly be right."""

    said: ServiceDone
    on: date | None

    def is_of(self, item: Service, rig: Rig) -> bool:
        """Whether it is this item of the profile: by the same words, of the same vehicle."""
        if words_of_name(self.said.what) != words_of_name(item.what):
            return False
        named = self.said.vehicle
        if named is None or named == (item.vehicle or next(iter(rig.vehicles))):
            return True
        # A trailer has no service that is meant for the vehicle ahead of it.
        return item.vehicle is None and named in rig.vehicles and rig.vehicles[named].kind not in OWN_ODOMETER


class ServicesDone(NamedTuple):
    """Services of the log by the place of the item they are of, and those that are of none, or of several."""

    by_item: Mapping[int, list[Done]]
    unlisted: tuple[str, ...]


def services_done(profile: Profile) -> ServicesDone:
    """Find the item of each service that the log says was done."""
    by_item: dict[int, list[Done]] = {}
    unlisted: dict[str, None] = {}
    for entry in profile.logged("service"):
        on = None if entry.is_clock_unsure else entry.at.date()
        done = Done(cast("ServiceDone", entry.said), on)
        found = [at for at, item in enumerate(profile.rig.service) if done.is_of(item, profile.rig)]
        if len(found) == 1:
            by_item.setdefault(found[0], []).append(done)
        else:
            unlisted[done.said.what] = None
    return ServicesDone(by_item, tuple(unlisted))


def last_done(
    item: Service, done: Iterable[Done], reads: Iterable[Read], hours: Iterable[Read]
) -> LastDone | None:
    """What the log says was last done of an item, where it is later than what the profile says; else None.

    Where nobody wrote what a meter read, it is the last that was read before: the item falls due no later.
    """
    noted = item.last or LastDone.blank()
    newest = max(
        (one for one in done if one.on is not None), key=lambda one: one.on or date.min, default=None
    )
    if newest is None or newest.on is None or (noted.on is not None and newest.on <= noted.on):
        return None
    before = noted.at or MetersValue()
    by_distance = any(one.distance is not None for one in item.intervals)
    by_hours = any(one.running is not None for one in item.intervals)
    read = (
        newest.said.odometer or (_until(reads, newest.on, before.odometer) if by_distance else None),
        newest.said.hours or (_until(hours, newest.on, before.running) if by_hours else None),
    )
    return LastDone.model_construct(on=newest.on, at=MetersValue(*read))


def _until(reads: Iterable[Read], day: date, before: Quantity | None) -> Quantity | None:
    known = [one.value for one in reads if one.on is not None and one.on <= day]
    return max([*known, *([before] if before is not None else [])], default=None)
