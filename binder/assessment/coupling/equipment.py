"""What keeps a towed vehicle safe behind: brake, breakaway, cables, its maker's procedure, a level bar.

What its coupling may tow is assessed with the weights.
"""

from collections.abc import Iterator
from typing import NamedTuple

from binder.assessment.coupling import kinds
from binder.assessment.ledger import Fact, Figure, Finding, FindingKind, Input, Ledger, Phrase
from binder.assessment.weights.kinds import TOTAL
from binder.assessment.weights.resting import CARRIED, ON_A_DOLLY, weighed_total
from binder.assessment.weights.states import ticket_of
from binder.models.load import Profile
from binder.models.rig import Coupling
from binder.models.vehicles import Towing, Vehicle
from binder.quantities import Mass, Quantity, registry

LEVEL_WITHIN = registry.Quantity(3.0, "inch")  # practice.
_SAME = 1.0 + 1e-9  # A rating equal to the load is enough, whatever units they were written in.


class _Towed(NamedTuple):
    """One coupling with the vehicles it joins."""

    coupling: Coupling
    number: int
    ahead: Vehicle
    behind: Vehicle
    profile: Profile

    @property
    def subject(self) -> tuple[str, str]:
        return self.coupling.ahead, self.coupling.behind

    @property
    def towing(self) -> Towing:
        return self.behind.towing or Towing()

    @property
    def on_its_wheels(self) -> bool:
        """A motor vehicle towed with wheels on the road, not a trailer built to be towed."""
        return self.behind.kind in {"car", "pickup", "motorhome"}

    def finding(self, kind: FindingKind, **facts: Fact) -> Finding:
        return Finding(kind, kind.of(*self.subject), facts)


def assess_coupling_equipment(profile: Profile, ledger: Ledger) -> None:
    """Find what a towed vehicle lacks, and enter how level its bar is."""
    for number, coupling in enumerate(profile.rig.couplings, start=1):
        vehicles = profile.rig.vehicles
        ahead, behind = vehicles.get(coupling.ahead), vehicles.get(coupling.behind)
        if coupling.how == CARRIED:
            continue  # Nothing of it is towed.
        if ahead is None or behind is None:
            continue  # A name that no vehicle has is a problem of the input, told where it is read.
        towed = _Towed(coupling, number, ahead, behind, profile)
        ledger.find(*_brake(towed), *_breakaway(towed), *_procedure(towed), *_cables(towed, ledger))
        _assess_level(towed, ledger)


def _brake(towed: _Towed) -> Iterator[Finding]:
    if towed.coupling.how == ON_A_DOLLY:
        return  # What rides on a dolly is stopped by the dolly's brakes.
    works = brakes_while_towed(towed.behind)
    if works is None:
        case = "" if towed.on_its_wheels else "trailer"
        yield towed.finding(kinds.BRAKE_UNSTATED)._replace(case=case)
    elif not works:
        yield towed.finding(kinds.NO_BRAKE)
    elif towed.on_its_wheels:
        lamp = towed.towing.brake_lamp_in_cab
        yield from _stated(towed, lamp, kinds.LAMP_UNSTATED, kinds.NO_LAMP)
    elif towed.behind.brakes is not None and towed.behind.brakes.service == "electric":
        controller = towed.ahead.equipment.brake_controller
        yield from _stated(towed, controller, kinds.CONTROLLER_UNSTATED, kinds.NO_CONTROLLER)


def brakes_while_towed(vehicle: Vehicle) -> bool | None:
    """Say whether a towed vehicle brakes: a motor vehicle by its supplemental brake, others by their own."""
    towing = vehicle.towing or Towing()
    own = vehicle.brakes.service if vehicle.brakes else None
    if vehicle.kind in {"car", "pickup", "motorhome"}:
        return towing.supplemental_brake
    if own is not None:
        return own != "none"
    return towing.brakes_on_all_wheels or towing.supplemental_brake


