"""Titles and tables are true to the kind of rig: what is carried is not towed and does not roll."""

import pytest

from binder.cards.pages.weight_limits import coupling_blocks
from binder.cards.rig_words import axle_groups
from binder.cards.ring.fixed_cards import coupling
from tests.by_key import ByKey
from tests.cards.binder_rigs import RIGS, kind_of_rig


@pytest.mark.parametrize("folder", sorted(path.name for path in RIGS.iterdir() if path.is_dir()))
def test_a_rig_of_each_kind_within_its_ratings_may_drive(folder: str) -> None:
    assert [one.text for one in ByKey(kind_of_rig(folder)).findings if one.grade == "do not drive"] == []


@pytest.mark.parametrize("folder", ["slide_in_camper", "tag_axle"])
def test_a_rig_that_tows_nothing_has_no_coupling_card_and_no_chain(folder: str) -> None:
    found = kind_of_rig(folder)

    assert coupling(found) is None
    assert list(coupling_blocks(found)) == []


@pytest.mark.parametrize(
    ("folder", "rows"),
    [
        ("dolly", ["Front", "Rear, pairs", "Dolly", "Towed car, rear"]),
        ("car_on_trailer", ["Front", "Rear, pairs", "Trailer"]),
        ("slide_in_camper", ["Front", "Rear"]),
        ("three_axle_trailer", ["Front", "Rear", "Trailer"]),
        ("tag_axle", ["Steer", "Drive, pairs", "Tag"]),
    ],
)
def test_the_tires_card_has_a_row_for_what_rolls_alone(folder: str, rows: list[str]) -> None:
    assert [group.name for group in axle_groups(kind_of_rig(folder))] == rows


def test_the_car_on_a_dolly_is_towed_with_it() -> None:
    """660 lb of dolly axle, its 90 lb on the ball, 3,050 lb of car and 120 lb of boat."""
    towed = ByKey(kind_of_rig("dolly")).quantity("coupling.coach_dolly.towed")

    assert towed is not None
    assert towed.to("pound").m == pytest.approx(660 + 90 + 3050 + 120)
