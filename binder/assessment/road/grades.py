"""A day's road from the side: its stops, and the grades whose place is given, by distance and elevation.

Between two of them nothing is known of the road: it may climb higher and fall lower.
"""

from collections.abc import Iterator
from typing import NamedTuple

from binder.assessment.ledger import Fact, Figure, Finding, Input, Ledger, Phrase, Place, room_or_over
from binder.assessment.road import kinds
from binder.assessment.route.days import TripDay, trip_days
from binder.assessment.weights.kinds import COMBINATION
from binder.calculations.route.grades import (
    HoldingPower,
    Motion,
    RoadLoad,
    air_density,
    grade_energy,
    grade_height,
    holding_power,
    least_road_load,
    retarder_margin,
    retarder_share,
    time_on_grade,
)
from binder.models.load import Profile
from binder.models.rig import Rig
from binder.models.trip import Grade, Leg
from binder.quantities import Quantity, registry
from binder.reference.constants import RETARDER_USED_ATTENTION


class RoadPoint(NamedTuple):
    """A place on the day's road: ``along`` from its start; ``stop`` its name, empty at a grade's ends."""

    along: Quantity
    elevation: Quantity
    stop: str = ""


class RoadGrade(NamedTuple):
    """A grade on the day's road; those the plan does not place are spread over their leg, as points."""

    start: Quantity
    end: Quantity
    grade: Grade
    is_placed: bool


class DayProfile(NamedTuple):
    """Points in the order they are met, and the grades."""

    points: tuple[RoadPoint, ...]
    grades: tuple[RoadGrade, ...]


def day_profile(day: TripDay) -> DayProfile | None:
    """Set out a day's road from the side."""
    if day.start is None or day.start.elevation is None:
        return None
    along = registry.Quantity(0.0, "mile")
    points, grades = [RoadPoint(along, day.start.elevation, day.start.place)], list[RoadGrade]()
    for leg in day.plan.legs:
        if leg.distance is None or leg.to.elevation is None:
            return None
        for share, grade in enumerate(leg.grades, start=1):
            placed = _placed(grade, leg, along)
            middle = along + leg.distance * share / (len(leg.grades) + 1)
            grades.append(placed or RoadGrade(middle, middle, grade, is_placed=False))
            points += _ends(placed) if placed else ()
        along = along + leg.distance.to("mile")
        points.append(RoadPoint(along, leg.to.elevation, leg.to.place))
    in_order = sorted(points, key=lambda point: float(point.along.to("mile").m))
    return DayProfile(tuple(in_order), tuple(grades))


def _placed(grade: Grade, leg: Leg, along: Quantity) -> RoadGrade | None:
    if grade.begins_after is None or grade.top is None or grade.length is None or grade.slope is None:
        return None
    if leg.distance is None or grade.begins_after + grade.length > leg.distance:
        return None
    start = along + grade.begins_after
    return RoadGrade(start, start + grade.length, grade, is_placed=True)


def _ends(placed: RoadGrade) -> Iterator[RoadPoint]:
    grade = placed.grade
    if grade.top is None or grade.length is None or grade.slope is None:
        return
    foot = grade.top - grade_height(grade.length, grade.slope)
    first, last = (grade.top, foot) if grade.goes == "down" else (foot, grade.top)
    yield RoadPoint(placed.start, first)
    yield RoadPoint(placed.end, last)


_WEIGHT = COMBINATION.heaviest.of()
_TRUCK = (registry.Quantity(102.0, "inch"), registry.Quantity(162.0, "inch"))
"""Width (23 CFR 658.15) and height (practice) of the trucks whose road load is published."""
_TOP = registry.Quantity(11.0, "kilometer")  # USSA1976: where its lowest layer ends.
_HIGHEST_ROAD = registry.Quantity(14130.0, "foot")
"""The highest paved road of North America (from memory): air is no thinner where no top is given."""
_NO_AIR = registry.Quantity(0.0, "kilogram/meter**3")


class PlacedGrade(NamedTuple):
    """One grade of the plan; the subject of its figures is the day, the leg and its place among the leg's."""

    subject: tuple[int, int, int]
    grade: Grade
    origin: Phrase
    crest: Quantity | None

    @property
    def day(self) -> int:
        """The day it is met on."""
        return self.subject[0]


