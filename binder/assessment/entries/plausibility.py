"""What the input says that can hardly be: likely slips of a digit, a unit or a line, told as findings.

A contradiction is a problem and stops everything; what stands here may be true, so it is only told.
The bands are practice: wide enough for any rig on a public road, narrow enough for most slips.
"""

from collections.abc import Iterator

from binder.assessment.entries import kinds
from binder.assessment.entries.doubts import doubt, ratio, trip_doubts, vehicle_doubts
from binder.assessment.ledger import Finding, Ledger, Phrase
from binder.assessment.tires import kinds as tires
from binder.assessment.tires.axle import TireAxle, rolling_tire_axles
from binder.assessment.tires.inflation import is_other_size
from binder.assessment.tires.register import positions_of
from binder.assessment.tires.register_kinds import TREAD
from binder.assessment.weights.loads import StateLoads
from binder.assessment.weights.resting import carrying_coupling
from binder.assessment.weights.states import ticket_of
from binder.calculations.bounds import is_at_least
from binder.calculations.tires.load_tables import load_carried
from binder.models.load import Profile
from binder.models.rig import Coupling, ScaleTicket, VehicleWeights
from binder.models.vehicles import Vehicle
from binder.quantities import TORQUE, Quantity, registry


def _inches(value: float) -> Quantity:
    return registry.Quantity(value, "inch")


_UNEVEN_ENDS = 1.25
_STEP_TOLERANCE = 1e-6
_NOTHING = registry.Quantity(0.0, "pound")
_DEEPEST_TREAD = _inches(1.0)
_PLACARDS = (registry.Quantity(26, "psi"), registry.Quantity(60, "psi"))
_HIGHEST_PRESSURES = (registry.Quantity(30, "psi"), registry.Quantity(160, "psi"))
_SPEEDS = (registry.Quantity(50, "mph"), registry.Quantity(186, "mph"))  # Speed symbols B to Y.
_HITCH_FROM_REAR = _inches(36)
_BASE_PLATES = (_inches(-60), _inches(0))  # Ahead of a towed car's front axle.
_FEWER_ABOARD = registry.Quantity(250.0, "pound")
_NUT_TORQUES = (TORQUE.read("40 ft*lb"), TORQUE.read("800 ft*lb"))


def assess_plausibility(profile: Profile, states: tuple[StateLoads, ...], ledger: Ledger) -> None:
    """Enter a finding for each entry that can hardly be as it is written."""
    for finding in (*_profile_doubts(profile, states), *trip_doubts(profile), *_not_joined(profile)):
        ledger.find(finding)


def _profile_doubts(profile: Profile, states: tuple[StateLoads, ...]) -> Iterator[Finding]:
    for name, vehicle in profile.rig.vehicles.items():
        yield from vehicle_doubts(name, vehicle)
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
            yield doubt(kinds.UNDER_UNLOADED, name, on=ticket.on, empty=empty)
        between = tuple(
            part
            for part, read in _readings(weights)
            if read is not None and _is_between(read, ticket.division)
        )
        if between:
            yield doubt(kinds.BETWEEN_STEPS, name, division=ticket.division, parts=between)
        for axle, reading in weights.axles.items():
            if reading.left is None or reading.right is None:
                continue
            ends = sorted((reading.left, reading.right))
            if ratio(ends[1], ends[0]) > _UNEVEN_ENDS:
                yield doubt(kinds.UNEVEN_ENDS, name, axle)


def _readings(weights: VehicleWeights) -> Iterator[tuple[str | Phrase, Quantity | None]]:
    """Every figure a ticket can give of a vehicle, with its name."""
    yield kinds.TOTAL, weights.total
    for axle, reading in weights.axles.items():
        for side, end in (("left", reading.left), ("right", reading.right)):
            yield Phrase(kinds.END, {"axle": axle, "side": side}), end
        yield axle, reading.axle


def _is_between(read: Quantity, division: Quantity | None) -> bool:
    """A figure that is no whole number of the scale's divisions."""
    if division is None or division.m <= 0:
        return False
    steps = ratio(read, division)
    return abs(steps - round(steps)) > _STEP_TOLERANCE


