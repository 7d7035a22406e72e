"""What the input says that can hardly be: likely slips of a digit, a unit or a line, told as findings.

A contradiction is a problem and stops everything; what stands here may be true, so it is only told.
The bands are practice: wide enough for any rig on a public road, narrow enough for most slips.
"""

from collections.abc import Iterator

from binder.assessment.entries.trips import trip_doubts
from binder.assessment.entries.vehicles import ratio, vehicle_doubts
from binder.assessment.figures import Finding, Ledger
from binder.assessment.tires.axle import TireAxle, rolling_tire_axles
from binder.assessment.tires.inflation import is_other_size
from binder.assessment.weights.loads import StateLoads
from binder.assessment.weights.states import ticket_of
from binder.assessment.weights.supports import carrying_coupling
from binder.assessment.wording import Wording
from binder.calculations.bounds import is_at_least
from binder.calculations.tires.load_tables import load_carried
from binder.models.load import Profile
from binder.models.rig import Coupling, ScaleTicket
from binder.models.vehicles import Vehicle
from binder.quantities import Quantity, registry

_AGAIN = "read it again; correct the profile, or leave it if it is so"
_PLAN_AGAIN = "read it again; correct the plan, or leave it if it is so"
_Doubt = tuple[int, str, str]


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
_NUT_TORQUES = (registry.Quantity(40, "foot * pound_force"), registry.Quantity(800, "foot * pound_force"))


def assess_plausibility(profile: Profile, states: tuple[StateLoads, ...], ledger: Ledger) -> None:
    """Enter a finding for each entry that can hardly be as it is written."""
    for order, key, text in _profile_doubts(profile, states):
        ledger.find(Finding("attention", order, key, text, _AGAIN))
    for order, key, text in trip_doubts(profile):
        ledger.find(Finding("attention", order, key, text, _PLAN_AGAIN))
    for finding in _joined(profile):
        ledger.find(finding)


def _profile_doubts(profile: Profile, states: tuple[StateLoads, ...]) -> Iterator[_Doubt]:
    wording = Wording(profile.rig.units)
    for name, vehicle in profile.rig.vehicles.items():
        yield from (
            (order, f"{key}.{name}", f"{name}: {text}")
            for order, key, text in vehicle_doubts(vehicle, wording)
        )
    for ticket in profile.rig.scale_tickets:
        yield from _ticket(profile, ticket)
    for axle in rolling_tire_axles(profile.rig, states):
        for order, key, text in [*_axle_tires(axle), *_label(axle), *_register(axle)]:
            yield order, f"{axle.key}.{key}", f"{axle.name}: {text}"
    yield from _hitches(profile)
    yield from _people(profile)


def _ticket(profile: Profile, ticket: ScaleTicket) -> Iterator[_Doubt]:
    wording = Wording(profile.rig.units)
    for name, weights in ticket.weights.items():
        key, empty = f"weights.{name}.ticket", profile.rig.vehicles[name].label.unloaded_vehicle_weight
        # A trailer's pin or tongue does not stand on the scale with its axles.
        coupling = carrying_coupling(profile.rig, name)
        pin = coupling.down_load if coupling and coupling.down_load is not None else _NOTHING
        if weights.total is not None and empty is not None and weights.total + pin < empty:
            text = f"{name}: the ticket of {ticket.on} says less than its unloaded weight"
            yield 6, key, f"{text}, {wording.weight(empty, 'down')}"
        figures: list[tuple[str, Quantity | None]] = [("total", weights.total)]
        for axle, reading in weights.axles.items():
            figures += [
                (f"{axle} {part}".removesuffix(" axle"), getattr(reading, part))
                for part in ("left", "right", "axle")
            ]
        between = [part for part, read in figures if read is not None and _is_between(read, ticket.division)]
        if between and ticket.division is not None:
            step = wording.weight(ticket.division, "nearest")
            text = f"{name}: the scale reads in steps of {step}, but not so: {', '.join(between)}"
            yield 6, key, text
        for axle, reading in weights.axles.items():
            if reading.left is None or reading.right is None:
                continue
            ends = sorted((reading.left, reading.right))
            if ratio(ends[1], ends[0]) > _UNEVEN_ENDS:
                text = f"{name}, {axle}: one end weighs over a quarter more than the other on the ticket"
                yield 6, f"{key}.{axle}".replace(" ", "_"), text


