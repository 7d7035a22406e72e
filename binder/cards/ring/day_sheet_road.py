"""The road of a day sheet: stops, breaks, clearances, limits, grades and tunnels in driving order."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace
from datetime import datetime

from binder.assessment.assess import Assessment
from binder.assessment.conditions import holds
from binder.assessment.ledger import Figure, Finding
from binder.assessment.road import kinds as road_kinds
from binder.assessment.road.grades import placed_grades
from binder.assessment.road.order import LegInOrder, Met, legs_in_order
from binder.assessment.route import kinds as route
from binder.assessment.route.days import TripDay
from binder.assessment.route.kinds import LEG_ARRIVAL
from binder.assessment.supplies import kinds
from binder.cards.blocks import Line, Reason, RoadLine, RoadMark
from binder.cards.pages.supplies_along_trip import logged_rate
from binder.cards.rig_words import on_cap, reason_of, words_of
from binder.cards.ring.brakes_and_grades import grade_lines, held_line, posted_of
from binder.models.rig import Rig
from binder.models.trip import Clearance, Leg, PostedLimit, Stop, TravelDay, Tunnel
from binder.quantities import Quantity, registry
from binder.wording.measures import CLEARANCE, RATING, SPEED_LIMIT, TIME_NEEDED, WAY
from binder.wording.numbers import BLANK
from binder.wording.words import Words, begun, town

_KINDS = {"fuel": "fuel", "rest": "rest", "site": "site for the night"}
_HOOKUPS = {"none": "no hookups", "electric": "electric hookups", "full": "full hookups"}


@dataclass(frozen=True)
class StopLines:
    """Lines of one stop, the keys of their figures, and why a stop must be used."""

    lines: tuple[Line, ...]
    figures: tuple[str, ...]
    reasons: tuple[Reason, ...]


def stop_lines(
    assessment: Assessment, number: int, count: int, stop: Stop, *, is_short: bool = False
) -> StopLines:
    """Word one stop."""
    arrival, words = assessment.known(LEG_ARRIVAL.of(number, count)), words_of(assessment)
    due = arrival.value if arrival and isinstance(arrival.value, datetime) else None
    plan, where = assessment.trip.days[number - 1] if assessment.trip else None, (number, count)
    levels = tuple(_levels(assessment, where))[: 1 if is_short else None]
    must = tuple(_must(assessment, where))
    shown = (*([arrival] if arrival else []), *(figure for _, figure in (*levels, *must)))
    detail = "; ".join(part for part in (_kind(stop, plan), _expected(assessment, where, levels)) if part)
    acted_on = (*_lacking(assessment, where), *_served(stop, must, words))
    stay = f" · {words.text(stop.stay, TIME_NEEDED)}" if stop.stay is not None else ""
    lines = (
        Line(town(stop.place), f"{words.clock(due, plan.leave if plan else None)}{stay}", detail),
        *(replace(line, detail="") if is_short else line for line in acted_on),
    )
    reasons = tuple(reason_of(f"{name}: must", words.told(figure)) for name, figure in must[:1])
    return StopLines(lines, tuple(words.key(figure.key) for figure in shown), reasons)


def _kind(stop: Stop, plan: TravelDay | None) -> str:
    night = plan.night if plan and stop is plan.legs[-1].to else None
    hookups = _HOOKUPS.get(night.hookups or "", f"hookups {BLANK}") if night else ""
    return ", ".join(part for part in (_KINDS.get(stop.kind or "", ""), hookups) if part)


_Named = tuple[str, Figure]
"""A figure with the words its tank is told by."""
_Where = tuple[int, int]


def _levels(assessment: Assessment, where: _Where) -> Iterator[_Named]:
    """Each tank whose level on reaching a stop is known."""
    every = [
        (owner, words, tank)
        for owner, vehicle in assessment.rig.vehicles.items()
        for words, tank in vehicle.tanks.items()
    ]
    names = [words for _, words, _ in every]
    for owner, words, tank in every:
        figure = assessment.known(kinds.level_of(tank.holds).of((owner, words), *where, "arriving"))
        if figure is not None and figure.quantity is not None:
            told = on_cap(words)
            yield (told if names.count(words) == 1 else f"{owner} {told}"), figure


def _expected(assessment: Assessment, where: _Where, levels: tuple[_Named, ...]) -> str:
    """What each gauge should read, and how far fuel goes from there."""
    words, told = words_of(assessment), []
    for name, figure in levels:
        owner, tank, *_ = map(str, figure.key.subject)
        far = words.value(assessment.known(kinds.RANGE_LEFT.of((owner, tank), *where, "arriving")), "")
        beside = f"{far} to the reserve" if far else ""
        if where[1] == 1 and (rate := logged_rate(assessment, (owner, tank))):
            beside += f"{' at ' if far else ''}{words.value(rate)}, {words.slack(rate)}"
        told.append(f"{name} {words.value(figure)}" + (f" ({beside})" if beside else ""))
    return f"gauges should read {', '.join(told)}" if told else ""


def _must(assessment: Assessment, where: _Where) -> Iterator[_Named]:
    """What cannot be left out at a stop: the tank's words, and the figure that says so."""
    for kind in (kinds.WITHOUT_FILLING, kinds.WITHOUT_DUMPING):
        for figure in assessment.ledger.of_kind(kind):
            margin = figure.quantity
            if figure.key.subject[2:] == where and margin is not None and margin.magnitude < 0:
                yield on_cap(str(figure.key.subject[1])), figure


