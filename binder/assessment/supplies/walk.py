"""The plan's days walked: what every tank and the house battery hold on reaching and leaving each stop."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import datetime
from typing import NamedTuple
from zoneinfo import ZoneInfo

from binder.assessment.ledger import Key, Phrase
from binder.assessment.route.days import TripDay, is_fuel_stop, trip_days
from binder.assessment.supplies import kinds
from binder.assessment.supplies.kinds import AtMoments
from binder.assessment.supplies.rates import Rates, rates_of, with_log
from binder.assessment.supplies.tanks import SupplyTanks, SupplyUses, supply_tanks, supply_uses
from binder.assessment.weights.states import volume_of
from binder.calculations.supplies.stages import Drive, Stay, trip_stages
from binder.calculations.supplies.walk import Moment, trip_walk
from binder.models.base import LevelValue
from binder.models.load import Profile
from binder.models.trip import Stop
from binder.quantities import Quantity, Time, registry

_DAY = registry.Quantity(24.0, "hour")
_NO_TIME = registry.Quantity(0.0, "hour")


class WalkedMoment(NamedTuple):
    """A moment of the walk: on reaching or leaving a stop, or at the start of a day."""

    day: TripDay
    number: int
    stop: Stop
    event: Drive | Stay
    moment: Moment

    @property
    def key(self) -> str:
        """What the walk calls it, such as ``day_1.stop_2.arriving``."""
        return self.moment.key

    @property
    def words(self) -> Phrase:
        """When and where it is, as a sentence begins."""
        words = kinds.ON_THE_WAY if isinstance(self.event, Drive) else kinds.AT_STOP
        return Phrase(words, {"day": self.day.number, "place": self.stop.place})

    @property
    def stop_of_day(self) -> Phrase:
        """Name the stop with the day it is made on."""
        return Phrase(kinds.STOP_OF_DAY, {"place": self.stop.place, "day": self.day.number})

    def figure_key(self, kind: AtMoments, subject: tuple[str, str]) -> Key:
        """Key of a figure of a tank or battery at this moment."""
        end = "arriving" if isinstance(self.event, Drive) else "leaving"
        return kind.of(subject, self.day.number, self.number, end)

    def is_place_to_fill(self, names: tuple[str, ...]) -> bool:
        """Tell whether one of some tanks can be filled there."""
        if not isinstance(self.event, Stay):
            return False
        return not self.event.filled.isdisjoint(names) or is_fuel_stop(self.stop)


class SupplyWalk(NamedTuple):
    """A trip walked once: the tanks, the uses, the log's rates, and every moment in order."""

    tanks: SupplyTanks
    uses: SupplyUses
    rates: Rates
    moments: tuple[WalkedMoment, ...]

    def level_key(self, item: WalkedMoment, name: str) -> Key:
        """Key of the figure of what a tank or the battery holds at a moment."""
        store = self.tanks.store(name)
        return item.figure_key(store.level, store.subject)


def walked_trip(profile: Profile, *, is_frugal: bool = False, rates: Rates | None = None) -> SupplyWalk:
    """Walk along the plan of a trip; what is not known is taken to need the most, or if frugal the least.

    Hookups that are not known are none, or all; fresh water that is not known lasts, or is not there.
    ``rates`` are those of the log, where they are known.
    """
    tanks = supply_tanks(profile)
    rates = rates or rates_of(profile, tanks)
    uses = with_log(supply_uses(profile, tanks), rates, is_frugal=is_frugal)
    places, stores = list(_events(profile, tanks)), dict(tanks.stores)
    if is_frugal:
        places = [(day, number, stop, _with_hookups(event)) for day, number, stop, event in places]
        stores |= {
            name: stores[name]._replace(start=stores[name].start or 0.0) for name in tanks.chains.fresh
        }
    stages = trip_stages((event for *_, event in places), uses.uses, tanks.chains)
    moments = trip_walk(stores, stages)
    return SupplyWalk(
        tanks,
        uses,
        rates,
        tuple(WalkedMoment(*place, moment) for place, moment in zip(places, moments, strict=True)),
    )


