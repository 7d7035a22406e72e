"""Worked cases of fluids, each with the publication it is from: O01 to O10 of ``fluids_checks.csv``."""

import csv
import json
import math
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from _pytest.mark import ParameterSet

from binder.calculations.battery_charge import charge_by_voltage, corrected_specific_gravity
from binder.calculations.densities import contents_weight, liquid_density
from binder.calculations.exhaust_fluid import exhaust_fluid_used, fills_needed, shelf_life
from binder.calculations.freeze_points import freeze_point
from binder.calculations.fuel_range import fuel_used
from binder.calculations.grades import Motion, RoadLoad, holding_power, steepest_grade
from binder.calculations.propane import (
    Burner,
    HeatingValue,
    LiquidState,
    propane_by_filling_density,
    propane_lasts,
    propane_use,
)
from binder.quantities import Quantity, registry
from tests.published.kinds import Kind, check

FOLDER = Path(__file__).parent
q = registry.Quantity


def rows(name: str) -> list[dict[str, str]]:
    return list(csv.DictReader((FOLDER / name).read_text(encoding="utf-8").splitlines()))


CHECKS = {row["id"]: row for row in rows("fluids_checks.csv")}
Inputs = dict[str, Any]


def known(quantity: Quantity | None) -> Quantity:
    assert quantity is not None
    return quantity


def tank_weight(given: Inputs) -> float:
    """O01, LIB-COOLPROP: water at 70 °F, 20 of 65 gal held."""
    density = known(liquid_density("water", q(given["temp_F"], "degF")))
    return float(contents_weight(q(given["tank_gal"] - given["held_gal"], "gallon"), density).to("lb").m)


def exhaust_fluid_weight(given: Inputs) -> float:
    """O02, S-ISO22241-1: the middle of the standard's limits of density."""
    density = q(given["density_kg_m3"], "kilogram / meter ** 3")
    return float(contents_weight(q(given["gal"], "gallon"), density).to("lb").m)


def months_it_keeps(given: Inputs) -> float:
    """O04, S-FORD: a service notice, quoted."""
    life = shelf_life(q(given["storage_temp_F"], "degF"))
    assert life is not None
    return float(life.time.to("month").m)


def loop_freezes(given: Inputs) -> float:
    """O05, S-LANGE-PG: handbook of chemistry, table 5.13."""
    point = freeze_point("propylene glycol", "volume", q(given["percent_by_volume"], "percent"))
    assert point is not None
    assert point.source == CHECKS["O05"]["source_id"]
    return float(point.temperature.to("degC").m)


def fill_limit(given: Inputs) -> float:
    """O06, S-OSHA1910: the rule's own example, 4200 / 52.6."""
    liquid = LiquidState(q(given["specific_gravity_60F"], ""), q(given["volume_correction_40F"], ""))
    capacity = q(given["tank_water_capacity_gal"], "gallon")
    limit = propane_by_filling_density(capacity, q(given["filling_density_pct"], "percent"), liquid)
    return float(limit.to("gallon").m)


def hours_of_a_cylinder(given: Inputs) -> float:
    """O07, S-KINETIC: "just under 11 h"; the cylinder's heat is taken as one gallon's."""
    heat = HeatingValue(q(given["cylinder_BTU"], "btu / gallon"), "gross")
    burner = Burner(q(given["appliance_BTU_h"], "btu / hour"), q(100, "percent"))
    return float(known(propane_lasts(q(1, "gallon"), propane_use([burner], heat))).to("hour").m)


def rested_charge(given: Inputs) -> float:
    """O08, S-DISCOVER: a row of the maker's table, so both ends of the band are the row."""
    band = charge_by_voltage("flooded", q(given["volts"], "volt"))
    assert band is not None
    assert band.least == band.most
    return float(band.least.to("percent").m)


def hydrometer(given: Inputs) -> float:
    """O09, S-TROJAN: 0.004 off for every 10 °F under 80 °F."""
    corrected = corrected_specific_gravity(given["reading"], q(given["electrolyte_F"], "degF"))
    assert corrected is not None
    return corrected


def grade_climbed(given: Inputs) -> float:
    """O10, S-MANNERING: 255 lb of pull against 86.22 lb of air and 33.97 lb of rolling."""
    slug = q(1, "pound_force * second ** 2 / foot")
    motion = Motion(
        q(given["weight_lb"], "lb"),
        q(given["speed_mph"], "mph"),
        given["rho_slug_ft3"] * slug / q(1, "foot**3"),
    )
    load = RoadLoad(q(given["Cd"] * given["area_ft2"], "foot ** 2"), 0.01, q(147, "foot / second"))
    power = q(given["tractive_lb"], "pound_force") * motion.speed
    return float(known(steepest_grade(motion, load, power)).to("percent").m)