def _lacking(assessment: Assessment, where: _Where) -> Iterator[Line]:
    """What the plan does not bring as far as here, or what a tank has no room for."""
    told: dict[str, list[tuple[str, Finding]]] = {}
    words = words_of(assessment)
    for found in assessment.ledger.findings:
        kind, subject = found.about
        if found.kind in kinds.AT_A_STOP and subject[2:4] == where:
            name = f"{subject[1]} battery" if kind is kinds.CHARGE.at_stop else on_cap(f"{subject[1]}")
            challenge = "TOO FULL" if kind is kinds.WASTE_LEVEL.at_stop else "NOT ENOUGH"
            told.setdefault(challenge, []).append((name.upper(), found))
    for challenge, each in told.items():
        # The day's number and place stand on the card already.
        said = [words.found(found) for _, found in each]
        detail = " ".join([*(begun(one.brief) for one in said), said[0].helps])
        yield Line(challenge, ", ".join(name for name, _ in each), detail, "", killer=True)


def _served(stop: Stop, must: tuple[_Named, ...], words: Words) -> Iterator[Line]:
    """What is filled and dumped; a bar and the words where the next leg does not work without."""
    fills = {name: figure for name, figure in must if figure.kind is kinds.WITHOUT_FILLING}
    if fills:
        whose = {name: f"{name} " if len(fills) > 1 else "" for name in fills}
        why = "; ".join(f"{whose[name]}{words.slack(figure)}" for name, figure in fills.items())
        yield Line("MUST FILL", ", ".join(fills).upper(), why, "", killer=True)
    others = [name for name in map(on_cap, stop.fill) if name not in fills]
    if others:
        yield Line("Fill", ", ".join(others).upper())
    dumps = [figure for _, figure in must if figure.kind is kinds.WITHOUT_DUMPING]
    if dumps:
        yield Line("MUST DUMP", "BLACK, THEN GRAY", words.slack(dumps[0]), "", killer=True)
    elif stop.dump:
        yield Line("Dump", "BLACK, THEN GRAY")


_FOLDS = 3
"""Ways to set a road, from the fullest to the shortest."""


@dataclass(frozen=True)
class Road:
    """Lines of a day's road, the keys of the figures in them, and their reasons."""

    blocks: tuple[RoadLine, ...]
    figures: tuple[str, ...]
    reasons: tuple[Reason, ...] = ()


def roads(assessment: Assessment, day: TripDay, sunset: Line) -> tuple[Road, ...]:
    """Set a day's road in driving order from its start to its end: the fullest first.

    ``sunset`` stands before the last stop, which is to be reached by then.
    """
    return tuple(_Strip(assessment, day, folds).road(sunset) for folds in range(_FOLDS))


