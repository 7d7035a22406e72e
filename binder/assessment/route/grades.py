"""Long grades of the trip: height, energy, the power to hold this weight, and what the retarder leaves.

Downhill everything that helps is counted low: the least road load that is published, and air as thin as
at the crest. No speed is advised; the posted one of trucks is compared.
"""

from collections.abc import Iterator
from typing import NamedTuple

from binder.assessment.figures import Figure, Finding, Input, Ledger
from binder.assessment.known_quantity import known_quantity
from binder.assessment.measures import Rounding
from binder.assessment.route.days import TripDay, trip_days
from binder.assessment.wording import Wording
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
    time_on_grade,
)
from binder.models.load import Profile
from binder.models.rig import Rig
from binder.models.trip import Grade, Leg
from binder.quantities import Quantity, registry

WEIGHT_KEY = "weights.combination.heaviest.load"
_CAUTIONS = (
    "No speed is advised: the figures compare, the driver decides.",
    "The road load is the least published of trucks, less for a smaller front: none of motorhomes was found.",
)
_RETARDER = (
    "A retarder gives its power only at its best engine speed, and not on a slippery road.",
    "The engine's own drag is not counted.",
)
_TRUCK = (registry.Quantity(102.0, "inch"), registry.Quantity(162.0, "inch"))
"""Width (23 CFR 658.15) and height (practice) of the trucks whose road load is published."""
_TOP = registry.Quantity(11.0, "kilometer")  # USSA1976: where its lowest layer ends.
_NO_AIR = registry.Quantity(0.0, "kilogram / meter ** 3")


class PlacedGrade(NamedTuple):
    """One grade of the plan, with the start of the keys of its figures and its name as an origin."""

    key: str
    day: int
    grade: Grade
    origin: str
    crest: Quantity | None


def placed_grades(profile: Profile) -> tuple[PlacedGrade, ...]:
    """Every grade of the trip in the order it is met."""
    return tuple(one for day in trip_days(profile) for one in _of_day(day))


def _of_day(day: TripDay) -> Iterator[PlacedGrade]:
    before = day.start
    for number, leg, place in day.legs():
        ends = [stop.elevation for stop in (before, leg.to) if stop and stop.elevation is not None]
        yield from _of_leg(f"{day.key}.leg_{number}", day.number, leg, place, max(ends, default=None))
        before = leg.to


def _of_leg(key: str, day: int, leg: Leg, place: str, end: Quantity | None) -> Iterator[PlacedGrade]:
    for number, grade in enumerate(leg.grades, start=1):
        height = _height(grade)
        crest = None if end is None else end + height if height is not None else end
        crest = grade.top if grade.top is not None else crest
        known = crest if crest is not None and crest < _TOP else None
        yield PlacedGrade(f"{key}.grade_{number}", day, grade, f"{place}, {grade.what}", known)


def _height(grade: Grade) -> Quantity | None:
    if grade.length is None or grade.slope is None:
        return None
    return grade_height(grade.length, grade.slope).to("foot")


def assess_grades(profile: Profile, ledger: Ledger) -> None:
    """Enter what each long grade asks of this weight, and find where the retarder does not suffice."""
    weight, grades = known_quantity(ledger, WEIGHT_KEY), placed_grades(profile)
    down = [placed for placed in grades if placed.grade.goes == "down"]
    if down and _retarder(profile) is None:
        ledger.find(_retarder_missing(down, profile))
    for placed in grades:
        held = _held(placed, weight, profile.rig)
        power = () if placed.grade.goes == "up" else _power(placed, held, weight, profile)
        for figure in (*_size(placed, weight, profile), *power):
            ledger.add(figure)
        finding = _finding(placed, held, profile)
        if finding:
            ledger.find(finding)


