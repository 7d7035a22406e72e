"""A level the plan states on reaching a stop is held against what its own distances and uses leave."""

import pytest

from tests.assessment.conftest import Assessed

REACHED = "arriving: {coach: {diesel: 88 gal, exhaust fluid: 14.7 gal}}"


@pytest.mark.parametrize(
    ("stated", "told"),
    [
        # 100 gal less 96 mi at 8 mpg are 88 gal, by hand; 15 % of the tank are 15 gal.
        ("74 gal", []),
        ("72 gal", ["Day 1, on the way to Baker City, Oregon: the plan says 72 gal of diesel, "]),
        # Under the reserve: that is told, and once is enough.
        ("7 gal", []),
    ],
)
def test_one_far_off_is_told_beside_the_one_that_was_walked(
    assessed: Assessed, stated: str, told: list[str]
) -> None:
    found = assessed("larkspur", trip=((REACHED, REACHED.replace("88 gal", stated)),))

    texts = [finding.text for finding in found.findings if "the plan says" in finding.text]
    assert texts == [f"{text}by its own use and distance 88 gal." for text in told]
