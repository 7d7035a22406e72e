"""Cards 5.1, 5.2 ...: one day sheet for each travel day."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from binder.assessment.assess import Assessment
from binder.assessment.body import kinds as body
from binder.assessment.ledger import Figure, FigureKind, Phrase
from binder.assessment.road import kinds as met
from binder.assessment.route import kinds as route
from binder.assessment.route.days import trip_days
from binder.assessment.supplies.kinds import RANGE_LEFT
from binder.cards.blocks import Big, Blank, Block, Card, End, Heading, Line, Reason, Side, Step, Table
from binder.cards.rig_words import reason_of, words_of
from binder.cards.ring.day_profile import elevation_picture, profile_reason
from binder.cards.ring.day_sheet_road import roads
from binder.models.trip import TravelDay
from binder.quantities import Quantity
from binder.wording.measures import CLEARANCE, HIGH, SIZE, SPEED_LIMIT
from binder.wording.numbers import BLANK, beside
from binder.wording.words import Words, day, procedure_number, town

_HEIGHT, _GAP = body.OVERALL_HEIGHT.of(), body.GAP_FROM_40.of()
_WIND, _GUSTS = (route.WIND[name].of() for name in ("sustained", "gusts"))
_OF_RIG = (("Overall height", _HEIGHT), ("Gap ahead", _GAP), ("Wind", _WIND), ("Gusts", _GUSTS))
"""Figures that are the same on every day: the first sheet alone gives their reasons."""

_ORDER = {
    "us": "In driving order; miles from the start.",
    "metric": "In driving order; km from the start.",
}
"""How a road is read."""

_EXPLAINED = (
    ("Lowest clearance", met.MARGIN_OF_DAY),
    ("Arrive", route.ARRIVAL),
    ("Leave by", route.LEAVE_BY),
    ("Sunset, to spare", route.SUNSET),
    ("What freezes", route.FREEZES),
)
"""Figures of a day with a rule of their own; the others are as planned, or a sum that is seen."""

_OF_DAY = (
    met.LOWEST_OF_DAY,
    met.MARGIN_OF_DAY,
    route.DISTANCE,
    route.DRIVING,
    route.DEPARTURE,
    route.LEAVE_BY,
    route.ARRIVAL,
    route.SUNRISE,
    route.SUNSET,
    route.DAYLIGHT_LEFT,
    route.NEXT_FUEL,
    route.NEXT_FUEL_DISTANCE,
    route.NIGHT_LOW,
    route.FREEZES,
)


@dataclass(frozen=True)
class _Day:
    """One travel day: its plan, and its figures by their kind."""

    assessment: Assessment
    number: int
    plan: TravelDay

    @property
    def words(self) -> Words:
        return words_of(self.assessment)

    @property
    def is_first(self) -> bool:
        return self.number == 1

    @property
    def height(self) -> Quantity | None:
        """How high the rig stands."""
        return self.assessment.quantity(_HEIGHT)

    def known(self, kind: FigureKind) -> Figure | None:
        return self.assessment.known(kind.of(self.number))

    def quantity(self, kind: FigureKind) -> Quantity | None:
        return self.assessment.quantity(kind.of(self.number))

    def text(self, kind: FigureKind) -> str:
        return self.words.text(self.quantity(kind), kind.measure)

    @property
    def range_left(self) -> Figure | None:
        """How far the fuel goes, down to the reserve, on reaching the day's end."""
        moment = (self.number, len(self.plan.legs), "arriving")
        of_kind = self.assessment.ledger.of_kind(RANGE_LEFT.at_stop)
        return next((one for one in of_kind if one.key.subject[2:] == moment), None)

    def slack(self, kind: FigureKind) -> str:
        return self.words.slack(self.known(kind))

    def moment(self, kind: FigureKind) -> datetime | None:
        figure = self.known(kind)
        return figure.value if figure and isinstance(figure.value, datetime) else None


def day_sheets(assessment: Assessment) -> tuple[Card, ...]:
    """Make a day sheet for each travel day of the trip."""
    if assessment.trip is None:
        return ()
    days = enumerate(assessment.trip.days, start=1)
    return tuple(_day_sheet(_Day(assessment, number, plan)) for number, plan in days)


