"""The pressure at each axle in large figures, upon the rig seen from above."""

from collections.abc import Sequence
from dataclasses import dataclass

from binder.cards.drawings import Axle
from binder.rendering.drawings.flags import spread
from binder.rendering.drawings.rig_outline import Outlines, kingpins, tires
from binder.rendering.drawings.svg import Box, Size, Text, line

_CAP_HEIGHT = 0.76
"""Height of figures in parts of the size: from the typeface's glyf table."""

_UNIT_BELOW = 11.3
"""Points from the line of the figures to the lower end of a unit of 9 points under them."""

_DESCENT = 2.3
"""How far the p of a unit of 9 points reaches below its line: from the typeface's glyf table."""

_APART = 9.0
"""Points between two numbers."""

_CLEAR = 1.2
"""Points that stay free around a number."""

_STEP = 2.0
"""Points by which a number is moved to find a place clear of what is inside the rig."""


@dataclass(frozen=True)
class _Style:
    """Size of the figures, and whether the unit stands under them or beside."""

    size: Size
    is_unit_below: bool


_STYLES = (
    _Style(24, is_unit_below=True),
    _Style(24, is_unit_below=False),
    _Style(17, is_unit_below=True),
    _Style(17, is_unit_below=False),
    _Style(14, is_unit_below=True),
    _Style(13, is_unit_below=True),
    _Style(13, is_unit_below=False),
)

_FAR = 14.0
"""Points a number may stand off its axle before a smaller size is tried: about half a tire."""


@dataclass(frozen=True)
class _Number:
    """A set-point placed, and how far it had to move from its axle."""

    texts: tuple[Text, ...]
    moved: float

    @property
    def box(self) -> Box:
        """The rectangle around figures and unit."""
        return _bounds(self.texts)


def set_points(rig: Outlines, kept_clear: Sequence[Box]) -> tuple[list[str], list[Text]]:
    """Place the set-point of every axle on the rig's middle line, as near to its axle as it fits.

    All are of one size: the largest of the closed set at which each finds room between the tires.
    """
    axles = sorted(
        (
            (number, axle)
            for number, vehicle in enumerate(rig.vehicles)
            for axle in vehicle.axles
            if axle.set_point
        ),
        key=lambda pair: rig.axle_place(*pair),
    )
    obstacles = [*kept_clear, *_upright_lines(rig)]
    tries = [placed for style in _STYLES if (placed := _placed(rig, axles, style, obstacles)) is not None]
    if not tries:
        raise ValueError("no room for the set-points between the tires; widen the drawing")
    near = [placed for placed in tries if all(number.moved <= _FAR for number in placed)]
    numbers = (near or [min(tries, key=lambda placed: max(number.moved for number in placed))])[0]
    lines = []
    for own, (vehicle, axle) in zip(numbers, axles, strict=True):
        others = [number.box for number in numbers if number is not own]
        lines += _axle_lines(rig.axle_place(vehicle, axle), tires(rig, vehicle, axle), own.box, others)
    return lines, [text for number in numbers for text in number.texts]


def _block(axle: Axle, x: float, middle: float, style: _Style) -> list[Text]:
    """A number and its unit around a point."""
    figures = style.size * _CAP_HEIGHT
    if style.is_unit_below:
        base = middle + (figures - _UNIT_BELOW) / 2
        number = Text(axle.set_point, x, base, style.size, is_bold=True, anchor="middle")
        # The comma of a load reaches below the figures, and so far down goes its unit.
        comma = number.box.bottom - base if "," in axle.set_point else 0.0
        return [number, Text(axle.unit, x, base + _UNIT_BELOW - _DESCENT + comma, anchor="middle")]
    base = middle + figures / 2
    wide = Text(axle.set_point, 0, base, style.size, is_bold=True).width
    left = x - (wide + 3 + Text(axle.unit, 0, base).width) / 2
    return [
        Text(axle.set_point, left, base, style.size, is_bold=True),
        Text(axle.unit, left + wide + 3, base),
    ]


