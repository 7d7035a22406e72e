"""What freezes, gels, thickens or stops charging aboard, and at which temperature: one list for all."""

import re
from collections.abc import Iterator
from typing import NamedTuple, get_args

from binder.calculations.fluids import Basis, Fluid, freeze_point, winter_grade
from binder.calculations.supplies.battery import electrolyte_freezes_at_charge
from binder.models.rig import Rig
from binder.models.vehicles import Fluid as FluidEntry
from binder.quantities import TEMPERATURE, QuantityError, Share, Temperature, registry

_HALF = registry.Quantity(50.0, "percent")


class ColdLimit(NamedTuple):
    """Below ``limit`` something aboard freezes or gels; ``words`` say what, ``helps`` what to do."""

    limit: Temperature
    words: str
    helps: str
    source: str


class Protection(NamedTuple):
    """Down to where a fluid protects or an oil lets the engine start, and how that was found."""

    limit: Temperature
    rule: str
    source: str
    is_oil: bool = False


def _limit(degrees: float, words: str, helps: str, source: str) -> ColdLimit:
    return ColdLimit(registry.Quantity(degrees, "degree_Fahrenheit"), words, helps, source)


# By what a tank holds. Diesel: No. 2 clouds at 14 to 20 °F, so 25 °F asks for winter fuel in time.
# Propane: the table of what a cylinder gives as vapor ends at 0 °F.
_TANKS = {
    "diesel": _limit(25.0, "diesel may gel", "Fill winter blend before the climb.", "practice"),
    "exhaust fluid": _limit(
        12.0,
        "exhaust fluid freezes",
        "Leave 7 % air in its tank; the engine thaws it.",
        "S-ISO22241-1",
    ),
    "fresh water": _limit(
        32.0, "fresh water freezes", "Heat the bays, drip or drain; take the hose in.", "practice"
    ),
    "propane": _limit(
        0.0, "propane gives little vapor", "Keep its container full; run fewer burners at a time.", "S-FLAME"
    ),
}
_LITHIUM = _limit(
    32.0, "lithium batteries take no charge", "Warm them first; turn chargers and solar off.", "S-LFP"
)


def cold_limits(rig: Rig) -> Iterator[ColdLimit]:
    """What the rig carries that a cold night harms."""
    held = {tank.holds for vehicle in rig.vehicles.values() for tank in vehicle.tanks.values()}
    yield from (limit for contents, limit in _TANKS.items() if contents in held)
    chemistries = {bank.chemistry for vehicle in rig.vehicles.values() for bank in vehicle.batteries.values()}
    if "lithium iron phosphate" in chemistries:
        yield _LITHIUM
    if "lead-acid" in chemistries:
        yield from _lead_acid()
    for vehicle, entry in rig.vehicles.items():
        for words, fluid in entry.fluids.items():
            found = protection_of(fluid, words)
            if found is None:
                continue
            name = f"{words} of the {vehicle}"
            verb = "is too thick to start on" if found.is_oil else "freezes"
            helps = _OIL_HELPS if found.is_oil else "Mix it stronger before the climb, and test it."
            yield ColdLimit(found.limit, f"{name} {verb}", helps, found.source)


_OIL_HELPS = "The engine maker's chart first: a thinner winter grade, or the block heater."


def _lead_acid() -> Iterator[ColdLimit]:
    freezing = [
        electrolyte_freezes_at_charge("flooded", _HALF),
        electrolyte_freezes_at_charge("flooded deep-cycle", _HALF),
    ]
    warmest = max((point for point in freezing if point is not None), default=None)
    if warmest is not None:
        words, source = "a battery drawn to half freezes", "S-DISCOVER; S-T105; S-OD1002"
        yield ColdLimit(warmest, words, "Keep batteries charged, the towed vehicle's too.", source)


def protection_of(fluid: FluidEntry, words: str) -> Protection | None:
    """Read from a fluid's specification down to which temperature it protects."""
    text = fluid.specification
    if text is None:
        return None
    if "oil" in words:
        grade = winter_grade(text) if words in _STARTED_ON else None
        if grade is None:
            return None
        return Protection(grade.cranks_at, f"cold-cranking limit of {grade.name}", "S-J300", is_oil=True)
    stated = _stated_limit(text)
    if stated is not None:
        return Protection(stated, "as its specification states", "profile")
    return _mixed(text)


# Gear oils have W grades of another scale.
_STARTED_ON = {"engine oil", "generator oil"}


def _stated_limit(text: str) -> Temperature | None:
    found = re.search(r"\bto (-?[0-9]+(?:\.[0-9]+)? ?deg[FC])\b", text)
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
    def by(self) -> str:
        """What its percentage is of, as a sentence goes on."""
        return "" if self.basis == "not stated" else f" by {self.basis}"


def mixture_of(text: str) -> Mixture | None:
    """Read a mixture with water from a specification."""
    fluid = next((name for name in get_args(Fluid) if name in text), None)
    share = re.search(r"([0-9]+(?:\.[0-9]+)?) ?%", text)
    if fluid is None or share is None:
        return None
    basis: Basis = "volume" if "volume" in text else "mass" if "mass" in text else "not stated"
    return Mixture(fluid, basis, registry.Quantity(float(share[1]), "percent"))


def _mixed(text: str) -> Protection | None:
    mixture = mixture_of(text)
    point = freeze_point(mixture.fluid, mixture.basis, mixture.strength) if mixture else None
    if mixture is None or point is None:
        return None
    rule = f"freezing point of {mixture.fluid}, {float(mixture.strength.m):g} %{mixture.by}"
    return Protection(point.temperature, rule, point.source)
