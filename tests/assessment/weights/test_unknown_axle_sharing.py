"""A tag axle of which nobody says what it carries of an added weight: a blank and a line, no guess."""

from datetime import date
from pathlib import Path

import pytest

from binder.assessment.assess import assess
from binder.cards.pages.weights import weighed_things
from binder.models.load import load_profile
from tests.by_key import ByKey

RIG = Path(__file__).parents[2] / "rigs" / "tag_axle" / "rig.yaml"


@pytest.fixture
def untold(tmp_path: Path) -> ByKey:
    text = RIG.read_text("utf-8")
    assert text.count(", carries: air") == 1
    (tmp_path / "rig.yaml").write_text(text.replace(", carries: air", ""), "utf-8")
    return ByKey(assess(load_profile(tmp_path), date(2026, 6, 1)))


def test_the_axles_whose_sharing_is_not_given_are_named(untold: ByKey) -> None:
    texts = [finding.text for finding in untold.findings if finding.grade == "missing"]

    assert "Coach: how its axles share what is added is not given (drive, tag)." in texts


def test_where_a_load_is_not_known_in_every_state_no_state_is_called_its_heaviest(untold: ByKey) -> None:
    drive = untold.figure("weights.coach.drive.heaviest.load")

    assert drive.value is None
    assert drive.rule.endswith("at least that of: as weighed.")
    assert untold.figure("weights.coach.total.heaviest.load").value is not None


def test_the_page_of_weights_leaves_its_heaviest_blank(untold: ByKey) -> None:
    drive = next(thing for thing in weighed_things(untold.assessment) if thing.name == "coach, drive")

    assert not drive.is_known
    assert drive.margin is None
