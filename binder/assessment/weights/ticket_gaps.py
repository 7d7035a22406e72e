"""Figures a scale ticket does not have, and what each gap costs."""

from collections.abc import Iterator

from binder.assessment.figures import Figure, Finding, Input, Ledger
from binder.assessment.weights.loads import StateLoads
from binder.assessment.weights.states import ticket_of
from binder.assessment.weights.supports import supports_of
from binder.assessment.wording import Wording
from binder.models.load import Profile
from binder.models.rig import AxleWeights, ScaleTicket
from binder.quantities import Quantity

_RULE = "What the heavier wheel end is taken to carry over half the axle, because the ends were not weighed."


def assess_ticket_gaps(profile: Profile, states: tuple[StateLoads, ...], ledger: Ledger) -> None:
    """Enter what the assumed wheel ends add, and a finding for each gap of a ticket."""
    for vehicle in profile.rig.vehicles:
        ticket = ticket_of(profile.rig, vehicle)
        if ticket is not None:
            for finding in _gaps(profile, vehicle, ticket, states, ledger):
                ledger.find(finding)


def _gaps(
    profile: Profile, vehicle: str, ticket: ScaleTicket, states: tuple[StateLoads, ...], ledger: Ledger
) -> Iterator[Finding]:
    key, readings = f"weights.{vehicle}".replace(" ", "_"), ticket.weights[vehicle].axles
    axles = profile.rig.vehicles[vehicle].axles
    unread = [name for name in axles if not _is_known(readings.get(name))]
    if unread:
        text = f"{vehicle}: not on the ticket of {ticket.on}: {', '.join(unread)}"
        helps = "weigh it; until then half its rating counts at each end"
        yield Finding("missing", 6, key, text, helps)
    whole = [name for name in axles if name not in unread and not _has_ends(readings[name])]
    if whole:
        wording, costs = Wording(profile.rig.units), []
        for axle in whole:
            figure = _allowance(vehicle, axle, states, wording)
            if figure is not None:
                ledger.add(figure)
                costs.append(f"{figure.slack.partition(' over ')[0]} ({axle})")
        text = f"{vehicle}: its wheel ends were not weighed ({', '.join(whole)})"
        helps = "weigh each wheel end"
        if costs:
            helps += f"; until then the heavier end counts over half the axle by {', '.join(costs)}"
        yield Finding("missing", 6, key, text, helps)
    supports = supports_of(profile.rig, vehicle)
    if len(axles) > 1 and not supports.group:
        sharing = ", ".join(name for name in axles if name != supports.first_axle)
        text = f"{vehicle}: how its axles share what is added is not given ({sharing})"
        helps = "ask its maker, and enter carries: or equalized:; until then loads are known only as weighed"
        yield Finding("missing", 6, key, text, helps)
    lacking = list(_lacking(profile, vehicle, ticket))
    if lacking:
        text = f"{vehicle}: the ticket of {ticket.on} does not give {' and '.join(lacking)}"
        yield Finding("missing", 6, key, text, "type it in: by it a misread figure is found")


def _lacking(profile: Profile, vehicle: str, ticket: ScaleTicket) -> Iterator[str]:
    if ticket.weights[vehicle].total is None:
        yield "its total"
    if ticket.division is None:
        yield "the scale's division"
    is_joined = any(vehicle in {one.ahead, one.behind} for one in profile.rig.couplings)
    if is_joined and ticket.state.coupled is None:
        yield "whether it stood coupled"


def _is_known(reading: AxleWeights | None) -> bool:
    return reading is not None and (reading.axle is not None or _has_ends(reading))


def _has_ends(reading: AxleWeights) -> bool:
    """Both ends are known: where one and the axle were read, the other is the rest."""
    return sum(part is not None for part in (reading.left, reading.right, reading.axle)) > 1


def _allowance(vehicle: str, axle: str, states: tuple[StateLoads, ...], wording: Wording) -> Figure | None:
    """What is assumed over half the axle, in the state it is heaviest in."""
    loads = [state.vehicles[vehicle].axles[axle] for state in states]
    known = [
        (end, load.load, load.rule)
        for load in loads
        if (end := load.end) is not None and load.load is not None and load.knowledge == "axle weighed"
    ]
    if not known:
        return None
    end, load, rule = max(known, key=lambda entry: float(entry[0].to("pound").m))
    added: Quantity = end - load / 2
    key = f"weights.{vehicle}.{axle}.end_allowance".replace(" ", "_")
    inputs = (Input("axle, heaviest", wording.weight(load, "up"), rule),)
    slack = f"{wording.weight(added, 'up')} over half the axle"
    return Figure(key, added, "calculated", _RULE, "practice", inputs, slack=slack)
