"""The share of a trailer on its coupling: by hand from the demo tickets, and from changed ones."""

import pytest

from tests.assessment.conftest import Assessed
from tests.by_key import ByKey, ReadFinding

KEY = "coupling.truck_trailer.down_share"


def findings(assessment: ByKey) -> list[ReadFinding]:
    return [found for found in assessment.findings if found.key == KEY]


def test_the_share_is_the_pin_over_the_loaded_trailer(assessed: Assessed) -> None:
    """1,340 kg of 6,400 kg on the day it was weighed: 20.9 %; the band of a fifth wheel is 15 to 25 %."""
    found = assessed("tamarack")
    figure = found.figure(KEY)

    assert figure.slack.endswith("usual 15 to 25 %")
    low, high = (float(entry.text.removesuffix(" %")) for entry in figure.inputs)
    assert low <= 100 * 1340 / 6400 <= high
    assert findings(found) == []
    assert "from memory" in figure.cautions[0]


def test_bars_on_are_said_only_where_there_are_bars(assessed: Assessed) -> None:
    with_bars, without = assessed("sandpiper").figure(KEY), assessed("tamarack").figure(KEY)

    assert any("bars on" in caution for caution in with_bars.cautions)
    assert not any("bars on" in caution for caution in without.cautions)


@pytest.mark.parametrize(
    ("down", "words"), [("500 lb", "under the usual 10 %"), ("1150 lb", "over the usual 15 %")]
)
def test_a_share_outside_its_band_is_an_attention(assessed: Assessed, down: str, words: str) -> None:
    """500 lb and 5,740 lb on the axles: 8.0 %; 1,150 lb: 16.7 %."""
    found = findings(assessed("sandpiper", ("down_load: 860 lb", f"down_load: {down}")))

    assert [(finding.grade, finding.order) for finding in found] == [("attention", 4)]
    assert words in found[0].text
    assert "manual" in found[0].what_helps


def test_a_towed_car_has_no_share(assessed: Assessed) -> None:
    assert assessed("larkspur").known("coupling.coach_car.down_share") is None
