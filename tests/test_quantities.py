"""What people may write as a quantity, what is refused, and that the units are the published ones.

Sources of the unit values: NIST Special Publication 811 (2008), appendix B.8, and NIST Handbook 44,
appendix C. Values marked there as exact are compared as exact.
"""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.quantities import (
    Dimension,
    Quantity,
    QuantityError,
    checks_dimensions,
    read_quantity,
    registry,
    round_down,
    round_up,
)
from binder.quantities import dimensions as q

_NOT_PLAIN = "which is no plain letter, digit or space; write it like '26000 lb'"


def _in(quantity: Quantity, unit: str) -> float:
    return float(quantity.to(unit).magnitude)


@pytest.mark.parametrize(
    ("text", "dimension", "value", "unit"),
    [
        ("12 ft 6 in", q.LENGTH, 150, "inch"),
        ("12 ft 6 1/2 in", q.LENGTH, 150.5, "inch"),
        ("38ft 4in", q.LENGTH, 460, "inch"),
        ("11/32 in", q.LENGTH, 0.34375, "inch"),
        ("125 1/2 in", q.LENGTH, 125.5, "inch"),
        ("-36 in", q.PLACE, -36, "inch"),
        ("-1 1/2 in", q.PLACE, -1.5, "inch"),
        ("3.95 m", q.LENGTH, 3.95, "meter"),
        ("26000 lb", q.MASS, 26000, "pound"),
        ("26,000 lb", q.MASS, 26000, "pound"),
        ("1,026,000.5 lb", q.MASS, 1026000.5, "pound"),
        ("6350 kg", q.MASS, 6350, "kilogram"),
        ("110 psi", q.PRESSURE, 110, "psi"),
        ("110psi", q.PRESSURE, 110, "psi"),
        ("110 PSI", q.PRESSURE, 110, "psi"),
        ("5.5 bar", q.PRESSURE, 550, "kilopascal"),
        ("550 kPa", q.PRESSURE, 5.5, "bar"),
        ("475 ft*lb", q.TORQUE, 475, "foot * pound_force"),
        ("165 lb-ft", q.TORQUE, 165, "foot * pound_force"),
        ("100 ft lbs", q.TORQUE, 100, "foot * pound_force"),
        ("26250 lb*in", q.TORQUE, 26250, "inch * pound_force"),
        ("8.0 mpg", q.FUEL_USE, 1 / 8, "gallon / mile"),
        ("30 L/100km", q.FUEL_USE, 0.3, "liter / kilometer"),
        ("14 gal/day", q.VOLUME_RATE, 14, "gallon / day"),
        ("34 degF", q.TEMPERATURE, 34, "degree_Fahrenheit"),
        ("-40 degF", q.TEMPERATURE, -40, "degree_Celsius"),
        ("50 deg", q.ANGLE, math.radians(50), ""),
        ("150 kW", q.POWER, 150, "kilowatt"),
        ("6 months", q.TIME, 0.5, "year"),
        ("2 h 15 min", q.DURATION, 135, "minute"),
        ("2:20", q.DURATION, 140, "minute"),
        ("45 min", q.DURATION, 0.75, "hour"),
        ("1 hour and 5 minutes", q.DURATION, 65, "minute"),
        ("2h15", q.DURATION, 135, "minute"),
        ("-282 ft", q.ELEVATION, -282, "foot"),
        ("250 h", q.TIME, 250, "hour"),
        ("45 min", q.TIME, 0.75, "hour"),
        ("0 h/day", q.RATIO_OF_TIMES, 0, ""),
        ("12 h/day", q.RATIO_OF_TIMES, 0.5, ""),
        ("60 %", q.SHARE, 0.6, ""),
        ("60%", q.SHARE, 0.6, ""),
        ("220 Ah", q.CHARGE, 220, "ampere_hour"),
    ],
)
def test_what_people_write_is_read(text: str, dimension: Dimension, value: float, unit: str) -> None:
    assert _in(dimension.read(text), unit) == pytest.approx(value, rel=1e-12, abs=1e-9)


