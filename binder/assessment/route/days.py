"""The days of a trip with what each takes over from the day before: where it starts, and its zone."""

from collections.abc import Iterable, Iterator
from datetime import date
from typing import NamedTuple

from binder.assessment.ledger import Phrase
from binder.assessment.route import kinds
from binder.models.load import Profile
from binder.models.trip import Leg, Stop, TravelDay
from binder.quantities import Quantity, registry

LONGEST_LEG = registry.Quantity(3000.0, "mile")
"""Practice: more is no leg, but a slip."""
MOTOR_FUELS = frozenset({"diesel", "gasoline"})


class TripDay(NamedTuple):
    """One travel day. ``start`` is where it leaves from, None where the plan never says.

    ``is_zone_blank``: the zone it starts in is that of an earlier place, for one since was left blank.
    """

    number: int
    plan: TravelDay
    start: Stop | None
    zone_at_start: str | None
    name_of_trip: str
    is_zone_blank: bool

    @property
    def key(self) -> str:
        """Start of the keys of its figures."""
        return f"route.day_{self.number}"

    @property
    def origin(self) -> Phrase:
        """How its entries are named as an origin."""
        return Phrase(kinds.OF_DAY, {"trip": self.name_of_trip, "day": self.number})

    @property
    def end(self) -> Stop:
        """Where the day ends."""
        return self.plan.legs[-1].to

    def legs(self) -> Iterator[tuple[int, Leg, Phrase]]:
        """Give each leg with its number and its name as an origin."""
        for number, leg in enumerate(self.plan.legs, start=1):
            yield number, leg, Phrase(kinds.OF_LEG, {**self.origin.facts, "leg": number})


def trip_days(profile: Profile) -> tuple[TripDay, ...]:
    """Days of the profile's trip."""
    days = list[TripDay]()
    start: Stop | None = None
    zone: str | None = None
    is_blank = False
    name = profile.trip_name or (profile.trip.name if profile.trip else "")
    for number, plan in enumerate(profile.trip.days if profile.trip else [], start=1):
        start = plan.origin or start
        zone = (plan.origin.time_zone if plan.origin else None) or zone
        is_blank = is_blank and not (plan.origin and plan.origin.time_zone)
        days.append(TripDay(number, plan, start, zone, name, is_blank))
        start = plan.legs[-1].to
        for leg in plan.legs:
            zone = leg.to.time_zone or zone
            is_blank = not leg.to.time_zone and (is_blank or leg.to.is_blank("time_zone"))
    return tuple(days)


def total(parts: Iterable[Quantity | None], unit: str) -> Quantity | None:
    """Add up distances, times or volumes; None where one of them is not known."""
    found = registry.Quantity(0.0, unit)
    for part in parts:
        if part is None:
            return None
        found = found + part
    return found


def last_day(profile: Profile, on: date) -> tuple[date, str]:
    """Give the day up to which things must last, and what it is called."""
    if profile.trip is None or on > profile.trip.days[-1].leave.date():
        return on, kinds.EFFECTIVE_DATE
    return profile.trip.days[-1].leave.date(), kinds.END_OF_TRIP


def first_day(profile: Profile, on: date) -> tuple[date, str]:
    """Give the day by which things must be done, and what it is called."""
    if profile.trip is None or on >= profile.trip.days[0].leave.date():
        return on, kinds.EFFECTIVE_DATE
    return profile.trip.days[0].leave.date(), kinds.DEPARTING


def is_fuel_stop(stop: Stop) -> bool:
    """Tell whether fuel for the engine is taken at a stop."""
    return stop.kind == "fuel" or not MOTOR_FUELS.isdisjoint(stop.fill)