def _stated(towed: _Towed, stated: object, unstated: FindingKind, absent: FindingKind) -> Iterator[Finding]:
    """What is blank in the profile is missing, what is stated absent is worse."""
    if stated is None:
        yield towed.finding(unstated)
    elif not stated:
        yield towed.finding(absent)


def _breakaway(towed: _Towed) -> Iterator[Finding]:
    if towed.coupling.how != ON_A_DOLLY:
        yield from _stated(towed, towed.towing.breakaway, kinds.BREAKAWAY_UNSTATED, kinds.NO_BREAKAWAY)


def _procedure(towed: _Towed) -> Iterator[Finding]:
    if towed.on_its_wheels:
        lines = towed.towing.as_its_maker_says
        yield from _stated(towed, lines, kinds.PROCEDURE_UNSTATED, kinds.NO_PROCEDURE)


def _cables(towed: _Towed, ledger: Ledger) -> Iterator[Finding]:
    ratings = {name: rating.towed for name, rating in towed.coupling.parts.items() if is_cable(name)}
    # A fifth wheel needs none (49 CFR 393.70); what is listed there is judged all the same.
    # Straps hold a car on its dolly; the dolly's own chains hold both.
    if not ratings and towed.coupling.how not in {"fifth wheel", ON_A_DOLLY}:
        yield towed.finding(kinds.CABLES_UNSTATED)
    load = _loaded_weight(towed.coupling.behind, towed.profile, ledger)
    for name, rating in ratings.items():
        if rating is None:
            yield towed.finding(kinds.CABLE_UNRATED, cable=name)
        elif load is None:
            yield towed.finding(kinds.CABLE_NOT_JUDGED, cable=name)
        elif rating * _SAME < load[0]:
            yield towed.finding(kinds.CABLE_TOO_WEAK, cable=name, rating=rating, what=load[1], load=load[0])


def is_cable(part: str) -> bool:
    """Tell by its name whether a part is a safety cable or chain."""
    return "cable" in part or "chain" in part


def _loaded_weight(vehicle: str, profile: Profile, ledger: Ledger) -> tuple[Mass, str] | None:
    """Give the loaded weight of a vehicle: as assessed, else as weighed, else its gross rating."""
    assessed = ledger.quantity(TOTAL.load.of(vehicle, "departure"))
    if assessed is not None:
        return assessed, kinds.LOADED_WEIGHT
    weighed = weighed_total(ticket_of(profile.rig, vehicle), vehicle)
    if weighed is not None:
        return weighed, kinds.TICKET_WEIGHT
    rating = profile.rig.vehicles[vehicle].label.gross_vehicle_weight_rating
    return None if rating is None else (rating, kinds.GROSS_RATING)


def _assess_level(towed: _Towed, ledger: Ledger) -> None:
    coupling = towed.coupling
    if coupling.how != "tow bar":
        return
    key, number = kinds.LEVEL_DIFFERENCE.of(*towed.subject), {"number": towed.number}
    ends = ((kinds.RECEIVER_HEIGHT, coupling.height), (kinds.BASE_PLATE_HEIGHT, coupling.height_behind))
    inputs = tuple(Input(kind, height, facts=number) for kind, height in ends if height is not None)
    facts = {"within": LEVEL_WITHIN}
    if coupling.height is None or coupling.height_behind is None:
        ledger.find(Finding(kinds.HEIGHTS_UNSTATED, key))
        ledger.enter(Figure(key, None, inputs, "unknown", facts))
        return
    apart: Quantity = (coupling.height - coupling.height_behind).to("inch")
    across = max(apart, -1 * apart)
    left: Quantity = LEVEL_WITHIN - across
    slack = Phrase(kinds.LEVEL_LEFT, {"left": left})
    if left.magnitude < 0:
        ledger.find(Finding(kinds.NOT_LEVEL, key, {"across": across}))
        slack = Phrase(kinds.OUT_OF_LEVEL)
    ledger.enter(Figure(key, apart, inputs, facts=facts, slack=slack))
