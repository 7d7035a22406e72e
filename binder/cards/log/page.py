"""The page of the log: what was read over time."""

from binder.assessment.assess import Assessment
from binder.assessment.log import kinds
from binder.cards.blocks import Page
from binder.cards.log.fills import fill_blocks
from binder.cards.log.pressures import pressure_blocks


def log(assessment: Assessment) -> Page | None:
    """Make the page where the log has something for it."""
    blocks = (*pressure_blocks(assessment), *fill_blocks(assessment))
    return Page("log", kinds.PAGE_TITLE, kinds.PAGE_INTRO, blocks) if blocks else None
