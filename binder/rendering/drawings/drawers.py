"""Each view with who draws it, and a picture made of it."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import lru_cache
from math import inf
from typing import Any

from binder.cards.blocks import Drawing, Note, Picture
from binder.cards.drawings import (
    ElevationProfile,
    LoadChart,
    MarginBars,
    PlanView,
    Readings,
    TankStrips,
    TireMap,
    View,
    WarningDevices,
)
from binder.rendering.drawings.bars import margin_bars, tank_strips
from binder.rendering.drawings.elevation_profile import elevation_profile
from binder.rendering.drawings.plan_view import plan_view
from binder.rendering.drawings.readings import readings
from binder.rendering.drawings.tires import load_chart, tire_map
from binder.rendering.drawings.warning_devices import warning_devices
from binder.rendering.paper import POINTS_PER_MM

DRAWERS: Mapping[type[View], Callable[[Any], Drawing]] = {
    PlanView: plan_view,
    TireMap: tire_map,
    WarningDevices: warning_devices,
    MarginBars: margin_bars,
    LoadChart: load_chart,
    ElevationProfile: elevation_profile,
    TankStrips: tank_strips,
    Readings: readings,
}
"""Who draws what; a test holds that every view has one."""


@lru_cache
def drawn(picture: Picture, width: float = inf) -> Drawing | Note:
    """Draw a picture from its data, no wider than its column."""
    view = replace(picture.view, width_mm=min(picture.view.width_mm, width / POINTS_PER_MM))
    try:
        return DRAWERS[type(view)](view)
    except ValueError as fault:
        walk = tuple(one for one in view.things if one.walk) if isinstance(view, PlanView) else ()
        if isinstance(view, PlanView) and 0 < len(walk) < len(view.things):
            # What has no number is told in words beside it: the walk alone is drawn rather than nothing.
            return drawn(Picture(replace(view, things=walk)), width)
        # Words too many for a picture never keep the paper from an owner: tables beside it say the same.
        return Note(f"No drawing: {fault}. What it would show stands beside it in words.")
