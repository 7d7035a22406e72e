"""Lows of the nights, what they freeze, and the coldest and the highest night of the trip."""

from binder.assessment.figures import Figure, Finding, Input, Ledger
from binder.assessment.fluids.cold_limits import ColdLimit, cold_limits
from binder.assessment.route.days import TripDay, trip_days
from binder.assessment.wording import Wording
from binder.models.load import Profile
from binder.quantities import Quantity, Temperature


def assess_nights(profile: Profile, ledger: Ledger) -> None:
    """Enter lows, what they freeze, and elevations, of each day and of the trip."""
    days = trip_days(profile)
    from binder.wording.sentences import sentence  # noqa: PLC0415 - Until the nights enter values too.

    told = (
        limit._replace(words=sentence(limit.words, {}, profile.rig.units))  # type: ignore[arg-type] # As above.
        for limit in cold_limits(profile.rig)
    )
    limits = [(limit.limit.m_as("kelvin"), limit) for limit in told]
    for day in days:
        _assess_low(day, limits, Wording(profile.rig.units), ledger)
        _assess_elevation(day, Wording(profile.rig.units), ledger)
    _assess_coldest(days, Wording(profile.rig.units), ledger)
    _assess_highest_night(days, Wording(profile.rig.units), ledger)


def _low_of(day: TripDay) -> Temperature | None:
    return day.plan.night.low if day.plan.night else None


def _low_input(day: TripDay, wording: Wording) -> tuple[Input, ...]:
    low = _low_of(day)
    if low is None:
        return ()
    return (Input(f"low at {day.end.place}", wording.temperature(low, "down"), f"{day.place}, night"),)


def _assess_low(
    day: TripDay, limits: list[tuple[float, ColdLimit]], wording: Wording, ledger: Ledger
) -> None:
    low, key = _low_of(day), f"{day.key}.night_low"
    inputs = _low_input(day, wording)
    ledger.add(Figure(key, low, "assumed", "as planned", "trip plan", inputs))
    if low is None:
        if day.plan.night is not None:
            text = f"Day {day.number}: the low of the night at {day.end.place} is not given."
            ledger.find(Finding("missing", 8, key, text, "Enter the forecast, or the normal low."))
        ledger.add(Figure(f"{day.key}.freezes", None, "calculated", "the low is not known", "trip plan"))
        return
    kelvin = low.m_as("kelvin")
    frozen = [limit for point, limit in limits if kelvin < point]
    for limit in frozen:
        text = (
            f"Day {day.number}: {limit.words} at {day.end.place}: low {wording.temperature(low, 'down')}, "
            f"limit {wording.temperature(limit.limit, 'up')}."
        )
        ledger.find(Finding("attention", 8, f"{day.key}.freezes", text, limit.helps))
    rule = "what is aboard and stands over the night's low: " + (
        ", ".join(
            f"{limit.words} below {wording.temperature(limit.limit, 'up')}"
            for limit in _nearest(limits, len(frozen))
        )
        or "nothing that freezes"
    )
    source = "; ".join(dict.fromkeys(["trip plan", *(limit.source for _, limit in limits)]))
    words = "; ".join(str(limit.words) for limit in frozen) or "nothing"
    ledger.add(Figure(f"{day.key}.freezes", words, "calculated", rule, source, inputs, (_INSIDE,)))


def _nearest(limits: list[tuple[float, ColdLimit]], frozen: int) -> list[ColdLimit]:
    """What freezes, and the three that would next, in the order they are told."""
    warmest_first = sorted(range(len(limits)), key=lambda index: -limits[index][0])
    return [limits[index][1] for index in sorted(warmest_first[: frozen + 3])]


_INSIDE = "A heated bay is warmer than the air, a line along a wall may be colder."


def _assess_elevation(day: TripDay, wording: Wording, ledger: Ledger) -> None:
    stops = [*([day.start] if day.start else []), *(leg.to for leg in day.plan.legs)]
    known = [(stop.place, stop.elevation) for stop in stops if stop.elevation is not None]
    key, rule = f"{day.key}.elevation_highest", "the highest of the day's stops; passes between may be higher"
    if not known:
        ledger.add(Figure(key, None, "assumed", "no elevation is given", "trip plan"))
        return
    place, highest = max(known, key=lambda item: item[1])
    inputs = (Input(place, wording.elevation(highest, "up"), day.place),)
    ledger.add(Figure(key, highest, "assumed", rule, "trip plan", inputs))


def _assess_coldest(days: tuple[TripDay, ...], wording: Wording, ledger: Ledger) -> None:
    lows = [(day, low) for day in days if (low := _low_of(day)) is not None]
    if not lows:
        ledger.add(Figure("route.coldest_night", None, "assumed", "no low is given", "trip plan"))
        return
    day, low = min(lows, key=lambda item: item[1])
    slack = f"at {day.end.place}, night after day {day.number}"
    rule = "the lowest of the planned lows"
    cautions = () if all(_low_of(item) is not None for item in days if item.plan.night) else (_SOME_LOWS,)
    ledger.add(
        Figure(
            "route.coldest_night",
            low,
            "assumed",
            rule,
            "trip plan",
            _low_input(day, wording),
            cautions,
            slack,
        )
    )


_SOME_LOWS = "The low of a night is not given; it may be the coldest."


def _assess_highest_night(days: tuple[TripDay, ...], wording: Wording, ledger: Ledger) -> None:
    key = "route.highest_overnight_elevation"
    nights = [day for day in days if day.plan.night is not None]
    known: list[tuple[TripDay, Quantity]] = []
    for day in nights:
        if day.end.elevation is None:
            text = f"Day {day.number}: the elevation of {day.end.place} is not given."
            ledger.find(
                Finding("missing", 8, key, text, "Enter it; tire pressures of cold mornings need it.")
            )
        else:
            known.append((day, day.end.elevation))
    if not known:
        ledger.add(Figure(key, None, "assumed", "no elevation of a night is given", "trip plan"))
        return
    day, highest = max(known, key=lambda item: item[1])
    inputs = (Input(day.end.place, wording.elevation(highest, "up"), day.place),)
    slack = f"at {day.end.place}, night after day {day.number}"
    rule = "the highest place a night is spent at"
    ledger.add(Figure(key, highest, "assumed", rule, "trip plan", inputs, slack=slack))
