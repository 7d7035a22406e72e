"""What freezes, gels, thickens or stops charging aboard, and at which temperature: one list for all."""

from collections.abc import Iterator, Mapping
from typing import NamedTuple, get_args

from binder.assessment.fluids import kinds
from binder.assessment.ledger import NO_FACTS, Fact, Phrase
from binder.calculations.fluids import Basis, Fluid, freeze_point, winter_grade
from binder.calculations.supplies.battery import electrolyte_freezes_at_charge
from binder.models.rig import Rig
from binder.models.vehicles import Fluid as FluidEntry
from binder.quantities import TEMPERATURE, QuantityError, Share, Temperature, registry

_HALF = registry.Quantity(50.0, "percent")


class ColdLimit(NamedTuple):
    """Below ``limit`` something aboard freezes or gels; ``words`` say what, ``helps`` what to do."""

    limit: Temperature
    words: Phrase
    helps: str
    source: str


class Protection(NamedTuple):
    """Down to where a fluid protects or an oil lets the engine start, and how that was found."""

    limit: Temperature
    source: str
    case: str
    facts: Mapping[str, Fact] = NO_FACTS

    @property
    def is_oil(self) -> bool:
        """Whether it is an oil: it does not freeze, it is too thick to start on."""
        return self.case == "oil"


# In degrees Fahrenheit, by what a tank holds. Diesel: No. 2 clouds at 14 to 20, so 25 asks for winter fuel
# in time. Propane: the table of what a cylinder gives as vapor ends at 0.
_TANKS = {"diesel": 25.0, "exhaust fluid": 12.0, "fresh water": 32.0, "propane": 0.0}
_LITHIUM = 32.0


def _limit(limit: Temperature, harm: kinds.Harm) -> ColdLimit:
    return ColdLimit(limit, Phrase(harm.words), harm.helps, harm.source)


def _fahrenheit(degrees: float) -> Temperature:
    return registry.Quantity(degrees, "degree_Fahrenheit")


def cold_limits(rig: Rig) -> Iterator[ColdLimit]:
    """What the rig carries that a cold night harms."""
    held = {tank.holds for vehicle in rig.vehicles.values() for tank in vehicle.tanks.values()}
    for contents, degrees in _TANKS.items():
        if contents in held:
            yield _limit(_fahrenheit(degrees), kinds.HARMS[contents])
    chemistries = {bank.chemistry for vehicle in rig.vehicles.values() for bank in vehicle.batteries.values()}
    if "lithium iron phosphate" in chemistries:
        yield _limit(_fahrenheit(_LITHIUM), kinds.LITHIUM_COLD)
    if "lead-acid" in chemistries:
        yield from _lead_acid()
    for vehicle, entry in rig.vehicles.items():
        for name, fluid in entry.fluids.items():
            found = protection_of(fluid, name)
            if found is not None:
                words = kinds.TOO_THICK if found.is_oil else kinds.FREEZES
                helps = kinds.OIL_HELPS if found.is_oil else kinds.MIXTURE_HELPS
                told = Phrase(words, {"fluid": name, "vehicle": vehicle})
                yield ColdLimit(found.limit, told, helps, found.source)


def _lead_acid() -> Iterator[ColdLimit]:
    freezing = [
        electrolyte_freezes_at_charge("flooded", _HALF),
        electrolyte_freezes_at_charge("flooded deep-cycle", _HALF),
    ]
    warmest = max((point for point in freezing if point is not None), default=None)
    if warmest is not None:
        yield _limit(warmest, kinds.LEAD_ACID_FREEZES)


def protection_of(fluid: FluidEntry, words: str) -> Protection | None:
    """Read from a fluid's specification down to which temperature it protects."""
    text = fluid.specification
    if text is None:
        return None
    if "oil" in words:
        grade = winter_grade(text) if words in kinds.STARTED_ON else None
        return Protection(grade.cranks_at, "S-J300", "oil", {"grade": grade.name}) if grade else None
    stated = _stated_limit(text)
    return Protection(stated, "profile", "stated") if stated is not None else _mixed(text)


def _stated_limit(text: str) -> Temperature | None:
    found = kinds.STATED_LIMIT.search(text)
    try:
        return TEMPERATURE.read(found[1]) if found else None
    except QuantityError:
        return None


class Mixture(NamedTuple):
    """What a specification says is mixed with water, and how much of it."""

    fluid: Fluid
    basis: Basis
    strength: Share

    @property
    def words(self) -> Phrase:
        """How strong it is, and what its percentage is of."""
        if self.basis == "not stated":
            return Phrase(kinds.MIXED, {"strength": self.strength})
        return Phrase(kinds.MIXED_BY, {"strength": self.strength, "basis": self.basis})


def mixture_of(text: str) -> Mixture | None:
    """Read a mixture with water from a specification."""
    fluid = next((name for name in get_args(Fluid) if name in text), None)
    share = kinds.STRENGTH.search(text)
    if fluid is None or share is None:
        return None
    basis: Basis = "volume" if "volume" in text else "mass" if "mass" in text else "not stated"
    return Mixture(fluid, basis, registry.Quantity(float(share[1]), "percent"))


def _mixed(text: str) -> Protection | None:
    mixture = mixture_of(text)
    point = freeze_point(*mixture) if mixture else None
    if mixture is None or point is None:
        return None
    facts: dict[str, Fact] = {"mixed": mixture.fluid, "mixture": mixture.words}
    return Protection(point.temperature, point.source, "mixed", facts)
