"""Page "Entered figures, to be read back": what no check can catch, beside where it can be read."""

from collections.abc import Iterator, Sequence

from binder.assessment.assessment import Assessment
from binder.cards.axle_words import words_of
from binder.cards.blocks import Block, Page, Table
from binder.models.trip import Leg
from binder.models.vehicles import Tank
from binder.quantities import Quantity
from binder.wording.as_written import as_written
from binder.wording.meanings import CLEARANCE

_INTRO = (
    "A wrong digit, side or unit that still looks likely is found by no check. Read each figure where it "
    'stands, not from memory, and mark it under "read". Typed load tables: in the tire register.'
)
_READ = "____"


def read_back(assessment: Assessment) -> Page:
    """Make the page of entered figures."""
    tables = (_labels, _slips, _tanks, _parts, _road)
    blocks = tuple(block for table in tables for block in table(assessment))
    return Page("read_back", "Entered figures, to be read back", _INTRO, blocks)


def _table(caption: str, headers: tuple[str, ...], rows: Sequence[tuple[str, ...]]) -> Iterator[Block]:
    if rows:
        marked = tuple((*row, _READ) for row in rows)
        yield Table((*headers, "read"), marked, small=True, caption=caption)


def _labels(assessment: Assessment) -> Iterator[Block]:
    rows = []
    for name, vehicle in assessment.rig.vehicles.items():
        label = vehicle.label
        for words, rating in (
            ("gross vehicle weight rating", label.gross_vehicle_weight_rating),
            ("gross combination weight rating", label.gross_combination_weight_rating),
        ):
            if rating is not None:
                rows.append((name, words, as_written(rating), "-"))
        for axle_name, axle in vehicle.axles.items():
            pressure = as_written(axle.label_pressure)
            rows.append((name, f"{axle_name} axle", as_written(axle.rating), pressure))
    headers = ("vehicle", "what", "rating", "cold pressure")
    return _table("On the labels of the vehicle", headers, rows)


def _slips(assessment: Assessment) -> Iterator[Block]:
    rows = [
        (f"{vehicle}, {axle}", str(ticket.on), *(_or_dash(end) for end in (ends.left, ends.right, ends.axle)))
        for ticket in assessment.rig.scale_tickets
        for vehicle, weights in ticket.weights.items()
        for axle, ends in weights.axles.items()
    ]
    return _table("On the scale slip", ("axle", "slip of", "left end", "right end", "axle whole"), rows)


def _tanks(assessment: Assessment) -> Iterator[Block]:
    rows = [
        (f"{vehicle_name}, {name}", as_written(tank.capacity), _lengthwise(tank), _sideways(tank))
        for vehicle_name, vehicle in assessment.rig.vehicles.items()
        for name, tank in vehicle.tanks.items()
    ]
    headers = ("tank", "capacity", "middle, from the first axle", "from the center line")
    return _table("At the tanks, with a tape", headers, rows)


def _lengthwise(tank: Tank) -> str:
    return _placed(tank.at, "BEHIND", "AHEAD")


def _sideways(tank: Tank) -> str:
    return _placed(tank.left, "to the LEFT", "to the RIGHT")


def _placed(place: Quantity | None, positive: str, negative: str) -> str:
    if place is None or place.m == 0:
        return as_written(place)
    distance: Quantity = place if place.m > 0 else place * -1
    return f"{as_written(distance)} {positive if place.m > 0 else negative}"


def _parts(assessment: Assessment) -> Iterator[Block]:
    rows = [
        (f"{coupling.ahead} to {coupling.behind}, {name}", as_written(part.towed), _or_dash(part.down))
        for coupling in assessment.rig.couplings
        for name, part in coupling.parts.items()
    ]
    return _table("Stamped on the coupling", ("part", "may tow", "may carry down"), rows)


def _or_dash(rating: Quantity | None) -> str:
    return "-" if rating is None else as_written(rating)


def _limits(leg: Leg) -> Iterator[tuple[str, str]]:
    for limit in leg.limits:
        for words in ("weight", "width", "length", "ground_clearance"):
            posted: Quantity | None = getattr(limit, words)
            if posted is not None:
                yield f"{limit.what}, {words.replace('_', ' ')}", as_written(posted)


def _grades(leg: Leg) -> Iterator[tuple[str, str]]:
    for grade in leg.grades:
        signs = (grade.slope, grade.length, grade.posted_truck_speed)
        yield f"{grade.what}, {grade.goes}", ", ".join(as_written(sign) for sign in signs)


def _road(assessment: Assessment) -> Iterator[Block]:
    words, rows = words_of(assessment), []
    for number, day in enumerate(assessment.trip.days if assessment.trip else (), 1):
        rows += [
            (f"day {number}", clearance.what, words.text(clearance.posted, CLEARANCE))
            for leg in day.legs
            for clearance in leg.clearances
        ]
        rows += [(f"day {number}", *told) for leg in day.legs for told in (*_limits(leg), *_grades(leg))]
        if day.night is not None:
            rows.append(
                (f"day {number}", f"low of the night, {day.legs[-1].to.place}", as_written(day.night.low))
            )
    return _table("On signs, atlas and forecast", ("when", "what", "entered"), rows)
