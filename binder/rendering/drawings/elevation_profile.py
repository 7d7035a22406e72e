"""A day's road from the side: stops on it, grades heavy, and what is not known of the road dashed."""

from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TypeAlias

from binder.cards.blocks import Drawing
from binder.cards.drawings import ElevationProfile, ProfileGrade, ProfilePoint, ProfileScale
from binder.rendering.drawings.svg import (
    GRAY,
    POINTS_PER_MM,
    Box,
    Point,
    Text,
    circle,
    drawing,
    line,
    polygon,
    rectangle,
)

_PLOT = 46.0
"""Points for the most that a day of the trip climbs or falls."""

_BARS = 56.0
"""Points at the right for the bars of the scale and their words."""

_GROUND = 9.0
"""Points of ground under the lowest place."""

_TIER = 12.0
"""A row of labels at 9 points."""

_EDGE = 5.0
"""Points left free at either side, so that a stop's circle is whole."""

_FLAT = 500.0
"""Feet of height the plot stands for at the least: a level day is drawn level."""

_OVER_A_MARK = 20.0
"""Points over its tip for the mark of a grade and its words."""

_GAP = 5.0
"""Points between two labels of one row."""


@dataclass(frozen=True)
class _Scale:
    """From miles and feet to points of the paper; ``top`` is the plot's upper edge, ``highest`` its feet."""

    top: float
    width: float
    longest: float
    lowest: float
    highest: float
    foot: float

    def at(self, along: float, height: float) -> Point:
        """Where a place of the road lies on paper."""
        x = _EDGE + along / self.longest * (self.width - 2 * _EDGE)
        return x, self.top + (self.highest - height) * self.foot

    @property
    def floor(self) -> float:
        """Lower edge of the ground."""
        return self.top + (self.highest - self.lowest) * self.foot + _GROUND


def elevation_profile(view: ElevationProfile) -> Drawing:
    """Draw a day's road from the side."""
    width = view.width_mm * POINTS_PER_MM - _BARS
    heights = [point.height for point in view.points]
    foot = _PLOT / max(view.scale.highest, _FLAT)
    flat = _Scale(0.0, width, view.scale.longest, min(heights), max(heights), foot)
    over = _tiered(_crests(view, flat))
    tiers = 1 + max((tier for _, tier in over), default=-1)
    scale = replace(flat, top=max(_TIER * tiers + 4, _room_over_marks(view, flat)))
    texts = [text.moved(down=scale.top - 4 - _TIER * tier) for text, tier in over]
    for grade in view.grades:
        label = _mark_label(scale, grade, view.points)
        # A mark whose words have no room stands without them: the lines of the leg say them.
        if not grade.is_placed and not any(label.box.overlaps(other.box, 0) for other in texts):
            texts.append(label)
    under = _least_crossed([_label(point, scale, width) for point in view.points if point.stop])
    stops = [text.moved(down=scale.floor + _TIER * (tier + 1) - 2) for text, tier in under]
    high = scale.floor + _TIER * (1 + max((tier for _, tier in under), default=-1)) + 2
    bars, words = _bars(view.scale, scale)
    size = view.width_mm, max(high, scale.floor + 2, *(text.box.bottom for text in words)) / POINTS_PER_MM
    return drawing([*_shapes(view, scale, stops), *bars], [*texts, *stops, *words], size, view.alternative)


def _bars(told: ProfileScale, scale: _Scale) -> tuple[list[str], list[Text]]:
    """What a bar up and a bar along stand for: the same on every day of the trip."""
    rise, run = told.rise[0] * scale.foot, told.run[0] / told.longest * (scale.width - 2 * _EDGE)
    left, foot = scale.width + 14, max(scale.floor, rise + 2)
    shape = line((left, foot - rise), (left, foot), (left + run, foot), width=0.8)
    up = Text(told.rise[1], left + 4, foot - rise / 2)
    return [shape], [up, Text(told.run[1], left, foot + _TIER - 2)]


def _shapes(view: ElevationProfile, scale: _Scale, labels: list[Text]) -> list[str]:
    road = [scale.at(point.along, point.height) for point in view.points]
    ground = [(road[0][0], scale.floor), *road, (road[-1][0], scale.floor)]
    sides = line(ground[1], ground[0], ground[-1], ground[-2], width=0.8)
    shapes = [polygon(*ground, fill=GRAY, width=0.01), sides, *_stems(view, scale, labels)]
    for before, after in pairwise(view.points):
        is_grade = any(one.is_placed and _is_within(before, after, one) for one in view.grades)
        ends = scale.at(before.along, before.height), scale.at(after.along, after.height)
        shapes.append(line(*ends, width=3.2) if is_grade else line(*ends, width=1.0, dash="4 2.5"))
    shapes += [_wedge(scale, one, view.points) for one in view.grades if not one.is_placed]
    stops = [scale.at(point.along, point.height) for point in view.points if point.stop]
    return [*shapes, *(circle(stop, 3.4, width=1.4) for stop in stops)]


