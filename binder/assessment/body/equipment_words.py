"""Words for equipment, as tables of rules use them: each tells whether a rig has it."""

from collections.abc import Mapping
from types import MappingProxyType

from binder.assessment.body.equipment import is_lived_in
from binder.assessment.conditions import (
    AIR_BRAKES,
    BREAKAWAY,
    DISTRIBUTION,
    DUALS,
    SUPPLEMENTAL_BRAKE,
    Condition,
    always,
    coupled_by,
    driven,
    equipped,
    holds,
    is_coupled,
)
from binder.models.rig import Rig

_HEAVY = ("truck", "european commercial")


def _engine(rig: Rig) -> bool:
    return driven(rig)[1].kind in {"motorhome", "pickup", "car"}


def _lived_in(rig: Rig) -> bool:
    return any(is_lived_in(vehicle) for vehicle in rig.vehicles.values())


def _trailer(rig: Rig) -> bool:
    return any(vehicle.kind == "trailer" for vehicle in rig.vehicles.values())


def _light_tires(rig: Rig) -> bool:
    return any(tires.family is not None and tires.family not in _HEAVY for tires in rig.tires.values())


def _brake_controller(rig: Rig) -> bool:
    return any(bool(vehicle.equipment.brake_controller) for vehicle in rig.vehicles.values())


def _fluid(name: str) -> Condition:
    return lambda rig: any(name in vehicle.fluids for vehicle in rig.vehicles.values())


WORDS: Mapping[str, Condition] = MappingProxyType(
    {
        "always": always,
        "engine": _engine,
        "diesel": holds("diesel"),
        "gasoline": holds("gasoline"),
        "exhaust fluid": holds("exhaust fluid"),
        "propane": holds("propane"),
        "fresh water": holds("fresh water"),
        "waste water": holds("gray water", "black water"),
        "transmission oil": _fluid("transmission oil"),
        "hydraulic oil": _fluid("hydraulic oil"),
        "brake fluid": _fluid("brake fluid"),
        "generator oil": _fluid("generator oil"),
        "hydronic fluid": _fluid("hydronic fluid"),
        "air brakes": AIR_BRAKES,
        "duals": DUALS,
        "light tires": _light_tires,
        "wipers": equipped("wipers"),
        "alarms": equipped("smoke_alarm", "carbon_monoxide_alarm", "propane_alarm"),
        "slide": equipped("slide"),
        "leveling jacks": equipped("leveling_jacks"),
        "brake controller": _brake_controller,
        "lived in": _lived_in,
        "coupled": is_coupled,
        "trailer": _trailer,
        "tow bar": coupled_by("tow bar"),
        "ball": coupled_by("ball"),
        "fifth wheel": coupled_by("fifth wheel"),
        "distribution": DISTRIBUTION,
        "supplemental brake": SUPPLEMENTAL_BRAKE,
        "breakaway": BREAKAWAY,
    }
)
"""The whole vocabulary: a rule with another word is a bug."""


def has(rig: Rig, needs: tuple[tuple[str, ...], ...]) -> bool:
    """Tell whether a rig has what a rule needs."""
    return any(all(WORDS[word](rig) for word in group) for group in needs)
