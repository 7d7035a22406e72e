"""What freezes, gels, thickens or stops charging aboard, and at which temperature: one list for all."""

import re
from collections.abc import Iterator, Mapping
from typing import NamedTuple, get_args

from binder.assessment.fluids import kinds
from binder.assessment.ledger import NO_FACTS, Fact, Figure, Finding, Input, Ledger, Phrase
from binder.assessment.route.days import trip_days
from binder.calculations.fluids import (
    Basis,
    Fluid,
    freeze_margin,
    freeze_point,
    is_past_strongest,
    strength_for,
    thickest_for,
    winter_grade,
)
from binder.calculations.supplies.battery import electrolyte_freezes_at_charge
from binder.calculations.supplies.propane import propane_vapor_pressure, vapor_a_cylinder_gives
from binder.models.load import Profile
from binder.models.rig import Rig
from binder.models.vehicles import Fluid as Entry
from binder.models.vehicles import Fluid as FluidEntry
from binder.models.vehicles import Vehicle
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


_DRIVEN = {"motorhome", "pickup"}
_HALF_OF_A_CYLINDER = registry.Quantity(50.0, "pound")


class _Night(NamedTuple):
    """The coldest night of the trip of those whose low is known; ``is_of_all``: it is of every one."""

    low: Temperature
    day: int
    place: str
    is_of_all: bool

    @property
    def input(self) -> Input:
        return Input(kinds.COLDEST_NIGHT, self.low, facts={"day": self.day, "place": self.place})


def assess_fluids(profile: Profile, ledger: Ledger) -> None:
    """Enter for each fluid down to where it protects and the margin on the trip's coldest night.

    What is too little is found with the nights, each with its place.
    """
    coldest = _coldest(profile)
    for vehicle, entry in profile.rig.vehicles.items():
        for words, fluid in entry.fluids.items():
            _assess_fluid((vehicle, words), fluid, coldest, ledger)
        _find_blanks(vehicle, entry, ledger)
    held = {tank.holds for entry in profile.rig.vehicles.values() for tank in entry.tanks.values()}
    if coldest is not None and "propane" in held:
        _enter_propane(coldest, ledger)


def _enter_propane(coldest: _Night, ledger: Ledger) -> None:
    """What propane gives as vapor on the coldest night, however much of it is left."""
    given, pressure, heat = (coldest.input,), None, None
    if coldest.is_of_all:
        pressure = propane_vapor_pressure(coldest.low)
        heat = vapor_a_cylinder_gives(_HALF_OF_A_CYLINDER, coldest.low)
    least = None if pressure is None else pressure.least
    ledger.enter(Figure(kinds.PROPANE_PRESSURE.of(), least, given))
    ledger.enter(Figure(kinds.PROPANE_HEAT.of(), heat, given))


def _coldest(profile: Profile) -> _Night | None:
    days = [day for day in trip_days(profile) if day.plan.night]
    lows = [day.plan.night.low if day.plan.night else None for day in days]
    nights = (
        _Night(low, day.number, day.end.place, None not in lows)
        for day, low in zip(days, lows, strict=True)
        if low is not None
    )
    return min(nights, key=lambda night: float(night.low.to("kelvin").m), default=None)


def _assess_fluid(subject: tuple[str, str], fluid: Entry, coldest: _Night | None, ledger: Ledger) -> None:
    key, found = kinds.PROTECTS_TO.of(*subject), protection_of(fluid, subject[1])
    inputs = (Input(kinds.SPECIFICATION_INPUT, fluid.specification),)
    if found is None:
        if any(asked in subject[1] for asked in kinds.ASKED) and not has_none(fluid):
            if fluid.specification is not None:
                ledger.find(Finding(kinds.NOT_TOLD, key))
            ledger.enter(Figure(key, None, inputs))
        return
    mixture = mixture_of(fluid.specification or "")
    is_past = not found.is_oil and mixture is not None and is_past_strongest(*mixture)
    if is_past:
        ledger.find(Finding(kinds.TOO_STRONG, key))
    facts: dict[str, Fact] = {**found.facts, "sources": tuple(dict.fromkeys((found.source, "profile")))}
    past = (Phrase(kinds.PAST_STRONGEST),) if is_past else ()
    ledger.enter(Figure(key, found.limit, inputs, found.case, facts, cautions=past))
    if coldest is None:
        ledger.enter(Figure(kinds.MARGIN.of(*subject), None, facts=facts))
        return
    margin = freeze_margin(found.limit, coldest.low)
    held = coldest.input, Input(kinds.PROTECTS_TO_INPUT, found.limit)
    # A night that is not known may be colder.
    told = margin if coldest.is_of_all or margin.m < 0 else None
    ledger.enter(Figure(kinds.MARGIN.of(*subject), told, held, "known" if told is not None else "", facts))
    if margin.m < 0:
        _enter_needed(subject, (found, mixture), coldest, ledger)


