"""Scale tickets: whether one is fit to set the label aside, what it does not say, and what that costs."""

from collections.abc import Iterator
from datetime import date, timedelta

from binder.assessment.ledger import Fact, Figure, Finding, FindingKind, Input, Ledger, Phrase
from binder.assessment.route.days import last_day
from binder.assessment.weights import kinds
from binder.assessment.weights.loads import StateLoads
from binder.assessment.weights.resting import supports_of
from binder.assessment.weights.states import (
    changed_since,
    full_volume,
    latest_ticket,
    levels_ticket_of,
    loaded_cargo,
    ticket_of,
)
from binder.models.load import Profile
from binder.models.rig import AxleWeights, Rig, ScaleTicket
from binder.models.vehicles import Vehicle
from binder.quantities import Quantity, number_in, registry

_OLDEST = timedelta(days=365)  # Practice: a year.
_UNPLACED_CARGO = registry.Quantity(300.0, "pound")  # Practice.


def find_ticket_doubts(profile: Profile, on: date, ledger: Ledger) -> None:
    """Find the vehicles without a ticket, and what makes a ticket doubtful."""
    for vehicle in profile.rig.vehicles:
        if levels_ticket_of(profile.rig, vehicle) is None:
            ledger.find(_no_ticket(profile.rig, vehicle))
            continue
        doubts = ticket_doubts(profile, vehicle, on)
        ledger.find(*(_about(kinds.TICKET_DOUBTED, vehicle, doubt=doubt) for doubt in doubts))


def _no_ticket(rig: Rig, vehicle: str) -> Finding:
    case = "axles" if rig.vehicles[vehicle].axles else ""
    latest = latest_ticket(rig, vehicle)
    changed = changed_since(rig, vehicle, latest) if latest else None
    if latest is None or changed is None:
        return Finding(kinds.NO_TICKET, kinds.NO_TICKET.of(vehicle), case=case)
    part, since = changed
    return _about(kinds.TICKET_ASIDE, vehicle, on=latest.on, part=part, since=since)


def ticket_doubts(profile: Profile, vehicle: str, on: date) -> tuple[Phrase, ...]:
    """Reasons why a vehicle's ticket is not fit to set its label pressures aside."""
    ticket = levels_ticket_of(profile.rig, vehicle)
    if ticket is None:
        return (Phrase(kinds.NEVER_WEIGHED),)
    return tuple(_doubts(profile, vehicle, ticket, last_day(profile, on)[0]))


def _doubts(profile: Profile, vehicle: str, ticket: ScaleTicket, last: date) -> Iterator[Phrase]:
    entry = profile.rig.vehicles[vehicle]
    yield from _state_doubts(ticket, vehicle, entry)
    if last - ticket.on > _OLDEST:
        yield Phrase(kinds.TICKET_OLD, {"on": ticket.on})
    if ticket.on > last:
        yield Phrase(kinds.TICKET_AFTER_TRIP, {"on": ticket.on})
    position = _changed_tire(profile, ticket, entry)
    if position is not None:
        yield Phrase(kinds.TIRE_MOUNTED_SINCE, {"position": position})
    for name in (vehicle, *_resting_on(profile, vehicle)):
        yield from _unknown_weights(profile, name)
    if _unplaced_cargo(profile, vehicle) > _UNPLACED_CARGO:
        yield Phrase(kinds.CARGO_UNPLACED)


def _state_doubts(ticket: ScaleTicket, vehicle: str, entry: Vehicle) -> Iterator[Phrase]:
    if entry.equipment.slide not in (None, False) and ticket.state.slides != "in":
        yield Phrase(kinds.SLIDES_NOT_IN)
    if entry.suspension == "air" and not ticket.state.ride_height:
        yield Phrase(kinds.NO_RIDE_HEIGHT)
    unsaid = tuple(name for name in entry.tanks if name not in ticket.levels.get(vehicle, {}))
    if unsaid:
        yield Phrase(kinds.LEVELS_UNSAID, {"tanks": unsaid})
    if ticket.aboard is None:
        yield Phrase(kinds.ABOARD_UNSAID)


def _changed_tire(profile: Profile, ticket: ScaleTicket, entry: Vehicle) -> str | None:
    for axle_name, axle in entry.axles.items():
        tires = profile.rig.tires.get(axle.tires or "")
        for position, tire in (tires.mounted if tires else {}).items():
            if position.startswith(axle_name) and tire.mounted_on and tire.mounted_on > ticket.on:
                return position
    return None


def _resting_on(profile: Profile, vehicle: str) -> Iterator[str]:
    """Vehicles that press on this one, directly or through another: what they hold is felt here."""
    for coupling in profile.rig.couplings:
        if coupling.ahead == vehicle and coupling.how != "tow bar":
            yield coupling.behind
            yield from _resting_on(profile, coupling.behind)


