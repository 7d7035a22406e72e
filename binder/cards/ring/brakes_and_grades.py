"""Card 10, Brakes and grades: read before the crest, then done; grades of the trip and the test behind."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from binder.assessment.assess import Assessment
from binder.assessment.ledger import Figure, FigureKind
from binder.assessment.road import kinds
from binder.assessment.road.grades import PlacedGrade, placed_grades
from binder.assessment.weights.kinds import COMBINATION
from binder.cards.blocks import Card, Heading, Line, Reason
from binder.cards.procedures.lines import Part, said_card
from binder.cards.procedures.reading import card_words
from binder.cards.rig_words import reason_of, words_of
from binder.wording.measures import SLOPE, SPEED_LIMIT, WAY
from binder.wording.numbers import BLANK
from binder.wording.words import Words

_PRINTED = (kinds.GRADE_HEIGHT, kinds.RETARDER_SHARE)


@dataclass(frozen=True)
class GradeLines:
    """One grade on paper, and the figures it prints by what they are."""

    lines: tuple[Line, ...]
    figures: dict[FigureKind, Figure]


def grades_of_trip(assessment: Assessment) -> tuple[GradeLines, ...]:
    """Word the long grades of the trip, in the order they are met."""
    return tuple(grade_lines(placed, assessment) for placed in placed_grades(assessment.profile))


def grade_lines(placed: PlacedGrade, assessment: Assessment) -> GradeLines:
    """Word one grade."""
    words, grade = words_of(assessment), placed.grade
    figures = {kind: found for kind in _PRINTED if (found := assessment.known(kind.of(*placed.subject)))}
    told = "; ".join(_facts(placed, figures, words))
    posted = Line(f"Day {placed.day}: {grade.what}", posted_of(placed, words), told)
    lines = (posted,) if grade.goes == "up" else (posted, held_line(placed, figures, words))
    return GradeLines(lines, figures)


def posted_of(placed: PlacedGrade, words: Words) -> str:
    """Say a grade's slope and length."""
    return f"{words.text(placed.grade.slope, SLOPE)}, {words.text(placed.grade.length, WAY)}"


def _facts(placed: PlacedGrade, figures: dict[FigureKind, Figure], words: Words) -> Iterator[str]:
    if placed.grade.goes == "up":
        yield words.slack(figures.get(kinds.GRADE_HEIGHT))
        return
    yield f"test brakes: {placed.grade.test_brakes_at or BLANK}"
    share = figures.get(kinds.RETARDER_SHARE)
    if share is not None and share.case != "none":
        # The engine speed that gives that much stands in its maker's manual alone.
        yield f"retarder at {BLANK} rpm"


def held_line(placed: PlacedGrade, figures: dict[FigureKind, Figure], words: Words) -> Line:
    """Say how much of the retarder a grade takes at the speed posted for trucks."""
    speed, share = words.text(placed.grade.posted_truck_speed, SPEED_LIMIT), figures.get(kinds.RETARDER_SHARE)
    if share is not None and share.case == "none":
        return Line(f"Down at {speed}: no retarder", "LOW GEAR")
    is_over = share is not None and share.quantity is not None and share.quantity > 1
    told = "more than it has: the brakes take the rest" if is_over else ""
    return Line(f"Down at {speed}: retarder", f"NEEDS {words.value(share, f'{BLANK} %')}", told)


_GRADES = "grades of the trip"
_WEIGHT = COMBINATION.heaviest.of()
_REASONED = (("Retarder, the first grade", kinds.RETARDER_SHARE),)


def brakes_and_grades(assessment: Assessment) -> Card:
    """Make the card for long grades and for the brakes' weekly test."""
    card = card_words("brakes_and_grades")
    grades = grades_of_trip(assessment)
    said = said_card(card, assessment, {_GRADES: tuple(_grades(assessment, grades))})
    keys = [figure.key for one in grades for figure in one.figures.values()]
    keys = [_WEIGHT, *keys] if assessment.known(_WEIGHT) else keys
    return replace(said, figures=tuple(words_of(assessment).key(key) for key in keys))


def _grades(assessment: Assessment, grades: tuple[GradeLines, ...]) -> Iterator[Part]:
    if assessment.trip is None:
        return
    yield Heading("Long grades of this trip")
    lines = [line for one in grades for line in one.lines]
    yield from lines or [Line("In the plan", "NONE GIVEN", "read every sign")]
    yield from _grade_reasons(assessment, grades)


def _grade_reasons(assessment: Assessment, grades: tuple[GradeLines, ...]) -> tuple[Reason, ...]:
    """Tell the rule once for all grades; their numbers stand on the card and on the numbers page."""
    words = words_of(assessment)
    first = {kind: figure for one in reversed(grades) for kind, figure in one.figures.items()}
    return tuple(reason_of(name, words.told(first[kind])) for name, kind in _REASONED if kind in first)