CASES: dict[str, Callable[[Inputs], float]] = {
    "O01": tank_weight,
    "O02": exhaust_fluid_weight,
    "O04": months_it_keeps,
    "O05": loop_freezes,
    "O06": fill_limit,
    "O07": hours_of_a_cylinder,
    "O08": rested_charge,
    "O09": hydrometer,
    "O10": grade_climbed,
}


def as_checked(case: str) -> ParameterSet:
    """The case with its own mark, by how its value was seen."""
    kinds: dict[str, Kind] = {"LIBRARY+COMPUTED": "library", "COMPUTED": "derived"}
    return pytest.param(
        case, marks=check(CHECKS[case]["source_id"], kinds.get(CHECKS[case]["tag"], "published")), id=case
    )


@pytest.mark.parametrize("case", [as_checked(case) for case in CASES])
def test_worked_case_is_met(case: str) -> None:
    row = CHECKS[case]
    tolerance = 1e-9 if row["tolerance"] == "exact" else float(row["tolerance"])

    assert CASES[case](json.loads(row["input"])) == pytest.approx(float(row["expected"]), abs=tolerance)


@check("S-PROFORM", "published")
def test_exhaust_fluid_over_a_distance_is_the_suppliers_example() -> None:
    """O03, S-PROFORM: 50,000 miles at 8 mpg and 2 % from a 10-gal tank: 6,250 gal, 125 gal, 13 fills."""
    given, expected = (json.loads(CHECKS["O03"][name]) for name in ("input", "expected"))
    distance, use = q(given["miles"], "mile"), 1 / q(given["mpg"], "mile / gallon")
    used = exhaust_fluid_used(distance, use, q(given["def_pct_of_fuel"], "percent"))

    assert float(fuel_used(distance, use).to("gallon").m) == pytest.approx(expected["fuel_gal"])
    assert float(used.to("gallon").m) == pytest.approx(expected["def_gal"])
    assert fills_needed(used, q(given["def_tank_gal"], "gallon")) == expected["fills"]


def test_every_published_case_is_tried() -> None:
    assert set(CASES) | {"O03"} == set(CHECKS)


@check("S-MANNERING", "published")
def test_terms_of_the_published_grade_are_met_one_by_one() -> None:
    """O10, S-MANNERING, in pounds of force: 86.22 of air and 33.97 of rolling; the sum decides 6.74 %."""

    slug = q(1, "pound_force * second ** 2 / foot")
    motion = Motion(q(2000, "lb"), q(70, "mph"), 0.002045 * slug / q(1, "foot ** 3"))
    held = holding_power(motion, q(0, "percent"), RoadLoad(q(8, "foot**2"), 0.01, q(147, "foot / second")))

    assert float((held.air / motion.speed).to("pound_force").m) == pytest.approx(86.22, abs=0.02)
    assert float((held.rolling / motion.speed).to("pound_force").m) == pytest.approx(33.97, abs=0.02)
    assert math.isclose(float(held.gravity.m), 0, abs_tol=1e-12)


@check("S-LANGE-PG", "published")
@pytest.mark.parametrize(
    "row", rows("pg_freeze_lange.csv"), ids=lambda row: f"{row['PG_percent_by_volume']} %"
)
def test_propylene_glycol_never_protects_more_than_the_handbook_says(row: dict[str, str]) -> None:
    """Table 5.13, by volume; where the library's row is used it is the warmer by up to a degree."""
    point = freeze_point("propylene glycol", "volume", q(float(row["PG_percent_by_volume"]), "percent"))

    assert point is not None
    warmer = float(point.temperature.to("degC").m) - float(row["freeze_C"])
    assert -0.051 <= warmer <= 1.0


@check("S-LANGE-MEOH", "published")
@pytest.mark.parametrize(
    "row", rows("washer_methanol_freeze.csv"), ids=lambda row: f"{row['methanol_percent_volume']} %"
)
def test_methanol_freezes_as_the_handbook_says(row: dict[str, str]) -> None:
    point = freeze_point("methanol", "volume", q(float(row["methanol_percent_volume"]), "percent"))

    assert point is not None
    assert float(point.temperature.to("degC").m) == pytest.approx(float(row["freeze_C"]), abs=0.051)