def _is_between(read: Quantity, division: Quantity | None) -> bool:
    """A figure that is no whole number of the scale's divisions."""
    if division is None or division.m <= 0:
        return False
    steps = ratio(read, division)
    return abs(steps - round(steps)) > _STEP_TOLERANCE


def _axle_tires(axle: TireAxle) -> Iterator[_Doubt]:
    rating, label, count = axle.axle.rating, axle.axle.label_pressure, 2 * axle.axle.tires_each_end
    if rating is None:
        return
    stamped = axle.stamped_load
    if stamped is not None and not is_at_least(stamped * count, rating):
        yield 5, "load_per_tire", "the axle's rating is more than its tires are stamped for"
        return
    if axle.table is None or label is None or is_other_size(axle):
        return
    carried = load_carried(axle.table, label)
    if carried is None or not is_at_least(carried * count, rating):
        text = "at the label pressure, the typed table does not carry the axle's rating"
        yield 5, "row_pressure", text


def _label(axle: TireAxle) -> Iterator[_Doubt]:
    label, cap = axle.axle.label_pressure, axle.cap.limit
    if label is None or is_other_size(axle):
        return
    if cap is not None and not is_at_least(cap, label):
        yield 5, "label_pressure", "its label pressure is more than its tires, wheels or valves may hold"
    if axle.vehicle.kind == "car" and not _PLACARDS[0] <= label <= _PLACARDS[1]:
        text = f"a placard of {axle.wording.pressure(label, 'nearest')} is unlikely on a car"
        yield 5, "label_pressure", text


def _register(axle: TireAxle) -> Iterator[_Doubt]:
    for position, tire in axle.tires.mounted.items():
        if position.startswith(axle.axle_name) and tire.tread is not None and tire.tread > _DEEPEST_TREAD:
            yield 5, f"{position}.tread".replace(" ", "_"), f"{position}: no tread is over 1 in deep"
    for name, limit in (
        ("tires", axle.tires.sidewall.maximum_pressure),
        ("wheels", axle.wheels.maximum_pressure),
    ):
        if limit is not None and not _HIGHEST_PRESSURES[0] <= limit <= _HIGHEST_PRESSURES[1]:
            highest = axle.wording.pressure(limit, "down")
            yield 5, "cap", f"a highest pressure of {highest} is unlikely for its {name}"
    speed = axle.tires.maximum_speed
    if speed is not None and not _SPEEDS[0] <= speed <= _SPEEDS[1]:
        yield 5, "maximum_speed", f"tires made for {axle.wording.speed(speed, 'down')} are unlikely"
    torque = axle.wheels.nut_torque
    if torque is not None and not _NUT_TORQUES[0] <= torque <= _NUT_TORQUES[1]:
        yield 5, "nut_torque", "its nut torque is unlikely"


def _hitches(profile: Profile) -> Iterator[_Doubt]:
    for coupling in profile.rig.couplings:
        ahead, behind = profile.rig.vehicles[coupling.ahead], profile.rig.vehicles[coupling.behind]
        name, key = f"{coupling.ahead} to {coupling.behind}", f"coupling.{coupling.behind}"
        if coupling.at_behind is not None and _is_off(coupling, coupling.at_behind, behind):
            yield 4, f"{key}.at_behind", f"{name}: its place on the {coupling.behind} is unlikely"
        overhang = ahead.size.rear_overhang
        if coupling.how not in {"tow bar", "ball"} or coupling.at is None or overhang is None:
            continue
        apart = coupling.at - list(ahead.axles.values())[-1].at - overhang
        if abs(apart) > _HITCH_FROM_REAR:
            yield 4, f"{key}.at", f"{name}: its place is over 3 ft from the rear of the body"


def _is_off(coupling: Coupling, at_behind: Quantity, behind: Vehicle) -> bool:
    if coupling.how == "tow bar":
        return not _BASE_PLATES[0] <= at_behind <= _BASE_PLATES[1]
    length = behind.size.overall_length
    return length is not None and abs(at_behind) > length


def _people(profile: Profile) -> Iterator[_Doubt]:
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
            text = f"{name}: far more was aboard on the scale than the crew weighs; the rest is taken off"
            yield 6, f"weights.{name}.aboard", text


def _joined(profile: Profile) -> Iterator[Finding]:
    behind = {coupling.behind for coupling in profile.rig.couplings}
    for name in list(profile.rig.vehicles)[1:]:
        if name not in behind:
            text = f"{name}: nothing says what joins it to the vehicle ahead"
            yield Finding("missing", 4, f"coupling.{name}", text, "enter it under couplings")