def _day_sheet(one: _Day) -> Card:
    assessment, plan = one.assessment, one.plan
    above, before = _above(one), _before_leaving(one)
    fullest, *others = roads(assessment, trip_days(assessment.profile)[one.number - 1], _light(one))
    keys = (*(key for _, key in _OF_RIG), *(kind.of(one.number) for kind in _OF_DAY))
    used = [one.words.key(key) for key in keys if assessment.known(key)]
    used += [one.words.key(one.range_left.key)] if one.range_left else []
    return Card(
        id=f"5.{one.number}",
        name="day_sheet",
        title=f"Day {one.number}, {day(plan.leave.date())}",
        sides=(
            Side(
                f"To {plan.legs[-1].to.place}. {_ORDER[one.words.style.system]}",
                (*above, *fullest.blocks),
                tuple((*above, *road.blocks) for road in others),
            ),
            # Where the road flows on to it, the picture goes, then the table, which can be written elsewhere.
            Side(
                "Read the whole side before leaving.",
                before,
                (_without(before, "picture"), _without(before, "picture", "table")),
            ),
        ),
        wrong_as_soon_as=_wrong(one),
        reasons=(
            *_reasons(one),
            *fullest.reasons,
            *profile_reason(assessment, one.number),
        ),
        figures=tuple(dict.fromkeys([*used, *fullest.figures])),
    )


def _reasons(one: _Day) -> tuple[Reason, ...]:
    named = [(name, one.assessment.known(key)) for name, key in _OF_RIG if one.is_first]
    named += [(name, one.known(kind)) for name, kind in _EXPLAINED]
    return tuple(reason_of(name, one.words.told(figure)) for name, figure in named if figure)


def _above(one: _Day) -> tuple[Block, ...]:
    height = one.words.text(one.height, SIZE)
    return (Big("We stand", height, beside(one.height, SIZE, one.words.style), 32), *_lowest(one))


def _before_leaving(one: _Day) -> tuple[Block, ...]:
    picture = elevation_picture(one.assessment, one.number)
    measured = _measured(one)
    return (
        Heading("Before leaving"),
        *((Line("Height measured", one.words.text(one.height, SIZE), measured),) if measured else ()),
        Line("Driving, breaks not counted", one.text(route.DRIVING), _far(one)),
        *_sun(one),
        *_fuel(one),
        *_gap(one),
        *_wind(one),
        *_night(one),
        *([picture] if picture else []),
        _odometer(one.plan),
        End("Day sheet: complete"),
    )


def _without(blocks: tuple[Block, ...], *kinds: str) -> tuple[Block, ...]:
    return tuple(block for block in blocks if block.kind not in kinds)


def _far(one: _Day) -> str:
    return "; ".join(part for part in (one.text(route.DISTANCE), one.slack(route.DRIVING)) if part)


def _gap(one: _Day) -> tuple[Line, ...]:
    fast = one.assessment.known(_GAP)
    if fast is None:
        return ()
    if fast.value is None:
        return (Line("Following distance", f"{BLANK} s"),)
    speed = procedure_number("gap speed", one.words.style)
    return (Line(f"Following distance, {speed} and up", one.words.value(fast)),)


def _wind(one: _Day) -> tuple[Line, ...]:
    sustained, gusts = (one.assessment.known(key) for key in (_WIND, _GUSTS))
    if sustained is None or gusts is None:
        return ()
    steady, gust = (one.words.text(figure.quantity, SPEED_LIMIT) for figure in (sustained, gusts))
    is_own = sustained.case == gusts.case == "own"
    told = "your own limit" if is_own else "practice, no source: choose your own"
    return (Line("Park if wind is over", f"{steady}, GUSTS {gust}", told),)


def _measured(one: _Day) -> str:
    named = {body.MEASURED_ON: "", body.STATE: "", body.HIGHEST_THING: "highest: "}
    given = {kind: one.words.given(one.assessment.known(_HEIGHT), kind) for kind in named}
    return ", ".join(f"{named[kind]}{told.text}" for kind, told in given.items() if told and told.text)


def _lowest(one: _Day) -> Iterator[Block]:
    """The lowest posted height, large, and which legs post none; a bar where it is too low, by how much."""
    lowest, about = one.quantity(met.LOWEST_OF_DAY), met.MARGIN_OF_DAY.of(one.number)
    if lowest is None:
        yield Big("Lowest clearance", BLANK, "none is posted in the plan: watch every sign")
        return
    unknown = " and ".join(town(one.plan.legs[leg - 1].to.place) for leg in _legs_without_clearance(one))
    is_too_low = any(found.kind is met.TOO_LOW and found.about == about for found in one.assessment.findings)
    over = "" if is_too_low else one.words.value(one.known(met.MARGIN_OF_DAY), "")
    told = (f"{over} over us" if over else "", f"to {unknown}: UNKNOWN" if unknown else "")
    name = "Lowest known clearance" if unknown else "Lowest clearance"
    yield Big(name, one.words.text(lowest, CLEARANCE), "; ".join(part for part in told if part))
    if is_too_low:
        by = one.slack(met.MARGIN_OF_DAY)
        yield Line("Lowest clearance", "TOO LOW", f"{by}; take another road", "", killer=True)