@pytest.mark.parametrize(
    ("text", "dimension", "said"),
    [
        ("26000", q.MASS, "'26000' has no unit; write it like '26000 lb'"),
        ("3/4", q.VOLUME, "'3/4' has no unit; write it like '90 gal'"),
        ("5,5 bar", q.PRESSURE, "'5,5 bar' has a decimal comma; write it with a point, like '5.5 bar'"),
        ("1 500 kg", q.MASS, "'1 500 kg' has a space inside its number; write it like '1500 kg'"),
        ("38 F", q.TEMPERATURE, "'38 F': 'F' is not a unit here; write it like '34 degF'"),
        ("nan lb", q.MASS, "'nan lb' is not a weight; write it like '26000 lb'"),
        ("inf lb", q.MASS, "'inf lb' is not a weight; write it like '26000 lb'"),
        ("1_000 lb", q.MASS, "'1_000 lb': '_000 lb' is not a unit here; write it like '26000 lb'"),
        ("1e3 lb", q.MASS, "'1e3 lb': 'e3 lb' is not a unit here; write it like '26000 lb'"),
        ("2**9999 lb", q.MASS, "'2**9999 lb': '**9999 lb' is not a unit here; write it like '26000 lb'"),
        ("1/0 in", q.LENGTH, "'1/0 in': '/0 in' is not a unit here; write it like '12 ft 6 in'"),
        ("1 1/0 in", q.LENGTH, "'1 1/0 in': '1/0 in' is not a unit here; write it like '12 ft 6 in'"),
        (
            "12 ft 14 in",
            q.LENGTH,
            "'12 ft 14 in' has 12 inches or more beside its feet; write it like '12 ft 6 in'",
        ),
        ("12'6\"", q.LENGTH, "'12'6\"': ''6\"' is not a unit here; write it like '12 ft 6 in'"),
        ("5 M", q.LENGTH, "'5 M': 'M' is not a unit here; write it like '12 ft 6 in'"),
        ("95 psig", q.PRESSURE, "'95 psig': 'psig' is not a unit here; write it like '110 psi'"),
        ("0 mpg", q.FUEL_USE, "'0 mpg' must be more than zero"),
        ("-5 lb", q.MASS, "'-5 lb' is below zero; a weight here is not, like '26000 lb'"),
        ("5 lb 3", q.MASS, "'5 lb 3': 'lb 3' is not a unit here; write it like '26000 lb'"),
        ("", q.MASS, "'' is not a weight; write it like '26000 lb'"),
        ("lb", q.MASS, "'lb' is not a weight; write it like '26000 lb'"),
        ("9" * 13 + " lb", q.MASS, f"'{'9' * 13} lb': '9 lb' is not a unit here; write it like '26000 lb'"),
        ("9" * 41, q.MASS, "'999999999999...' is too long for a weight, like '26000 lb'"),
        ("50 %", q.ANGLE, "'50 %' is a share; an angle is needed here, like '50 deg'"),
        ("60 deg", q.SHARE, "'60 deg' is an angle; a share is needed here, like '60 %'"),
        ("26250 lb*in", q.PRESSURE, "'26250 lb*in' is a torque; a pressure is needed here, like '110 psi'"),
        (
            "26000\u00a0lb",
            q.MASS,
            "'26000\u00a0lb' holds '\u00a0' (U+00A0), " + _NOT_PLAIN,
        ),
        (
            "\uff11\uff10 lb",
            q.MASS,
            "'\uff11\uff10 lb' holds '\uff11' (U+FF11), " + _NOT_PLAIN,
        ),
    ],
)
def test_what_is_no_quantity_is_refused(text: str, dimension: Dimension, said: str) -> None:
    with pytest.raises(QuantityError) as raised:
        dimension.read(text)

    assert str(raised.value) == said


