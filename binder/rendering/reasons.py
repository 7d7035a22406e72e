"""Which reasons stand beside which side of a card in the binder."""

from binder.cards.blocks import Reason
from binder.rendering.paper import Paper
from binder.rendering.placing import SMALL
from binder.rendering.text_width import row_count

_ROW = 12
"""Height in points of a row of 9-point text."""

_BETWEEN = 6
"""Points between two reasons."""


def reasons_by_side(reasons: tuple[Reason, ...], sides: int, paper: Paper) -> tuple[tuple[Reason, ...], ...]:
    """Deal a card's reasons to its sides in order, as many as a side's column holds."""
    shares: list[list[Reason]] = [[] for _ in range(sides)]
    side, room = 0, paper.column_height
    for reason in reasons:
        needed = _height(reason, paper.column_width)
        if needed > room and side < sides - 1:
            side, room = side + 1, paper.column_height
        room -= needed
        shares[side].append(reason)
    return tuple(tuple(share) for share in shares)


def _height(reason: Reason, width: float) -> float:
    rows = sum(row_count(text, SMALL, width, "Bold") for text in (reason.name, reason.text, reason.source))
    return rows * _ROW + _BETWEEN
