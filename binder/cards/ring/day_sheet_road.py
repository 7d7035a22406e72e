"""The back of a day sheet: stops, clearances, limits, grades and tunnels in the order they are met."""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from binder.assessment.assessment import Assessment
from binder.assessment.conditions import holds
from binder.assessment.road import kinds
from binder.assessment.road.grades import placed_grades
from binder.cards.blocks import Block, Heading, Line, Reason
from binder.cards.display import Display
from binder.cards.figure_values import quantity_of
from binder.cards.ring.day_sheet_stops import StopLines, stop_lines
from binder.cards.ring.grade_lines import grade_lines, points, posted_of
from binder.models.rig import Rig
from binder.models.trip import Clearance, Leg, PostedLimit, TravelDay, Tunnel
from binder.quantities import registry
from binder.wording.sentences import key_text

_ROOM = {"letter": 441.0, "a4": 425.0}
"""Points of the back between its title and its end mark, by the paper the cards go two on."""

_FOLDS = 3
"""Ways to set a road, from the fullest to the shortest."""

_HEADING, _BLANK, _TABLE = 28.0, 27.0, 45.0
"""Points of a heading, of a ruled line, and of the odometer's table."""


@dataclass(frozen=True)
class Road:
    """Blocks of a day's road, the keys of the figures in them, and their reasons.

    One that ``is_too_long`` leaves no room for the table below it.
    """

    blocks: tuple[Block, ...]
    figures: tuple[str, ...]
    reasons: tuple[Reason, ...] = ()
    is_too_long: bool = False


def road_blocks(assessment: Assessment, number: int, plan: TravelDay, below: tuple[Block, ...] = ()) -> Road:
    """Set one group for each leg: what is met on it, then the stop at its end."""
    roads = [_Leaf(assessment, number, folds).road(plan) for folds in range(_FOLDS)]
    bare = [replace(road, is_too_long=True) for road in roads[1:]]
    for road in (*roads[:-1], *bare):
        beside = [block for block in below if not (road.is_too_long and block.kind == "table")]
        if _points((*road.blocks, *beside)) <= _ROOM[assessment.rig.paper]:
            return road
    return bare[-1]


def _points(blocks: tuple[Block, ...]) -> float:
    heights = {"heading": _HEADING, "blank": _BLANK, "table": _TABLE}
    return sum(points(block) if isinstance(block, Line) else heights.get(block.kind, 0.0) for block in blocks)


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
    def display(self) -> Display:
        return Display(self.assessment.rig.units)

    def road(self, plan: TravelDay) -> Road:
        blocks = [block for count, leg in enumerate(plan.legs, start=1) for block in self._leg(count, leg)]
        return Road(tuple(blocks), tuple(self.keys), tuple(self.reasons))

    def _leg(self, count: int, leg: Leg) -> Iterator[Block]:
        start = f"route.day_{self.number}.leg_{count}"
        used = [f"{start}.{key}" for key in ("distance", "driving_time")]
        distance, driving = (self.assessment.known(key) for key in used)
        self.keys += [key for key in used if self.assessment.known(key)]
        miles = self.display.text(quantity_of(distance), "distance", "up")
        yield Heading(f"{miles}, {self.display.duration(quantity_of(driving))}")
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
            yield Line("Clearances", "NONE GIVEN", "watch every sign, ask the way")
        yield from (self._limit(number, at, item) for at, item in enumerate(leg.limits, start=1))
        yield from self._grades(number)
        yield from (_tunnel(item, self.assessment.rig) for item in leg.tunnels)

    def _clearance(self, item: Clearance, leg: int, at: int) -> Line:
        height = self.display.length(item.posted, "down")
        is_too_low = any(
            one.kind is kinds.TOO_LOW
            and one.about.subject == (self.number,)
            and (one.facts["leg"], one.facts["clearance"]) == (leg, at)
            for one in self.assessment.ledger.reported
        )
        if not is_too_low:
            return Line(_first_capital(item.what), height)
        return Line(_first_capital(item.what), f"{height}, TOO LOW", "Take another road", "", killer=True)

    def _limit(self, leg: int, at: int, item: PostedLimit) -> Line:
        posted = _posted(item, self.display) or "ASK"
        keys = [key_text(one.margin.of(self.number, leg, at)) for one in kinds.LIMITS.values()]
        margins = [figure for key in keys if (figure := self.assessment.known(key))]
        self.keys += [figure.key for figure in margins]
        over = [
            figure.slack
            for figure in margins
            if (left := quantity_of(figure)) is not None and left.magnitude < 0
        ]
        answer = f"{posted}, TOO LITTLE" if over else posted
        return Line(_first_capital(item.what), answer, ", ".join(over), "", killer=bool(over))

    def _grades(self, leg: int) -> Iterator[Line]:
        for placed in placed_grades(self.assessment.profile):
            if placed.subject[:2] == (self.number, leg):
                told = grade_lines(placed, self.assessment)
                self.keys += [figure.key for figure in told.figures.values()]
                grade = placed.grade
                speed = self.display.text(grade.posted_truck_speed, "speed", "down")
                height = told.figures["height"].slack if "height" in told.figures else ""
                test = grade.test_brakes_at if grade.goes == "down" else None
                last = f"test brakes: {test}" if test and self.is_folded else "card 10"
                facts = [height, f"posted for trucks {speed}", "" if grade.goes == "up" else last]
                detail = "; ".join(fact for fact in facts if fact)
                yield Line(_first_capital(grade.what), posted_of(placed, self.display), detail)
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


def _posted(limit: PostedLimit, display: Display) -> str:
    """Write everything posted at one place."""
    words = ((limit.width, " wide"), (limit.length, " long"), (limit.ground_clearance, " over the ground"))
    weight = [] if limit.weight is None else [display.text(limit.weight, "weight", "down")]
    sizes = (f"{display.length(size, 'down')}{word}" for size, word in words if size is not None)
    return ", ".join([*weight, *sizes])


def _first_capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _tunnel(item: Tunnel, rig: Rig) -> Line:
    name = _first_capital(item.what)
    if not holds("propane")(rig):
        return Line(name, "TUNNEL")
    if item.propane:
        return Line(name, "TUNNEL", f"propane: {item.propane}")
    return Line(name, "ASK", "propane: ask the operator before")
