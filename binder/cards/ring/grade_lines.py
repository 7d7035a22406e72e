"""The long grades of a trip as lines: what is posted, the height, and the power that holds this weight."""

from collections.abc import Iterator
from dataclasses import dataclass

from binder.assessment.assessment import Assessment
from binder.assessment.figures import Figure
from binder.assessment.road import kinds
from binder.assessment.road.grades import PlacedGrade, placed_grades
from binder.cards.blocks import Line
from binder.cards.display import BLANK, Display
from binder.cards.figure_values import quantity_of
from binder.quantities import Quantity
from binder.wording.sentences import key_text

HELD, MARGIN = "holding_power", "retarder_margin"
_PRINTED = {"height": kinds.GRADE_HEIGHT, HELD: kinds.HOLDING_POWER, MARGIN: kinds.RETARDER_MARGIN}

ROW = 20.0
"""Points of a line with its rule."""

_LETTERS = 65
"""Letters of 9 pt on a row of the narrower card."""


@dataclass(frozen=True)
class GradeLines:
    """One grade on paper, and the figures it prints by what they are."""

    lines: tuple[Line, ...]
    figures: dict[str, Figure]


def grades_of_trip(assessment: Assessment, room: float) -> tuple[tuple[GradeLines, ...], bool]:
    """Word the long grades of the trip, in the order they are met."""
    every = placed_grades(assessment.profile)
    hardest = sorted(every, key=lambda placed: _ease(placed, assessment))
    worded = {placed.subject: grade_lines(placed, assessment) for placed in every}
    kept = set[tuple[int, int, int]]()
    for placed in hardest:
        room -= sum(points(line) for line in worded[placed.subject].lines)
        if room >= 0 or not kept:
            kept.add(placed.subject)
    return tuple(lines for subject, lines in worded.items() if subject in kept), len(kept) == len(every)


def points(line: Line) -> float:
    """Estimate the height of a line."""
    return ROW + 13.0 * -(-len(line.detail) // _LETTERS)


def _ease(placed: PlacedGrade, assessment: Assessment) -> tuple[bool, float]:
    """What is not known is taken for hard; climbs come last."""
    margin = assessment.ledger.quantity(kinds.RETARDER_MARGIN.of(*placed.subject))
    return placed.grade.goes == "up", float("-inf") if margin is None else float(margin.magnitude)


def grade_lines(placed: PlacedGrade, assessment: Assessment) -> GradeLines:
    """Word one grade."""
    display, grade = Display(assessment.rig.units), placed.grade
    keys = {name: key_text(kind.of(*placed.subject)) for name, kind in _PRINTED.items()}
    figures = {name: found for name, key in keys.items() if (found := assessment.known(key))}
    posted = Line(f"Day {placed.day}: {grade.what}", posted_of(placed, display), _told(placed, figures))
    lines = (posted,) if grade.goes == "up" else (posted, _held(placed, figures, display))
    return GradeLines(lines, figures)


def posted_of(placed: PlacedGrade, display: Display) -> str:
    """Say a grade's slope and length."""
    grade = placed.grade
    slope = f"{BLANK} %" if grade.slope is None else f"{float(grade.slope.to('percent').magnitude):g} %"
    return f"{slope}, {display.text(grade.length, 'distance', 'up')}"


def _told(placed: PlacedGrade, figures: dict[str, Figure]) -> str:
    return "; ".join(_facts(placed, figures))


def _facts(placed: PlacedGrade, figures: dict[str, Figure]) -> Iterator[str]:
    grade = placed.grade
    if "height" in figures and figures["height"].slack:
        yield figures["height"].slack
    if grade.goes == "down":
        yield f"test brakes: {grade.test_brakes_at or BLANK}"


def _held(placed: PlacedGrade, figures: dict[str, Figure], display: Display) -> Line:
    speed = display.text(placed.grade.posted_truck_speed, "speed", "down")
    power = display.text(quantity_of(figures.get(HELD)), "power", "up")
    return Line(f"Hold {power} at {speed}", _left(quantity_of(figures.get(MARGIN)), display))


def _left(margin: Quantity | None, display: Display) -> str:
    if margin is None:
        return f"{BLANK} kW TO BRAKES"
    if margin.magnitude >= 0:
        return f"{display.text(margin, 'power', 'down')} TO SPARE"
    # What is over the retarder's power is rounded away from zero: the brakes take the more.
    return f"{display.text(margin, 'power', 'down').removeprefix('-')} TO BRAKES"