def _legs_without_clearance(one: _Day) -> list[int]:
    """Legs of the day of which a height is not known: the lowest is that of those known."""
    unknown = {met.NO_CLEARANCE, met.NOT_POSTED}
    about = [found.about.subject for found in one.assessment.findings if found.kind in unknown]
    return sorted({int(leg) for day, leg in about if day == one.number})


def _sun(one: _Day) -> Iterator[Line]:
    """From when it is light, and when to leave to arrive with light."""
    latest, risen = one.moment(route.LEAVE_BY), one.moment(route.SUNRISE)
    dark = one.known(route.LEAVE_BY)
    if risen:
        yield Line("Sunrise", one.words.clock(risen))
    if latest and dark:
        yield Line(f"Leave by, to beat {dark.facts['event']}", one.words.clock(latest))


def _light(one: _Day) -> Line:
    sunset, left = one.known(route.SUNSET), one.known(route.DAYLIGHT_LEFT)
    if sunset and isinstance(sunset.value, Phrase):
        return Line("Sun", str(sunset.value.facts["state"]).upper())
    at = one.words.clock(one.moment(route.SUNSET))
    if left is None or left.slack is None:
        return Line("Sunset, to spare", f"{at}, {BLANK} h")
    is_dark = "late" in left.slack.facts
    told = "NONE" if is_dark else one.words.value(left)
    # The line says how much; the detail only what it counts to, where that is not sunset, or how late.
    is_said = not is_dark and left.slack.facts["event"] == "sunset"
    return Line("Sunset, to spare", f"{at}, {told}", "" if is_said else one.words.slack(left), "", is_dark)


def _fuel(one: _Day) -> Iterator[Line]:
    """The next fuel and how far it is, and how far the tank goes on from the day's end."""
    place, far = one.known(route.NEXT_FUEL), one.text(route.NEXT_FUEL_DISTANCE)
    if place is None or place.value is None:
        yield Line("No fuel in the plan", "FILL FIRST", "no stop from here on takes fuel")
    else:
        yield Line(f"Next fuel: {one.words.value(place)}", far, one.words.slack(place))
    over = one.range_left
    if over is not None:
        is_under = over.quantity is not None and over.quantity.magnitude < 0
        told = "UNDER RESERVE" if is_under else f"{one.words.value(over)} TO RESERVE"
        yield Line("Fuel at the day's end", told)


def _night(one: _Day) -> tuple[Block, ...]:
    """The night after a day, below the stop it is spent at."""
    night, freezes = one.plan.night, one.known(route.FREEZES)
    if night is None:
        return ()
    is_nothing = freezes is not None and freezes.value == Phrase(route.NOTHING)
    told = "" if is_nothing else one.words.value(freezes, "")
    high = f" to {one.words.text(night.high, HIGH)}" if night.high is not None else ""
    gate, phone, booking = _to_get_in(one)
    return (
        Line(
            "Tonight: nothing freezes" if is_nothing else "Tonight, low to high",
            f"{one.text(route.NIGHT_LOW)}{high}",
        ),
        *((Step(f"Cold tonight: {told}"),) if told else ()),
        Line("Site's gate", gate) if gate else Blank("Site's gate"),
        Line("Site's phone", phone) if phone else Blank("Site's phone"),
        *((Line("Booking", booking),) if booking else ()),
    )


def _to_get_in(one: _Day) -> tuple[str | None, str | None, str | None]:
    """Gate, phone and booking of the night; what is private stands for what the plan says."""
    night, private = one.plan.night, one.assessment.profile.private
    known = private.nights if private else []
    own = next((entry for entry in known if entry.place == one.plan.legs[-1].to.place), None)
    gate, phone = (night.gate, night.phone) if night else (None, None)
    return (own.gate or gate, own.phone or phone, own.booking) if own else (gate, phone, None)


def _odometer(plan: TravelDay) -> Table:
    """Room for the odometer, which is what the log lives from."""
    fuel = (town(leg.to.place) for leg in plan.legs if leg.to.kind == "fuel")
    headers = ("", "Leaving", *fuel, "Arrived")
    return Table(headers, (("Odometer", *("" for _ in headers[1:])),))


def _wrong(one: _Day) -> str:
    parts, latest = [], one.moment(route.LEAVE_BY)
    if one.height is not None:
        parts.append(f"the rig stands over {one.words.text(one.height, SIZE)}")
    if latest is not None:
        parts.append(f"you leave after {one.words.clock(latest)}")
    if one.quantity(route.NIGHT_LOW) is not None:
        parts.append(f"the forecast is under {one.text(route.NIGHT_LOW)}")
    return ", ".join([*parts, "or the road, a stop or the date changes."])
