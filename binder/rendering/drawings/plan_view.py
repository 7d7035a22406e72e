"""The whole rig from above, to scale, with the numbers and names where the hand will be."""

from dataclasses import dataclass, replace

from binder.cards.blocks import Drawing
from binder.cards.drawings import PlanView, Thing
from binder.rendering.drawings.flags import Flag, flag_rows, spread
from binder.rendering.drawings.rig_outline import Outlines, front_positions, outline_shapes
from binder.rendering.drawings.set_points import set_points
from binder.rendering.drawings.svg import POINTS_PER_MM, Box, Text, circle, drawing, line, measured

_ROWS = {9: 15.0, 13: 18.0}
"""Height of a row of labels in points by their size: a numbered circle and 1.5 points, or a row of a card."""

_CIRCLE = 6.8
"""Radius of the circle around a walk number: two figures of 9 points fit inside."""

_BAND = 13.0
"""Points between a rig and its first row of labels, where stems may slant."""

_SLANT = 0.25
"""Height of that band for each point a stem is moved, so that slanting stems stay apart."""

_BESIDE = 6.0
"""Points between a rig's end and the labels before or behind it."""

_END_WIDTH = 64.0
"""Points after which a label at an end is broken: about an inch, so that the rig keeps its room."""

_END_ROW = 1.3
"""Height of a row there, in parts of the size."""

_MARGIN = 1.0
"""Points around it all, so that no outline is cut in half."""

_CAP_MIDDLE = 0.38
"""Half the height of capitals and figures in parts of the size: from the typeface's glyf table."""


@dataclass(frozen=True)
class _Frame:
    """Room left and right of the rig, and where the drawing's rows lie."""

    rig: Outlines
    width: float
    half: float


@dataclass(frozen=True)
class _Layer:
    """Elements, and the texts to be painted over them."""

    shapes: tuple[str, ...] = ()
    texts: tuple[Text, ...] = ()

    def __add__(self, other: "_Layer") -> "_Layer":
        return _Layer(self.shapes + other.shapes, self.texts + other.texts)


def plan_view(view: PlanView) -> Drawing:
    """Draw a rig from above.

    The front is at the left. Labels stand outside: those of the rig's right side above, of its left
    side below, of its ends before and behind; stems lead to what they name. Where labels go is
    decided by ``flags``; the same rig is always drawn the same way.
    """
    width = view.width_mm * POINTS_PER_MM
    frame = _frame(view, width)
    above, below = (_side(view, frame, side) for side in ("right", "left"))
    ends = _end(view, frame, "front") + _end(view, frame, "rear")
    foot = _foot(view, frame, below[1])
    numbers = set_points(frame.rig, _inside(view, frame))
    shapes = [*outline_shapes(frame.rig), *numbers[0], *above[0].shapes, *below[0].shapes, *ends.shapes]
    texts = [*numbers[1], *above[0].texts, *below[0].texts, *ends.texts, *foot[0].texts]
    # The rig was laid out around 0; now the height above it is known.
    top, bottom = above[1] + _MARGIN, foot[1] + _MARGIN
    moved = f'<g transform="translate(0 {top:.2f})">{"".join([*shapes, *foot[0].shapes])}</g>'
    return drawing(
        [moved],
        [text.moved(down=top) for text in texts],
        (view.width_mm, (top + bottom) / POINTS_PER_MM),
        view.alternative,
    )


def _frame(view: PlanView, width: float) -> _Frame:
    fronts = front_positions(view.vehicles)
    length = max(front + vehicle.length for front, vehicle in zip(fronts, view.vehicles, strict=True))
    before, behind = (_room(view, side) for side in ("front", "rear"))
    scale = (width - before - behind - 2 * _MARGIN) / length
    if scale <= 0:
        raise ValueError("the labels at the ends leave no room for the rig; shorten them")
    widest = max(vehicle.width for vehicle in view.vehicles)
    if view.body_mm:
        scale = min(scale, view.body_mm * POINTS_PER_MM / widest)
    # A short rig that is kept low stands in the middle of its room.
    start = before + (width - before - behind - length * scale) / 2
    places = tuple(start + front * scale for front in fronts)
    half = widest * scale / 2
    return _Frame(Outlines(view.vehicles, places, scale, 0.0), width, half)


