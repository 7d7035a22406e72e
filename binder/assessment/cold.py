"""Fluids against the trip's coldest night: how far each protects, and by how much that is enough."""

from binder.assessment.cold_limits import protection_of
from binder.assessment.figures import Figure, Finding, Input, Ledger
from binder.assessment.supply_tanks import key_part
from binder.assessment.trip_days import trip_days
from binder.assessment.wording import Wording
from binder.calculations.freeze_points import freeze_margin
from binder.models.load import Profile
from binder.quantities import Temperature

_ASKED = ("coolant", "hydronic", "washer", "engine oil", "generator oil")


def assess_fluids(profile: Profile, ledger: Ledger) -> None:
    """Enter for each fluid down to where it protects and the margin on the trip's coldest night.

    What is too little is found with the nights, each with its place.

    Args:
        profile: rig and, where there is one, trip.
        ledger: figures are added, and findings of what a specification does not tell.

    Returns:
        Nothing.

    Sources:
        S-J300; LIB-COOLPROP; S-LANGE-PG; S-LANGE-MEOH; S-YUCHAI; profile.

    Example:
        >>> from datetime import date
        >>> from pathlib import Path
        >>> from binder.assessment.assess import assess
        >>> from binder.models.load import load_profile
        >>> assessment = assess(load_profile(Path("profiles/larkspur")), date(2026, 6, 1))
        >>> f"{assessment.figure('fluids.coach.engine_oil.protects_to').value:.2f}"
        '-20.00 degree_Celsius'
    """
    wording = Wording(profile.rig.units)
    coldest = _coldest(profile)
    for vehicle, entry in profile.rig.vehicles.items():
        for words, fluid in entry.fluids.items():
            key = f"fluids.{key_part(vehicle)}.{key_part(words)}"
            found = protection_of(fluid, words)
            inputs = (Input("specification", fluid.specification or "not known", "profile"),)
            if found is None:
                if any(asked in words for asked in _ASKED):
                    text = f"The {vehicle}: down to where its {words} protects is not known."
                    helps = "Note its grade, like SAE 15W-40, or its mixture, like 50 % by volume."
                    ledger.find(Finding("missing", 8, f"{key}.protects_to", text, helps))
                    rule = "its specification does not tell"
                    ledger.add(Figure(f"{key}.protects_to", None, "table", rule, "profile", inputs))
                continue
            source = "; ".join(dict.fromkeys((found.source, "profile")))
            cautions = ("The engine maker's chart comes first.",) if found.is_oil else _TEST
            ledger.add(
                Figure(f"{key}.protects_to", found.limit, "table", found.rule, source, inputs, cautions)
            )
            _enter_margin(key, found.limit, coldest, (wording, source), ledger)


_TEST = ("The mixture in the vehicle is what counts: test it.",)


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