def _with_hookups(event: Drive | Stay) -> Drive | Stay:
    if isinstance(event, Stay) and event.is_night and event.hookups is None:
        return replace(event, hookups="full")
    return event


_Place = tuple[TripDay, int, Stop, Drive | Stay]


def _events(profile: Profile, tanks: SupplyTanks) -> Iterator[_Place]:
    days = trip_days(profile)
    for day in days:
        following = days[day.number] if day.number < len(days) else None
        origin = day.plan.origin
        if origin and (origin.levels or origin.fill or origin.dump):
            start = Stay(f"day_{day.number}.start", _NO_TIME, _NO_TIME)
            yield day, 0, origin, _served(start, origin, tanks)
        for number, leg, _ in day.legs():
            key = f"day_{day.number}.stop_{number}"
            arriving = _levels(leg.to.arriving, tanks)
            yield day, number, leg.to, Drive(f"{key}.arriving", leg.distance, leg.driving, arriving)
            yield day, number, leg.to, _stay(f"{key}.leaving", (day, following, number), tanks)


def _stay(key: str, where: tuple[TripDay, TripDay | None, int], tanks: SupplyTanks) -> Stay:
    day, following, number = where
    leg = day.plan.legs[number - 1]
    if number < len(day.plan.legs):
        pause = leg.to.stay if leg.to.stay is not None else _NO_TIME
        return _served(Stay(key, pause, _NO_TIME), leg.to, tanks)
    whole = _until(day, following)
    if whole is None:  # The trip ends here.
        return _served(Stay(key, _NO_TIME, _NO_TIME), leg.to, tanks)
    night = day.plan.night
    hookups, low = (night.hookups, night.low) if night else (None, None)
    if hookups != "none" and any(before.to.is_blank("stay") for before in day.plan.legs[:-1]):
        hookups = None  # For how long the rig stands at them is not known.
    stay = Stay(key, _less_driving(whole, day), whole, hookups, low, is_night=True)
    return _served(stay, leg.to, tanks)


def _until(day: TripDay, following: TripDay | None) -> Time | None:
    """From the day's start to the next day's; with a night after it, the last day is counted whole."""
    if following is None:
        return _DAY if day.plan.night else None
    starts = [_moment(item) for item in (day, following)]
    if any(start.tzinfo is None for start in starts):
        starts = [start.replace(tzinfo=None) for start in starts]
    return registry.Quantity((starts[1] - starts[0]).total_seconds() / 3600, "hour")


def _moment(day: TripDay) -> datetime:
    zone = day.zone_at_start
    return day.plan.leave.replace(tzinfo=ZoneInfo(zone)) if zone else day.plan.leave


def _less_driving(whole: Quantity, day: TripDay) -> Quantity | None:
    """What is left at the last stop; not known where a driving time is not, or where nothing is left."""
    left = whole
    for number, leg, _ in day.legs():
        if leg.driving is None:
            return None
        left = left - leg.driving
        if number < len(day.plan.legs) and leg.to.stay is not None:
            left = left - leg.to.stay
    return left if left.m >= 0 else None


def _served(stay: Stay, stop: Stop, tanks: SupplyTanks) -> Stay:
    filled = frozenset(
        name for name, item in tanks.tanks.items() if {item.words, item.tank.holds} & set(stop.fill)
    )
    dumped = frozenset((*tanks.chains.gray, *tanks.chains.black)) if stop.dump else frozenset()
    return replace(stay, dumped=dumped, filled=filled, stated=_levels(stop.levels, tanks))


def _levels(levels: Mapping[str, Mapping[str, LevelValue]], tanks: SupplyTanks) -> dict[str, Quantity | None]:
    by_place = {(item.vehicle, item.words): (name, item.tank) for name, item in tanks.tanks.items()}
    found = {}
    for vehicle, entries in levels.items():
        for words, level in entries.items():
            name, tank = by_place[vehicle, words]
            found[name] = volume_of(tank, level)
    return found