def _axle_tires(axle: TireAxle) -> Iterator[Finding]:
    rating, label, count = axle.axle.rating, axle.axle.label_pressure, 2 * axle.axle.tires_each_end
    if rating is None:
        return
    stamped = axle.stamped_load
    if stamped is not None and not is_at_least(stamped * count, rating):
        yield Finding(kinds.STAMPED, tires.LOAD_PER_TIRE.of(*axle.subject))
        return
    if axle.table is None or label is None or is_other_size(axle):
        return
    carried = load_carried(axle.table, label)
    if carried is None or not is_at_least(carried * count, rating):
        yield Finding(kinds.TABLE, tires.ROW_PRESSURE.of(*axle.subject))


def _label(axle: TireAxle) -> Iterator[Finding]:
    label, cap, key = axle.axle.label_pressure, axle.cap.limit, tires.LABEL_PRESSURE.of(*axle.subject)
    if label is None or is_other_size(axle):
        return
    if cap is not None and not is_at_least(cap, label):
        yield Finding(kinds.LABEL_OVER_CAP, key)
    if axle.vehicle.kind == "car" and not _PLACARDS[0] <= label <= _PLACARDS[1]:
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
        if limit is not None and not _HIGHEST_PRESSURES[0] <= limit <= _HIGHEST_PRESSURES[1]:
            yield Finding(kind, tires.CAP.of(*axle.subject), {"limit": limit})
    speed, torque = axle.tires.maximum_speed, axle.wheels.nut_torque
    if speed is not None and not _SPEEDS[0] <= speed <= _SPEEDS[1]:
        yield doubt(kinds.TIRE_SPEED, *axle.subject, speed=speed)
    if torque is not None and not _NUT_TORQUES[0] <= torque <= _NUT_TORQUES[1]:
        yield doubt(kinds.NUT_TORQUE, *axle.subject)


def _hitches(profile: Profile) -> Iterator[Finding]:
    for coupling in profile.rig.couplings:
        ahead, behind = profile.rig.vehicles[coupling.ahead], profile.rig.vehicles[coupling.behind]
        if coupling.at_behind is not None and _is_off(coupling, coupling.at_behind, behind):
            yield doubt(kinds.AT_BEHIND, coupling.behind, ahead=coupling.ahead)
        overhang = ahead.size.rear_overhang
        if coupling.how not in {"tow bar", "ball"} or coupling.at is None or overhang is None:
            continue
        apart = coupling.at - list(ahead.axles.values())[-1].at - overhang
        if abs(apart) > _HITCH_FROM_REAR:
            yield doubt(kinds.AT_AHEAD, coupling.behind, ahead=coupling.ahead)


def _is_off(coupling: Coupling, at_behind: Quantity, behind: Vehicle) -> bool:
    if coupling.how == "tow bar":
        return not _BASE_PLATES[0] <= at_behind <= _BASE_PLATES[1]
    length = behind.size.overall_length
    return length is not None and abs(at_behind) > length


def _people(profile: Profile) -> Iterator[Finding]:
    """What is taken off the ticket as people should be about what the crew puts back."""
    trip = profile.trip
    for name in profile.rig.vehicles:
        ticket = ticket_of(profile.rig, name)
        crew = [one.weight for one in trip.crew if one.vehicle == name and one.weight] if trip else []
        aboard = (
            [one.weight for one in (ticket.aboard or []) if one.vehicle == name and one.weight]
            if ticket
            else []
        )
        if crew and sum(aboard, start=crew[0] * 0) > sum(crew, start=crew[0] * 0) + _FEWER_ABOARD:
            yield doubt(kinds.MANY_ABOARD, name)


def _not_joined(profile: Profile) -> Iterator[Finding]:
    behind = {coupling.behind for coupling in profile.rig.couplings}
    for name in list(profile.rig.vehicles)[1:]:
        if name not in behind:
            yield doubt(kinds.NOT_JOINED, name)
