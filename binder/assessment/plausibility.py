"""What the input says that can hardly be: likely slips of a digit, a unit or a line, told as findings.

A contradiction is a problem and stops everything; what stands here may be true, so it is only told.
The bands are practice: wide enough for any rig on a public road, narrow enough for most slips.
"""

from collections.abc import Callable, Iterator

from binder.assessment.body_contradictions import length_apart
from binder.assessment.figures import Finding, Ledger
from binder.assessment.inflation_rules import is_other_size
from binder.assessment.loads import StateLoads
from binder.assessment.supports import carrying_coupling
from binder.assessment.tire_axle import TireAxle, rolling_tire_axles
from binder.assessment.trip_plausibility import trip_doubts
from binder.assessment.trip_states import ticket_of
from binder.assessment.wording import Wording
from binder.calculations.load_tables import load_carried
from binder.calculations.pressure_steps import is_at_least
from binder.models.load import Profile
from binder.models.rig import ScaleTicket
from binder.models.vehicles import Label, Vehicle
from binder.quantities import Quantity, registry

_AGAIN = "read it again; correct the profile, or leave it if it is so"
_PLAN_AGAIN = "read it again; correct the plan, or leave it if it is so"
_Doubt = tuple[int, str, str]


def _inches(value: float) -> Quantity:
    return registry.Quantity(value, "inch")


_HEIGHTS = (_inches(48), _inches(180))  # A low car, and 15 ft: no state lets more pass unasked.
_LENGTHS_ALIKE = _inches(2)
_TRACK_SHARES = (0.55, 1.0)  # Of the overall width.
_SUMS_ALIKE = registry.Quantity(50.0, "pound")
_AXLES_OVER_VEHICLE = (1.0, 1.35)  # Axle ratings together, as a share of the vehicle's.
_COMBINATION_OVER_VEHICLE = (1.0, 3.5)
_UNEVEN_ENDS = 1.25
_STEP_TOLERANCE = 1e-6
_NOTHING = registry.Quantity(0.0, "pound")
_DEEPEST_TREAD = _inches(1.0)
_PLACARDS = (registry.Quantity(26, "psi"), registry.Quantity(60, "psi"))
_HITCH_FROM_REAR = _inches(36)
_FEWER_ABOARD = registry.Quantity(250.0, "pound")
_NUT_TORQUES = (registry.Quantity(40, "foot * pound_force"), registry.Quantity(800, "foot * pound_force"))


def assess_plausibility(profile: Profile, states: tuple[StateLoads, ...], ledger: Ledger) -> None:
    """Enter a finding for each entry that can hardly be as it is written.

    Args:
        profile: the rig and, where there is one, the trip.
        states: loads in every state of the trip.
        ledger: findings are added.

    Returns:
        Nothing.

    Sources:
        practice; 49 CFR 571.120 (tires carry the axle's rating).

    Example:
        >>> from pathlib import Path
        >>> from binder.models.load import load_profile
        >>> ledger = Ledger()
        >>> assess_plausibility(load_profile(Path("profiles/larkspur")), (), ledger)
        >>> ledger.findings
        []
    """
    for order, key, text in _profile_doubts(profile, states):
        ledger.find(Finding("attention", order, key, text, _AGAIN))
    for order, key, text in trip_doubts(profile):
        ledger.find(Finding("attention", order, key, text, _PLAN_AGAIN))
    for finding in _joined(profile):
        ledger.find(finding)


def _profile_doubts(profile: Profile, states: tuple[StateLoads, ...]) -> Iterator[_Doubt]:
    wording = Wording(profile.rig.units)
    rules: tuple[Callable[[Vehicle, Wording], Iterator[_Doubt]], ...] = (_size, _tracks, _ratings)
    for name, vehicle in profile.rig.vehicles.items():
        for rule in rules:
            yield from (
                (order, f"{key}.{name}", f"{name}: {text}") for order, key, text in rule(vehicle, wording)
            )
    for ticket in profile.rig.scale_tickets:
        yield from _ticket(profile, ticket)
    for axle in rolling_tire_axles(profile.rig, states):
        for order, key, text in [*_axle_tires(axle), *_label(axle), *_register(axle)]:
            yield order, f"{axle.key}.{key}", f"{axle.name}: {text}"
    yield from _hitches(profile)
    yield from _people(profile)