def _room(view: PlanView, side: str) -> float:
    widths = [
        max([2 * _CIRCLE, *(_said(view, thing, row).width for row in _broken(view, thing))]) + _BESIDE
        for thing in view.things
        if thing.side == side
    ]
    return max(widths, default=0.0)


def _said(view: PlanView, thing: Thing, words: str) -> Text:
    return Text(words, 0, 0, view.points, is_bold=thing.is_bold)


def _broken(view: PlanView, thing: Thing) -> list[str]:
    """A label at an end in rows, broken between words, so that it takes little of the rig's room."""
    rows: list[str] = []
    for word in thing.label.split():
        longer = f"{rows[-1]} {word}" if rows else word
        if rows and _said(view, thing, longer).width <= _END_WIDTH:
            rows[-1] = longer
        else:
            rows.append(word)
    return rows


def _place(frame: _Frame, thing: Thing) -> tuple[float, float]:
    """The point a stem starts from."""
    box, scale = frame.rig.box(thing.vehicle), frame.rig.scale
    if thing.side in {"front", "rear"}:
        inward = thing.inward * scale
        return (box.left + inward if thing.side == "front" else box.right - inward), 0.0
    along = box.left + thing.position * scale
    if not box.left <= along <= box.right:
        return along, 0.0  # Ahead of or behind a vehicle there is only its coupling, in the middle.
    return along, (
        box.top + thing.inward * scale if thing.side == "right" else box.bottom - thing.inward * scale
    )


def _inside(view: PlanView, frame: _Frame) -> list[Box]:
    """Dots and stems that numbers must keep clear of."""
    boxes = []
    for thing in view.things:
        x, y = _place(frame, thing)
        edge = {"right": -frame.half, "left": frame.half}.get(thing.side, y)
        boxes.append(Box(x - 3, min(y, edge) - 3, x + 3, max(y, edge) + 3))
    return boxes


def _side(view: PlanView, frame: _Frame, side: str) -> tuple[_Layer, float]:
    """Labels above (of the right side) or below, and how far they reach from the rig's middle."""
    things = sorted(
        (thing for thing in view.things if thing.side == side),
        key=lambda thing: (_place(frame, thing)[0], thing.walk, thing.label),
    )
    for thing in things:
        if not 0 <= _place(frame, thing)[0] <= frame.width:
            raise ValueError(
                f"{thing.label!r} is {thing.position:g} mm along its vehicle, outside the drawing"
            )
    flags, high = [_flag(view, frame, thing) for thing in things], _ROWS[view.points]
    placed, out = flag_rows(flags, frame.width), -1 if side == "right" else 1
    moved = max((abs(at.stem - flag.wanted) for at, flag in zip(placed, flags, strict=True)), default=0.0)
    start = max(frame.half, _stack_height(view) / 2) + _BAND + _SLANT * moved
    layer = _Layer()
    for thing, flag in zip(things, placed, strict=True):
        row = out * (start + (flag.row + 0.5) * high)
        x, y = _place(frame, thing)
        stem = line((x, y), (x, out * (frame.half + 3)), (flag.stem, out * (start - 2)), (flag.stem, row))
        layer += _Layer((stem, circle((x, y), 1.8)))
        layer += _label(view, thing, (flag.stem, row), -1 if flag.is_mirrored else 1)
    rows = 1 + max((flag.row for flag in placed), default=-1)
    return layer, start + rows * high if rows else start - _BAND + 4


def _flag(view: PlanView, frame: _Frame, thing: Thing) -> Flag:
    reach = _CIRCLE if thing.walk else 0.5
    return Flag(_place(frame, thing)[0], reach, reach + 3 + _said(view, thing, thing.label).width)


def _label(view: PlanView, thing: Thing, end: tuple[float, float], out: int) -> _Layer:
    """Words beside a stem's end, a walk number upon it."""
    x, y = end
    base, reach = y + _CAP_MIDDLE * view.points, _CIRCLE if thing.walk else 0.5
    words = replace(
        _said(view, thing, thing.label),
        x=x + out * (reach + 3), y=base, anchor="start" if out > 0 else "end",
    )  # fmt: skip
    if not thing.walk:
        return _Layer((), (words,))
    number = Text(thing.walk, x, base, is_bold=True, anchor="middle")
    return _Layer((circle(end, _CIRCLE),), (number, words))


