"""What a rig should carry: the rules of practice, asked of its equipment."""

from collections.abc import Iterator
from typing import NamedTuple

from binder.assessment.body.equipment_words import has
from binder.assessment.conditions import driven
from binder.models.rig import Rig
from binder.reference.spares import SpareRule, spare_rules

_WITH_LAMPS = {"motorhome", "pickup", "car", "trailer"}
_ENGINE_BELT = "engine belt"


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
    def key(self) -> str:
        """Start of the keys of its figures."""
        parts = ("spares", *([self.vehicle] if self.vehicle else []), self.name)
        return ".".join(part.replace(".", "").replace(" ", "_") for part in parts)

    @property
    def words(self) -> str:
        """Its name, with the vehicle where that is needed."""
        return f"{self.name} of the {self.vehicle}" if self.vehicle else self.name


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
    named = [belt if "belt" in belt else f"{belt} belt" for engine in engines for belt in engine.belts]
    belts = list(dict.fromkeys(named)) or [_ENGINE_BELT]
    for belt in belts:
        others = {rule.name, _ENGINE_BELT} if len(belts) == 1 else set()
        yield Want(belt, "", quantity, rule, frozenset({belt.casefold(), *others}))
