"""When each leg of a day ends, how much daylight is left then, and how long the day's driving is."""

from collections.abc import Iterator
from datetime import datetime, timedelta
from typing import NamedTuple
from zoneinfo import ZoneInfo

from binder.assessment.figures import Figure, Finding, Input, Kind, Ledger
from binder.assessment.procedure_numbers import procedure_number
from binder.assessment.route.days import TripDay
from binder.assessment.wording import Wording
from binder.calculations.route.times import (
    BreakRule,
    Coordinates,
    Evening,
    Stretch,
    StretchTimes,
    day_times,
    evening,
    time_between,
)
from binder.models.load import Profile
from binder.models.trip import Leg, Rules, Stop
from binder.quantities import Quantity, Time

_ARRIVAL_RULE = (
    "departure, driving, a break of 15 min after 2 h or {} of driving whichever comes first, and the "
    "plan's own stays, which count as breaks from 15 min on"
)
_ARRIVAL_SOURCE = "trip plan; W40; practice"
_LIGHT_RULE = "sunset at the place and on the day, over a flat horizon"


class _Clock(NamedTuple):
    """What times of one day are entered with."""

    day: TripDay
    rules: Rules
    wording: Wording
    ledger: Ledger

    @property
    def arrival_rule(self) -> str:
        """How arrivals are found, with its distance in the rig's units."""
        return _ARRIVAL_RULE.format(procedure_number("break after", self.wording.units))

    def add(self, key: str, value: Quantity | datetime | str | None, **more: object) -> None:
        kind: Kind = "calculated"
        fields: dict[str, object] = {
            "kind": kind,
            "source": _ARRIVAL_SOURCE,
            "rule": self.arrival_rule,
        } | more
        self.ledger.add(Figure(f"{self.day.key}.{key}", value, **fields))  # type: ignore[arg-type] # Named alike.

    def miss(self, key: str, text: str, helps: str) -> None:
        self.ledger.find(Finding("missing", 10, f"{self.day.key}.{key}", text, helps))


def assess_times(profile: Profile, day: TripDay, ledger: Ledger) -> None:
    """Enter departure, arrivals, driving time, sunset and daylight left of one day."""
    rules = profile.trip.rules if profile.trip else Rules()
    clock = _Clock(day, rules, Wording(profile.rig.units), ledger)
    times = _times(day)
    _enter_times(clock, times)
    _enter_driving(clock)
    _enter_light(clock, times)


def _times(day: TripDay) -> tuple[StretchTimes, ...]:
    if day.zone_at_start is None:
        return ()
    departure = day.plan.leave.replace(tzinfo=ZoneInfo(day.zone_at_start))
    return day_times(departure, list(_stretches(day, day.zone_at_start)), BreakRule())


def _stretches(day: TripDay, zone: str) -> Iterator[Stretch]:
    for leg in day.plan.legs:
        zone = leg.to.time_zone or zone
        yield Stretch(leg.driving, leg.distance, leg.to.stay, zone)


def _enter_times(clock: _Clock, times: tuple[StretchTimes, ...]) -> None:
    day = clock.day
    if not times:
        text = f"Day {day.number}: the place it starts from has no time zone, so no time can be given."
        clock.miss("departure", text, "Give the start with its time_zone, like America/Denver.")
    leave = Input("leave", f"{day.plan.leave:%Y-%m-%d %H:%M}", f"{day.place}, leave")
    departure = times[0].departure if times else None
    clock.add("departure", departure, rule="as planned", source="trip plan", inputs=(leave,))
    inputs, cautions = [leave], list[str]()
    for number, leg, place in day.legs():
        found = times[number - 1] if times else StretchTimes(None, None, ())
        inputs += _leg_inputs(clock, leg, found, place)
        cautions += _leg_cautions(leg, last=number == len(day.plan.legs))
        if leg.driving is None:
            text = f"Day {day.number}, leg {number} to {leg.to.place}: its driving time is not given."
            clock.miss(f"leg_{number}.driving_time", text, "Enter it, at the speed you really drive.")
        clock.add(
            f"leg_{number}.arrival",
            found.arrival,
            inputs=tuple(inputs),
            cautions=tuple(dict.fromkeys(cautions)),
        )
    arrival = times[-1].arrival if times else None
    clock.add("arrival", arrival, inputs=tuple(inputs), cautions=tuple(dict.fromkeys(cautions)))


def _leg_inputs(clock: _Clock, leg: Leg, found: StretchTimes, place: str) -> Iterator[Input]:
    wording = clock.wording
    driving = wording.duration(leg.driving, "up") if leg.driving is not None else "not known"
    yield Input(f"driving to {leg.to.place}", driving, place)
    for stop in found.breaks:
        after = wording.duration(stop.after_driving, "down")
        yield Input(
            f"break on the way to {leg.to.place}", f"15 min, after {after} of this leg", "W40; practice"
        )
    if leg.to.stay is not None and leg is not clock.day.plan.legs[-1]:
        yield Input(f"stay at {leg.to.place}", wording.duration(leg.to.stay, "up"), place)


