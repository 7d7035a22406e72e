"""Posted weights, widths, lengths and ground clearances, and tunnels of the trip, against this rig."""

from collections.abc import Iterator
from typing import NamedTuple

from binder.assessment.body.kinds import WIDTH_WITH_MIRRORS
from binder.assessment.conditions import holds
from binder.assessment.coupling.kinds import COMBINATION_LENGTH
from binder.assessment.ledger import Fact, Figure, Finding, Input, Ledger, Phrase, Place
from binder.assessment.road import kinds
from binder.assessment.route.days import TripDay
from binder.assessment.weights.kinds import COMBINATION
from binder.models.load import Profile
from binder.quantities import Quantity

_GROUND = kinds.GROUND_CLEARANCE.of()
_OF_RIG = {
    "weight": COMBINATION.heaviest.of(),
    "width": WIDTH_WITH_MIRRORS.of(),
    "length": COMBINATION_LENGTH.of(),
    "ground_clearance": _GROUND,
}
"""What of the rig is held against each kind of limit."""


class _Held(NamedTuple):
    """One posted figure against the rig; its subject is the day, the leg and its place among the leg's."""

    subject: tuple[int, int, int]
    what: str
    limit: str
    posted: Quantity
    origin: Phrase


def assess_limits(profile: Profile, days: tuple[TripDay, ...], ledger: Ledger) -> None:
    """Enter the rig's ground clearance, and what each posted limit leaves it; find what it exceeds."""
    limits = [(day, list(_limits(day))) for day in days]
    is_asked = any(held.limit == "ground_clearance" for _, of_day in limits for held in of_day)
    _enter_ground_clearance(profile, ledger, is_asked=is_asked)
    for day, of_day in limits:
        for finding in _without_figure(day):
            ledger.find(finding)
        for held in of_day:
            _judge(held, ledger)


def _enter_ground_clearance(profile: Profile, ledger: Ledger, *, is_asked: bool) -> None:
    sizes = {name: vehicle.size.ground_clearance for name, vehicle in profile.rig.vehicles.items()}
    known = {name: value for name, value in sizes.items() if value is not None}
    if not known and not is_asked:
        return
    inputs = tuple(
        Input(kinds.GROUND_OF, value, Place("rig.yaml", ("vehicles", name, "size")), {"vehicle": name})
        for name, value in known.items()
    )
    lowest = min(known.values()) if len(known) == len(sizes) else None
    ledger.enter(Figure(_GROUND, lowest, inputs, "unknown" if lowest is None else ""))


def _without_figure(day: TripDay) -> Iterator[Finding]:
    for number, leg, _ in day.legs():
        for count, limit in enumerate(leg.limits, start=1):
            if all(getattr(limit, kind) is None for kind in kinds.LIMITS):
                about = kinds.LIMIT_NOT_POSTED.of(day.number, number)
                yield Finding(kinds.LIMIT_NOT_POSTED, about, {"limit": count, "what": limit.what})


def _limits(day: TripDay) -> Iterator[_Held]:
    for number, leg, origin in day.legs():
        for count, limit in enumerate(leg.limits, start=1):
            for kind in kinds.LIMITS:
                posted = getattr(limit, kind)
                if posted is not None:
                    yield _Held((day.number, number, count), limit.what, kind, posted, origin)


def _judge(held: _Held, ledger: Ledger) -> None:
    kind, own_key = kinds.LIMITS[held.limit], _OF_RIG[held.limit]
    own = ledger.quantity(own_key)
    facts: dict[str, Fact] = {
        "what": held.what,
        "sign": Phrase(kind.sign, {"value": held.posted}),
    }
    inputs = [Input(kind.posted, held.posted, held.origin, {"what": held.what})]
    margin = slack = None
    if own is not None:
        margin = own - held.posted if held.limit == "ground_clearance" else held.posted - own
        inputs.append(Input(kind.own, own, own_key))
        slack = Phrase(kind.over, {"over": -1 * margin}) if margin.magnitude < 0 else Phrase(kind.spare)
    key = kind.margin.of(*held.subject)
    ledger.enter(Figure(key, margin, tuple(inputs), slack=slack))
    if margin is None:
        ledger.find(Finding(kinds.LIMIT_NOT_JUDGED, key, {**facts, "own": kind.name}))
    elif margin.magnitude < 0:
        ledger.find(Finding(kinds.LIMIT_EXCEEDED, key, {**facts, "over_by": slack}))


def find_unknown_tunnels(profile: Profile, day: TripDay, ledger: Ledger) -> None:
    """Find the tunnels of which the plan does not say whether propane may pass."""
    if not holds("propane")(profile.rig):
        return
    for number, leg, _ in day.legs():
        for count, tunnel in enumerate(leg.tunnels, start=1):
            if tunnel.propane is None:
                about = kinds.PROPANE_UNKNOWN.of(day.number, number)
                ledger.find(Finding(kinds.PROPANE_UNKNOWN, about, {"tunnel": count, "what": tunnel.what}))