class _Rig(NamedTuple):
    """What of the rig every grade is judged by; ``front`` is a share of a truck's."""

    weight: Quantity | None
    retarder: Quantity | None
    front: float | None
    vehicle: str


def placed_grades(profile: Profile) -> tuple[PlacedGrade, ...]:
    """Every grade of the trip in the order it is met."""
    return tuple(one for day in trip_days(profile) for one in _of_day(day))


def _of_day(day: TripDay) -> Iterator[PlacedGrade]:
    for number, leg, origin in day.legs():
        for count, grade in enumerate(leg.grades, start=1):
            top = _HIGHEST_ROAD if grade.top is None else grade.top
            named = Phrase(kinds.OF_GRADE, {**origin.facts, "what": grade.what})
            yield PlacedGrade((day.number, number, count), grade, named, top if top < _TOP else None)


def _height(grade: Grade) -> Quantity | None:
    if grade.length is None or grade.slope is None:
        return None
    return grade_height(grade.length, grade.slope).to("foot")


def find_unmeasured_grades(day: TripDay, ledger: Ledger) -> None:
    """Find the grades whose sign the plan does not give whole."""
    for number, leg, _ in day.legs():
        for count, grade in enumerate(leg.grades, start=1):
            parts = (
                (kinds.ITS_LENGTH, grade.length),
                (kinds.ITS_SLOPE, grade.slope),
                (kinds.ITS_SPEED, grade.posted_truck_speed),
            )
            lacking = tuple(words for words, value in parts if value is None)
            if lacking:
                facts: dict[str, Fact] = {"grade": count, "what": grade.what, "lacking": lacking}
                about = kinds.GRADE_LACKS.of(day.number, number)
                ledger.find(Finding(kinds.GRADE_LACKS, about, facts))


def assess_grades(profile: Profile, ledger: Ledger) -> None:
    """Enter what each long grade asks of this weight, and find where the retarder does not suffice."""
    driven, vehicle = next(iter(profile.rig.vehicles.items()))
    retarder = vehicle.brakes.retarder if vehicle.brakes else None
    rig = _Rig(ledger.quantity(_WEIGHT), retarder, _front(profile.rig), driven)
    grades = placed_grades(profile)
    down = [placed for placed in grades if placed.grade.goes == "down"]
    if down and retarder is None:
        # One finding for all grades: one number is to be asked for.
        named = tuple(
            Phrase(kinds.GRADE_NAMED, {"day": placed.day, "what": placed.grade.what}) for placed in down
        )
        about = kinds.RETARDER_MARGIN.of(*down[0].subject)
        ledger.find(Finding(kinds.NO_RETARDER, about, {"vehicle": driven, "grades": named}))
    for placed in grades:
        _enter_size(placed, rig, ledger)
        if placed.grade.goes == "down":
            held = _held(placed, rig)
            _enter_power(placed, held, rig, ledger)
            _find_weakness(placed, held, rig, ledger)


def _held(placed: PlacedGrade, rig: _Rig) -> HoldingPower | None:
    grade = placed.grade
    if rig.weight is None or grade.slope is None or grade.posted_truck_speed is None:
        return None
    air = _NO_AIR if placed.crest is None or rig.front is None else air_density(placed.crest)
    least = least_road_load()
    load = RoadLoad(least.drag_area * (rig.front or 0.0), least.rolling)
    return holding_power(Motion(rig.weight, grade.posted_truck_speed, air), grade.slope, load)


def _front(rig: Rig) -> float | None:
    """Largest front of the rig as a share of a truck's, not over all of it; None where none is known."""
    sizes = [vehicle.size for vehicle in rig.vehicles.values()]
    fronts = [
        float((size.overall_width * size.overall_height / (_TRUCK[0] * _TRUCK[1])).to("").m)
        for size in sizes
        if size.overall_width is not None and size.overall_height is not None
    ]
    return min(1.0, max(fronts)) if fronts else None


def _posted(placed: PlacedGrade) -> tuple[Input, Input]:
    length, slope = placed.grade.length, placed.grade.slope
    return (Input(kinds.GRADE_LENGTH, length, placed.origin), Input(kinds.GRADE_SLOPE, slope, placed.origin))


def _weighed(rig: _Rig) -> Input:
    return Input(kinds.HEAVIEST, rig.weight, _WEIGHT)


