"""The back of a day sheet: stops, clearances, limits, grades and tunnels in the order they are met."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace
from datetime import datetime

from binder.assessment.assess import Assessment
from binder.assessment.conditions import holds
from binder.assessment.ledger import Figure, Finding
from binder.assessment.road import kinds as road_kinds
from binder.assessment.road.grades import placed_grades
from binder.assessment.route import kinds as route
from binder.assessment.route.kinds import LEG_ARRIVAL
from binder.assessment.supplies import kinds
from binder.cards.blocks import Block, Heading, Line, Reason
from binder.cards.rig_words import reason_of, words_of
from binder.cards.ring.brakes_and_grades import grade_lines, posted_of
from binder.models.rig import Rig
from binder.models.trip import Clearance, Leg, PostedLimit, Stop, TravelDay, Tunnel
from binder.quantities import registry
from binder.wording.measures import CLEARANCE, RATING, SPEED_LIMIT, TIME_NEEDED, WAY
from binder.wording.numbers import BLANK
from binder.wording.words import Words, begun

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
    detail = "; ".join(part for part in (_kind(stop, plan, words), _expected(levels, words)) if part)
    acted_on = (*_lacking(assessment, where), *_served(stop, must, words))
    lines = (
        Line(stop.place, words.clock(due, plan.leave if plan else None), detail),
        *(replace(line, detail="") if is_short else line for line in acted_on),
    )
    reasons = tuple(reason_of(f"{name}: must", words.told(figure)) for name, figure in must[:1])
    return StopLines(lines, tuple(words.key(figure.key) for figure in shown), reasons)


def _kind(stop: Stop, plan: TravelDay | None, words: Words) -> str:
    stay = f"stay {words.text(stop.stay, TIME_NEEDED)}" if stop.stay is not None else ""
    night = plan.night if plan and stop is plan.legs[-1].to else None
    hookups = _HOOKUPS.get(night.hookups or "", f"hookups {BLANK}") if night else ""
    return ", ".join(part for part in (_KINDS.get(stop.kind or "", ""), stay, hookups) if part)


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
            yield (words if names.count(words) == 1 else f"{owner} {words}"), figure


def _expected(levels: tuple[_Named, ...], words: Words) -> str:
    told = ", ".join(f"{name} {words.value(figure)}" for name, figure in levels)
    return f"gauges should read {told}" if told else ""


def _must(assessment: Assessment, where: _Where) -> Iterator[_Named]:
    """What cannot be left out at a stop: the tank's words, and the figure that says so."""
    for kind in (kinds.WITHOUT_FILLING, kinds.WITHOUT_DUMPING):
        for figure in assessment.ledger.of_kind(kind):
            margin = figure.quantity
            if figure.key.subject[2:] == where and margin is not None and margin.magnitude < 0:
                yield str(figure.key.subject[1]), figure


def _lacking(assessment: Assessment, where: _Where) -> Iterator[Line]:
    """What the plan does not bring as far as here, or what a tank has no room for."""
    told: dict[str, list[tuple[str, Finding]]] = {}
    words = words_of(assessment)
    for found in assessment.ledger.findings:
        kind, subject = found.about
        if found.kind in kinds.AT_A_STOP and subject[2:4] == where:
            name = f"{subject[1]} battery" if kind is kinds.CHARGE.at_stop else f"{subject[1]}"
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
    others = [name for name in stop.fill if name not in fills]
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
    """Blocks of a day's road, the keys of the figures in them, and their reasons."""

    blocks: tuple[Block, ...]
    figures: tuple[str, ...]
    reasons: tuple[Reason, ...] = ()


def roads(assessment: Assessment, number: int, plan: TravelDay) -> tuple[Road, ...]:
    """Set one group for each leg, what is met on it and the stop at its end: the fullest first."""
    return tuple(_Leaf(assessment, number, folds).road(plan) for folds in range(_FOLDS))


