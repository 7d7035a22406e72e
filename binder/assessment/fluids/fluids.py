"""Fluids against the trip's coldest night: how far each protects, what it lacks, and what is not noted."""

from binder.assessment.figures import Figure, Finding, Input, Ledger
from binder.assessment.fluids.cold_limits import Protection, mixture_of, protection_of
from binder.assessment.fluids.usual_fluids import blanks_of, has_none, unlisted_fluids
from binder.assessment.route.days import trip_days
from binder.assessment.supplies.tanks import key_part
from binder.assessment.wording import Wording
from binder.calculations.fluids import freeze_margin, is_past_strongest, strength_for, thickest_for
from binder.models.load import Profile
from binder.models.vehicles import Fluid, Vehicle
from binder.quantities import Temperature

_ASKED = ("coolant", "hydronic", "washer", "engine oil", "generator oil")
_ORDER = 8
_CHART = "The engine maker's chart comes first."
_TEST = "The mixture in the vehicle is what counts: test it."
_PAST = "Past its strongest mixture more of it protects less."


def fluid_key(vehicle: str, words: str) -> str:
    """Begin the keys of the figures of one fluid."""
    return f"fluids.{key_part(vehicle)}.{key_part(words)}"


def assess_fluids(profile: Profile, ledger: Ledger) -> None:
    """Enter for each fluid down to where it protects and the margin on the trip's coldest night.

    What is too little is found with the nights, each with its place.
    """
    wording = Wording(profile.rig.units)
    coldest = _coldest(profile)
    for vehicle, entry in profile.rig.vehicles.items():
        for words, fluid in entry.fluids.items():
            _assess_fluid((vehicle, words), fluid, (coldest, wording), ledger)
        _find_blanks(vehicle, entry, ledger)


def _assess_fluid(
    whose: tuple[str, str],
    fluid: Fluid,
    trip: tuple[tuple[Temperature, str] | None, Wording],
    ledger: Ledger,
) -> None:
    (vehicle, words), (coldest, wording) = whose, trip
    key, found = fluid_key(vehicle, words), protection_of(fluid, words)
    inputs = (Input("specification", fluid.specification or "not known", "profile"),)
    if found is None:
        if any(asked in words for asked in _ASKED) and not has_none(fluid):
            if fluid.specification is not None:
                text = f"The {vehicle}: down to where its {words} protects is not known."
                helps = "Note its grade, like SAE 15W-40, or its mixture, like 50 % by volume."
                ledger.find(Finding("missing", _ORDER, f"{key}.protects_to", text, helps))
            rule = "its specification does not tell"
            ledger.add(Figure(f"{key}.protects_to", None, "table", rule, "profile", inputs))
        return
    source = "; ".join(dict.fromkeys((found.source, "profile")))
    cautions = (_CHART,) if found.is_oil else (_TEST, *_past_strongest(fluid))
    if _PAST in cautions:
        text = f"The {vehicle}: its {words} is mixed past its strongest: more of it protects less."
        helps = "Take it back to the maker's mixture, and test it."
        ledger.find(Finding("attention", _ORDER, f"{key}.protects_to", text, helps))
    ledger.add(Figure(f"{key}.protects_to", found.limit, "table", found.rule, source, inputs, cautions))
    _enter_margin(key, found.limit, coldest, (wording, source), ledger)
    if coldest is not None and freeze_margin(found.limit, coldest[0]).m < 0:
        _enter_needed(key, (fluid, found), coldest, wording, ledger)


def _past_strongest(fluid: Fluid) -> tuple[str, ...]:
    mixture = mixture_of(fluid.specification or "")
    if mixture is None or not is_past_strongest(mixture.fluid, mixture.basis, mixture.strength):
        return ()
    return (_PAST,)


def _coldest(profile: Profile) -> tuple[Temperature, str] | None:
    lows = [
        (day.plan.night.low, f"night after day {day.number}, {day.end.place}")
        for day in trip_days(profile)
        if day.plan.night and day.plan.night.low is not None
    ]
    return min(lows, key=lambda item: float(item[0].to("kelvin").m), default=None)


def _enter_margin(
    key: str,
    limit: Temperature,
    coldest: tuple[Temperature, str] | None,
    told: tuple[Wording, str],
    ledger: Ledger,
) -> None:
    wording, source = told
    rule = "the coldest night of the trip over the temperature it protects to"
    if coldest is None:
        ledger.add(Figure(f"{key}.margin", None, "calculated", f"{rule}; no low is given", source))
        return
    low, place = coldest
    inputs = (
        Input("coldest night", f"{wording.temperature(low, 'down')}, {place}", "trip plan"),
        Input("protects to", wording.temperature(limit, "up"), source),
    )
    margin = freeze_margin(limit, low)
    ledger.add(Figure(f"{key}.margin", margin, "calculated", rule, f"{source}; trip plan", inputs))


def _enter_needed(
    key: str,
    told: tuple[Fluid, Protection],
    coldest: tuple[Temperature, str],
    wording: Wording,
    ledger: Ledger,
) -> None:
    """What would hold the coldest night, where what is in it does not."""
    (fluid, found), (low, place) = told, coldest
    inputs = (Input("coldest night", f"{wording.temperature(low, 'down')}, {place}", "trip plan"),)
    if found.is_oil:
        grade = thickest_for(low)
        rule = "thickest winter grade whose cranking limit covers it"
        needed = None if grade is None else f"{grade.name} or thinner"
        ledger.add(Figure(f"{key}.needed", needed, "table", rule, "S-J300; trip plan", inputs, (_CHART,)))
        return
    mixture = mixture_of(fluid.specification or "")
    if mixture is None:
        return
    point = strength_for(mixture.fluid, mixture.basis, low)
    rule = f"weakest mixture of {mixture.fluid} in the table that does not freeze then"
    needed = None if point is None else f"{float(point.strength.m):g} %{mixture.by}"
    source = f"{point.source if point else found.source}; trip plan"
    ledger.add(Figure(f"{key}.needed", needed, "table", rule, source, inputs, (_TEST,)))


def _find_blanks(name: str, vehicle: Vehicle, ledger: Ledger) -> None:
    unlisted = unlisted_fluids(vehicle)
    blanks = [
        f"{blank} of {words}" for words, fluid in vehicle.fluids.items() for blank in blanks_of(words, fluid)
    ]
    parts = [f"not listed: {', '.join(unlisted)}"] if unlisted else []
    parts += [f"not noted: {', '.join(blanks)}"] if blanks else []
    if parts:
        text = f"The {name}, fluids {'; '.join(parts)}."
        helps = "Enter them under fluids:, from its manual; where it has none, specification: none."
        ledger.find(Finding("missing", _ORDER, f"fluids.{key_part(name)}.listed", text, helps))
