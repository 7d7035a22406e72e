"""What a vehicle's own entries say that can hardly be: its size, its label, its batteries.

The bands are practice: wide enough for any rig on a public road, narrow enough for most slips.
"""

from collections.abc import Iterator
from typing import TypeAlias

from binder.assessment.entries.body import length_apart
from binder.assessment.wording import Wording
from binder.models.vehicles import Battery, Label, Vehicle
from binder.quantities import Quantity, registry

VehicleDoubt: TypeAlias = tuple[int, str, str]


def _inches(value: float) -> Quantity:
    return registry.Quantity(value, "inch")


_HEIGHTS = (_inches(48), _inches(180))  # A low car, and 15 ft: no state lets more pass unasked.
_WIDEST = registry.Quantity(2.6, "meter")  # Without mirrors; wider needs leave: 23 CFR 658.15.
_MIRRORS = _inches(48)  # Both together.
_LENGTHS_ALIKE = _inches(2)
_LONGEST_OVER_WHEELBASE = 2.6
_TRACK_SHARES = (0.55, 1.0)  # Of the overall width.
_SUMS_ALIKE = registry.Quantity(50.0, "pound")
_AXLES_OVER_VEHICLE = (1.0, 1.35)  # Axle ratings together, as a share of the vehicle's.
_AXLES_OVER_CAR = 1.2
_COMBINATION_OVER_VEHICLE = (1.0, 3.5)
_SYSTEMS = (12, 24, 36, 48)  # Volts of a bank.
_CAPACITIES_ALIKE = 0.05


def vehicle_doubts(vehicle: Vehicle, wording: Wording) -> Iterator[VehicleDoubt]:
    """Entries of a vehicle that can hardly be as they are written."""
    for rule in (_size, _widths, _wheelbase, _tracks, _ratings):
        yield from rule(vehicle, wording)
    yield from _batteries(vehicle)


def ratio(part: Quantity, whole: Quantity) -> float:
    """One quantity as a share of another of its kind."""
    return float((part / whole).to("").m) if whole.m else float("inf")


def _size(vehicle: Vehicle, wording: Wording) -> Iterator[VehicleDoubt]:
    height, apart = vehicle.size.overall_height, length_apart(vehicle)
    if vehicle.kind != "dolly" and height is not None and not _HEIGHTS[0] <= height <= _HEIGHTS[1]:
        yield 3, "rig.overall_height", f"a height of {wording.length(height, 'up')} is unlikely"
    if apart is not None and abs(apart) > _LENGTHS_ALIKE:
        text = (
            f"overhangs and axles are {wording.length(max(apart, -1 * apart), 'up')} off its overall length"
        )
        yield 6, "rig.overall_length", text


def _widths(vehicle: Vehicle, wording: Wording) -> Iterator[VehicleDoubt]:
    width, with_mirrors = vehicle.size.overall_width, vehicle.size.width_with_mirrors
    if width is None:
        return
    if width > _WIDEST:
        text = f"a width of {wording.length(width, 'up')} without mirrors is more than roads allow unasked"
        yield 6, "rig.overall_width", text
    if with_mirrors is not None and not width <= with_mirrors <= width + _MIRRORS:
        yield 6, "rig.overall_width", "its width with mirrors does not suit that without"


def _wheelbase(vehicle: Vehicle, wording: Wording) -> Iterator[VehicleDoubt]:
    length, axles = vehicle.size.overall_length, list(vehicle.axles.values())
    if vehicle.kind in {"trailer", "dolly"} or length is None or len(axles) <= 1:
        return
    wheelbase = axles[1].at - axles[0].at
    if length > wheelbase * _LONGEST_OVER_WHEELBASE:
        short, long = wording.length(wheelbase, "up"), wording.length(length, "up")
        text = f"a length of {long} over a wheelbase of {short} is unlikely"
        yield 6, "rig.overall_length", text


def _tracks(vehicle: Vehicle, wording: Wording) -> Iterator[VehicleDoubt]:
    width = vehicle.size.overall_width
    for name, axle in vehicle.axles.items():
        if width is None or axle.track is None:
            continue
        if not _TRACK_SHARES[0] <= ratio(axle.track, width) <= _TRACK_SHARES[1]:
            text = f"a track of {wording.length(axle.track, 'up')} at {name} does not suit its width"
            yield 6, "weights.track", text


def _ratings(vehicle: Vehicle, wording: Wording) -> Iterator[VehicleDoubt]:
    label = vehicle.label
    whole, combination = label.gross_vehicle_weight_rating, label.gross_combination_weight_rating
    if whole is None:
        return
    axles = [axle.rating for axle in vehicle.axles.values() if axle.rating is not None]
    if len(axles) == len(vehicle.axles) and vehicle.kind not in {"trailer", "dolly"}:
        share = ratio(sum(axles, start=whole * 0), whole)
        most = _AXLES_OVER_CAR if vehicle.kind == "car" else _AXLES_OVER_VEHICLE[1]
        if not _AXLES_OVER_VEHICLE[0] <= share <= most:
            text = f"its axle ratings together are {share:.0%} of its gross vehicle weight rating"
            yield 6, "weights.ratings", text
    if combination is not None:
        share = ratio(combination, whole)
        if not _COMBINATION_OVER_VEHICLE[0] <= share <= _COMBINATION_OVER_VEHICLE[1]:
            text = f"its combination rating is {share:.0%} of its gross vehicle weight rating"
            yield 6, "weights.combination_rating", text
    yield from _capacity(label, whole, wording)


def _capacity(label: Label, whole: Quantity, wording: Wording) -> Iterator[VehicleDoubt]:
    empty, carried = label.unloaded_vehicle_weight, label.occupant_and_cargo_carrying_capacity
    if empty is None or carried is None:
        return
    apart = abs(empty + carried - whole)
    if apart > _SUMS_ALIKE:
        text = (
            f"unloaded weight and carrying capacity are {wording.weight(apart, 'up')} off "
            "its gross vehicle weight rating"
        )
        yield 6, "weights.label_capacity", text


def _batteries(vehicle: Vehicle) -> Iterator[VehicleDoubt]:
    for name, bank in vehicle.batteries.items():
        stored = _amounts_possible(bank)
        if bank.total is None or not stored:
            continue
        total = float(bank.total.to("ampere_hour").m)
        if all(abs(total - one) > _CAPACITIES_ALIKE * one for one in stored):
            one = f"{bank.each:g~P} at {bank.voltage:g~P}"
            yield 9, "rig.batteries", f"{bank.count} {name} batteries of {one} do not make {total:g} Ah"


def _amounts_possible(bank: Battery) -> list[float]:
    """Capacity of a bank at each common voltage that its batteries can be joined to, in ampere hours."""
    if bank.count is None or bank.each is None or bank.voltage is None:
        return []
    whole = bank.count * float(bank.each.to("ampere_hour").m) * float(bank.voltage.to("volt").m)
    return [whole / volts for volts in _SYSTEMS]
