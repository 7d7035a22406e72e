"""What a vehicle's own entries say that can hardly be: its size, its label, its batteries.

The bands are practice: wide enough for any rig on a public road, narrow enough for most slips.
"""

from collections.abc import Iterator

from binder.assessment.entries import kinds
from binder.assessment.entries.body import length_apart
from binder.assessment.ledger import Fact, Finding, FindingKind
from binder.models.vehicles import Battery, Vehicle
from binder.quantities import Quantity, registry


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


def vehicle_doubts(name: str, vehicle: Vehicle) -> Iterator[Finding]:
    """Entries of a vehicle that can hardly be as they are written."""
    for rule in (_size, _widths, _wheelbase, _tracks, _ratings, _capacity, _batteries):
        yield from rule(name, vehicle)


def doubt(kind: FindingKind, *subject: str | int, **facts: Fact) -> Finding:
    """Make a finding that is about no figure."""
    return Finding(kind, kind.of(*subject), facts)


def ratio(part: Quantity, whole: Quantity) -> float:
    """One quantity as a share of another of its kind."""
    return float((part / whole).to("").m) if whole.m else float("inf")


def _size(name: str, vehicle: Vehicle) -> Iterator[Finding]:
    height, apart = vehicle.size.overall_height, length_apart(vehicle)
    if vehicle.kind != "dolly" and height is not None and not _HEIGHTS[0] <= height <= _HEIGHTS[1]:
        yield doubt(kinds.HEIGHT, name, height=height)
    if apart is not None and abs(apart) > _LENGTHS_ALIKE:
        yield doubt(kinds.OVERHANGS, name, apart=max(apart, -1 * apart))


def _widths(name: str, vehicle: Vehicle) -> Iterator[Finding]:
    width, with_mirrors = vehicle.size.overall_width, vehicle.size.width_with_mirrors
    if width is None:
        return
    if width > _WIDEST:
        yield doubt(kinds.WIDTH, name, width=width)
    if with_mirrors is not None and not width <= with_mirrors <= width + _MIRRORS:
        yield doubt(kinds.MIRRORS, name)


def _wheelbase(name: str, vehicle: Vehicle) -> Iterator[Finding]:
    length, axles = vehicle.size.overall_length, list(vehicle.axles.values())
    if vehicle.kind in {"trailer", "dolly"} or length is None or len(axles) <= 1:
        return
    wheelbase = axles[1].at - axles[0].at
    if length > wheelbase * _LONGEST_OVER_WHEELBASE:
        yield doubt(kinds.WHEELBASE, name, length=length, wheelbase=wheelbase)


def _tracks(name: str, vehicle: Vehicle) -> Iterator[Finding]:
    width = vehicle.size.overall_width
    for axle_name, axle in vehicle.axles.items():
        if width is None or axle.track is None:
            continue
        if not _TRACK_SHARES[0] <= ratio(axle.track, width) <= _TRACK_SHARES[1]:
            yield doubt(kinds.TRACK, name, track=axle.track, axle=axle_name)


def _ratings(name: str, vehicle: Vehicle) -> Iterator[Finding]:
    label = vehicle.label
    whole, combination = label.gross_vehicle_weight_rating, label.gross_combination_weight_rating
    if whole is None:
        return
    axles = [axle.rating for axle in vehicle.axles.values() if axle.rating is not None]
    if len(axles) == len(vehicle.axles) and vehicle.kind not in {"trailer", "dolly"}:
        share = ratio(sum(axles, start=whole * 0), whole)
        most = _AXLES_OVER_CAR if vehicle.kind == "car" else _AXLES_OVER_VEHICLE[1]
        if not _AXLES_OVER_VEHICLE[0] <= share <= most:
            yield doubt(kinds.AXLE_RATINGS, name, share=share)
    if combination is not None:
        share = ratio(combination, whole)
        if not _COMBINATION_OVER_VEHICLE[0] <= share <= _COMBINATION_OVER_VEHICLE[1]:
            yield doubt(kinds.COMBINATION_RATING, name, share=share)


def _capacity(name: str, vehicle: Vehicle) -> Iterator[Finding]:
    label = vehicle.label
    whole, empty = label.gross_vehicle_weight_rating, label.unloaded_vehicle_weight
    carried = label.occupant_and_cargo_carrying_capacity
    if whole is None or empty is None or carried is None:
        return
    apart = abs(empty + carried - whole)
    if apart > _SUMS_ALIKE:
        yield doubt(kinds.LABEL_CAPACITY, name, apart=apart)


def _batteries(name: str, vehicle: Vehicle) -> Iterator[Finding]:
    for words, bank in vehicle.batteries.items():
        stored = _amounts_possible(bank)
        if bank.total is None or not stored:
            continue
        total = float(bank.total.to("ampere_hour").m)
        if all(abs(total - one) > _CAPACITIES_ALIKE * one for one in stored):
            facts = {"count": bank.count, "each": bank.each, "voltage": bank.voltage}
            yield doubt(kinds.BATTERIES, name, **facts, bank=words, total=total)


def _amounts_possible(bank: Battery) -> list[float]:
    """Capacity of a bank at each common voltage that its batteries can be joined to, in ampere hours."""
    if bank.count is None or bank.each is None or bank.voltage is None:
        return []
    whole = bank.count * float(bank.each.to("ampere_hour").m) * float(bank.voltage.to("volt").m)
    return [whole / volts for volts in _SYSTEMS]
