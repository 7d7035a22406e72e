"""A trip day by day: distances, times across zones, light left, and the last fuel."""

from collections.abc import Iterator
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from binder.assessment.ledger import Fact, Figure, Finding, Input, Ledger, Phrase
from binder.assessment.road.clearances import assess_clearances, assess_limits, find_tunnels
from binder.assessment.road.grades import find_unmeasured_grades
from binder.assessment.route import kinds
from binder.assessment.route.days import LONGEST_LEG, TripDay, is_fuel_stop, total, trip_days
from binder.assessment.route.weather import assess_nights, assess_wind
from binder.calculations.route.times import (
    BREAK_LENGTH,
    BreakRule,
    Coordinates,
    Evening,
    Stretch,
    StretchTimes,
    day_times,
    evening,
    morning,
    time_between,
    whole_minutes,
)
from binder.models.load import Profile
from binder.models.trip import Leg, Rules, Stop
from binder.quantities import Quantity


def _times(day: TripDay) -> tuple[StretchTimes, ...]:
    if day.zone_at_start is None:
        return ()
    departure = day.plan.leave.replace(tzinfo=ZoneInfo(day.zone_at_start))
    zone, stretches = day.zone_at_start, list[Stretch]()
    for leg in day.plan.legs:
        zone = leg.to.time_zone or zone
        # A slip of a digit would ask for a break every 100 miles of it.
        distance = None if leg.distance is None or leg.distance > LONGEST_LEG else leg.distance
        stretches.append(Stretch(_minutes(leg.driving), distance, _minutes(leg.to.stay), zone))
    return day_times(departure, stretches, BreakRule())


def _minutes(time: Quantity | None) -> Quantity | None:
    return None if time is None else whole_minutes(time)


def _enter_times(day: TripDay, times: tuple[StretchTimes, ...], ledger: Ledger) -> None:
    departure_key = kinds.DEPARTURE.of(day.number)
    if not times:
        ledger.find(Finding(kinds.NO_ZONE, departure_key))
    leave = Input(kinds.LEAVE, day.plan.leave, day.origin, {"on": day.plan.leave.date()})
    ledger.enter(Figure(departure_key, times[0].departure if times else None, (leave,)))
    inputs, cautions = [leave], list[Phrase]()
    arrival: datetime | None = None
    for number, leg, origin in day.legs():
        found = times[number - 1] if times else StretchTimes(None, None, ())
        _enter_breaks((day.number, number), leg, found, ledger)
        is_last, arrival = number == len(day.plan.legs), found.arrival
        inputs += _leg_inputs(leg, found, origin, is_last=is_last)
        cautions += [one for one in _leg_cautions(leg, is_last=is_last) if one not in cautions]
        key = kinds.LEG_ARRIVAL.of(day.number, number)
        if leg.driving is None:
            about = kinds.LEG_DRIVING.of(day.number, number)
            ledger.find(Finding(kinds.NO_DRIVING, about, {"place": leg.to.place}))
        ledger.enter(Figure(key, arrival, tuple(inputs), facts=kinds.ARRIVAL_FACTS, cautions=tuple(cautions)))
    key = kinds.ARRIVAL.of(day.number)
    ledger.enter(Figure(key, arrival, tuple(inputs), facts=kinds.ARRIVAL_FACTS, cautions=tuple(cautions)))


def _enter_breaks(subject: tuple[int, int], leg: Leg, found: StretchTimes, ledger: Ledger) -> None:
    lasts = Phrase(kinds.BREAK_LASTS, {"length": BREAK_LENGTH})
    for count, stop in enumerate(found.breaks, start=1):
        far = None
        if leg.distance is not None and leg.driving is not None:
            far = leg.distance * (stop.after_driving / leg.driving).to("")
        key = kinds.BREAK_AT.of(*subject, count)
        ledger.enter(Figure(key, far, facts=kinds.ARRIVAL_FACTS, slack=lasts))


def _leg_inputs(leg: Leg, found: StretchTimes, origin: Phrase, *, is_last: bool) -> Iterator[Input]:
    place = {"place": leg.to.place}
    yield Input(kinds.DRIVING_TO, leg.driving, origin, place)
    for stop in found.breaks:
        yield Input(kinds.BREAK, stop.after_driving, facts=place)
    if leg.to.stay is not None and not is_last:
        yield Input(kinds.STAY, leg.to.stay, origin, place)