@pytest.mark.parametrize(
    ("one", "value", "unit"),
    [
        ("1 lb", 0.45359237, "kilogram"),  # Exact.
        ("1 in", 0.0254, "meter"),  # Exact.
        ("1 ft", 0.3048, "meter"),  # Exact.
        ("1 mi", 1609.344, "meter"),  # Exact.
        ("1 gal", 3.785411784, "liter"),  # Exact.
        ("1 qt", 0.946352946, "liter"),  # Exact.
        ("1 pt", 0.473176473, "liter"),  # Exact.
        ("1 fl oz", 29.5735295625e-3, "liter"),  # Exact.
        ("1 bar", 100, "kilopascal"),  # Exact.
        ("1 t", 1000, "kilogram"),  # Exact.
        ("1 mph", 1.609344, "kilometer_per_hour"),  # Exact.
        ("32 degF", 0, "degree_Celsius"),  # Exact.
        ("212 degF", 100, "degree_Celsius"),  # Exact.
        ("1 psi", 6.894757293168361, "kilopascal"),
        ("1 ft*lb", 1.3558179483314004, "newton * meter"),
        ("1 in*lb", 0.1129848290276167, "newton * meter"),
        ("1 hp", 745.6998715822702, "watt"),
    ],
)
def test_units_are_the_published_ones(one: str, value: float, unit: str) -> None:
    number, word = one.split(" ", 1)
    dimension = q.UNITS[word].dimension
    assert dimension is not None

    assert _in(read_quantity(f"{number} {word}", dimension), unit) == pytest.approx(
        value, rel=1e-12, abs=1e-9
    )


def test_liters_per_hundred_kilometers_are_miles_per_gallon_turned_over() -> None:
    """NIST SP 811 B.8: miles a gallon to liters a hundred kilometers, divide 235.215 by it."""
    use = q.FUEL_USE.read("10 mpg")

    assert _in(use, "liter / kilometer") * 100 == pytest.approx(23.5215, abs=0.00005)


@given(st.text(max_size=45))
def test_any_text_is_read_or_refused(text: str) -> None:
    try:
        quantity = q.MASS.read(text)
    except QuantityError:
        return  # Refused; any other exception fails the test.

    assert q.MASS.measures(quantity)
    assert 0 <= quantity.magnitude < 1e13
    assert text.isascii()


@given(st.integers(0, 999_999_999), st.sampled_from(["lb", "kg", "t"]))
def test_grouped_and_plain_numbers_are_the_same(number: int, unit: str) -> None:
    assert q.MASS.read(f"{number:,} {unit}") == q.MASS.read(f"{number} {unit}")


@given(st.integers(0, 60), st.integers(0, 11), st.integers(0, 31))
def test_feet_and_inches_add_up(feet: int, inches: int, parts: int) -> None:
    read = q.LENGTH.read(f"{feet} ft {inches} {parts}/32 in")

    assert _in(read, "inch") == pytest.approx(12 * feet + inches + parts / 32, abs=1e-9)


@given(st.floats(0, 1e6), st.sampled_from([0.1, 0.5, 1.0, 5.0, 20.0]))
def test_rounding_never_crosses_the_number(value: float, step: float) -> None:
    up, down = round_up(value, step), round_down(value, step)

    assert up >= value - 1e-8 * step
    assert down <= value + 1e-8 * step
    assert up - down <= step * (1 + 1e-6)


def test_every_written_unit_has_one_meaning() -> None:
    """Capitals are forgiven, so no two words may differ by capitals alone, unless they mean the same."""
    words = sorted((word for word in q.UNITS if len(word) > 1), key=str.lower)

    clashes = [pair for pair in pairwise(words) if pair[0].lower() == pair[1].lower()]

    assert clashes == []


def test_call_with_another_dimension_is_a_bug_of_ours() -> None:
    @checks_dimensions
    def doubled(load: q.Mass) -> q.Mass:
        return registry.Quantity(load.magnitude * 2, load.units)

    assert doubled(registry.Quantity(1.0, "pound")) == registry.Quantity(2.0, "pound")
    with pytest.raises(TypeError, match=r"doubled: load must be a weight, not 2\.0 psi"):
        doubled(registry.Quantity(2.0, "psi"))
    with pytest.raises(TypeError, match="doubled: load must be a weight, not 3"):
        doubled(3)  # type: ignore[arg-type]
