"""The water question: the fill of the fresh tanks changes weight, pressure and days, and nothing else."""

from dataclasses import replace
from datetime import date

import pytest

from binder.assessment.assess import assess
from binder.assessment.supplies.water_question import FILLS, assess_water_question
from binder.models.load import load_profile
from binder.quantities import number_in, registry
from tests.by_key import ByKey, entered_by
from tests.demos import PROFILES

ON = date(2026, 6, 1)
WATER = 8.33
"""Pounds a gallon, EPA AP-42 appendix A."""


def demo(name: str) -> ByKey:
    return ByKey(assess(load_profile(PROFILES / name), ON))


def pounds(assessment: ByKey, key: str) -> float:
    quantity = assessment.figure(key).quantity
    assert quantity is not None
    return number_in(quantity, "pound")


@pytest.mark.parametrize("name", ["larkspur", "kestrel", "tamarack", "sandpiper"])
def test_the_rig_weighs_less_by_exactly_the_water_left_behind(name: str) -> None:
    assessment = demo(name)
    (vehicle,) = [name for name, one in assessment.rig.vehicles.items() if "fresh" in one.tanks]
    water, whole = "water.fresh.{}.weight", f"water.{vehicle}.total.{{}}.load"

    for fill in ("part", "empty"):
        left = pounds(assessment, water.format("full")) - pounds(assessment, water.format(fill))
        less = pounds(assessment, whole.format("full")) - pounds(assessment, whole.format(fill))
        assert less == pytest.approx(left)


def test_a_full_tank_is_the_departure_it_is_planned_with() -> None:
    assessment = demo("larkspur")

    for axle in ("steer", "drive"):
        departure = pounds(assessment, f"weights.coach.{axle}.departure.load")
        assert pounds(assessment, f"water.coach.{axle}.full.load") == pytest.approx(departure)


def test_larkspur_s_water_by_hand() -> None:
    """Ninety gallons at 196 in of a wheelbase of 252 in: 749.7 lb, 583.1 of them on the drive axle."""
    assessment = demo("larkspur")
    drive = [pounds(assessment, f"water.coach.drive.{fill}.load") for fill in ("full", "empty")]

    assert pounds(assessment, "water.fresh.full.weight") == pytest.approx(90 * WATER)
    assert drive[0] - drive[1] == pytest.approx(90 * WATER * 196 / 252)
    assert assessment.figure("water.fresh.full.days").quantity == registry.Quantity(90 / 14, "day")


def test_pressures_never_rise_as_water_leaves() -> None:
    assessment = demo("larkspur")

    for axle in ("steer", "drive"):
        found = [assessment.figure(f"water.coach.{axle}.{fill}.set_point").quantity for fill in FILLS]
        assert None not in found
        assert found == sorted(found, reverse=True, key=lambda one: number_in(one, "psi") if one else 0.0)


def test_a_common_tank_full_weighs_350_to_400_lb_more_than_a_common_part_fill() -> None:
    """Practice, no source: 65 gal full against 20 gal."""
    profile = load_profile(PROFILES / "larkspur")
    coach = profile.rig.vehicles["coach"]
    tank = coach.tanks["fresh"].model_copy(update={"capacity": registry.Quantity(65.0, "gallon")})
    smaller = coach.model_copy(update={"tanks": {**coach.tanks, "fresh": tank}})
    rig = profile.rig.model_copy(update={"vehicles": {**profile.rig.vehicles, "coach": smaller}})
    ledger = entered_by(replace(profile, rig=rig, trip=None), ON, assess_water_question)
    full, part = (ledger.figure(f"water.fresh.{fill}.weight").quantity for fill in ("full", "part"))

    assert full is not None
    assert part is not None
    assert 350 <= number_in(full - part, "pound") <= 400


def test_a_rig_without_a_known_fresh_tank_has_no_water_question() -> None:
    profile = load_profile(PROFILES / "larkspur")
    coach = profile.rig.vehicles["coach"]
    unknown = coach.tanks["fresh"].model_copy(update={"capacity": None})
    for tanks in ({"diesel": coach.tanks["diesel"]}, {**coach.tanks, "fresh": unknown}):
        changed = coach.model_copy(update={"tanks": tanks})
        rig = profile.rig.model_copy(update={"vehicles": {**profile.rig.vehicles, "coach": changed}})
        ledger = entered_by(replace(profile, rig=rig, trip=None), ON, assess_water_question)

        assert ledger.figures == {}


def test_without_a_use_in_the_plan_the_days_are_not_known() -> None:
    profile = replace(load_profile(PROFILES / "larkspur"), trip=None)
    ledger = entered_by(profile, ON, assess_water_question)

    assert ledger.figure("water.fresh.full.days").value is None
    assert ledger.figure("water.fresh.full.stay").value is None
    assert ledger.figure("water.fresh.full.ends_first").value is None
