"""A rig's vehicles, tires and couplings seen from above, to scale."""

from dataclasses import dataclass

from binder.cards.drawings import Axle, Vehicle
from binder.rendering.drawings.svg import GRAY, HAIRLINE, Box, circle, line, polygon, rectangle

_CORNER = {"motorhome": 350.0, "car": 550.0, "pickup": 450.0, "trailer": 120.0}
"""Radius of an outline's corners in millimeters: only so that shapes are told apart, own choice."""

_WINDSHIELD = 220.0
"""Millimeters from a motorhome's front to the line that stands for its windshield: own choice."""

_OPEN = 17.0
"""Points on either side of a rig's middle that are left to a number of 24 points and its unit."""

_PAIR_SPACING = 1.15
"""Middles of two tires of a pair, in tire widths: a gap that shows on paper, own choice."""


@dataclass(frozen=True)
class Outlines:
    """Vehicles placed on paper: ``fronts`` in points from the left, ``scale`` in points per millimeter."""

    vehicles: tuple[Vehicle, ...]
    fronts: tuple[float, ...]
    scale: float
    middle: float

    def box(self, number: int) -> Box:
        """A vehicle's outline on paper."""
        vehicle, front = self.vehicles[number], self.fronts[number]
        half = vehicle.width * self.scale / 2
        return Box(front, self.middle - half, front + vehicle.length * self.scale, self.middle + half)

    def axle_place(self, number: int, axle: Axle) -> float:
        """Where an axle of a vehicle lies along the rig."""
        return self.fronts[number] + (self.vehicles[number].front_overhang + axle.position) * self.scale


def front_positions(vehicles: tuple[Vehicle, ...]) -> tuple[float, ...]:
    """Where the front of each vehicle lies behind the front of the first."""
    fronts = [0.0]
    for vehicle in vehicles[1:]:
        if vehicle.coupling is None:
            raise ValueError(f"{vehicle.name!r} has no coupling to the vehicle ahead of it")
        fronts.append(fronts[-1] + vehicle.coupling.behind_front_ahead - vehicle.coupling.behind_own_front)
    return tuple(fronts)


def outline_shapes(rig: Outlines) -> list[str]:
    """Draw couplings, outlines and tires, in the order they are painted."""
    shapes = [shape for number in range(1, len(rig.vehicles)) for shape in _coupling(rig, number)]
    for number in range(len(rig.vehicles)):
        shapes += _body(rig, number)
    for number in range(len(rig.vehicles) - 1):
        shapes += _covered(rig, number)
    shapes += [circle(place, 3.0) for place in kingpins(rig)]
    for number, vehicle in enumerate(rig.vehicles):
        shapes += [
            rectangle(tire, "#000", 0, 1.5) for axle in vehicle.axles for tire in tires(rig, number, axle)
        ]
    return shapes


def kingpins(rig: Outlines) -> list[tuple[float, float]]:
    """Places of the joints that lie under a trailer's nose."""
    return [
        (rig.fronts[number] + vehicle.coupling.behind_own_front * rig.scale, rig.middle)
        for number, vehicle in enumerate(rig.vehicles)
        if vehicle.coupling and vehicle.coupling.kind == "kingpin"
    ]


def tires(rig: Outlines, number: int, axle: Axle) -> list[Box]:
    """Place the tires of an axle."""
    along, half = rig.axle_place(number, axle), axle.tire_diameter * rig.scale / 2
    apart = _PAIR_SPACING * axle.tire_width / 2 if axle.fitment == "dual" else 0.0
    wide = axle.tire_width * rig.scale / 2
    offsets = sorted({side * axle.track / 2 + inner * apart for side in (-1, 1) for inner in (-1, 1)})
    places = [rig.middle + offset * rig.scale for offset in offsets]
    return [Box(along - half, place - wide, along + half, place + wide) for place in places]


def _body(rig: Outlines, number: int) -> list[str]:
    box, shape = rig.box(number), rig.vehicles[number].shape
    shapes = [rectangle(box, "#fff", radius=_CORNER[shape] * rig.scale)]
    if shape == "motorhome":
        glass, deep = box.left + _WINDSHIELD * rig.scale, (box.bottom - box.top) / 2 - _OPEN
        # Open in the middle: there the number of the first axle may stand.
        shapes += [
            line((glass, edge + out * 3), (glass, edge + out * deep), width=1.0)
            for edge, out in ((box.top, 1), (box.bottom, -1))
            if deep > _OPEN / 4
        ]
    return shapes


def _covered(rig: Outlines, number: int) -> list[str]:
    """Dash the outline of a pickup again: what lies under its trailer's nose shows through."""
    ahead, behind = rig.box(number), rig.box(number + 1)
    if behind.left >= ahead.right:
        return []
    return [
        rectangle(ahead, radius=_CORNER[rig.vehicles[number].shape] * rig.scale, width=HAIRLINE, dash="3 2")
    ]


def _coupling(rig: Outlines, number: int) -> list[str]:
    vehicle, ahead, own = rig.vehicles[number], rig.box(number - 1), rig.box(number)
    if vehicle.coupling is None or vehicle.coupling.kind == "kingpin":
        return []
    joint = (own.left + vehicle.coupling.behind_own_front * rig.scale, rig.middle)
    spread = vehicle.width * rig.scale * (0.3 if vehicle.coupling.kind == "bar" else 0.36)
    feet = [(own.left, rig.middle - spread), (own.left, rig.middle + spread)]
    shapes = [line((ahead.right, rig.middle), joint, width=2.4)]
    if vehicle.coupling.kind == "tongue":
        shapes.append(polygon(joint, *feet, fill=GRAY, width=1.0))
    else:
        shapes += [line(joint, foot, width=1.2) for foot in feet]
    return [*shapes, circle(joint, 2.2, fill="#000")]
