"""Fluids that a vehicle's equipment implies, and what of its fluids is not noted."""

import re
from collections.abc import Iterator

from binder.models.vehicles import Fluid, Vehicle

_DRIVEN = {"motorhome", "pickup"}

# Name, and the words by which an entry of the profile is known to be it.
_ENGINE = (
    ("engine oil", r"engine oil"),
    ("coolant", r"coolant|antifreeze"),
    ("washer fluid", r"washer"),
)
_DRIVE = (("transmission oil", r"transmission|gearbox"), ("axle oil", r"axle oil|differential|gear oil"))
_STEERING = ("power steering fluid", r"steering|hydraulic")
_SMALL = re.compile(r"brake|washer|water|grease|steering")
"""Fluids whose capacity nobody needs: they are filled to a mark, or by hand."""


def has_none(fluid: Fluid) -> bool:
    """Tell whether the vehicle has no such fluid, by its owner's word."""
    return bool(re.match(r"none\b", (fluid.specification or "").lower()))


def usual_fluids(vehicle: Vehicle) -> Iterator[tuple[str, str]]:
    """Give the fluids that a vehicle's equipment implies."""
    brakes = vehicle.brakes.service if vehicle.brakes else None
    if vehicle.engine or vehicle.kind in {*_DRIVEN, "car"}:
        yield from _ENGINE
    if vehicle.kind in _DRIVEN:
        yield from _DRIVE
    if vehicle.kind == "motorhome":
        yield _STEERING
    if brakes == "hydraulic":
        yield "brake fluid", r"brake"
    if brakes == "air" and vehicle.kind in _DRIVEN:
        yield "hub oil", r"hub|bearing"
    if vehicle.kind in {"trailer", "dolly"}:
        yield "wheel bearing grease", r"hub|bearing"
    yield from _of_equipment(vehicle)


def _of_equipment(vehicle: Vehicle) -> Iterator[tuple[str, str]]:
    if vehicle.generator:
        yield "generator oil", r"generator"
    if vehicle.hydronic_heater:
        yield "hydronic fluid", r"hydronic|heater"
    if any(tank.holds == "exhaust fluid" for tank in vehicle.tanks.values()):
        yield "exhaust fluid", r"exhaust fluid"
    if any("house" in name and bank.chemistry == "lead-acid" for name, bank in vehicle.batteries.items()):
        yield "battery water", r"batter|distilled"


def unlisted_fluids(vehicle: Vehicle) -> tuple[str, ...]:
    """List the fluids a vehicle's equipment implies and its profile does not name."""
    return tuple(
        name
        for name, pattern in usual_fluids(vehicle)
        if not any(re.search(pattern, words.lower()) for words in vehicle.fluids)
    )


def blanks_of(words: str, fluid: Fluid) -> tuple[str, ...]:
    """List what is not noted of one fluid."""
    if has_none(fluid):
        return ()
    lacking = (
        ("specification", fluid.specification is None),
        ("capacity", fluid.capacity is None and not _SMALL.search(words.lower())),
        ("where and how it is read", fluid.check is None),
    )
    return tuple(name for name, is_lacking in lacking if is_lacking)
