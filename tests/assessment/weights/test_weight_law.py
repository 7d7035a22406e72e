"""Federal comparisons of a rig: groups of axles in place, license groups, never more than attention."""

import pytest

from binder.assessment.weights.limits import AxleGroup, axle_groups
from binder.cards.blocks import Note, Table
from binder.cards.pages.weight_limits import weight_law_blocks
from binder.wording.measures import Style
from binder.wording.sentences import sentence
from tests.assessment.conftest import Assessed
from tests.by_key import ByKey

RATED = ("gross_vehicle_weight_rating: 30500 lb", "gross_vehicle_weight_rating: 26000 lb")
EMPTY = ("unloaded_vehicle_weight: 25370 lb", "unloaded_vehicle_weight: 20870 lb")


def pounds(assessment: ByKey, key: str) -> float:
    quantity = assessment.quantity(key)
    assert quantity is not None
    return float(quantity.to("pound").m)


def name(group: AxleGroup) -> str:
    return sentence(group.name, {}, Style("us"))


def test_a_towed_cars_axles_stand_behind_the_bar(larkspur: ByKey) -> None:
    """376 in to the receiver, 60 in of bar, 35 in to the car's first axle and 104.5 in to its second."""
    whole = axle_groups(larkspur.rig)[-1]

    assert name(whole) == "coach, steer to car, rear"
    assert float(whole.apart.to("inch").m) == pytest.approx(376 + 60 + 35 + 104.5)


def test_a_bar_nobody_measured_leaves_each_vehicle_by_itself(assessed: Assessed) -> None:
    after = assessed("larkspur", ("    length: 60 in\n", ""))
    names = [name(group) for group in axle_groups(after.rig) if len(group.axles) > 1]

    assert names == ["coach, steer to drive", "car, front to rear"]


def test_the_whole_rig_is_held_against_the_formula(larkspur: ByKey) -> None:
    """575.5 in are 47 whole feet: 500 (47 x 4/3 + 48 + 36) = 73,333 lb, to the nearest 500."""
    key = "weights.bridge.coach_steer_to_car_rear"

    assert pounds(larkspur, f"{key}.limit") == 73500
    assert pounds(larkspur, f"{key}.margin") == pytest.approx(73500 - pounds(larkspur, f"{key}.load"))


def test_a_group_over_its_limit_is_attention_and_no_more(assessed: Assessed) -> None:
    after = assessed(
        "larkspur",
        ("drive: {left: 8420 lb, right: 8060 lb, axle: 16480 lb}", "drive: {left: 9920 lb, right: 9560 lb}"),
        ("total: 27200 lb", "total: 30200 lb"),
    )
    found = [one for one in after.findings if one.key.startswith("weights.bridge")]

    assert [(one.grade, one.order) for one in found] == [("attention", 10)]
    assert found[0].text.startswith("Coach, drive: 896 lb over the federal limit of axle groups")
    assert "Local law differs" in found[0].what_helps


@pytest.mark.parametrize(
    ("changes", "group"),
    [((), "B"), ((RATED, EMPTY), "neither A nor B"), ((("rating: 30500 lb", "rating:"),), None)],
)
def test_the_license_group_follows_the_labels(
    assessed: Assessed, changes: tuple[tuple[str, str], ...], group: str | None
) -> None:
    """A car of 4,850 lb is no heavy tow, whatever the combination is rated."""
    assert assessed("larkspur", *changes).figure("rig.federal_license_group").value == group


def test_the_page_says_that_local_law_differs(larkspur: ByKey) -> None:
    blocks = list(weight_law_blocks(larkspur.assessment))
    tables = [block for block in blocks if isinstance(block, Table)]
    notes = [block.text for block in blocks if isinstance(block, Note)]

    assert [row[0] for row in tables[0].rows] == [
        "coach, steer to drive",
        "car, front to rear",
        "coach, steer to car, rear",
    ]
    assert notes[-1].startswith("License, federal groups, comparison only: B. ")
    assert all("ocal law differs" in note for note in notes)
