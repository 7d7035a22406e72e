"""What does not fit: read from the boxes WeasyPrint laid out, before anything is drawn.

Why: an overflow raises nothing in CSS; the words would be printed over the footer or off the card.
"""

import math
from collections.abc import Iterator
from typing import Any

_POINTS = 0.75
"""A CSS pixel is 1/96 inch, a point 1/72: CSS Values and Units 3, absolute lengths."""

_ROW = 18
"""Height in points of a row of 13-point text (``--row`` in tokens.css)."""

_BETWEEN = 6
"""Least distance in points between the last line and the foot of a side."""

_FORGIVEN = 0.05
"""Points that are only rounding of lengths in floating point."""


def overflows(pages: list[Any]) -> Iterator[str]:
    """Name each card side and page whose content is larger than its place."""
    for page in pages:
        body = page._page_box  # noqa: SLF001 - the only access to the laid-out boxes.
        limit = body.content_box_y() + body.height
        for box in _named(body):
            yield from _one(box, limit)


def _named(box: Any) -> Iterator[Any]:  # noqa: ANN401 - WeasyPrint has no types.
    """Walk the outermost boxes of named elements: an anonymous line box inside one has its element too."""
    for child in _children(box):
        if child.element is not None and child.element.get("data-name"):
            yield child
        else:
            yield from _named(child)


def _children(box: Any) -> list[Any]:  # noqa: ANN401
    # An absolutely placed box stands in the tree behind a placeholder that passes attributes on.
    return list(getattr(box, "children", ()))


def _one(box: Any, page_limit: float) -> Iterator[str]:  # noqa: ANN401
    name = box.element.get("data-name")
    face, foot = _part(box, "face"), _part(box, "foot")
    if face is not None and foot is None:
        yield f"{name}: does not fit on a page of the binder"
    elif face is not None:
        excess = (_bottom(face) - foot.border_box_y()) * _POINTS + _BETWEEN
        if excess > _FORGIVEN:
            lines = math.ceil(excess / _ROW)
            rows = f"{lines} line{'s' if lines > 1 else ''} of {_ROW} pt"
            yield f"{name}: {math.ceil(excess)} pt too long, {rows}"
    below = (box.border_box_y() + box.border_height() - page_limit) * _POINTS
    if below > _FORGIVEN:
        yield f"{name}: reaches {math.ceil(below)} pt below its page"
    place = box if face is None else face
    right = place.content_box_x() + place.width
    wide = max((_right(inner) - right for inner in _inked(place)), default=0) * _POINTS
    if wide > _FORGIVEN:
        yield f"{name}: {math.ceil(wide)} pt too wide"


def _part(box: Any, name: str) -> Any:  # noqa: ANN401
    for child in _children(box):
        if child.element is not None and child.element.get("class") == name:
            return child
        if (inner := _part(child, name)) is not None:
            return inner
    return None


def _bottom(box: Any) -> float:  # noqa: ANN401
    return float(box.position_y + box.margin_height())


def _right(box: Any) -> float:  # noqa: ANN401
    return float(box.position_x + box.width)


def _inked(box: Any) -> Iterator[Any]:  # noqa: ANN401
    for child in _children(box):
        if hasattr(child, "text") or hasattr(child, "replacement"):
            yield child
        yield from _inked(child)
