"""What decides beside the tires, worked out: coupling, clearance, fuel, days of sitting out, grade."""

from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

from binder.assessment.assess import Assessment
from binder.assessment.coupling import kinds as coupling_kinds
from binder.assessment.ledger import Figure, InputKind, Key
from binder.assessment.road import kinds as road_kinds
from binder.assessment.supplies import kinds as supply_kinds
from binder.assessment.supplies import sitting_out_kinds
from binder.cards.blocks import Block, Heading, Note, Reckoning, Table
from binder.cards.rig_words import words_of
from binder.quantities import Quantity, is_quantity, registry
from binder.wording.measures import (
    CAPACITY,
    INCHES_LEFT,
    INCHES_NEEDED,
    LOAD,
    POWER,
    POWER_NEEDED,
    RANGE,
    RATING,
    SLOPE_POSTED,
    SPEED_POSTED,
)
from binder.wording.numbers import BLANK
from binder.wording.sums import days_told, power_of_weight, range_told, share_number, share_told, summed
from binder.wording.words import Words, begun, style_of

_DAY = registry.Quantity(1.0, "day")
_GRAVITY = registry.Quantity(1.0, "standard_gravity")


def trip_workings(assessment: Assessment) -> Iterator[Block]:
    """Work out what decides beside the tires."""
    told = _Told(assessment, words_of(assessment))
    for coupling in assessment.rig.couplings:
        yield from _coupling(told, coupling.ahead, coupling.behind)
    if assessment.trip is not None:
        yield from _clearance(told)
        yield from _fuel(told)
        yield from _sitting_out(told)
        yield from _grade(told)


class _Told(NamedTuple):
    assessment: Assessment
    words: Words

    def figure(self, key: Key) -> Figure | None:
        return self.assessment.known(key)

    def value(self, key: Key) -> Quantity | None:
        return self.assessment.quantity(key)

    def given(self, key: Key, kind: InputKind) -> Quantity | None:
        """One input of a figure, where it is a quantity that is known."""
        figure = self.figure(key)
        one = figure.given(kind) if figure else None
        return one.value if one and is_quantity(one.value) else None

    def done(
        self,
        parts: Sequence[Quantity | None],
        measure: str,
        form: tuple[str, str],
        redo: Callable[[Sequence[float]], float],
        result: Quantity | None,
    ) -> Block:
        """One line whose numbers come to the result; a blank where one of them is not known."""
        style, unit = style_of(self.assessment), self.words.unit(measure)
        known = [part for part in parts if part is not None]
        is_known = len(known) == len(parts) and result is not None
        texts = summed(known, measure, style, redo) if is_known else (BLANK,) * len(parts)
        told = [f"{text} {unit}" for text in texts]
        start, text = (one.format(*told) for one in form)
        return Reckoning(start, text, f"{self.words.number(result, measure)} {unit}")


def _less(values: Sequence[float]) -> float:
    return values[0] - values[1]


def _coupling(told: _Told, ahead: str, behind: str) -> Iterator[Block]:
    words, key = told.words, coupling_kinds.LIMIT.of(ahead, behind)
    figure = told.figure(key)
    if figure is None:
        return
    yield Heading(f"{begun(ahead)} to {behind}: the weakest part of the coupling")
    rating = told.assessment.rig.vehicles[ahead].label.gross_combination_weight_rating
    rows = []
    for one in figure.inputs:
        limit = one.value if is_quantity(one.value) else None
        if one.facts["part"] == coupling_kinds.ROOM:
            own = None if rating is None or limit is None else rating - limit
            yield Reckoning(
                "",
                f"combination rating {words.text(rating, RATING)} - {words.text(own, LOAD)}, the {ahead} "
                "alone at its heaviest =",
                words.text(limit, RATING),
            )
        rows.append((str(one.facts["part"]), words.number(limit, RATING), BLANK))
    headers = ("part", f"may tow, {words.unit(RATING)}", "yours")
    yield Table(headers, tuple(rows), small=True, caption="The least is the weakest part")
    least, towed = words.text(figure.quantity, RATING), told.figure(coupling_kinds.TOWED.of(ahead, behind))
    margin = told.figure(coupling_kinds.MARGIN.of(ahead, behind))
    yield Reckoning(least, f"- {words.value(towed)}, the {behind} loaded =", words.value(margin))