def _is_within(before: ProfilePoint, after: ProfilePoint, grade: ProfileGrade) -> bool:
    return grade.start <= before.along and after.along <= grade.end


def _stems(view: ElevationProfile, scale: _Scale, labels: list[Text]) -> list[str]:
    """Hairlines from each stop down to its label, behind the labels of other stops."""
    stops = [scale.at(point.along, point.height) for point in view.points if point.stop]
    stems = [line((x, y), (x, label.box.top), width=0.6) for (x, y), label in zip(stops, labels, strict=True)]
    # White under a label keeps the stem of another stop out of its letters.
    return [*stems, *(rectangle(label.box, "#fff", 0) for label in labels)]


def _room_over_marks(view: ElevationProfile, scale: _Scale) -> float:
    """Points the plot must stand lower for the words of every mark to be inside the drawing."""
    tips = [_tip(scale, one, view.points)[1] for one in view.grades if not one.is_placed]
    return max((_OVER_A_MARK - tip for tip in tips), default=0.0)


def _tip(scale: _Scale, grade: ProfileGrade, points: tuple[ProfilePoint, ...]) -> Point:
    """Where the mark of a grade points: just over the road of the leg that has it somewhere."""
    x, y = scale.at(grade.start, _height_at(grade.start, points))
    return x, y - 4


def _wedge(scale: _Scale, grade: ProfileGrade, points: tuple[ProfilePoint, ...]) -> str:
    x, y = _tip(scale, grade, points)
    return polygon((x, y), (x - 4, y - 7), (x + 4, y - 7), fill="#000", width=0.1)


def _mark_label(scale: _Scale, grade: ProfileGrade, points: tuple[ProfilePoint, ...]) -> Text:
    x, y = _tip(scale, grade, points)
    return _inside(Text(grade.label, x, y - 10, is_bold=True, anchor="middle"), scale.width)


def _height_at(along: float, points: tuple[ProfilePoint, ...]) -> float:
    """Height of the drawn line, only to set a mark upon it."""
    for before, after in pairwise(points):
        if before.along <= along <= after.along:
            share = (along - before.along) / ((after.along - before.along) or 1.0)
            return before.height + share * (after.height - before.height)
    return points[-1].height


def _label(point: ProfilePoint, scale: _Scale, width: float) -> Text:
    x, _ = scale.at(point.along, point.height)
    # A long name is cut, and never its height.
    name = Text(point.stop, x, 0, anchor="middle").fitted(width - Text(f" {point.told}", x, 0).width)
    return _inside(replace(name, text=f"{name.text} {point.told}"), width)


def _inside(text: Text, width: float) -> Text:
    """Push a label that leaves the drawing back into it."""
    box = text.box
    return text.moved(right=max(0.0, -box.left) - max(0.0, box.right - width))


def _crests(view: ElevationProfile, scale: _Scale) -> list[Text]:
    """Labels above the grades that are placed."""
    placed = [one for one in view.grades if one.is_placed]
    crests = (Text(one.label, scale.at(one.crest, 0)[0], 0, is_bold=True, anchor="middle") for one in placed)
    return [_inside(text, scale.width) for text in crests]


_Tiered: TypeAlias = list[tuple[Text, int]]


def _least_crossed(texts: list[Text]) -> _Tiered:
    """Order labels in rows so that the fewest are crossed by the stem of a label below them."""
    orders = (texts, texts[::-1], sorted(texts, key=lambda text: text.width))
    tried = [_in_order(_tiered(list(order)), texts) for order in orders]
    return min(tried, key=lambda placed: (_crossings(placed), max((tier for _, tier in placed), default=0)))


def _in_order(placed: _Tiered, texts: list[Text]) -> _Tiered:
    tiers = {id(text): tier for text, tier in placed}
    return [(text, tiers[id(text)]) for text in texts]


def _crossings(placed: _Tiered) -> int:
    return sum(
        other < tier and label.box.left < text.x < label.box.right
        for text, tier in placed
        for label, other in placed
        if label is not text
    )


def _tiered(texts: list[Text]) -> _Tiered:
    """Give each label the first row it has room in, from the left."""
    rows: list[list[Box]] = []
    placed = []
    for text in texts:
        box = Box(text.box.left, 0, text.box.right, 1)
        tier = next(
            (number for number, row in enumerate(rows) if not any(box.overlaps(one, _GAP) for one in row)),
            len(rows),
        )
        if tier == len(rows):
            rows.append([])
        rows[tier].append(box)
        placed.append((text, tier))
    return placed