def _leg_cautions(leg: Leg, *, is_last: bool) -> Iterator[Phrase]:
    if leg.to.time_zone is None:
        yield Phrase(kinds.ZONE_TAKEN, {"place": leg.to.place})
    if leg.to.stay is None and not is_last:
        yield Phrase(kinds.NO_STAY, {"place": leg.to.place})


_REACHED = 0.01
"""Minutes: within half a second of it a limit is reached, not passed."""


def _enter_driving(day: TripDay, rules: Rules, ledger: Ledger) -> None:
    for number, leg, origin in day.legs():
        key = kinds.LEG_DRIVING.of(day.number, number)
        ledger.enter(Figure(key, _minutes(leg.driving), (Input(kinds.LEG, leg.to.place, origin),)))
    every, limit, slack = (_minutes(leg.driving) for leg in day.plan.legs), rules.longest_day, None
    driving = total(every, "minute")
    key = kinds.DRIVING.of(day.number)
    if driving is not None and limit is not None:
        over = (driving - limit).to("minute")
        if over.magnitude <= _REACHED:
            slack = Phrase(kinds.UNDER_LONGEST, {"under": abs(over)})
        else:
            slack = Phrase(kinds.OVER_LONGEST, {"over": over})
            ledger.find(Finding(kinds.LONG_DAY, key, slack.facts))
    ledger.enter(Figure(key, driving, case="unknown" if driving is None else "", slack=slack))


def _enter_light(day: TripDay, rules: Rules, times: tuple[StretchTimes, ...], ledger: Ledger) -> None:
    key, end = kinds.SUNSET.of(day.number), day.end
    _enter_sunrise(day, ledger)
    if end.latitude is None or end.longitude is None:
        ledger.find(Finding(kinds.NO_POSITION, key, {"place": end.place}))
    zone = _zone_at_end(day)
    light = _evening(end, zone, day) if zone else None
    inputs = (Input(kinds.PLACE, end.place, day.origin),)
    sunset = light.sunset if light else None
    told = None if light is None or light.sunset else Phrase(kinds.SUN, {"state": light.state})
    ledger.enter(Figure(key, sunset or told, inputs, slack=told))
    dark = _end_of_light(light, rules)
    departure, arrival = (times[0].departure, times[-1].arrival) if times else (None, None)
    is_blank = day.is_zone_blank or end.is_blank("time_zone")
    is_blank |= any(leg.to.is_blank("stay") for leg in day.plan.legs[:-1])
    # Breaks are counted by distance, too.
    is_blank |= any(leg.distance is None for leg in day.plan.legs)
    left = time_between(arrival, dark) if arrival and dark else None
    event: dict[str, Fact] = {"event": rules.arrive_before or "sunset"}
    slack = told
    if left is not None and (left.magnitude < 0 or not is_blank):
        slack = _light_slack(day, left, event, is_least=is_blank, ledger=ledger)
    if is_blank:
        # Later than so the rig may arrive: it is neither told to be in time nor how late it is at most.
        ledger.find(Finding(kinds.LIGHT_UNKNOWN, kinds.DAYLIGHT_LEFT.of(day.number)))
        left = None
    ledger.enter(Figure(kinds.DAYLIGHT_LEFT.of(day.number), left, inputs, slack=slack))
    leave_by = (
        departure + timedelta(minutes=float(left.magnitude)) if departure and left is not None else None
    )
    ledger.enter(Figure(kinds.LEAVE_BY.of(day.number), leave_by, facts=event))


def _zone_at_end(day: TripDay) -> str | None:
    zones = [day.zone_at_start, *(leg.to.time_zone for leg in day.plan.legs)]
    return next((zone for zone in reversed(zones) if zone), None)


def _enter_sunrise(day: TripDay, ledger: Ledger) -> None:
    start, zone = day.start, day.zone_at_start
    given = () if start is None else (Input(kinds.PLACE, start.place, day.origin),)
    risen = None
    if start is not None and zone and start.latitude is not None and start.longitude is not None:
        risen = morning(Coordinates(start.latitude, start.longitude), day.plan.leave.date(), zone)
    ledger.enter(Figure(kinds.SUNRISE.of(day.number), risen, given))


