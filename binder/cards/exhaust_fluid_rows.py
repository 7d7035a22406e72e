"""Exhaust fluid in a table: use as a band, range, container, fillers, shelf life, freezing, each with why."""

from collections.abc import Iterator
from datetime import date

from binder.assessment.assessment import Assessment
from binder.assessment.figures import Figure
from binder.cards.blocks import Block, Note, Table
from binder.cards.display import BLANK, Display, day
from binder.cards.figure_reasons import reason_of
from binder.cards.figure_values import quantity_of
from binder.wording.procedure_numbers import procedure_constant, procedure_number

_FIXED = (
    ("exhaust fluid freezes", "freezes at"),
    ("exhaust fluid air", "air to leave in its tank below that"),
    ("exhaust fluid carried", "commonly carried"),
)
_DISTANCES = (
    ("range", "range of a full tank"),
    ("container_worth", "the carried container is worth"),
)
_WRONG = (
    "Blue cap. Wrong fluid in either tank: do not turn the key; have it drained. Keep a clean funnel and "
    "container for it alone: a little fuel or dust spoils it."
)


def exhaust_fluid_start(assessment: Assessment) -> str | None:
    """Find the start of the keys of the exhaust fluid's figures."""
    worth = ".container_worth"
    keys = [key for key in assessment.ledger.figures if key.startswith("supplies.") and key.endswith(worth)]
    return keys[0].removesuffix(worth) if keys else None


def exhaust_fluid_blocks(assessment: Assessment) -> Iterator[Block]:
    """Set the table of the exhaust fluid."""
    start = exhaust_fluid_start(assessment)
    if start is None:
        return
    display = Display(assessment.rig.units)
    rows = [
        (name, text, _why(figure))
        for name, text, figure in _rows(assessment, start, display)
        if figure is not None
    ]
    for name, words in _FIXED:
        constant = procedure_constant(name)
        rows.append((words, procedure_number(name, display.system), f"{constant.reason} {constant.source}."))
    yield Table(("exhaust fluid", "", "why"), tuple(rows), small=True, caption="Exhaust fluid")
    yield Note(_WRONG)


def _rows(assessment: Assessment, start: str, display: Display) -> Iterator[tuple[str, str, Figure | None]]:
    def own(name: str) -> Figure | None:
        return assessment.known(f"{start}.{name}")

    low = display.text(quantity_of(own("use_low")), "volume", "down")
    high = display.text(quantity_of(own("use_high")), "volume", "up")
    is_one = _is_one(own("use_low"), own("use_high"))
    yield "used on this trip", high if is_one else f"{low} to {high}", own("use_high")
    for name, words in _DISTANCES:
        yield words, display.text(quantity_of(own(name)), "distance", "down"), own(name)
    top_up = own("top_up")
    yield "topped up", str(top_up.value) if top_up and top_up.value is not None else BLANK, top_up
    life = quantity_of(own("shelf_life"))
    months = BLANK if life is None else f"{float(life.to('month').m):.0f}"
    yield "keeps, stored that warm", f"{months} months", own("shelf_life")
    ends = own("shelf_life_ends")
    dated = ends.value if ends else None
    yield "the container's date", day(dated) if isinstance(dated, date) else BLANK, ends


def _is_one(low: Figure | None, high: Figure | None) -> bool:
    return low is not None and high is not None and low.value == high.value


def _why(figure: Figure) -> str:
    reason = reason_of("", figure)
    return f"{reason.text} {reason.source}."
