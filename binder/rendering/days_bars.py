"""Bars of days left, one a resource; what ends first is black, what is not known has no bar."""

from binder.cards.blocks import Drawing
from binder.cards.drawings import DaysBar, DaysBars
from binder.rendering.drawing import GRAY, POINTS_PER_MM, Box, Text, drawing, polygon, rectangle

_ROW = 16.6
"""Height of a row in points: one row of 13-point type."""

_BASE, _TOP, _BOTTOM = 12.5, 3.2, 13.2
"""Base line of the words, and the bar, within a row."""

_GAP = 8.0
"""Points between words and bar."""

_ARROW = 7.0
"""Points of the tip of a bar that is longer than the scale."""

_THINNEST = 1.5
"""Points of a bar that has next to nothing left: its outline alone."""


def days_bars(chart: DaysBars) -> Drawing:
    """Draw how long each resource lasts, all on one scale of days."""
    width = chart.width_mm * POINTS_PER_MM
    names = [_name(row, number * _ROW) for number, row in enumerate(chart.rows)]
    values = [_value(row, number * _ROW, width) for number, row in enumerate(chart.rows)]
    left = max((name.width for name in names), default=0.0) + _GAP
    right = width - max((value.width for value in values), default=0.0) - _GAP
    shapes = [
        _bar(row, number * _ROW, (left, right), chart.longest)
        for number, row in enumerate(chart.rows)
        if row.days is not None
    ]
    height = len(chart.rows) * _ROW / POINTS_PER_MM
    return drawing(shapes, [*names, *values], (chart.width_mm, height), chart.alternative)


def _name(row: DaysBar, top: float) -> Text:
    return Text(row.name, 0, top + _BASE, 13, is_bold=row.is_first)


def _value(row: DaysBar, top: float, width: float) -> Text:
    return Text(row.text, width, top + _BASE, 13, is_bold=True, anchor="end")


def _bar(row: DaysBar, top: float, ends: tuple[float, float], longest: float) -> str:
    left, right = ends
    fill, days = "#000" if row.is_first else GRAY, row.days or 0.0
    upper, lower = top + _TOP, top + _BOTTOM
    if days > longest:
        middle = (upper + lower) / 2
        neck = right - _ARROW
        outline = ((left, upper), (neck, upper), (right, middle), (neck, lower), (left, lower))
        return polygon(*outline, fill=fill, width=0.8)
    long = max((right - _ARROW - left) * days / longest, _THINNEST)
    return rectangle(Box(left, upper, left + long, lower), fill, 0.8)
