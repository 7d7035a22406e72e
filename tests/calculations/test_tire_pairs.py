import pytest

from binder.calculations.tire_pairs import (
    PairedTire,
    are_hot_mates_apart,
    dual_mismatches,
    is_hotter_than_mate,
    is_worn_out,
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


@pytest.mark.parametrize(("mate", "expected"), [(108.1, False), (108, True), (133, False), (133.4, True)])
def test_hot_mates(mate: float, *, expected: bool) -> None:
    assert are_hot_mates_apart(q(120, "psi"), q(mate, "psi")) is expected


def test_hotter_than_its_mate_from_25_degrees_on() -> None:
    assert is_hotter_than_mate(q(145, "degF"), q(120, "degF"))
    assert not is_hotter_than_mate(q(144.9, "degF"), q(120, "degF"))
    assert not is_hotter_than_mate(q(120, "degF"), q(145, "degF"))
