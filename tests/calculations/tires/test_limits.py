import pytest

from binder.calculations.tires.limits import VehicleClass, derated_table, is_derated, speed_limit
from binder.calculations.tires.load_tables import Family
from binder.quantities import registry
from tests.printed_tables import table_from

q = registry.Quantity


def test_stated_speed_rules_and_65_mph_stands_in_for_trailer_tires() -> None:
    stated = speed_limit(q(81, "mph"), "special trailer")
    assumed = speed_limit(None, "special trailer")

    assert stated is not None
    assert assumed is not None
    assert (stated.speed, stated.is_assumed) == (q(81, "mph"), False)
    assert (assumed.speed, assumed.is_assumed) == (q(65, "mph"), True)
    assert speed_limit(None, "truck") is None


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