def _enter_needed(
    subject: tuple[str, str], held: tuple[Protection, Mixture | None], coldest: _Night, ledger: Ledger
) -> None:
    """What would hold the coldest night, where what is in it does not."""
    (found, mixture), key, inputs = held, kinds.NEEDED.of(*subject), (coldest.input,)
    if found.is_oil:
        grade = thickest_for(coldest.low)
        needed = None if grade is None else Phrase(kinds.OR_THINNER, {"grade": grade.name})
        ledger.enter(Figure(key, needed, inputs, "oil", {"source": found.source}))
        return
    if mixture is None:
        return
    point = strength_for(mixture.fluid, mixture.basis, coldest.low)
    needed = None if point is None else mixture._replace(strength=point.strength).words
    facts = {"mixed": mixture.fluid, "source": point.source if point else found.source}
    ledger.enter(Figure(key, needed, inputs, "mixed", facts))


def _find_blanks(name: str, vehicle: Vehicle, ledger: Ledger) -> None:
    unlisted = unlisted_fluids(vehicle)
    blanks = tuple(
        Phrase(kinds.BLANK_OF_FLUID, {"blank": blank, "fluid": words})
        for words, fluid in vehicle.fluids.items()
        for blank in blanks_of(words, fluid)
    )
    lacking = (
        *((Phrase(kinds.NOT_LISTED, {"names": unlisted}),) if unlisted else ()),
        *((Phrase(kinds.NOT_NOTED, {"blanks": blanks}),) if blanks else ()),
    )
    if lacking:
        ledger.find(Finding(kinds.BLANKS, kinds.BLANKS.of(name), {"lacking": lacking}))


def has_none(fluid: Entry) -> bool:
    """Tell whether the vehicle has no such fluid, by its owner's word."""
    return bool(re.match(r"none\b", (fluid.specification or "").lower()))


def usual_fluids(vehicle: Vehicle) -> Iterator[kinds.UsualFluid]:
    """Give the fluids that a vehicle's equipment implies."""
    brakes = vehicle.brakes.service if vehicle.brakes else None
    if vehicle.engine or vehicle.kind in {*_DRIVEN, "car"}:
        yield from kinds.OF_ENGINE
    if vehicle.kind in _DRIVEN:
        yield from kinds.OF_DRIVE
    if vehicle.kind == "motorhome":
        yield kinds.OF_STEERING
    if brakes == "hydraulic":
        yield kinds.OF_HYDRAULIC_BRAKES
    if brakes == "air" and vehicle.kind in _DRIVEN:
        yield kinds.OF_DRIVEN_HUBS
    if vehicle.kind in {"trailer", "dolly"}:
        yield kinds.OF_TOWED_HUBS
    yield from _of_equipment(vehicle)


def _of_equipment(vehicle: Vehicle) -> Iterator[kinds.UsualFluid]:
    if vehicle.generator:
        yield kinds.OF_GENERATOR
    if vehicle.hydronic_heater:
        yield kinds.OF_HYDRONIC_HEATER
    if any(tank.holds == "exhaust fluid" for tank in vehicle.tanks.values()):
        yield kinds.OF_EXHAUST
    if any("house" in name and bank.chemistry == "lead-acid" for name, bank in vehicle.batteries.items()):
        yield kinds.OF_LEAD_ACID


def unlisted_fluids(vehicle: Vehicle) -> tuple[str, ...]:
    """List the fluids a vehicle's equipment implies and its profile does not name."""
    return tuple(
        usual.name
        for usual in usual_fluids(vehicle)
        if not any(re.search(usual.pattern, words.lower()) for words in vehicle.fluids)
    )


def blanks_of(words: str, fluid: Entry) -> tuple[str, ...]:
    """List what is not noted of one fluid."""
    if has_none(fluid):
        return ()
    is_measured = not kinds.NEVER_MEASURED.search(words.lower())
    lacking = (
        (kinds.SPECIFICATION, fluid.specification is None),
        (kinds.CAPACITY, fluid.capacity is None and is_measured),
        (kinds.HOW_READ, fluid.check is None),
    )
    return tuple(name for name, is_lacking in lacking if is_lacking)
