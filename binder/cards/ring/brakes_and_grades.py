"""Card 10, Brakes and grades: read before the crest, then done; grades of the trip and the test behind."""

from collections.abc import Iterator

from binder.assessment.assessment import Assessment
from binder.assessment.conditions import driven, towed
from binder.assessment.road import kinds
from binder.assessment.weights.kinds import COMBINATION
from binder.cards.axle_words import words_of
from binder.cards.blocks import Block, Card, Heading, Line, Reason
from binder.cards.figure_reasons import reason_of
from binder.cards.procedures.conditions import has_exhaust_brake, has_retarder
from binder.cards.procedures.facts import listed
from binder.cards.procedures.lines import Part, said_card
from binder.cards.procedures.reading import card_words
from binder.cards.ring.grade_lines import GradeLines, grades_of_trip, points

ROOM, _HEADING = 443.0, 28.0
"""Points of the back of an A5 card between title and end, and of a heading with its gap."""
_GRADES = "grades of the trip"
_WEIGHT = COMBINATION.heaviest.of()
_REASONED = (
    ("Hold, the first grade", kinds.HOLDING_POWER),
    ("To spare, the first grade", kinds.RETARDER_MARGIN),
)


def brakes_and_grades(assessment: Assessment) -> Card:
    """Make the card for long grades and for the brakes' weekly test."""
    card = card_words("brakes_and_grades")
    *below, _end = said_card(card, assessment, {_GRADES: ()}).sides[1].blocks
    grades, has_all = grades_of_trip(assessment, ROOM - _HEADING - _points(below))
    said = said_card(card, assessment, {_GRADES: tuple(_grades(assessment, grades, has_all=has_all))})
    keys = [figure.key for one in grades for figure in one.figures.values()]
    keys = [_WEIGHT, *keys] if assessment.known(_WEIGHT) else keys
    return Card(
        id="10",
        name="brakes_and_grades",
        title=said.title,
        sides=said.sides,
        wrong_as_soon_as=_wrong(assessment),
        reasons=said.reasons,
        family="help",
        rig=assessment.rig.name,
        effective=assessment.on.isoformat(),
        figures=tuple(words_of(assessment).key(key) for key in keys),
    )


def _points(blocks: list[Block]) -> float:
    return sum(points(block) if isinstance(block, Line) else _HEADING for block in blocks)


def _grades(assessment: Assessment, grades: tuple[GradeLines, ...], *, has_all: bool) -> Iterator[Part]:
    if assessment.trip is None:
        return
    yield Heading("Long grades of this trip" if has_all else "Hardest grades of this trip")
    lines = [line for one in grades for line in one.lines]
    yield from lines or [Line("In the plan", "NONE GIVEN", "watch every sign")]
    yield from _grade_reasons(assessment, grades)


def _grade_reasons(assessment: Assessment, grades: tuple[GradeLines, ...]) -> tuple[Reason, ...]:
    """Tell the rule once for all grades; their numbers stand on the card and on the numbers page."""
    words = words_of(assessment)
    first = {kind: figure for one in reversed(grades) for kind, figure in one.figures.items()}
    return tuple(reason_of(name, words.told(first[kind])) for name, kind in _REASONED if kind in first)


def _wrong(assessment: Assessment) -> str:
    rig = assessment.rig
    brakes = driven(rig)[1].brakes
    over = words_of(assessment).value(assessment.known(_WEIGHT), "")
    parts = [
        *([f"heavier than {over}"] if over else []),
        *([f"{brakes.service} brakes"] if brakes and brakes.service else ["brakes"]),
        *(["retarder"] if has_retarder(rig) else []),
        *(["exhaust brake"] if has_exhaust_brake(rig) else []),
        *[f"the {name}" for name, _ in towed(rig)],
        *(["a grade"] if assessment.trip else []),
    ]
    return f"{listed(parts)} changed."