def _held(placed: PlacedGrade, weight: Quantity | None, rig: Rig) -> HoldingPower | None:
    grade, front = placed.grade, _front(rig)
    if grade.goes == "up" or weight is None or grade.slope is None or grade.posted_truck_speed is None:
        return None
    air = _NO_AIR if placed.crest is None or front is None else air_density(placed.crest)
    least = least_road_load()
    load = RoadLoad(least.drag_area * (front or 0.0), least.rolling)
    return holding_power(Motion(weight, grade.posted_truck_speed, air), grade.slope, load)


def _front(rig: Rig) -> float | None:
    """Largest front of the rig as a share of a truck's, not over all of it; None where none is known."""
    sizes = [vehicle.size for vehicle in rig.vehicles.values()]
    fronts = [
        float((size.overall_width * size.overall_height / (_TRUCK[0] * _TRUCK[1])).to("").m)
        for size in sizes
        if size.overall_width is not None and size.overall_height is not None
    ]
    return min(1.0, max(fronts)) if fronts else None


def _posted(placed: PlacedGrade, wording: Wording) -> tuple[Input, ...]:
    grade, origin = placed.grade, placed.origin
    return (
        Input(
            "length", "not known" if grade.length is None else wording.distance(grade.length, "up"), origin
        ),
        Input("slope", "not known" if grade.slope is None else wording.percent(grade.slope, "up"), origin),
    )


def _weighed(weight: Quantity | None, wording: Wording) -> Input:
    told = "not known" if weight is None else wording.weight(weight, "up")
    return Input("weight at its heaviest", told, f"figure {WEIGHT_KEY}")


def _size(placed: PlacedGrade, weight: Quantity | None, profile: Profile) -> Iterator[Figure]:
    wording, grade = Wording(profile.rig.units), placed.grade
    posted, height = _posted(placed, wording), _height(grade)
    climb = "" if height is None else f"{wording.elevation(height, 'up')} {grade.goes}"
    rule = "length along the road by the slope"
    yield Figure(f"{placed.key}.height", height, "calculated", rule, "geometry", posted, slack=climb)
    speed = grade.posted_truck_speed
    lasts = None
    if grade.length is not None and speed is not None and speed.magnitude > 0:
        lasts = time_on_grade(grade.length, speed)
    told = f"within {round(lasts.to('minute').m)} min at the posted speed" if lasts is not None else ""
    energy = None if weight is None or height is None else grade_energy(weight, height)
    rule = "weight by height: " + (
        "what the engine gives for the climb alone"
        if grade.goes == "up"
        else "what engine, retarder, brakes, air and tires take on the way down"
    )
    inputs = (_weighed(weight, wording), *posted)
    yield Figure(f"{placed.key}.energy", energy, "calculated", rule, "statics", inputs, slack=told)


def _power(
    placed: PlacedGrade, held: HoldingPower | None, weight: Quantity | None, profile: Profile
) -> Iterator[Figure]:
    wording, grade = Wording(profile.rig.units), placed.grade
    speed, retarder = grade.posted_truck_speed, _retarder(profile)
    posted = Input(
        "posted for trucks", "not known" if speed is None else wording.speed(speed, "up"), placed.origin
    )
    inputs = (_weighed(weight, wording), _posted(placed, wording)[1], posted)
    gravity = held.gravity if held else None
    drag = held.air + held.rolling if held else None
    rule = "what gravity gives this weight at the posted truck speed"
    yield Figure(f"{placed.key}.gravity_power", gravity, "calculated", rule, "statics", inputs)
    source = "S-MANNERING; LIB-FASTSIM; USSA1976; practice"
    rule, at = f"what tires and air take of it, counted low; {_air(placed, profile)}", _crest(placed, wording)
    yield Figure(f"{placed.key}.drag", drag, "calculated", rule, source, (*inputs, *at))
    rule = "what engine, retarder and brakes must hold together: gravity less drag"
    parts = (_told("gravity", gravity, wording), _told("drag", drag, wording, "down"))
    left = held.left if held else None
    yield Figure(f"{placed.key}.holding_power", left, "calculated", rule, source, parts, _CAUTIONS)
    margin = None if held is None or retarder is None else retarder_margin(held, retarder)
    own = Input(
        "retarder",
        "not known" if retarder is None else wording.power(retarder, "down"),
        f"rig.yaml vehicles.{_driven(profile)}.brakes.retarder",
    )
    rule = "the retarder's power less what must be held at the posted truck speed"
    yield Figure(
        f"{placed.key}.retarder_margin",
        margin,
        "calculated",
        rule,
        "practice",
        (own, _told("to be held", left, wording)),
        _RETARDER,
        _slack(margin, wording),
    )