def _size(vehicle: Vehicle, wording: Wording) -> Iterator[_Doubt]:
    height, apart = vehicle.size.overall_height, length_apart(vehicle)
    if vehicle.kind != "dolly" and height is not None and not _HEIGHTS[0] <= height <= _HEIGHTS[1]:
        yield 3, "rig.overall_height", f"a height of {wording.length(height, 'up')} is unlikely"
    if apart is not None and abs(apart) > _LENGTHS_ALIKE:
        text = (
            f"overhangs and axles are {wording.length(max(apart, -1 * apart), 'up')} off its overall length"
        )
        yield 6, "rig.overall_length", text


def _tracks(vehicle: Vehicle, wording: Wording) -> Iterator[_Doubt]:
    width = vehicle.size.overall_width
    for name, axle in vehicle.axles.items():
        if width is None or axle.track is None:
            continue
        if not _TRACK_SHARES[0] <= _ratio(axle.track, width) <= _TRACK_SHARES[1]:
            text = f"a track of {wording.length(axle.track, 'up')} at {name} does not suit its width"
            yield 6, "weights.track", text


def _ratings(vehicle: Vehicle, wording: Wording) -> Iterator[_Doubt]:
    label = vehicle.label
    whole, combination = label.gross_vehicle_weight_rating, label.gross_combination_weight_rating
    if whole is None:
        return
    axles = [axle.rating for axle in vehicle.axles.values() if axle.rating is not None]
    if len(axles) == len(vehicle.axles) and vehicle.kind not in {"trailer", "dolly"}:
        share = _ratio(sum(axles, start=whole * 0), whole)
        if not _AXLES_OVER_VEHICLE[0] <= share <= _AXLES_OVER_VEHICLE[1]:
            text = f"its axle ratings together are {share:.0%} of its gross vehicle weight rating"
            yield 6, "weights.ratings", text
    if combination is not None:
        share = _ratio(combination, whole)
        if not _COMBINATION_OVER_VEHICLE[0] <= share <= _COMBINATION_OVER_VEHICLE[1]:
            text = f"its combination rating is {share:.0%} of its gross vehicle weight rating"
            yield 6, "weights.combination_rating", text
    yield from _capacity(label, whole, wording)


def _capacity(label: Label, whole: Quantity, wording: Wording) -> Iterator[_Doubt]:
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
            if _ratio(ends[1], ends[0]) > _UNEVEN_ENDS:
                text = f"{name}, {axle}: one end weighs over a quarter more than the other on the ticket"
                yield 6, f"{key}.{axle}".replace(" ", "_"), text


def _is_between(read: Quantity, division: Quantity | None) -> bool:
    """A figure that is no whole number of the scale's divisions."""
    if division is None or division.m <= 0:
        return False
    steps = _ratio(read, division)
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
    torque = axle.wheels.nut_torque
    if torque is not None and not _NUT_TORQUES[0] <= torque <= _NUT_TORQUES[1]:
        yield 5, "nut_torque", "its nut torque is unlikely"


def _hitches(profile: Profile) -> Iterator[_Doubt]:
    for coupling in profile.rig.couplings:
        ahead = profile.rig.vehicles[coupling.ahead]
        overhang = ahead.size.rear_overhang
        if coupling.how not in {"tow bar", "ball"} or coupling.at is None or overhang is None:
            continue
        apart = coupling.at - list(ahead.axles.values())[-1].at - overhang
        if abs(apart) > _HITCH_FROM_REAR:
            text = f"{coupling.ahead} to {coupling.behind}: its place is over 3 ft from the rear of the body"
            yield 4, f"coupling.{coupling.behind}.at", text


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


def _ratio(part: Quantity, whole: Quantity) -> float:
    return float((part / whole).to("").m) if whole.m else float("inf")
