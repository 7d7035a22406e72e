"""Card 10, Brakes and grades: read before the crest, then done; grades of the trip and the test behind."""

from binder.assessment.assessment import Assessment
from binder.assessment.conditions import EXHAUST_BRAKE, RETARDER, driven, towed
from binder.assessment.figures import Figure
from binder.cards.blocks import Block, Card, End, Heading, Line, Reason, Side
from binder.cards.brake_lines import CREST, HOT_ENGINE, LINES, TRAILER, WEEKLY
from binder.cards.brake_steps import DOWN, HOT_BRAKES, step_reasons, steps_of
from binder.cards.breakdown_words import WEIGHT_KEY, weight_of_all
from binder.cards.display import Display
from binder.cards.figure_reasons import reason_of
from binder.cards.grade_lines import GradeLines, grades_of_trip, points
from binder.cards.procedure_lines import group_blocks, listed, reasons_of

FRONT = (DOWN, HOT_BRAKES)

ROOM, _HEADING = 443.0, 28.0
"""Points of the back of an A5 card between title and end, and of a heading with its gap."""

_USE = "Read, then do. Place lost: start again. Grades, weekly test: other side."


def brakes_and_grades(assessment: Assessment) -> Card:
    """Make the card for long grades and for the brakes' weekly test."""
    rig = assessment.rig
    front = (*group_blocks(CREST, LINES, rig), *steps_of(FRONT, rig))
    groups = (HOT_ENGINE, WEEKLY, TRAILER)
    below = tuple(block for group in groups for block in group_blocks(group, LINES, rig))
    grades, has_all = grades_of_trip(assessment, ROOM - _HEADING - _points(below))
    title = "Long grades of this trip" if has_all else "Hardest grades of this trip"
    end = End("Brakes and grades: complete")
    back = (*_grades(assessment, grades, title), *below, end)
    weight = assessment.known(WEIGHT_KEY)
    figures = [figure for one in grades for figure in one.figures.values()]
    return Card(
        id="10",
        name="brakes_and_grades",
        title="Brakes and grades",
        sides=(Side(_USE, front), Side("", back)),
        wrong_as_soon_as=_wrong(assessment),
        reasons=(
            *reasons_of((CREST,), LINES, rig),
            *step_reasons(FRONT, rig),
            *_grade_reasons(grades),
            *reasons_of(groups, LINES, rig),
        ),
        family="help",
        rig=rig.name,
        effective=assessment.on.isoformat(),
        figures=tuple(figure.key for figure in [*([weight] if weight else []), *figures]),
    )


def _points(blocks: tuple[Block, ...]) -> float:
    return sum(points(block) if isinstance(block, Line) else _HEADING for block in blocks)


def _grades(assessment: Assessment, grades: tuple[GradeLines, ...], title: str) -> tuple[Block, ...]:
    if assessment.trip is None:
        return ()
    lines = tuple(line for one in grades for line in one.lines)
    return (Heading(title), *(lines or (Line("In the plan", "NONE GIVEN", "watch every sign"),)))


def _grade_reasons(grades: tuple[GradeLines, ...]) -> tuple[Reason, ...]:
    """Tell the rule once for all grades; their numbers stand on the card and on the numbers page."""
    first: dict[str, Figure] = {}
    for one in grades:
        for name, figure in one.figures.items():
            first.setdefault(name, figure)
    names = {"holding_power": "Hold, the first grade", "retarder_margin": "To spare, the first grade"}
    return tuple(reason_of(name, first[key]) for key, name in names.items() if key in first)


def _wrong(assessment: Assessment) -> str:
    rig = assessment.rig
    weight, brakes = weight_of_all(assessment), driven(rig)[1].brakes
    over = Display(rig.units).text(weight, "weight", "up") if weight is not None else ""
    parts = [
        *([f"heavier than {over}"] if over else []),
        *([f"{brakes.service} brakes"] if brakes and brakes.service else ["brakes"]),
        *(["retarder"] if RETARDER(rig) else []),
        *(["exhaust brake"] if EXHAUST_BRAKE(rig) else []),
        *[f"the {name}" for name, _ in towed(rig)],
        *(["a grade"] if assessment.trip else []),
    ]
    return f"{listed(parts)} changed."
