"""What the input says that can hardly be: likely slips of a digit, a unit or a line, told as findings.

A contradiction is a problem and stops everything; what stands here may be true, so it is only told.
The bands are practice: wide enough for any rig on a public road, narrow enough for most slips.
"""

from collections.abc import Iterator

from binder.assessment.entries import kinds
from binder.assessment.entries.contradictions import length_apart
from binder.assessment.entries.trip_plausibility import trip_doubts
from binder.assessment.ledger import Fact, Finding, FindingKind, Ledger, Phrase
from binder.assessment.tires import kinds as tires
from binder.assessment.tires.axle import TireAxle, positions_of, rolling_tire_axles
from binder.assessment.tires.register_kinds import TREAD
from binder.assessment.weights.loads import StateLoads
from binder.assessment.weights.resting import carrying_coupling
from binder.assessment.weights.states import ticket_of
from binder.calculations.bounds import is_at_least
from binder.calculations.tires.load_tables import load_carried
from binder.models.load import Profile
from binder.models.rig import Coupling, ScaleTicket, VehicleWeights
from binder.models.vehicles import Vehicle
from binder.quantities import TORQUE, Quantity, number_in, registry


def _inches(value: float) -> Quantity:
    return registry.Quantity(value, "inch")


_UNEVEN_ENDS = 1.25
_STEP_TOLERANCE = 1e-6
_NOTHING = registry.Quantity(0.0, "pound")
_DEEPEST_TREAD = _inches(1.0)
_PLACARDS = (registry.Quantity(26, "psi"), registry.Quantity(60, "psi"))
_HIGHEST_PRESSURES = (registry.Quantity(30, "psi"), registry.Quantity(160, "psi"))
_WHEEL_LOADS = (registry.Quantity(600, "pound"), registry.Quantity(15_000, "pound"))
_TIRE_SPEEDS = (registry.Quantity(50, "mph"), registry.Quantity(186, "mph"))  # Speed symbols B to Y.
_HITCH_FROM_REAR = _inches(36)
_BASE_PLATES = (_inches(-60), _inches(0))  # Ahead of a towed car's front axle.
_FEWER_ABOARD = registry.Quantity(250.0, "pound")
_NUT_TORQUES = (TORQUE.read("40 ft*lb"), TORQUE.read("800 ft*lb"))
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


def assess_plausibility(profile: Profile, states: tuple[StateLoads, ...], ledger: Ledger) -> None:
    """Enter a finding for each entry that can hardly be as it is written."""
    for finding in (*_profile_doubts(profile, states), *trip_doubts(profile), *_not_joined(profile)):
        ledger.find(finding)


def _profile_doubts(profile: Profile, states: tuple[StateLoads, ...]) -> Iterator[Finding]:
    for name, vehicle in profile.rig.vehicles.items():
        yield from _vehicle(name, vehicle)
    for ticket in profile.rig.scale_tickets:
        yield from _ticket(profile, ticket)
    for axle in rolling_tire_axles(profile.rig, states):
        for rule in (_axle_tires, _label, _treads, _limits):
            yield from rule(axle)
    yield from _hitches(profile)
    yield from _people(profile)


def _ticket(profile: Profile, ticket: ScaleTicket) -> Iterator[Finding]:
    for name, weights in ticket.weights.items():
        empty = profile.rig.vehicles[name].label.unloaded_vehicle_weight
        # A trailer's pin or tongue does not stand on the scale with its axles.
        coupling = carrying_coupling(profile.rig, name)
        pin = coupling.down_load if coupling and coupling.down_load is not None else _NOTHING
        if weights.total is not None and empty is not None and weights.total + pin < empty:
            yield _doubt(kinds.UNDER_UNLOADED, name, on=ticket.on, empty=empty)
        between = tuple(part for part, read in _readings(weights) if _is_between(read, ticket.division))
        if between:
            yield _doubt(kinds.BETWEEN_STEPS, name, division=ticket.division, parts=between)
        for axle, reading in weights.axles.items():
            if reading.left is None or reading.right is None:
                continue
            ends = sorted((reading.left, reading.right))
            if _ratio(ends[1], ends[0]) > _UNEVEN_ENDS:
                yield _doubt(kinds.UNEVEN_ENDS, name, axle)


def _readings(weights: VehicleWeights) -> Iterator[tuple[str | Phrase, Quantity | None]]:
    """Every figure a ticket can give of a vehicle, with its name."""
    yield kinds.TOTAL, weights.total
    for axle, reading in weights.axles.items():
        for side, end in (("left", reading.left), ("right", reading.right)):
            yield Phrase(kinds.END, {"axle": axle, "side": side}), end
        yield axle, reading.axle