@dataclass
class _Strip:
    """The road of one day while it is written."""

    assessment: Assessment
    day: TripDay
    folds: int
    keys: list[str] = field(default_factory=list)
    reasons: list[Reason] = field(default_factory=list)

    @property
    def is_folded(self) -> bool:
        return self.folds > 0

    @property
    def is_short(self) -> bool:
        return self.folds == _FOLDS - 1

    @property
    def words(self) -> Words:
        return words_of(self.assessment)

    def shown(self, figures: Iterable[Figure | None]) -> list[Figure]:
        """Those that are there; the card names them."""
        known = [figure for figure in figures if figure]
        self.keys += [self.words.key(figure.key) for figure in known]
        return known

    def road(self, sunset: Line) -> Road:
        legs = tuple(legs_in_order(self.day, self.assessment.ledger))
        lines = [line for leg in legs for line in self._leg(leg, sunset, is_last=leg is legs[-1])]
        return Road((self._start(), *lines), tuple(self.keys), tuple(self.reasons))

    def at(self, along: Quantity | None, line: Line, mark: RoadMark = "road") -> RoadLine:
        """Set a line where it is on the road; a blank for where it is not known."""
        parts = (line.challenge, line.answer, line.detail, line.consequence, line.killer)
        far = None if along is None else self.words.drawn(along, WAY)
        mile = BLANK if along is None else self.words.text(along, WAY)
        return RoadLine(*parts, mile=mile, mark=mark, along=far)

    def below(self, line: Line, mark: RoadMark = "road") -> RoadLine:
        """Set a line that belongs to the one above it."""
        return replace(self.at(None, line, mark), mile="")

    def _start(self) -> RoadLine:
        left = self.assessment.known(route.DEPARTURE.of(self.day.number))
        at = left.value if left and isinstance(left.value, datetime) else None
        name = town(self.day.start.place) if self.day.start else "Start"
        return self.at(registry.Quantity(0.0, "mile"), Line(name, f"LEAVE {self.words.clock(at)}"), "start")

    def _leg(self, one: LegInOrder, sunset: Line, *, is_last: bool) -> Iterator[RoadLine]:
        key = route.LEG_DRIVING.of(self.day.number, one.number)
        self.shown([self.assessment.known(key)])
        driving = self.words.text(self.assessment.quantity(key), TIME_NEEDED)
        yield self.below(Line(f"Drive {one.leg.road}" if one.leg.road else "Drive", driving))
        if not one.leg.clearances:
            yield self.at(one.start, Line("Clearances", "UNKNOWN", "read every sign, ask the way"), "point")
        kept = _kept(one.leg, self._clearances(one)) if self.is_folded else self._clearances(one)
        for met in one.met:
            if met.what != "clearance":
                yield from self._met(one, met)
            elif met.number in kept:
                yield self.at(met.along, self.short(kept[met.number]), "point")
        if is_last:
            yield self.below(sunset, "before")
        where = (self.day.number, one.number)
        stop = stop_lines(self.assessment, *where, one.leg.to, is_short=self.is_short)
        self.keys += stop.figures
        self.reasons += stop.reasons
        first, *others = stop.lines
        yield self.at(one.end, first, "end" if is_last else "stop")
        yield from (self.below(line, "off" if is_last else "road") for line in others)

    def short(self, line: Line) -> Line:
        """What forbids says nothing more where there is little room."""
        return replace(line, detail="") if self.is_short and line.killer else line

    def _met(self, one: LegInOrder, met: Met) -> Iterator[RoadLine]:
        if met.what == "grade":
            yield from self._grade(one, met)
            return
        leg, at = one.leg, met.number
        if met.what == "break":
            figure = self.assessment.known(route.BREAK_AT.of(self.day.number, one.number, at))
            self.shown([figure])
            line = Line("Break", self.words.slack(figure))
        elif met.what == "limit":
            line = self._limit(one.number, at, leg.limits[at - 1])
        else:
            line = _tunnel(leg.tunnels[at - 1], self.assessment.rig, self.words)
        yield self.at(met.along, self.short(line), "point")

    def _clearances(self, one: LegInOrder) -> dict[int, Line]:
        return {at: self._clearance(item, one.number, at) for at, item in enumerate(one.leg.clearances, 1)}

    def _clearance(self, item: Clearance, leg: int, at: int) -> Line:
        height = self.words.text(item.posted, CLEARANCE)
        is_too_low = any(
            one.kind is road_kinds.TOO_LOW
            and one.about.subject == (self.day.number,)
            and (one.facts["leg"], one.facts["clearance"]) == (leg, at)
            for one in self.assessment.findings
        )
        if not is_too_low:
            return Line(begun(item.what), height)
        return Line(begun(item.what), f"{height}, TOO LOW", "Take another road", "", killer=True)

    def _limit(self, leg: int, at: int, item: PostedLimit) -> Line:
        keys = [one.margin.of(self.day.number, leg, at) for one in road_kinds.LIMITS.values()]
        margins = self.shown(self.assessment.known(key) for key in keys)
        over = [
            self.words.slack(figure)
            for figure in margins
            if figure.quantity is not None and figure.quantity.magnitude < 0
        ]
        posted = _posted(item, self.words) or "ASK"
        answer = f"{posted}, TOO LITTLE" if over else posted
        return Line(begun(item.what), answer, ", ".join(over), "", killer=bool(over))

    def _grade(self, one: LegInOrder, met: Met) -> Iterator[RoadLine]:
        """A grade down with all that comes before its top: the brake test, then the gear."""
        subject = (self.day.number, one.number, met.number)
        placed = next(each for each in placed_grades(self.assessment.profile) if each.subject == subject)
        figures, grade = grade_lines(placed, self.assessment).figures, placed.grade
        self.shown(figures.values())
        speed = self.words.text(grade.posted_truck_speed, SPEED_LIMIT)
        name = Line(begun(grade.what), f"{posted_of(placed, self.words)} {grade.goes}, {speed}")
        height = self.words.slack(figures.get(road_kinds.GRADE_HEIGHT))
        name = replace(name, detail="; ".join(part for part in (height, "card 10") if part))
        if grade.goes == "up":
            yield self.at(met.along, name, "grade")
            return
        yield self.below(Line("Test brakes", grade.test_brakes_at or BLANK), "before")
        yield self.below(Line("Downshift", "BEFORE THE TOP"), "before")
        yield self.at(met.along, name, "grade")
        # Where something else is met on the way down, the foot lies beyond it: no place is said for it then.
        end = None if met.end is None or _is_met_before(met.end, met, one) else met.end
        foot = self.at(end, held_line(placed, figures, self.words), "grade")
        yield foot if end is not None else replace(foot, mile="")