def _leg_cautions(leg: Leg, *, last: bool) -> Iterator[str]:
    if leg.to.time_zone is None:
        yield f"No time zone is given for {leg.to.place}: that of the place before is taken."
    if leg.to.stay is None and not last:
        yield f"No stay is given for {leg.to.place}: none is counted."


def _enter_driving(clock: _Clock) -> None:
    day, limit = clock.day, clock.rules.longest_day
    driving = [leg.driving for leg in day.plan.legs]
    for number, leg, place in day.legs():
        clock.add(
            f"leg_{number}.driving_time",
            leg.driving,
            kind="assumed",
            rule="as planned",
            source="trip plan",
            inputs=(Input("leg", leg.to.place, place),),
        )
    total = _total(driving)
    slack = ""
    if total is not None and limit is not None:
        slack = _driving_slack(clock, total, limit)
    rule = "driving times of the legs, without breaks and stays"
    if total is None:
        rule += "; one is not given"
    clock.add("driving_time", total, rule=rule, source="trip plan; arithmetic", slack=slack)


def _total(parts: list[Time | None]) -> Quantity | None:
    known = [part.to("minute") for part in parts if part is not None]
    return sum(known[1:], start=known[0]) if len(known) == len(parts) else None


def _driving_slack(clock: _Clock, total: Quantity, limit: Quantity) -> str:
    over = (total - limit).to("minute")
    # Within half a second: a limit reached is not one passed.
    if over.magnitude <= 0.01:  # noqa: PLR2004 - see above.
        return f"{clock.wording.duration(abs(over), 'down')} under your longest day"
    more = clock.wording.duration(over, "up")
    text = f"Day {clock.day.number}: driving is {more} over your longest day."
    helps = "Split the day, or stop earlier."
    clock.ledger.find(Finding("attention", 10, f"{clock.day.key}.driving_time", text, helps))
    return f"{more} over your longest day"


def _enter_light(clock: _Clock, times: tuple[StretchTimes, ...]) -> None:
    end = clock.day.end
    if end.latitude is None or end.longitude is None:
        clock.miss(
            "sunset", f"Day {clock.day.number}: no position is given for {end.place}: no sunset.", _WHERE
        )
    zone = _zone_at_end(clock.day)
    light = _evening(end, zone, clock.day) if zone else None
    inputs = (Input("place", end.place, clock.day.place),)
    sunset = light.sunset if light else None
    told = "" if light is None or light.sunset else f"the sun {light.state}"
    common = {"rule": _LIGHT_RULE, "source": "LIB-SUN; trip plan", "inputs": inputs, "cautions": (_HILLS,)}
    clock.add("sunset", sunset or told or None, slack=told, **common)
    dark = _end_of_light(light, clock.rules)
    departure, arrival = (times[0].departure, times[-1].arrival) if times else (None, None)
    left = time_between(arrival, dark) if arrival and dark else None
    clock.add("daylight_left", left, slack=told if left is None else _light_slack(clock, left), **common)
    leave_by = (
        departure + timedelta(minutes=float(left.magnitude)) if departure and left is not None else None
    )
    event = clock.rules.arrive_before or "sunset"
    clock.add(
        "leave_by", leave_by, rule=f"the latest departure that still arrives before {event}", source=_BY
    )


_WHERE = "Enter its latitude and longitude."
_BY = "LIB-SUN; W40; trip plan; practice"
_HILLS = "Hills take the sun earlier."


def _zone_at_end(day: TripDay) -> str | None:
    zones = [day.zone_at_start, *(leg.to.time_zone for leg in day.plan.legs)]
    return next((zone for zone in reversed(zones) if zone), None)


def _evening(end: Stop, zone: str, day: TripDay) -> Evening | None:
    if end.latitude is None or end.longitude is None:
        return None
    return evening(Coordinates(end.latitude, end.longitude), day.plan.leave.date(), zone)


def _end_of_light(light: Evening | None, rules: Rules) -> datetime | None:
    if light is None:
        return None
    return light.dusk or light.sunset if rules.arrive_before == "dusk" else light.sunset


def _light_slack(clock: _Clock, left: Quantity) -> str:
    event = clock.rules.arrive_before or "sunset"
    if left.magnitude >= 0:
        return f"{clock.wording.duration(left, 'down')} before {event}"
    late = clock.wording.duration(-1 * left, "up")
    text = f"Day {clock.day.number}: arrival at {clock.day.end.place} is {late} after {event}."
    helps = "Leave earlier, or stop short; arrive with light to see branches and cords."
    clock.ledger.find(Finding("attention", 10, f"{clock.day.key}.daylight_left", text, helps))
    return f"{late} after {event}"