def _is_between(read: Quantity | None, division: Quantity | None) -> bool:
    """A figure that is no whole number of the scale's divisions."""
    if read is None or division is None or division.m <= 0:
        return False
    steps = _ratio(read, division)
    return abs(steps - round(steps)) > _STEP_TOLERANCE


def _axle_tires(axle: TireAxle) -> Iterator[Finding]:
    rating, label, count = axle.axle.rating, axle.axle.label_pressure, 2 * axle.axle.tires_each_end
    if rating is None:
        return
    stamped = axle.stamped_load
    if stamped is not None and not is_at_least(stamped * count, rating):
        yield Finding(kinds.STAMPED, tires.LOAD_PER_TIRE.of(*axle.subject))
        return
    if axle.table is None or label is None or axle.label_match == "another":
        return
    carried = load_carried(axle.table, label)
    if carried is None or not is_at_least(carried * count, rating):
        yield Finding(kinds.TABLE, tires.ROW_PRESSURE.of(*axle.subject))


def _label(axle: TireAxle) -> Iterator[Finding]:
    label, cap, key = axle.axle.label_pressure, axle.cap.limit, tires.LABEL_PRESSURE.of(*axle.subject)
    if label is None or axle.label_match == "another":
        return
    if cap is not None and not is_at_least(cap, label):
        yield Finding(kinds.LABEL_OVER_CAP, key)
    if axle.vehicle.kind == "car" and _is_outside(label, _PLACARDS):
        yield Finding(kinds.PLACARD, key, {"label": label})


def _treads(axle: TireAxle) -> Iterator[Finding]:
    for position in positions_of(axle):
        tire = axle.tires.mounted.get(position.name)
        if tire and tire.tread is not None and tire.tread > _DEEPEST_TREAD:
            yield Finding(kinds.TREAD, TREAD.of(*axle.subject, position.name))


def _limits(axle: TireAxle) -> Iterator[Finding]:
    for kind, limit in (
        (kinds.TIRE_PRESSURE, axle.tires.sidewall.maximum_pressure),
        (kinds.WHEEL_PRESSURE, axle.wheels.maximum_pressure),
    ):
        if _is_outside(limit, _HIGHEST_PRESSURES):
            yield Finding(kind, tires.CAP.of(*axle.subject), {"limit": limit})
    if _is_outside(axle.wheels.maximum_load, _WHEEL_LOADS):
        limit = axle.wheels.maximum_load
        yield Finding(kinds.WHEEL_LOAD, tires.CAP.of(*axle.subject), {"limit": limit})
    speed, torque = axle.tires.maximum_speed, axle.wheels.nut_torque
    if _is_outside(speed, _TIRE_SPEEDS):
        yield _doubt(kinds.TIRE_SPEED, *axle.subject, speed=speed)
    if _is_outside(torque, _NUT_TORQUES):
        yield _doubt(kinds.NUT_TORQUE, *axle.subject)


def _hitches(profile: Profile) -> Iterator[Finding]:
    for coupling in profile.rig.couplings:
        ahead, behind = profile.rig.vehicles[coupling.ahead], profile.rig.vehicles[coupling.behind]
        if coupling.at_behind is not None and _is_off(coupling, coupling.at_behind, behind):
            yield _doubt(kinds.AT_BEHIND, coupling.behind, ahead=coupling.ahead)
        overhang, places = ahead.size.rear_overhang, ahead.axle_places
        if coupling.how not in {"tow bar", "ball"} or coupling.at is None or overhang is None or not places:
            continue
        apart = coupling.at - places[-1] - overhang
        if abs(apart) > _HITCH_FROM_REAR:
            yield _doubt(kinds.AT_AHEAD, coupling.behind, ahead=coupling.ahead)


def _is_off(coupling: Coupling, at_behind: Quantity, behind: Vehicle) -> bool:
    if coupling.how == "tow bar":
        return _is_outside(at_behind, _BASE_PLATES)
    length = behind.size.overall_length
    return length is not None and abs(at_behind) > length


def _people(profile: Profile) -> Iterator[Finding]:
    """What is taken off the ticket as people should be about what the crew puts back."""
    trip = profile.trip
    for name in profile.rig.vehicles:
        ticket = ticket_of(profile.rig, name)
        crew = [one.weight for one in trip.crew if one.vehicle == name and one.weight] if trip else []
        people = (ticket.aboard or []) if ticket else []
        aboard = [one.weight for one in people if one.vehicle == name and one.weight]
        if crew and sum(aboard, start=crew[0] * 0) > sum(crew, start=crew[0] * 0) + _FEWER_ABOARD:
            yield _doubt(kinds.MANY_ABOARD, name)


def _not_joined(profile: Profile) -> Iterator[Finding]:
    behind = {coupling.behind for coupling in profile.rig.couplings}
    for name in list(profile.rig.vehicles)[1:]:
        if name not in behind:
            yield _doubt(kinds.NOT_JOINED, name)


