"""A spare ages like any tire: weeks by ISO 8601, inspection from 5 years (S50)."""

from datetime import date
from typing import Any

import pytest

from binder.assessment.tires.register import assess_spare_tires
from binder.models.load import Profile
from binder.models.located_yaml import Located
from binder.models.rig import Rig
from tests.by_key import ByKey, entered_by

ON = date(2026, 5, 25)


def assessed(spare: dict[str, str | None]) -> ByKey:
    written: dict[str, Any] = {
        "name": "Made up",
        "units": "us",
        "paper": "letter",
        "vehicles": {"coach": {"kind": "motorhome", "axles": {}}},
        "tires": {"coach tires": {"mounted": {"spare": spare}, "replace_after": "7 years"}},
    }
    profile = Profile("x", Rig.model_validate(written), Located("rig.yaml", ""))
    return entered_by(profile, ON, assess_spare_tires)


def test_a_spare_has_the_monday_of_its_week_and_its_age() -> None:
    found = assessed({"date_code": "0124", "tread": "12/32 in"})

    # ISO week 1 of 2024 begins on January 1; to May 25, 2026 that is 366 + 365 + 144 days.
    assert found.figure("tires.coach_tires.spare.made").value == date(2024, 1, 1)
    age = found.figure("tires.coach_tires.spare.age").quantity
    assert age is not None
    assert age.to("day").magnitude == 366 + 365 + 144
    assert not found.findings


@pytest.mark.parametrize(
    ("code", "grade", "words"),
    [
        ("2118", "attention", "Spare of the coach tires: 8.0 years old, past its age."),
        ("2120", "attention", "Spare of the coach tires: 6.0 years old."),
        (None, "missing", "Spare of the coach tires: its age is not known."),
        ("419", "missing", "Spare of the coach tires: its age is not known."),
    ],
)
def test_an_old_or_undated_spare_is_a_finding(code: str | None, grade: str, words: str) -> None:
    (finding,) = assessed({"date_code": code}).findings

    assert (finding.grade, finding.text) == (grade, words)
