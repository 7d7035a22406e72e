"""Federal bridge formula and license groups: checks O3 and O9, and the tabulated formula."""

import csv
from pathlib import Path

import pytest

from binder.calculations.weights.labels_and_law import (
    bridge_formula,
    federal_group_limit,
    federal_license_group,
)
from binder.quantities import Quantity, registry
from tests.published.kinds import check

q = registry.Quantity


def rows(name: str) -> list[dict[str, str]]:
    return list(csv.DictReader((Path(__file__).parent / name).read_text(encoding="utf-8").splitlines()))


def pounds(weight: Quantity) -> float:
    return float(weight.to("pound").m)


def feet(distance: float) -> Quantity:
    return q(distance, "foot")


@check("23 CFR 658.17", "derived")
def test_o3_axles_2_to_5_of_a_rig_of_five() -> None:
    """The rule is read, the example of the federal booklet remembered, its arithmetic worked by hand."""
    assert pounds(bridge_formula(feet(35), 4)) == pytest.approx(65333.3, abs=0.05)
    assert pounds(federal_group_limit(feet(35), 4)) == 65500
    assert 68000 - pounds(federal_group_limit(feet(35), 4)) == 2500


@check("23 CFR 658.17", "derived")
def test_the_formula_is_the_tabulated_one() -> None:
    """W = 500 (L N / (N - 1) + 12 N + 36), worked by hand for every whole foot; a half goes down."""
    for row in rows("bridge_formula.csv"):
        apart, axles = feet(float(row["L_ft"])), int(row["N_axles"])
        allowed = min(float(row["W_nearest500_half_down_lb_before_caps"]), 20_000 * axles, 80_000)

        assert pounds(bridge_formula(apart, axles)) == pytest.approx(float(row["W_formula_lb"]), abs=0.05)
        if apart > q(96, "inch"):
            assert pounds(federal_group_limit(apart, axles)) == pytest.approx(allowed)


@check("23 CFR 658.17; W10", "published")
@pytest.mark.parametrize(
    ("inches", "axles", "allowed"),
    [(0, 1, 20_000), (40, 2, 20_000), (40.1, 2, 34_000), (96, 2, 34_000), (96, 3, 34_000)],
)
def test_axles_that_stand_near_share_one_limit(inches: float, axles: int, allowed: float) -> None:
    assert pounds(federal_group_limit(q(inches, "inch"), axles)) == allowed


@check("23 CFR 658.17", "published")
def test_all_axles_together_are_limited() -> None:
    assert pounds(federal_group_limit(feet(90), 6)) == 80_000


@check("23 CFR 658.17", "derived")
def test_a_part_of_a_foot_never_allows_more() -> None:
    assert federal_group_limit(feet(35.9), 4) == federal_group_limit(feet(35), 4)


@check("49 CFR 383.5; 49 CFR 383.91", "published")
@pytest.mark.parametrize(
    ("combination", "vehicle", "towed", "group"),
    [
        (30000, 25500, 4600, "neither A nor B"),
        (26001, 16000, 10001, "A"),
        (26000, 15999, 10001, "neither A nor B"),
        (26001, 16001, 10000, "neither A nor B"),
        (26001, 26001, None, "B"),
        (26000, 26000, None, "neither A nor B"),
        (36001, 26001, 10000, "B"),
        (37000, 26900, 10100, "A"),
    ],
)
def test_o9_license_group_follows_the_definitions(
    combination: float, vehicle: float, towed: float | None, group: str
) -> None:
    """The first row is check O9: neither group, and local law still differs."""
    found = federal_license_group(
        q(combination, "pound"), q(vehicle, "pound"), None if towed is None else q(towed, "pound")
    )

    assert found == group


@check("49 CFR 383.91", "published")
@pytest.mark.parametrize(("kilograms", "group"), [(4536, "neither A nor B"), (4537, "A")])
def test_the_kilograms_the_rule_prints_are_its_limit(kilograms: float, group: str) -> None:
    assert federal_license_group(q(12000, "kg"), q(7000, "kg"), q(kilograms, "kg")) == group
