from datetime import date

import pytest

from binder.calculations.tire_age import (
    DateCode,
    age_on,
    age_verdict,
    default_out_age,
    made_from_date_code,
)
from binder.quantities import registry

q = registry.Quantity


@pytest.mark.parametrize(
    ("code", "expected"),
    [
        (None, DateCode.NOT_FOUND),
        ("", DateCode.NOT_FOUND),
        ("  ", DateCode.NOT_FOUND),
        ("0024", DateCode.IMPOSSIBLE),
        ("5423", DateCode.IMPOSSIBLE),
        ("549", DateCode.IMPOSSIBLE),
        ("12", DateCode.IMPOSSIBLE),
        ("14234", DateCode.IMPOSSIBLE),
        ("14 23", DateCode.IMPOSSIBLE),
        ("\u0661\u0664\u0662\u0663", DateCode.IMPOSSIBLE),
        ("DOT1", DateCode.IMPOSSIBLE),
        ("239", DateCode.BEFORE_2000),
        ("539", DateCode.BEFORE_2000),
        ("1423", DateCode.DATED),
        ("5320", DateCode.DATED),
    ],
)
def test_date_code_reads(code: str | None, expected: DateCode) -> None:
    made = made_from_date_code(code)

    assert made.code is expected
    assert (made.week_begins is not None) == (expected is DateCode.DATED)


def test_week_53_of_a_year_of_52_counts_as_its_last() -> None:
    assert made_from_date_code("5323").week_begins == date(2023, 12, 25)


def test_tire_of_the_future_has_no_age() -> None:
    assert age_on(date(2026, 6, 2), date(2026, 6, 1)) is None
    assert age_on(date(2026, 6, 1), date(2026, 6, 1)) == q(0, "day")


@pytest.mark.parametrize(
    ("age", "out", "expected"),
    [
        (4.99, 10, "fit"),
        (5, 10, "inspect yearly"),
        (6.99, 7, "inspect yearly"),
        (7, 7, "out"),
        (10, 12, "out"),
        (4, 3, "out"),
    ],
)
def test_age_asks_for(age: float, out: float, expected: str) -> None:
    assert age_verdict(q(age, "year"), q(out, "year")) == expected


def test_default_ages_for_replacing() -> None:
    assert default_out_age(is_special_trailer=True, is_steering=False) == q(6, "year")
    assert default_out_age(is_special_trailer=False, is_steering=True) == q(7, "year")
    assert default_out_age(is_special_trailer=False, is_steering=False) == q(10, "year")
