"""Distances on the road that follow from the rig's length: the gap ahead, and the warning devices."""

from binder.assessment.body import kinds
from binder.assessment.coupling.combination_length import LENGTH_KEY
from binder.assessment.figures import Ledger
from binder.assessment.known_quantity import known_quantity
from binder.assessment.ledger import Fact, Figure, Input, Phrase
from binder.calculations.route.distances import (
    FASTER_SPEED,
    PACE,
    Road,
    WarningDevice,
    following_gap,
    paces,
    warning_devices,
)
from binder.quantities import registry

_SLOWER = registry.Quantity(39.0, "mile_per_hour")  # Any speed under the manual's 40 mph.
_ROADS: tuple[Road, ...] = ("two-way", "divided")
_NEAR = registry.Quantity(10.0, "foot")  # 49 CFR 392.22(b)(1).
_MIDDLE = registry.Quantity(100.0, "foot")  # 49 CFR 392.22(b)(1).
_FACTS: dict[str, Fact] = {**kinds.DEVICE_FACTS, "pace": PACE}


def assess_following_gap(ledger: Ledger) -> None:
    """Enter the gap to the vehicle ahead, under and from 40 mph."""
    length = known_quantity(ledger, LENGTH_KEY)
    inputs = (Input(kinds.LENGTH_COUPLED, length, Phrase(LENGTH_KEY)),)
    for kind, speed in ((kinds.GAP_BELOW_40, _SLOWER), (kinds.GAP_FROM_40, FASTER_SPEED)):
        gap = None if length is None else following_gap(length, speed)
        ledger.enter(Figure(kind.of(), gap, inputs, facts=kinds.GAP_FACTS))


def assess_warning_devices(ledger: Ledger) -> None:
    """Enter where the three warning devices go on each kind of road, as distance and in paces."""
    for road in _ROADS:
        for device in warning_devices(road):
            _enter_device(road, device, ledger)
    length = known_quantity(ledger, LENGTH_KEY)
    if length is not None:
        inputs = (Input(kinds.LENGTH_COUPLED, length, Phrase(LENGTH_KEY)),)
        key = kinds.PACES_FROM_REAR.of("two_way", "ahead")
        ledger.enter(Figure(key, float(paces(length + _MIDDLE, PACE)), inputs, facts=_FACTS))


def _name(device: WarningDevice) -> str:
    if device.side == "ahead":
        return "ahead"
    if device.distance <= _NEAR:
        return "near_behind"
    return "behind" if device.distance <= _MIDDLE else "far_behind"


def _enter_device(road: Road, device: WarningDevice, ledger: Ledger) -> None:
    subject = (road.replace("-", "_"), _name(device))
    facts = {**_FACTS, "traffic": kinds.TRAFFIC[road], "counted_from": kinds.COUNTED_FROM[device.side]}
    ledger.enter(Figure(kinds.DEVICE_DISTANCE.of(*subject), device.distance, facts=facts))
    count = float(paces(device.distance, PACE))
    ledger.enter(Figure(kinds.DEVICE_PACES.of(*subject), count, facts=facts))
