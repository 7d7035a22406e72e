"""Fluids against the trip's coldest night: how far each protects, what it lacks, and what is not noted."""

import re
from collections.abc import Iterator
from typing import NamedTuple

from binder.assessment.fluids import kinds
from binder.assessment.fluids.cold_limits import Mixture, Protection, mixture_of, protection_of
from binder.assessment.ledger import Fact, Figure, Finding, Input, Ledger, Phrase
from binder.assessment.route.days import trip_days
from binder.calculations.fluids import freeze_margin, is_past_strongest, strength_for, thickest_for
from binder.calculations.supplies.propane import propane_vapor_pressure, vapor_a_cylinder_gives
from binder.models.load import Profile
from binder.models.vehicles import Fluid, Vehicle
from binder.quantities import Temperature, registry

_DRIVEN = {"motorhome", "pickup"}
_HALF_OF_A_CYLINDER = registry.Quantity(50.0, "pound")


class _Night(NamedTuple):
    """The coldest night of the trip."""

    low: Temperature
    day: int
    place: str

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
    given, pressure = (coldest.input,), propane_vapor_pressure(coldest.low)
    least = None if pressure is None else pressure.least
    ledger.enter(Figure(kinds.PROPANE_PRESSURE.of(), least, given))
    heat = vapor_a_cylinder_gives(_HALF_OF_A_CYLINDER, coldest.low)
    ledger.enter(Figure(kinds.PROPANE_HEAT.of(), heat, given))


def _coldest(profile: Profile) -> _Night | None:
    nights = (
        _Night(day.plan.night.low, day.number, day.end.place)
        for day in trip_days(profile)
        if day.plan.night and day.plan.night.low is not None
    )
    return min(nights, key=lambda night: float(night.low.to("kelvin").m), default=None)


def _assess_fluid(subject: tuple[str, str], fluid: Fluid, coldest: _Night | None, ledger: Ledger) -> None:
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
    facts: dict[str, Fact] = {
        **found.facts,
        "sources": tuple(dict.fromkeys((found.source, "profile"))),
    }
    past = (Phrase(kinds.PAST_STRONGEST),) if is_past else ()
    ledger.enter(Figure(key, found.limit, inputs, found.case, facts, cautions=past))
    if coldest is None:
        ledger.enter(Figure(kinds.MARGIN.of(*subject), None, facts=facts))
        return
    margin = freeze_margin(found.limit, coldest.low)
    held = coldest.input, Input(kinds.PROTECTS_TO_INPUT, found.limit)
    ledger.enter(Figure(kinds.MARGIN.of(*subject), margin, held, "known", facts))
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


def has_none(fluid: Fluid) -> bool:
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


def blanks_of(words: str, fluid: Fluid) -> tuple[str, ...]:
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
