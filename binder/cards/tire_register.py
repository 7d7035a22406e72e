"""Page of tires: the answer for each axle, every mounted tire, its limits, and the typed table to be checked."""

from collections.abc import Iterator

from binder.assessment.assessment import Assessment
from binder.assessment.figures import Figure
from binder.cards.axle_words import display_of
from binder.cards.blocks import Block, Note, Page, Table
from binder.cards.figure_text import value_text
from binder.cards.load_tables import load_table_blocks
from binder.cards.mounted_tires import register_blocks
from binder.cards.tire_limits import limit_blocks

_INTRO = (
    "Cold pressures: parked in shade three hours, or before sunrise. The vehicle's labels and the tire maker's own "
    "table come first. Over a limit, or with damage: a tire service, before moving."
)
_ENTRIES = (
    ("load on one tire", "load_per_tire"),
    ("row", "row_pressure"),
    ("label", "label_pressure"),
    ("floor", "floor_pressure"),
    ("SET-POINT", "set_point"),
    ("cap", "cap"),
    ("low alarm", "low_alarm"),
    ("run flat below", "run_flat_below"),
    ("load used", "load_used"),
    ("speed", "speed_limit"),
)


def tire_register(assessment: Assessment) -> Page:
    """Make the page of tires.

    Args:
        assessment: the rig on its trip.

    Returns:
        The page.

    Sources:
        The figures it prints; the profile.

    Example:
        >>> from datetime import date
        >>> from pathlib import Path
        >>> from binder.assessment.assess import assess
        >>> from binder.models.load import load_profile
        >>> page = tire_register(assess(load_profile(Path("profiles/larkspur")), date(2026, 6, 1)))
        >>> page.blocks[0].rows[0][5]
        '105 psi'
    """
    blocks: tuple[Block, ...] = (
        *_answers(assessment),
        *register_blocks(assessment),
        *limit_blocks(assessment),
        *load_table_blocks(assessment),
    )
    return Page("tire_register", "Tire register", _INTRO, blocks)


def _answers(assessment: Assessment) -> Iterator[Block]:
    rows, whys = [], []
    for vehicle, entry in assessment.rig.vehicles.items():
        for axle in entry.axles:
            key = f"tires.{vehicle}.{axle}".replace(" ", "_")
            found = [assessment.known(f"{key}.{name}") for _, name in _ENTRIES]
            rows.append(
                (f"{vehicle}, {axle}", *(_text(assessment, figure) for figure in found), _slack(found[0]))
            )
            label, row = assessment.known(f"{key}.label_pressure"), assessment.known(f"{key}.row_pressure")
            whys.append(f"{vehicle}, {axle}: {_rule(row)} {_rule(label)}".strip())
    if rows:
        headers = ("axle", *(name for name, _ in _ENTRIES), "slack")
        yield Table(headers, tuple(rows), small=True, caption="The answer for each axle")
    for why in whys:
        yield Note(why)


def _text(assessment: Assessment, figure: Figure | None) -> str:
    if figure is None or figure.value is None:
        return "-"
    return value_text(figure, display_of(assessment))


def _slack(figure: Figure | None) -> str:
    return figure.slack if figure and figure.slack else "-"


def _rule(figure: Figure | None) -> str:
    return figure.rule if figure else ""
