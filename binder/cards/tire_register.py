"""Page of tires: the answer for each axle, every mounted tire, its limits, and the typed load table."""

from collections.abc import Iterator

from binder.assessment.assess import Assessment
from binder.assessment.tires import kinds
from binder.assessment.weights.resting import rolling_axles
from binder.cards.axle_words import words_of
from binder.cards.blocks import Block, Note, Page, Table
from binder.cards.load_charts import load_chart_blocks
from binder.cards.load_tables import load_table_blocks
from binder.cards.mounted_tires import register_blocks
from binder.cards.tire_limits import limit_blocks
from binder.cards.tire_maps import tire_map_blocks

_INTRO = (
    "Cold pressures: parked in shade three hours, or before sunrise. The vehicle's labels and the tire "
    "maker's own table come first. Over a limit, or with damage: a tire service, before moving."
)
_ENTRIES = (
    ("load on one tire", kinds.LOAD_PER_TIRE),
    ("row", kinds.ROW_PRESSURE),
    ("label", kinds.LABEL_PRESSURE),
    ("floor", kinds.FLOOR_PRESSURE),
    ("SET-POINT", kinds.SET_POINT),
    ("cap", kinds.CAP),
    ("low alarm", kinds.LOW_ALARM),
    ("run flat below", kinds.RUN_FLAT_BELOW),
)


def tire_register(assessment: Assessment) -> Page:
    """Make the page of tires."""
    blocks: tuple[Block, ...] = (
        *_answers(assessment),
        *tire_map_blocks(assessment),
        *register_blocks(assessment),
        *limit_blocks(assessment),
        *load_chart_blocks(assessment),
        *load_table_blocks(assessment),
    )
    return Page("tire_register", "Tire register", _INTRO, blocks)


def _answers(assessment: Assessment) -> Iterator[Block]:
    words, rows = words_of(assessment), []
    whys: dict[str, list[str]] = {}
    for vehicle, _, axle, _ in rolling_axles(assessment.rig):
        rows.append((f"{vehicle}, {axle}", *_answer(assessment, vehicle, axle)))
        rules = (
            words.rule(assessment.known(kind.of(vehicle, axle)))
            for kind in (kinds.ROW_PRESSURE, kinds.LABEL_PRESSURE)
        )
        whys.setdefault(" ".join(rule for rule in rules if rule), []).append(f"{vehicle} {axle}")
    if rows:
        units = (f"{name}, {words.unit(kind.measure)}" for name, kind in _ENTRIES)
        headers = ("axle", *units, "load used", "speed", "room on one tire")
        yield Table(headers, tuple(rows), small=True, caption="The answer for each axle")
    for why, axles in whys.items():
        names = " and ".join(axles)
        yield Note(f"{names[:1].upper()}{names[1:]}: {why}")


def _answer(assessment: Assessment, vehicle: str, axle: str) -> Iterator[str]:
    words = words_of(assessment)
    for _, kind in _ENTRIES:
        figure = assessment.known(kind.of(vehicle, axle))
        if kind is kinds.SET_POINT and figure and figure.quantity is not None:
            yield words.fill(figure.quantity, assessment.quantity(kinds.LEAVE_UP_TO.of(vehicle, axle)))
        else:
            yield words.bare(figure, "-")
    yield words.value(assessment.known(kinds.LOAD_USED.of(vehicle, axle)), "-")
    yield words.value(assessment.known(kinds.SPEED_LIMIT.of(vehicle, axle)))
    yield words.slack(assessment.known(kinds.SET_POINT.of(vehicle, axle))) or "-"
