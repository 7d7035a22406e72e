"""Page of the rig at a glance: the plan view, then dimensions, ratings, brakes, engine, tanks, shut-offs."""

from collections.abc import Iterator

from binder.assessment.assessment import Assessment
from binder.cards.blocks import Block, Note, Page, Picture, Table
from binder.cards.glance_tables import brake_table, dimension_tables, engine_tables, place_table, rating_table
from binder.cards.plan import Plan, plan

_INTRO = (
    "To scale, front at the left, right side above. Large figures: cold set-points. Small numbers: the walk, "
    "once round from the entry door. Labels on the vehicle and its maker's manual come first."
)


def rig_at_a_glance(assessment: Assessment) -> Page:
    """Make the page of the rig at a glance."""
    laid = plan(assessment)
    blocks: tuple[Block, ...] = (
        *_drawing(laid),
        *_walk_table(laid),
        *dimension_tables(assessment),
        *rating_table(assessment),
        *place_table(assessment),
        *brake_table(assessment),
        *engine_tables(assessment),
    )
    return Page("rig_at_a_glance", "Rig at a glance", _INTRO, blocks)


def _drawing(laid: Plan) -> Iterator[Block]:
    if laid.view:
        yield Picture(laid.view)
    else:
        yield Note(f"No plan view to scale: not known: {', '.join(laid.lacking)}.")
    if laid.assumed:
        yield Note(" ".join(laid.assumed))


def _walk_table(laid: Plan) -> Iterator[Block]:
    rows = tuple(
        (number, place.name, place.where, place.lock or "-", ", ".join(place.holds) or "-")
        for number, place in laid.numbered
    )
    if rows:
        headers = ("walk", "place", "side", "lock", "found there")
        yield Table(headers, rows, small=True, caption="The walk, from the entry door back to it")
