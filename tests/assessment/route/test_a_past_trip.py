"""A plan whose days are over is told, and what must last is held against today."""

from datetime import date

from tests.assessment.conftest import Assessed

OVER = "The trip was over on 2026-06-06, before the effective date, 2026-06-07."


def test_a_trip_is_over_from_the_day_after_its_last(assessed: Assessed) -> None:
    last_day, day_after = (
        [finding.text for finding in assessed("larkspur", on=on).findings]
        for on in (date(2026, 6, 6), date(2026, 6, 7))
    )

    assert not any(text.startswith("The trip was over") for text in last_day)
    assert OVER in day_after


def test_what_expired_after_a_past_trip_expired_before_today(assessed: Assessed) -> None:
    texts = [finding.text for finding in assessed("tamarack", on=date(2026, 11, 25)).findings]

    assert "First-aid kit has expired on 2026-09-12, before the effective date." in texts