def _enter_size(placed: PlacedGrade, rig: _Rig, ledger: Ledger) -> None:
    grade, posted, height = placed.grade, _posted(placed), _height(placed.grade)
    climb = None if height is None else Phrase(kinds.CLIMB, {"goes": grade.goes})
    ledger.enter(Figure(kinds.GRADE_HEIGHT.of(*placed.subject), height, posted, slack=climb))
    speed, lasts = grade.posted_truck_speed, None
    if grade.length is not None and speed is not None and speed.magnitude > 0:
        minutes = float(time_on_grade(grade.length, speed).to("minute").m)
        lasts = Phrase(kinds.LASTS, {"minutes": minutes})
    energy = None if rig.weight is None or height is None else grade_energy(rig.weight, height)
    key = kinds.GRADE_ENERGY.of(*placed.subject)
    ledger.enter(Figure(key, energy, (_weighed(rig), *posted), grade.goes, slack=lasts))


def _enter_power(placed: PlacedGrade, held: HoldingPower | None, rig: _Rig, ledger: Ledger) -> None:
    gravity, drag, left = (held.gravity, held.air + held.rolling, held.left) if held else (None, None, None)
    of = (kinds.GRAVITY_POWER, kinds.DRAG, kinds.HOLDING_POWER, kinds.RETARDER_MARGIN)
    gravity_key, drag_key, left_key, margin_key = (kind.of(*placed.subject) for kind in of)
    posted = Input(kinds.POSTED_SPEED, placed.grade.posted_truck_speed, placed.origin)
    inputs = (_weighed(rig), _posted(placed)[1], posted)
    ledger.enter(Figure(gravity_key, gravity, inputs))
    case = "airless" if placed.crest is None or rig.front is None else ""
    sizes: dict[str, Fact] = {"wide": _TRUCK[0], "high": _TRUCK[1]}
    ledger.enter(Figure(drag_key, drag, (*inputs, *_crest(placed)), case, sizes))
    parts = (Input(kinds.GRAVITY, gravity, gravity_key), Input(kinds.DRAG_INPUT, drag, drag_key))
    ledger.enter(Figure(left_key, left, parts))
    margin = None if held is None or rig.retarder is None else retarder_margin(held, rig.retarder)
    share, has_none = None, rig.retarder is not None and rig.retarder.magnitude <= 0
    if held is not None and rig.retarder is not None and not has_none:
        share = retarder_share(held, rig.retarder)
    place = Place("rig.yaml", ("vehicles", rig.vehicle, "brakes", "retarder"))
    own = (Input(kinds.RETARDER, rig.retarder, place), Input(kinds.TO_BE_HELD, left, left_key))
    ledger.enter(
        Figure(margin_key, margin, own, slack=room_or_over(margin, kinds.POWER_SPARE, kinds.POWER_LACKING))
    )
    ledger.enter(Figure(kinds.RETARDER_SHARE.of(*placed.subject), share, own, "none" if has_none else ""))


def _crest(placed: PlacedGrade) -> tuple[Input, ...]:
    if placed.crest is None:
        return ()
    if placed.grade.top is not None:
        return (Input(kinds.CREST, placed.crest, placed.origin),)
    return (Input(kinds.CREST_TAKEN, placed.crest),)


def _find_weakness(placed: PlacedGrade, held: HoldingPower | None, rig: _Rig, ledger: Ledger) -> None:
    grade, retarder, key = placed.grade, rig.retarder, kinds.RETARDER_MARGIN.of(*placed.subject)
    if held is None:
        if grade.slope is not None and grade.posted_truck_speed is not None:
            ledger.find(Finding(kinds.NO_WEIGHT, key, {"what": grade.what}))
    elif retarder is not None and retarder_margin(held, retarder).magnitude < 0:
        facts = {"what": grade.what, "speed": grade.posted_truck_speed, "need": held.left}
        case = "" if retarder.magnitude > 0 else "none"
        ledger.find(Finding(kinds.RETARDER_WEAK, key, {**facts, "retarder": retarder}, case))
    elif retarder is not None and retarder.magnitude > 0:
        share = retarder_share(held, retarder)
        if share > RETARDER_USED_ATTENTION.quantity:
            facts = {"what": grade.what, "speed": grade.posted_truck_speed, "share": share}
            ledger.find(Finding(kinds.RETARDER_FULL, key, facts))