def _is_met_before(end: Quantity, grade: Met, leg: LegInOrder) -> bool:
    """Tell whether something of a leg comes after a grade's top and before its end."""
    following = leg.met[leg.met.index(grade) + 1 :]
    return any(met.along is not None and met.along < end for met in following)


def _kept(leg: Leg, lines: dict[int, Line]) -> dict[int, Line]:
    """Keep the lowest clearance of a leg, and those that are not known or too low; count the others."""
    known = [item for item in leg.clearances if item.posted is not None]
    lowest = min(known, key=lambda item: item.posted or registry.Quantity(0, "inch"), default=None)
    kept = {}
    for (at, line), item in zip(lines.items(), leg.clearances, strict=True):
        if item is lowest and len(known) > 1:
            kept[at] = replace(line, detail=line.detail or f"the lowest of {len(known)} on this leg")
        elif item is lowest or item.posted is None or line.killer:
            kept[at] = line
    return kept


def _posted(limit: PostedLimit, words: Words) -> str:
    """Write everything posted at one place."""
    sizes = ((limit.width, "wide"), (limit.length, "long"), (limit.ground_clearance, "over the ground"))
    weight = [] if limit.weight is None else [words.text(limit.weight, RATING)]
    said = (f"{words.text(size, CLEARANCE)} {which}" for size, which in sizes if size is not None)
    return ", ".join([*weight, *said])


def _tunnel(item: Tunnel, rig: Rig, words: Words) -> Line:
    name = begun(item.what)
    if not holds("propane")(rig):
        return Line(name, "TUNNEL")
    most = words.text(item.largest_cylinder, RATING) if item.largest_cylinder is not None else ""
    told = [*([item.propane] if item.propane else []), *([f"cylinders to {most} each"] if most else [])]
    if told:
        return Line(name, "TUNNEL", f"propane: {', '.join(told)}")
    return Line(name, "ASK", "propane: ask the operator before")
