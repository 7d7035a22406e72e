"""What keeps a towed vehicle safe behind: brake, breakaway, cables, its maker's procedure, a level bar.

What its coupling may tow is assessed with the weights.
"""

from collections.abc import Iterator
from datetime import date
from typing import Literal, NamedTuple

from binder.assessment.figures import Figure, Finding, Grade, Input, Ledger
from binder.assessment.known_quantity import known_quantity
from binder.assessment.weights.resting import CARRIED, ON_A_DOLLY
from binder.assessment.wording import Wording
from binder.models.load import Profile
from binder.models.rig import Coupling
from binder.models.vehicles import Towing, Vehicle
from binder.quantities import Mass, Quantity, registry

LEVEL_WITHIN = registry.Quantity(3.0, "inch")  # practice.
CABLE_WORDS = ("cable", "chain")
_SAME = 1.0 + 1e-9  # A rating equal to the load is enough, whatever units they were written in.


class _Towed(NamedTuple):
    """One coupling with the vehicles it joins."""

    coupling: Coupling
    number: int
    ahead: Vehicle
    behind: Vehicle
    profile: Profile

    @property
    def name(self) -> str:
        return self.coupling.behind

    @property
    def key(self) -> str:
        return f"coupling.{self.coupling.ahead}_{self.coupling.behind}".replace(" ", "_")

    @property
    def towing(self) -> Towing:
        return self.behind.towing or Towing()

    @property
    def on_its_wheels(self) -> bool:
        """A motor vehicle towed with wheels on the road, not a trailer built to be towed."""
        return self.behind.kind in {"car", "pickup", "motorhome"}

    @property
    def wording(self) -> Wording:
        return Wording(self.profile.rig.units)

    def finding(self, grade: Grade, part: str, text: str, helps: str) -> Finding:
        return Finding(grade, 4, f"{self.key}.{part}", text, helps)


def assess_coupling_equipment(profile: Profile, on: date, ledger: Ledger) -> None:  # noqa: ARG001 - called alike.
    """Find what a towed vehicle lacks, and enter how level its bar is."""
    for number, coupling in enumerate(profile.rig.couplings, start=1):
        vehicles = profile.rig.vehicles
        ahead, behind = vehicles.get(coupling.ahead), vehicles.get(coupling.behind)
        if coupling.how == CARRIED:
            continue  # Nothing of it is towed.
        if ahead is None or behind is None:
            continue  # A name that no vehicle has is a problem of the input, told where it is read.
        towed = _Towed(coupling, number, ahead, behind, profile)
        found = [*_brake(towed), *_breakaway(towed), *_procedure(towed), *_cables(towed, ledger)]
        for finding in found:
            ledger.find(finding)
        _assess_level(towed, ledger)


def _brake(towed: _Towed) -> Iterator[Finding]:
    if towed.coupling.how == ON_A_DOLLY:
        return  # What rides on a dolly is stopped by the dolly's brakes.
    works = brakes_while_towed(towed.behind)
    if works is None:
        text = f"Whether the {towed.name} is braked while it is towed is not given."
        yield towed.finding("missing", "brake", text, "Enter it under towing or brakes.")
    elif not works:
        text = f"The {towed.name} has no brake while it is towed."
        yield towed.finding("do not drive", "brake", text, "Fit a supplemental brake; local law differs.")
    elif towed.on_its_wheels:
        yield from _lamp(towed)
    else:
        yield from _controller(towed)


def brakes_while_towed(vehicle: Vehicle) -> bool | None:
    """Say whether a towed vehicle brakes: a motor vehicle by its supplemental brake, others by their own."""
    towing = vehicle.towing or Towing()
    own = vehicle.brakes.service if vehicle.brakes else None
    if vehicle.kind in {"car", "pickup", "motorhome"}:
        return towing.supplemental_brake
    if own is not None:
        return own != "none"
    return towing.brakes_on_all_wheels or towing.supplemental_brake


def _lamp(towed: _Towed) -> Iterator[Finding]:
    lamp = towed.towing.brake_lamp_in_cab
    if lamp is None:
        text = f"Whether a lamp in the cab shows the brake of the {towed.name} is not given."
        yield towed.finding("missing", "brake_lamp_in_cab", text, "Enter it under towing.")
    elif not lamp:
        text = f"No lamp in the cab shows the brake of the {towed.name}: a brake that drags is not seen."
        yield towed.finding(
            "attention", "brake_lamp_in_cab", text, "Fit the lamp; feel the hubs at every stop."
        )


def _controller(towed: _Towed) -> Iterator[Finding]:
    if towed.behind.brakes is None or towed.behind.brakes.service != "electric":
        return
    has, ahead = towed.ahead.equipment.brake_controller, towed.coupling.ahead
    if has is None:
        text = f"Whether the {ahead} has a brake controller for the {towed.name} is not given."
        yield towed.finding("missing", "brake_controller", text, "Enter it under its equipment.")
    elif not has:
        text = f"The {ahead} has no brake controller for the electric brakes of the {towed.name}."
        yield towed.finding("do not drive", "brake_controller", text, "Fit one, and set it to the load.")