def _is_outside(value: Quantity | None, band: tuple[Quantity, Quantity]) -> bool:
    return value is not None and not band[0] <= value <= band[1]


def _vehicle(name: str, vehicle: Vehicle) -> Iterator[Finding]:
    for rule in (_size, _widths, _wheelbase, _tracks, _ratings, _capacity, _batteries):
        yield from rule(name, vehicle)


def _doubt(kind: FindingKind, *subject: str | int, **facts: Fact) -> Finding:
    """Make a finding that is about no figure."""
    return Finding(kind, kind.of(*subject), facts)


def _ratio(part: Quantity, whole: Quantity) -> float:
    """One quantity as a share of another of its kind."""
    return float((part / whole).to("").m) if whole.m else float("inf")


def _size(name: str, vehicle: Vehicle) -> Iterator[Finding]:
    height, apart = vehicle.size.overall_height, length_apart(vehicle)
    if vehicle.kind != "dolly" and _is_outside(height, _HEIGHTS):
        yield _doubt(kinds.HEIGHT, name, height=height)
    if apart is not None and abs(apart) > _LENGTHS_ALIKE:
        yield _doubt(kinds.OVERHANGS, name, apart=max(apart, -1 * apart))


def _widths(name: str, vehicle: Vehicle) -> Iterator[Finding]:
    width, with_mirrors = vehicle.size.overall_width, vehicle.size.width_with_mirrors
    if width is None:
        return
    if width > _WIDEST:
        yield _doubt(kinds.WIDTH, name, width=width)
    if with_mirrors is not None and not width <= with_mirrors <= width + _MIRRORS:
        yield _doubt(kinds.MIRRORS, name)


def _wheelbase(name: str, vehicle: Vehicle) -> Iterator[Finding]:
    length, places = vehicle.size.overall_length, vehicle.axle_places
    if vehicle.kind in {"trailer", "dolly"} or length is None or len(places) <= 1:
        return
    wheelbase = places[1] - places[0]
    if length > wheelbase * _LONGEST_OVER_WHEELBASE:
        yield _doubt(kinds.WHEELBASE, name, length=length, wheelbase=wheelbase)


def _tracks(name: str, vehicle: Vehicle) -> Iterator[Finding]:
    width = vehicle.size.overall_width
    for axle_name, axle in vehicle.axles.items():
        if width is None or axle.track is None:
            continue
        if not _TRACK_SHARES[0] <= _ratio(axle.track, width) <= _TRACK_SHARES[1]:
            yield _doubt(kinds.TRACK, name, track=axle.track, axle=axle_name)


def _ratings(name: str, vehicle: Vehicle) -> Iterator[Finding]:
    label = vehicle.label
    whole, combination = label.gross_vehicle_weight_rating, label.gross_combination_weight_rating
    if whole is None:
        return
    axles = [axle.rating for axle in vehicle.axles.values() if axle.rating is not None]
    if len(axles) == len(vehicle.axles) and vehicle.kind not in {"trailer", "dolly"}:
        share = _ratio(sum(axles, start=whole * 0), whole)
        most = _AXLES_OVER_CAR if vehicle.kind == "car" else _AXLES_OVER_VEHICLE[1]
        if not _AXLES_OVER_VEHICLE[0] <= share <= most:
            yield _doubt(kinds.AXLE_RATINGS, name, share=share)
    if combination is not None:
        share = _ratio(combination, whole)
        if not _COMBINATION_OVER_VEHICLE[0] <= share <= _COMBINATION_OVER_VEHICLE[1]:
            yield _doubt(kinds.COMBINATION_RATING, name, share=share)


def _capacity(name: str, vehicle: Vehicle) -> Iterator[Finding]:
    label = vehicle.label
    whole, empty = label.gross_vehicle_weight_rating, label.unloaded_vehicle_weight
    carried = label.occupant_and_cargo_carrying_capacity
    if whole is None or empty is None or carried is None:
        return
    apart = abs(empty + carried - whole)
    if apart > _SUMS_ALIKE:
        yield _doubt(kinds.LABEL_CAPACITY, name, apart=apart)


def _batteries(name: str, vehicle: Vehicle) -> Iterator[Finding]:
    for words, bank in vehicle.batteries.items():
        if bank.total is None or bank.count is None or bank.each is None or bank.voltage is None:
            continue
        total = number_in(bank.total, "ampere_hour")
        whole = bank.count * number_in(bank.each, "ampere_hour") * number_in(bank.voltage, "volt")
        # Batteries can be joined to each common voltage.
        stored = [whole / volts for volts in _SYSTEMS]
        if all(abs(total - one) > _CAPACITIES_ALIKE * one for one in stored):
            each = {"each": bank.each, "voltage": bank.voltage}
            yield _doubt(kinds.BATTERIES, name, count=bank.count, bank=words, total=total, **each)
