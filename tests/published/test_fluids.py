"""Worked cases of fluids, each with the publication it is from: O01 to O10 of ``fluids_checks.csv``."""

import csv
import json
import math
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from _pytest.mark import ParameterSet

from binder.calculations.fluids import freeze_point
from binder.calculations.route.grades import Motion, RoadLoad, holding_power
from binder.calculations.supplies.fuel import exhaust_fluid_used, shelf_life
from binder.calculations.supplies.propane import propane_held
from binder.quantities import registry
from binder.reference.constants import EXHAUST_FLUID_DENSITY, WATER_DENSITY
from tests.published.kinds import Kind, check

FOLDER = Path(__file__).parent
q = registry.Quantity


def rows(name: str) -> list[dict[str, str]]:
    return list(csv.DictReader((FOLDER / name).read_text(encoding="utf-8").splitlines()))


CHECKS = {row["id"]: row for row in rows("fluids_checks.csv")}
Inputs = dict[str, Any]


def tank_weight(given: Inputs) -> float:
    """O01, LIB-COOLPROP: the density all water is weighed by, 20 of 65 gal held at 70 °F."""
    missing = q(given["tank_gal"] - given["held_gal"], "gallon")
    return float((missing * WATER_DENSITY.quantity).to("lb").m)


def exhaust_fluid_weight(given: Inputs) -> float:
    """O02, S-ISO22241-1: the density it is weighed by, within the standard's limits."""
    return float((q(given["gal"], "gallon") * EXHAUST_FLUID_DENSITY.quantity).to("lb").m)


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


CASES: dict[str, Callable[[Inputs], float]] = {
    "O01": tank_weight,
    "O02": exhaust_fluid_weight,
    "O04": months_it_keeps,
    "O05": loop_freezes,
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
    """O03, S-PROFORM: 50,000 miles at 8 mpg and 2 %: 125 gal."""
    given = json.loads(CHECKS["O03"]["input"])
    distance, use = q(given["miles"], "mile"), 1 / q(given["mpg"], "mile / gallon")
    used = exhaust_fluid_used(distance, use, q(given["def_pct_of_fuel"], "percent"))

    assert float(used.to("gallon").m) == pytest.approx(float(CHECKS["O03"]["expected"]))


def test_every_published_case_is_tried() -> None:
    assert set(CASES) | {"O03", "O10"} == set(CHECKS)


@check("S-MANNERING", "published")
def test_terms_of_the_published_grade_are_met_one_by_one() -> None:
    """O10, S-MANNERING, in pounds of force: 86.22 of air and 33.97 of rolling; 255 climb 6.74 %."""

    slug = q(1, "pound_force * second ** 2 / foot")
    motion = Motion(q(2000, "lb"), q(70, "mph"), 0.002045 * slug / q(1, "foot ** 3"))
    load = RoadLoad(q(8, "foot**2"), 0.01, q(147, "foot / second"))
    held = holding_power(motion, q(0, "percent"), load)
    climbed = holding_power(motion, q(float(CHECKS["O10"]["expected"]), "percent"), load)
    pull = (climbed.gravity + climbed.air + climbed.rolling) / motion.speed

    assert float((held.air / motion.speed).to("pound_force").m) == pytest.approx(86.22, abs=0.02)
    assert float((held.rolling / motion.speed).to("pound_force").m) == pytest.approx(33.97, abs=0.02)
    assert math.isclose(float(held.gravity.m), 0, abs_tol=1e-12)
    # Half the last printed digit of the grade is a pound.
    assert float(pull.to("pound_force").m) == pytest.approx(255, abs=1)


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


@pytest.mark.parametrize(("gallons", "passes"), [(2.9, True), (3.0, False), (5.9, False)])
@check("S-TUNNEL; 29 CFR 1910.110; S-COMAR", "derived")
def test_a_ten_pound_bottle_passes_a_tunnel_that_prohibits_more(gallons: float, passes: bool) -> None:  # noqa: FBT001 - a case's part.
    """Bottles over 10 lb are prohibited; what one holds: 80 % of its volume at 4.24 lb/gal, by hand."""
    held = propane_held(q(gallons, "gallon"), None)

    assert held is not None
    assert held.to("pound").m == pytest.approx(gallons * 0.8 * 4.24)
    assert (held <= q(10, "pound")) == passes
