"""What a rig should carry, by the rules of practice asked of its equipment, and which size to buy."""

from collections.abc import Iterator
from typing import NamedTuple

from binder.assessment.body.equipment_words import has
from binder.assessment.conditions import driven
from binder.assessment.ledger import FigureKind, Key, Ledger, Phrase
from binder.assessment.spares import kinds
from binder.assessment.tires.kinds import CAP
from binder.models.rig import Rig
from binder.models.tires import Wheels
from binder.reference.spares import SpareRule, spare_rules

_WITH_LAMPS = {"motorhome", "pickup", "car", "trailer"}


class Want(NamedTuple):
    """One thing that belongs aboard.

    ``vehicle`` is the one it is for where each of several has its own, else empty; ``quantity`` in the
    rig's units; ``names`` all the names, in small letters, under which it may be entered.
    """

    name: str
    vehicle: str
    quantity: str
    rule: SpareRule
    names: frozenset[str]
    is_driven: bool = True

    @property
    def words(self) -> Phrase:
        """Its name, with the vehicle where that is needed."""
        text = kinds.SPARE_OF if self.vehicle else kinds.SPARE
        return Phrase(text, {"spare": self.name, "vehicle": self.vehicle})

    def key(self, of_rig: FigureKind, of_vehicle: FigureKind) -> Key:
        """Give the key of a figure of it: of the rig, or of its vehicle where each has its own."""
        return of_vehicle.of(self.vehicle, self.name) if self.vehicle else of_rig.of(self.name)


def wanted_spares(rig: Rig) -> tuple[Want, ...]:
    """List what a rig with this equipment should carry."""
    found: dict[tuple[str, str], Want] = {}
    for rule in spare_rules():
        if has(rig, rule.needs):
            for want in _wants(rig, rule):
                found.setdefault((want.vehicle, want.name), want)
    return tuple(found.values())


def _wants(rig: Rig, rule: SpareRule) -> Iterator[Want]:
    quantity = rule.us if rig.units == "us" else rule.metric
    if rule.per == "belt":
        yield from _belts(rig, rule, quantity)
    elif rule.per == "vehicle":
        names, leading = _each(rig), driven(rig)[0]
        for name in names:
            vehicle = name if len(names) > 1 else ""
            yield Want(rule.name, vehicle, quantity, rule, frozenset({rule.name}), name == leading)
    else:
        yield Want(rule.name, "", quantity, rule, frozenset({rule.name}))


def _each(rig: Rig) -> list[str]:
    return [name for name, vehicle in rig.vehicles.items() if vehicle.kind in _WITH_LAMPS]


def _belts(rig: Rig, rule: SpareRule, quantity: str) -> Iterator[Want]:
    """One for each belt the profile names; without a list one, of which nothing is known."""
    engines = [vehicle.engine for vehicle in rig.vehicles.values() if vehicle.engine]
    named = [
        belt if "belt" in belt else kinds.BELT.format(belt=belt)
        for engine in engines
        for belt in engine.belts
    ]
    belts = list(dict.fromkeys(named)) or [kinds.ENGINE_BELT]
    for belt in belts:
        others = {rule.name, kinds.ENGINE_BELT} if len(belts) == 1 else set()
        yield Want(belt, "", quantity, rule, frozenset({belt.casefold(), *others}))


def size_of(want: Want, rig: Rig, ledger: Ledger) -> Phrase | None:
    """Say which size or kind is wanted, from what else the profile says."""
    kind = want.rule.size
    if kind == "cap":
        caps = [figure.quantity for figure in ledger.of_kind(CAP) if figure.quantity is not None]
        return Phrase(kinds.READS_TO, {"cap": max(caps)}) if caps else None
    if kind == "torque":
        torques = [wheels.nut_torque for wheels in rig.wheels.values() if wheels.nut_torque is not None]
        return Phrase(kinds.TORQUES_TO, {"torque": max(torques)}) if torques else None
    if kind == "socket":
        sockets = dict.fromkeys(wheels.socket for wheels in _wheels(rig, want.vehicle) if wheels.socket)
        return Phrase(kinds.SOCKETS, {"sockets": tuple(sockets)}) if sockets else None
    return _specification(rig, kind) if kind else None


def _wheels(rig: Rig, vehicle: str) -> list[Wheels]:
    chosen = [rig.vehicles[vehicle]] if vehicle else list(rig.vehicles.values())
    names = [axle.wheels for entry in chosen for axle in entry.axles.values()]
    return [rig.wheels[name] for name in names if name in rig.wheels]


def _specification(rig: Rig, fluid: str) -> Phrase | None:
    for vehicle in (driven(rig)[1], *rig.vehicles.values()):
        found = vehicle.fluids.get(fluid)
        if found and found.specification:
            return Phrase(kinds.SPECIFICATION, {"specification": found.specification})
    return None