def _air(placed: PlacedGrade, profile: Profile) -> str:
    if placed.crest is None or _front(profile.rig) is None:
        return "air is left out: no elevation, or no width and height, is known"
    wide, high = (Wording(profile.rig.units).length(side, "up") for side in _TRUCK)
    return (
        f"air as thin as at the crest, on a truck's least drag by the rig's front to one of {wide} by {high}"
    )


def _slack(margin: Quantity | None, wording: Wording) -> str:
    if margin is None:
        return ""
    if margin.magnitude >= 0:
        return f"{wording.power(margin, 'down')} to spare"
    over = registry.Quantity(-float(margin.to("kilowatt").m), "kilowatt")
    return f"{wording.power(over, 'up')} left to engine and brakes, all the way down"


def _crest(placed: PlacedGrade, wording: Wording) -> tuple[Input, ...]:
    if placed.crest is None:
        return ()
    told = wording.elevation(placed.crest, "up")
    if placed.grade.top is not None:
        return (Input("crest", told, placed.origin),)
    return (Input("crest, taken as", told, "higher end of the leg and the grade's height"),)


def _told(name: str, power: Quantity | None, wording: Wording, rounding: Rounding = "up") -> Input:
    if power is None:
        return Input(name, "not known", "figures beside")
    return Input(name, wording.power(power, rounding), "figures beside")


def _driven(profile: Profile) -> str:
    return next(iter(profile.rig.vehicles))


def _retarder(profile: Profile) -> Quantity | None:
    brakes = profile.rig.vehicles[_driven(profile)].brakes
    return brakes.retarder if brakes else None


def _retarder_missing(down: list[PlacedGrade], profile: Profile) -> Finding:
    """One finding for all grades: one number is to be asked for."""
    named = "; ".join(f"day {placed.day}, {placed.grade.what}" for placed in down)
    text = f"The retarder's power of the {_driven(profile)} is not given, for the long grades: {named}."
    helps = (
        "Ask the chassis maker; enter 0 kW where there is none. Until then the brakes hold it alone: card 10."
    )
    return Finding("missing", 7, f"{down[0].key}.retarder_margin", text, helps)


def _finding(placed: PlacedGrade, held: HoldingPower | None, profile: Profile) -> Finding | None:
    retarder, grade, wording = _retarder(profile), placed.grade, Wording(profile.rig.units)
    key, start = f"{placed.key}.retarder_margin", f"Day {placed.day}: {grade.what}"
    if grade.goes == "up":
        return None
    if held is None:
        if grade.slope is not None and grade.posted_truck_speed is not None:
            text = f"{start}: the weight of the rig is not known, so neither is the power to hold it."
            return Finding("missing", 7, key, text, "Weigh it.")
        return None
    if retarder is None or retarder_margin(held, retarder).magnitude >= 0:
        return None
    speed = wording.speed(grade.posted_truck_speed, "up") if grade.posted_truck_speed is not None else ""
    need = wording.power(held.left, "up")
    has = wording.power(retarder, "down") if retarder.magnitude > 0 else "no retarder"
    text = (
        f"{start}: holding the posted {speed} takes {need}, against {has}: brakes and engine take the rest."
    )
    return Finding("attention", 7, key, text, "Take the gear before the crest and brake in snubs: card 10.")