def _breakaway(towed: _Towed) -> Iterator[Finding]:
    if towed.coupling.how == ON_A_DOLLY:
        return
    stated = towed.towing.breakaway
    if stated is None:
        text = f"Whether a breakaway switch brakes the {towed.name} is not given."
        yield towed.finding("missing", "breakaway", text, "Enter it under towing.")
    elif not stated:
        text = f"No breakaway switch brakes the {towed.name} when it comes loose."
        yield towed.finding("do not drive", "breakaway", text, "Fit one; it must hold 15 minutes.")


def _procedure(towed: _Towed) -> Iterator[Finding]:
    if not towed.on_its_wheels:
        return
    lines = towed.towing.as_its_maker_says
    if lines is None:
        text = f"How the maker of the {towed.name} says it is towed is not given."
        yield towed.finding("missing", "procedure", text, "Copy the steps from its manual.")
    elif not lines:
        text = f"The maker of the {towed.name} gives no way to tow it on its wheels."
        yield towed.finding("do not drive", "procedure", text, "Carry it on a trailer, or drive it.")


def _cables(towed: _Towed, ledger: Ledger) -> Iterator[Finding]:
    ratings = {
        name: rating.towed
        for name, rating in towed.coupling.parts.items()
        if any(word in name for word in CABLE_WORDS)
    }
    # A fifth wheel needs none (49 CFR 393.70); what is listed there is judged all the same.
    # Straps hold a car on its dolly; the dolly's own chains hold both.
    if not ratings and towed.coupling.how not in {"fifth wheel", ON_A_DOLLY}:
        text = f"No safety cables or chains of the {towed.name} are given."
        yield towed.finding("missing", "safety_cables", text, "Enter them with the rating of each.")
    load = loaded_weight(towed.name, towed.profile, ledger)
    for name, rating in ratings.items():
        yield from _cable(towed, name, rating, load)


def _cable(towed: _Towed, name: str, rating: Mass | None, load: tuple[Mass, str] | None) -> Iterator[Finding]:
    if rating is None:
        text = f"The rating of the {name} of the {towed.name} is not given."
        yield towed.finding("missing", "safety_cables", text, "Read it off the tag.")
    elif load is None:
        text = f"The {name} cannot be judged: the loaded weight of the {towed.name} is not known."
        yield towed.finding("missing", "safety_cables", text, "Weigh it, or enter its gross rating.")
    elif rating * _SAME < load[0]:
        wording = towed.wording
        text = (
            f"The {name} of the {towed.name}: rated {wording.weight(rating, 'down')} each, under its "
            f"{load[1]} of {wording.weight(load[0], 'up')}."
        )
        yield towed.finding("do not drive", "safety_cables", text, "Fit cables that each hold all of it.")


def loaded_weight(vehicle: str, profile: Profile, ledger: Ledger) -> tuple[Mass, str] | None:
    """Give the loaded weight of a vehicle: as assessed, else as weighed, else its gross rating."""
    assessed = known_quantity(ledger, f"weights.{vehicle}.total.departure.load")
    if assessed is not None:
        return assessed, "loaded weight"
    for ticket in sorted(profile.rig.scale_tickets, key=lambda item: item.on, reverse=True):
        weighed = ticket.weights.get(vehicle)
        if weighed and weighed.total is not None:
            return weighed.total, "weight on the scale ticket"
    rating = profile.rig.vehicles[vehicle].label.gross_vehicle_weight_rating
    return None if rating is None else (rating, "gross rating")


def _assess_level(towed: _Towed, ledger: Ledger) -> None:
    coupling, part = towed.coupling, "level_difference"
    if coupling.how != "tow bar":
        return
    key, wording = f"{towed.key}.{part}", towed.wording
    rule = (
        f"height of the receiver less that of the base plate; within {wording.length(LEVEL_WITHIN, 'down')}"
    )
    ends: tuple[tuple[str, Quantity | None, Literal["height", "height_behind"]], ...] = (
        ("receiver", coupling.height, "height"),
        ("base plate", coupling.height_behind, "height_behind"),
    )
    inputs = tuple(
        Input(
            f"height of the {what}",
            wording.length(value, "nearest"),
            f"rig.yaml couplings[{towed.number}].{field}",
        )
        for what, value, field in ends
        if value is not None
    )
    if coupling.height is None or coupling.height_behind is None:
        text = f"The heights of both ends of the tow bar of the {towed.name} are not given."
        ledger.find(towed.finding("missing", part, text, "Measure both, loaded, on level ground."))
        ledger.add(Figure(key, None, "calculated", rule, "practice", inputs))
        return
    apart: Quantity = (coupling.height - coupling.height_behind).to("inch")
    across = max(apart, -1 * apart)
    left: Quantity = LEVEL_WITHIN - across
    if left.magnitude < 0:
        text = f"The tow bar of the {towed.name} is {wording.length(across, 'up')} out of level."
        ledger.find(towed.finding("attention", part, text, "Fit a drop or rise of the right height."))
    slack = f"{wording.length(left, 'down')} left" if left.magnitude >= 0 else "too far out of level"
    ledger.add(Figure(key, apart, "calculated", rule, "practice; profile", inputs, slack=slack))