@dataclass
class _Leaf:
    """The back of one day while it is written."""

    assessment: Assessment
    number: int
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

    def road(self, plan: TravelDay) -> Road:
        blocks = [block for count, leg in enumerate(plan.legs, start=1) for block in self._leg(count, leg)]
        return Road(tuple(blocks), tuple(self.keys), tuple(self.reasons))

    def _leg(self, count: int, leg: Leg) -> Iterator[Block]:
        keys = [kind.of(self.number, count) for kind in (route.LEG_DISTANCE, route.LEG_DRIVING)]
        self.shown(self.assessment.known(key) for key in keys)
        distance, driving = (self.assessment.quantity(key) for key in keys)
        yield Heading(f"{self.words.text(distance, WAY)}, {self.words.text(driving, TIME_NEEDED)}")
        for line in self._on_the_way(leg, count):
            yield replace(line, detail="") if self.is_short and line.killer else line
        stop: StopLines = stop_lines(self.assessment, self.number, count, leg.to, is_short=self.is_short)
        self.keys += stop.figures
        self.reasons += stop.reasons
        yield from stop.lines

    def _on_the_way(self, leg: Leg, number: int) -> Iterator[Line]:
        clearances = [self._clearance(item, number, at) for at, item in enumerate(leg.clearances, start=1)]
        yield from _folded(leg, clearances) if self.is_folded else clearances
        if not leg.clearances:
            yield Line("Clearances", "UNKNOWN", "read every sign, ask the way")
        yield from (self._limit(number, at, item) for at, item in enumerate(leg.limits, start=1))
        yield from self._grades(number)
        yield from (_tunnel(item, self.assessment.rig, self.words) for item in leg.tunnels)

    def _clearance(self, item: Clearance, leg: int, at: int) -> Line:
        height = self.words.text(item.posted, CLEARANCE)
        is_too_low = any(
            one.kind is road_kinds.TOO_LOW
            and one.about.subject == (self.number,)
            and (one.facts["leg"], one.facts["clearance"]) == (leg, at)
            for one in self.assessment.findings
        )
        if not is_too_low:
            return Line(begun(item.what), height)
        return Line(begun(item.what), f"{height}, TOO LOW", "Take another road", "", killer=True)

    def _limit(self, leg: int, at: int, item: PostedLimit) -> Line:
        keys = [one.margin.of(self.number, leg, at) for one in road_kinds.LIMITS.values()]
        margins = self.shown(self.assessment.known(key) for key in keys)
        over = [
            self.words.slack(figure)
            for figure in margins
            if figure.quantity is not None and figure.quantity.magnitude < 0
        ]
        posted = _posted(item, self.words) or "ASK"
        answer = f"{posted}, TOO LITTLE" if over else posted
        return Line(begun(item.what), answer, ", ".join(over), "", killer=bool(over))

    def _grades(self, leg: int) -> Iterator[Line]:
        for placed in placed_grades(self.assessment.profile):
            if placed.subject[:2] == (self.number, leg):
                figures, grade = grade_lines(placed, self.assessment).figures, placed.grade
                self.shown(figures.values())
                test = grade.test_brakes_at if grade.goes == "down" else None
                speed = self.words.text(grade.posted_truck_speed, SPEED_LIMIT)
                last = f"test brakes: {test}" if test and self.is_folded else "card 10"
                facts = [
                    self.words.slack(figures.get(road_kinds.GRADE_HEIGHT)),
                    f"{speed}: posted for trucks",
                    "" if grade.goes == "up" else last,
                ]
                detail = "; ".join(fact for fact in facts if fact)
                yield Line(begun(grade.what), f"{posted_of(placed, self.words)}, {speed}", detail)
                if test and not self.is_folded:
                    yield Line("Test brakes", test)


def _folded(leg: Leg, lines: list[Line]) -> Iterator[Line]:
    """Keep the lowest clearance of a leg, and those that are not known or too low; count the others."""
    known = [item for item in leg.clearances if item.posted is not None]
    lowest = min(known, key=lambda item: item.posted or registry.Quantity(0, "inch"), default=None)
    for item, line in zip(leg.clearances, lines, strict=True):
        if item is lowest and len(known) > 1:
            yield replace(line, detail=line.detail or f"the lowest of {len(known)} on this leg")
        elif item is lowest or item.posted is None or line.killer:
            yield line


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
