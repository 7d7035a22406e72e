from datetime import date

import pytest

from binder.calculations.tires.pairs_and_age import (
    DateCode,
    PairedTire,
    age_on,
    age_verdict,
    default_out_age,
    dual_mismatches,
    hot_mates_apart,
    is_worn_out,
    made_from_date_code,
    minimum_dual_spacing,
    tread_floor,
)
from binder.quantities import registry

q = registry.Quantity


def tire(diameter: float, circumference: float, tread: float, pressure: float) -> PairedTire:
    return PairedTire(
        q(diameter, "inch"), q(circumference, "inch"), q(tread / 32, "inch"), q(pressure, "psi")
    )


BASE = tire(40, 125.6, 10, 95)


@pytest.mark.parametrize(
    ("mate", "expected"),
    [
        (tire(40.25, 126.35, 6, 90), ()),
        (tire(40.26, 125.6, 10, 95), ("diameter",)),
        (tire(40, 126.36, 10, 95), ("circumference",)),
        (tire(40, 125.6, 5, 95), ("tread",)),
        (tire(40, 125.6, 10, 100.1), ("pressure",)),
        (tire(39, 122, 3, 60), ("diameter", "circumference", "tread", "pressure")),
        (PairedTire(), ()),
    ],
)
def test_pair_is_judged_at_its_limits(mate: PairedTire, expected: tuple[str, ...]) -> None:
    """S45 (A), S48 (B): 1/4 in, 3/4 in, 4/32 in, 5 psi; equal is allowed."""
    assert dual_mismatches(BASE, mate) == expected
    assert dual_mismatches(mate, BASE) == expected


@pytest.mark.parametrize(
    ("thirty_seconds", "is_steering", "expected"),
    [(4, True, False), (3.9, True, True), (2, False, False), (1.9, False, True)],
)
def test_tread_under_its_floor_is_worn_out(
    thirty_seconds: float, *, is_steering: bool, expected: bool
) -> None:
    """49 CFR 393.75 (A)."""
    worn = is_worn_out(q(thirty_seconds * 25.4 / 32, "mm"), tread_floor(is_steering=is_steering))

    assert worn is expected


@pytest.mark.parametrize(
    ("size", "inches"), [("225/70R19.5", 10.0), ("11R22.5", 12.5), ("315/80R22.5", 13.8)]
)
def test_dual_spacing_is_as_printed(size: str, inches: float) -> None:
    """S45 (A)."""
    assert minimum_dual_spacing(size) == q(inches, "inch")


def test_dual_spacing_of_another_size_is_not_known() -> None:
    assert minimum_dual_spacing("LT235/85R16") is None


@pytest.mark.parametrize(("cold", "apart"), [(120, 12), (95, 9.5), (33, 3.3)])
def test_hot_mates_may_read_a_tenth_of_the_cold_fill_apart(cold: float, apart: float) -> None:
    """Practice: 10 % apart is a leak or a brake."""
    assert hot_mates_apart(q(cold, "psi")).m_as("psi") == pytest.approx(apart)


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
    assert age_verdict(q(age, "year"), q(out, "year"), q(7, "year")) == expected


@pytest.mark.parametrize(
    ("age", "expected"), [(6.99, "inspect yearly"), (7, "past its practice age"), (10, "out")]
)
def test_an_age_of_practice_never_forbids(age: float, expected: str) -> None:
    assert age_verdict(q(age, "year"), None, q(7, "year")) == expected


def test_default_ages_for_replacing() -> None:
    assert default_out_age(is_special_trailer=True, is_steering=False) == q(6, "year")
    assert default_out_age(is_special_trailer=False, is_steering=True) == q(7, "year")
    assert default_out_age(is_special_trailer=False, is_steering=False) == q(10, "year")