def _evening(end: Stop, zone: str, day: TripDay) -> Evening | None:
    if end.latitude is None or end.longitude is None:
        return None
    return evening(Coordinates(end.latitude, end.longitude), day.plan.leave.date(), zone)


def _end_of_light(light: Evening | None, rules: Rules) -> datetime | None:
    if light is None:
        return None
    return light.dusk or light.sunset if rules.arrive_before == "dusk" else light.sunset


def _light_slack(
    day: TripDay, left: Quantity, event: dict[str, Fact], *, is_least: bool, ledger: Ledger
) -> Phrase:
    if left.magnitude >= 0:
        return Phrase(kinds.BEFORE_DARK, {**event, "left": left})
    late = Phrase(kinds.AT_LEAST_AFTER_DARK if is_least else kinds.AFTER_DARK, {**event, "late": -1 * left})
    key = kinds.DAYLIGHT_LEFT.of(day.number)
    ledger.find(Finding(kinds.DARK_ARRIVAL, key, {"late": late, "place": day.end.place}))
    return late


def assess_route(profile: Profile, on: date, ledger: Ledger) -> None:
    """Enter the figures of every day of the trip, and what is bad or missing about them."""
    if profile.unwritten_plan:
        ledger.find(Finding(kinds.NO_PLAN, kinds.NO_PLAN.of(), {"file": profile.unwritten_plan}))
    if profile.trip is None:
        return
    days, rules = trip_days(profile), profile.trip.rules
    last = days[-1].plan.leave.date()
    if last < on:
        ledger.find(Finding(kinds.OVER_BEFORE, kinds.DEPARTURE.of(1), {"last": last, "today": on}))
    for day in days:
        _assess_distance(day, ledger)
        times = _times(day)
        _enter_times(day, times, ledger)
        _enter_driving(day, rules, ledger)
        _enter_light(day, rules, times, ledger)
        find_unmeasured_grades(day, ledger)
        find_tunnels(profile, day, ledger)
    _assess_next_fuel(days, ledger)
    assess_clearances(profile, days, ledger)
    assess_limits(profile, days, ledger)
    assess_wind(profile.rig, rules.wind, ledger)
    assess_nights(profile, days, ledger)


def _assess_distance(day: TripDay, ledger: Ledger) -> None:
    inputs = []
    for number, leg, origin in day.legs():
        key, to = kinds.LEG_DISTANCE.of(day.number, number), {"place": leg.to.place}
        own = Input(kinds.TO_PLACE, leg.distance, origin, to)
        inputs.append(own)
        ledger.enter(Figure(key, leg.distance, (own,)))
        if leg.distance is None:
            ledger.find(Finding(kinds.NO_DISTANCE, key, to))
    distance = total((leg.distance for leg in day.plan.legs), "mile")
    case = "unknown" if distance is None else ""
    ledger.enter(Figure(kinds.DISTANCE.of(day.number), distance, tuple(inputs), case))


def _assess_next_fuel(days: tuple[TripDay, ...], ledger: Ledger) -> None:
    """Enter for each day the first place after its start where fuel is taken, and how far it is to there."""
    stops = [(day.number, leg, origin) for day in days for _, leg, origin in day.legs()]
    for day in days:
        ahead = [stop for stop in stops if stop[0] >= day.number]
        at = next((at for at, (_, leg, _) in enumerate(ahead) if is_fuel_stop(leg.to)), None)
        keys = [kind.of(day.number) for kind in (kinds.NEXT_FUEL, kinds.NEXT_FUEL_DISTANCE)]
        if at is None:
            for key in keys:
                ledger.enter(Figure(key, None, case="none"))
            continue
        number, leg, origin = ahead[at]
        later = Phrase(kinds.ON_DAY, {"day": number}) if number > day.number else None
        inputs = (Input(kinds.NEXT_FUEL_INPUT, leg.to.place, origin),)
        far = total((one.distance for _, one, _ in ahead[: at + 1]), "mile")
        ledger.enter(Figure(keys[0], leg.to.place, inputs, slack=later))
        ledger.enter(Figure(keys[1], far, inputs))