def _unplaced_cargo(profile: Profile, vehicle: str) -> Quantity:
    unplaced = [
        one.weight
        for one in loaded_cargo(profile)
        if one.vehicle == vehicle and one.at is None and one.weight is not None
    ]
    return sum(unplaced, start=registry.Quantity(0.0, "pound"))


def _unknown_weights(profile: Profile, vehicle: str) -> Iterator[Phrase]:
    """What is aboard by the plan and cannot be counted."""
    trip = profile.trip
    crew = [one.who for one in trip.crew if one.vehicle == vehicle and one.weight is None] if trip else []
    cargo = [one.what for one in trip.cargo if one.vehicle == vehicle and one.weight is None] if trip else []
    if crew or cargo:
        yield Phrase(kinds.WEIGHTS_UNSAID, {"names": (*crew, *cargo)})
    tanks = profile.rig.vehicles[vehicle].tanks
    unknown = tuple(name for name, tank in tanks.items() if full_volume(tank) is None)
    if unknown:
        yield Phrase(kinds.CAPACITY_UNKNOWN, {"tanks": unknown})


def assess_ticket_gaps(profile: Profile, states: tuple[StateLoads, ...], ledger: Ledger) -> None:
    """Enter what the assumed wheel ends add, and find each gap of a ticket."""
    for vehicle in profile.rig.vehicles:
        ticket = ticket_of(profile.rig, vehicle)
        for name, axle in profile.rig.vehicles[vehicle].axles.items():
            if axle.at is None:
                ledger.find(Finding(kinds.AXLE_PLACE_UNKNOWN, kinds.AXLE_PLACE_UNKNOWN.of(vehicle, name)))
        if ticket is not None:
            ledger.find(*_gaps(profile, vehicle, ticket, states, ledger))


def _gaps(
    profile: Profile, vehicle: str, ticket: ScaleTicket, states: tuple[StateLoads, ...], ledger: Ledger
) -> Iterator[Finding]:
    readings, axles = ticket.weights[vehicle].axles, profile.rig.vehicles[vehicle].axles
    unread = tuple(name for name in axles if not _is_known(readings.get(name)))
    if unread:
        yield _about(kinds.AXLES_UNREAD, vehicle, on=ticket.on, axles=unread)
    whole = tuple(name for name in axles if name not in unread and not _has_ends(readings[name]))
    if whole:
        costs = tuple(_costs(vehicle, whole, states, ledger))
        found = _about(kinds.ENDS_UNREAD, vehicle, axles=whole, costs=costs)
        yield found._replace(case="costs") if costs else found
    supports = supports_of(profile.rig, vehicle)
    if len(axles) > 1 and not supports.group:
        sharing = tuple(name for name in axles if name != supports.first_axle)
        yield _about(kinds.SHARING_UNKNOWN, vehicle, axles=sharing)
    lacking = tuple(_lacking(profile, vehicle, ticket))
    if lacking:
        yield _about(kinds.TICKET_LACKS, vehicle, on=ticket.on, lacking=lacking)


def _about(kind: FindingKind, vehicle: str, **facts: Fact) -> Finding:
    return Finding(kind, kind.of(vehicle), facts)


def _lacking(profile: Profile, vehicle: str, ticket: ScaleTicket) -> Iterator[str]:
    if ticket.weights[vehicle].total is None:
        yield kinds.ITS_TOTAL
    if ticket.division is None:
        yield kinds.SCALE_DIVISION
    is_joined = any(vehicle in {one.ahead, one.behind} for one in profile.rig.couplings)
    if is_joined and ticket.state.coupled is None:
        yield kinds.STOOD_COUPLED


def _is_known(reading: AxleWeights | None) -> bool:
    return reading is not None and (reading.axle is not None or _has_ends(reading))


def _has_ends(reading: AxleWeights) -> bool:
    """Both ends are known: where one and the axle were read, the other is the rest."""
    return sum(part is not None for part in (reading.left, reading.right, reading.axle)) > 1


def _costs(
    vehicle: str, axles: tuple[str, ...], states: tuple[StateLoads, ...], ledger: Ledger
) -> Iterator[Phrase]:
    """Enter what is assumed over half of each axle, in the state it is heaviest in, and say it."""
    for axle in axles:
        loads = [state.vehicles[vehicle].axles[axle] for state in states]
        known = [
            (end, load.load, load.rule)
            for load in loads
            if (end := load.end) is not None and load.load is not None and load.weighed == "axle"
        ]
        if not known or len(known) < len(loads):
            continue
        end, load, rule = max(known, key=lambda entry: number_in(entry[0], "pound"))
        added: Quantity = end - load / 2
        slack = Phrase(kinds.OVER_HALF_AXLE, {"added": added})
        given = (Input(kinds.AXLE_HEAVIEST, load, rule),)
        ledger.enter(Figure(kinds.END_ALLOWANCE.of(vehicle, axle), added, given, slack=slack))
        yield Phrase(kinds.COST_OF_AXLE, {"added": added, "axle": axle})
