import pytest

from binder.calculations.inflation_estimates import Family
from binder.calculations.load_tables import table_from
from binder.calculations.tire_ratings import (
    VehicleClass,
    derated_table,
    is_derated,
    load_of_index,
    ply_rating,
    rated_load,
    speed_limit,
    speed_of_symbol,
)
from binder.quantities import registry

q = registry.Quantity


@pytest.mark.parametrize("index", [-1, 201])
def test_load_index_outside_the_table_is_refused(index: int) -> None:
    with pytest.raises(KeyError):
        load_of_index(index)


@pytest.mark.parametrize(
    ("symbol", "km_h"), [("J", 100), ("K", 110), ("L", 120), ("M", 130), ("H", 210), ("Y", 300)]
)
def test_speed_symbol(symbol: str, km_h: float) -> None:
    """S27 (A) for J to M, S25 (B) for H and Y."""
    assert speed_of_symbol(symbol) == q(km_h, "km_h")


def test_remembered_speed_symbol_sets_no_limit() -> None:
    assert speed_of_symbol("F") is None


@pytest.mark.parametrize(("letter", "plies"), [("C", 6), ("E", 10), ("G", 14), ("J", 18), ("L", 20)])
def test_load_range(letter: str, plies: int) -> None:
    """S08 (B)."""
    assert ply_rating(letter) == plies


def test_stated_speed_rules_and_65_mph_stands_in_for_trailer_tires() -> None:
    stated = speed_limit(q(81, "mph"), "special trailer")
    assumed = speed_limit(None, "special trailer")

    assert stated is not None
    assert assumed is not None
    assert (stated.speed, stated.is_assumed) == (q(81, "mph"), False)
    assert (assumed.speed, assumed.is_assumed) == (q(65, "mph"), True)
    assert speed_limit(None, "truck") is None


@pytest.mark.parametrize(
    ("family", "stamped", "expected"),
    [
        ("light truck", 3042, 3042.0),
        ("light truck", None, None),
        (None, None, None),
        ("truck", 6175, 6175.0),
        ("truck", None, 3086.5),
    ],
)
def test_stamped_load_rules(family: Family | None, stamped: float | None, expected: float | None) -> None:
    load = rated_load(None if stamped is None else q(stamped, "pound"), 120, family)

    found = None if load is None else round(float(load.to("pound").m), 1)
    assert found == expected


@pytest.mark.parametrize(
    ("family", "vehicle", "is_placard", "expected"),
    [
        ("passenger P", "trailer, truck or multipurpose vehicle", False, True),
        ("passenger", "trailer, truck or multipurpose vehicle", False, True),
        ("passenger P", "trailer, truck or multipurpose vehicle", True, False),
        ("passenger P", "passenger car", False, False),
        ("light truck", "trailer, truck or multipurpose vehicle", False, False),
    ],
)
def test_derate_is_for_passenger_tires_off_cars_and_never_twice(
    family: Family, vehicle: VehicleClass, *, is_placard: bool, expected: bool
) -> None:
    assert is_derated(family, vehicle, is_placard=is_placard) is expected


def test_derated_table_keeps_its_pressures() -> None:
    table = derated_table(table_from([(32, 1940), (35, 2028)], "psi", "pound"))

    assert [row.pressure.m for row in table.rows] == [32, 35]
    assert [round(float(row.load.m), 1) for row in table.rows] == [1763.6, 1843.6]
