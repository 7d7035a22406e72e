"""What `explain` says: found by words of people, and a rule that agrees with the numbers under it."""

from datetime import date

import pytest

from binder.printing.build import BuildOptions, read_and_assess
from binder.wording.record import explanation
from tests.demos import PROFILES

_LARKSPUR = PROFILES / "larkspur"


@pytest.fixture(scope="module")
def larkspur() -> object:
    return read_and_assess(_LARKSPUR, BuildOptions(date(2026, 6, 1)))


@pytest.mark.parametrize("asked", ["steer pressure", "Steer set point", "pressure steer", "steer cold fill"])
def test_a_number_is_found_by_words(larkspur: object, asked: str) -> None:
    assert "tires.coach.steer.set_point = 105 psi" in explanation(larkspur, asked)  # type: ignore[arg-type] # It is an assessment.


def test_words_that_no_number_has_find_nothing(larkspur: object) -> None:
    assert explanation(larkspur, "steer quaternion") == ""  # type: ignore[arg-type] # As above.


def test_the_rule_says_that_a_label_was_set_aside_where_the_answer_is_under_it(larkspur: object) -> None:
    text = explanation(larkspur, "tires.coach.steer.set_point")  # type: ignore[arg-type] # As above.

    assert "the row with margin, the label set aside (wheel ends weighed, ticket fit), at most" in text
    assert "the larger of" not in text