def _bounds(block: Sequence[Text]) -> Box:
    boxes = [text.box for text in block]
    return Box(
        min(box.left for box in boxes),
        min(box.top for box in boxes),
        max(box.right for box in boxes),
        max(box.bottom for box in boxes),
    )


def _upright_lines(rig: Outlines) -> list[Box]:
    boxes = []
    for number, vehicle in enumerate(rig.vehicles):
        box = rig.box(number)
        boxes += [Box(edge - 1, box.top, edge + 1, box.bottom) for edge in (box.left, box.right)]
        boxes += [tire for axle in vehicle.axles for tire in tires(rig, number, axle)]
    return boxes + [Box(x - 5, y - 5, x + 5, y + 5) for x, y in kingpins(rig)]


def _placed(
    rig: Outlines, axles: Sequence[tuple[int, Axle]], style: _Style, obstacles: Sequence[Box]
) -> list[_Number] | None:
    """A block for each axle, or None where one finds no room."""
    widths = [_bounds(_block(axle, 0, 0, style)) for _, axle in axles]
    halves = [(box.right - box.left) / 2 for box in widths]
    try:
        starts = spread(
            [rig.axle_place(*pair) for pair in axles],
            lambda i, j: halves[i] + halves[j] + 2 * sum(halves[i + 1 : j]) + _APART * (j - i),
            [
                (rig.box(number).left + half, rig.box(number).right - half)
                for (number, _), half in zip(axles, halves, strict=True)
            ],
        )
    except ValueError:
        return None
    placed: list[_Number] = []
    for (number, axle), start in zip(axles, starts, strict=True):
        taken = [*obstacles, *(other.box for other in placed)]
        block = _nearest_free(rig.box(number), _block(axle, start, rig.middle, style), taken)
        if block is None:
            return None
        box = _bounds(block)
        placed.append(_Number(tuple(block), abs((box.left + box.right) / 2 - rig.axle_place(number, axle))))
    return placed


def _nearest_free(body: Box, block: list[Text], taken: Sequence[Box]) -> list[Text] | None:
    """The block moved along the rig as little as it takes to be clear of all that is there."""
    box = _bounds(block)
    if box.top < body.top + 1 or box.bottom > body.bottom - 1:
        return None
    steps = range(int((body.right - body.left) / _STEP))
    for shift in (sign * step * _STEP for step in steps for sign in (1, -1)):
        moved = Box(box.left + shift, box.top, box.right + shift, box.bottom)
        is_inside = body.left <= moved.left and moved.right <= body.right
        if is_inside and not any(moved.overlaps(other, gap=_CLEAR) for other in taken):
            return [text.moved(right=shift) for text in block]
    return None


def _axle_lines(x: float, inner: Sequence[Box], own: Box, others: Sequence[Box]) -> list[str]:
    """From tire to tire, open where a number stands; to the number where it stands beside."""
    upper = max(tire.bottom for tire in inner[: len(inner) // 2])
    lower = min(tire.top for tire in inner[len(inner) // 2 :])
    over = [box for box in (own, *others) if box.left - 1 < x < box.right + 1]
    corner = min(max(x, own.left + 2), own.right - 2)
    if not over:
        level = (own.top + own.bottom) / 2
        return [
            line((x, upper), (x, lower)),
            line((x, level), (own.left - 1.5 if x < own.left else own.right + 1.5, level)),
        ]
    top, bottom = min(box.top for box in over) - 1.5, max(box.bottom for box in over) + 1.5
    if own in over:
        return [line((x, upper), (x, max(upper, top))), line((x, min(lower, bottom)), (x, lower))]
    return [
        line((x, upper), (x, max(upper, top - 2)), (corner, own.top - 1)),
        line((x, min(lower, bottom)), (x, lower)),
    ]