def _clearance(told: _Told) -> Iterator[Block]:
    key = road_kinds.MARGIN_OF_TRIP.of()
    figure = told.figure(key)
    if figure is None or not figure.inputs:
        return
    yield Heading("The lowest clearance of the trip")
    posted, height = (
        next((one.value for one in figure.inputs if one.kind is kind and is_quantity(one.value)), None)
        for kind in (figure.inputs[0].kind, road_kinds.HEIGHT_INPUT)
    )
    yield Note(f"{begun(told.words.told(figure).inputs[0].name)}: {told.words.rule(figure)}")
    room = ("", "posted {0} - {1}, the rig's height =")
    yield told.done((posted, height), INCHES_LEFT, room, _less, figure.quantity)
    wanted = told.given(road_kinds.CLEARANCE_NEEDED.of(), road_kinds.MARGIN_WANTED)
    needed = told.value(road_kinds.CLEARANCE_NEEDED.of())
    yield told.done((height, wanted), INCHES_NEEDED, ("{0}", "+ {1} wanted over it ="), sum, needed)


def _fuel(told: _Told) -> Iterator[Block]:
    words, kind = told.words, supply_kinds.RANGE_LEFT.at_stop
    moments = [figure for figure in told.assessment.ledger.of_kind(kind) if figure.quantity is not None]
    if not moments:
        if any(told.assessment.ledger.of_kind(kind)):
            yield Heading("The worst leg for fuel")
            text = "fuel there - reserve, for its use: one of them is not known ="
            yield Reckoning("", text, words.text(None, RANGE))
        return
    worst = min(moments, key=lambda figure: figure.quantity or _DAY)
    vehicle, tank, day, stop, end = worst.key.subject
    yield Heading(f"The worst leg for fuel: {tank}, day {day}")
    level = told.figure(supply_kinds.LEVEL.at_stop.of(*worst.key.subject))
    reserve = told.value(supply_kinds.RESERVE.of(str(vehicle), str(tank)))
    held, left = level.quantity if level else None, worst.quantity
    if held is None or reserve is None or left is None:
        return
    days = told.assessment.trip.days if told.assessment.trip else []
    place = days[int(day) - 1].legs[int(stop) - 1].to.place
    yield Note(f"{begun(str(end))} {place}; what is there is {words.rule(level)}.")
    unit, way = words.unit(CAPACITY), words.unit(RANGE)
    there, kept, far = range_told(held, reserve, left, style_of(told.assessment))
    text = f"{there} {unit} there - {kept} {unit} reserve, × {far} {way} on each {unit} ="
    yield Reckoning("", text, words.text(left, RANGE))


def _sitting_out(told: _Told) -> Iterator[Block]:
    words, ends = told.words, sitting_out_kinds.LEAST.ends
    days = told.figure(ends.days.of())
    place = told.figure(sitting_out_kinds.LEAST_PLACE.of())
    if days is None or place is None:
        return
    yield Heading(f"Days of sitting it out: {words.value(place)}")
    rows = [
        (str(figure.key.subject[0]), *_there(told, figure.key), words.value(figure), BLANK)
        for figure in told.assessment.ledger.of_kind(sitting_out_kinds.LEAST.days_of)
    ]
    headers = ("what", "there, or room", "÷ a day", "lasts", "yours")
    yield Table(headers, tuple(rows), small=True, caption="What ends first")
    yield from map(Note, words.cautions(days))
    first = told.figure(ends.binding.of())
    yield Reckoning("", f"the least, {words.value(first)} =", words.value(days))


