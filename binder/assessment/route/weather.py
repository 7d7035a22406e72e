"""Lows of the nights and what they freeze, the coldest and the highest night, and the wind to park at."""

from collections.abc import Iterator
from typing import NamedTuple

from binder.assessment.fluids.fluids import ColdLimit, cold_limits
from binder.assessment.ledger import Fact, Figure, Finding, Input, Ledger, Phrase
from binder.assessment.route import kinds
from binder.assessment.route.days import TripDay
from binder.models.load import Profile
from binder.models.rig import Rig
from binder.models.trip import WindLimits
from binder.quantities import Quantity, Temperature, registry

_WINDS = {"mph": "mile_per_hour", "km/h": "kilometer_per_hour"}


class _Limit(NamedTuple):
    """What a cold night harms; its limit in kelvin beside it, for each night is held against all of them."""

    kelvin: float
    limit: ColdLimit

    @property
    def facts(self) -> dict[str, Fact]:
        return {"words": self.limit.words, "limit": self.limit.limit, "helps": self.limit.helps}


def assess_nights(profile: Profile, days: tuple[TripDay, ...], ledger: Ledger) -> None:
    """Enter lows, what they freeze, and elevations, of each day and of the trip."""
    limits = [_Limit(limit.limit.m_as("kelvin"), limit) for limit in cold_limits(profile.rig)]
    for day in days:
        _assess_low(day, limits, ledger)
        _assess_elevation(day, ledger)
    _assess_coldest(days, ledger)
    _assess_highest_night(days, ledger)


def _low_of(day: TripDay) -> Temperature | None:
    return day.plan.night.low if day.plan.night else None


def _low_input(day: TripDay, low: Temperature) -> tuple[Input, ...]:
    return (Input(kinds.LOW, low, day.origin, {"place": day.end.place}),)


def _assess_low(day: TripDay, limits: list[_Limit], ledger: Ledger) -> None:
    low, place = _low_of(day), {"place": day.end.place}
    low_key, freezes_key = kinds.NIGHT_LOW.of(day.number), kinds.FREEZES.of(day.number)
    if low is None:
        ledger.enter(Figure(low_key, None))
        if day.plan.night is not None:
            ledger.find(Finding(kinds.NO_LOW, low_key, place))
        ledger.enter(Figure(freezes_key, None, case="unknown"))
        return
    inputs = _low_input(day, low)
    ledger.enter(Figure(low_key, low, inputs))
    kelvin = low.m_as("kelvin")
    frozen = [one for one in limits if kelvin < one.kelvin]
    for one in frozen:
        ledger.find(Finding(kinds.FREEZES_THERE, freezes_key, {**one.facts, **place, "low": low}))
    value = Phrase(kinds.FROZEN, {"frozen": tuple(one.limit.words for one in frozen)})
    facts: dict[str, Fact] = {
        "around": tuple(_nearest(limits, len(frozen))),
        "sources": tuple(dict.fromkeys(one.limit.source for one in limits)),
    }
    case = "" if limits else "none"
    ledger.enter(Figure(freezes_key, value if frozen else Phrase(kinds.NOTHING), inputs, case, facts))


def _nearest(limits: list[_Limit], frozen: int) -> Iterator[Phrase]:
    """What freezes, and the three that would next, in the order they are told."""
    warmest_first = sorted(range(len(limits)), key=lambda index: -limits[index].kelvin)
    for index in sorted(warmest_first[: frozen + 3]):
        yield Phrase(kinds.FREEZES_BELOW, limits[index].facts)


def _assess_elevation(day: TripDay, ledger: Ledger) -> None:
    stops = [*([day.start] if day.start else []), *(leg.to for leg in day.plan.legs)]
    places = [(stop.place, stop.elevation) for stop in stops]
    places += [(grade.what, grade.top) for leg in day.plan.legs for grade in leg.grades]
    known = [(place, elevation) for place, elevation in places if elevation is not None]
    lacking = tuple(place for place, elevation in places if elevation is None)
    key = kinds.HIGHEST_STOP.of(day.number)
    if not known:
        ledger.enter(Figure(key, None, case="none"))
        return
    place, highest = max(known, key=lambda item: item[1])
    inputs = (Input(kinds.ELEVATION, highest, day.origin, {"place": place}),)
    if lacking:
        ledger.enter(Figure(key, None, inputs, "some", {"lacking": lacking}))
    else:
        ledger.enter(Figure(key, highest, inputs))


def _at_night(day: TripDay) -> Phrase:
    return Phrase(kinds.AT_NIGHT, {"place": day.end.place, "day": day.number})


def _assess_coldest(days: tuple[TripDay, ...], ledger: Ledger) -> None:
    key, lows = kinds.COLDEST_NIGHT.of(), [(day, low) for day in days if (low := _low_of(day)) is not None]
    if not lows:
        ledger.enter(Figure(key, None, case="none"))
        return
    day, low = min(lows, key=lambda item: item[1])
    if all(_low_of(item) is not None for item in days if item.plan.night):
        ledger.enter(Figure(key, low, _low_input(day, low), slack=_at_night(day)))
    else:
        ledger.enter(Figure(key, None, _low_input(day, low), "some"))


def _assess_highest_night(days: tuple[TripDay, ...], ledger: Ledger) -> None:
    key, known = kinds.HIGHEST_NIGHT.of(), list[tuple[TripDay, Quantity]]()
    for day in days:
        if day.plan.night is None:
            continue
        if day.end.elevation is None:
            ledger.find(Finding(kinds.NO_ELEVATION, key, {"day": day.number, "place": day.end.place}))
        else:
            known.append((day, day.end.elevation))
    if not known:
        ledger.enter(Figure(key, None, case="none"))
        return
    day, highest = max(known, key=lambda item: item[1])
    given = (Input(kinds.ELEVATION, highest, day.origin, {"place": day.end.place}),)
    if len(known) < sum(one.plan.night is not None for one in days):
        ledger.enter(Figure(key, None, given, "some"))
    else:
        ledger.enter(Figure(key, highest, given, slack=_at_night(day)))


def assess_wind(rig: Rig, limits: WindLimits, ledger: Ledger) -> None:
    """Enter the wind this rig parks at: the owner's own limits, else the usual ones, marked as practice."""
    for name, kind in kinds.WIND.items():
        own: Quantity | None = getattr(limits, name)
        if own is not None:
            told = Input(kinds.OWN_WIND, own, facts={"name": name})
            ledger.enter(Figure(kind.of(), own, (told,), "own"))
            continue
        constant = kinds.USUAL_WIND[name]
        amount = constant.us if rig.units == "us" else constant.metric
        usual = registry.Quantity(float(amount.value), _WINDS[amount.unit])
        ledger.enter(Figure(kind.of(), usual, case="usual"))
