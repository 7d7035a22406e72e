"""Page of tires: the answer for each axle, every mounted tire, its limits, and the typed load table."""

from collections.abc import Iterator

from binder.assessment.assessment import Assessment
from binder.assessment.figures import Figure
from binder.assessment.measures import Measure
from binder.assessment.weights.resting import rolling_axles
from binder.cards.axle_words import display_of
from binder.cards.blocks import Block, Note, Page, Table
from binder.cards.display import BLANK
from binder.cards.figure_text import rounding_of, value_text
from binder.cards.load_charts import load_chart_blocks
from binder.cards.load_tables import load_table_blocks
from binder.cards.mounted_tires import register_blocks
from binder.cards.tire_limits import limit_blocks
from binder.cards.tire_maps import tire_map_blocks

_INTRO = (
    "Cold pressures: parked in shade three hours, or before sunrise. The vehicle's labels and the tire "
    "maker's own table come first. Over a limit, or with damage: a tire service, before moving."
)
_ENTRIES: tuple[tuple[str, str, Measure], ...] = (
    ("load on one tire", "load_per_tire", "weight"),
    ("row", "row_pressure", "pressure"),
    ("label", "label_pressure", "pressure"),
    ("floor", "floor_pressure", "pressure"),
    ("SET-POINT", "set_point", "pressure"),
    ("cap", "cap", "pressure"),
    ("low alarm", "low_alarm", "pressure"),
    ("run flat below", "run_flat_below", "pressure"),
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
    display, rows = display_of(assessment), []
    whys: dict[str, list[str]] = {}
    for vehicle, _, axle, _ in rolling_axles(assessment.rig):
        key = f"tires.{vehicle}.{axle}".replace(" ", "_")
        rows.append((f"{vehicle}, {axle}", *_answer(assessment, key)))
        label, row = assessment.known(f"{key}.label_pressure"), assessment.known(f"{key}.row_pressure")
        whys.setdefault(f"{_rule(row)} {_rule(label)}".strip(), []).append(f"{vehicle} {axle}")
    if rows:
        units = (f"{name}, {display.measure(measure).word}" for name, _, measure in _ENTRIES)
        headers = ("axle", *units, "load used", "speed", "room on one tire")
        yield Table(headers, tuple(rows), small=True, caption="The answer for each axle")
    for why, axles in whys.items():
        names = " and ".join(axles)
        yield Note(f"{names[:1].upper()}{names[1:]}: {why}")


def _answer(assessment: Assessment, key: str) -> Iterator[str]:
    display = display_of(assessment)
    for _, name, measure in _ENTRIES:
        figure = assessment.known(f"{key}.{name}")
        known = figure is not None and figure.quantity is not None
        if name == "set_point" and figure and known:
            yield display.fill(figure.quantity, assessment.quantity(f"{key}.leave_up_to"))
            continue
        yield display.number(figure.quantity, measure, rounding_of(figure)) if figure and known else "-"
    used, speed = assessment.known(f"{key}.load_used"), assessment.known(f"{key}.speed_limit")
    yield value_text(used, display) if used and used.value is not None else "-"
    yield value_text(speed, display) if speed else BLANK
    point = assessment.known(f"{key}.set_point")
    yield point.slack if point and point.slack else "-"


def _rule(figure: Figure | None) -> str:
    return figure.rule if figure else ""