def _there(told: _Told, key: Key) -> tuple[str, ...]:
    """What there is of a resource, or its room, and what goes of it a day."""
    kinds, trip = sitting_out_kinds, told.assessment.trip
    style = style_of(told.assessment)
    for held, use in ((kinds.HELD, kinds.USED_A_DAY), (kinds.ROOM, kinds.FLOWS_IN_A_DAY)):
        there, a_day = told.given(key, held), told.given(key, use)
        if there is not None and a_day is not None:
            return days_told(there, a_day, "volume", style)
    charge, current = told.given(key, kinds.USABLE), trip.use.battery if trip else None
    if charge is not None and current is not None:
        return days_told(charge, current * _DAY, "charge", style)
    return ("-", "-")


def _grade(told: _Told) -> Iterator[Block]:
    words = told.words
    every = tuple(told.assessment.ledger.of_kind(road_kinds.HOLDING_POWER))
    worst = max(
        (one for one in every if one.quantity is not None),
        key=lambda figure: figure.quantity or _DAY,
        default=None,
    )
    if worst is None:
        if every:
            yield Heading("The worst grade")
            text = "weight × slope × posted speed, less drag: one of them is not known ="
            yield Reckoning("", text, words.text(None, POWER_NEEDED))
        return
    day, leg, grade = map(int, worst.key.subject)
    trip = told.assessment.trip
    what = trip.days[day - 1].legs[leg - 1].grades[grade - 1].what if trip else ""
    yield Heading(f"The worst grade: day {day}, {what}")
    yield from _held_on_grade(told, worst)


def _held_on_grade(told: _Told, worst: Figure) -> Iterator[Block]:
    words, subject = told.words, worst.key.subject
    gravity, drag = (told.value(kind.of(*subject)) for kind in (road_kinds.GRAVITY_POWER, road_kinds.DRAG))
    key = road_kinds.GRAVITY_POWER.of(*subject)
    of = (road_kinds.HEAVIEST, road_kinds.GRADE_SLOPE, road_kinds.POSTED_SPEED)
    weight, slope, speed = (told.given(key, kind) for kind in of)
    if gravity is None or drag is None or weight is None or slope is None or speed is None:
        return
    sine = float((gravity / (weight * _GRAVITY * speed)).to("").m)
    divisor = share_number(power_of_weight(style_of(told.assessment)), 2)
    along = share_number(sine, 5)
    yield Note(
        f"{words.text(slope, SLOPE_POSTED)} on the sign is {along} along the road; {divisor} turns "
        f"{words.unit(LOAD)} times {words.unit(SPEED_POSTED)} into kW. Drag, the least of trucks, is not "
        "worked out here."
    )
    texts = summed((gravity, drag), POWER_NEEDED, style_of(told.assessment), _less)
    first, resisted = (f"{text} {words.unit(POWER_NEEDED)}" for text in texts)
    text = f"{words.text(weight, LOAD)} × {along} × {words.text(speed, SPEED_POSTED)} ÷ {divisor} ="
    yield Reckoning("", text, first)
    yield Reckoning(first, f"- {resisted} of air and tires =", words.value(worst))
    margin, unknown = told.figure(road_kinds.RETARDER_MARGIN.of(*subject)), words.text(None, POWER)
    given = told.given(road_kinds.RETARDER_MARGIN.of(*subject), road_kinds.RETARDER)
    retarder = words.text(given, POWER)
    yield Reckoning("", f"{retarder} of the retarder - {words.value(worst)} =", words.value(margin, unknown))
    share = told.figure(road_kinds.RETARDER_SHARE.of(*subject))
    if given is not None and worst.quantity is not None and share is not None and share.quantity:
        held, whole = share_told(worst.quantity, given, POWER_NEEDED, style_of(told.assessment))
        yield Reckoning("", f"held more finely, {held} ÷ {whole} of the retarder × 100 =", words.value(share))