def _stack_height(view: PlanView) -> float:
    return max(
        sum(_end_height(view, thing) for thing in view.things if thing.side == side)
        for side in ("front", "rear")
    )


def _end_height(view: PlanView, thing: Thing) -> float:
    return (_ROWS[9] if thing.walk else 4.0) + _END_ROW * view.points * len(_broken(view, thing))


def _end(view: PlanView, frame: _Frame, side: str) -> _Layer:
    """Labels before or behind the rig, one under the other around its middle."""
    things = [thing for thing in view.things if thing.side == side]
    number = 0 if side == "front" else len(view.vehicles) - 1
    for thing in things:
        if thing.vehicle != number:
            raise ValueError(f"{thing.label!r} is at no end of the rig; give it a side")
    out, box = (-1 if side == "front" else 1), frame.rig.box(number)
    middle = (box.left if out < 0 else box.right) + out * (_BESIDE + (_room(view, side) - _BESIDE) / 2)
    y, layer = -sum(_end_height(view, thing) for thing in things) / 2, _Layer()
    for thing in things:
        layer += _end_label(view, thing, (middle, y))
        if thing.inward or not thing.walk:
            layer += _Layer((circle(_place(frame, thing), 1.8),))
        y += _end_height(view, thing)
    return layer


def _end_label(view: PlanView, thing: Thing, top: tuple[float, float]) -> _Layer:
    """A walk number, and the rows of the label under it."""
    x, y = top
    layer, half, row_high = _Layer(), _ROWS[9] / 2, _END_ROW * view.points
    if thing.walk:
        number = Text(thing.walk, x, y + half + _CAP_MIDDLE * 9, is_bold=True, anchor="middle")
        layer = _Layer((circle((x, y + half), _CIRCLE),), (number,))
    words = _broken(view, thing)
    start = y + _end_height(view, thing) - row_high * len(words) - 3
    rows = [
        replace(_said(view, thing, row), x=x, y=start + row_high * place, anchor="middle")
        for place, row in enumerate(words, start=1)
    ]
    return layer + _Layer((), tuple(rows))


def _foot(view: PlanView, frame: _Frame, top: float) -> tuple[_Layer, float]:
    """Each vehicle's name under it, then the length over all, then the scale."""
    boxes = [frame.rig.box(number) for number in range(len(view.vehicles))]
    left, right = boxes[0].left, max(box.right for box in boxes)
    layer, bottom = _Layer((), tuple(_names(view, frame, boxes, top + 15))), top + 20
    if not any(vehicle.name for vehicle in view.vehicles):
        bottom = top + 4
    if view.overall:
        over = bottom + 6
        words = Text(view.overall, (left + right) / 2, over + 11, anchor="middle")
        layer, bottom = layer + _Layer((measured((left, over), (right, over)),), (words,)), bottom + 20
    if view.scale_label:
        end, bar = left + view.scale_bar * frame.rig.scale, bottom + 10
        words = Text(view.scale_label, end + 5, bar + _CAP_MIDDLE * 8, size=8)
        layer, bottom = layer + _Layer((measured((left, bar), (end, bar)),), (words,)), bar + 6
    return layer, bottom


def _names(view: PlanView, frame: _Frame, boxes: list[Box], base: float) -> list[Text]:
    most = (frame.width - 8 * len(boxes)) / len(boxes)
    names = [
        Text(vehicle.name, 0, base, is_bold=True, anchor="middle").fitted(most) for vehicle in view.vehicles
    ]
    halves = [name.width / 2 for name in names]
    places = spread(
        [(box.left + box.right) / 2 for box in boxes],
        lambda i, j: halves[i] + halves[j] + 2 * sum(halves[i + 1 : j]) + 8 * (j - i),
        [(half, frame.width - half) for half in halves],
    )
    return [name.moved(right=place) for name, place in zip(names, places, strict=True)]
